package carry

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

// copies are how programs name a copy of a sheet.
var copies = regexp.MustCompile(`^(.+?)(?: \([0-9]+\)|_[0-9]+)$`)

// leftOver looks after sheets that the program wrote once and does not write now: they go,
// unless something of the owner's stands on them or reads them. Then only what the program
// wrote there goes.
func (c *carrying) leftOver() error {
	for _, s := range slices.Clone(c.owner.sheets) {
		if !s.ours || c.fresh.named(s.name) != nil {
			continue
		}
		if c.isCopy(s) {
			c.remark("the sheet %s is a copy by you: it stays as it is", s.name)
			s.ours = false
			continue
		}
		root, err := c.owner.change(s.part)
		if err != nil {
			return err
		}
		old, err := c.owner.gridOf(root, s.part)
		if err != nil {
			return err
		}
		why, err := c.needed(s, old)
		if err != nil {
			return err
		}
		if why == "" {
			if err := c.delete(s); err != nil {
				return err
			}
			continue
		}
		c.remark("the sheet %s has nothing in this job now; it stays, empty, since %s", s.name, why)
		if err := c.empty(s, old); err != nil {
			return err
		}
	}
	return nil
}

// isCopy tells whether the owner made a sheet by copying one.
func (c *carrying) isCopy(s *sheet) bool {
	if !strings.EqualFold(s.origin, s.name) {
		return true
	}
	m := copies.FindStringSubmatch(s.name)
	return m != nil && slices.ContainsFunc(c.was, func(x *sheet) bool { return x != s && strings.EqualFold(x.name, m[1]) })
}

// needed says what of the owner's needs a sheet.
func (c *carrying) needed(s *sheet, g *grid) (string, error) {
	if len(c.owner.sheets) == 1 {
		return "a workbook has at least one sheet", nil
	}
	for _, at := range g.order {
		if !holds(s.area, at) && g.text[at] != "" {
			return "something of yours stands in " + at.String(), nil
		}
	}
	for _, n := range []string{"drawing", "oleObjects", "controls", "tableParts", "picture", "mc:AlternateContent"} {
		if g.root.child(n) != nil {
			return "a picture, chart or control of yours stands on it", nil
		}
	}
	notes, err := c.ownerNotes(s)
	if err != nil {
		return "", err
	}
	if len(notes.own()) > 0 {
		return "a note of yours stands on it", nil
	}
	rels, err := c.owner.relations(s.part)
	if err != nil {
		return "", err
	}
	for _, r := range rels {
		if r.kind == "pivotTable" || r.kind == "slicer" {
			return "a pivot table of yours stands on it", nil
		}
	}
	return c.readBy(s)
}

// readBy says what of the owner's reads a sheet.
func (c *carrying) readBy(s *sheet) (string, error) {
	r, err := c.reading()
	if err != nil {
		return "", err
	}
	if where := r.sheets[strings.ToLower(s.name)]; where != "" {
		return where + " reads it", nil
	}
	return "", nil
}

// reading is what the owner's formulas read.
type reading struct {
	sheets map[string]string // where a sheet is read, by its name in lower case
	words  map[string]int    // in how many formulas a word stands, in lower case
}

func (r *reading) add(where, formula string) {
	for i := 0; i < len(formula); {
		n := wordEnd(formula, i)
		if n == i {
			i++
			continue
		}
		word := strings.ToLower(formula[i:n])
		if i = n; n < len(formula) && formula[n] == '!' {
			word = strings.ReplaceAll(strings.Trim(word, "'"), "''", "'")
			if r.sheets[word] == "" {
				r.sheets[word] = where
			}
			continue
		}
		r.words[word]++
	}
}

