package pattern

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// halfPlane is what lies on one side of a line through a point: Out points away
// from it.
type halfPlane struct{ at, out shape.Point }

// beyond gives how far a point lies outside, in lengths of Out.
func (h halfPlane) beyond(p shape.Point) float64 {
	return float64(float64(p.X-h.at.X)*float64(h.out.X)) + float64(float64(p.Y-h.at.Y)*float64(h.out.Y))
}

// opposite is the other side of the line.
func (h halfPlane) opposite() halfPlane {
	return halfPlane{h.at, shape.Point{X: -h.out.X, Y: -h.out.Y}}
}

// keep gives the part of a closed line inside the half-plane (the method of
// Sutherland and Hodgman).
func (h halfPlane) keep(ring []shape.Point) []shape.Point {
	var out []shape.Point
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		da, db := h.beyond(a), h.beyond(b)
		if da <= 0 {
			out = append(out, a)
		}
		if da <= 0 != (db <= 0) {
			t := da / (da - db)
			out = append(out, shape.Point{X: a.X + unit.Length(math.Round(t*float64(b.X-a.X))), Y: a.Y + unit.Length(math.Round(t*float64(b.Y-a.Y)))})
		}
	}
	if len(out) < 3 {
		return nil
	}
	return out
}

// chords gives the stretches of a line through a point that lie inside a closed
// line, from the lower left on.
func chords(ring []shape.Point, at, along shape.Point) [][2]shape.Point {
	side := halfPlane{at, shape.Point{X: along.Y, Y: -along.X}}
	var hits []shape.Point
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		da, db := side.beyond(a), side.beyond(b)
		if da > 0 != (db > 0) {
			t := da / (da - db)
			hits = append(hits, shape.Point{X: a.X + unit.Length(math.Round(t*float64(b.X-a.X))), Y: a.Y + unit.Length(math.Round(t*float64(b.Y-a.Y)))})
		}
	}
	slices.SortFunc(hits, func(p, q shape.Point) int {
		if p.X != q.X {
			return int(min(max(p.X-q.X, -1), 1))
		}
		return int(min(max(p.Y-q.Y, -1), 1))
	})
	var out [][2]shape.Point
	for i := 0; i+1 < len(hits); i += 2 {
		if hits[i] != hits[i+1] {
			out = append(out, [2]shape.Point{hits[i], hits[i+1]})
		}
	}
	return out
}

// overlap tells whether two closed lines share more than a sliver of the smaller
// one, by the points of a grid over what their boxes share.
func overlap(a, b []shape.Point) bool {
	const steps = 24
	p, q := boxOf(a), boxOf(b)
	low := shape.Point{X: max(p.Low.X, q.Low.X), Y: max(p.Low.Y, q.Low.Y)}
	high := shape.Point{X: min(p.High.X, q.High.X), Y: min(p.High.Y, q.High.Y)}
	// What is less than 1 mm wide is what rounding and curves leave.
	if high.X-low.X < unit.Millimetre || high.Y-low.Y < unit.Millimetre {
		return false
	}
	both := 0
	for k := range steps * steps {
		x := low.X + (high.X-low.X)*unit.Length(2*(k%steps)+1)/(2*steps)
		y := low.Y + (high.Y-low.Y)*unit.Length(2*(k/steps)+1)/(2*steps)
		if c := (shape.Point{X: x, Y: y}); inside(c, [][]shape.Point{a}) && inside(c, [][]shape.Point{b}) {
			both++
		}
	}
	shared := float64(both) / (steps * steps) * float64(high.X-low.X) * float64(high.Y-low.Y)
	smaller := min(float64(p.High.X-p.Low.X)*float64(p.High.Y-p.Low.Y), float64(q.High.X-q.Low.X)*float64(q.High.Y-q.Low.Y))
	return shared > smaller/25
}
