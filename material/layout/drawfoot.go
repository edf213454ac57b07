package layout

import (
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/material"
)

// footing is what stands below a drawing: a scale, what its hatchings mean, and lines of
// text.
type footing struct {
	wide  float64
	keys  []key
	rows  [][]key // keys, row by row
	lines []string
}

// key is a sample with its meaning.
type key struct {
	text   string
	wide   float64 // of the sample
	sample func(d *svg.Drawing, at svg.Point)
}

const footPitch = 13.0

func (f *footing) add(text string, wide float64, sample func(d *svg.Drawing, at svg.Point)) {
	f.keys = append(f.keys, key{text, wide, sample})
}

// say adds a text, broken where the drawing ends.
func (f *footing) say(text string) {
	rows, ok := wrapWords(text, f.wide, noteType)
	if !ok {
		rows = []string{text} // one word wider than the drawing
	}
	f.lines = append(f.lines, rows...)
}

func (k key) room() float64 { return k.wide + 4 + svg.TextWidth(k.text, noteType) + 12 }

// set breaks the keys into rows.
func (f *footing) set() {
	left := 0.0
	f.rows = nil
	for _, k := range f.keys {
		if len(f.rows) == 0 || left+k.room() > f.wide+12 {
			f.rows, left = append(f.rows, nil), 0
		}
		f.rows[len(f.rows)-1] = append(f.rows[len(f.rows)-1], k)
		left += k.room()
	}
}

func (f *footing) high() float64 {
	f.set()
	return float64(footPitch*float64(len(f.rows)+len(f.lines))) + 4
}

func (f *footing) draw(d *svg.Drawing, top float64) {
	f.set()
	y := top
	for _, row := range f.rows {
		y += footPitch
		x := 0.0
		for _, k := range row {
			k.sample(d, svg.Point{X: x, Y: y - 9})
			d.Write(svg.Point{X: x + k.wide + 4, Y: y}, noteType, "start", k.text)
			x += k.room()
		}
	}
	for _, l := range f.lines {
		y += footPitch
		d.Write(svg.Point{Y: y}, noteType, "start", l)
	}
}

// scaleBar adds a bar of a length that is at most a fifth of the drawing.
func (s draughtsman) scaleBar(f *footing, scale float64) {
	r := s.steps(scale)
	n := r.large
	for float64(r.unit)*scale*float64(2*n) <= s.wide/5 {
		n *= 2
	}
	long := float64(r.unit) * scale * float64(n)
	f.add(fmt.Sprintf("%d %s", n, r.name), long, func(d *svg.Drawing, at svg.Point) {
		a, b := svg.Point{X: at.X + 0.5, Y: at.Y + 5}, svg.Point{X: at.X + 0.5 + long, Y: at.Y + 5}
		d.Line(a, b, svg.Attrs("class", "scale", "stroke", "#000", "stroke-width", "1.6")...)
		for _, e := range []svg.Point{a, b} {
			d.Line(svg.Point{X: e.X, Y: e.Y - 4}, svg.Point{X: e.X, Y: e.Y + 4}, svg.Attrs("stroke", "#000", "stroke-width", "1")...)
		}
	})
}

// swatch is a small box, hatched as a mark is.
func swatch(class string, h hatching, attrs ...string) func(d *svg.Drawing, at svg.Point) {
	return func(d *svg.Drawing, at svg.Point) {
		box := []svg.Point{at, {X: at.X + 16, Y: at.Y}, {X: at.X + 16, Y: at.Y + 10}, {X: at.X, Y: at.Y + 10}}
		d.Polygon(box, svg.Attrs(append([]string{"class", "key"}, attrs...)...)...)
		for _, l := range h.hatch(box, 1) {
			d.Line(l[0], l[1], svg.Attrs("class", "key "+class, "stroke", "#000", "stroke-width", "0.6")...)
		}
	}
}

// foot says how to read the drawing of a hide.
func (p *hidePage) foot() *footing {
	f := &footing{wide: p.wide}
	p.scaleBar(f, p.scale)
	for s := material.FaintMark; s <= material.ThroughMark; s++ {
		if slices.ContainsFunc(p.marks, func(m HideMark) bool { return !m.Zone && m.Severity == s }) {
			f.add(severityWord(s), 16, swatch(s.String(), hatchOf(s), "fill", "none", "stroke", "#000", "stroke-width", "0.8"))
		}
	}
	k := p.plan.Hides[p.hide]
	if len(k.Holes) > 0 {
		f.add("hole", 16, swatch("", hatching{apart: 1}, "fill", "#fff", "stroke", "#000", "stroke-width", "1"))
	}
	if slices.ContainsFunc(p.marks, func(m HideMark) bool { return m.Zone }) {
		f.add("zone of a grade", 16, swatch("", hatching{apart: 1}, "fill", "none", "stroke", "#000", "stroke-width", "0.9", "stroke-dasharray", "1.5 2.5"))
	}
	if k.Border > 0 {
		f.add("rim that is not used, "+p.length(k.Border), 16, swatch("", hatching{apart: 1}, "fill", "#ececec", "stroke", "#777", "stroke-width", "0.6"))
	}
	if len(p.offcuts) > 0 {
		f.add("left over", 16, swatch("", hatching{apart: 1}, "fill", "#fafafa", "stroke", "#555", "stroke-width", "0.8", "stroke-dasharray", "3 3"))
	}
	f.say(p.reading())
	text := "Arrows point to the top of each piece; the black and the ringed point of each are the two in the list of places."
	if slices.ContainsFunc(p.plan.On(p.hide), func(q Place) bool { return q.Mirrored }) {
		text += " mir.: mirrored, the pattern turned over."
	}
	f.say(text)
	for _, m := range p.marks {
		f.say(p.words(m))
	}
	f.unsaid(p.unsaid)
	return f
}

// unsaid lists pieces that are named nowhere on the drawing.
func (f *footing) unsaid(names []string) {
	if len(names) == 0 {
		return
	}
	slices.Sort(names)
	text := "Too small to be named here:"
	for i := 0; i < len(names); {
		n := i
		for n < len(names) && names[n] == names[i] {
			n++
		}
		text += " " + names[i]
		if n-i > 1 {
			text += fmt.Sprintf(" (%d of them)", n-i)
		}
		if i = n; i < len(names) {
			text += ","
		}
	}
	f.say(text + ".")
}

// reading says where the drawing is measured from, and how far that can be trusted.
func (p *hidePage) reading() string {
	k := p.plan.Hides[p.hide]
	switch text := "Grain side up. "; {
	case p.datum.Backbone:
		return text + "Measured from the backbone, which is the broken line along the hide, and from the outermost point at the tail end."
	case p.datum.Traced:
		return text + "Where the backbone runs is not known: measured from the outermost point on the left and the outermost point at the tail end."
	default:
		return text + "This hide was not traced: it has the usual shape of a " + k.Kind.String() + " here, measured from the left edge and the tail end of that shape. Find each place anew on the hide itself."
	}
}
