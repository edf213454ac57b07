package carry

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

// Over gives the owner's workbook with the contents of the fresh one in the sheets that
// the program writes, and remarks on what of the owner's had to be moved. The same two
// workbooks give the same bytes.
//
// Errors match ErrRefused where something of the owner's would be lost, and
// xlsx.ErrDamaged where a file cannot be read or is larger than the bounds of this package.
func Over(owner, fresh []byte) (out []byte, remarks []string, err error) {
	o, err := openBook(owner)
	if err != nil {
		return nil, nil, err
	}
	f, err := openBook(fresh)
	if err != nil {
		return nil, nil, fmt.Errorf("the workbook made anew: %w", err)
	}
	c := &carrying{owner: o, fresh: f, given: f.styles.given(), was: slices.Clone(o.sheets), brought: map[int]int{}, merged: map[string]*merging{}, deleted: map[string]bool{}}
	if err := c.all(); err != nil {
		return nil, nil, err
	}
	out, err = o.bytes()
	return out, c.remarks, err
}

// carrying is the work of one call of Over.
type carrying struct {
	owner, fresh *book
	was          []*sheet // the owner's, as they came
	brought      map[int]int
	merged       map[string]*merging // by the name of the sheet in lower case
	remarks      []string
	money        bool     // both speak of the same currency
	read         *reading // by the owner's formulas
	given        given
	steps        int             // rows gone over
	noteTexts    map[string]bool // of the program
	deleted      map[string]bool // sheets, by their names in lower case
}

func (c *carrying) remark(format string, args ...any) {
	c.remarks = append(c.remarks, fmt.Sprintf(format, args...))
}

func (c *carrying) all() error {
	if err := c.check(); err != nil {
		return err
	}
	if err := c.pairSheets(); err != nil {
		return err
	}
	if err := c.checkNames(); err != nil {
		return err
	}
	if err := c.readNotes(); err != nil {
		return err
	}
	for _, s := range c.fresh.sheets {
		if m := c.merged[strings.ToLower(s.name)]; m != nil {
			if err := m.merge(); err != nil {
				return err
			}
		} else if err := c.bringSheet(s); err != nil {
			return err
		}
	}
	if err := c.leftOver(); err != nil {
		return err
	}
	c.names()
	if err := c.follow(); err != nil {
		return err
	}
	if err := c.forgetCalcChain(); err != nil {
		return err
	}
	c.owner.finish(c.was)
	return nil
}

// check refuses what would not hold after a change.
func (c *carrying) check() error {
	for name := range c.owner.files {
		switch {
		case strings.HasPrefix(name, "_xmlsignatures/"):
			return refuse("it is signed, and the signature would not hold: save a copy without one")
		case strings.HasPrefix(name, "xl/revisions/"):
			return refuse("it is shared with a log of changes, which would not hold: stop sharing it first")
		}
	}
	for _, s := range c.fresh.sheets {
		if !s.ours {
			return damaged("the sheet %q made anew has no name %s", s.name, AreaName)
		}
	}
	return nil
}

// pairSheets finds the owner's sheet for each new one.
func (c *carrying) pairSheets() error {
	var grids, freshGrids []*grid
	var areas, freshAreas []xlsx.Area
	for _, f := range c.fresh.sheets {
		root, err := c.fresh.look(f.part)
		if err != nil {
			return err
		}
		fg, err := c.fresh.gridOf(root, f.part)
		if err != nil {
			return err
		}
		if fg.used.Rows > 0 {
			f.area = both(f.area, fg.used)
		}
		freshGrids, freshAreas = append(freshGrids, fg), append(freshAreas, f.area)
		o := c.owner.named(f.name)
		if o == nil {
			if i := slices.IndexFunc(c.owner.sheets, func(s *sheet) bool { return s.ours && strings.EqualFold(s.origin, f.name) }); i >= 0 {
				return refuse("the sheet %q was renamed to %q: give it its name back", f.name, c.owner.sheets[i].name)
			}
			c.merged[strings.ToLower(f.name)] = nil
			continue
		}
		if !o.ours || !strings.EqualFold(o.origin, f.name) {
			return refuse("a sheet %q of your own stands where the program writes one: rename it", o.name)
		}
		if root, err = c.owner.change(o.part); err != nil {
			return err
		}
		og, err := c.owner.gridOf(root, o.part)
		if err != nil {
			return err
		}
		grids, areas = append(grids, og), append(areas, o.area)
		og.limit(o.area)
		fg.limit(f.area)
		m := &merging{carrying: c, o: o, f: f, old: og, new: fg}
		fb := blocksOf(fg, c.fresh.styles, f.area, nil)
		m.pairing = pair(og, fg, blocksOf(og, c.owner.styles, o.area, fb), fb)
		m.pairing.shift = f.area.Column - o.area.Column
		c.merged[strings.ToLower(f.name)] = m
	}
	was, is := currency(grids, areas), currency(freshGrids, freshAreas)
	c.money = was == is || was == "" || is == ""
	return nil
}

// bring gives the owner's number of a new style.
func (c *carrying) bring(id int) int {
	n, ok := c.brought[id]
	if !ok {
		n = c.owner.styles.bring(c.fresh.styles, id)
		c.brought[id] = n
	}
	return n
}

