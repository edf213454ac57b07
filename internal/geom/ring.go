package geom

import "slices"

// Ring is a closed polygon; the last point is joined to the first.
type Ring []Point

// Check reports a point out of range.
func (r Ring) Check() error {
	for _, p := range r {
		if !p.InRange() {
			return ErrRange
		}
	}
	return nil
}

// TwiceArea returns twice the signed area, exactly: positive when the ring
// runs anticlockwise.
//
//	2 A = sum over i of (p[i] - p[0]) x (p[i+1] - p[0])
func (r Ring) TwiceArea() Int128 {
	var sum Int128
	if len(r) < 3 {
		return sum
	}
	o := r[0]
	for i := 1; i+1 < len(r); i++ {
		sum = sum.Add(Cross(r[i].Sub(o), r[i+1].Sub(o)))
	}
	return sum
}

// Area returns the signed area in square nanometres.
func (r Ring) Area() float64 { return r.TwiceArea().Float64() / 2 }

// Orientation returns 1 for anticlockwise, -1 for clockwise, 0 for no area.
func (r Ring) Orientation() int { return r.TwiceArea().Sign() }

// Perimeter returns the length of the ring in nanometres.
func (r Ring) Perimeter() float64 {
	var s float64
	for i, p := range r {
		s += Distance(p, r[(i+1)%len(r)])
	}
	return s
}

// Bounds returns the bounding box; the zero box for an empty ring.
func (r Ring) Bounds() Box {
	if len(r) == 0 {
		return Box{}
	}
	lo, hi := r[0], r[0]
	for _, p := range r[1:] {
		lo.X, lo.Y = min(lo.X, p.X), min(lo.Y, p.Y)
		hi.X, hi.Y = max(hi.X, p.X), max(hi.Y, p.Y)
	}
	return Box{lo, hi}
}

// Centroid returns the centre of the area in nanometres, relative to no
// rounding; ok is false when the ring has no area.
//
//	C = p0 + sum (a + b) (a x b) / (3 sum a x b), a and b relative to p0
func (r Ring) Centroid() (x, y float64, ok bool) {
	t := r.TwiceArea()
	if t.Sign() == 0 {
		return 0, 0, false
	}
	o := r[0]
	for i := 1; i+1 < len(r); i++ {
		a, b := r[i].Sub(o), r[i+1].Sub(o)
		c := Cross(a, b).Float64()
		x += float64(float64(a.X+b.X) * c)
		y += float64(float64(a.Y+b.Y) * c)
	}
	w := 3 * t.Float64()
	return float64(o.X) + x/w, float64(o.Y) + y/w, true
}

// Convex reports whether the ring bounds a convex area: all turns go one way
// (straight points allowed) and it goes round once.
func (r Ring) Convex() bool {
	c := r.Clean()
	if len(c) < 3 {
		return false
	}
	turn := 0
	flips := 0 // sign changes of the lexicographic direction
	prevDir := 0
	for i := range c {
		a, b, d := c[i], c[(i+1)%len(c)], c[(i+2)%len(c)]
		o := Orient(a, b, d)
		if o == 0 { // only a reversal is left after Clean
			return false
		}
		if turn == 0 {
			turn = o
		}
		if o != turn {
			return false
		}
		dir := comparePoints(a, b)
		if prevDir != 0 && dir != prevDir {
			flips++
		}
		prevDir = dir
	}
	if first := comparePoints(c[0], c[1]); first != prevDir {
		flips++
	}
	return flips == 2
}

// distinct returns a copy without points that repeat the one before.
func (r Ring) distinct() Ring {
	out := slices.Compact(slices.Clone(r))
	for len(out) > 1 && out[0] == out[len(out)-1] {
		out = out[:len(out)-1]
	}
	return out
}

// Clean returns the ring without repeated points and without points in the
// middle of a straight run. A point where the ring doubles back is kept.
func (r Ring) Clean() Ring {
	out := r.distinct()
	// Removing one point can only make its neighbours collinear with points
	// already on the same line, so one pass with a stack is enough; the seam
	// is settled afterwards.
	straight := func(a, b, c Point) bool {
		return Orient(a, b, c) == 0 && Dot(b.Sub(a), c.Sub(b)).Sign() > 0
	}
	st := out[:0:0]
	for _, p := range out {
		for len(st) >= 2 && straight(st[len(st)-2], st[len(st)-1], p) {
			st = st[:len(st)-1]
		}
		st = append(st, p)
	}
	for len(st) >= 3 && straight(st[len(st)-2], st[len(st)-1], st[0]) {
		st = st[:len(st)-1]
	}
	for len(st) >= 3 && straight(st[len(st)-1], st[0], st[1]) {
		st = st[1:]
	}
	return slices.Clip(st)
}

