package verify

import "math/bits"

// Point is a place in whole units.
type Point struct{ X, Y int64 }

// Ring is a closed polygon without the repeated last point.
type Ring []Point

// limit keeps orientation tests inside int64: coordinates stay below it.
const limit = 1 << 30

func side(a, b, p Point) int64 {
	return (b.X-a.X)*(p.Y-a.Y) - (b.Y-a.Y)*(p.X-a.X)
}

func sgn(v int64) int {
	if v > 0 {
		return 1
	}
	if v < 0 {
		return -1
	}
	return 0
}

// sumSign is the sign of a + b without overflow.
func sumSign(a, b int64) int {
	switch sa, sb := sgn(a), sgn(b); {
	case sa == 0:
		return sb
	case sb == 0 || sa == sb:
		return sa
	}
	return sgn(a + b)
}

type rect struct{ x0, y0, x1, y1 int64 }

func bounds(r Ring) rect {
	b := rect{r[0].X, r[0].Y, r[0].X, r[0].Y}
	for _, p := range r[1:] {
		b.x0, b.x1 = min(b.x0, p.X), max(b.x1, p.X)
		b.y0, b.y1 = min(b.y0, p.Y), max(b.y1, p.Y)
	}
	return b
}

func edgeBox(a, b Point) rect {
	return rect{min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X), max(a.Y, b.Y)}
}

// apart: not even touching.
func (r rect) apart(o rect) bool {
	return r.x1 < o.x0 || o.x1 < r.x0 || r.y1 < o.y0 || o.y1 < r.y0
}

// anticlockwise returns the ring with its interior on the left.
func anticlockwise(r Ring) Ring {
	// The sign of the area from the turn at the lowest, then leftmost
	// corner cannot overflow.
	n := len(r)
	k := 0
	for i, p := range r {
		if p.Y < r[k].Y || (p.Y == r[k].Y && p.X < r[k].X) {
			k = i
		}
	}
	prev, next := Point{}, Point{}
	found := false
	for d := 1; d < n; d++ {
		if r[(k+n-d)%n] != r[k] {
			prev, found = r[(k+n-d)%n], true
			break
		}
	}
	for d := 1; d < n; d++ {
		if r[(k+d)%n] != r[k] {
			next = r[(k+d)%n]
			break
		}
	}
	if !found || side(prev, r[k], next) >= 0 {
		return r
	}
	out := make(Ring, n)
	for i, p := range r {
		out[n-1-i] = p
	}
	return out
}

// locate says where the middle of p and q lies: 1 inside, 0 on the
// border, -1 outside of the ring.
func locate(p, q Point, r Ring) int {
	mx, my := p.X+q.X, p.Y+q.Y // doubled
	wn := 0
	for i, a := range r {
		b := r[(i+1)%len(r)]
		ay, by := 2*a.Y, 2*b.Y
		if (ay < my && by < my) || (ay > my && by > my) {
			continue
		}
		s := sumSign(side(a, b, p), side(a, b, q))
		if s == 0 && min(2*a.X, 2*b.X) <= mx && mx <= max(2*a.X, 2*b.X) {
			return 0
		}
		if ay <= my && by > my && s > 0 {
			wn++
		}
		if by <= my && ay > my && s < 0 {
			wn--
		}
	}
	if wn != 0 {
		return 1
	}
	return -1
}

// between: p lies on the closed segment a b.
func between(a, b, p Point) bool {
	return side(a, b, p) == 0 && min(a.X, b.X) <= p.X && p.X <= max(a.X, b.X) &&
		min(a.Y, b.Y) <= p.Y && p.Y <= max(a.Y, b.Y)
}

// crossing reports a proper crossing of an edge of a with an edge of b:
// each has its ends strictly on both sides of the other.
func crossing(a, b Ring) bool {
	bb := bounds(b)
	for i, p := range a {
		q := a[(i+1)%len(a)]
		e := edgeBox(p, q)
		if e.apart(bb) {
			continue
		}
		for j, u := range b {
			v := b[(j+1)%len(b)]
			if e.apart(edgeBox(u, v)) {
				continue
			}
			if sgn(side(p, q, u))*sgn(side(p, q, v)) < 0 && sgn(side(u, v, p))*sgn(side(u, v, q)) < 0 {
				return true
			}
		}
	}
	return false
}

// pieces cuts every edge of a at the corners of b that lie on it and calls
// f with the ends of each part until f returns true.
func pieces(a, b Ring, f func(p, q Point) bool) bool {
	bb := bounds(b)
	var cuts []Point
	for i, p := range a {
		q := a[(i+1)%len(a)]
		if p == q {
			continue
		}
		cuts = append(cuts[:0], p)
		if !edgeBox(p, q).apart(bb) {
			for _, v := range b {
				if v != p && v != q && between(p, q, v) {
					cuts = append(cuts, v)
				}
			}
		}
		cuts = append(cuts, q)
		along(cuts, p)
		for k := 0; k+1 < len(cuts); k++ {
			if cuts[k] != cuts[k+1] && f(cuts[k], cuts[k+1]) {
				return true
			}
		}
	}
	return false
}

