package geom

import "math"

// SegmentKind is the kind of a path segment.
type SegmentKind uint8

// The kinds of segments.
const (
	Line SegmentKind = iota
	Arc              // part of a circle
	EllipticArc
	Quadratic // Bezier curve with one control point
	Cubic     // Bezier curve with two control points
)

func (k SegmentKind) String() string {
	switch k {
	case Line:
		return "line"
	case Arc:
		return "arc"
	case EllipticArc:
		return "elliptic arc"
	case Quadratic:
		return "quadratic curve"
	case Cubic:
		return "cubic curve"
	}
	return "unknown segment"
}

// Vec is a vector in nanometres that need not lie on the grid.
type Vec struct{ X, Y float64 }

func (v Vec) add(w Vec) Vec       { return Vec{v.X + w.X, v.Y + w.Y} }
func (v Vec) sub(w Vec) Vec       { return Vec{v.X - w.X, v.Y - w.Y} }
func (v Vec) scale(f float64) Vec { return Vec{float64(v.X * f), float64(v.Y * f)} }
func (v Vec) cross(w Vec) float64 { return float64(v.X*w.Y) - float64(v.Y*w.X) }
func (v Vec) dot(w Vec) float64   { return float64(v.X*w.X) + float64(v.Y*w.Y) }
func (v Vec) length() float64     { return Hypot(v.X, v.Y) }
func (p Point) vec() Vec          { return Vec{float64(p.X), float64(p.Y)} }
func (v Vec) round() Point        { return Point{int64(math.Round(v.X)), int64(math.Round(v.Y))} }
func (v Vec) transform(t Transform) Vec {
	x, y := image(t, v.X, v.Y)
	return Vec{x, y}
}

// Segment is one piece of a path. All its points lie on the grid; the extra
// shape of arcs is kept in numbers that moving the segment does not touch, so
// that moving, turning by right angles and mirroring are exact.
type Segment struct {
	Kind     SegmentKind
	From, To Point
	C1, C2   Point // control points: Quadratic uses C1, Cubic both
	// Bulge of an Arc is the tangent of a quarter of the swept angle, positive
	// when it turns left (anticlockwise): 1 is half a circle.
	Bulge float64
	// U, V are conjugate half-diameters of the ellipse of an EllipticArc, which
	// runs from angle T0 to T1: centre + U cos t + V sin t.
	U, V   Vec
	T0, T1 float64
	// back marks a reversed segment: its chords are computed in the direction
	// it was made in, so that reversing changes no point.
	back bool
}

// LineTo returns a straight segment.
func LineTo(from, to Point) Segment { return Segment{Kind: Line, From: from, To: to} }

// ArcTo returns a circular arc by its bulge; see Segment. An arc that rises
// less than a hundredth of a nanometre over its chord is a line.
func ArcTo(from, to Point, bulge float64) Segment {
	if math.Abs(bulge)*Distance(from, to)/2 < 0.01 {
		return LineTo(from, to)
	}
	return Segment{Kind: Arc, From: from, To: to, Bulge: bulge}
}

// QuadraticTo returns a quadratic Bezier curve.
func QuadraticTo(from, c, to Point) Segment {
	return Segment{Kind: Quadratic, From: from, C1: c, To: to}
}

// CubicTo returns a cubic Bezier curve.
func CubicTo(from, c1, c2, to Point) Segment {
	return Segment{Kind: Cubic, From: from, C1: c1, C2: c2, To: to}
}

// EllipticArcTo returns the part of the ellipse centre + u cos t + v sin t from
// t0 to t1, its ends rounded to the grid.
func EllipticArcTo(centre, u, v Vec, t0, t1 float64) Segment {
	at := func(t float64) Point {
		s, c := sincos(t)
		return centre.add(u.scale(c)).add(v.scale(s)).round()
	}
	return Segment{Kind: EllipticArc, From: at(t0), To: at(t1), U: u, V: v, T0: t0, T1: t1}
}

