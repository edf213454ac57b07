package carry

import (
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

const (
	commentsType = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"
	vmlType      = "application/vnd.openxmlformats-officedocument.vmlDrawing"
)

// notes are those of a sheet, with the parts they stand in.
type notes struct {
	part, drawing string // parts, or nothing
	root, shapes  *node
	list          []*note
	threads       []*node // of answers to notes, which stand in parts of their own
	threadParts   []string
}

// note is a note at a cell.
type note struct {
	at     xlsx.Cell
	author string
	n      *node
	shape  *node // how it is drawn, or nil
	ours   bool
}

// own gives the notes that are not the program's.
func (n *notes) own() []*note {
	return slices.DeleteFunc(slices.Clone(n.list), func(x *note) bool { return x.ours })
}

// notes reads the notes of a sheet.
func (b *book) notes(s *sheet) (*notes, error) {
	rels, err := b.relations(s.part)
	if err != nil {
		return nil, err
	}
	sheet, err := b.look(s.part)
	if err != nil {
		return nil, err
	}
	out := &notes{}
	for _, r := range rels {
		switch {
		case r.kind == "comments":
			out.part = r.target
			out.root, err = b.look(r.target)
		case r.kind == "vmlDrawing" && r.id == sheet.child("legacyDrawing").rel():
			out.drawing = r.target
			out.shapes, err = b.look(r.target)
		case r.kind == "threadedComment":
			var root *node
			if root, err = b.look(r.target); err == nil {
				out.threads = append(out.threads, root.all("threadedComment")...)
				out.threadParts = append(out.threadParts, r.target)
			}
		}
		if err != nil {
			return nil, err
		}
	}
	return out, out.read()
}

func (n *notes) read() error {
	var authors []string
	for _, a := range n.root.child("authors").all("author") {
		authors = append(authors, a.words())
	}
	shapes := map[xlsx.Cell]*node{}
	if n.shapes != nil {
		for _, s := range n.shapes.kids {
			if at, ok := shapeAt(s); ok {
				shapes[at] = s
			}
		}
	}
	had := map[xlsx.Cell]bool{}
	for _, c := range n.root.child("commentList").all("comment") {
		a, ok := xlsx.ParseArea(c.attr("ref"))
		i := number(c, "authorId")
		if !ok || i < 0 || i >= len(authors) || had[a.Cell] {
			return damaged("%s: the note at %.20q has no cell or no author of its own", n.part, c.attr("ref"))
		}
		had[a.Cell] = true
		n.list = append(n.list, &note{a.Cell, authors[i], c, shapes[a.Cell], strings.EqualFold(strings.TrimSpace(authors[i]), Author)})
	}
	return nil
}

// shapeAt tells at which cell a shape is a note.
func shapeAt(s *node) (xlsx.Cell, bool) {
	d := dataOf(s)
	if d == nil {
		return xlsx.Cell{}, false
	}
	row, err := strconv.Atoi(strings.TrimSpace(inner(d, "Row").words()))
	column, err2 := strconv.Atoi(strings.TrimSpace(inner(d, "Column").words()))
	return xlsx.Cell{Column: column + 1, Row: row + 1}, err == nil && err2 == nil && row >= 0 && column >= 0 && row < xlsx.MostRows && column < xlsx.MostColumns
}

func dataOf(s *node) *node {
	if local(s.name) != "shape" {
		return nil
	}
	d := inner(s, "ClientData")
	if d == nil || d.attr("ObjectType") != "Note" {
		return nil
	}
	return d
}

// inner gives the child of a name, whatever its prefix.
func inner(n *node, name string) *node {
	for _, k := range n.kids {
		if local(k.name) == name {
			return k
		}
	}
	return nil
}

// moveShape draws a note at another cell.
func moveShape(s *node, from, to xlsx.Cell) {
	d := dataOf(s)
	if d == nil || from == to {
		return
	}
	set := func(name string, v int) {
		if n := inner(d, name); n != nil {
			n.kids = []*node{{text: strconv.Itoa(v)}}
		}
	}
	set("Row", to.Row-1)
	set("Column", to.Column-1)
	anchor := inner(d, "Anchor")
	if anchor == nil {
		return
	}
	parts := strings.Split(anchor.words(), ",")
	for i, p := range parts {
		v, err := strconv.Atoi(strings.TrimSpace(p))
		if err != nil || len(parts) != 8 {
			return
		}
		switch i {
		case 0, 4:
			v = max(0, v+to.Column-from.Column)
		case 2, 6:
			v = max(0, v+to.Row-from.Row)
		}
		parts[i] = strconv.Itoa(v)
	}
	anchor.kids = []*node{{text: strings.Join(parts, ", ")}}
}

// notesOf writes the notes of a sheet: the owner's at the cells that mean what theirs
// meant, and the program's. Where both want a cell the owner's stays.
func (c *carrying) notesOf(s, f *sheet, root *node, m *merging) error {
	fresh, own := &notes{}, &notes{}
	var err error
	if f.part != "" {
		if fresh, err = c.fresh.notes(f); err != nil {
			return err
		}
	}
	if m != nil {
		if own, err = c.ownerNotes(s); err != nil {
			return err
		}
	}
	if len(fresh.list) == 0 && len(own.list) == 0 {
		return nil
	}
	if err := c.makeParts(s, root, own, fresh); err != nil {
		return err
	}
	c.goneNotes(s, own)
	list := own.root.child("commentList")
	taken := map[xlsx.Cell]bool{}
	moved := map[xlsx.Cell]xlsx.Cell{}
	var kept []*note
	for _, n := range own.list {
		if n.ours {
			continue
		}
		kept = append(kept, n)
		if m != nil {
			moved[n.at] = m.noteTo(n, taken)
		}
		taken[moved[n.at]] = true
	}
	own.shapes.drop(func(k *node) bool {
		at, some := shapeAt(k)
		if !some {
			return false
		}
		return !slices.ContainsFunc(kept, func(n *note) bool { return n.at == at && n.shape == k })
	})
	for _, n := range kept {
		if n.shape != nil {
			moveShape(n.shape, n.at, moved[n.at])
		}
		n.n.set("ref", moved[n.at].String())
	}
	for _, t := range own.threads {
		if a, ok := xlsx.ParseArea(t.attr("ref")); ok {
			if to, ok := moved[a.Cell]; ok {
				t.set("ref", to.String())
			}
		}
	}
	list.kids = nil
	all := kept
	for i := range all {
		all[i].at = moved[all[i].at]
	}
	for _, n := range fresh.list {
		if taken[n.at] {
			c.remark("%s: the program's note at %s is left out, since yours is there", s.name, n.at)
			continue
		}
		all = append(all, own.adopt(n))
	}
	slices.SortStableFunc(all, func(a, b *note) int { return compare(a.at, b.at) })
	for _, n := range all {
		list.add(n.n)
	}
	own.number()
	return nil
}

// goneNotes tells of notes by the program that it does not write any more, or that the
// owner wrote on.
func (c *carrying) goneNotes(s *sheet, own *notes) {
	for _, n := range own.list {
		if text := saidBy(n); n.ours && text != "" && !c.noteTexts[text] && !n.mending() {
			c.remark("%s: the program's note at %s is gone or another now; it said %.300q", s.name, n.at, text)
		}
	}
}

// ownerNotes reads the notes of one of the owner's sheets. Some programs save notes without
// their authors: then one that says what the program's notes say is the program's.
func (c *carrying) ownerNotes(s *sheet) (*notes, error) {
	out, err := c.owner.notes(s)
	if err != nil {
		return nil, err
	}
	for _, n := range out.list {
		n.ours = n.ours || n.mending() || strings.TrimSpace(n.author) == "" && c.noteTexts[saidBy(n)]
	}
	return out, nil
}

// saidBy gives what a note says.
func saidBy(n *note) string { return strings.TrimSpace(plainText(n.n.child("text"))) }

// mending tells whether a note is one of Mend's, by the program or by nobody.
func (n *note) mending() bool {
	return (n.ours || strings.TrimSpace(n.author) == "") && strings.HasPrefix(saidBy(n), ToMend)
}

// readNotes reads what the new notes say.
func (c *carrying) readNotes() error {
	c.noteTexts = map[string]bool{}
	for _, s := range c.fresh.sheets {
		n, err := c.fresh.notes(s)
		if err != nil {
			return err
		}
		for _, x := range n.list {
			c.noteTexts[saidBy(x)] = true
		}
	}
	return nil
}

// noteTo finds the cell for a note of the owner's.
func (m *merging) noteTo(n *note, taken map[xlsx.Cell]bool) xlsx.Cell {
	to, ok := m.moves(span(n.at, n.at)).Cell, true
	if !m.mine(n.at) {
		to, ok = m.to(n.at)
	}
	if ok && !taken[to] {
		return to
	}
	to = xlsx.Cell{Column: last(m.f.area).Column + 1, Row: n.at.Row}
	for taken[to] && to.Row < xlsx.MostRows {
		to.Row++
	}
	if to != n.at {
		m.remark("%s: your note at %s is at %s now, since what stood there is gone", m.o.name, n.at, to)
	}
	return to
}

// makeParts sees that a sheet has parts for its notes.
func (c *carrying) makeParts(s *sheet, root *node, own, fresh *notes) error {
	o := c.owner
	if own.root == nil {
		own.part = o.free("xl/comments", ".xml")
		own.root = element("comments", "xmlns", mainNS)
		if err := o.put(own.part, commentsType, own.root); err != nil {
			return err
		}
		if _, err := o.relate(s.part, relationNS+"/comments", own.part, false); err != nil {
			return err
		}
	}
	if own.shapes == nil {
		if fresh.shapes == nil {
			return damaged("%s: its notes are drawn nowhere", s.part)
		}
		own.drawing = o.free("xl/drawings/vmlDrawing", ".vml")
		own.shapes = fresh.shapes.clone()
		own.shapes.drop(func(k *node) bool { return local(k.name) == "shape" })
		if err := o.put(own.drawing, vmlType, own.shapes); err != nil {
			return err
		}
		id, err := o.relate(s.part, relationNS+"/vmlDrawing", own.drawing, false)
		if err != nil {
			return err
		}
		n := element("legacyDrawing")
		n.attrs = []attr{{"xmlns:r", relationNS}, {"r:id", id}}
		replace(root, "legacyDrawing", n, sheetOrder)
	}
	for _, part := range append([]string{own.part, own.drawing}, own.threadParts...) {
		if _, err := o.change(part); err != nil {
			return err
		}
	}
	for _, name := range []string{"authors", "commentList"} {
		if own.root.child(name) == nil {
			place(own.root, element(name), []string{"authors", "commentList", "extLst"})
		}
	}
	return nil
}

// adopt takes a note of the new workbook in.
func (n *notes) adopt(x *note) *note {
	authors := n.root.child("authors")
	at := slices.IndexFunc(authors.all("author"), func(a *node) bool { return a.words() == Author })
	if at < 0 {
		at = len(authors.all("author"))
		a := element("author")
		a.add(&node{text: Author})
		authors.add(a)
	}
	c := x.n.clone()
	c.set("authorId", strconv.Itoa(at))
	c.unset("shapeId", "xr:uid")
	if x.shape != nil {
		s := x.shape.clone()
		s.set("id", "")
		n.shapes.add(s)
	}
	return &note{at: x.at, author: Author, n: c, ours: true}
}

// number gives new shapes a number that no other has.
func (n *notes) number() {
	used := map[string]bool{}
	n.shapes.walk(func(k *node) { used[k.attr("id")] = true })
	i := 1025
	for _, k := range n.shapes.kids {
		if id, some := k.find("id"); !some || id != "" {
			continue
		}
		for used["_x0000_s"+strconv.Itoa(i)] {
			i++
		}
		k.set("id", "_x0000_s"+strconv.Itoa(i))
		used[k.attr("id")] = true
	}
}
