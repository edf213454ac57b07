package carry

import (
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

// merging is the work on one sheet that both workbooks have.
type merging struct {
	*carrying
	o, f     *sheet
	old, new *grid
	*pairing
	gone  bool // the program writes nothing there any more
	aside int  // columns by which cells of the owner go right that the area has grown over
}

func (m *merging) merge() error {
	if err := m.blocked(); err != nil {
		return err
	}
	if err := m.expandShared(); err != nil {
		return err
	}
	if err := m.makeRoom(); err != nil {
		return err
	}
	cells := m.cells()
	m.old.write(m.rowsOf(cells), cells)
	m.widths()
	root := m.old.root
	replace(root, "sheetProtection", copyOf(m.new.root.child("sheetProtection")), sheetOrder)
	m.merges()
	m.limits()
	if err := m.conditions(); err != nil {
		return err
	}
	if err := m.hyperlinks(); err != nil {
		return err
	}
	m.foot()
	m.o.scoped = slices.DeleteFunc(m.o.scoped, func(n *node) bool {
		return slices.ContainsFunc(m.f.scoped, func(f *node) bool { return strings.EqualFold(f.attr("name"), n.attr("name")) }) ||
			slices.Contains([]string{"_xlnm.print_area", "_xlnm.print_titles"}, strings.ToLower(n.attr("name")))
	})
	for _, n := range m.f.scoped {
		m.o.scoped = append(m.o.scoped, n.clone())
	}
	return m.notesOf(m.o, m.f, root, m)
}

func copyOf(n *node) *node {
	if n == nil {
		return nil
	}
	return n.clone()
}

// moves gives where an area of the owner's goes that lies outside of the old area of the
// program: right of the new one if that has grown over it.
func (m *merging) moves(a xlsx.Area) xlsx.Area {
	if _, covered := common(a, m.f.area); covered {
		a.Column += m.aside
	}
	return a
}

// mine tells whether a cell is the owner's.
func (m *merging) mine(c xlsx.Cell) bool { return !holds(m.o.area, c) }

// blocked refuses what cannot be moved: tables, pivot tables and formulas over several
// cells that reach into the cells of the program.
func (m *merging) blocked() error {
	rels, err := m.owner.relations(m.o.part)
	if err != nil {
		return err
	}
	for _, r := range rels {
		if r.kind != "table" && r.kind != "pivotTable" {
			continue
		}
		n, err := m.owner.look(r.target)
		if err != nil {
			return err
		}
		where := n.attr("ref")
		if r.kind == "pivotTable" {
			where = n.child("location").attr("ref")
		}
		a, ok := xlsx.ParseArea(where)
		if !ok {
			return damaged("%s: %.40q is no range", r.target, where)
		}
		for _, taken := range []xlsx.Area{m.o.area, m.f.area} {
			if _, both := common(a, taken); both {
				return refuse("on the sheet %q the %s %q in %s lies over cells that the program writes: move it to another sheet or turn it into plain cells", m.o.name, map[string]string{"table": "table", "pivotTable": "pivot table"}[r.kind], n.attr("name"), ref(a))
			}
		}
	}
	return nil
}

// expandShared gives each of the owner's cells beside the area a formula of its own.
func (m *merging) expandShared() error {
	type master struct {
		at      xlsx.Cell
		formula string
	}
	masters := map[string]master{}
	for _, at := range m.old.order {
		f := m.old.cells[at].child("f")
		if f == nil || f.attr("t") != "shared" {
			continue
		}
		if text := f.words(); text != "" {
			masters[f.attr("si")] = master{at, text}
		}
		from, ok := masters[f.attr("si")]
		if !ok {
			return damaged("%s: the formula in %s is shared with none", m.o.part, at)
		}
		if err := m.owner.left.spend(len(from.formula)); err != nil {
			return err
		}
		*f = *element("f")
		f.add(&node{text: shifted(from.formula, at.Column-from.at.Column, at.Row-from.at.Row)})
	}
	return nil
}

// makeRoom finds how far to the right the owner's cells go that the area has grown over.
func (m *merging) makeRoom() error {
	var covered []xlsx.Area
	var stay, highest int
	see := func(a xlsx.Area, some bool) {
		switch _, both := common(a, m.f.area); {
		case both && some:
			covered = append(covered, a)
		case !both:
			stay = max(stay, last(a).Column)
		}
	}
	for _, at := range m.old.order {
		if !m.mine(at) {
			continue
		}
		f := m.old.cells[at].child("f")
		if f != nil && f.attr("ref") != "" {
			a, ok := xlsx.ParseArea(f.attr("ref"))
			if !ok {
				return damaged("%s: %.40q is no range", m.o.part, f.attr("ref"))
			}
			if _, old := common(a, m.o.area); old {
				return refuse("on the sheet %q the formula in %s fills %s, where the program writes: move it", m.o.name, at, ref(a))
			}
			if _, new := common(a, m.f.area); new && !within(a, m.f.area) { //nolint:predeclared // as the field is called
				return refuse("on the sheet %q the formula in %s fills %s, where the program writes: move it", m.o.name, at, ref(a))
			}
		}
		see(span(at, at), m.old.text[at] != "" || f != nil)
	}
	for _, n := range m.old.root.child("mergeCells").all("mergeCell") {
		if a, ok := xlsx.ParseArea(n.attr("ref")); ok {
			if _, old := common(a, m.o.area); !old {
				see(a, true)
				if _, both := common(a, m.f.area); both && !within(a, m.f.area) {
					return refuse("on the sheet %q the cell merged over %s reaches into what the program writes: split or move it", m.o.name, ref(a))
				}
			}
		}
	}
	notes, err := m.ownerNotes(m.o)
	if err != nil {
		return err
	}
	for _, n := range notes.own() {
		if m.mine(n.at) {
			see(span(n.at, n.at), true)
		}
	}
	if len(covered) == 0 {
		return nil
	}
	left, all := covered[0].Column, covered[0]
	for _, a := range covered {
		left = min(left, a.Column)
		all = both(all, a)
	}
	highest = last(all).Column
	m.aside = max(last(m.f.area).Column+1, stay+1) - left
	if highest+m.aside > xlsx.MostColumns {
		return refuse("on the sheet %q your cells in %s stand where the program writes, and there is no room to the right: move them", m.o.name, ref(all))
	}
	to := all
	to.Column += m.aside
	m.remark("%s: what stood in %s is in %s now, since the program's cells have grown over it", m.o.name, ref(all), ref(to))
	return nil
}

// cells gives all cells of the sheet: those of the program with the formats that their
// meaning had, and the owner's.
func (m *merging) cells() map[xlsx.Cell]*node {
	out := map[xlsx.Cell]*node{}
	written := map[string]bool{}
	for _, at := range m.new.order {
		written[m.new.text[at]] = true
		n := m.new.cells[at].clone()
		m.cell(n)
		out[at] = n
	}
	for _, at := range m.old.order {
		n := m.old.cells[at]
		if m.mine(at) {
			to := m.moves(span(at, at)).Cell
			if to != at && m.old.text[at] == "" && n.child("f") == nil {
				continue // a format with nothing in it
			}
			n.set("r", to.String())
			if f := n.child("f"); f != nil && f.attr("ref") != "" && to != at {
				if a, ok := xlsx.ParseArea(f.attr("ref")); ok {
					f.set("ref", ref(m.moves(a)))
				}
			}
			out[to] = n
			continue
		}
		to, ok := m.to(at)
		if !ok || !holds(m.f.area, to) {
			continue
		}
		if text := m.old.text[at]; m.old.bare[at] && !written[text] && m.empty(to) {
			m.remark("%s: the text %.200q in %s is gone: the program writes nothing there", m.o.name, text, at)
		}
		if style, other := m.format(at, to); other {
			if out[to] == nil {
				out[to] = element("c", "r", to.String())
			}
			out[to].set("s", strconv.Itoa(style))
		}
	}
	return out
}

// empty tells whether the program leaves a cell empty.
func (m *merging) empty(c xlsx.Cell) bool {
	return m.new.text[c] == "" && m.new.cells[c].child("f") == nil
}

// format gives the style of a cell that means what an old one meant, where the owner gave
// it another than the program gives.
func (m *merging) format(old, now xlsx.Cell) (int, bool) {
	own, fresh := m.old.style(old), m.new.style(now)
	a, b := m.owner.styles.of(own), m.fresh.styles.of(fresh)
	figures := b.format
	empty := m.new.cells[now] == nil
	if !empty && m.keepsFormat(a.format, b.format) && m.sameUnit(old, now) {
		figures = a.format
	}
	mine := m.given.owners(a, b, empty)
	if mine == (parts{}) && figures == b.format {
		return 0, false
	}
	return m.owner.styles.mixed(own, mine, figures, m.carrying.fresh.styles, fresh), true
}

// sizes are formats of the program for one and the same size, as its figure wants.
var sizes = [][]string{{"0.000", "# #/##"}, {"0.0", "0"}}

// keepsFormat tells whether a format of numbers is one that the owner chose and that still
// says the same.
func (c *carrying) keepsFormat(own, fresh string) bool {
	if own == fresh || bare.Replace(own) == bare.Replace(fresh) || own == "General" {
		return false
	}
	for _, s := range sizes {
		if slices.Contains(s, own) && slices.Contains(s, fresh) {
			return false
		}
	}
	if !c.money && (sign(own) != "" || strings.Contains(fresh, "#,##0")) {
		return false
	}
	if a, b := sign(own), sign(fresh); a != "" && b != "" && a != b {
		return false
	}
	return strings.Contains(own, "%") == strings.Contains(fresh, "%") && (own == "@") == (fresh == "@")
}

// bare takes from a format the marks of letters that stand for themselves, which some
// programs set and others do not.
var bare = strings.NewReplacer(`\`, "", `"`, "")

// sign gives the currency that a format shows.
func sign(format string) string {
	for i, r := range format {
		if strings.ContainsRune("$€£¥₣₤₩₹₽₺₴₫₱", r) {
			if rest := format[i:]; strings.HasPrefix(rest, "$") && i > 0 && format[i-1] == '[' { // [$€-407]
				s, _, _ := strings.Cut(rest[1:], "]")
				s, _, _ = strings.Cut(s, "-")
				return s
			}
			return string(r)
		}
	}
	for w := range strings.FieldsFuncSeq(format, func(r rune) bool { return r < 'A' || r > 'Z' }) {
		if isCurrency(w) {
			return w
		}
	}
	return ""
}

// rowsOf gives the rows: heights and what is hidden go with the meaning.
func (m *merging) rowsOf(cells map[xlsx.Cell]*node) map[int]*node {
	out := map[int]*node{}
	for n, row := range m.new.rows {
		r := row.tag()
		r.unset("s", "customFormat")
		out[n] = r
	}
	for _, n := range sortedKeys(m.old.rows) {
		row := m.old.rows[n]
		if n < m.o.area.Row || n > last(m.o.area).Row {
			if n < m.f.area.Row || n > last(m.f.area).Row {
				out[n] = row.tag()
			}
			continue
		}
		to, ok := m.rows[n]
		if !ok {
			continue
		}
		keep := row.tag()
		keep.set("r", strconv.Itoa(to))
		fresh := out[to]
		if fresh == nil {
			fresh = element("row")
		}
		if !m.same[n] && taller(fresh, keep) {
			keep.set("ht", fresh.attr("ht"))
			keep.set("customHeight", "1")
		}
		if !truth(keep, "customHeight", false) { // that of the font, or of the texts
			keep.unset("ht", "customHeight")
			if h, some := fresh.find("ht"); some {
				keep.set("ht", h)
				keep.set("customHeight", "1")
			}
		}
		if s, some := keep.find("s"); some {
			keep.set("s", s)
		}
		out[to] = keep
	}
	for c := range cells {
		if out[c.Row] == nil {
			out[c.Row] = element("row", "r", strconv.Itoa(c.Row))
		}
	}
	return out
}

// taller tells whether a row wants more height than another has.
func taller(a, b *node) bool {
	x, err := strconv.ParseFloat(a.attr("ht"), 64)
	y, err2 := strconv.ParseFloat(b.attr("ht"), 64)
	return err == nil && (err2 != nil || x > y)
}

// widths gives columns that the area has won the widths of the new sheet.
func (m *merging) widths() {
	from, to := last(m.o.area).Column+1, last(m.f.area).Column
	if from > to {
		return
	}
	own := m.old.root.child("cols")
	var kept []*node
	for _, n := range own.all("col") {
		for _, part := range without(cols(n), xlsx.Area{Cell: xlsx.Cell{Column: from, Row: 1}, Columns: to - from + 1, Rows: 1}) {
			kept = append(kept, between(n, part.Column, last(part).Column))
		}
	}
	for _, n := range m.new.root.child("cols").all("col") {
		if part, some := common(cols(n), xlsx.Area{Cell: xlsx.Cell{Column: from, Row: 1}, Columns: to - from + 1, Rows: 1}); some {
			k := between(n, part.Column, last(part).Column)
			k.unset("style")
			kept = append(kept, k)
		}
	}
	slices.SortStableFunc(kept, func(a, b *node) int { return number(a, "min") - number(b, "min") })
	list := element("cols")
	list.kids = kept
	if len(kept) == 0 {
		list = nil
	}
	replace(m.old.root, "cols", list, sheetOrder)
}

// cols gives the columns that an entry of widths is for.
func cols(n *node) xlsx.Area {
	first, end := max(1, number(n, "min")), min(xlsx.MostColumns, number(n, "max"))
	return xlsx.Area{Cell: xlsx.Cell{Column: first, Row: 1}, Columns: max(1, end-first+1), Rows: 1}
}

func between(n *node, first, last int) *node {
	c := n.tag()
	c.set("min", strconv.Itoa(first))
	c.set("max", strconv.Itoa(last))
	return c
}

// foot writes the program's words below the pages, unless the owner set others.
func (m *merging) foot() {
	own, fresh := m.old.root.child("headerFooter"), m.new.root.child("headerFooter")
	a, b := own.child("oddFooter"), fresh.child("oddFooter")
	if b == nil || a == nil || codes(a.words()) != codes(b.words()) {
		return
	}
	a.kids = []*node{{text: b.words()}}
}

// codes gives the fields and places in the text below a page, without its words.
func codes(text string) string {
	var out strings.Builder
	for i := 0; i < len(text); i++ {
		if text[i] != '&' || i+1 == len(text) {
			continue
		}
		i++
		switch c := text[i]; {
		case c == '&':
		case c == '"': // a font
			for i++; i < len(text) && text[i] != '"'; i++ {
			}
		default:
			out.WriteByte(c)
		}
	}
	return out.String()
}
