package geom

import (
	"math"
	"slices"
)

// FlattenOptions says how fine the chords of a curve must be.
type FlattenOptions struct {
	// Tolerance is the largest distance between curve and chord, at least
	// 10 nm; 0 means DefaultTolerance.
	Tolerance int64
	// Reach is the largest distance the result will be offset by. The chords
	// are then short enough that the mitred offset of the chords stays within
	// the tolerance of the offset of the curve as well. The first and the last
	// chord are shorter still, so that a corner at the end of a curve is mitred
	// in the direction of the curve, to the tolerance at 4 times the reach.
	Reach int64
}

// maxChords bounds the chords of one path.
const maxChords = 1 << 18

type flattener struct {
	tol  float64 // distance
	turn float64 // largest turn of one chord, radians
	end  float64 // largest turn of the first and the last chord
	out  []Point
	err  error
}

func newFlattener(o FlattenOptions) (*flattener, error) {
	if o.Tolerance == 0 {
		o.Tolerance = DefaultTolerance
	}
	if o.Tolerance < 10 {
		return nil, &ParameterError{"tolerance", float64(o.Tolerance), "at least 10 nm"}
	}
	if o.Reach < 0 || o.Reach > MaxCoord {
		return nil, &ParameterError{"reach", float64(o.Reach), "from 0 to 1e11 nm"}
	}
	// One nanometre is kept for rounding to the grid. With a reach d and turn w
	// a mitred joint lies d (1/cos(w/2) - 1), about d w^2 / 8, too far out, and
	// a chord inside it by the tolerance; each gets half.
	f := &flattener{tol: float64(o.Tolerance) - 1, turn: math.Pi / 2, end: math.Pi / 2}
	if o.Reach > 0 {
		f.tol /= 2
		f.turn = min(f.turn, 2*math.Sqrt(f.tol/float64(o.Reach)))
		// A chord lies half its turn off the direction at its end.
		f.end = min(f.turn, f.tol/float64(o.Reach))
	}
	return f, nil
}

// Flatten returns the points of chords along the segment, the end included and
// the start left out. No point of the curve is further from its chord than
// the tolerance, nor the reverse.
func (s Segment) Flatten(o FlattenOptions) ([]Point, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	f, err := newFlattener(o)
	if err != nil {
		return nil, err
	}
	f.segment(s)
	return f.out, f.err
}

func (f *flattener) put(p Point) {
	if len(f.out) >= maxChords {
		f.err = ErrTooComplex
		return
	}
	f.out = append(f.out, p)
}

func (f *flattener) segment(s Segment) {
	if s.back {
		from := len(f.out)
		f.segment(s.Reverse())
		pts := f.out[from:] // without the start, which becomes the end
		slices.Reverse(pts)
		copy(pts, pts[min(1, len(pts)):])
		if len(pts) > 0 {
			pts[len(pts)-1] = s.To
		}
		return
	}
	switch {
	case s.Kind == Line, s.Kind == Arc && s.Bulge == 0:
		f.put(s.To)
	case s.Kind == Arc:
		f.arc(s)
	case s.Kind == EllipticArc:
		f.ellipse(s)
	default:
		f.bezier(s)
	}
}

// arc uses equal chords: the rise of a chord over an angle w is
// R (1 - cos(w/2)) = 2 R sin^2(w/4).
func (f *flattener) arc(s Segment) {
	u, v, t := s.circle()
	r := u.length()
	w := f.turn
	if x := f.tol / (2 * r); x < 0.5 {
		x = math.Sqrt(x)
		w = min(w, 4*atan2(x, math.Sqrt(1-float64(x*x))))
	}
	size := math.Abs(t)
	w = min(w, size)
	end := min(f.end, w, size/2) // turn of the first and last chord
	if end >= w*(1-1e-9) {
		end = 0 // all chords alike
	}
	n := max(1, math.Ceil((size-2*end)/w*(1-1e-12)))
	if !(n < maxChords) {
		f.err = ErrTooComplex
		return
	}
	// Each half is computed from its own end, where its points are most exact.
	k := int(n)
	back := s.Reverse()
	bu, bv, _ := back.circle()
	dir := math.Copysign(1, t)
	step := (size - 2*end) / n
	fromStart := func(a float64) {
		sn, cs := sincos(dir * a)
		f.put(s.From.Add(u.scale(cs - 1).add(v.scale(sn)).round()))
	}
	fromEnd := func(a float64) {
		sn, cs := sincos(-dir * a)
		f.put(s.To.Add(bu.scale(cs - 1).add(bv.scale(sn)).round()))
	}
	if end > 0 {
		fromStart(end)
	}
	for i := 1; i < k; i++ {
		if 2*i <= k {
			fromStart(end + float64(step*float64(i)))
		} else {
			fromEnd(end + float64(step*float64(k-i)))
		}
	}
	if end > 0 && size > 2*end*(1+1e-9) {
		fromEnd(end)
	}
	f.put(s.To)
}

