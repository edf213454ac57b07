package nest

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// Angle counts millionths of a degree, anti-clockwise.
type Angle int64

// Degree is one degree of turn.
const Degree Angle = 1_000_000

const fullTurn = 360 * Degree

// norm brings an angle into [0, 360) degrees.
func (a Angle) norm() Angle {
	a %= fullTurn
	if a < 0 {
		a += fullTurn
	}
	return a
}

// Degrees returns the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a) / float64(Degree) }

// sincos is written out, with every product rounded on its own, so that
// machines with fused multiply-add return the same bytes as those without.
func (a Angle) sincos() (s, c float64) {
	a = a.norm()
	q := a / (90 * Degree)
	rest := a - q*90*Degree
	swap := false
	if rest > 45*Degree {
		rest, swap = 90*Degree-rest, true
	}
	x := float64(rest) * (math.Pi / 180e6)
	x2 := float64(x * x)
	// Taylor sums: below 45 degrees the terms left out are under 1e-17.
	ss, cc := 0.0, 0.0
	for k := 17; k >= 1; k -= 2 {
		ss = 1 - float64(float64(x2*ss)/float64((k+1)*(k+2)))
		cc = 1 - float64(float64(x2*cc)/float64(k*(k+1)))
	}
	s, c = float64(x*ss), cc
	if swap {
		s, c = c, s
	}
	switch q {
	case 1:
		s, c = c, -s
	case 2:
		s, c = -s, -c
	case 3:
		s, c = -c, s
	}
	return s, c
}

// turned mirrors the ring across the Y axis if asked, then turns it about
// the origin and rounds each corner once. Quarter turns are exact.
func turned(r geom.Ring, a Angle, mirrored bool) geom.Ring {
	a = a.norm()
	out := make(geom.Ring, len(r))
	s, c := a.sincos()
	for i, p := range r {
		if mirrored {
			p.X = -p.X
		}
		switch a {
		case 0:
		case 90 * Degree:
			p = geom.Pt(-p.Y, p.X)
		case 180 * Degree:
			p = geom.Pt(-p.X, -p.Y)
		case 270 * Degree:
			p = geom.Pt(p.Y, -p.X)
		default:
			x, y := float64(p.X), float64(p.Y)
			p = geom.Pt(
				int64(math.Round(float64(x*c)-float64(y*s))),
				int64(math.Round(float64(x*s)+float64(y*c))),
			)
		}
		out[i] = p
	}
	if mirrored { // keep the ring anti-clockwise
		slices.Reverse(out)
	}
	return out
}
