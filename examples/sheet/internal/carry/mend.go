package carry

import (
	"bytes"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

// Note is what is said of a cell.
type Note struct {
	Sheet, Cell string
	Text        string
}

// ToMend begins the notes of what must be mended.
const ToMend = "To mend: "

// Mend gives the owner's workbook with notes on the cells that are to be mended, in the
// place of those of an earlier time, and with all else as it is. Of several notes on a
// cell one is made. A cell that has a note by someone else keeps it; a remark says what
// was to be mended there.
func Mend(owner []byte, notes []Note) (out []byte, remarks []string, err error) {
	o, err := openBook(owner)
	if err != nil {
		return nil, nil, err
	}
	fresh, err := noteBook(notes)
	if err != nil {
		return nil, nil, err
	}
	c := &carrying{owner: o, fresh: fresh, was: slices.Clone(o.sheets), noteTexts: map[string]bool{}}
	for _, s := range o.sheets {
		if err := c.mend(s); err != nil {
			return nil, nil, err
		}
	}
	o.finish(c.was)
	out, err = o.bytes()
	return out, c.remarks, err
}

// noteBook makes a workbook of nothing but notes.
func noteBook(notes []Note) (*book, error) {
	f := excelize.NewFile()
	defer f.Close() //nolint:errcheck // nothing is left to write
	texts := map[Note]string{}
	var order []Note
	for _, n := range notes {
		at := Note{Sheet: n.Sheet, Cell: n.Cell}
		if _, some := texts[at]; some {
			texts[at] += "\n" + n.Text
			continue
		}
		order = append(order, at)
		texts[at] = ToMend + n.Text
	}
	for _, at := range order {
		if _, err := f.NewSheet(at.Sheet); err != nil {
			return nil, err
		}
		text := texts[at]
		lines := uint(2 + len(text)/30 + strings.Count(text, "\n"))
		err := f.AddComment(at.Sheet, excelize.Comment{Author: Author, Cell: at.Cell, Width: 260, Height: min(400, 18*lines), Paragraph: []excelize.RichTextRun{{Text: text}}})
		if err != nil {
			return nil, err
		}
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		return nil, err
	}
	return openBook(b.Bytes())
}

// mend puts the notes of a sheet down.
func (c *carrying) mend(s *sheet) error {
	own, err := c.owner.notes(s)
	if err != nil {
		return err
	}
	fresh := &notes{}
	if f := c.fresh.named(s.name); f != nil {
		if fresh, err = c.fresh.notes(f); err != nil {
			return err
		}
	}
	if len(fresh.list) == 0 && !slices.ContainsFunc(own.list, (*note).mending) {
		return nil
	}
	root, err := c.owner.change(s.part)
	if err != nil {
		return err
	}
	if err := c.makeParts(s, root, own, fresh); err != nil {
		return err
	}
	own.shapes.drop(func(k *node) bool {
		at, some := shapeAt(k)
		return some && slices.ContainsFunc(own.list, func(n *note) bool { return n.at == at && n.mending() })
	})
	var all []*note
	taken := map[xlsx.Cell]*note{}
	for _, n := range own.list {
		if !n.mending() {
			all = append(all, n)
			taken[n.at] = n
		}
	}
	for _, n := range fresh.list {
		there := taken[n.at]
		if there != nil && there.ours { // what the cell is for gives way
			all = slices.DeleteFunc(all, func(x *note) bool { return x == there })
			own.shapes.drop(func(k *node) bool { at, some := shapeAt(k); return some && at == n.at })
			there = nil
		}
		if there != nil {
			c.remark("%s!%s has a note of yours, so that this stands here alone: %s", s.name, n.at, saidBy(n))
			continue
		}
		all = append(all, own.adopt(n))
	}
	slices.SortStableFunc(all, func(a, b *note) int { return compare(a.at, b.at) })
	list := own.root.child("commentList")
	list.kids = nil
	for _, n := range all {
		list.add(n.n)
	}
	own.number()
	return nil
}