// bringSheet adds a sheet that the owner's workbook does not have, at its place in the
// order of the new ones.
func (c *carrying) bringSheet(f *sheet) error {
	o := c.owner
	root, err := c.fresh.look(f.part)
	if err != nil {
		return err
	}
	g, err := c.fresh.gridOf(root.clone(), f.part)
	if err != nil {
		return err
	}
	for _, at := range g.order {
		c.cell(g.cells[at])
	}
	g.write(g.rows, g.cells)
	for _, n := range []string{"drawing", "picture", "oleObjects", "controls", "tableParts", "extLst", "legacyDrawingHF"} {
		if g.root.child(n) != nil {
			return damaged("the sheet %q made anew has a part %q, which is not carried over", f.name, n)
		}
	}
	g.root.drop(func(n *node) bool { return n.name == "legacyDrawing" })
	for _, v := range g.root.child("sheetViews").all("sheetView") {
		v.unset("tabSelected") // else it would be edited together with the one that is shown
	}
	if err := c.looksOfConditions(g.root); err != nil {
		return err
	}
	s := &sheet{name: f.name, part: o.free("xl/worksheets/sheet", ".xml"), ours: true, origin: f.name, area: f.area}
	if err := o.put(s.part, "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml", g.root); err != nil {
		return err
	}
	id, err := o.relate(o.main, relationNS+"/worksheet", s.part, false)
	if err != nil {
		return err
	}
	most := 0
	for _, x := range o.sheets {
		most = max(most, number(x.entry, "sheetId"))
	}
	s.entry = element("sheet", "name", s.name, "sheetId", strconv.Itoa(most+1))
	if state, some := f.entry.find("state"); some {
		s.entry.set("state", state)
	}
	s.entry.attrs = append(s.entry.attrs, attr{"xmlns:r", relationNS}, attr{"r:id", id})
	for _, x := range f.scoped {
		s.scoped = append(s.scoped, x.clone())
	}
	o.sheets = slices.Insert(o.sheets, c.placeOf(f), s)
	if err := c.links(g.root, f, s.part); err != nil {
		return err
	}
	return c.notesOf(s, f, g.root, nil)
}

// placeOf gives where a new sheet goes: after the one that it comes after among the new
// ones, else before the one it comes before, else at the end.
func (c *carrying) placeOf(f *sheet) int {
	i := slices.Index(c.fresh.sheets, f)
	for k := i - 1; k >= 0; k-- {
		if s := c.owner.named(c.fresh.sheets[k].name); s != nil {
			return slices.Index(c.owner.sheets, s) + 1
		}
	}
	for k := i + 1; k < len(c.fresh.sheets); k++ {
		if s := c.owner.named(c.fresh.sheets[k].name); s != nil {
			return slices.Index(c.owner.sheets, s)
		}
	}
	return len(c.owner.sheets)
}

// cell makes a new cell one of the owner's workbook: its style, and its text if it is one
// that cells share.
func (c *carrying) cell(n *node) {
	if id := number(n, "s"); id > 0 {
		n.set("s", strconv.Itoa(c.bring(id)))
	} else {
		n.unset("s")
	}
	if n.attr("t") != "s" {
		return
	}
	is := element("is")
	if i := number(&node{attrs: []attr{{"v", strings.TrimSpace(n.child("v").words())}}}, "v"); i >= 0 && i < len(c.fresh.texts) {
		for _, k := range c.fresh.texts[i].kids {
			is.add(k.clone())
		}
	}
	n.set("t", "inlineStr")
	n.drop(func(k *node) bool { return k.name == "v" })
	n.add(is)
}

// links gives the new sheet's links to what is outside of the file.
func (c *carrying) links(root *node, f *sheet, part string) error {
	rels, err := c.fresh.relations(f.part)
	if err != nil {
		return err
	}
	for _, h := range root.child("hyperlinks").all("hyperlink") {
		old := h.rel()
		if old == "" {
			continue
		}
		i := slices.IndexFunc(rels, func(r relation) bool { return r.id == old && r.outside })
		if i < 0 {
			return damaged("the sheet %q made anew has a link that leads nowhere", f.name)
		}
		id, err := c.owner.relate(part, relationNS+"/hyperlink", rels[i].target, true)
		if err != nil {
			return err
		}
		h.attrs = slices.DeleteFunc(h.attrs, func(a attr) bool { return strings.HasSuffix(a.name, ":id") })
		h.attrs = append(h.attrs, attr{"xmlns:r", relationNS}, attr{"r:id", id})
	}
	return nil
}

// forgetCalcChain drops the order of calculation, which programs make anew.
func (c *carrying) forgetCalcChain() error {
	rels, err := c.owner.relations(c.owner.main)
	if err != nil {
		return err
	}
	for _, r := range rels {
		if r.kind != "calcChain" {
			continue
		}
		if err := c.owner.unrelate(c.owner.main, r.id); err != nil {
			return err
		}
		if err := c.owner.remove(r.target); err != nil {
			return err
		}
	}
	return nil
}
