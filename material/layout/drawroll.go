package layout

import (
	"fmt"
	"math"
	"strings"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// sections says where a roll is divided for drawing: no part longer than about
// twice the width, cut where the fewest pieces are cut through.
func (v rollView) sections() []unit.Length {
	most := v.roll.Usable() * 23 / 10
	parts := max((v.order+most*9/10-1)/most, 1) // a little over makes no part of its own
	most = min(most, (v.order+parts-1)/parts) * 115 / 100
	out := []unit.Length{0}
	for from := unit.Length(0); v.order-from > most; {
		best, fewest := from+most, math.MaxInt
		try := func(y unit.Length) {
			if y <= from+most*2/3 || y > from+most || y >= v.order {
				return
			}
			n := 0
			for _, p := range v.placed {
				if p.low.Y < y && p.high.Y > y {
					n++
				}
			}
			if n < fewest || n == fewest && y > best {
				best, fewest = y, n
			}
		}
		try(from + most)
		for _, p := range v.placed {
			try(p.low.Y)
			try(p.high.Y)
		}
		from = best
		out = append(out, from)
	}
	return append(out, v.order)
}

// between gives the part of a polygon from one Y to another (the method of
// Sutherland and Hodgman).
func between(points []shape.Point, from, to unit.Length) []shape.Point {
	for _, edge := range []struct {
		y    unit.Length
		keep unit.Length // the sign of what stays
	}{{from, 1}, {to, -1}} {
		var out []shape.Point
		for i, a := range points {
			b := points[(i+1)%len(points)]
			ina, inb := (a.Y-edge.y)*edge.keep >= 0, (b.Y-edge.y)*edge.keep >= 0
			if ina {
				out = append(out, a)
			}
			if ina != inb {
				t := float64(edge.y-a.Y) / float64(b.Y-a.Y)
				out = append(out, shape.Point{X: a.X + unit.Length(math.Round(t*float64(b.X-a.X))), Y: edge.y})
			}
		}
		points = out
	}
	return points
}

// roll draws a layout to scale, the roll from left to right and its
// left edge above, in parts that fit a page.
func (s draughtsman) roll(v rollView) []Drawing {
	cuts := v.sections()
	var longest unit.Length
	for i := range len(cuts) - 1 {
		longest = max(longest, cuts[i+1]-cuts[i])
	}
	const right, foot = 4.0, 30.0
	left := 4.0
	if v.roll.Patterned() { // room for the dimensions of the first motif
		left = 26
	}
	usable := v.roll.Usable()
	scale := min((s.wide-left-right)/float64(max(longest, 1)), 330/float64(max(usable, 1)))
	high := float64(usable) * scale
	var out []Drawing
	for i := range len(cuts) - 1 {
		from, to := cuts[i], cuts[i+1]
		top := 16.0
		if v.roll.Patterned() && i == 0 {
			top = 34
		}
		title := fmt.Sprintf("Cutting layout of %s, from %s to %s along the roll", s.Title, s.length(from), s.length(to))
		d := svg.New(s.wide, top+high+foot, title)
		px := func(v unit.Length) float64 { return float64(float64(v) * scale) }
		at := func(x, y unit.Length) svg.Point { return svg.Point{X: left + px(y-from), Y: top + px(x)} }
		box := func(x, y, w, long unit.Length, attrs ...svg.Attr) {
			a, b := max(y, from), min(y+long, to)
			if b > a {
				d.Rect(at(x, a), px(b-a), px(w), attrs...)
			}
		}
		box(0, from, usable, to-from, svg.Attrs("class", "goods", "fill", "#e9e9e9", "stroke", "none")...)
		for _, o := range v.offcuts {
			box(o.X, o.Y, o.Width, o.Length, svg.Attrs("class", "offcut", "fill", "#f8f8f8", "stroke", "#555", "stroke-width", "0.8", "stroke-dasharray", "3 3")...)
		}
		for _, f := range v.roll.Flaws {
			w := f.Across(v.roll)
			box(f.X, f.Y, w, f.Length, svg.Attrs("class", "flaw", "fill", "#777", "stroke", "#000")...)
		}
		for _, p := range v.placed {
			if min(p.high.Y, to)-max(p.low.Y, from) < unit.Millimetre/10 {
				continue // the other part is all that shows
			}
			var points []svg.Point
			for _, q := range between(p.Outline, from, to) {
				points = append(points, at(q.X, q.Y))
			}
			d.Polygon(points, svg.Attrs("class", "piece", "fill", "#fff", "stroke", "#000", "stroke-width", "1.1")...)
		}
		s.thrownAway(d, v, at, px, from, to)
		repeatLines(d, v, at, px, from, to, top)
		matchPoints(d, v, at, from, to)
		if from == 0 {
			s.firstMotif(d, v, at, to)
		}
		for _, o := range v.offcuts {
			if v.plan.Spare > 0 && o.Y+o.Length/2 > v.need {
				continue // more than half of it may be cut off at the start
			}
			fitLabel(d, at, px, max(o.Y, from), min(o.Y+o.Length, to), o.X, o.Width, 9, 0, "left over", s.size(o.Width, o.Length, unit.Nearest))
		}
		for _, p := range v.placed {
			a, b := max(p.low.Y, from), min(p.high.Y, to)
			if b <= a || b-a < (p.high.Y-p.low.Y)/2 {
				continue // the label stands in the larger part
			}
			s.name(d, view{low: shape.Point{X: from, Y: -usable}, high: shape.Point{X: to}, left: left, top: top, scale: scale}, v, p, from, to)
		}
		// The border, dotted where the roll goes on.
		a, b, c, e := at(0, from), at(0, to), at(usable, to), at(usable, from)
		edge := svg.Attrs("stroke", "#000", "stroke-width", "1.6")
		d.Line(a, b, edge...)
		d.Line(e, c, edge...)
		for _, end := range []struct {
			p, q  svg.Point
			whole bool
		}{{a, e, from == 0}, {b, c, to == v.order}} {
			if end.whole {
				d.Line(end.p, end.q, edge...)
			} else {
				d.Line(end.p, end.q, svg.Attrs("stroke", "#000", "stroke-width", "1", "stroke-dasharray", "2 3")...)
			}
		}
		s.rule(d, func(y unit.Length) svg.Point { return at(usable, y) }, px, from, to, v.need)
		out = append(out, Drawing{SVG: d.String(), From: from, To: to})
	}
	return out
}

// name writes what a piece is on it: in its box where it fills that well, else
// about its clearest place.
func (s draughtsman) name(d *svg.Drawing, on view, v rollView, p placedView, from, to unit.Length) {
	l := s.label(v.plan, p.Piece).handed(p.Mirrored, "mir.")
	if p.Segments > 1 {
		l.Name += fmt.Sprintf(", part %d of %d", p.Segment+1, p.Segments)
	}
	w, h := p.sized()
	size := s.size(w, h, unit.Up)
	a, b := max(p.low.Y, from), min(p.high.Y, to)
	lies := between(p.Outline, from, to)
	ring := gridRing(lies)
	if full := gridRing([]shape.Point{{X: p.low.X, Y: a}, {X: p.high.X, Y: a}, {X: p.high.X, Y: b}, {X: p.low.X, Y: b}}); ring.Area() > 0.8*full.Area() {
		at := func(x, y unit.Length) svg.Point { return on.at(shape.Point{X: y, Y: -x}) }
		px := func(v unit.Length) float64 { return float64(float64(v) * on.scale) }
		low, high := shape.Point{X: p.low.X, Y: a}, shape.Point{X: p.high.X, Y: b}
		if ring.Area() > 0.97*full.Area() {
			low, high = v.besideMatch(p, low, high, px)
		}
		fitLabel(d, at, px, low.Y, high.Y, low.X, high.X-low.X, 10.5, int(p.Turned)+1, l.Number, l.Name, size, p.turned(v.roll.Up))
		return
	}
	// The page has the roll to the right and its left edge above.
	for i, q := range lies {
		lies[i] = shape.Point{X: q.Y, Y: -q.X}
	}
	low, high := boundsOf(lies)
	at, room := pattern.Pattern{Cut: shape.Contour{Outer: lies}}.Room(pattern.Box{Low: low, High: high})
	text := strings.TrimSpace(l.Number + " " + l.Name)
	labelOn(d, on, lies, at, float64(room)*on.scale, topOf(p.Turned, true), w > h, strings.TrimSpace(text+" "+size+" "+p.turned(v.roll.Up)), text+" "+size, text, l.Number, s.label(v.plan, p.Piece).Number)
}

// repeatLines marks where the motifs lie: lines along their columns and, where all
// columns are level, across them, and a cross on every motif where the pattern
// repeats both ways. Marks closer than can be told apart are left out.
func repeatLines(d *svg.Drawing, v rollView, at func(x, y unit.Length) svg.Point, px func(unit.Length) float64, from, to unit.Length, top float64) {
	const least, label, arm = 4, 46, 3.5 // points between marks, between their names, and of a cross
	m, usable := v.roll.Motifs(), v.roll.Usable()
	m.First = v.plan.motif(0)
	r, across := m.Along, m.Across
	line := func(a, b svg.Point) {
		d.Line(a, b, svg.Attrs("class", "repeat", "stroke", "#000", "stroke-width", "0.7", "stroke-dasharray", "7 3 1 3")...)
	}
	// Columns are counted from the first motif, those in the width are drawn.
	columns := across > 0 && px(across) >= least
	x, column := unit.Length(0), 0
	if columns {
		x = modulo(m.First.X, across)
		column = int((x - m.First.X) / across)
	}
	for x := x; columns && x < usable; x += across {
		if x > 0 {
			line(at(x, from), at(x, to))
		}
	}
	if r <= 0 || px(r) < least {
		return
	}
	name := unit.Length(1)
	for px(r)*float64(name) < label {
		name++
	}
	start := modulo(m.First.Y, r)
	for k := max((from-start+r-1)/r, 0); start+k*r <= to; k++ {
		y := start + k*r
		if y == 0 {
			continue // the end of the roll
		}
		if m.Drop == (material.Drop{}) {
			line(at(0, y), at(usable, y))
		}
		text := fmt.Sprintf("repeat %d", k)
		if k == 0 {
			text = "first motif"
		}
		if k%name == 0 {
			d.Write(svg.Point{X: at(0, y).X, Y: top - 4}, 9, anchorAt(y, from, to, func(l unit.Length) bool { return px(l) < label/2 }), text)
		}
	}
	if !columns {
		return
	}
	for ; x <= usable; x, column = x+across, column+1 {
		for y := from + modulo(start+m.Rise(column)-from, r); y <= to; y += r {
			c := at(x, y)
			d.Line(svg.Point{X: c.X - arm, Y: c.Y}, svg.Point{X: c.X + arm, Y: c.Y}, svg.Attrs("class", "motif", "stroke", "#000", "stroke-width", "1.2")...)
			d.Line(svg.Point{X: c.X, Y: c.Y - arm}, svg.Point{X: c.X, Y: c.Y + arm}, svg.Attrs("class", "motif", "stroke", "#000", "stroke-width", "1.2")...)
		}
	}
}

// anchorAt keeps a text inside a part of the roll: it starts at a place near the
// beginning and ends at one near the end.
func anchorAt(y, from, to unit.Length, near func(unit.Length) bool) string {
	switch {
	case near(y - from):
		return "start"
	case near(to - y):
		return "end"
	}
	return "middle"
}

// rule draws a rule along the roll, with the distance from its end.
func (s draughtsman) rule(d *svg.Drawing, at func(y unit.Length) svg.Point, px func(unit.Length) float64, from, to, need unit.Length) {
	step, write1 := 6*unit.Inch, 2
	if s.Units == pattern.Metric {
		step, write1 = 100*unit.Millimetre, 5
	}
	for px(step)*float64(write1) < 44 {
		step *= 2
	}
	for k := (from + step - 1) / step; k*step <= to; k++ {
		p := at(k * step)
		long := 4.0
		if k%unit.Length(write1) == 0 {
			long = 7
			d.Write(svg.Point{X: p.X, Y: p.Y + 17}, 9, anchorAt(k*step, from, to, func(l unit.Length) bool { return px(l) < 20 }), s.length(k*step))
		}
		d.Line(p, svg.Point{X: p.X, Y: p.Y + long}, svg.Attrs("stroke", "#000", "stroke-width", "0.7")...)
	}
	if need > from && need <= to {
		p := at(need)
		anchor := "middle"
		if px(to-need) < 60 {
			anchor = "end"
		}
		d.Polygon([]svg.Point{{X: p.X, Y: p.Y + 1}, {X: p.X - 4, Y: p.Y + 9}, {X: p.X + 4, Y: p.Y + 9}}, svg.Attrs("fill", "#000")...)
		d.Halo(svg.Point{X: p.X, Y: p.Y + 28}, 9, anchor, "used to "+s.length(need))
	}
}
