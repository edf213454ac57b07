package carry

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"sort"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

// follow lets the owner's formulas, names and charts refer to the cells that mean now what
// the old ones meant. Stored results of the owner's formulas are dropped, so that they are
// worked out anew.
func (c *carrying) follow() (err error) {
	defer func() {
		if err == nil && c.steps > mostSteps {
			err = tooLarge("its formulas read too many rows of the program")
		}
	}()
	for _, s := range c.owner.sheets {
		m := c.merged[strings.ToLower(s.name)]
		if m != nil {
			m.followBeside()
			continue
		}
		if s.ours && c.owner.trees[strings.ToLower(s.part)] != nil {
			continue
		}
		if err := c.followIn(s.part, s.name); err != nil {
			return err
		}
	}
	for _, f := range c.owner.zip.File {
		name := strings.ToLower(f.Name)
		if readingPart(name) && c.owner.trees[name] == nil && !c.owner.gone[name] {
			if err := c.followIn(f.Name, ""); err != nil {
				return err
			}
		}
	}
	return nil
}

// reads are where parts that read cells stand, beside sheets: charts, shapes that show a
// cell, controls, sources of pivot tables.
var reads = []string{"xl/charts/chart", "xl/charts/ex", "xl/chartsheets/sheet", "xl/drawings/drawing", "xl/ctrlprops/", "xl/pivotcache/pivotcachedefinition"}

func readingPart(name string) bool {
	return strings.HasSuffix(name, ".xml") && slices.ContainsFunc(reads, func(r string) bool { return strings.HasPrefix(name, r) })
}

// followBeside does so for the owner's cells on a sheet of the program.
func (m *merging) followBeside() {
	for _, row := range m.old.root.child("sheetData").kids {
		for _, n := range row.kids {
			a, ok := xlsx.ParseArea(n.attr("r"))
			f := n.child("f")
			if !ok || f == nil || m.f.area.Rows > 0 && holds(m.f.area, a.Cell) {
				continue
			}
			f.kids = []*node{{text: m.moved(f.words(), m.o.name, m.o.name+" "+a.String(), false)}}
			n.drop(func(k *node) bool { return k.name == "v" })
			n.unset("t")
		}
	}
	ext := m.old.root.child("extLst")
	if ext == nil {
		return
	}
	ext.walk(func(n *node) {
		if local(n.name) != "sparkline" {
			return
		}
		for _, k := range n.kids {
			switch local(k.name) {
			case "f":
				k.kids = []*node{{text: m.moved(k.words(), m.o.name, m.o.name+", a small chart", false)}}
			case "sqref":
				if where, ok := areas(k.words()); ok && len(where) == 1 && m.mine(where[0].Cell) {
					k.kids = []*node{{text: ref(m.moves(where[0]))}}
				}
			}
		}
	})
}

// moved gives a formula that stands on a sheet with references to where their cells are now.
// Of conditions and limits only places that stand fast are known.
func (c *carrying) moved(formula, sheet, where string, fast bool) string {
	if !strings.ContainsAny(formula, "0123456789") {
		return formula
	}
	lost := ""
	out := eachSpot(formula, func(p spot) string {
		of := p.sheetOf()
		if p.sheet == "" {
			of = sheet
		}
		if c.deleted[strings.ToLower(of)] {
			lost = p.String()
			return "#REF!"
		}
		m := c.merged[strings.ToLower(of)]
		if m == nil || m.gone || fast && !(p.first.column && p.first.row) {
			return p.String()
		}
		q, ok := m.spot(p)
		if !ok {
			lost = p.String()
			return "#REF!"
		}
		return q.String()
	})
	if lost != "" {
		c.remark("%s: %.200s reads %s, and what stood there is gone: it says #REF! now", where, strings.TrimPrefix(formula, "="), lost)
	}
	return out
}

