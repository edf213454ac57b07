package nest

import "github.com/coverwright/coverwright/internal/geom"

// MaxCoord bounds every coordinate: orientation tests on smaller
// coordinates cannot overflow int64.
const MaxCoord = 1 << 30

// inRange tells whether a coordinate is one of a job.
func inRange(v int64) bool { return v > -MaxCoord && v < MaxCoord }

// cross and orient are geom.Cross and geom.Orient without 128 bits: below
// MaxCoord 64 are enough, and the inner loops call nothing else as often.
func cross(a, b geom.Point) int64 { return a.X*b.Y - a.Y*b.X }

// orient is twice the signed area of the triangle a b c.
func orient(a, b, c geom.Point) int64 { return cross(b.Sub(a), c.Sub(a)) }

// area2 is twice the enclosed area, never negative; below MaxCoord it fits.
func twiceArea(r geom.Ring) int64 { return abs64(r.TwiceArea().Int64()) }

func abs64(v int64) int64 {
	if v < 0 {
		return -v
	}
	return v
}

// roomy reports whether every corner keeps more than two units from every
// edge that does not end in it. Such an outline stays simple when its
// corners are rounded, whatever the angle it is turned by.
func roomy(r geom.Ring) bool {
	n := len(r)
	for j := range r {
		e := [2]geom.Point{r[j], r[(j+1)%n]}
		x0, x1 := min(e[0].X, e[1].X)-2, max(e[0].X, e[1].X)+2
		y0, y1 := min(e[0].Y, e[1].Y)-2, max(e[0].Y, e[1].Y)+2
		for i, p := range r {
			if p.X < x0 || p.X > x1 || p.Y < y0 || p.Y > y1 || i == j || i == (j+1)%n {
				continue
			}
			if s := straightOf(e); s.dist2(float64(p.X), float64(p.Y)) <= 4.01 {
				return false
			}
		}
	}
	return true
}

// whole reports whether a turned outline still encloses its area and
// touches itself nowhere. Rounding can spoil one that is only a few units
// thin somewhere.
func whole(r geom.Ring) bool {
	if r.Orientation() <= 0 {
		return false
	}
	_, met, err := r.FindSelfIntersection()
	return !met && err == nil
}
