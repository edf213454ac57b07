package geom

// Split returns the two parts of the segment before and after parameter t in
// (0, 1). Their common point is rounded to the grid, and so are the control
// points of curves.
func (s Segment) Split(t float64) (before, after Segment) {
	mid := s.At(t)
	before, after = s, s
	before.To, after.From = mid, mid
	switch s.Kind {
	case Arc:
		angle := atan2(s.Bulge, 1)
		before.Bulge, after.Bulge = tan(float64(angle*t)), tan(float64(angle*(1-t)))
	case EllipticArc:
		at := s.T0 + float64((s.T1-s.T0)*t)
		before.T1, after.T0 = at, at
	case Quadratic:
		before.C1 = between(s.From, s.C1, t)
		after.C1 = between(s.C1, s.To, t)
	case Cubic:
		middle := between(s.C1, s.C2, t)
		before.C1, after.C2 = between(s.From, s.C1, t), between(s.C2, s.To, t)
		before.C2, after.C1 = between(before.C1, middle, t), between(middle, after.C2, t)
	}
	return before, after
}

// between is the point at the fraction t of the way from p to q.
func between(p, q Point, t float64) Point { return p.Add(q.Sub(p).vec().scale(t).round()) }

func tan(a float64) float64 {
	sin, cos := sincos(a)
	return sin / cos
}
