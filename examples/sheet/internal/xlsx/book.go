package xlsx

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"path"
	"strings"
)

// Name is a defined name and what it refers to, as the file has it.
type Name struct{ Name, RefersTo string }

// Book is an open workbook. Its methods may be called one after another.
type Book struct {
	zip    *zip.Reader
	parts  map[string]*zip.File
	main   string // part of the workbook
	names  []Name
	sheets []sheet
	calc   bool  // whether the workbook says how it is worked out
	left   int64 // bytes that may still be unpacked
}

type sheet struct{ name, part string }

// Open reads the names and sheets of a workbook; no cell is read yet.
func Open(data []byte) (*Book, error) {
	switch {
	case len(data) > MostBytes:
		return nil, tooLarge("the file has more than 64 MiB")
	case bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0")):
		return nil, damaged("it is protected by a password, or is an .xls file: save it as .xlsx without one")
	case bytes.Count(data, []byte("PK\x01\x02")) > mostParts:
		return nil, tooLarge("the file has more than %d parts", mostParts)
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, damaged("no .xlsx file: %v", err)
	}
	b := &Book{zip: z, parts: map[string]*zip.File{}, left: MostUnpacked}
	for _, f := range z.File {
		name := strings.ToLower(f.Name)
		if _, twice := b.parts[name]; twice {
			return nil, damaged("the part %.100q stands in it twice", f.Name)
		}
		b.parts[name] = f
	}
	if err := b.findMain(); err != nil {
		return nil, err
	}
	return b, b.readMain()
}

// Names gives the defined names, in the order of the file.
func (b *Book) Names() []Name { return b.names }

// Sheet gives the name of a sheet as the workbook writes it; letter case does not count.
func (b *Book) Sheet(name string) (string, bool) {
	s, ok := b.sheet(name)
	return s.name, ok
}

func (b *Book) sheet(name string) (sheet, bool) {
	for _, s := range b.sheets {
		if strings.EqualFold(s.name, name) {
			return s, true
		}
	}
	return sheet{}, false
}

// scan goes through a part and hands over the elements that begin in it.
func (b *Book) scan(part string, each func(s *scanner, e xml.StartElement) error) error {
	r, err := b.unpack(part)
	if err != nil {
		return err
	}
	defer r.Close() //nolint:errcheck // only read
	s := newScanner(part, r)
	for {
		t, _, err := s.next()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		if e, ok := t.(xml.StartElement); ok {
			if err := each(s, e); err != nil {
				return err
			}
		}
	}
}

// unpack opens a part; what is read of it counts.
func (b *Book) unpack(part string) (io.ReadCloser, error) {
	f, ok := b.parts[strings.ToLower(part)]
	if !ok {
		return nil, damaged("the part %.100q is missing", part)
	}
	r, err := f.Open()
	if err != nil {
		return nil, damaged("%s: %v", part, err)
	}
	return &counted{r, &b.left}, nil
}

type counted struct {
	io.ReadCloser
	left *int64
}

func (c *counted) Read(p []byte) (int, error) {
	n, err := c.ReadCloser.Read(p)
	if *c.left -= int64(n); *c.left < 0 {
		return 0, tooLarge("it unpacks to more than 64 MiB")
	}
	return n, err
}

// relations gives the targets of a part by their ids, and by their kinds.
func (b *Book) relations(part string) (byID, byKind map[string]string, err error) {
	byID, byKind = map[string]string{}, map[string]string{}
	dir, file := path.Split(part)
	err = b.scan(path.Join(dir, "_rels", file+".rels"), func(_ *scanner, e xml.StartElement) error {
		if e.Name.Local != "Relationship" || len(byID) > mostParts {
			return nil
		}
		id, _ := attr(e, "Id")
		kind, _ := attr(e, "Type")
		target, _ := attr(e, "Target")
		if abs, ok := strings.CutPrefix(target, "/"); ok {
			target = abs
		} else {
			target = path.Join(dir, target)
		}
		byID[id] = target
		byKind[kind[strings.LastIndex(kind, "/")+1:]] = target
		return nil
	})
	return byID, byKind, err
}

func (b *Book) findMain() error {
	_, byKind, err := b.relations("")
	if err != nil {
		return err
	}
	if b.main = byKind["officeDocument"]; b.main == "" {
		return damaged("no .xlsx file: it names no workbook")
	}
	return nil
}

// readMain reads the part of the workbook: its sheets and names.
func (b *Book) readMain() error {
	byID, _, err := b.relations(b.main)
	if err != nil {
		return err
	}
	used := map[string]bool{strings.ToLower(b.main): true}
	return b.scan(b.main, func(s *scanner, e xml.StartElement) error {
		switch strings.Join(locals(s.open), "/") {
		case "workbook/calcPr":
			b.calc = true
		case "workbook/sheets/sheet":
			if len(b.sheets) == mostSheets {
				return tooLarge("it has more than %d sheets", mostSheets)
			}
			name, _ := attr(e, "name")
			for _, a := range e.Attr {
				if a.Name.Space != "" && a.Name.Local == "id" {
					part := strings.ToLower(byID[a.Value])
					if used[part] {
						return damaged("two sheets stand in one part")
					}
					if b.parts[part] == nil {
						return damaged("the sheet %.100q has no part", name)
					}
					used[part] = true
					b.sheets = append(b.sheets, sheet{name, byID[a.Value]})
				}
			}
		case "workbook/definedNames/definedName":
			if len(b.names) == mostNames {
				return tooLarge("it has more than %d defined names", mostNames)
			}
			name, _ := attr(e, "name")
			refers, err := s.text()
			if err != nil {
				return err
			}
			b.names = append(b.names, Name{name, refers})
		}
		return nil
	})
}

// locals gives names without their prefixes.
func locals(names []string) []string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = n[strings.Index(n, ":")+1:]
	}
	return out
}
