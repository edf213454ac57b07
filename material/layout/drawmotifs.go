package layout

import (
	"math"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// matchPoint gives the point of a piece that the layout puts on a motif, or on what its
// common number goes by, in the axes of the roll. Pieces that lie on the pattern in one
// direction alone have none.
func (p Plan) matchPoint(q Place) (at shape.Point, found bool) {
	if of := p.Job.Pieces[q.Piece]; q.Segments > 1 || !of.matched(*p.Job.Roll) || of.Phase.Axes != BothAxes || p.Job.Roll.Columns() == 0 || p.Job.Roll.Repeat == 0 {
		return at, false
	}
	m := p.Job.Roll.Motifs()
	m.First = p.motif(p.Job.Pieces[q.Piece].Phase.Common)
	for _, s := range p.Job.Pieces[q.Piece].Phase.spots() {
		z := s.Point
		if q.Mirrored {
			z.X = -z.X
		}
		z = turnedPoint(z, int(q.Turned)/90)
		z = shape.Point{X: z.X + q.X, Y: z.Y + q.Y}
		off := m.Apart(shape.Point{X: z.X - m.First.X, Y: z.Y - m.First.Y})
		if max(off.X, -off.X, off.Y, -off.Y) < unit.Millimetre/10 {
			return z, true
		}
	}
	return at, false
}

// besideMatch gives the part of the box of a piece beside the point that is put on a
// motif that takes the label best, or all of it where none is large enough.
func (v rollView) besideMatch(p placedView, low, high shape.Point, px func(unit.Length) float64) (shape.Point, shape.Point) {
	const least, level, round = 30, 40, 6.5 // of the narrow side, of one for level type, and round the point
	z, found := v.plan.matchPoint(p.Place)
	if !v.roll.Patterned() || !found || z.X <= low.X || z.X >= high.X || z.Y <= low.Y || z.Y >= high.Y {
		return low, high
	}
	by := unit.Length(round / px(unit.Inch) * float64(unit.Inch))
	best, most := [2]shape.Point{low, high}, 0.0
	for _, c := range [][2]shape.Point{
		{{X: z.X + by, Y: low.Y}, high}, {low, {X: z.X - by, Y: high.Y}}, {{X: low.X, Y: z.Y + by}, high}, {low, {X: high.X, Y: z.Y - by}},
	} {
		wide, tall := px(c[1].Y-c[0].Y), px(c[1].X-c[0].X)
		narrow := min(wide, tall)
		worth := math.Round(narrow * 100)
		if narrow == tall && narrow > level {
			worth *= 2
		}
		if narrow > least && worth > most {
			best, most = c, worth
		}
	}
	return best[0], best[1]
}

// matchPoints rings the points of the pieces that lie on a motif, where they are on
// the piece.
func matchPoints(d *svg.Drawing, v rollView, at func(x, y unit.Length) svg.Point, from, to unit.Length) {
	if !v.roll.Patterned() {
		return
	}
	for _, p := range v.placed {
		z, found := v.plan.matchPoint(p.Place)
		if !found || z.Y < from || z.Y >= to || z.X <= p.low.X || z.X >= p.high.X || z.Y <= p.low.Y || z.Y >= p.high.Y {
			continue
		}
		d.Circle(at(z.X, z.Y), 5.5, svg.Attrs("class", "match", "fill", "none", "stroke", "#000", "stroke-width", "1.1")...)
	}
}

// firstMotif says how far the first motif lies from the end of the roll and from its
// left edge, with dimension lines outside the goods.
func (s draughtsman) firstMotif(d *svg.Drawing, v rollView, at func(x, y unit.Length) svg.Point, to unit.Length) {
	m := v.roll.Motifs()
	m.First = v.plan.motif(0)
	x, y := unit.Length(0), unit.Length(0)
	if m.Along > 0 {
		y = modulo(m.First.Y, m.Along)
	}
	if m.Across > 0 {
		x = modulo(m.First.X, m.Across)
		if m.Along > 0 {
			y = modulo(m.First.Y+m.Rise(int((x-m.First.X)/m.Across)), m.Along)
		}
	}
	if y >= to || x >= v.roll.Usable() {
		return
	}
	c := at(x, y)
	if y > unit.Millimetre {
		a := at(0, 0)
		d.Dimension(svg.Point{X: a.X, Y: a.Y - 22}, svg.Point{X: c.X, Y: a.Y - 22}, s.length(y), a, svg.Point{X: c.X, Y: a.Y - 14})
	}
	if x > unit.Millimetre {
		a := at(0, 0)
		d.Dimension(svg.Point{X: a.X - 12, Y: c.Y}, svg.Point{X: a.X - 12, Y: a.Y}, s.length(x), svg.Point{X: a.X, Y: c.Y}, a)
	}
}

// thrownAway hatches what is bought to find the start of the pattern. It comes off the
// end that is cut first, but for what is found there to be of use: so it is drawn
// behind all pieces, where it moves nothing.
func (s draughtsman) thrownAway(d *svg.Drawing, v rollView, at func(x, y unit.Length) svg.Point, px func(unit.Length) float64, from, to unit.Length) {
	a, b := max(v.need, from), min(v.need+v.plan.Spare, v.order, to)
	if v.plan.Spare == 0 || b <= a {
		return
	}
	const step = 9.0
	p, wide, high := at(0, a), px(b-a), px(v.roll.Usable())
	for k := 1.0; k*step < wide+high; k++ {
		x0, y0 := math.Min(k*step, wide), math.Max(k*step-wide, 0)
		x1, y1 := math.Max(k*step-high, 0), math.Min(k*step, high)
		d.Line(svg.Point{X: p.X + x0, Y: p.Y + y0}, svg.Point{X: p.X + x1, Y: p.Y + y1}, svg.Attrs("class", "spare", "stroke", "#777", "stroke-width", "0.6")...)
	}
	if b == min(v.need+v.plan.Spare, v.order) && b-a > v.plan.Spare/2 {
		fitLabel(d, at, px, a, b, 0, v.roll.Usable(), 9, 0, "up to "+s.length(v.plan.Spare)+", cut off at the start to find the first motif")
	}
}