// spot gives where a reference leads now.
func (m *merging) spot(p spot) (spot, bool) {
	if !p.two {
		to, ok := m.cellTo(p.first.Cell)
		p.first.Cell = to
		return p, ok
	}
	a := span(p.first.Cell, p.last.Cell)
	if a.Columns < 1 || a.Rows < 1 {
		return p, true
	}
	if within(a, m.o.area) {
		b, ok := m.rangeTo(a)
		p.first.Cell, p.last.Cell = b.Cell, last(b)
		return p, ok
	}
	if _, some := common(a, m.o.area); !some {
		if b := m.moves(a); within(a, m.f.area) {
			p.first.Cell, p.last.Cell = b.Cell, last(b)
		}
	}
	return p, true
}

// cellTo gives where a cell is now. An empty one has no meaning and stays.
func (m *merging) cellTo(c xlsx.Cell) (xlsx.Cell, bool) {
	if m.mine(c) {
		return m.moves(span(c, c)).Cell, true
	}
	to, ok := m.to(c)
	if !ok && m.old.text[c] == "" {
		return c, true
	}
	return to, ok
}

// rangeTo gives where a range within the area is now: from the first to the last of its
// rows that are left. One that reaches from headings to the end of the rows below them, or
// to the last but one, where a total stands, takes in rows that are new there.
func (m *merging) rangeTo(a xlsx.Area) (xlsx.Area, bool) {
	top, bottom, some := 0, 0, false
	first, end := max(a.Row, m.old.used.Row), min(last(a).Row, last(m.old.used).Row) // there is nothing beyond
	if m.steps += max(0, end-first+1); m.steps > mostSteps {
		return a, true // which follow tells
	}
	for row := first; row <= end; row++ {
		some = some || len(m.old.by[row]) > 0
		if to, ok := m.rows[row]; ok {
			if top == 0 {
				top = to
			}
			top, bottom = min(top, to), max(bottom, to)
		}
	}
	if top == 0 {
		return a, !some
	}
	from, to := a.Cell, last(a)
	if b, ok := m.whole(a, first, end); ok {
		top = min(top, b[0])
		bottom = max(bottom, b[1])
	}
	var left, right int
	for row := first; row <= end; row++ {
		if _, ok := m.rows[row]; !ok {
			continue
		}
		l, ok := m.to(xlsx.Cell{Column: from.Column, Row: row})
		r, ok2 := m.to(xlsx.Cell{Column: to.Column, Row: row})
		if ok && ok2 {
			left, right = l.Column, r.Column
			break
		}
	}
	if left == 0 || left > right {
		return a, false
	}
	return span(xlsx.Cell{Column: left, Row: top}, xlsx.Cell{Column: right, Row: bottom}), true
}

// whole gives the first and the last new row for a range over all rows of a block.
func (m *merging) whole(a xlsx.Area, first, end int) ([2]int, bool) {
	b, ok := m.blocks[last(a).Row]
	if !ok {
		for row := end; row >= first && !ok; row-- {
			b, ok = m.blocks[row]
		}
	}
	if !ok || len(b[0].rows) == 0 || len(b[1].rows) == 0 || b[0].row == 0 {
		return [2]int{}, false
	}
	old, now := b[0].rows, b[1].rows
	if a.Row != b[0].row && a.Row != old[0] {
		return [2]int{}, false
	}
	begin := now[0]
	if a.Row == b[0].row {
		begin = b[1].row
	}
	switch i := slices.Index(old, last(a).Row); {
	case i < 0:
		return [2]int{}, false
	case i == len(old)-1:
		return [2]int{begin, now[len(now)-1]}, true
	case i == len(old)-2:
		if to, ok := m.rows[old[i+1]]; ok && to > begin {
			return [2]int{begin, to - 1}, true
		}
	}
	return [2]int{}, false
}

// names writes the names of the workbook: the new ones, and the owner's.
func (c *carrying) names() {
	list := c.owner.root.child("definedNames")
	if list == nil {
		list = element("definedNames")
		place(c.owner.root, list, workbookOrder)
	}
	fresh := map[string]*node{}
	for _, n := range c.fresh.root.child("definedNames").all("definedName") {
		if _, scoped := n.find("localSheetId"); !scoped {
			fresh[strings.ToLower(n.attr("name"))] = n
		}
	}
	gone := map[*node]bool{}
	for _, n := range list.all("definedName") {
		if _, scoped := n.find("localSheetId"); !scoped {
			gone[n] = fresh[strings.ToLower(n.attr("name"))] != nil || c.follows(n)
		}
	}
	list.drop(func(n *node) bool { return gone[n] })
	for _, name := range sortedKeys(fresh) {
		list.add(fresh[name].clone())
	}
	for _, s := range c.owner.sheets {
		for _, n := range s.scoped {
			if !c.ofOurs(s, n.attr("name")) {
				c.follows(n)
			}
		}
	}
}

