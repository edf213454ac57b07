package layout

import (
	"fmt"
	"math"
	"slices"

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

// rollPage is the drawing of a part of a roll in the making.
type rollPage struct {
	draughtsman
	rollView
	letters  lettering
	cuts     []unit.Length
	from, to unit.Length
	left     float64
	top      float64
	scale    float64 // user units for each nanometre
	unsaid   []string
}

// rollParts draws a layout to scale, the roll from left to right and its
// left edge above, in parts that fit a page.
func (s draughtsman) rollParts(v rollView) []Drawing {
	cuts := v.sections()
	var longest unit.Length
	for i := range len(cuts) - 1 {
		longest = max(longest, cuts[i+1]-cuts[i])
	}
	const right = 4.0
	left := 4.0
	if v.roll.Patterned() { // room for the dimensions of the first motif
		left = 26
	}
	usable := v.roll.Usable()
	scale := min((s.wide-left-right)/float64(max(longest, 1)), 360/float64(max(usable, 1)))
	var out []Drawing
	for i := range len(cuts) - 1 {
		p := rollPage{draughtsman: s, rollView: v, cuts: cuts, from: cuts[i], to: cuts[i+1], left: left, top: 16, scale: scale}
		if v.roll.Patterned() && i == 0 {
			p.top = 34
		}
		out = append(out, Drawing{SVG: p.draw(), From: p.from, To: p.to})
	}
	return out
}

// belowRoll is the room for the ruler and for how far the roll is used.
const belowRoll = 32.0

func (p *rollPage) draw() string {
	p.write()
	foot := p.foot()
	below := p.top + p.px(p.roll.Usable()) + belowRoll
	d := svg.New(p.wide, below+foot.high(), fmt.Sprintf("Cutting layout of %s, from %s to %s along the roll", p.Title, p.length(p.from), p.length(p.to)))
	p.goods(d)
	for _, q := range p.placed {
		if !p.shows(q) {
			continue
		}
		if p.boxed(q) {
			p.box(d, q.low.X, q.low.Y, q.high.X-q.low.X, q.high.Y-q.low.Y, svg.Attrs("class", "box", "fill", "none", "stroke", "#777", "stroke-width", "0.7", "stroke-dasharray", "4 2")...)
		}
		d.Polygon(p.line(q.Outline), svg.Attrs("class", "piece", "fill", "#fff", "stroke", "#000", "stroke-width", "1.1")...)
	}
	p.thrownAway(d)
	repeatLines(d, p.rollView, &p.letters, p.at, p.px, p.from, p.to)
	p.matchPoints(d)
	if p.from == 0 {
		p.firstMotif(d)
	}
	p.letters.draw(d)
	p.edges(d)
	p.rule(d, func(y unit.Length) svg.Point { return p.at(p.roll.Usable(), y) }, p.px, p.from, p.to, p.need)
	foot.draw(d, below)
	return d.String()
}

func (p *rollPage) px(l unit.Length) float64 { return float64(float64(l) * p.scale) }

func (p *rollPage) at(x, y unit.Length) svg.Point {
	return svg.Point{X: p.left + p.px(y-p.from), Y: p.top + p.px(x)}
}

// box draws the part of a rectangle that this part of the roll shows, by its lower left
// corner.
func (p *rollPage) box(d *svg.Drawing, x, y, w, long unit.Length, attrs ...svg.Attr) {
	if a, b := max(y, p.from), min(y+long, p.to); b > a {
		d.Rect(p.at(x, a), p.px(b-a), p.px(w), attrs...)
	}
}

// line brings the part of an outline that this part of the roll shows to the page.
func (p *rollPage) line(outline []shape.Point) []svg.Point {
	var out []svg.Point
	for _, q := range between(outline, p.from, p.to) {
		out = append(out, p.at(q.X, q.Y))
	}
	return out
}

// largest tells whether no other part of the roll shows more of what reaches from one
// place along it to another: a text stands there.
func (p *rollPage) largest(from, to unit.Length) bool {
	best, most := unit.Length(0), unit.Length(0)
	for i := range len(p.cuts) - 1 {
		if n := min(to, p.cuts[i+1]) - max(from, p.cuts[i]); n > most {
			best, most = p.cuts[i], n
		}
	}
	return most > 0 && best == p.from
}

// shows tells whether more than a line of a piece is on this part of the roll.
func (p *rollPage) shows(q placedView) bool {
	return min(q.high.Y, p.to)-max(q.low.Y, p.from) >= unit.Millimetre/10
}

// boxed tells whether a piece lies in a box that it does not fill.
func (p *rollPage) boxed(q placedView) bool {
	full := gridRing([]shape.Point{q.low, {X: q.high.X, Y: q.low.Y}, q.high, {X: q.low.X, Y: q.high.Y}})
	return p.plan.Method != OutlinesNested && gridRing(q.Outline).Area() < 0.999*full.Area()
}

// write finds the places of all that is written on this part of the roll.
func (p *rollPage) write() {
	l := &p.letters
	l.sizes, l.heads = []float64{labelType, noteType}, []float64{8, 5.5}
	usable := p.roll.Usable()
	low, high := p.at(0, p.from), p.at(usable, p.to)
	l.sheet = quad{svg.Point{X: (low.X + high.X) / 2, Y: high.Y / 2}, svg.Point{X: 1}, (high.X - low.X) / 2, high.Y / 2} // and the rim above
	l.bars = [][]svg.Point{{low, {X: high.X, Y: low.Y}, high, {X: low.X, Y: high.Y}}}
	repeatNames(p.rollView, l, p.at, p.px, p.from, p.to)
	if p.from == 0 && p.roll.Patterned() {
		if room, some := p.motifRoom(); some {
			l.taken = append(l.taken, room)
		}
	}
	for _, q := range p.placed {
		if p.shows(q) {
			l.pieces = append(l.pieces, p.line(q.Outline))
		}
		if z, found := p.plan.matchPoint(q.Place); found && p.roll.Patterned() {
			l.shy = append(l.shy, quad{p.at(z.X, z.Y), svg.Point{X: 1}, 7, 7})
		}
	}
	on := view{low: shape.Point{X: p.from, Y: -usable}, high: shape.Point{X: p.to}, left: p.left, top: p.top, scale: p.scale}
	lies := func(q placedView) []shape.Point { // the page has the roll to the right and its left edge above
		points := between(q.Outline, p.from, p.to)
		for i, z := range points {
			points[i] = shape.Point{X: z.Y, Y: -z.X}
		}
		return points
	}
	var small, rest []placedView
	for _, q := range p.placed {
		if !p.largest(q.low.Y, q.high.Y) {
			rest = append(rest, q)
			continue
		}
		if !l.label(on, lies(q), topOf(q.Turned, true), p.text(q)) {
			small = append(small, q)
		}
	}
	for _, f := range p.roll.Flaws {
		p.flaw(f)
	}
	for _, q := range small {
		if t := l.name(on, lies(q), p.text(q)); t != "" {
			p.unsaid = append(p.unsaid, t)
		}
	}
	for _, q := range rest {
		if t := p.text(q); p.shows(q) && t.short() != "" {
			line := p.line(q.Outline)
			low, high := boxRound(line)
			l.on(line, svg.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}, []float64{noteType}, form{lines: []string{"part of " + t.short()}}, form{lines: []string{"part of", t.short()}})
		}
	}
	if a, b := p.spare(); b == min(p.need+p.plan.Spare, p.order) && b-a > p.plan.Spare/2 {
		text := "up to " + p.length(p.plan.Spare) + ", cut off at the start to find the first motif"
		p.onBox(0, a, usable, b-a, form{lines: []string{text}}, form{lines: rowsOf(text, 2)}, form{lines: rowsOf(text, 4)})
	}
	for _, o := range p.offcuts {
		if !p.largest(o.Y, o.Y+o.Length) || p.plan.Spare > 0 && o.Y+o.Length/2 > p.need {
			continue // more than half of it may be cut off at the start
		}
		size := p.size(o.Width, o.Length, unit.Down)
		p.onBox(o.X, o.Y, o.Width, o.Length, form{lines: []string{"left over", size}}, form{lines: []string{"left over " + size}}, form{lines: []string{size}})
	}
}

