package geom

import "math"

// segmentDistance returns the distance from p to segment ab.
func segmentDistance(p, a, b Point) float64 {
	x, y := float64(p.X-a.X), float64(p.Y-a.Y)
	return vectorDistance(x, y, float64(b.X-a.X), float64(b.Y-a.Y))
}

// vectorDistance returns the distance from (x, y) to the segment from the
// origin to (u, v).
func vectorDistance(x, y, u, v float64) float64 {
	l2 := float64(u*u) + float64(v*v)
	if l2 == 0 {
		return Hypot(x, y)
	}
	f := (float64(x*u) + float64(y*v)) / l2
	f = min(1, max(0, f))
	return Hypot(x-float64(f*u), y-float64(f*v))
}

// MaxDeviation returns the largest distance of any point on the boundary of
// ring a from the boundary of ring b (the directed Hausdorff distance). It is
// never too large, and too small by at most tol nanometres; tol is at least 1.
// The error is ErrDegenerate for an empty ring, ErrParameter, or
// ErrTooComplex when the work limit is reached.
func MaxDeviation(a, b Ring, tol float64) (float64, error) {
	if !(tol >= 1) {
		return 0, &ParameterError{"tolerance", tol, "at least 1 nm"}
	}
	if len(a) == 0 || len(b) == 0 {
		return 0, ErrDegenerate
	}
	edges := make([]edge, len(b))
	for i, p := range b {
		edges[i] = edge{p, b[(i+1)%len(b)]}
	}
	work := treeWork
	t := newBoxTree(edges, &work)
	best := 0.0
	var walk func(p, q probe)
	walk = func(p, q probe) {
		// What a piece can hide: the distance to b grows no faster than the way
		// along the piece; and the distance to one edge, a convex set, is
		// largest at an end of the piece.
		l := Hypot(q.x-p.x, q.y-p.y)
		bound := (p.d + q.d + l) / 2
		bound = min(bound, max(p.d, t.edgeDistance(p.edge, q)), max(q.d, t.edgeDistance(q.edge, p)))
		if bound <= best+tol || *t.work <= 0 {
			return
		}
		m := t.nearest((p.x+q.x)/2, (p.y+q.y)/2)
		best = max(best, m.d)
		walk(p, m)
		walk(m, q)
	}
	first := t.nearest(float64(a[0].X), float64(a[0].Y))
	p := first
	for i := range a {
		q := first
		if i+1 < len(a) {
			q = t.nearest(float64(a[i+1].X), float64(a[i+1].Y))
		}
		best = max(best, p.d)
		walk(p, q)
		p = q
	}
	if *t.work <= 0 {
		return 0, ErrTooComplex
	}
	return best, nil
}

// probe is a point with its closest edge and the distance to it.
type probe struct {
	x, y, d float64
	edge    int
}

func (t *boxTree) edgeDistance(i int, p probe) float64 {
	e := t.edges[i]
	ax, ay := float64(e.a.X), float64(e.a.Y)
	return vectorDistance(p.x-ax, p.y-ay, float64(e.b.X)-ax, float64(e.b.Y)-ay)
}

// Hausdorff returns the larger of the two directed deviations of a and b.
func Hausdorff(a, b Ring, tol float64) (float64, error) {
	d, err := MaxDeviation(a, b, tol)
	if err != nil {
		return 0, err
	}
	e, err := MaxDeviation(b, a, tol)
	return max(d, e), err
}

// nearest finds the edge closest to (x, y).
func (t *boxTree) nearest(x, y float64) probe {
	p := probe{x: x, y: y, d: math.Inf(1)}
	t.nearestIn(0, &p)
	return p
}

func (t *boxTree) nearestIn(k int, p *probe) {
	*t.work--
	if *t.work <= 0 || boxDistance(&t.boxes[k], p.x, p.y) >= p.d {
		return
	}
	if k < t.first {
		l, r := 2*k+1, 2*k+2
		if boxDistance(&t.boxes[r], p.x, p.y) < boxDistance(&t.boxes[l], p.x, p.y) {
			l, r = r, l
		}
		t.nearestIn(l, p)
		t.nearestIn(r, p)
		return
	}
	lo, hi := t.span(k)
	for i := lo; i < hi; i++ {
		if d := t.edgeDistance(i, *p); d < p.d {
			p.d, p.edge = d, i
		}
	}
}

func boxDistance(b *Box, x, y float64) float64 {
	dx := max(float64(b.Min.X)-x, x-float64(b.Max.X), 0)
	dy := max(float64(b.Min.Y)-y, y-float64(b.Max.Y), 0)
	return Hypot(dx, dy)
}