// ofOurs tells whether a name of a sheet is written by the program.
func (c *carrying) ofOurs(s *sheet, name string) bool {
	m := c.merged[strings.ToLower(s.name)]
	if m == nil {
		return s.ours
	}
	return slices.ContainsFunc(m.f.scoped, func(n *node) bool { return strings.EqualFold(n.attr("name"), name) })
}

// follows lets a name of the owner's follow its cells. It tells whether the name is of no
// use any more: what it stood for is gone, and nothing reads it.
func (c *carrying) follows(n *node) bool {
	was := n.words()
	remarks := len(c.remarks)
	now := c.moved(was, "", "the name "+n.attr("name"), false)
	if now == was {
		return false
	}
	if strings.Contains(now, "#REF!") && !c.reads(n) {
		c.remarks = c.remarks[:remarks]
		c.remark("the name %s, for %s, is gone with what stood there; nothing reads it", n.attr("name"), was)
		return true
	}
	n.kids = []*node{{text: now}}
	return false
}

// checkNames refuses names of the program that the owner has for something else.
func (c *carrying) checkNames() error {
	for _, n := range c.owner.root.child("definedNames").all("definedName") {
		if _, scoped := n.find("localSheetId"); scoped || strings.HasPrefix(strings.ToLower(n.attr("name")), "coverwright_") {
			continue
		}
		for _, f := range c.fresh.root.child("definedNames").all("definedName") {
			if _, scoped := f.find("localSheetId"); scoped || !strings.EqualFold(f.attr("name"), n.attr("name")) {
				continue
			}
			of, _, ok := xlsx.ParseReference(n.words())
			if s := c.owner.named(of); ok && (s == nil || !s.ours) || !ok && !strings.Contains(n.words(), "#REF!") {
				return refuse("the name %s is yours, for %.100s, and the program needs it: give yours another", n.attr("name"), n.words())
			}
		}
	}
	return nil
}

// splice is a piece of a part that is written otherwise.
type splice struct {
	from, to int64
	text     string
}

// formulaCell is a cell that is being read.
type formulaCell struct {
	at      xlsx.Cell
	start   [2]int64 // of its tag
	tag     xml.StartElement
	closed  bool
	value   [2]int64
	formula bool
}

// follower goes through a part whose formulas follow.
type follower struct {
	*carrying
	part, sheet string
	data        []byte
	d           *xml.Decoder
	open        []string
	cell        *formulaCell
	row         int
	at          xlsx.Cell
	splices     []splice
	shared      map[string]sharedFormula
	pivot       xml.StartElement // of the sources that are read
	pivotAt     [2]int64
}

type sharedFormula struct {
	at   xlsx.Cell
	text string
}

// followIn changes a part of the owner's, all of which but formulas and their results stays
// byte for byte.
func (c *carrying) followIn(part, sheet string) error {
	data, err := c.owner.read(part)
	if err != nil {
		return err
	}
	w := &follower{carrying: c, part: part, sheet: sheet, data: data, d: xml.NewDecoder(bytes.NewReader(data)), shared: map[string]sharedFormula{}}
	if err := w.run(); err != nil {
		return err
	}
	if len(w.splices) == 0 {
		return nil
	}
	sort.SliceStable(w.splices, func(i, k int) bool { return w.splices[i].from < w.splices[k].from })
	var out bytes.Buffer
	at := int64(0)
	for _, s := range w.splices {
		if s.from < at {
			return damaged("%s: its formulas lie in each other", part)
		}
		out.Write(data[at:s.from])
		out.WriteString(s.text)
		at = s.to
	}
	out.Write(data[at:])
	c.owner.raw[strings.ToLower(part)] = out.Bytes()
	return nil
}

