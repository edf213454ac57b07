package xlsx

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"
)

// pass copies a worksheet, its cells changed by a plan.
type pass struct {
	s      *scanner
	w      *bufio.Writer
	sheet  string
	plan   *plan
	each   func(*cell) // sees every cell that is in the file
	rows   bool        // the cells have been met
	last   Cell        // the last cell or row met
	blocks int
}

// cell is a cell as it stands in the file.
type cell struct {
	at      Cell
	start   xml.StartElement
	text    strings.Builder // of its value
	formula bool
	raw     bytes.Buffer
	bare    bytes.Buffer // its children without a stored value
}

// pass goes through a sheet once.
func (b *Book) pass(s sheet, changes map[Cell]any, w io.Writer, each func(*cell)) error {
	r, err := b.unpack(s.part)
	if err != nil {
		return err
	}
	defer r.Close() //nolint:errcheck // only read
	p := &pass{s: newScanner(s.part, r), w: bufio.NewWriter(w), sheet: s.name, plan: newPlan(changes), each: each}
	for {
		t, raw, err := p.s.next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return err
		}
		if e, ok := t.(xml.StartElement); ok {
			switch depth := len(p.s.open); {
			case depth == 2 && e.Name.Local == "sheetData":
				if err := p.table(e, raw); err != nil {
					return err
				}
				continue
			case depth == 2 && e.Name.Local == "dimension" && !p.plan.empty():
				// It may be wrong now, and need not be there.
				if err := p.s.skip(); err != nil {
					return err
				}
				continue
			case depth == 3 && e.Name.Local == "mergeCell":
				ref, _ := attr(e, "ref")
				if err := p.block(ref, Merged); err != nil {
					return err
				}
			}
		}
		p.write(raw)
	}
	if !p.rows && !p.plan.empty() {
		return damaged("%q is no sheet with cells", s.name)
	}
	return p.w.Flush()
}

// write puts bytes out; a fault of the writer is told by Flush.
func (p *pass) write(raw []byte) { p.w.Write(raw) } //nolint:errcheck // kept by the writer

// table copies the rows.
func (p *pass) table(e xml.StartElement, raw []byte) error {
	if p.rows {
		return damaged("%s: the rows of a sheet stand in it twice", p.s.part)
	}
	p.rows = true
	return p.children(e, raw, !p.plan.empty(), "row", p.row, func() {
		for p.plan.next() {
			p.newRow(e.Name.Space)
		}
	})
}

// children copies an element whose children of one kind are handed over; add
// writes what is to come after the last. An open element is written with a
// tag at its end even if the file has it in one.
func (p *pass) children(e xml.StartElement, raw []byte, open bool, kind string, each func(xml.StartElement, []byte) error, add func()) error {
	if open {
		writeStart(p.w, e, "spans", false)
	} else {
		p.write(raw)
	}
	for depth := len(p.s.open); ; {
		t, raw, err := p.s.next()
		if err != nil {
			return unfinished(err)
		}
		if x, ok := t.(xml.StartElement); ok && x.Name.Local == kind && len(p.s.open) == depth+1 {
			if err := each(x, raw); err != nil {
				return err
			}
			continue
		}
		if len(p.s.open) >= depth {
			p.write(raw)
			continue
		}
		add()
		if open {
			p.write([]byte("</" + full(e.Name) + ">"))
		} else {
			p.write(raw)
		}
		return nil
	}
}

func unfinished(err error) error {
	if errors.Is(err, io.EOF) {
		return damaged("a part ends too early")
	}
	return err
}

// row copies a row. Rows stand in order, each once.
func (p *pass) row(e xml.StartElement, raw []byte) error {
	n := p.last.Row + 1
	if r, ok := attr(e, "r"); ok {
		var err error
		if n, err = strconv.Atoi(r); err != nil || n <= p.last.Row {
			return damaged("%s: row %.20q stands after row %d", p.s.part, r, p.last.Row)
		}
	}
	if n > MostRows {
		return tooLarge("%s: a sheet has %d rows", p.s.part, MostRows)
	}
	for p.plan.before(n) {
		p.newRow(e.Name.Space)
	}
	p.last = Cell{0, n}
	return p.children(e, raw, p.plan.at(n), "c", p.cell, func() {
		for p.plan.at(n) {
			p.newCell(e.Name.Space, "")
		}
	})
}