// onBox writes on the part of a rectangle that this part of the roll shows.
func (p *rollPage) onBox(x, y, w, long unit.Length, forms ...form) bool {
	a, b := max(y, p.from), min(y+long, p.to)
	if b <= a {
		return true
	}
	box := []svg.Point{p.at(x, a), p.at(x, b), p.at(x+w, b), p.at(x+w, a)}
	return p.letters.on(box, p.at(x+w/2, (a+b)/2), []float64{noteType}, forms...)
}

// flaw names a flaw on it, or beside it.
func (p *rollPage) flaw(f material.Flaw) {
	if f.Y >= p.to || f.Y+f.Length <= p.from {
		return
	}
	w := f.Across(p.roll)
	size := p.size(w, f.Length, unit.Up)
	if p.onBox(f.X, f.Y, w, f.Length, form{lines: []string{"flaw " + size}}, form{lines: []string{"flaw", size}}, form{lines: []string{"flaw"}}) {
		return
	}
	a, b := max(f.Y, p.from), min(f.Y+f.Length, p.to)
	p.letters.beside([]svg.Point{p.at(f.X+w/2, (a+b)/2)}, max(p.px(w), p.px(b-a))/2, noteType, false, form{lines: []string{"flaw"}})
}

// text gives what may be written on a piece.
func (p *rollPage) text(q placedView) pieceText {
	l := p.label(p.plan, q.Piece)
	t := pieceText{number: l.Number, name: l.Name, turned: q.turned(p.roll.Up)}
	if q.Mirrored {
		t.hand = mirroredShort
	}
	if q.Segments > 1 {
		t.name += fmt.Sprintf(", part %d of %d", q.Segment+1, q.Segments)
	}
	w, h := q.sized()
	t.size = p.size(w, h, unit.Up)
	return t
}