func (w *follower) run() error {
	for {
		from := w.d.InputOffset()
		t, err := w.d.RawToken()
		if errors.Is(err, io.EOF) {
			if len(w.open) > 0 {
				return damaged("%s: it ends too early", w.part)
			}
			return nil
		}
		if err != nil {
			return damaged("%s: %v", w.part, err)
		}
		to := w.d.InputOffset()
		switch x := t.(type) {
		case xml.StartElement:
			if len(w.open) == mostDepth {
				return tooLarge("%s: elements lie more than %d deep", w.part, mostDepth)
			}
			w.open = append(w.open, x.Name.Local)
			if err := w.start(x, from, to); err != nil {
				return err
			}
		case xml.EndElement:
			if len(w.open) == 0 || w.open[len(w.open)-1] != x.Name.Local {
				return damaged("%s: an element ends that was not begun", w.part)
			}
			w.open = w.open[:len(w.open)-1]
			w.end(x, to)
		}
	}
}

func (w *follower) start(x xml.StartElement, from, to int64) error {
	switch x.Name.Local {
	case "row":
		w.row++
		if n, err := strconv.Atoi(plainAttr(x, "r")); err == nil {
			w.row = n
		}
		w.at = xlsx.Cell{Row: w.row}
	case "c":
		w.at.Column++
		if a, ok := xlsx.ParseArea(plainAttr(x, "r")); ok {
			w.at = a.Cell
		}
		w.cell = &formulaCell{at: w.at, start: [2]int64{from, to}, tag: x.Copy(), closed: w.data[to-2] == '/'}
	case "v":
		if w.cell != nil {
			w.cell.value[0] = from
		}
	case "f", "formula", "formula1", "formula2":
		return w.formula(x, from, to)
	case "pivotCacheDefinition":
		w.pivot, w.pivotAt = x.Copy(), [2]int64{from, to}
	case "worksheetSource":
		w.source(x, from, to)
	default:
		w.attributes(x, from, to)
	}
	return nil
}

// source lets the source of a pivot table follow, and has it read anew.
func (w *follower) source(x xml.StartElement, from, to int64) {
	sheet, where := plainAttr(x, "sheet"), plainAttr(x, "ref")
	if sheet == "" || w.merged[strings.ToLower(sheet)] == nil && !w.deleted[strings.ToLower(sheet)] {
		return
	}
	if now := w.moved(where, sheet, "a pivot table", false); now != where {
		w.splices = append(w.splices, splice{from, to, tagOf(with(x, "ref", now), w.data[to-2] == '/')})
	}
	if w.pivotAt[1] > 0 {
		w.splices = append(w.splices, splice{w.pivotAt[0], w.pivotAt[1], tagOf(with(w.pivot, "refreshOnLoad", "1"), false)})
		w.pivotAt = [2]int64{}
	}
}

// attributes lets links and shapes that show a cell follow.
func (w *follower) attributes(x xml.StartElement, from, to int64) {
	for _, a := range x.Attr {
		switch name := a.Name.Local; {
		case a.Name.Space != "" || a.Value == "":
		case name == "textlink", name == "fmlaLink", name == "fmlaRange", name == "location" && x.Name.Local == "hyperlink":
			if now := w.moved(a.Value, w.sheet, w.part, false); now != a.Value {
				x = with(x, name, now)
				w.splices = append(w.splices, splice{from, to, tagOf(x, w.data[to-2] == '/')})
				return
			}
		}
	}
}

// with gives a tag with an attribute set.
func with(x xml.StartElement, name, value string) xml.StartElement {
	x = x.Copy()
	for i, a := range x.Attr {
		if a.Name.Space == "" && a.Name.Local == name {
			x.Attr[i].Value = value
			return x
		}
	}
	x.Attr = append(x.Attr, xml.Attr{Name: xml.Name{Local: name}, Value: value})
	return x
}

func (w *follower) end(x xml.EndElement, to int64) {
	if w.cell == nil {
		return
	}
	switch x.Name.Local {
	case "v":
		w.cell.value[1] = to
	case "c":
		if w.cell.formula && w.cell.value[1] > 0 {
			w.splices = append(w.splices, splice{w.cell.value[0], w.cell.value[1], ""})
			if plainAttr(w.cell.tag, "t") != "" {
				w.splices = append(w.splices, splice{w.cell.start[0], w.cell.start[1], tagOf(cut(w.cell.tag, "t"), w.cell.closed)})
			}
		}
		w.cell = nil
	}
}

