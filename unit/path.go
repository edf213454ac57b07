package unit

import (
	"strconv"
	"strings"
)

// Path is the place of a field in an input: pieces[2].width is the width of
// the third of pieces. The zero value is the input itself.
//
//	path  = step { "." name | index } .
//	step  = name | index .
//	name  = one or more characters, no point .
//	index = "[" whole number from 0 "]" .
//
// Brackets without such a number belong to the name.
type Path string

// At gives the place of element i of a list: pieces becomes pieces[2].
func (p Path) At(i int) Path { return p + "[" + Path(strconv.Itoa(i)) + "]" }

// Dot gives the place of name within p: pieces[2] and width become
// pieces[2].width. Either may be empty, and name may begin with an index.
func (p Path) Dot(name Path) Path {
	switch {
	case name == "":
		return p
	case p == "" || name[0] == '[':
		return p + name
	}
	return p + "." + name
}

// Head takes the first name off, with the index that follows it:
// pieces[2].width gives pieces, 2, true and width. A path that begins with an
// index has an empty name. Of a well-formed path nothing is lost:
// Path(name).At(index).Dot(rest), or without At when not indexed, is p again.
func (p Path) Head() (name string, index int, indexed bool, rest Path) {
	end := strings.IndexByte(string(p), '.')
	if end < 0 {
		end = len(p)
	}
	for i := range end {
		if p[i] != '[' {
			continue
		}
		if n, width, ok := leadingIndex(string(p[i:])); ok {
			return string(p[:i]), n, true, afterPoint(p[i+width:])
		}
	}
	return string(p[:end]), 0, false, afterPoint(p[end:])
}

// leadingIndex reads [2] at the start of s, as At writes it.
func leadingIndex(s string) (n, width int, ok bool) {
	end := strings.IndexByte(s, ']')
	if end < 2 || s[1] == '0' && end > 2 {
		return 0, 0, false
	}
	for _, c := range []byte(s[1:end]) {
		if !isDigit(c) {
			return 0, 0, false
		}
	}
	n, err := strconv.Atoi(s[1:end])
	return n, end + 1, err == nil
}

func afterPoint(p Path) Path { return Path(strings.TrimPrefix(string(p), ".")) }

// Under tells whether p is prefix or lies within it: pieces[2].width is under
// pieces and pieces[2], not under pieces[2].wid. All lies under the empty
// path.
func (p Path) Under(prefix Path) bool {
	rest, ok := strings.CutPrefix(string(p), string(prefix))
	return ok && (prefix == "" || rest == "" || rest[0] == '.' || rest[0] == '[')
}
