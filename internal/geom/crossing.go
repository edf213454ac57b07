package geom

import "math"

// properCrossing reports whether the open segments ab and cd cross at a
// single point, and returns that point rounded to the grid cell that holds it
// (half a nanometre is rounded up).
//
//	x = a + (b - a) * n / d,  n = (c - a) x (d - c),  d = (b - a) x (d - c)
func properCrossing(a, b, c, d Point) (Point, bool) {
	u, v := b.Sub(a), d.Sub(c)
	if s := crossSign(u, c.Sub(a)); s == 0 || s*crossSign(u, d.Sub(a)) >= 0 {
		return Point{}, false
	}
	if s := crossSign(v, a.Sub(c)); s == 0 || s*crossSign(v, b.Sub(c)) >= 0 {
		return Point{}, false
	}
	num, den := Cross(c.Sub(a), v), Cross(u, v)
	if den.Sign() < 0 {
		num, den = num.Neg(), den.Neg()
	}
	return Point{a.X + mulDivRound(u.X, num, den), a.Y + mulDivRound(u.Y, num, den)}, true
}

// mulDivRound returns floor(k*num/den + 1/2) exactly, for 0 <= num <= den.
func mulDivRound(k int64, num, den Int128) int64 {
	f := float64(float64(k) * (num.Float64() / den.Float64()))
	q := math.Floor(f + 0.5)
	// The error of f is under 1e-3 for |k| <= 2 MaxCoord; away from a tie the
	// estimate is certain.
	if d := f + 0.5 - q; d > 1e-3 && d < 1-1e-3 {
		return int64(q)
	}
	n := int64(q)
	// Want -den <= 2 k num - 2 n den < den.
	r := num.mulInt64(2 * k).Sub(den.mulInt64(2 * n))
	for r.Cmp(den) >= 0 {
		n++
		r = r.Sub(den).Sub(den)
	}
	for r.Cmp(den.Neg()) < 0 {
		n--
		r = r.Add(den).Add(den)
	}
	return n
}

// passesPixel reports whether segment ab meets the half-open unit square
// centred at p, [x-1/2, x+1/2) x [y-1/2, y+1/2).
func passesPixel(a, b, p Point) bool {
	if !boxOf(a, b).Contains(p) {
		return false
	}
	d, w := b.Sub(a), p.Sub(a)
	c := Cross(d, w)
	if !c.IsInt64() {
		return false
	}
	ci := c.Int64()
	m := absInt(d.X) + absInt(d.Y)
	if ci > m || ci < -m {
		return false
	}
	// The corners (kx, ky)/2 of the square give 2c + d.X ky - d.Y kx.
	if 2*ci < m && 2*ci > -m {
		return true
	}
	// The line only touches the square: the lower left corner belongs to it.
	return 2*ci-d.X+d.Y == 0
}

func absInt(v int64) int64 {
	if v < 0 {
		return -v
	}
	return v
}

// onSegment reports whether p lies on the closed segment ab.
func onSegment(a, b, p Point) bool {
	return boxOf(a, b).Contains(p) && Orient(a, b, p) == 0
}

// FindSelfIntersection looks for two edges of the ring that meet anywhere but
// in the shared point of neighbours. It returns the pair with the smallest
// first edge, then the smallest second edge. Repeated points must have been
// removed (Clean). The error is ErrTooComplex when the work limit is reached.
func (r Ring) FindSelfIntersection() (Crossing, bool, error) {
	n := len(r)
	if n < 3 {
		return Crossing{}, false, nil
	}
	edges := make([]edge, n)
	for i, p := range r {
		edges[i] = edge{p, r[(i+1)%n]}
	}
	best, found := Crossing{EdgeA: n}, false
	work := treeWork
	t := newBoxTree(edges, &work)
	t.pairs(func(i, j int) bool {
		if i > best.EdgeA || i == best.EdgeA && j >= best.EdgeB {
			return true
		}
		if at, ok := meet(edges[i], edges[j], j == i+1, i == 0 && j == n-1); ok {
			best, found = Crossing{i, j, at}, true
		}
		return true
	})
	if work <= 0 {
		return Crossing{}, false, ErrTooComplex
	}
	return best, found, nil
}

// meet finds a common point of e and f. next: f follows e in the ring; prev:
// e follows f. Their shared point is then no crossing.
func meet(e, f edge, next, prev bool) (Point, bool) {
	switch {
	case next:
		// Neighbours meet again only when one folds back over the other.
		if onSegment(e.a, e.b, f.b) {
			return f.b, true
		}
		if onSegment(f.a, f.b, e.a) {
			return e.a, true
		}
		return Point{}, false
	case prev:
		return meet(f, e, true, false)
	}
	if p, ok := properCrossing(e.a, e.b, f.a, f.b); ok {
		return p, true
	}
	for _, p := range [2]Point{f.a, f.b} {
		if onSegment(e.a, e.b, p) {
			return p, true
		}
	}
	for _, p := range [2]Point{e.a, e.b} {
		if onSegment(f.a, f.b, p) {
			return p, true
		}
	}
	return Point{}, false
}

// FindCrossing looks for two edges of a tidy ring that cross, at a corner or
// between corners, or that run along each other, and returns the first pair.
// Unlike FindSelfIntersection it lets a ring touch itself. It compares every
// pair of edges.
func (r Ring) FindCrossing() (i, j int, ok bool) {
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
			if r.crossing(i, j) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// crossing reports whether edge j crosses edge i < j or runs along it.
func (r Ring) crossing(i, j int) bool {
	n := len(r)
	a, b, c, d := r[i], r[(i+1)%n], r[j], r[(j+1)%n]
	s1, s2 := Orient(a, b, c), Orient(a, b, d)
	s3, s4 := Orient(c, d, a), Orient(c, d, b)
	if s1*s2 < 0 && s3*s4 < 0 {
		return true
	}
	// A common corner, or a corner of one on the other: does the ring pass
	// from one side to the other there?
	switch {
	case a == c:
		if r.inward(i, r[(j+n-1)%n]) != r.inward(i, d) {
			return true
		}
	case s1 == 0 && c != b && s2 != 0 && boxOf(a, b).Contains(c):
		if s2*Orient(a, b, r[(j+n-1)%n]) < 0 {
			return true
		}
	case s3 == 0 && a != d && s4 != 0 && boxOf(c, d).Contains(a):
		if s4*Orient(c, d, r[(i+n-1)%n]) < 0 {
			return true
		}
	}
	if s1 != 0 || s2 != 0 || j == i+1 || i == 0 && j == n-1 {
		return false
	}
	// On one line: an overlap of positive length is a fault.
	dir := b.Sub(a)
	along := func(p Point) int64 {
		if absInt(dir.X) >= absInt(dir.Y) {
			return p.X
		}
		return p.Y
	}
	return max(min(along(a), along(b)), min(along(c), along(d))) < min(max(along(a), along(b)), max(along(c), along(d)))
}

// inward reports whether the way from corner i towards p starts strictly
// inside the angle of the ring at that corner.
func (r Ring) inward(i int, p Point) bool {
	n := len(r)
	prev, at, next := r[(i+n-1)%n], r[i], r[(i+1)%n]
	left, right := Orient(at, next, p) > 0, Orient(at, prev, p) < 0
	if Orient(prev, at, next) > 0 {
		return left && right
	}
	return left || right
}
