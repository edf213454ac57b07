package shape

import (
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// mean is the mean of two paths, and how far each lies from it.
type mean struct {
	path   []geom.Segment
	most   float64
	square float64 // mean square
}

// measured is a path by the share of its length.
type measured struct {
	path  []geom.Segment
	end   []float64 // length to the end of each segment
	total float64
}

func measure(path []geom.Segment) measured {
	m := measured{path: path}
	for _, s := range path {
		m.total += s.Length()
		m.end = append(m.end, m.total)
	}
	return m
}

// at gives the point at a share u of the length, in the segment that holds the
// share within, and the derivative by u.
func (m measured) at(u, within float64) (point, derivative geom.Vec, k int) {
	k, _ = slices.BinarySearch(m.end, within*m.total)
	k = min(k, len(m.path)-1)
	s := m.path[k]
	l := float64(u * m.total)
	if k > 0 {
		l -= m.end[k-1]
	}
	t := s.ParameterAt(l)
	d := s.Tangent(t)
	return geom.Parallel{Segment: s}.At(t), geom.Vec{X: float64(d.X * m.total), Y: float64(d.Y * m.total)}, k
}

// meanOf gives the mean of two paths that run side by side, by the share of their
// lengths; or one of them, as it is taken.
func meanOf(right, left []geom.Segment, taken HalfTaken) mean {
	r, l := measure(right), measure(left)
	// The shares at which either has a corner.
	cuts := []float64{0, 1}
	for _, m := range [2]measured{r, l} {
		for _, e := range m.end[:len(m.end)-1] {
			cuts = append(cuts, e/m.total)
		}
	}
	slices.Sort(cuts)
	var out mean
	var from geom.Point
	start := 0.0
	for i, u := range cuts[1:] {
		last := i == len(cuts)-2
		if u-start < 1e-7 && !last {
			continue
		}
		within := (start + u) / 2
		both := func(v float64) (geom.Vec, geom.Vec) {
			p, d, _ := r.at(v, within)
			q, e, _ := l.at(v, within)
			return geom.Vec{X: (p.X + q.X) / 2, Y: (p.Y + q.Y) / 2}, geom.Vec{X: (d.X + e.X) / 2, Y: (d.Y + e.Y) / 2}
		}
		const parts = 16
		for k := range parts + 1 {
			v := start + (u-start)*float64(k)/parts
			p, _, _ := r.at(v, within)
			q, _, _ := l.at(v, within)
			d := geom.Hypot(p.X-q.X, p.Y-q.Y) / 2
			out.most = max(out.most, d)
			if k > 0 { // Riemann sum is enough for a figure that is only told
				out.square += float64(d*d) * (u - start) / parts
			}
		}
		if len(out.path) == 0 {
			p, _ := both(start)
			from = p.Point()
		}
		p, _ := both(u)
		to := p.Point()
		_, _, rk := r.at(u, within)
		_, _, lk := l.at(u, within)
		if right[rk].Kind == geom.Line && left[lk].Kind == geom.Line {
			out.path = append(out.path, geom.LineTo(from, to))
		} else {
			out.path = append(out.path, geom.Fit(both, start, u, from, to, 2000)...)
		}
		from, start = to, u
	}
	switch taken {
	case RightHalf:
		out.path = right
	case LeftHalf:
		out.path = left
	}
	return out
}