// circle returns the half-diameters and angles of an Arc, as for an ellipse.
//
//	R = chord (1 + b^2) / (4 |b|), angle 4 atan b
func (s Segment) circle() (u, v Vec, t1 float64) {
	d := s.To.Sub(s.From).vec()
	b := s.Bulge
	t1 = 4 * atan2(b, 1)
	// The centre lies to the left of the chord's middle by (1 - b^2) / (4 b)
	// of the chord; u points from it to From.
	f := (1 - float64(b*b)) / (4 * b)
	u = Vec{-d.X/2 + float64(f*d.Y), -d.Y/2 - float64(f*d.X)}
	return u, Vec{-u.Y, u.X}, t1
}

// ellipse returns half-diameters and angle range of both kinds of arcs.
func (s Segment) ellipse() (u, v Vec, t0, t1 float64) {
	if s.Kind == Arc {
		u, v, t1 = s.circle()
		return u, v, 0, t1
	}
	return s.U, s.V, s.T0, s.T1
}

// offsetAt returns the point at parameter t in [0, 1], relative to From.
func (s Segment) offsetAt(t float64) Vec {
	switch s.Kind {
	case Arc, EllipticArc:
		u, v, t0, t1 := s.ellipse()
		s0, c0 := sincos(t0)
		sn, cs := sincos(t0 + float64((t1-t0)*t))
		return u.scale(cs - c0).add(v.scale(sn - s0))
	case Quadratic:
		a, b := s.C1.Sub(s.From).vec(), s.To.Sub(s.From).vec()
		return a.scale(2 * t * (1 - t)).add(b.scale(t * t))
	case Cubic:
		a, b, c := s.C1.Sub(s.From).vec(), s.C2.Sub(s.From).vec(), s.To.Sub(s.From).vec()
		q := 1 - t
		return a.scale(3 * t * q * q).add(b.scale(3 * t * t * q)).add(c.scale(t * t * t))
	}
	return s.To.Sub(s.From).vec().scale(t)
}

// At returns the point at parameter t in [0, 1] (the natural parameter of the
// kind, not the length), rounded to the grid. The ends are exact.
func (s Segment) At(t float64) Point {
	switch {
	case t <= 0:
		return s.From
	case t >= 1:
		return s.To
	}
	return s.From.Add(s.offsetAt(t).round())
}

// derivative returns dP/dt at t in [0, 1].
func (s Segment) derivative(t float64) Vec {
	switch s.Kind {
	case Arc, EllipticArc:
		u, v, t0, t1 := s.ellipse()
		sn, cs := sincos(t0 + float64((t1-t0)*t))
		return v.scale(cs).sub(u.scale(sn)).scale(t1 - t0)
	case Quadratic:
		a, b := s.C1.Sub(s.From).vec(), s.To.Sub(s.C1).vec()
		return a.scale(2 * (1 - t)).add(b.scale(2 * t))
	case Cubic:
		a, b, c := s.C1.Sub(s.From).vec(), s.C2.Sub(s.C1).vec(), s.To.Sub(s.C2).vec()
		q := 1 - t
		return a.scale(3 * q * q).add(b.scale(6 * t * q)).add(c.scale(3 * t * t))
	}
	return s.To.Sub(s.From).vec()
}

// Direction returns the direction of travel at the start (t = 0) or the end
// (t = 1), as a vector of any length; zero only for a segment without extent.
func (s Segment) Direction(t float64) Vec {
	d := s.derivative(t)
	if d != (Vec{}) {
		return d
	}
	// A control point on the end: look at the next one.
	pts := []Point{s.From, s.C1, s.C2, s.To}
	if s.Kind == Quadratic {
		pts = []Point{s.From, s.C1, s.To}
	}
	if s.Kind == Line || s.Kind == Arc || s.Kind == EllipticArc {
		return s.To.Sub(s.From).vec()
	}
	n := len(pts) - 1
	for i := 1; i <= n; i++ {
		if t < 0.5 && pts[i] != pts[0] {
			return pts[i].Sub(pts[0]).vec()
		}
		if t >= 0.5 && pts[n-i] != pts[n] {
			return pts[n].Sub(pts[n-i]).vec()
		}
	}
	return Vec{}
}

