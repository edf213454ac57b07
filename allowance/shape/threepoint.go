package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// CircleArc is an arc with the centre of its circle.
type CircleArc struct {
	ChordArc
	Centre Point `json:"centre"`
}

// ThreePointArc gives the arc from one point to another through a third. With c
// the chord and w the angle at the third point under which it is seen,
//
//	rise = c/2 cot(w/2),  R = c / (2 sin w)
//
// The third point must lie off the chord by at least 1 % of the longest side of
// the triangle: nearer to it three points do not make an arc, and a chord with its
// rise does. Points are within 50 m of the origin; errors name from, to or
// through.
//
// Drawing: allowance/doc/threepoints.svg
func ThreePointArc(from, through, to Point) (CircleArc, error) {
	for i, p := range [3]Point{from, through, to} {
		if err := checkPlace(p); err != nil {
			return CircleArc{}, unit.InField([3]string{"from", "through", "to"}[i], inShape(err))
		}
	}
	if err := checkThrough(from, through, to); err != nil {
		return CircleArc{}, err
	}
	f, m, t := vec(from), vec(through), vec(to)
	b := bulgeThrough(f, t, m)
	c := geom.Hypot(t.X-f.X, t.Y-f.Y)
	arc, err := arcOf(c, c/2*math.Abs(b))
	if err != nil {
		return CircleArc{}, err
	}
	// The centre lies to the left of the chord's middle by (1 - b²)/(4 b) of it.
	k := (1 - float64(b*b)) / (4 * b)
	x := (f.X+t.X)/2 - float64(k*(t.Y-f.Y))
	y := (f.Y+t.Y)/2 + float64(k*(t.X-f.X))
	return CircleArc{arc, Point{rounded(x), rounded(y)}}, nil
}

func vec(p Point) geom.Vec { return geom.Vec{X: float64(p.X), Y: float64(p.Y)} }

// bulgeThrough gives the bulge of the arc from f to t through m: with w the angle
// at m, cot(w/2), above zero where m lies to the right of the way.
func bulgeThrough(f, t, m geom.Vec) float64 {
	px, py, qx, qy := f.X-m.X, f.Y-m.Y, t.X-m.X, t.Y-m.Y
	cross := float64(px*qy) - float64(py*qx)
	dot := float64(px*qx) + float64(py*qy)
	return -(float64(geom.Hypot(px, py)*geom.Hypot(qx, qy)) + dot) / cross
}

// checkThrough refuses three points that lie so nearly in line, or so near each
// other, that no arc is meant.
func checkThrough(from, through, to Point) error {
	f, m, t := vec(from), vec(through), vec(to)
	px, py, qx, qy := f.X-m.X, f.Y-m.Y, t.X-m.X, t.Y-m.Y
	longest := max(geom.Hypot(px, py), geom.Hypot(qx, qy), geom.Hypot(t.X-f.X, t.Y-f.Y))
	if cross := float64(px*qy) - float64(py*qx); longest == 0 || math.Abs(cross)/longest < 0.01*longest {
		return check.Refuse("through", through.String(), unit.ErrRange, "a point at least 1 % of the chord off the straight line; for a flatter arc a rise, for a line neither")
	}
	return nil
}

// ArcThrough goes to a point along the arc of a circle through another; see
// ThreePointArc.
func (t *Trace) ArcThrough(through, to Point) *Trace {
	if !t.place(through, to) {
		return t
	}
	if err := checkThrough(fromGrid(t.at), through, to); err != nil {
		t.fail(err)
		return t
	}
	return t.add(geom.ArcTo(t.at, to.grid(), bulgeThrough(vec(fromGrid(t.at)), vec(to), vec(through))))
}
