package layout

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
)

// pieceText is what may be written on a piece: its number, its hand, its name, its size
// and how it is turned.
type pieceText struct {
	number, hand, name, size, turned string
}

const mirroredShort = "mir."

// short is the least that tells the piece and its hand: without a number its name.
func (t pieceText) short() string {
	if t.number == "" {
		return joined(t.name, t.hand)
	}
	return joined(t.number, t.hand)
}

func joined(words ...string) string { return listed(" ", words...) }

// listed joins the words that are not empty.
func listed(by string, words ...string) string {
	return strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), by)
}

// forms gives the ways to write it on the piece, those that tell the same together: name
// and size, size alone, name alone, neither. Number and hand are in all of them.
func (t pieceText) forms() [][]form {
	title := joined(t.number, t.hand, t.name)
	if t.number == "" {
		title = joined(t.name, t.hand)
	}
	var out [][]form
	set := func(bold int, lines ...string) {
		lines = slices.DeleteFunc(lines, func(w string) bool { return w == "" })
		if len(lines) > 0 {
			out[len(out)-1] = append(out[len(out)-1], form{lines, min(bold, len(lines))})
		}
	}
	out = append(out, nil)
	for n := 1; n <= 3; n++ {
		rows := rowsOf(title, n)
		set(len(rows), append(slices.Clone(rows), joined(t.size, t.turned))...)
		if t.turned != "" {
			set(len(rows), append(slices.Clone(rows), t.size, t.turned)...)
		}
	}
	set(1, listed(", ", title, joined(t.size, t.turned)))
	out = append(out, nil)
	set(1, t.short(), joined(t.size, t.turned))
	set(1, t.short(), t.size)
	set(1, listed(": ", t.short(), t.size))
	out = append(out, nil)
	for n := 1; n <= 3; n++ {
		rows := rowsOf(title, n)
		set(len(rows), rows...)
	}
	out = append(out, nil)
	set(1, t.short())
	set(3, rowsOf(t.short(), 3)...)
	return out
}

// label writes what a piece is on it, with an arrow to its top where there is room for it,
// in a view of the axes of the plan: its size comes before the arrow, the arrow before its
// name, and a name off the rings and marks before a size on one. It tells whether there
// was room.
func (l *lettering) label(v view, outline []shape.Point, top svg.Point, t pieceText) bool {
	low, high := boundsOf(outline)
	at, _ := pattern.Pattern{Cut: shape.Contour{Outer: outline}}.Room(pattern.Box{Low: low, High: high})
	views, near := viewsOf(v.line(outline)), v.at(at)
	all := t.forms()
	full, name, short := all[:2], all[2], all[3]
	for _, keep := range l.keeps() {
		try := func(forms []form, arrow *svg.Point) bool {
			for _, f := range forms {
				if l.set(views, near, l.sizes, keep, f, arrow) {
					return true
				}
			}
			return false
		}
		for _, same := range full {
			if try(same, &top) || try(same, nil) {
				return true
			}
		}
		if try(name, &top) || try(short, &top) || try(name, nil) || try(short, nil) {
			return true
		}
	}
	return false
}

// name writes what a piece is beside it. What found no place is given back.
func (l *lettering) name(v view, outline []shape.Point, t pieceText) (unsaid string) {
	if t.short() == "" {
		return ""
	}
	low, high := boundsOf(outline)
	at, room := pattern.Pattern{Cut: shape.Contour{Outer: outline}}.Room(pattern.Box{Low: low, High: high})
	points := []svg.Point{v.at(at)}
	polygon := v.line(outline)
	for _, w := range viewsOf(polygon) { // a long strip is led to by an end too
		c, off := points[0], 6.0
		if long := w.high.X - w.low.X; long > 4*off {
			in := w.from.own(c)
			for _, end := range []svg.Point{w.from.page(w.low.X+off, in.Y), w.from.page(w.high.X-off, in.Y)} {
				if within(polygon, end) {
					points = append(points, end)
				}
			}
		}
	}
	if !l.beside(points, float64(float64(room)*v.scale), l.sizes[len(l.sizes)-1], false, form{[]string{t.short()}, 1}) {
		return t.short()
	}
	return ""
}