// goods draws the roll, what is left over and the flaws.
func (p *rollPage) goods(d *svg.Drawing) {
	p.box(d, 0, p.from, p.roll.Usable(), p.to-p.from, svg.Attrs("class", "goods", "fill", "#e9e9e9", "stroke", "none")...)
	for _, o := range p.offcuts {
		p.box(d, o.X, o.Y, o.Width, o.Length, svg.Attrs("class", "offcut", "fill", "#f8f8f8", "stroke", "#555", "stroke-width", "0.8", "stroke-dasharray", "3 3")...)
	}
	for _, f := range p.roll.Flaws {
		a, b, w := max(f.Y, p.from), min(f.Y+f.Length, p.to), f.Across(p.roll)
		if b <= a {
			continue
		}
		p.box(d, f.X, f.Y, w, f.Length, svg.Attrs("class", "flaw", "fill", "#fff", "stroke", "#000", "stroke-width", "0.8")...)
		for _, h := range flawHatch.hatch([]svg.Point{p.at(f.X, a), p.at(f.X, b), p.at(f.X+w, b), p.at(f.X+w, a)}, 1) {
			p.letters.line(d, h[0], h[1], svg.Attrs("class", "hatch", "stroke", "#000", "stroke-width", "0.6")...)
		}
	}
}

var flawHatch = hatchOf(material.DeepMark)

// edges draws the border, dotted where the roll goes on.
func (p *rollPage) edges(d *svg.Drawing) {
	usable := p.roll.Usable()
	a, b, c, e := p.at(0, p.from), p.at(0, p.to), p.at(usable, p.to), p.at(usable, p.from)
	edge := svg.Attrs("stroke", "#000", "stroke-width", "1.6")
	d.Line(a, b, edge...)
	d.Line(e, c, edge...)
	for _, end := range []struct {
		p, q  svg.Point
		whole bool
	}{{a, e, p.from == 0}, {b, c, p.to == p.order}} {
		if end.whole {
			d.Line(end.p, end.q, edge...)
		} else {
			d.Line(end.p, end.q, svg.Attrs("stroke", "#000", "stroke-width", "1", "stroke-dasharray", "2 3")...)
		}
	}
}