// newRow writes the first row of the plan, which the file does not have.
func (p *pass) newRow(prefix string) {
	n := p.plan.first().at.Row
	if !p.plan.fills(n) {
		p.plan.dropRow(n)
		return
	}
	tag := full(xml.Name{Space: prefix, Local: "row"})
	p.write([]byte("<" + tag + ` r="` + strconv.Itoa(n) + `">`))
	for p.plan.at(n) {
		p.newCell(prefix, "")
	}
	p.write([]byte("</" + tag + ">"))
}

// newCell writes the first cell of the plan.
func (p *pass) newCell(prefix, style string) {
	c := p.plan.take()
	if c.v != nil || style != "" {
		writeCell(p.w, prefix, c.at, style, c.v)
	}
}

// cell reads a cell to its end and copies or changes it. Cells of a row stand
// in order, each once.
func (p *pass) cell(e xml.StartElement, raw []byte) error {
	c := &cell{at: Cell{p.last.Column + 1, p.last.Row}, start: e}
	if r, ok := attr(e, "r"); ok {
		var good bool
		if c.at, good = parseCell(r); !good || c.at.Row != p.last.Row || c.at.Column <= p.last.Column {
			return damaged("%s: cell %.20q stands after %s", p.s.part, r, p.last)
		}
	}
	if c.at.Column > MostColumns {
		return tooLarge("%s: a sheet has %d columns", p.s.part, MostColumns)
	}
	p.last = c.at
	if err := p.collect(c, raw); err != nil {
		return err
	}
	if p.each != nil {
		p.each(c)
	}
	for p.plan.at(c.at.Row) && p.plan.first().at.Column < c.at.Column {
		p.newCell(e.Name.Space, "")
	}
	change := p.plan.at(c.at.Row) && p.plan.first().at == c.at
	switch {
	case change && c.formula:
		return &TakenError{p.sheet, c.at, Formula}
	case change:
		style, _ := attr(e, "s")
		p.newCell(e.Name.Space, style)
	case c.formula:
		writeStart(p.w, e, "t", false)
		p.write(c.bare.Bytes())
		p.write([]byte("</" + full(e.Name) + ">"))
	default:
		p.write(c.raw.Bytes())
	}
	return nil
}

// collect reads a cell to its end.
func (p *pass) collect(c *cell, raw []byte) error {
	c.raw.Write(raw)
	depth := len(p.s.open)
	value, bare := false, true
	for len(p.s.open) >= depth {
		t, raw, err := p.s.next()
		if err != nil {
			return unfinished(err)
		}
		if c.raw.Write(raw); c.raw.Len() > mostElement {
			return tooLarge("%s: cell %s is longer than 1 MiB", p.s.part, c.at)
		}
		here := len(p.s.open)
		switch x := t.(type) {
		case xml.StartElement:
			value = x.Name.Local == "v" && here == depth+1 || x.Name.Local == "t" && here > depth+1
			if here == depth+1 {
				bare = x.Name.Local != "v" && x.Name.Local != "is"
				if x.Name.Local == "f" {
					c.formula = true
					if ref, ok := attr(x, "ref"); ok && array(x) {
						if err := p.block(ref, Formula); err != nil {
							return err
						}
					}
				}
			}
		case xml.CharData:
			if value {
				c.text.Write(x)
			}
		case xml.EndElement:
			value = false
		}
		if bare && here >= depth {
			c.bare.Write(raw)
		}
		if here == depth {
			bare = true
		}
	}
	return nil
}

// array tells whether a formula fills other cells than its own.
func array(f xml.StartElement) bool {
	kind, _ := attr(f, "t")
	return kind == "array" || kind == "dataTable"
}

// block refuses changes of cells that belong to another: those under a merged
// cell, and those that a formula fills.
func (p *pass) block(ref string, why Taken) error {
	if p.blocks++; p.blocks > mostBlocks {
		return tooLarge("%s: more than %d merged cells and array formulas", p.s.part, mostBlocks)
	}
	a, ok := ParseArea(ref)
	if !ok {
		return damaged("%s: %.40q is no range", p.s.part, ref)
	}
	rows := p.plan.cells
	i, _ := slices.BinarySearchFunc(rows, Cell{0, a.Row}, func(c change, at Cell) int { return compare(c.at, at) })
	for ; i < len(rows) && rows[i].at.Row < a.Row+a.Rows; i++ {
		c := rows[i]
		if a.has(c.at) && (why == Formula || c.v != nil && c.at != a.Cell) {
			return &TakenError{p.sheet, c.at, why}
		}
	}
	return nil
}
