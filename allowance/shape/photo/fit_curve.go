package photo

import (
	"math"

	"github.com/coverwright/coverwright/internal/camera"
)

// piece is a cubic curve by its control points, or a line between the first and
// the last, and how far its points lie from it at most.
type piece struct {
	p     [4]camera.Point
	line  bool
	worst float64
}

func lineOf(a, b camera.Point, worst float64) piece {
	return piece{[4]camera.Point{a, a, b, b}, true, worst}
}

// curves fits a side whose ends run along the unit vectors t0 and t1, both inwards.
func (b border) curves(ps []camera.Point, t0, t1 camera.Point) []piece {
	n := len(ps)
	from, to := ps[0], ps[n-1]
	if far := farFrom(ps, from, to); far <= b.tolerance {
		return []piece{lineOf(from, to, far)}
	}
	if n < 5 {
		out := make([]piece, 0, n-1)
		for i := 1; i < n; i++ {
			out = append(out, lineOf(ps[i-1], ps[i], 0))
		}
		return out
	}
	split := n / 2
	if closed := from.Away(to) < from.Away(ps[split])/10; !closed {
		c, at, ok := b.cubic(ps, t0, t1)
		if ok {
			return []piece{c}
		}
		split = at
	}
	split = min(max(split, 2), n-3)
	reach := min(nearSteps, split, n-1-split)
	t := ps[split+reach].Sub(ps[split-reach])
	if t.Norm() == 0 {
		t = ps[split+1].Sub(ps[split])
	}
	t = unitVector(t)
	return append(b.curves(ps[:split+1], t0, t.Scale(-1)), b.curves(ps[split:], t, t1)...)
}

// cubic fits one cubic curve: with u the places of the points along it, the handles
// along t0 and t1 by least squares, and then u anew by one step of Newton's
// method. It gives the point that is missed by most when no curve comes near enough.
func (b border) cubic(ps []camera.Point, t0, t1 camera.Point) (piece, int, bool) {
	u := chordal(ps)
	var c piece
	at := 0
	for round := range 20 {
		c.p = handles(ps, u, t0, t1)
		c.worst, at = 0, 0
		for i, p := range ps {
			if d := p.Away(c.at(u[i])); d > c.worst {
				c.worst, at = d, i
			}
		}
		if c.worst <= b.tolerance {
			return c, at, true
		}
		if round >= 5 && c.worst > 10*b.tolerance {
			break
		}
		for i, p := range ps[:len(ps)-1] {
			if i > 0 {
				u[i] = c.nearer(p, u[i])
			}
		}
	}
	return c, at, false
}

// chordal gives the places along a curve by the way along the points.
func chordal(ps []camera.Point) []float64 {
	u := make([]float64, len(ps))
	for i := 1; i < len(ps); i++ {
		u[i] = u[i-1] + ps[i].Away(ps[i-1])
	}
	for i := range u {
		u[i] /= u[len(u)-1]
	}
	return u
}

// bernstein gives the weights of the control points.
func bernstein(u float64) [4]float64 {
	v := 1 - u
	return [4]float64{float64(float64(v*v) * v), float64(3 * float64(float64(v*v)*u)), float64(3 * float64(float64(v*u)*u)), float64(float64(u*u) * u)}
}

// handles gives the curve from the first to the last point whose handles along t0
// and t1 fit best; a third of the chord where they would turn back.
func handles(ps []camera.Point, u []float64, t0, t1 camera.Point) [4]camera.Point {
	a, z := ps[0], ps[len(ps)-1]
	var c00, c01, c11, x0, x1 float64
	for i, p := range ps {
		w := bernstein(u[i])
		g0, g1 := t0.Scale(w[1]), t1.Scale(w[2])
		rest := p.Sub(a.Scale(w[0] + w[1])).Sub(z.Scale(w[2] + w[3]))
		c00, c01, c11 = c00+g0.Dot(g0), c01+g0.Dot(g1), c11+g1.Dot(g1)
		x0, x1 = x0+g0.Dot(rest), x1+g1.Dot(rest)
	}
	chord := a.Away(z)
	h0, h1 := chord/3, chord/3
	if det := float64(c00*c11) - float64(c01*c01); det > 1e-12*float64(c00*c11) {
		k0, k1 := (float64(x0*c11)-float64(x1*c01))/det, (float64(c00*x1)-float64(c01*x0))/det
		if k0 > 1e-6*chord && k1 > 1e-6*chord && k0 < 10*chord && k1 < 10*chord {
			h0, h1 = k0, k1
		}
	}
	return [4]camera.Point{a, a.Add(t0.Scale(h0)), z.Add(t1.Scale(h1)), z}
}

func (c piece) at(u float64) camera.Point {
	w := bernstein(u)
	return c.p[0].Scale(w[0]).Add(c.p[1].Scale(w[1])).Add(c.p[2].Scale(w[2])).Add(c.p[3].Scale(w[3]))
}

// nearer brings u one step of Newton's method nearer to the foot of p.
func (c piece) nearer(p camera.Point, u float64) float64 {
	v := 1 - u
	d := [3]camera.Point{c.p[1].Sub(c.p[0]), c.p[2].Sub(c.p[1]), c.p[3].Sub(c.p[2])}
	first := d[0].Scale(3 * float64(v*v)).Add(d[1].Scale(6 * float64(u*v))).Add(d[2].Scale(3 * float64(u*u)))
	second := d[1].Sub(d[0]).Scale(6 * v).Add(d[2].Sub(d[1]).Scale(6 * u))
	miss := c.at(u).Sub(p)
	below := first.Dot(first) + miss.Dot(second)
	if below <= 0 {
		return u
	}
	return math.Min(1, math.Max(0, u-miss.Dot(first)/below))
}
