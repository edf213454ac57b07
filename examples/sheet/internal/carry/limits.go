package carry

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

// outside gives what of areas is the owner's, and where it goes.
func (m *merging) outside(list []xlsx.Area) []xlsx.Area {
	var out []xlsx.Area
	for _, a := range list {
		for _, piece := range without(a, m.o.area) {
			out = append(out, without(piece, m.f.area)...)
			if c, some := common(piece, m.f.area); some && m.aside > 0 {
				out = append(out, m.moves(c))
			}
		}
	}
	return out
}

// merges writes the merged cells: the program's, and the owner's beside them.
func (m *merging) merges() {
	list := element("mergeCells")
	for _, n := range m.new.root.child("mergeCells").all("mergeCell") {
		list.add(n.clone())
	}
	for _, n := range m.old.root.child("mergeCells").all("mergeCell") {
		a, ok := xlsx.ParseArea(n.attr("ref"))
		if !ok {
			continue
		}
		if _, in := common(a, m.o.area); in {
			if !within(a, m.o.area) {
				m.remark("%s: the cells %s are merged no more, since some of them are the program's", m.o.name, ref(a))
			}
			continue
		}
		n.set("ref", ref(m.moves(a)))
		list.add(n)
	}
	if len(list.kids) == 0 {
		list = nil
	} else {
		count(list)
	}
	replace(m.old.root, "mergeCells", list, sheetOrder)
}

// limits writes what may be typed where: the program's limits, and the owner's beside them.
func (m *merging) limits() {
	list := element("dataValidations")
	own := m.old.root.child("dataValidations")
	if own != nil {
		list.attrs = slices.Clone(own.attrs)
	}
	for _, n := range m.new.root.child("dataValidations").all("dataValidation") {
		list.add(n.clone())
	}
	for _, n := range own.all("dataValidation") {
		if where, ok := areas(n.attr("sqref")); ok {
			left := m.outside(where)
			if len(left) == 0 {
				continue
			}
			n.set("sqref", refs(left))
		}
		list.add(n)
	}
	if len(list.kids) == 0 {
		list = nil
	} else {
		count(list)
	}
	replace(m.old.root, "dataValidations", list, sheetOrder)
	m.limitsInExtensions()
}

// limitsInExtensions does the same for limits that refer to other sheets, which some
// programs write among their extensions.
func (m *merging) limitsInExtensions() {
	ext := m.old.root.child("extLst")
	if ext == nil {
		return
	}
	for _, e := range ext.all("ext") {
		for _, list := range e.kids {
			if local(list.name) != "dataValidations" {
				continue
			}
			list.drop(func(n *node) bool {
				if local(n.name) != "dataValidation" {
					return false
				}
				for _, k := range n.kids {
					if local(k.name) != "sqref" {
						continue
					}
					if where, ok := areas(k.words()); ok {
						left := m.outside(where)
						k.kids = []*node{{text: refs(left)}}
						return len(left) == 0
					}
				}
				return false
			})
			count(list)
		}
		e.drop(func(n *node) bool { return local(n.name) == "dataValidations" && len(elements(n)) == 0 })
	}
	ext.drop(func(e *node) bool { return e.name == "ext" && len(elements(e)) == 0 })
	if len(elements(ext)) == 0 {
		replace(m.old.root, "extLst", nil, sheetOrder)
	}
}

// figuresOf are places and numbers of a formula.
var figuresOf = regexp.MustCompile(`\$?[A-Z]{1,3}\$?[0-9]+|[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?`)

// skeleton is a formula without its places and numbers.
func skeleton(formula string) string { return figuresOf.ReplaceAllString(formula, "#") }

// conditionsOfOurs are the forms of the conditions that the program sets, on single cells.
var conditionsOfOurs = []string{"ABS(#*#-#)>#", "ROUND(#*#,#)=ROUND(#*#,#)"}

