package geom

import (
	"math"
	"slices"
)

// Length returns the length of the segment in nanometres to 1e-9 of itself:
// closed form for lines and circular arcs, Gauss-Legendre quadrature of the
// speed with halving for the other curves.
func (s Segment) Length() float64 {
	switch s.Kind {
	case Line:
		return Distance(s.From, s.To)
	case Arc:
		if s.Bulge == 0 {
			return Distance(s.From, s.To)
		}
		u, _, t := s.circle()
		return float64(u.length() * math.Abs(t))
	}
	return s.lengthTo(1)
}

// LengthTo returns the length from the start to parameter t in [0, 1].
func (s Segment) LengthTo(t float64) float64 {
	t = min(1, max(0, t))
	switch s.Kind {
	case Line, Arc:
		return s.Length() * t
	}
	return s.lengthTo(t)
}

func (s Segment) lengthTo(t float64) float64 {
	if t <= 0 {
		return 0
	}
	q := quadrature{f: func(x float64) float64 { return s.derivative(x).length() }, left: 6000}
	// The speed has a kink, or nearly one, only where it is smallest: cut there.
	cuts := append(s.slowest(), t)
	slices.Sort(cuts)
	type piece struct{ a, b, sum float64 }
	var pieces []piece
	from, total := 0.0, 0.0
	for _, c := range cuts {
		if c > from && c <= t {
			w := q.rule(from, c)
			pieces = append(pieces, piece{from, c, w})
			total += w
			from = c
		}
	}
	var l float64
	for _, p := range pieces {
		l += q.integrate(p.a, p.b, p.sum, 1e-11*total, 44)
	}
	return l
}

// slowest returns the parameters where the speed of a curve may be least.
func (s Segment) slowest() []float64 {
	var ts []float64
	switch s.Kind {
	case EllipticArc:
		// speed^2 = (u2 + v2) / 2 + (v2 - u2) / 2 cos 2t - U.V sin 2t
		a := atan2(-2*s.U.dot(s.V), s.V.dot(s.V)-s.U.dot(s.U)) / 2
		lo, hi := min(s.T0, s.T1), max(s.T0, s.T1)
		for k := math.Ceil((lo - a) / (math.Pi / 2)); a+float64(k*math.Pi/2) <= hi; k++ {
			ts = append(ts, (a+float64(k*math.Pi/2)-s.T0)/(s.T1-s.T0))
		}
	case Quadratic, Cubic:
		// P'.P'' is a polynomial of degree 1 or 3 in t.
		d0, d2 := s.derivative(0), s.derivative(1)
		dm := s.derivative(0.5)
		// P' = d0 + b t + c t^2
		b := dm.scale(4).sub(d0.scale(3)).sub(d2)
		c := d0.add(d2).sub(dm.scale(2)).scale(2)
		ts = cubicRoots(d0.dot(b), b.dot(b)+2*d0.dot(c), 3*b.dot(c), 2*c.dot(c))
	}
	return ts
}

// cubicRoots finds the places in (0, 1) where a + b t + c t^2 + d t^3 changes
// sign: between its turning points it is monotone, so halving finds them.
func cubicRoots(a, b, c, d float64) []float64 {
	f := func(t float64) float64 { return a + float64(t*(b+float64(t*(c+float64(t*d))))) }
	stops := []float64{0}
	for _, t := range unitQuadratic(b, b+c, b+2*c+float64(3*d)) {
		if t > 0 && t < 1 {
			stops = append(stops, t)
		}
	}
	stops = append(stops, 1)
	slices.Sort(stops)
	var roots []float64
	for i := 1; i < len(stops); i++ {
		lo, hi := stops[i-1], stops[i]
		fl, fh := f(lo), f(hi)
		if fl == 0 || fl*fh > 0 {
			roots = append(roots, lo) // harmless if it is none
			continue
		}
		for range 60 {
			m := (lo + hi) / 2
			if (f(m) < 0) == (fl < 0) {
				lo = m
			} else {
				hi = m
			}
		}
		roots = append(roots, lo)
	}
	return roots
}

// quadrature integrates a function by the Gauss-Legendre rule of 8 points,
// halving an interval until both halves agree with the whole.
type quadrature struct {
	f    func(float64) float64
	left int // rules that may still be evaluated
}

// Nodes (roots of the Legendre polynomial of degree 8) and weights of the
// 8-point rule on [-1, 1], positive half. A test checks that it integrates
// every power up to 15 exactly, which no other values do.
var gaussNodes = [4]float64{0.1834346424956498, 0.5255324099163290, 0.7966664774136267, 0.9602898564975363}
var gaussWeights = [4]float64{0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763}

func (q *quadrature) rule(a, b float64) float64 {
	m, h := (a+b)/2, (b-a)/2
	var s float64
	for i, x := range gaussNodes {
		d := float64(h * x)
		s += float64(gaussWeights[i] * (q.f(m-d) + q.f(m+d)))
	}
	return float64(h * s)
}

func (q *quadrature) integrate(a, b, whole, tol float64, depth int) float64 {
	m := (a + b) / 2
	l, r := q.rule(a, m), q.rule(m, b)
	q.left -= 2
	if math.Abs(l+r-whole) <= tol || depth == 0 || q.left <= 0 {
		return l + r
	}
	return q.integrate(a, m, l, tol/2, depth-1) + q.integrate(m, b, r, tol/2, depth-1)
}

// green returns the integral of (x dy - y dx) along the segment with From as
// origin: twice the area between the curve and its chord, positive when the
// curve bulges to the right of the chord.
func (s Segment) green() float64 {
	d := s.To.Sub(s.From).vec()
	switch s.Kind {
	case Arc, EllipticArc:
		if s.Kind == Arc && s.Bulge == 0 {
			return 0
		}
		// Area of a segment of an ellipse: U x V (t - sin t) / 2.
		u, v, t0, t1 := s.ellipse()
		return float64(u.cross(v) * minusSine(t1-t0))
	case Quadratic:
		a := s.C1.Sub(s.From).vec()
		return float64(a.cross(d)*2) / 3
	case Cubic:
		a, b := s.C1.Sub(s.From).vec(), s.C2.Sub(s.From).vec()
		return (float64(3*a.cross(b)) + float64(3*a.cross(d)) + float64(6*b.cross(d))) / 10
	}
	return 0
}

// minusSine returns t - sin t without loss for small t.
func minusSine(t float64) float64 {
	if math.Abs(t) > 0.5 {
		s, _ := sincos(t)
		return t - s
	}
	z := float64(t * t)
	sum, term := 0.0, float64(t*z)/6
	for n := 4.0; n < 22; n += 2 {
		sum += term
		term *= -z / float64(n*(n+1))
	}
	return sum
}
