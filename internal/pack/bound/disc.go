package bound

import (
	"math"

	"github.com/coverwright/coverwright/internal/geom"
)

// unitCircle are 16 directions in 1/2^20, clockwise from (0, 1), on the unit
// circle or inside it.
var unitCircle = [16][2]int64{
	{0, 1048576}, {401273, 968757}, {741455, 741455}, {968757, 401273},
	{1048576, 0}, {968757, -401273}, {741455, -741455}, {401273, -968757},
	{0, -1048576}, {-401273, -968757}, {-741455, -741455}, {-968757, -401273},
	{-1048576, 0}, {-968757, 401273}, {-741455, 741455}, {-401273, 968757},
}

// disc is a polygon inside a disc inside a ring. However the ring is turned,
// it holds this polygon as it is, up to a shift.
func disc(r geom.Ring) geom.Ring {
	rad := innerRadius(r)
	out := make(geom.Ring, len(unitCircle))
	for i, d := range unitCircle {
		for k, v := range d {
			q, _ := mulDiv(rad, max(v, -v), 1<<20)
			if v < 0 {
				q = -q
			}
			if k == 0 {
				out[i].X = q
			} else {
				out[i].Y = q
			}
		}
	}
	return out
}

// discWork is the number of sides looked at for one disc.
const discWork = 100_000

// innerRadius is the radius of a disc inside a ring, rounded down: near the
// largest one, found by looking around the best of some starts. Every disc
// counts that reaches no side of the ring from a centre inside, so the search
// may end anywhere.
func innerRadius(r geom.Ring) int64 {
	b := r.Bounds()
	best, at := 0.0, geom.Point{}
	looks := max(64, discWork/len(r))
	look := func(q geom.Point) {
		if looks--; looks < 0 {
			return
		}
		if d := clearance(r, q); d > best {
			best, at = d, q
		}
	}
	n := int64(16)
	if looks < 512 {
		n = 5
	}
	for i := range n {
		for k := range n {
			look(geom.Point{X: b.Min.X + (2*i+1)*b.Width()/(2*n), Y: b.Min.Y + (2*k+1)*b.Height()/(2*n)})
		}
	}
	for step := max(b.Width(), b.Height()) / n; step > 0 && best > 0 && looks > 0; {
		was := best
		c := at
		for _, d := range [8]geom.Point{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {X: 1, Y: 1}, {X: 1, Y: -1}, {X: -1, Y: 1}, {X: -1, Y: -1}} {
			look(geom.Point{X: c.X + d.X*step, Y: c.Y + d.Y*step})
		}
		if best <= was {
			step /= 2
		}
	}
	return int64(math.Floor(best * (1 - margin)))
}

// clearance is the distance from a point inside a ring to its nearest side; 0
// for a point that is not inside. Coordinates are exact in floating point
// after taking differences, and each step errs by less than 1e-15 of itself;
// the foot on a side is in error by less than 1e-15 of its length.
func clearance(r geom.Ring, q geom.Point) float64 {
	if r.Locate(q) != geom.Inside {
		return 0
	}
	least := math.Inf(1)
	for i, a := range r {
		e, p := r[(i+1)%len(r)].Sub(a), q.Sub(a)
		ex, ey, px, py := float64(e.X), float64(e.Y), float64(p.X), float64(p.Y)
		if l := float64(ex*ex) + float64(ey*ey); l > 0 {
			t := (float64(px*ex) + float64(py*ey)) / l
			if t > 0 && t < 1 {
				// The distance from the line, from the exact cross product.
				least = min(least, math.Abs(geom.Cross(e, p).Float64())/math.Sqrt(l))
				continue
			}
			if t >= 1 {
				px, py = float64(q.X-r[(i+1)%len(r)].X), float64(q.Y-r[(i+1)%len(r)].Y)
			}
		}
		least = min(least, geom.Hypot(px, py))
	}
	return least
}
