package geom

import "math"

// Linear is a linear map of the plane: (x, y) goes to (A x + B y, C x + D y).
type Linear struct{ A, B, C, D float64 }

// Scaling stretches by fx and fy.
func Scaling(fx, fy float64) Linear { return Linear{A: fx, D: fy} }

// Strain stretches by along in the direction of the unit vector e and by across
// square to it:
//
//	M = along e eᵀ + across n nᵀ
func Strain(e Vec, along, across float64) Linear {
	xx, xy, yy := float64(e.X*e.X), float64(e.X*e.Y), float64(e.Y*e.Y)
	return Linear{
		A: float64(along*xx) + float64(across*yy), B: float64((along - across) * xy),
		C: float64((along - across) * xy), D: float64(along*yy) + float64(across*xx),
	}
}

// Reflection mirrors at the line through the origin along the unit vector e.
func Reflection(e Vec) Linear { return Strain(e, 1, -1) }

// Of maps a vector.
func (m Linear) Of(v Vec) Vec {
	return Vec{float64(m.A*v.X) + float64(m.B*v.Y), float64(m.C*v.X) + float64(m.D*v.Y)}
}

// similar tells whether circles stay circles.
func (m Linear) similar() bool {
	const within = 1e-12
	size := math.Abs(m.A) + math.Abs(m.B)
	turned := math.Abs(m.A-m.D)+math.Abs(m.B+m.C) <= within*size
	mirrored := math.Abs(m.A+m.D)+math.Abs(m.B-m.C) <= within*size
	return turned || mirrored
}

// About returns the image of the segment under a linear map about a point of the
// grid. Points are rounded to the grid again. An arc of a circle becomes an arc
// of an ellipse unless the map keeps circles.
func (m Linear) About(o Point, s Segment) Segment {
	at := func(p Point) Point { return o.Add(m.Of(p.Sub(o).vec()).round()) }
	switch {
	case s.Kind != Arc || s.Bulge == 0:
	case m.similar():
		if float64(m.A*m.D) < float64(m.B*m.C) {
			s.Bulge = -s.Bulge
		}
	default:
		u, v, t1 := s.circle()
		s = Segment{Kind: EllipticArc, From: s.From, To: s.To, U: u, V: v, T1: t1, back: s.back}
	}
	s.From, s.To = at(s.From), at(s.To)
	switch s.Kind {
	case EllipticArc:
		s.U, s.V = m.Of(s.U), m.Of(s.V)
	case Cubic:
		s.C2 = at(s.C2)
		fallthrough
	case Quadratic:
		s.C1 = at(s.C1)
	}
	return s
}