// reading goes through the owner's formulas: in cells of own sheets and beside the
// program's, in conditions and limits, in charts, shapes and links, as sources of pivot
// tables, in names.
func (c *carrying) reading() (*reading, error) {
	if c.read != nil {
		return c.read, nil
	}
	r := &reading{map[string]string{}, map[string]int{}}
	for _, f := range c.owner.zip.File {
		name := strings.ToLower(f.Name)
		i := slices.IndexFunc(c.was, func(s *sheet) bool { return strings.EqualFold(s.part, f.Name) })
		where := "a chart, shape or pivot table of yours"
		switch {
		case i >= 0 && c.was[i].ours:
			continue
		case i >= 0:
			where = "the sheet " + c.was[i].name
		case !readingPart(name):
			continue
		}
		data, err := c.owner.read(f.Name)
		if err != nil {
			return nil, err
		}
		if err := formulasIn(f.Name, data, func(text string) { r.add(where, text) }); err != nil {
			return nil, err
		}
		c.owner.left.bytes += len(data) // it is not held
	}
	for _, name := range sortedKeys(c.merged) {
		m := c.merged[name]
		if m == nil {
			continue
		}
		for _, at := range m.old.order {
			if f := m.old.cells[at].child("f"); f != nil && m.mine(at) {
				r.add(m.o.name+" "+at.String(), f.words())
			}
		}
	}
	for _, n := range c.owner.root.child("definedNames").all("definedName") {
		if !strings.HasPrefix(strings.ToLower(n.attr("name")), "_xlnm.") && !c.inArea(n.words()) {
			r.add("the name "+n.attr("name"), n.words())
		}
	}
	c.read = r
	return r, nil
}

// inArea tells whether a name is for cells that the program wrote.
func (c *carrying) inArea(refers string) bool {
	of, a, ok := xlsx.ParseReference(refers)
	s := c.owner.named(of)
	return ok && s != nil && s.ours && within(a, s.area)
}

func formulasIn(part string, data []byte, each func(string)) error {
	d := xml.NewDecoder(bytes.NewReader(data))
	inFormula := false
	for {
		t, err := d.RawToken()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return damaged("%s: %v", part, err)
		}
		switch x := t.(type) {
		case xml.StartElement:
			switch x.Name.Local {
			case "f", "formula", "formula1", "formula2":
				inFormula = true
			case "worksheetSource":
				if s := plainAttr(x, "sheet"); s != "" {
					each(s + "!")
				} else if s := plainAttr(x, "name"); s != "" {
					each(s)
				}
			case "sp":
				if s := plainAttr(x, "textlink"); s != "" {
					each(s)
				}
			case "hyperlink":
				each(plainAttr(x, "location"))
			case "formControlPr":
				each(plainAttr(x, "fmlaLink"))
				each(plainAttr(x, "fmlaRange"))
			}
		case xml.CharData:
			if inFormula {
				each(string(x))
			}
		case xml.EndElement:
			inFormula = false
		}
	}
}

// reads tells whether a formula of the owner's has a name in it.
func (c *carrying) reads(name *node) bool {
	r, err := c.reading()
	return err != nil || r.words[strings.ToLower(name.attr("name"))] > 0 // it stays, to be safe
}

// empty takes what the program wrote off a sheet.
func (c *carrying) empty(s *sheet, old *grid) error {
	root := element("worksheet", "xmlns", mainNS)
	root.add(element("sheetData"))
	if p := old.root.child("sheetProtection"); p != nil {
		root.add(p.clone())
	}
	g, err := c.fresh.gridOf(root, s.part)
	if err != nil {
		return err
	}
	f := &sheet{name: s.name}
	for _, n := range s.scoped {
		if name := n.attr("name"); strings.EqualFold(name, AreaName) || strings.EqualFold(name, OriginName) {
			f.scoped = append(f.scoped, n.clone())
		}
	}
	old.limit(s.area)
	m := &merging{carrying: c, o: s, f: f, old: old, new: g, pairing: pair(old, g, nil, nil), gone: true}
	c.merged[strings.ToLower(s.name)] = m
	return m.merge()
}

// delete takes a sheet away with the parts that only it leads to.
func (c *carrying) delete(s *sheet) error {
	o := c.owner
	rels, err := o.relations(o.main)
	if err != nil {
		return err
	}
	parts, err := o.relations(s.part)
	if err != nil {
		return err
	}
	for _, r := range rels {
		if r.id == s.entry.rel() {
			if err := o.unrelate(o.main, r.id); err != nil {
				return err
			}
		}
	}
	for _, r := range parts {
		if !r.outside && slices.Contains([]string{"comments", "vmlDrawing", "printerSettings", "threadedComment"}, r.kind) && o.has(r.target) {
			if err := o.remove(r.target); err != nil {
				return err
			}
		}
	}
	if err := o.remove(s.part); err != nil {
		return err
	}
	c.deleted[strings.ToLower(s.name)] = true
	o.sheets = slices.DeleteFunc(o.sheets, func(x *sheet) bool { return x == s })
	return nil
}
