package xlsx

import (
	"archive/zip"
	"bufio"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Taken says why a cell is not written.
type Taken int

// The reasons.
const (
	Formula Taken = iota // a formula stands in it or fills it
	Merged               // it lies under a merged cell
)

// TakenError is a cell that is not written.
type TakenError struct {
	Sheet string
	Cell  Cell
	Why   Taken
}

// Error says what stands in the way.
func (e *TakenError) Error() string {
	if e.Why == Merged {
		return fmt.Sprintf("would write %s %s, which lies under a merged cell", e.Sheet, e.Cell)
	}
	return fmt.Sprintf("would overwrite the formula in %s %s", e.Sheet, e.Cell)
}

// Write writes the workbook with changed cells: by the name of the sheet and
// the cell a string, a float64, an int, or nil to empty it. Formats stay.
// Stored results of formulas are dropped, so that the next program that opens
// the file works them out; all parts that hold no cells are copied as they are.
func (b *Book) Write(w io.Writer, changes map[string]map[Cell]any) error {
	of := map[string]map[Cell]any{}
	for name, cells := range changes {
		s, ok := b.sheet(name)
		if !ok {
			return damaged("it has no sheet %q", name)
		}
		of[s.name] = cells
	}
	sheets := map[string]sheet{}
	for _, s := range b.sheets {
		sheets[strings.ToLower(s.part)] = s
	}
	b.left = MostUnpacked
	out := zip.NewWriter(w)
	for _, f := range b.zip.File {
		name := strings.ToLower(f.Name)
		s, cells := sheets[name]
		if !cells && name != strings.ToLower(b.main) {
			if err := out.Copy(f); err != nil {
				return damaged("%s: %v", f.Name, err)
			}
			continue
		}
		header := &zip.FileHeader{Name: f.Name, Method: zip.Deflate}
		if f.Modified.Year() >= 1980 { // one that was set
			header.Modified = f.Modified
		}
		part, err := out.CreateHeader(header)
		if err != nil {
			return err
		}
		if cells {
			err = b.pass(s, of[s.name], part, nil)
		} else {
			err = b.writeMain(part)
		}
		if err != nil {
			return err
		}
	}
	return out.Close()
}

// writeMain copies the part of the workbook and asks for all formulas to be
// worked out when it is opened.
func (b *Book) writeMain(w io.Writer) error {
	r, err := b.unpack(b.main)
	if err != nil {
		return err
	}
	defer r.Close() //nolint:errcheck // only read
	const onLoad = "fullCalcOnLoad"
	s := newScanner(b.main, r)
	out := bufio.NewWriter(w)
	for {
		t, raw, err := s.next()
		if errors.Is(err, io.EOF) {
			return out.Flush()
		}
		if err != nil {
			return err
		}
		if e, ok := t.(xml.StartElement); ok && e.Name.Local == "calcPr" && len(s.open) == 2 {
			e.Attr = append(slices.DeleteFunc(e.Attr, func(a xml.Attr) bool { return a.Name.Local == onLoad }), xml.Attr{Name: xml.Name{Local: onLoad}, Value: "1"})
			writeStart(out, e, "", closed(raw))
			raw = nil
		}
		out.Write(raw) //nolint:errcheck // kept by the writer
		if e, ok := t.(xml.EndElement); ok && !b.calc && e.Name.Local == "definedNames" && len(s.open) == 1 {
			tag := full(xml.Name{Space: e.Name.Space, Local: "calcPr"})
			out.WriteString("<" + tag + " " + onLoad + `="1"/>`) //nolint:errcheck // kept by the writer
		}
	}
}

// closed tells whether a tag closes itself.
func closed(tag []byte) bool { return bytes.HasSuffix(tag, []byte("/>")) }

// writeStart writes the tag of an element, without one of its attributes.
func writeStart(w *bufio.Writer, e xml.StartElement, without string, closed bool) {
	w.WriteString("<" + full(e.Name)) //nolint:errcheck // kept by the writer, as below
	for _, a := range e.Attr {
		if a.Name.Space == "" && a.Name.Local == without {
			continue
		}
		w.WriteString(" " + full(a.Name) + `="`) //nolint:errcheck // as above
		xml.EscapeText(w, []byte(a.Value))       //nolint:errcheck // as above
		w.WriteByte('"')                         //nolint:errcheck // as above
	}
	if closed {
		w.WriteByte('/') //nolint:errcheck // as above
	}
	w.WriteByte('>') //nolint:errcheck // as above
}

// code is what a reader takes for a character that is written by its number.
var code = regexp.MustCompile(`_x[0-9A-Fa-f]{4}_`)

// writeCell writes a cell of its own.
func writeCell(w *bufio.Writer, prefix string, at Cell, style string, v any) {
	tag := func(name string) string { return full(xml.Name{Space: prefix, Local: name}) }
	e := xml.StartElement{Name: xml.Name{Space: prefix, Local: "c"}, Attr: []xml.Attr{{Name: xml.Name{Local: "r"}, Value: at.String()}}}
	add := func(name, value string) {
		e.Attr = append(e.Attr, xml.Attr{Name: xml.Name{Local: name}, Value: value})
	}
	if style != "" {
		add("s", style)
	}
	var inner strings.Builder
	value := func(s string) { inner.WriteString("<" + tag("v") + ">" + s + "</" + tag("v") + ">") }
	switch x := v.(type) {
	case float64:
		value(strconv.FormatFloat(x, 'f', -1, 64))
	case int:
		value(strconv.Itoa(x))
	case string:
		// A text stays a text, whatever it begins with.
		add("t", "inlineStr")
		inner.WriteString("<" + tag("is") + "><" + tag("t") + ` xml:space="preserve">`)
		xml.EscapeText(&inner, []byte(code.ReplaceAllStringFunc(x, func(s string) string { return "_x005F" + s }))) //nolint:errcheck // a builder takes all
		inner.WriteString("</" + tag("t") + "></" + tag("is") + ">")
	}
	writeStart(w, e, "", inner.Len() == 0)
	if inner.Len() > 0 {
		w.WriteString(inner.String() + "</" + tag("c") + ">") //nolint:errcheck // kept by the writer
	}
}