// formula reads a formula to its end.
func (w *follower) formula(x xml.StartElement, from, to int64) error {
	x = x.Copy()
	parent := ""
	if len(w.open) > 1 {
		parent = w.open[len(w.open)-2]
	}
	closed := w.data[to-2] == '/'
	var text strings.Builder
	depth := len(w.open)
	end := to
	for len(w.open) >= depth {
		t, err := w.d.RawToken()
		if err != nil {
			return damaged("%s: %v", w.part, err)
		}
		switch k := t.(type) {
		case xml.CharData:
			text.Write(k)
			end = w.d.InputOffset()
		case xml.StartElement:
			return damaged("%s: a formula has parts", w.part)
		case xml.EndElement:
			if k.Name != x.Name {
				return damaged("%s: a formula does not end", w.part)
			}
			w.open = w.open[:len(w.open)-1]
		}
	}
	whole := w.d.InputOffset()
	inCell := w.cell != nil && parent == "c"
	if inCell {
		w.cell.formula = true
	}
	where := w.part
	if w.sheet != "" {
		where = w.sheet
	}
	if inCell {
		where += " " + w.cell.at.String()
	}
	if inCell && plainAttr(x, "t") == "shared" {
		return w.sharedCell(x, text.String(), where, from, whole)
	}
	fast := x.Name.Local != "f" || parent != "c" && w.sheet != "" && parent != "sparkline"
	now := w.moved(text.String(), w.sheet, where, fast)
	if now != text.String() && !closed {
		w.splices = append(w.splices, splice{to, end, escaped(now)})
	}
	return nil
}

// sharedCell gives a cell whose formula is shared with others one of its own, where it reads
// what the program writes.
func (w *follower) sharedCell(x xml.StartElement, text, where string, from, to int64) error {
	id := plainAttr(x, "si")
	if text != "" {
		if !w.mentions(text) {
			delete(w.shared, id)
			return nil
		}
		w.shared[id] = sharedFormula{w.cell.at, text}
	}
	s, ok := w.shared[id]
	if !ok {
		return nil
	}
	if err := w.owner.left.spend(len(s.text)); err != nil {
		return err
	}
	now := w.moved(shifted(s.text, w.cell.at.Column-s.at.Column, w.cell.at.Row-s.at.Row), w.sheet, where, false)
	tag := full(x.Name)
	w.splices = append(w.splices, splice{from, to, "<" + tag + ">" + escaped(now) + "</" + tag + ">"})
	return nil
}

// mentions tells whether a formula reads a sheet of the program.
func (c *carrying) mentions(formula string) bool {
	for _, s := range c.was {
		if s.ours && mentionsSheet(formula, s.name) {
			return true
		}
	}
	return false
}

func mentionsSheet(formula, name string) bool {
	f, n := strings.ToLower(formula), strings.ToLower(name)
	return strings.Contains(f, n+"!") || strings.Contains(f, strings.ReplaceAll(n, "'", "''")+"'!")
}

func plainAttr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Space == "" && a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func escaped(s string) string {
	var b bytes.Buffer
	escape(&b, s, false)
	return b.String()
}

// cut gives a tag without an attribute.
func cut(x xml.StartElement, name string) xml.StartElement {
	x = x.Copy()
	x.Attr = slices.DeleteFunc(x.Attr, func(a xml.Attr) bool { return a.Name.Space == "" && a.Name.Local == name })
	return x
}

// tagOf writes the tag of an element.
func tagOf(e xml.StartElement, closed bool) string {
	var b bytes.Buffer
	b.WriteString("<" + full(e.Name))
	for _, a := range e.Attr {
		b.WriteString(" " + full(a.Name) + `="`)
		escape(&b, a.Value, true)
		b.WriteByte('"')
	}
	if closed {
		b.WriteByte('/')
	}
	b.WriteByte('>')
	return b.String()
}
