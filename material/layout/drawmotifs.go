package layout

import (
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

// matchPoints rings the points of the pieces that lie on a motif, where they are on
// the piece.
func (p *rollPage) matchPoints(d *svg.Drawing) {
	if !p.roll.Patterned() {
		return
	}
	for _, q := range p.placed {
		z, found := p.plan.matchPoint(q.Place)
		if !found || z.Y < p.from || z.Y >= p.to || z.X <= q.low.X || z.X >= q.high.X || z.Y <= q.low.Y || z.Y >= q.high.Y {
			continue
		}
		d.Circle(p.at(z.X, z.Y), 5.5, svg.Attrs("class", "match", "fill", "none", "stroke", "#000", "stroke-width", "1.1")...)
	}
}

// firstMotif says how far the first motif lies from the end of the roll and from its
// left edge, with dimension lines outside the goods.
func (p *rollPage) firstMotif(d *svg.Drawing) {
	x, y, shown := p.motifAt()
	if !shown {
		return
	}
	a, c := p.at(0, 0), p.at(x, y)
	if y > unit.Millimetre {
		d.Dimension(svg.Point{X: a.X, Y: a.Y - motifRim}, svg.Point{X: c.X, Y: a.Y - motifRim}, p.length(y), a, svg.Point{X: c.X, Y: a.Y - 14})
	}
	if x > unit.Millimetre {
		d.Dimension(svg.Point{X: a.X - 12, Y: c.Y}, svg.Point{X: a.X - 12, Y: a.Y}, p.length(x), svg.Point{X: a.X, Y: c.Y}, a)
	}
}

// motifRim is how far above the goods the dimension along them stands.
const motifRim = 22

// motifRoom is what that dimension takes up, so that nothing else is written there.
func (p *rollPage) motifRoom() (quad, bool) {
	x, y, shown := p.motifAt()
	if !shown || y <= unit.Millimetre {
		return quad{}, false
	}
	a, c := p.at(0, 0), p.at(x, y)
	beside := svg.TextWidth(p.length(y), 11) + 8 // of a short line
	return quad{svg.Point{X: (a.X + c.X) / 2, Y: a.Y - motifRim}, svg.Point{X: 1}, (c.X-a.X)/2 + beside, 8}, true
}

// motifAt gives the first motif from the end of the roll and from its left edge, and
// whether this part of the roll shows it.
func (p *rollPage) motifAt() (x, y unit.Length, shown bool) {
	m := p.roll.Motifs()
	m.First = p.plan.motif(0)
	if m.Along > 0 {
		y = modulo(m.First.Y, m.Along)
	}
	if m.Across > 0 {
		x = modulo(m.First.X, m.Across)
		if m.Along > 0 {
			y = modulo(m.First.Y+m.Rise(int((x-m.First.X)/m.Across)), m.Along)
		}
	}
	return x, y, y < p.to && x < p.roll.Usable()
}

// thrownAway hatches what is bought to find the start of the pattern. It comes off the
// end that is cut first, but for what is found there to be of use: so it is drawn
// behind all pieces, where it moves nothing.
func (p *rollPage) thrownAway(d *svg.Drawing) {
	a, b := p.spare()
	if b <= a {
		return
	}
	usable := p.roll.Usable()
	for _, h := range (hatching{9, []float64{-45}}).hatch([]svg.Point{p.at(0, a), p.at(0, b), p.at(usable, b), p.at(usable, a)}, 1) {
		p.letters.line(d, h[0], h[1], svg.Attrs("class", "spare", "stroke", "#777", "stroke-width", "0.6")...)
	}
}

// spare gives the part of this part of the roll that is bought to find the start of the
// pattern; none where there is none.
func (p *rollPage) spare() (from, to unit.Length) {
	if p.plan.Spare == 0 {
		return 0, 0
	}
	return max(p.need, p.from), min(p.need+p.plan.Spare, p.order, p.to)
}
