package nest

import (
	"math"
	"slices"
)

// MaxCoord bounds every coordinate: orientation tests on smaller
// coordinates cannot overflow int64.
const MaxCoord = 1 << 30

// Point is a place in the plane, in whole units chosen by the caller
// (10 or 1 micrometre are usual).
type Point struct{ X, Y int64 }

// Ring is a closed polygon without the repeated last point.
type Ring []Point

func (p Point) sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

func cross(a, b Point) int64 { return a.X*b.Y - a.Y*b.X }

// orient is twice the signed area of the triangle a b c.
func orient(a, b, c Point) int64 { return cross(b.sub(a), c.sub(a)) }

// area2 is twice the signed area; rings inside MaxCoord keep every
// partial sum of the wrapped arithmetic right as long as the result fits.
func (r Ring) area2() int64 {
	if len(r) < 3 {
		return 0
	}
	var s int64
	o := r[0]
	for i := 1; i+1 < len(r); i++ {
		s += cross(r[i].sub(o), r[i+1].sub(o))
	}
	return s
}

// Area2 returns twice the enclosed area, never negative.
func (r Ring) Area2() int64 {
	a := r.area2()
	if a < 0 {
		return -a
	}
	return a
}

type box struct{ x0, y0, x1, y1 int64 }

func (r Ring) box() box {
	b := box{math.MaxInt64, math.MaxInt64, math.MinInt64, math.MinInt64}
	for _, p := range r {
		b.x0, b.x1 = min(b.x0, p.X), max(b.x1, p.X)
		b.y0, b.y1 = min(b.y0, p.Y), max(b.y1, p.Y)
	}
	return b
}

func (r Ring) shifted(d Point) Ring {
	out := make(Ring, len(r))
	for i, p := range r {
		out[i] = Point{p.X + d.X, p.Y + d.Y}
	}
	return out
}

// tidy drops a repeated closing point, repeated points, points on a
// straight run and spikes, and turns the ring anti-clockwise.
func (r Ring) tidy() Ring {
	out := make(Ring, 0, len(r))
	for _, p := range r {
		if len(out) == 0 || out[len(out)-1] != p {
			out = append(out, p)
		}
	}
	for len(out) > 1 && out[0] == out[len(out)-1] {
		out = out[:len(out)-1]
	}
	// Dropping a point may make its neighbours superfluous in turn: step
	// back after each, and stop after a whole round without a change.
	for i, calm := 0, 0; calm < len(out); {
		n := len(out)
		if n < 3 {
			return nil
		}
		i %= n
		prev, next := out[(i+n-1)%n], out[(i+1)%n]
		if out[i] == next || orient(prev, out[i], next) == 0 {
			out = append(out[:i], out[i+1:]...)
			i = (i + n - 2) % (n - 1)
			calm = 0
			continue
		}
		i++
		calm++
	}
	if len(out) < 3 {
		return nil
	}
	if out.area2() < 0 {
		slices.Reverse(out)
	}
	return out
}