// turnOf gives the turn allowed for a chord that may be the first or the last.
func (f *flattener) turnOf(first, last bool) float64 {
	if first || last {
		return f.end
	}
	return f.turn
}

// ellipse halves the range of angles until the chord is close enough. Over
// [m - h, m + h] the arc is cos(x) A + sin(x) B about the centre, with
// A = U cos m + V sin m and B = V cos m - U sin m; its chord is cos(h) A + y B,
// so the largest distance to the chord is (1 - cos h) |U x V| / |B|, reached in
// the middle. An arc of no area is bounded by its extent instead.
func (f *flattener) ellipse(s Segment) {
	area := math.Abs(s.U.cross(s.V))
	s0, c0 := sincos(s.T0)
	at := func(t float64) Vec {
		sn, cs := sincos(t)
		return s.U.scale(cs - c0).add(s.V.scale(sn - s0))
	}
	tangent := func(t float64) Vec {
		sn, cs := sincos(t)
		return s.V.scale(cs).sub(s.U.scale(sn))
	}
	var split func(a, b float64, ta, tb Vec, depth int)
	split = func(a, b float64, ta, tb Vec, depth int) {
		m, h := (a+b)/2, math.Abs(b-a)/2
		sh, _ := sincos(h / 2)
		rise := float64(2 * sh * sh) // 1 - cos h
		tm := tangent(m)
		flat := h <= math.Pi/4
		flat = flat && float64(rise*area) <= float64(f.tol*tm.length()) && turnWithin(ta, tb, f.turnOf(a == s.T0, b == s.T1))
		if !flat && flatExtent(s.U, s.V, m, h) <= f.tol/4096 {
			flat = true
		}
		if flat || depth == 0 || f.err != nil {
			if b == s.T1 {
				f.put(s.To)
			} else {
				f.put(s.From.Add(at(b).round()))
			}
			return
		}
		split(a, m, ta, tm, depth-1)
		split(m, b, tm, tb, depth-1)
	}
	split(s.T0, s.T1, tangent(s.T0), tangent(s.T1), 24)
}

// flatExtent bounds how far an arc of an ellipse over m +/- h strays from its
// chord in any direction: h^2 / 2 of the largest second derivative.
func flatExtent(u, v Vec, m, h float64) float64 {
	return float64(h*h) / 2 * (u.length() + v.length())
}

// turnWithin reports whether the directions a and b differ by at most w,
// w <= pi/2. Directions of no length do not count.
func turnWithin(a, b Vec, w float64) bool {
	_, c := sincos(w)
	la, lb := a.length(), b.length()
	return a.dot(b) >= c*la*lb*(1-1e-12)
}

// bezier halves the parameter range. Over a range of width h the curve lies
// within h^2 / 8 of the largest second derivative of its chord; the second
// derivative of a cubic is linear, so its ends bound it.
func (f *flattener) bezier(s Segment) {
	var d0, d1 Vec // second derivative at both ends
	if s.Kind == Quadratic {
		d0 = s.From.Sub(s.C1).vec().add(s.To.Sub(s.C1).vec()).scale(2)
		d1 = d0
	} else {
		d0 = s.From.Sub(s.C1).vec().add(s.C2.Sub(s.C1).vec()).scale(6)
		d1 = s.C1.Sub(s.C2).vec().add(s.To.Sub(s.C2).vec()).scale(6)
	}
	var split func(a, b float64, ta, tb Vec, depth int)
	split = func(a, b float64, ta, tb Vec, depth int) {
		h := b - a
		da := d0.scale(1 - a).add(d1.scale(a)).length()
		db := d0.scale(1 - b).add(d1.scale(b)).length()
		err := float64(h*h) / 8 * max(da, db)
		// A range that is far flatter than asked for may turn as it likes: it
		// is a cusp, a corner without extent.
		flat := err <= f.tol && (turnWithin(ta, tb, f.turnOf(a == 0, b == 1)) || err <= f.tol/4096)
		if flat || depth == 0 || f.err != nil {
			if b == 1 {
				f.put(s.To)
			} else {
				f.put(s.From.Add(s.offsetAt(b).round()))
			}
			return
		}
		m := (a + b) / 2
		tm := s.derivative(m)
		split(a, m, ta, tm, depth-1)
		split(m, b, tm, tb, depth-1)
	}
	split(0, 1, s.derivative(0), s.derivative(1), 24)
}
