package geom

import "math"

// Through returns cubic curves through points, one from each to the next. At a
// point the curve runs along the circle through it and its two neighbours, at an
// end along that of the first or last three; two points are joined by a line.
// With a the angle between tangent and chord c, the handle at that end is
//
//	2 c / (3 (1 + cos a))
//
// which follows a circle to 0.03 % of its radius over a quarter. It returns the
// number of a point at which the curve turns by a right angle or more towards a
// neighbour: the points lie too far apart there; -1 when all is well.
func Through(points []Point) ([]Segment, int) {
	n := len(points)
	out := make([]Segment, 0, max(0, n-1))
	for i := 1; i < n; i++ {
		from, to := points[i-1], points[i]
		if n == 2 {
			return append(out, LineTo(from, to)), -1
		}
		c1, ok1 := handle(from, to, circleTangent(points, i-1))
		c2, ok2 := handle(to, from, circleTangent(points, i).scale(-1))
		if !ok1 || !ok2 {
			if ok1 {
				return nil, i
			}
			return nil, i - 1
		}
		out = append(out, CubicTo(from, c1.round(), c2.round(), to))
	}
	return out, -1
}

// handle gives the control point of a curve from p to q that leaves p along t; false
// when t does not lead towards q.
func handle(p, q Point, t Vec) (Vec, bool) {
	d := q.Sub(p).vec()
	c, l := d.length(), t.length()
	if c == 0 || l == 0 {
		return Vec{}, false
	}
	cos := t.dot(d) / c / l
	if !(cos > 1e-9) {
		return Vec{}, false
	}
	return p.vec().add(t.scale(2 * c / (3 * (1 + cos) * l))), true
}

// circleTangent gives the way of the circle through point i and its neighbours.
// With u, v from the middle one of three points to the others, the circle runs
// along v |u|² - u |v|² there; and a chord turned by twice its angle with the
// tangent at one end is that at the other.
func circleTangent(points []Point, i int) Vec {
	m := min(max(i, 1), len(points)-2)
	u, v := points[m-1].Sub(points[m]).vec(), points[m+1].Sub(points[m]).vec()
	lu, lv := u.length(), v.length()
	if lu == 0 || lv == 0 {
		return Vec{}
	}
	t := v.scale(lu / lv).sub(u.scale(lv / lu)) // along v |u|² - u |v|²
	if i == m {
		return t
	}
	// Mirror the tangent in the chord: the angles at both ends of it are equal.
	chord := u
	if i > m {
		chord = v
	}
	along := t.dot(chord) / chord.dot(chord)
	if math.IsNaN(along) {
		return Vec{}
	}
	return chord.scale(2 * along).sub(t)
}