func sign(v int64) int {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// crossesItself reports the first pair of edges that cross, at a corner or
// between corners, or that run along each other. Touching is no crossing.
func (r Ring) crossesItself() (int, int, bool) {
	n := len(r)
	for i := range n {
		a, b := r[i], r[(i+1)%n]
		lo, hi := min(a.X, b.X), max(a.X, b.X)
		for j := i + 1; j < n; j++ {
			c, d := r[j], r[(j+1)%n]
			if max(c.X, d.X) < lo || min(c.X, d.X) > hi ||
				max(c.Y, d.Y) < min(a.Y, b.Y) || min(c.Y, d.Y) > max(a.Y, b.Y) {
				continue
			}
			s1, s2 := sign(orient(a, b, c)), sign(orient(a, b, d))
			s3, s4 := sign(orient(c, d, a)), sign(orient(c, d, b))
			if s1*s2 < 0 && s3*s4 < 0 {
				return i, j, true
			}
			switch {
			case a == c:
				if r.inward(i, r[(j+n-1)%n]) != r.inward(i, d) {
					return i, j, true
				}
			case s1 == 0 && c != b && s2 != 0 && c.within(a, b):
				if s2*sign(orient(a, b, r[(j+n-1)%n])) < 0 {
					return i, j, true
				}
			case s3 == 0 && a != d && s4 != 0 && a.within(c, d):
				if s4*sign(orient(c, d, r[(i+n-1)%n])) < 0 {
					return i, j, true
				}
			}
			if s1 == 0 && s2 == 0 && j != i+1 && !(i == 0 && j == n-1) {
				// Collinear: an overlap of positive length is a fault.
				dir := b.sub(a)
				along := func(p Point) int64 {
					if abs64(dir.X) >= abs64(dir.Y) {
						return p.X
					}
					return p.Y
				}
				l1, h1 := min(along(a), along(b)), max(along(a), along(b))
				l2, h2 := min(along(c), along(d)), max(along(c), along(d))
				if max(l1, l2) < min(h1, h2) {
					return i, j, true
				}
			}
		}
	}
	return 0, 0, false
}

// within: p, known to lie on the line through a and b, lies between them.
func (p Point) within(a, b Point) bool {
	return min(a.X, b.X) <= p.X && p.X <= max(a.X, b.X) && min(a.Y, b.Y) <= p.Y && p.Y <= max(a.Y, b.Y)
}

// inward reports whether the way from corner i towards p starts strictly
// inside the angle of the ring at that corner.
func (r Ring) inward(i int, p Point) bool {
	n := len(r)
	prev, at, next := r[(i+n-1)%n], r[i], r[(i+1)%n]
	left, right := orient(at, next, p) > 0, orient(at, prev, p) < 0
	if orient(prev, at, next) > 0 {
		return left && right
	}
	return left || right
}

// roomy reports whether every corner keeps more than two units from every
// edge that does not end in it. Such an outline stays simple when its
// corners are rounded, whatever the angle it is turned by.
func (r Ring) roomy() bool {
	n := len(r)
	for j := range r {
		e := [2]Point{r[j], r[(j+1)%n]}
		x0, x1 := min(e[0].X, e[1].X)-2, max(e[0].X, e[1].X)+2
		y0, y1 := min(e[0].Y, e[1].Y)-2, max(e[0].Y, e[1].Y)+2
		for i, p := range r {
			if p.X < x0 || p.X > x1 || p.Y < y0 || p.Y > y1 || i == j || i == (j+1)%n {
				continue
			}
			if edgeDist2(float64(p.X), float64(p.Y), e) <= 4.01 {
				return false
			}
		}
	}
	return true
}

// whole reports whether a turned outline still encloses its area and
// touches itself nowhere. Rounding can spoil one that is only a few units
// thin somewhere.
func (r Ring) whole() bool {
	if r.area2() <= 0 {
		return false
	}
	if _, _, bad := r.crossesItself(); bad {
		return false
	}
	n := len(r)
	for j := range r {
		a, b := r[j], r[(j+1)%n]
		for i, p := range r {
			if i != j && i != (j+1)%n && orient(a, b, p) == 0 && p.within(a, b) {
				return false
			}
		}
	}
	return true
}

func abs64(v int64) int64 {
	if v < 0 {
		return -v
	}
	return v
}

// hull is the convex hull, anti-clockwise, without straight-run points.
func (r Ring) hull() Ring {
	pts := append(Ring(nil), r...)
	sortPoints(pts)
	if len(pts) < 3 {
		return pts
	}
	var h Ring
	for range 2 {
		start := len(h)
		for _, p := range pts {
			for len(h) >= start+2 && orient(h[len(h)-2], h[len(h)-1], p) <= 0 {
				h = h[:len(h)-1]
			}
			h = append(h, p)
		}
		h = h[:len(h)-1]
		for i, j := 0, len(pts)-1; i < j; i, j = i+1, j-1 {
			pts[i], pts[j] = pts[j], pts[i]
		}
	}
	return h
}
