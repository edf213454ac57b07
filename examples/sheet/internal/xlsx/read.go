package xlsx

import (
	"encoding/xml"
	"errors"
	"io"
	"strconv"
	"strings"
)

// Kind is what a cell holds.
type Kind int

// The kinds of cells.
const (
	Empty Kind = iota
	Number
	Text
	Truth
	Fault // an error such as #N/A
)

// Value is what a cell holds, as the file has it: of a formula its stored result.
type Value struct {
	Kind    Kind
	Text    string
	Formula bool
}

// Read gives the values of cells of a sheet; a cell that is not in the file is empty.
func (b *Book) Read(name string, cells []Cell) (map[Cell]Value, error) {
	s, ok := b.sheet(name)
	if !ok {
		return nil, damaged("it has no sheet %q", name)
	}
	out := map[Cell]Value{}
	for _, c := range cells {
		out[c] = Value{}
	}
	shared := map[int][]Cell{}
	b.left = MostUnpacked
	err := b.pass(s, nil, io.Discard, func(c *cell) {
		if _, wanted := out[c.at]; !wanted {
			return
		}
		v := c.value()
		out[c.at] = v
		if kind, _ := attr(c.start, "t"); kind == "s" {
			if i, err := strconv.Atoi(v.Text); err == nil {
				shared[i] = append(shared[i], c.at)
			}
		}
	})
	if err != nil || len(shared) == 0 {
		return out, err
	}
	return out, b.sharedTexts(func(i int, text string) {
		for _, c := range shared[i] {
			v := out[c]
			v.Text = text
			out[c] = v
		}
	})
}

// value tells what the file has for a cell.
func (c *cell) value() Value {
	v := Value{Text: c.text.String(), Formula: c.formula}
	if v.Text == "" {
		return v
	}
	switch kind, _ := attr(c.start, "t"); kind {
	case "", "n":
		v.Kind = Number
	case "b":
		v.Kind = Truth
	case "e":
		v.Kind = Fault
	default:
		v.Kind = Text
	}
	return v
}

// sharedTexts goes through the texts that cells share.
func (b *Book) sharedTexts(each func(i int, text string)) error {
	_, byKind, err := b.relations(b.main)
	if err != nil {
		return err
	}
	r, err := b.unpack(byKind["sharedStrings"])
	if err != nil {
		return err
	}
	defer r.Close() //nolint:errcheck // only read
	s := newScanner("sharedStrings", r)
	var text strings.Builder
	at := 0
	for {
		t, _, err := s.next()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		switch x := t.(type) {
		case xml.StartElement:
			switch {
			case x.Name.Local == "si" && len(s.open) == 2:
				text.Reset()
			case x.Name.Local == "t" && text.Len() < mostElement:
				more, err := s.text()
				if err != nil {
					return err
				}
				text.WriteString(more)
			}
		case xml.EndElement:
			if x.Name.Local == "si" && len(s.open) == 1 {
				each(at, text.String())
				at++
			}
		}
	}
}
