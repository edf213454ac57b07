package carry

import (
	"regexp"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

// reference is a place in a formula: a sheet, if it names one, and a cell or a range of
// cells, of whole rows or of whole columns.
var reference = regexp.MustCompile(`^((?:'(?:[^']|'')+'|[\p{L}_\\][\p{L}\p{N}_.\\]*)!)?(?:(\$?)([A-Za-z]{1,3})(\$?)([0-9]{1,7})(?::(\$?)([A-Za-z]{1,3})(\$?)([0-9]{1,7}))?)`)

// corner is a cell of a reference as it is written: $B7.
type corner struct {
	xlsx.Cell
	column, row bool // they stand fast
}

func (c corner) String() string {
	s := c.Cell.String()
	i := strings.IndexAny(s, "0123456789")
	dollar := func(fast bool) string {
		if fast {
			return "$"
		}
		return ""
	}
	return dollar(c.column) + s[:i] + dollar(c.row) + s[i:]
}

// spot is a reference of a formula.
type spot struct {
	sheet       string // with its quotes and mark, as it is written, or nothing
	first, last corner
	two         bool
}

func (p spot) String() string {
	if p.two {
		return p.sheet + p.first.String() + ":" + p.last.String()
	}
	return p.sheet + p.first.String()
}

// eachSpot hands over all references of a formula and puts in their place what comes
// back. Texts, names and functions that look like cells are left alone.
func eachSpot(formula string, change func(spot) string) string {
	var out strings.Builder
	for i := 0; i < len(formula); {
		if formula[i] == '"' { // a text
			end := i + 1
			for end < len(formula) {
				if formula[end] == '"' {
					if end+1 < len(formula) && formula[end+1] == '"' {
						end += 2
						continue
					}
					break
				}
				end++
			}
			end = min(end+1, len(formula))
			out.WriteString(formula[i:end])
			i = end
			continue
		}
		if n := wordEnd(formula, i); n > i {
			word := formula[i:n]
			if p, length, ok := spotAt(formula[i:]); ok && !inName(formula, i, i+length) {
				out.WriteString(change(p))
				i += length
				continue
			}
			out.WriteString(word)
			i = n
			continue
		}
		out.WriteByte(formula[i])
		i++
	}
	return out.String()
}

// wordEnd gives the end of a word, or of a quoted name, that begins at a place.
func wordEnd(s string, i int) int {
	if s[i] == '\'' {
		for k := i + 1; k < len(s); k++ {
			if s[k] == '\'' {
				if k+1 < len(s) && s[k+1] == '\'' {
					k++
					continue
				}
				return k + 1
			}
		}
		return len(s)
	}
	k := i
	for k < len(s) && (s[k] >= 'a' && s[k] <= 'z' || s[k] >= 'A' && s[k] <= 'Z' || s[k] >= '0' && s[k] <= '9' || s[k] >= 0x80 || strings.IndexByte("$_.\\", s[k]) >= 0) {
		k++
	}
	return k
}

// spotAt reads a reference at the beginning of a text.
func spotAt(s string) (spot, int, bool) {
	m := reference.FindStringSubmatchIndex(s)
	if m == nil {
		return spot{}, 0, false
	}
	group := func(i int) string {
		if m[2*i] < 0 {
			return ""
		}
		return s[m[2*i]:m[2*i+1]]
	}
	p := spot{sheet: group(1), two: m[2*7] >= 0}
	a, ok := xlsx.ParseArea(group(3) + group(5))
	if !ok {
		return spot{}, 0, false
	}
	p.first = corner{a.Cell, group(2) != "", group(4) != ""}
	if p.two {
		if a, ok = xlsx.ParseArea(group(7) + group(9)); !ok {
			return spot{}, 0, false
		}
		p.last = corner{a.Cell, group(6) != "", group(8) != ""}
	}
	return p, m[1], true
}

// inName tells whether what looks like a reference is part of a longer word, a function,
// or belongs to another file or a table.
func inName(s string, from, to int) bool {
	if to < len(s) && (wordEnd(s, to) > to && s[to] != '\'' || strings.IndexByte("(![", s[to]) >= 0) {
		return true
	}
	return from > 0 && (strings.IndexByte("]!", s[from-1]) >= 0 || s[from-1] == ':' && strings.Contains(s[from:to], "!"))
}

// sheetOf gives the sheet that a reference names.
func (p spot) sheetOf() string {
	s := strings.TrimSuffix(p.sheet, "!")
	if strings.HasPrefix(s, "'") {
		s = strings.ReplaceAll(strings.Trim(s, "'"), "''", "'")
	}
	return s
}

// shifted gives a formula as it is in a cell so many columns and rows away.
func shifted(formula string, columns, rows int) string {
	move := func(c corner) (corner, bool) {
		if !c.column {
			c.Column += columns
		}
		if !c.row {
			c.Row += rows
		}
		return c, c.Column >= 1 && c.Column <= xlsx.MostColumns && c.Row >= 1 && c.Row <= xlsx.MostRows
	}
	return eachSpot(formula, func(p spot) string {
		var a, b bool
		p.first, a = move(p.first)
		if p.last, b = move(p.last); p.two && !b || !a {
			return "#REF!"
		}
		return p.String()
	})
}
