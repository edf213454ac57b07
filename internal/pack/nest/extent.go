package nest

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// shortest is a length no allowed position of an outline can be shorter than
// along a roll of a width, in whole units; MaxInt64 if it fits in none.
//
// Between two angles at which an edge lies along or across the roll, the
// outline touches its box with the same four corners, so both extents are
//
//	|d| sin(t + phi)
//
// for a fixed chord d each, and concave. Where the outline fits at both ends
// of such a span the shortest position is therefore at an end; where it fits
// at one, at that end or where it just fits; and where at neither, nowhere.
func shortest(r geom.Ring, t Turn, m Mirroring, width int64) int64 {
	best := math.MaxInt64 * 1.0
	for _, mirrored := range mirrors(m) {
		o := hullExtents(r, mirrored)
		for _, a := range t.list() {
			if !t.any && t.tol == 0 && a%(90*Degree) == 0 { // no rounding
				if b := turned(r, a, mirrored).Bounds(); b.Height() <= width {
					best = min(best, float64(b.Width()))
				}
				continue
			}
			from, to := a-t.tol, a+t.tol
			if t.any {
				from, to = 0, 180*Degree
			}
			// Rounding moves each corner by half a unit at most.
			best = min(best, o.leastAlong(from.radians(), to.radians(), float64(width)+1)-1)
		}
	}
	if best >= MaxCoord {
		return math.MaxInt64
	}
	return int64(math.Ceil(best - 1e-3)) // the error of the extents is far below
}

func (a Angle) radians() float64 { return float64(a) * (math.Pi / 180e6) }

// extents are those of a convex outline, by the angle it is turned to.
type extents struct {
	hull geom.Ring
	flat []float64 // angles in [0, pi/2) that bring an edge along or across
}

func hullExtents(r geom.Ring, mirrored bool) extents {
	o := extents{hull: geom.Hull(turned(r, 0, mirrored))}
	for i, p := range o.hull {
		e := o.hull[(i+1)%len(o.hull)].Sub(p)
		a := math.Mod(-geom.Atan2(float64(e.Y), float64(e.X)), math.Pi/2)
		if a < 0 {
			a += math.Pi / 2
		}
		o.flat = append(o.flat, a)
	}
	slices.Sort(o.flat)
	return o
}

// at returns the extents along and across the roll.
func (o extents) at(t float64) (along, across float64) {
	s, c := geom.SinCos(t)
	x0, x1, y0, y1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range o.hull {
		px, py := float64(p.X), float64(p.Y)
		x, y := float64(px*c)-float64(py*s), float64(px*s)+float64(py*c)
		x0, x1 = min(x0, x), max(x1, x)
		y0, y1 = min(y0, y), max(y1, y)
	}
	return x1 - x0, y1 - y0
}

// leastAlong is the least extent along the roll at an angle of [from, to]
// whose extent across is at most width; infinite if there is none.
func (o extents) leastAlong(from, to, width float64) float64 {
	stops := []float64{from, to}
	for q := math.Floor(from / (math.Pi / 2)); q*(math.Pi/2) < to; q++ {
		for _, a := range o.flat {
			if a += float64(q * (math.Pi / 2)); a > from && a < to {
				stops = append(stops, a)
			}
		}
	}
	slices.Sort(stops)
	best := math.Inf(1)
	for i, b := range stops {
		lb, hb := o.at(b)
		if hb <= width {
			best = min(best, lb)
		}
		if i == 0 {
			continue
		}
		a := stops[i-1]
		_, ha := o.at(a)
		if (ha <= width) == (hb <= width) {
			continue
		}
		// fits fits, fails does not: halve down to where it just fits.
		fits, fails := a, b
		if ha > width {
			fits, fails = b, a
		}
		for range 50 {
			mid := (fits + fails) / 2
			if _, h := o.at(mid); h <= width {
				fits = mid
			} else {
				fails = mid
			}
		}
		l, _ := o.at(fails)
		best = min(best, l)
	}
	return best
}
