package pattern

import (
	"math"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// clip gives the runs of a line that lie inside a box, borders included, in its
// own direction. Where all of a closed line does, it stays closed.
func (b Box) clip(l Line) []Line {
	if l.Closed && b.holds(l.Points) {
		return []Line{l}
	}
	var runs [][]shape.Point
	n := len(l.Points)
	segments := n - 1
	if l.Closed {
		segments = n
	}
	for i := range segments {
		from, to, ok := b.segment(l.Points[i], l.Points[(i+1)%n])
		if !ok || from == to {
			continue
		}
		if k := len(runs); k > 0 && runs[k-1][len(runs[k-1])-1] == from {
			runs[k-1] = append(runs[k-1], to)
			continue
		}
		runs = append(runs, []shape.Point{from, to})
	}
	// A closed line that starts inside the box goes on where it ended.
	if k := len(runs); l.Closed && k > 1 && runs[k-1][len(runs[k-1])-1] == runs[0][0] {
		runs[0] = append(runs[k-1], runs[0][1:]...)
		runs = runs[:k-1]
	}
	out := make([]Line, len(runs))
	for i, r := range runs {
		out[i] = Line{Kind: l.Kind, Points: r}
	}
	return out
}

func (b Box) holds(points []shape.Point) bool {
	c := boxOf(points)
	return c.Low.X >= b.Low.X && c.Low.Y >= b.Low.Y && c.High.X <= b.High.X && c.High.Y <= b.High.Y
}

// segment gives the part of a line between two points that lies inside the box,
// or false when they do not meet (the method of Liang and Barsky).
func (b Box) segment(p, q shape.Point) (from, to shape.Point, ok bool) {
	dx, dy := float64(q.X-p.X), float64(q.Y-p.Y)
	t0, t1 := 0.0, 1.0
	for _, e := range []struct{ p, q float64 }{
		{-dx, float64(p.X - b.Low.X)}, {dx, float64(b.High.X - p.X)}, {-dy, float64(p.Y - b.Low.Y)}, {dy, float64(b.High.Y - p.Y)},
	} {
		switch {
		case e.p == 0:
			if e.q < 0 {
				return from, to, false
			}
		case e.p < 0:
			t0 = max(t0, e.q/e.p)
		default:
			t1 = min(t1, e.q/e.p)
		}
	}
	if t0 > t1 {
		return from, to, false
	}
	on := func(t float64) shape.Point {
		switch t {
		case 0:
			return p
		case 1:
			return q
		}
		return shape.Point{X: p.X + unit.Length(math.Round(t*dx)), Y: p.Y + unit.Length(math.Round(t*dy))}
	}
	return on(t0), on(t1), true
}
