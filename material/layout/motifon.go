package layout

import (
	"math"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// MotifOn gives where a motif of the goods falls on a piece as it lies: the one
// nearest to the middle of the box round it, in the axes of its outline as drawn, so
// that both hands of a pair that lie alike give one point. It may lie off the
// piece. Way is how the pattern binds the piece: in the other direction any motif
// falls where it may, and the point has the middle of the piece. Pieces that lie
// anywhere, segments of joined ones and pieces on hides have no way, and no point.
//
// The point is worked back from the place: with the motifs at m on the roll, the
// place moved by t and turned by the rotation A,
//
//	z = A⁻¹ (m - t),   mirrored left for right for the other hand
func (p Plan) MotifOn(q Place) (at shape.Point, way allowance.PatternWay) {
	if p.Job.Roll == nil || q.Piece < 0 || q.Piece >= len(p.Job.Pieces) || q.Segments > 1 {
		return at, allowance.NoPattern
	}
	of, roll := p.Job.Pieces[q.Piece], *p.Job.Roll
	roll.Across = roll.Columns() // as it is seen on the furniture
	across, along := of.Phase.across(roll), of.Phase.along(roll)
	switch {
	case across && along:
		way = allowance.BothWays
	case across:
		way = allowance.AcrossOnly
	case along:
		way = allowance.AlongOnly
	default:
		return at, allowance.NoPattern
	}
	low, high := of.Outline.Bounds()
	middle := shape.Point{X: low.X + (high.X-low.X)/2, Y: low.Y + (high.Y-low.Y)/2}
	far := math.Inf(1)
	for _, m := range p.motifsAbout(q, middle) {
		x, y := float64(m.X-middle.X), float64(m.Y-middle.Y)
		if !across {
			x = 0
		}
		if !along {
			y = 0
		}
		// Of those as near, to what the places are rounded to, the lowest on the left.
		d := math.Round(geom.Hypot(x, y) / float64(10*unit.Micrometre))
		if d < far || d == far && (m.Y < at.Y || m.Y == at.Y && m.X < at.X) {
			at, far = m, d
		}
	}
	if !across {
		at.X = middle.X
	}
	if !along {
		at.Y = middle.Y
	}
	return at, way
}

// motifsAbout gives the motifs round the middle of a place, in the axes of its outline.
func (p Plan) motifsAbout(q Place, middle shape.Point) []shape.Point {
	m := p.Job.Roll.Motifs()
	m.First = p.motif(0)
	quarters := int(q.Turned) / 90
	if q.Mirrored {
		middle.X = -middle.X
	}
	on := turnedPoint(middle, quarters)
	on = shape.Point{X: on.X + q.X, Y: on.Y + q.Y}
	columns, rows := max(m.Drop.Den, 1), 1
	first, row := 0, 0
	if m.Across == 0 {
		columns = 0
	} else {
		first = int((on.X - m.First.X) / m.Across)
	}
	if m.Along == 0 {
		rows = 0
	}
	var out []shape.Point
	for i := first - columns; i <= first+columns; i++ {
		x, y := on.X, on.Y
		if m.Across > 0 {
			x = m.First.X + unit.Length(i)*m.Across
		}
		start := m.First.Y + m.Rise(i)
		if m.Along > 0 {
			row = int((on.Y - start) / m.Along)
		}
		for k := row - rows; k <= row+rows; k++ {
			if m.Along > 0 {
				y = start + unit.Length(k)*m.Along
			}
			z := turnedPoint(shape.Point{X: x - q.X, Y: y - q.Y}, (4-quarters)%4)
			if q.Mirrored {
				z.X = -z.X
			}
			out = append(out, z)
		}
	}
	return out
}
