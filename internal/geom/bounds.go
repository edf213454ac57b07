package geom

import "math"

// Bounds returns the smallest box on the grid around the true curve, not only
// its ends and control points.
func (s Segment) Bounds() Box {
	b := boxOf(s.From, s.To)
	for _, t := range s.extremes() {
		if t > 0 && t < 1 {
			v := s.offsetAt(t)
			// Rounded to the nearest nanometre, not outwards: the extreme of a
			// circle of whole radius should be the whole number.
			p := s.From.Add(v.round())
			b = b.Union(Box{p, p})
		}
	}
	return b
}

// extremes returns the parameters where the curve runs along an axis.
func (s Segment) extremes() []float64 {
	switch s.Kind {
	case Arc, EllipticArc:
		if s.Kind == Arc && s.Bulge == 0 {
			return nil
		}
		u, v, t0, t1 := s.ellipse()
		lo, hi := min(t0, t1), max(t0, t1)
		var ts []float64
		for _, a := range [2]float64{atan2(v.X, u.X), atan2(v.Y, u.Y)} {
			for k := math.Ceil((lo - a) / math.Pi); a+float64(k*math.Pi) <= hi; k++ {
				ts = append(ts, (a+float64(k*math.Pi)-t0)/(t1-t0))
			}
		}
		return ts
	case Quadratic:
		a, b := s.C1.Sub(s.From).vec(), s.To.Sub(s.C1).vec()
		var ts []float64
		for _, c := range [2][2]float64{{a.X, b.X}, {a.Y, b.Y}} {
			if c[0] != c[1] {
				ts = append(ts, c[0]/(c[0]-c[1]))
			}
		}
		return ts
	case Cubic:
		a, b, c := s.C1.Sub(s.From).vec(), s.C2.Sub(s.C1).vec(), s.To.Sub(s.C2).vec()
		ts := unitQuadratic(a.X, b.X, c.X)
		return append(ts, unitQuadratic(a.Y, b.Y, c.Y)...)
	}
	return nil
}

// unitQuadratic solves a (1-t)^2 + 2 b t (1-t) + c t^2 = 0.
func unitQuadratic(a, b, c float64) []float64 {
	// (a - 2b + c) t^2 + 2 (b - a) t + a = 0
	p, q := a-2*b+c, b-a
	if p == 0 {
		if q == 0 {
			return nil
		}
		return []float64{-a / (2 * q)}
	}
	d := float64(q*q) - float64(p*a)
	if d < 0 {
		return nil
	}
	// The root that does not cancel first.
	r := -(q + math.Copysign(math.Sqrt(d), q))
	ts := []float64{r / p}
	if r != 0 {
		ts = append(ts, a/r)
	}
	return ts
}