// Tidy returns the ring without repeated points, points on a straight run and
// spikes, anticlockwise; nil if no area is left. Where Clean keeps a point at
// which the ring doubles back, Tidy drops it and whatever then becomes
// superfluous.
func (r Ring) Tidy() Ring {
	out := r.distinct()
	// Dropping a point may make its neighbours superfluous in turn: step
	// back after each, and stop after a whole round without a change.
	for i, calm := 0, 0; calm < len(out); {
		n := len(out)
		if n < 3 {
			return nil
		}
		i %= n
		prev, next := out[(i+n-1)%n], out[(i+1)%n]
		if out[i] == next || Orient(prev, out[i], next) == 0 {
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
	if out.Orientation() < 0 {
		slices.Reverse(out)
	}
	return out
}

// Reverse returns the ring run the other way, from the same first point.
func (r Ring) Reverse() Ring {
	out := make(Ring, len(r))
	for i, p := range r {
		out[(len(r)-i)%len(r)] = p
	}
	return out
}

// Translate returns the ring moved by d.
func (r Ring) Translate(d Point) Ring {
	out := make(Ring, len(r))
	for i, p := range r {
		out[i] = p.Add(d)
	}
	return out
}

// Transform returns the image of the ring under t. A mirrored ring is run the
// other way, so that it keeps its orientation; its first point stays first.
func (r Ring) Transform(t Transform) Ring {
	out := make(Ring, len(r))
	for i, p := range r {
		j := i
		if t.Flips() {
			j = (len(r) - i) % len(r)
		}
		out[j] = t.Apply(p)
	}
	return out
}

// Normal returns the same cyclic sequence started at its smallest point (by
// x, then y; the first of equals).
func (r Ring) Normal() Ring {
	k := r.lowest()
	out := make(Ring, 0, len(r))
	out = append(out, r[k:]...)
	return append(out, r[:k]...)
}

func (r Ring) lowest() int {
	k := 0
	for i, p := range r {
		if p.Less(r[k]) {
			k = i
		}
	}
	return k
}

// Location says where a point lies.
type Location int

// The three answers of Locate.
const (
	Outside Location = iota
	OnBoundary
	Inside
)

// Locate says exactly where p lies, by the even-odd rule.
func (r Ring) Locate(p Point) Location {
	in := false
	for i, a := range r {
		b := r[(i+1)%len(r)]
		if a == p {
			return OnBoundary
		}
		if (a.Y > p.Y) == (b.Y > p.Y) {
			// Only a horizontal edge through p can still carry it.
			if a.Y == p.Y && b.Y == p.Y && (a.X < p.X) != (b.X < p.X) {
				return OnBoundary
			}
			continue
		}
		o := Orient(a, b, p)
		if o == 0 {
			return OnBoundary
		}
		if (o > 0) == (b.Y > a.Y) {
			in = !in
		}
	}
	if in {
		return Inside
	}
	return Outside
}

// Hull returns the convex hull of the points, anticlockwise from the smallest
// point, without points in the middle of a side. Fewer than three points come
// back if all are collinear.
func Hull(points []Point) Ring {
	ps := slices.Clone(points)
	slices.SortFunc(ps, comparePoints)
	ps = slices.Compact(ps)
	if len(ps) < 3 {
		return ps
	}
	// Monotone chain: lower half, then upper half.
	h := make(Ring, 0, 2*len(ps))
	for _, p := range ps {
		for len(h) >= 2 && Orient(h[len(h)-2], h[len(h)-1], p) <= 0 {
			h = h[:len(h)-1]
		}
		h = append(h, p)
	}
	low := len(h) + 1
	for i := len(ps) - 2; i >= 0; i-- {
		for len(h) >= low && Orient(h[len(h)-2], h[len(h)-1], ps[i]) <= 0 {
			h = h[:len(h)-1]
		}
		h = append(h, ps[i])
	}
	return h[:len(h)-1]
}
