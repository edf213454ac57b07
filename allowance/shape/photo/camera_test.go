package photo_test

import (
	"math"
	"math/rand/v2"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/allowance/shape/photo"
)

// shot is a camera of our own, drawn at random, that shares no formula with the
// package: it turns the line of sight by angles and divides by depth.
type shot struct {
	eye                  [3]float64
	right, down, forward [3]float64
	focal, k             float64
	width, height        float64
}

// shoot draws a camera that sees all the given places of the plane z = 0, as near as
// that allows: tilted up to most degrees, from anywhere round, with a lens up to k.
func shoot(rng *rand.Rand, width, height, most, k float64, all [][2]float64) shot {
	even := func(a float64) float64 { return (2*rng.Float64() - 1) * a }
	s := shot{focal: .75 * width, width: width, height: height, k: even(k)}
	tilt, round, roll := rng.Float64()*most*math.Pi/180, rng.Float64()*2*math.Pi, even(12)*math.Pi/180
	aim := [3]float64{even(15), even(15), 0}
	// Looking along forward: straight down, tilted by tilt towards round.
	s.forward = [3]float64{math.Sin(tilt) * math.Cos(round), math.Sin(tilt) * math.Sin(round), -math.Cos(tilt)}
	// The right of the picture lies along +x when looking down, then rolled.
	x := cross(s.forward, [3]float64{0, 1, 0})
	x = times(x, 1/math.Sqrt(dot3(x, x)))
	y := cross(s.forward, x)
	s.right = plus(times(x, math.Cos(roll)), times(y, math.Sin(roll)))
	s.down = cross(s.forward, s.right)
	for d := 300.; ; d *= 1.02 {
		s.eye = plus(aim, times(s.forward, -d))
		fits := true
		for _, p := range all {
			x, y, z := s.see(p[0], p[1])
			fits = fits && z > 0 && x > 20 && y > 20 && x < width-20 && y < height-20
		}
		if fits {
			return s
		}
	}
}

func cross(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}
func dot3(a, b [3]float64) float64             { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func times(a [3]float64, f float64) [3]float64 { return [3]float64{a[0] * f, a[1] * f, a[2] * f} }
func plus(a, b [3]float64) [3]float64          { return [3]float64{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }

func (s shot) see(x, y float64) (px, py, depth float64) { return s.seeAt(x, y, 0) }

func (s shot) seeAt(x, y, z float64) (px, py, depth float64) {
	v := plus([3]float64{x, y, z}, times(s.eye, -1))
	depth = dot3(v, s.forward)
	px, py = s.focal*dot3(v, s.right)/depth, s.focal*dot3(v, s.down)/depth
	half := math.Hypot(s.width, s.height) / 2
	bend := 1 + s.k*(px*px+py*py)/half/half
	return s.width/2 + px*bend, s.height/2 + py*bend, depth
}

// mark sees a place with noise; at is where the maker of the page says it is.
func (s shot) mark(rng *rand.Rand, x, y, noise float64, at shape.Point) photo.Mark {
	px, py, _ := s.see(x, y)
	return photo.Mark{Seen: photo.Pixel{X: shape.Pixels(px + noise*rng.NormFloat64()), Y: shape.Pixels(py + noise*rng.NormFloat64())}, At: at}
}

// afterMove gives the largest distance between points that belong together, after
// the best move and turn of the first ones (closed form, small n).
func afterMove(ps, qs [][2]float64) float64 {
	n := float64(len(ps))
	var px, py, qx, qy float64
	for i := range ps {
		px, py, qx, qy = px+ps[i][0]/n, py+ps[i][1]/n, qx+qs[i][0]/n, qy+qs[i][1]/n
	}
	var s, c float64
	for i := range ps {
		ax, ay, bx, by := ps[i][0]-px, ps[i][1]-py, qs[i][0]-qx, qs[i][1]-qy
		s, c = s+ax*by-ay*bx, c+ax*bx+ay*by
	}
	h := math.Hypot(s, c)
	s, c = s/h, c/h
	most := 0.
	for i := range ps {
		ax, ay, bx, by := ps[i][0]-px, ps[i][1]-py, qs[i][0]-qx, qs[i][1]-qy
		most = max(most, math.Hypot(c*ax-s*ay-bx, s*ax+c*ay-by))
	}
	return most
}
