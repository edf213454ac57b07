package geom

import "math"

// Parallel is the curve at a distance to the left of a segment, inwards where the
// segment is part of an anticlockwise outline. Lines, circles and Bezier curves
// go on beyond the ends of the segment, for parameters outside [0, 1].
//
//	P(t) = C(t) + d N(t),  P'(t) = C'(t) (1 - d k(t))
//
// with the normal N to the left and the curvature k, positive to the left.
type Parallel struct {
	Segment Segment
	By      float64 // nanometres
}

// At returns the point at t.
func (p Parallel) At(t float64) Vec {
	n := p.Segment.tangentAt(t)
	c := p.Segment.From.vec().add(p.Segment.offsetAt(t))
	return Vec{c.X - float64(p.By*n.Y), c.Y + float64(p.By*n.X)}
}

// Slack returns 1 - d k at t: above zero where the parallel runs the way of the
// segment, zero at a cusp, below zero where it has turned round.
func (p Parallel) Slack(t float64) float64 {
	if p.By == 0 || p.Segment.Kind == Line {
		return 1
	}
	d, e := p.Segment.derivative(t), p.Segment.second(t)
	l := d.length()
	if l == 0 {
		return 1
	}
	return 1 - float64(p.By*d.cross(e))/(l*l*l)
}

// derivative returns P' at t.
func (p Parallel) derivative(t float64) Vec {
	return p.Segment.derivative(t).scale(p.Slack(t))
}

// tangentAt is Tangent for any t.
func (s Segment) tangentAt(t float64) Vec {
	d := s.derivative(t)
	if l := d.length(); l > 0 {
		return Vec{d.X / l, d.Y / l}
	}
	return s.Tangent(min(1, max(0, math.Round(t))))
}

// second returns the second derivative at t.
func (s Segment) second(t float64) Vec {
	switch s.Kind {
	case Arc, EllipticArc:
		u, v, t0, t1 := s.ellipse()
		sn, cs := sincos(t0 + float64((t1-t0)*t))
		return u.scale(cs).add(v.scale(sn)).scale(-float64((t1 - t0) * (t1 - t0)))
	case Quadratic:
		return s.From.Sub(s.C1).vec().add(s.To.Sub(s.C1).vec()).scale(2)
	case Cubic:
		a := s.From.Sub(s.C1).vec().add(s.C2.Sub(s.C1).vec())
		b := s.C1.Sub(s.C2).vec().add(s.To.Sub(s.C2).vec())
		return a.scale(6 * (1 - t)).add(b.scale(6 * t))
	}
	return Vec{}
}

// Nearest returns the parameter from lo to hi at which the parallel comes
// closest to q, good to about 1e-9 of the range.
func (p Parallel) Nearest(q Vec, lo, hi float64) float64 {
	dist := func(t float64) float64 { return p.At(t).sub(q).length() }
	if p.Segment.Kind == Line {
		d := p.Segment.derivative(0)
		if l := d.dot(d); l > 0 {
			return min(hi, max(lo, q.sub(p.At(0)).dot(d)/l))
		}
		return lo
	}
	const n = 64
	best, least, step := lo, dist(lo), (hi-lo)/n
	for i := 1; i <= n; i++ {
		t := lo + float64(step*float64(i))
		if d := dist(t); d < least {
			best, least = t, d
		}
	}
	a, b := max(lo, best-step), min(hi, best+step)
	for range 48 { // thirds: the distance has one low there
		c, d := a+(b-a)/3, b-(b-a)/3
		if dist(c) < dist(d) {
			b = d
		} else {
			a = c
		}
	}
	t := (a + b) / 2
	for _, e := range [2]float64{lo, hi} {
		if dist(e) <= dist(t) {
			t = e
		}
	}
	return t
}

// Meet returns the parameters at which two parallels meet, found by Newton's
// method from s and t. ok is false where they run along each other or the search
// leaves the neighbourhood.
func (p Parallel) Meet(q Parallel, s, t float64) (float64, float64, bool) {
	for range 60 {
		gap := q.At(t).sub(p.At(s))
		if gap.length() < 0.05 {
			return s, t, true
		}
		u, v := p.derivative(s), q.derivative(t)
		den := u.cross(v)
		if math.Abs(den) <= 1e-5*u.length()*v.length() || den != den {
			return s, t, false
		}
		ds, dt := gap.cross(v)/den, gap.cross(u)/den
		if p.Segment.Kind != Line || q.Segment.Kind != Line {
			f := min(1, 0.3/max(math.Abs(ds), math.Abs(dt), 0.3))
			ds, dt = ds*f, dt*f
		}
		s, t = s+ds, t+dt
		if !(math.Abs(s) < 1e7 && math.Abs(t) < 1e7) {
			return s, t, false
		}
	}
	return s, t, false
}

// Part returns the parallel from parameter lo to hi, between two points of the
// grid that lie there: a line, an arc, or cubic curves within tol of it.
func (p Parallel) Part(lo, hi float64, from, to Point, tol float64) []Segment {
	switch p.Segment.Kind {
	case Line:
		return []Segment{LineTo(from, to)}
	case Arc:
		return []Segment{ArcTo(from, to, tan(float64(atan2(p.Segment.Bulge, 1)*(hi-lo))))}
	}
	if p.By == 0 && lo == 0 && hi == 1 {
		s := p.Segment
		if s.From == from && s.To == to {
			return []Segment{s}
		}
	}
	return Fit(func(t float64) (Vec, Vec) { return p.At(t), p.derivative(t) }, lo, hi, from, to, tol)
}

// Fit returns cubic curves through a smooth curve, given by point and
// derivative, from parameter lo to hi: each has the curve's ends and derivatives
// there, and at its quarters is within tol of it. Ends are from and to.
func Fit(at func(t float64) (point, derivative Vec), lo, hi float64, from, to Point, tol float64) []Segment {
	var out []Segment
	var split func(a, b float64, p, q Point, depth int)
	split = func(a, b float64, p, q Point, depth int) {
		h := (b - a) / 3
		_, d0 := at(a)
		_, d1 := at(b)
		s := CubicTo(p, p.vec().add(d0.scale(h)).round(), q.vec().sub(d1.scale(h)).round(), q)
		far := 0.0
		for k := 1; k < 4; k++ {
			f := float64(k) / 4
			x, _ := at(a + float64((b-a)*f))
			far = max(far, p.vec().add(s.offsetAt(f)).sub(x).length())
		}
		if far <= tol || depth == 0 {
			out = append(out, s)
			return
		}
		m := (a + b) / 2
		x, _ := at(m)
		split(a, m, p, x.round(), depth-1)
		split(m, b, x.round(), q, depth-1)
	}
	split(lo, hi, from, to, 10)
	return out
}

// Point returns the nearest point of the grid.
func (v Vec) Point() Point { return v.round() }

// Vec returns the point as a vector.
func (p Point) Vec() Vec { return p.vec() }
