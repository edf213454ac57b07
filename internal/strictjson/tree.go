package strictjson

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"sort"
	"unicode/utf8"
)

// Limits on what is read at all.
const (
	maxBytes = 4 << 20
	maxDepth = 32
)

// node is a JSON value with the place it stands at.
type node struct {
	offset int64
	value  any   // string, json.Number, bool, nil, *object or []node
	home   *home // where it stands if not below what is above it
}

type object struct {
	names  []string // in the order of the file
	fields map[string]node
	twice  []twice
}

type twice struct {
	name   string
	offset int64
}

// Document is a JSON file read as a tree, before it is given a meaning.
type Document struct {
	root node
	*file
}

// file is where a document was read from.
type file struct {
	name  string  // none for the file that a fault is told of anyway
	lines []int64 // offset of the start of each line
}

// Parse reads a whole file. The error is a *Fault that wraps ErrTooLarge,
// ErrTooDeep or ErrMalformed and names the line.
func Parse(r io.Reader) (*Document, error) {
	text, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return nil, &Fault{Err: input("", "", err, "a file that can be read")}
	}
	if len(text) > maxBytes {
		return nil, &Fault{Err: input("", "", ErrTooLarge, fmt.Sprintf("at most %d MiB", maxBytes>>20))}
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff")) // some editors put a byte order mark first
	d := &Document{file: &file{lines: []int64{0}}}
	for i, c := range text {
		if c == '\n' {
			d.lines = append(d.lines, int64(i+1))
		}
	}
	if !utf8.Valid(text) {
		at := 0
		for at < len(text) {
			r, n := utf8.DecodeRune(text[at:])
			if r == utf8.RuneError && n == 1 {
				break
			}
			at += n
		}
		return nil, d.fault(int64(at), ErrMalformed, "a file in UTF-8: save it so")
	}
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.UseNumber()
	d.root, err = d.read(dec, text, 0)
	if err != nil {
		return nil, err
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return nil, d.fault(start(text, dec.InputOffset()), ErrMalformed, "nothing after the closing bracket")
	}
	return d, nil
}

func (f *file) line(offset int64) int {
	return sort.Search(len(f.lines), func(i int) bool { return f.lines[i] > offset })
}

func (d *Document) fault(offset int64, err error, want string) error {
	return &Fault{Line: d.line(offset), Err: input("", "", err, want)}
}

// start skips to the first byte of the next value, for its line.
func start(text []byte, at int64) int64 {
	for at < int64(len(text)) && bytes.IndexByte([]byte(" \t\r\n,:"), text[at]) >= 0 {
		at++
	}
	return at
}

func (d *Document) read(dec *json.Decoder, text []byte, depth int) (node, error) {
	at := start(text, dec.InputOffset())
	tok, err := dec.Token()
	if err != nil {
		return node{}, d.malformed(err, at, text)
	}
	n := node{offset: at, value: tok}
	delim, ok := tok.(json.Delim)
	if !ok {
		return n, nil
	}
	if depth >= maxDepth {
		return node{}, d.fault(at, ErrTooDeep, fmt.Sprintf("at most %d brackets within each other", maxDepth))
	}
	if delim == '[' {
		list := []node{}
		for dec.More() {
			v, err := d.read(dec, text, depth+1)
			if err != nil {
				return node{}, err
			}
			list = append(list, v)
		}
		n.value = list
	} else {
		o := &object{fields: map[string]node{}}
		for dec.More() {
			nameAt := start(text, dec.InputOffset())
			tok, err := dec.Token()
			if err != nil {
				return node{}, d.malformed(err, nameAt, text)
			}
			name, _ := tok.(string) // the decoder takes nothing else here
			v, err := d.read(dec, text, depth+1)
			if err != nil {
				return node{}, err
			}
			if _, dup := o.fields[name]; dup {
				o.twice = append(o.twice, twice{name, nameAt})
				continue
			}
			o.names = append(o.names, name)
			o.fields[name] = v
		}
		n.value = o
	}
	at = start(text, dec.InputOffset())
	if _, err := dec.Token(); err != nil { // the closing bracket
		return node{}, d.malformed(err, at, text)
	}
	return n, nil
}

// malformed words a syntax error found at or after offset at. The offset
// that a token error carries means one thing or another, so the text is read
// again by the plain scanner, whose offset is the count of bytes it took.
func (d *Document) malformed(err error, at int64, text []byte) error {
	var raw json.RawMessage
	var se *json.SyntaxError
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return d.fault(max(int64(len(text))-1, 0), ErrMalformed, "JSON text: it ends too early")
	}
	if again := json.Unmarshal(text, &raw); errors.As(again, &se) {
		return d.fault(max(se.Offset-1, 0), ErrMalformed, "JSON text: "+se.Error())
	}
	return d.fault(at, ErrMalformed, "JSON text")
}