// Reverse returns the segment run the other way.
func (s Segment) Reverse() Segment {
	s.From, s.To = s.To, s.From
	if s.Kind == Cubic {
		s.C1, s.C2 = s.C2, s.C1
	}
	s.Bulge = -s.Bulge
	s.T0, s.T1 = s.T1, s.T0
	s.back = !s.back && s.Kind != Line
	return s
}

// Backwards tells whether the chords of the segment are computed against its
// direction of travel, as those of a reversed segment are.
func (s Segment) Backwards() bool { return s.back }

// MadeBackwards returns the segment with its chords computed the other way.
func (s Segment) MadeBackwards() Segment {
	s.back = !s.back && s.Kind != Line
	return s
}

// Translate returns the segment moved by d.
func (s Segment) Translate(d Point) Segment {
	s.From, s.To = s.From.Add(d), s.To.Add(d)
	if s.Kind == Quadratic || s.Kind == Cubic {
		s.C1 = s.C1.Add(d)
	}
	if s.Kind == Cubic {
		s.C2 = s.C2.Add(d)
	}
	return s
}

// Transform returns the image of the segment; its direction of travel is the
// image of the old one.
func (s Segment) Transform(t Transform) Segment {
	s.From, s.To = t.Apply(s.From), t.Apply(s.To)
	s.C1, s.C2 = t.Apply(s.C1), t.Apply(s.C2)
	s.U, s.V = s.U.transform(t), s.V.transform(t)
	if t.Flips() {
		s.Bulge = -s.Bulge
	}
	return s
}

// check refuses what cannot be computed.
func (s Segment) check() error {
	for _, p := range [4]Point{s.From, s.To, s.C1, s.C2} {
		if !p.InRange() {
			return ErrRange
		}
	}
	const far = 4 * float64(MaxCoord)
	switch s.Kind {
	case Line, Quadratic, Cubic:
	case Arc:
		if !(math.Abs(s.Bulge) <= 1e6) {
			return &ParameterError{"bulge", s.Bulge, "at most 1e6 in size"}
		}
		if s.Bulge == 0 {
			return nil
		}
		u, _, _ := s.circle()
		if !(u.length() <= 1e10*far) {
			return ErrRange
		}
	case EllipticArc:
		for _, v := range [4]float64{s.U.X, s.U.Y, s.V.X, s.V.Y} {
			if !(math.Abs(v) <= 1e7*far) {
				return ErrRange
			}
		}
		if !(math.Abs(s.T0) <= 8*math.Pi && math.Abs(s.T1) <= 8*math.Pi) {
			return &ParameterError{"angle", s.T1, "at most 8 pi in size"}
		}
	default:
		return &ParameterError{"segment kind", float64(s.Kind), "a known kind"}
	}
	return nil
}

// ParameterAt returns the parameter at which the length from the start is l,
// to about 1e-12 of the range; l is brought into the range of the segment.
func (s Segment) ParameterAt(l float64) float64 {
	total := s.Length()
	if !(l > 0) || total == 0 {
		return 0
	}
	if l >= total {
		return 1
	}
	if s.Kind == Line || s.Kind == Arc {
		return l / total
	}
	lo, hi := 0.0, 1.0
	for range 42 {
		m := (lo + hi) / 2
		if s.LengthTo(m) < l {
			lo = m
		} else {
			hi = m
		}
	}
	return (lo + hi) / 2
}

// Tangent returns the direction of travel at t in [0, 1] as a unit vector, zero
// for a segment without extent.
func (s Segment) Tangent(t float64) Vec {
	d := s.derivative(t)
	if d == (Vec{}) {
		d = s.Direction(t)
	}
	l := d.length()
	if l == 0 {
		return Vec{}
	}
	return Vec{d.X / l, d.Y / l}
}
