package geom

import "math"

// Path is a chain of segments, each beginning where the one before ends.
type Path struct {
	Segments []Segment
}

// Closed reports whether the path ends where it begins.
func (p Path) Closed() bool {
	n := len(p.Segments)
	return n > 0 && p.Segments[n-1].To == p.Segments[0].From
}

// Check reports a segment that cannot be computed (ErrRange, ErrParameter) or
// that does not begin where the one before it ends.
func (p Path) Check() error {
	for i, s := range p.Segments {
		if err := s.check(); err != nil {
			return err
		}
		if i > 0 && s.From != p.Segments[i-1].To {
			return &ParameterError{"start of segment", float64(i), "the end of the segment before"}
		}
	}
	return nil
}

// Length returns the sum of the lengths of the segments in nanometres.
func (p Path) Length() float64 {
	var l float64
	for _, s := range p.Segments {
		l += s.Length()
	}
	return l
}

// Area returns the signed area inside a closed path in square nanometres, by
// Green's theorem over the true curves: positive anticlockwise.
func (p Path) Area() float64 {
	if len(p.Segments) == 0 {
		return 0
	}
	r := make(Ring, len(p.Segments))
	var curves float64
	for i, s := range p.Segments {
		r[i] = s.From
		curves += s.green()
	}
	return (r.TwiceArea().Float64() + curves) / 2
}

// Centroid returns the centre of the area inside a closed path, from chords so
// fine that it is good to about a nanometre for ordinary panels; ok is false
// when there is no area.
func (p Path) Centroid() (x, y float64, ok bool) {
	if len(p.Segments) == 0 {
		return 0, 0, false
	}
	// The moments of a curve about its From by Gauss quadrature of
	// (x, y) (x dy - y dx) / 3 are smooth; add them to those of the polygon.
	o := p.Segments[0].From
	var area, mx, my float64
	for _, s := range p.Segments {
		a, b := s.From.Sub(o), s.To.Sub(o)
		c := Cross(a, b).Float64()
		area += c
		mx += float64(float64(a.X+b.X)*c) / 3
		my += float64(float64(a.Y+b.Y)*c) / 3
		if s.Kind == Line {
			continue
		}
		base := a.vec()
		g := s.green()
		area += g
		const parts = 16
		for k := range parts {
			for i, n := range gaussNodes {
				for _, sg := range [2]float64{-1, 1} {
					t := (float64(k) + 0.5 + sg*n/2) / parts
					v, d := s.offsetAt(t), s.derivative(t)
					w := float64(v.cross(d)*gaussWeights[i]) / (2 * parts)
					mx += float64(w * (base.X + float64(v.X*2)/3))
					my += float64(w * (base.Y + float64(v.Y*2)/3))
				}
			}
		}
	}
	if area == 0 || math.IsNaN(area) {
		return 0, 0, false
	}
	return float64(o.X) + mx/area, float64(o.Y) + my/area, true
}

// Bounds returns the box around the true curves.
func (p Path) Bounds() Box {
	if len(p.Segments) == 0 {
		return Box{}
	}
	b := p.Segments[0].Bounds()
	for _, s := range p.Segments[1:] {
		b = b.Union(s.Bounds())
	}
	return b
}

// Flatten returns the chords of a closed path as a ring and, for every edge of
// the ring, the index of the segment it is a chord of. Chords without length
// are left out. The path is closed by a straight edge if it is open; that edge
// gets the index len(p.Segments).
func (p Path) Flatten(o FlattenOptions) (Ring, []int, error) {
	if err := p.Check(); err != nil {
		return nil, nil, err
	}
	f, err := newFlattener(o)
	if err != nil {
		return nil, nil, err
	}
	n := len(p.Segments)
	f.out = make([]Point, 0, n+16)
	ring, seg := make(Ring, 0, n+16), make([]int, 0, n+16)
	for i, s := range p.Segments {
		from := len(f.out)
		f.segment(s)
		if f.err != nil {
			return nil, nil, f.err
		}
		last := s.From
		for _, q := range f.out[from:] {
			if q != last {
				ring, seg = append(ring, last), append(seg, i)
				last = q
			}
		}
	}
	if n := len(p.Segments); n > 0 && !p.Closed() {
		ring, seg = append(ring, p.Segments[n-1].To), append(seg, n)
	}
	return ring, seg, nil
}

// Reverse returns the path run the other way.
func (p Path) Reverse() Path {
	n := len(p.Segments)
	out := make([]Segment, n)
	for i, s := range p.Segments {
		out[n-1-i] = s.Reverse()
	}
	return Path{out}
}

// Translate returns the path moved by d.
func (p Path) Translate(d Point) Path {
	out := make([]Segment, len(p.Segments))
	for i, s := range p.Segments {
		out[i] = s.Translate(d)
	}
	return Path{out}
}

// Transform returns the image of the path. Unlike Ring.Transform it keeps the
// order of the segments, so a mirrored path runs the other way round its area.
func (p Path) Transform(t Transform) Path {
	out := make([]Segment, len(p.Segments))
	for i, s := range p.Segments {
		out[i] = s.Transform(t)
	}
	return Path{out}
}