// along sorts points of one line by their distance from p.
func along(c []Point, p Point) {
	far := func(a Point) int64 { return max(a.X-p.X, p.X-a.X) + max(a.Y-p.Y, p.Y-a.Y) }
	for i := 1; i < len(c); i++ {
		for j := i; j > 0 && far(c[j]) < far(c[j-1]); j-- {
			c[j], c[j-1] = c[j-1], c[j]
		}
	}
}

// Overlap reports whether the interiors of two simple rings meet. Touching
// is no overlap. Coordinates stay below 2^30.
//
// If the interiors meet, then either two edges cross properly, or a part
// of one border lies strictly inside the other ring, or the rings enclose
// the same region; in the last case some parts of the borders run along
// each other in the same sense.
func Overlap(a, b Ring) bool {
	if len(a) < 3 || len(b) < 3 || bounds(a).apart(bounds(b)) {
		return false
	}
	a, b = anticlockwise(a), anticlockwise(b)
	if crossing(a, b) {
		return true
	}
	in := func(r Ring) func(p, q Point) bool {
		return func(p, q Point) bool { return locate(p, q, r) > 0 }
	}
	return pieces(a, b, in(b)) || pieces(b, a, in(a)) || sameSense(a, b)
}

// sameSense reports edges that share a stretch and run the same way, so
// that both interiors lie on the same side of it.
func sameSense(a, b Ring) bool {
	for i, p := range a {
		q := a[(i+1)%len(a)]
		if p == q {
			continue
		}
		e := edgeBox(p, q)
		for j, u := range b {
			v := b[(j+1)%len(b)]
			if u == v || e.apart(edgeBox(u, v)) || side(p, q, u) != 0 || side(p, q, v) != 0 {
				continue
			}
			// All four on one line: compare along its longer direction.
			c := func(s Point) int64 { return s.X }
			if max(q.X-p.X, p.X-q.X) < max(q.Y-p.Y, p.Y-q.Y) {
				c = func(s Point) int64 { return s.Y }
			}
			if (c(q) > c(p)) != (c(v) > c(u)) {
				continue
			}
			if max(min(c(p), c(q)), min(c(u), c(v))) < min(max(c(p), c(q)), max(c(u), c(v))) {
				return true
			}
		}
	}
	return false
}

// Inside reports whether the closed ring a lies in the closed ring b.
func Inside(a, b Ring) bool {
	ba, bb := bounds(a), bounds(b)
	if ba.x0 < bb.x0 || ba.y0 < bb.y0 || ba.x1 > bb.x1 || ba.y1 > bb.y1 {
		return false
	}
	if crossing(a, b) {
		return false
	}
	return !pieces(a, b, func(p, q Point) bool { return locate(p, q, b) < 0 })
}

// Closer reports whether two rings with disjoint interiors come closer
// than gap at any point.
func Closer(a, b Ring, gap int64) bool {
	ba, bb := bounds(a), bounds(b)
	ba.x0, ba.y0, ba.x1, ba.y1 = ba.x0-gap, ba.y0-gap, ba.x1+gap, ba.y1+gap
	if ba.apart(bb) {
		return false
	}
	near := func(a, b Ring) bool {
		for _, p := range a {
			for j, u := range b {
				v := b[(j+1)%len(b)]
				e := edgeBox(u, v)
				if p.X < e.x0-gap || p.X > e.x1+gap || p.Y < e.y0-gap || p.Y > e.y1+gap {
					continue
				}
				if pointCloser(p, u, v, gap) {
					return true
				}
			}
		}
		return false
	}
	return near(a, b) || near(b, a)
}

func pointCloser(p, u, v Point, gap int64) bool {
	dist2 := func(a, b Point) int64 { return (a.X-b.X)*(a.X-b.X) + (a.Y-b.Y)*(a.Y-b.Y) }
	dx, dy := v.X-u.X, v.Y-u.Y
	t := dx*(p.X-u.X) + dy*(p.Y-u.Y)
	l := dx*dx + dy*dy
	switch {
	case t <= 0:
		return dist2(p, u) < gap*gap
	case t >= l:
		return dist2(p, v) < gap*gap
	}
	c := side(u, v, p)
	if c < 0 {
		c = -c
	}
	h1, l1 := bits.Mul64(uint64(c), uint64(c))
	h2, l2 := bits.Mul64(uint64(gap)*uint64(gap), uint64(l))
	return h1 < h2 || (h1 == h2 && l1 < l2)
}
