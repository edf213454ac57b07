package photo

import (
	"math"

	"github.com/coverwright/coverwright/internal/camera"
	"github.com/coverwright/coverwright/internal/geom"
)

// border is an evened border that is fitted to a tolerance.
type border struct {
	ring      []camera.Point
	tolerance float64
}

// fitted is a side: where it starts, and its pieces.
type fitted struct {
	start  camera.Point
	pieces []piece
}

func (b border) at(i int) camera.Point {
	n := len(b.ring)
	return b.ring[(i%n+n)%n]
}

// turn is by how much the border turns at a point, seen over an arm of steps.
func (b border) turn(i, arm int) float64 {
	u, v := b.at(i).Sub(b.at(i-arm)), b.at(i+arm).Sub(b.at(i))
	return math.Abs(geom.Atan2(u.Cross(v), u.Dot(v)))
}

// corners finds the points where the border turns, the one at the lower left first.
func (b border) corners(least float64) []int {
	n := len(b.ring)
	turns := make([]float64, n)
	for i := range turns {
		turns[i] = b.turn(i, armSteps)
	}
	var out []int
	for i, t := range turns {
		top := t > least && b.turn(i, nearSteps) > keepsTurn*t
		for d := 1; top && d <= armSteps/2; d++ {
			top = turns[(i+n-d)%n] < t && turns[(i+d)%n] <= t
		}
		if top {
			out = append(out, i)
		}
	}
	first := 0
	for k, i := range out {
		if p, q := b.ring[i], b.ring[out[first]]; p.X+p.Y < q.X+q.Y {
			first = k
		}
	}
	return append(out[first:], out[:first]...)
}

// end is how a side runs near its end: from a point along unit vectors d outwards
// and n across it, P(s) = o + s d + c s² n.
type end struct {
	o, d, n camera.Point
	c       float64
}

func (e end) at(s float64) camera.Point {
	return e.o.Add(e.d.Scale(s)).Add(e.n.Scale(float64(e.c * float64(s*s))))
}

// slope is the derivative at s.
func (e end) slope(s float64) camera.Point { return e.d.Add(e.n.Scale(2 * float64(e.c*s))) }

// endOf fits a line or, bent, a parabola to points that are given from the end of a
// side inwards.
func endOf(ps []camera.Point, bent bool) end {
	o, far := ps[0], ps[len(ps)-1]
	chord := o.Sub(far)
	if chord.Norm() == 0 {
		chord = o.Sub(ps[1])
	}
	d := chord.Scale(1 / chord.Norm())
	n := camera.Point{X: -d.Y, Y: d.X}
	// y = a + b x + c x² by least squares, x along d, y along n.
	var s [5]float64
	var t [3]float64
	for _, p := range ps {
		x, y, w := p.Sub(o).Dot(d), p.Sub(o).Dot(n), 1.0
		for k := range s {
			s[k] += w
			w = float64(w * x)
		}
		t[0], t[1], t[2] = t[0]+y, t[1]+float64(x*y), t[2]+float64(float64(x*x)*y)
	}
	a, b, c := parabola(s, t, bent && len(ps) > 3)
	o, d = o.Add(n.Scale(a)), d.Add(n.Scale(b))
	// The parabola in axes of which d lies along its tangent.
	l := d.Norm()
	return end{o, d.Scale(1 / l), camera.Point{X: -d.Y / l, Y: d.X / l}, c / float64(float64(l*l)*l)}
}

// parabola solves the normal equations, with c zero when it is not bent.
func parabola(s [5]float64, t [3]float64, bent bool) (a, b, c float64) {
	if bent {
		m := [3][3]float64{{s[0], s[1], s[2]}, {s[1], s[2], s[3]}, {s[2], s[3], s[4]}}
		det := func(m [3][3]float64) float64 {
			minor := func(i, j int) float64 { return float64(m[1][i]*m[2][j]) - float64(m[1][j]*m[2][i]) }
			return float64(m[0][0]*minor(1, 2)) - float64(m[0][1]*minor(0, 2)) + float64(m[0][2]*minor(0, 1))
		}
		if whole := det(m); whole != 0 {
			var out [3]float64
			for k := range 3 {
				mk := m
				for i := range 3 {
					mk[i][k] = t[i]
				}
				out[k] = det(mk) / whole
			}
			return out[0], out[1], out[2]
		}
	}
	det := float64(s[0]*s[2]) - float64(s[1]*s[1])
	if det == 0 {
		return t[0] / s[0], 0, 0
	}
	return (float64(t[0]*s[2]) - float64(s[1]*t[1])) / det, (float64(s[0]*t[1]) - float64(s[1]*t[0])) / det, 0
}