// conditions writes the formats that hold under a condition: all of the owner's, and those
// of the program in the place of its old ones.
func (m *merging) conditions() error {
	known := slices.Clone(conditionsOfOurs)
	for _, c := range m.new.root.all("conditionalFormatting") {
		for _, r := range c.all("cfRule") {
			known = append(known, skeleton(r.child("formula").words()))
		}
	}
	most := 0
	for _, c := range m.old.root.all("conditionalFormatting") {
		where, ok := areas(c.attr("sqref"))
		single := ok && len(where) == 1 && within(where[0], m.o.area)
		c.drop(func(r *node) bool {
			return single && r.name == "cfRule" && r.attr("type") == "expression" && slices.Contains(known, skeleton(r.child("formula").words()))
		})
		for _, r := range c.all("cfRule") {
			most = max(most, number(r, "priority"))
		}
		if ok && !single {
			var stay []xlsx.Area
			for _, a := range where {
				if _, in := common(a, m.o.area); !in && m.aside > 0 {
					a = m.moves(a)
				}
				stay = append(stay, a)
			}
			c.set("sqref", refs(stay))
		}
	}
	m.old.root.drop(func(c *node) bool { return c.name == "conditionalFormatting" && len(c.all("cfRule")) == 0 })
	holder := element("x")
	for _, c := range m.new.root.all("conditionalFormatting") {
		holder.add(c.clone())
	}
	if err := m.looksOfConditions(holder); err != nil {
		return err
	}
	for _, c := range holder.kids {
		for _, r := range c.all("cfRule") {
			most++
			r.set("priority", strconv.Itoa(most))
		}
		place(m.old.root, c, sheetOrder)
	}
	return nil
}

// looksOfConditions brings the looks that conditions of the new sheet give.
func (c *carrying) looksOfConditions(root *node) error {
	from := c.fresh.styles.root.child("dxfs")
	own := c.owner.styles.root.child("dxfs")
	for _, cf := range root.all("conditionalFormatting") {
		for _, r := range cf.all("cfRule") {
			if _, some := r.find("dxfId"); !some {
				continue
			}
			if from == nil || nth(from, number(r, "dxfId")) == nil {
				return damaged("a condition made anew has no look")
			}
			if own == nil {
				own = element("dxfs")
				place(c.owner.styles.root, own, stylesOrder)
			}
			d := nth(from, number(r, "dxfId")).clone()
			if f := d.child("numFmt"); f != nil {
				f.set("numFmtId", strconv.Itoa(c.owner.styles.number(f.attr("formatCode"))))
			}
			r.set("dxfId", strconv.Itoa(indexOf(own, d)))
		}
	}
	return nil
}

// indexOf gives the place of an element in a list, adding it if need be.
func indexOf(list, n *node) int {
	key := string(n.bytes())
	for i, k := range elements(list) {
		if string(k.bytes()) == key {
			return i
		}
	}
	list.add(n)
	count(list)
	return len(elements(list)) - 1
}

// hyperlinks writes the links: the program's, and the owner's where their cells are now.
func (m *merging) hyperlinks() error {
	list := element("hyperlinks")
	for _, h := range m.new.root.child("hyperlinks").all("hyperlink") {
		list.add(h.clone())
	}
	holder := element("x")
	holder.add(list)
	taken := map[string]bool{}
	for _, h := range list.kids {
		taken[strings.ToUpper(h.attr("ref"))] = true
	}
	if err := m.links(holder, m.f, m.o.part); err != nil {
		return err
	}
	rels, err := m.owner.relations(m.o.part)
	if err != nil {
		return err
	}
	for _, h := range m.old.root.child("hyperlinks").all("hyperlink") {
		a, ok := xlsx.ParseArea(h.attr("ref"))
		if !ok {
			list.add(h)
			continue
		}
		was := ref(a)
		if _, in := common(a, m.o.area); !in {
			h.set("ref", ref(m.moves(a)))
			list.add(h)
			continue
		}
		to, found := m.to(a.Cell)
		if found && !taken[to.String()] {
			a.Cell = to
			h.set("ref", ref(a))
			list.add(h)
			continue
		}
		target := h.attr("location")
		for _, r := range rels {
			if r.id == h.rel() {
				target = r.target
			}
		}
		if id := h.rel(); id != "" {
			if err := m.owner.unrelate(m.o.part, id); err != nil {
				return err
			}
		}
		if !found {
			m.remark("%s: the link in %s, to %s, is gone with what stood there", m.o.name, was, target)
		}
	}
	if len(list.kids) == 0 {
		list = nil
	}
	replace(m.old.root, "hyperlinks", list, sheetOrder)
	return nil
}
