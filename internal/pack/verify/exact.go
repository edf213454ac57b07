package verify

import (
	"math/bits"

	"github.com/coverwright/coverwright/internal/geom"
)

// limit keeps orientation tests inside int64: coordinates stay below it.
const limit = 1 << 30

func side(a, b, p geom.Point) int64 {
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

func bounds(r geom.Ring) geom.Box {
	b := geom.Box{Min: r[0], Max: r[0]}
	for _, p := range r[1:] {
		b.Min.X, b.Max.X = min(b.Min.X, p.X), max(b.Max.X, p.X)
		b.Min.Y, b.Max.Y = min(b.Min.Y, p.Y), max(b.Max.Y, p.Y)
	}
	return b
}

func edgeBox(a, b geom.Point) geom.Box {
	return geom.Box{Min: geom.Pt(min(a.X, b.X), min(a.Y, b.Y)), Max: geom.Pt(max(a.X, b.X), max(a.Y, b.Y))}
}

// apart: not even touching.
func apart(r, o geom.Box) bool {
	return r.Max.X < o.Min.X || o.Max.X < r.Min.X || r.Max.Y < o.Min.Y || o.Max.Y < r.Min.Y
}

// anticlockwise returns the ring with its interior on the left.
func anticlockwise(r geom.Ring) geom.Ring {
	// The sign of the area from the turn at the lowest, then leftmost
	// corner cannot overflow.
	n := len(r)
	k := 0
	for i, p := range r {
		if p.Y < r[k].Y || (p.Y == r[k].Y && p.X < r[k].X) {
			k = i
		}
	}
	prev, next := geom.Point{}, geom.Point{}
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
	out := make(geom.Ring, n)
	for i, p := range r {
		out[n-1-i] = p
	}
	return out
}

// locate says where the middle of p and q lies: 1 inside, 0 on the
// border, -1 outside of the ring.
func locate(p, q geom.Point, r geom.Ring) int {
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

// crossing reports a proper crossing of an edge of a with an edge of b:
// each has its ends strictly on both sides of the other.
func crossing(a, b geom.Ring) bool {
	bb := bounds(b)
	for i, p := range a {
		q := a[(i+1)%len(a)]
		e := edgeBox(p, q)
		if apart(e, bb) {
			continue
		}
		for j, u := range b {
			v := b[(j+1)%len(b)]
			if apart(e, edgeBox(u, v)) {
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
func pieces(a, b geom.Ring, f func(p, q geom.Point) bool) bool {
	bb := bounds(b)
	var cuts []geom.Point
	for i, p := range a {
		q := a[(i+1)%len(a)]
		if p == q {
			continue
		}
		cuts = append(cuts[:0], p)
		if e := edgeBox(p, q); !apart(e, bb) {
			for _, v := range b {
				if e.Contains(v) && v != p && v != q && side(p, q, v) == 0 {
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
func along(c []geom.Point, p geom.Point) {
	far := func(a geom.Point) int64 { return max(a.X-p.X, p.X-a.X) + max(a.Y-p.Y, p.Y-a.Y) }
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
func Overlap(a, b geom.Ring) bool {
	if len(a) < 3 || len(b) < 3 || apart(bounds(a), bounds(b)) {
		return false
	}
	a, b = anticlockwise(a), anticlockwise(b)
	if crossing(a, b) {
		return true
	}
	in := func(r geom.Ring) func(p, q geom.Point) bool {
		return func(p, q geom.Point) bool { return locate(p, q, r) > 0 }
	}
	return pieces(a, b, in(b)) || pieces(b, a, in(a)) || sameSense(a, b)
}

// sameSense reports edges that share a stretch and run the same way, so
// that both interiors lie on the same side of it.
func sameSense(a, b geom.Ring) bool {
	for i, p := range a {
		q := a[(i+1)%len(a)]
		if p == q {
			continue
		}
		e := edgeBox(p, q)
		for j, u := range b {
			v := b[(j+1)%len(b)]
			if u == v || apart(e, edgeBox(u, v)) || side(p, q, u) != 0 || side(p, q, v) != 0 {
				continue
			}
			// All four on one line: compare along its longer direction.
			c := func(s geom.Point) int64 { return s.X }
			if max(q.X-p.X, p.X-q.X) < max(q.Y-p.Y, p.Y-q.Y) {
				c = func(s geom.Point) int64 { return s.Y }
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
func Inside(a, b geom.Ring) bool {
	ba, bb := bounds(a), bounds(b)
	if ba.Min.X < bb.Min.X || ba.Min.Y < bb.Min.Y || ba.Max.X > bb.Max.X || ba.Max.Y > bb.Max.Y {
		return false
	}
	if crossing(a, b) {
		return false
	}
	return !pieces(a, b, func(p, q geom.Point) bool { return locate(p, q, b) < 0 })
}

// Closer reports whether two rings with disjoint interiors come closer
// than gap at any point.
func Closer(a, b geom.Ring, gap int64) bool {
	ba, bb := bounds(a), bounds(b)
	ba.Min.X, ba.Min.Y, ba.Max.X, ba.Max.Y = ba.Min.X-gap, ba.Min.Y-gap, ba.Max.X+gap, ba.Max.Y+gap
	if apart(ba, bb) {
		return false
	}
	near := func(a, b geom.Ring) bool {
		for _, p := range a {
			for j, u := range b {
				v := b[(j+1)%len(b)]
				e := edgeBox(u, v)
				if p.X < e.Min.X-gap || p.X > e.Max.X+gap || p.Y < e.Min.Y-gap || p.Y > e.Max.Y+gap {
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

func pointCloser(p, u, v geom.Point, gap int64) bool {
	dist2 := func(a, b geom.Point) int64 { return (a.X-b.X)*(a.X-b.X) + (a.Y-b.Y)*(a.Y-b.Y) }
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