// meet is where two ends meet, and how they run there; false when that is further
// than the given way.
func meet(e, f end, way float64) (p, alongE, alongF camera.Point, ok bool) {
	s, t := 0.0, 0.0
	for range 30 {
		miss := f.at(t).Sub(e.at(s))
		u, v := e.slope(s), f.slope(t)
		det := u.Cross(v)
		if math.Abs(det) < 0.2*u.Norm()*v.Norm() {
			return p, p, p, false
		}
		s += miss.Cross(v) / det
		t += miss.Cross(u) / det
		if !(math.Abs(s) <= way && math.Abs(t) <= way) {
			return p, p, p, false
		}
	}
	return e.at(s), e.slope(s), f.slope(t), true
}

// sides cuts the border at its corners and fits each side.
func (b border) sides(corners []int) []fitted {
	n := len(b.ring)
	if len(corners) == 0 {
		start := 0
		for i, p := range b.ring {
			if q := b.ring[start]; p.X+p.Y < q.X+q.Y {
				start = i
			}
		}
		ps := make([]camera.Point, n+1)
		for k := range ps {
			ps[k] = b.at(start + k)
		}
		t := unitVector(b.at(start + nearSteps).Sub(b.at(start - nearSteps)))
		return []fitted{{ps[0], b.curves(ps, t, t.Scale(-1))}}
	}
	m := len(corners)
	inner := make([][]camera.Point, m) // of each side, without what lies near its corners
	ends := make([][2]end, m)
	for k, c := range corners {
		span := corners[(k+1)%m] - c
		if span <= 0 {
			span += n
		}
		trim := min(trimSteps, (span-3)/2)
		for i := trim; i <= span-trim; i++ {
			inner[k] = append(inner[k], b.at(c+i))
		}
		ends[k] = b.endsOf(inner[k])
	}
	type joint struct{ p, in, out camera.Point } // in along the side before, out along the side after
	joints := make([]joint, m)
	for k, c := range corners {
		before, after := ends[(k+m-1)%m][1], ends[k][0]
		way := float64(armSteps) * b.at(c).Away(b.at(c+1))
		p, in, out, ok := meet(before, after, way)
		if !ok {
			p, in, out = b.at(c), before.d, after.d
		}
		joints[k] = joint{p, unitVector(in.Scale(-1)), unitVector(out.Scale(-1))}
	}
	out := make([]fitted, m)
	for k := range corners {
		from, to := joints[k], joints[(k+1)%m]
		ps := append(append([]camera.Point{from.p}, inner[k]...), to.p)
		out[k] = fitted{from.p, b.curves(ps, from.out, to.in)}
	}
	return out
}

// endsOf gives both ends of a side: those of a line when the side is straight.
func (b border) endsOf(ps []camera.Point) [2]end {
	straight := farFrom(ps, ps[0], ps[len(ps)-1]) <= b.tolerance
	k := len(ps)
	if !straight {
		k = min(k, armSteps+1)
	}
	front := ps[:k]
	back := make([]camera.Point, k)
	for i := range back {
		back[i] = ps[len(ps)-1-i]
	}
	return [2]end{endOf(front, !straight), endOf(back, !straight)}
}

func unitVector(p camera.Point) camera.Point { return p.Scale(1 / p.Norm()) }

// farFrom is the largest distance of the points from the stretch a b.
func farFrom(ps []camera.Point, a, b camera.Point) float64 {
	d := b.Sub(a)
	l := d.Dot(d)
	most := 0.0
	for _, p := range ps {
		f := 0.0
		if l > 0 {
			f = math.Min(1, math.Max(0, p.Sub(a).Dot(d)/l))
		}
		most = math.Max(most, p.Away(a.Add(d.Scale(f))))
	}
	return most
}