// foot says how to read the drawing of a part of a roll.
func (p *rollPage) foot() *footing {
	f := &footing{wide: p.wide}
	p.scaleBar(f, p.scale)
	if slices.ContainsFunc(p.roll.Flaws, func(x material.Flaw) bool { return x.Y < p.to && x.Y+x.Length > p.from }) {
		f.add("flaw", 16, swatch("flaw", flawHatch, "fill", "#fff", "stroke", "#000", "stroke-width", "0.8"))
	}
	if slices.ContainsFunc(p.offcuts, func(o Offcut) bool { return o.Y < p.to && o.Y+o.Length > p.from }) {
		f.add("left over", 16, swatch("", hatching{apart: 1}, "fill", "#f8f8f8", "stroke", "#555", "stroke-width", "0.8", "stroke-dasharray", "3 3"))
	}
	if slices.ContainsFunc(p.placed, func(q placedView) bool { return p.shows(q) && p.boxed(q) }) {
		f.add("box of a piece", 16, swatch("", hatching{apart: 1}, "fill", "none", "stroke", "#777", "stroke-width", "0.7", "stroke-dasharray", "4 2"))
	}
	f.unsaid(p.unsaid)
	return f
}

// repeatLines marks where the motifs lie: lines along their columns and, where all
// columns are level, across them, and a cross on every motif where the pattern
// repeats both ways. Marks closer than can be told apart are left out.
func repeatLines(d *svg.Drawing, v rollView, letters *lettering, at func(x, y unit.Length) svg.Point, px func(unit.Length) float64, from, to unit.Length) {
	const least, arm = leastRepeat, 3.5 // points between marks, and of a cross
	m, usable := v.roll.Motifs(), v.roll.Usable()
	m.First = v.plan.motif(0)
	r, across := m.Along, m.Across
	line := func(a, b svg.Point) {
		letters.line(d, a, b, svg.Attrs("class", "repeat", "stroke", "#000", "stroke-width", "0.7", "stroke-dasharray", "7 3 1 3")...)
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
	start := modulo(m.First.Y, r)
	for k := max((from-start+r-1)/r, 0); start+k*r <= to; k++ {
		y := start + k*r
		if y == 0 {
			continue // the end of the roll
		}
		if m.Drop == (material.Drop{}) {
			line(at(0, y), at(usable, y))
		}
	}
	if !columns {
		return
	}
	for ; x <= usable; x, column = x+across, column+1 {
		for y := from + modulo(start+m.Rise(column)-from, r); y <= to; y += r {
			c := at(x, y)
			if slices.ContainsFunc(letters.taken, quad{c, svg.Point{X: 1}, arm, arm}.meets) {
				continue
			}
			d.Line(svg.Point{X: c.X - arm, Y: c.Y}, svg.Point{X: c.X + arm, Y: c.Y}, svg.Attrs("class", "motif", "stroke", "#000", "stroke-width", "1.2")...)
			d.Line(svg.Point{X: c.X, Y: c.Y - arm}, svg.Point{X: c.X, Y: c.Y + arm}, svg.Attrs("class", "motif", "stroke", "#000", "stroke-width", "1.2")...)
		}
	}
}

// leastRepeat is how far marks of the repeat must stand apart to be drawn.
const leastRepeat = 4

// repeatNames writes above the roll which repeat begins where, every so many of them.
func repeatNames(v rollView, letters *lettering, at func(x, y unit.Length) svg.Point, px func(unit.Length) float64, from, to unit.Length) {
	const label = 46 // points between names
	m := v.roll.Motifs()
	m.First = v.plan.motif(0)
	r := m.Along
	if r <= 0 || px(r) < leastRepeat {
		return
	}
	name := unit.Length(1)
	for px(r)*float64(name) < label {
		name++
	}
	start := modulo(m.First.Y, r)
	for k := max((from-start+r-1)/r, 0); start+k*r <= to; k++ {
		y := start + k*r
		if y == 0 || k%name != 0 {
			continue // the end of the roll has none
		}
		text := form{lines: []string{fmt.Sprintf("repeat %d", k)}}
		if k == 0 {
			text.lines[0] = "first motif"
		}
		wide, high := text.measure(noteType)
		mid := at(0, y)
		mid.Y -= 3 + high
		mid.X = max(min(mid.X, at(0, to).X-wide), at(0, from).X+wide)
		if box := (quad{mid, svg.Point{X: 1}, wide, high}); !slices.ContainsFunc(letters.taken, box.grown(2).meets) {
			letters.put(writing{text, noteType, box})
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
			d.Write(svg.Point{X: p.X, Y: p.Y + 17}, noteType, anchorAt(k*step, from, to, func(l unit.Length) bool { return px(l) < 20 }), s.length(k*step))
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
		d.Write(svg.Point{X: p.X, Y: p.Y + 28}, noteType, anchor, "used to "+s.length(need))
	}
}
