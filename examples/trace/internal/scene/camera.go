package scene

import (
	"math"
	"math/rand/v2"
)

// Camera takes a picture.
type Camera struct {
	Width, Height  int
	Focal          float64 // in pixels
	Tilt, Way      float64 // how far it leans from straight above, and to which side, in degrees
	Roll           float64 // in degrees
	Distance       float64 // from what it looks at, in mm
	Aim            Point
	Bend           float64 // seen = ideal (1 + Bend r^2), r of half the diagonal
	Blur           float64 // one standard deviation of a Gauss curve, in pixels
	Noise          float64 // one standard deviation, in coded levels
	Slope, SlopeTo float64 // how much weaker the light is on one side, and which way, in degrees
	Exposure       float64 // light of a white thing in the brightest place, of the full scale
	Seed           uint64
}

// Random draws a camera: leaning by up to 45 degrees to any side, and as near as
// the scene allows.
func Random(r *rand.Rand, width, height int, s Scene) (Camera, error) {
	c := Camera{
		Width: width, Height: height, Focal: 0.75 * float64(max(width, height)),
		Tilt: 45 * r.Float64(), Way: 360 * r.Float64(), Roll: 24*r.Float64() - 12,
		Bend: 0.06*r.Float64() - 0.03, Blur: 0.7 + 0.9*r.Float64(), Noise: 1.5 + 3.5*r.Float64(),
		Slope: 0.5 * r.Float64(), SlopeTo: 360 * r.Float64(), Exposure: 0.95, Seed: r.Uint64(),
	}
	err := c.Approach(s, Point{30*r.Float64() - 15, 30*r.Float64() - 15})
	return c, err
}

// Approach aims the camera at the middle of a scene, or beside it, and brings it
// as near as all of the scene still is in the picture.
func (c *Camera) Approach(s Scene, beside Point) error {
	layers, err := s.layers()
	if err != nil {
		return err
	}
	low, high := Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, l := range layers {
		for _, p := range l.ring {
			low = Point{min(low.X, p.X), min(low.Y, p.Y)}
			high = Point{max(high.X, p.X), max(high.Y, p.Y)}
		}
	}
	const free = 22 // mm round the scene
	low, high = Point{low.X - free, low.Y - free}, Point{high.X + free, high.Y + free}
	c.Aim = Point{(low.X+high.X)/2 + beside.X, (low.Y+high.Y)/2 + beside.Y}
	edge := dense([]Point{low, {high.X, low.Y}, high, {low.X, high.Y}})
	near, far := 100.0, 20000.0
	for range 40 {
		c.Distance = (near + far) / 2
		fits := true
		see := c.Eye()
		for _, p := range edge {
			x, y, ok := see(p)
			if !ok || x < 0 || y < 0 || x > float64(c.Width) || y > float64(c.Height) {
				fits = false
				break
			}
		}
		if fits {
			far = c.Distance
		} else {
			near = c.Distance
		}
	}
	c.Distance = far
	return nil
}

type triple [3]float64

func (a triple) dot(b triple) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a triple) cross(b triple) triple {
	return triple{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}
func (a triple) times(f float64) triple { return triple{a[0] * f, a[1] * f, a[2] * f} }
func (a triple) plus(b triple) triple   { return triple{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }

// Eye gives where a place in the plane is seen; not ok when behind the camera.
func (c Camera) Eye() func(Point) (x, y float64, ok bool) {
	const degree = math.Pi / 180
	sinT, cosT := math.Sincos(c.Tilt * degree)
	sinW, cosW := math.Sincos(c.Way * degree)
	back := triple{sinT * cosW, sinT * sinW, cosT}
	at := triple{c.Aim.X, c.Aim.Y, 0}.plus(back.times(c.Distance))
	ahead := back.times(-1)
	right := ahead.cross(triple{0, 1, 0})
	right = right.times(1 / math.Sqrt(right.dot(right)))
	up := right.cross(ahead)
	sinR, cosR := math.Sincos(c.Roll * degree)
	right, up = right.times(cosR).plus(up.times(sinR)), up.times(cosR).plus(right.times(-sinR))
	mx, my := float64(c.Width)/2, float64(c.Height)/2
	half := math.Hypot(mx, my)
	return func(p Point) (float64, float64, bool) {
		d := triple{p.X, p.Y, 0}.plus(at.times(-1))
		z := d.dot(ahead)
		if z <= 0 {
			return 0, 0, false
		}
		u, v := c.Focal*d.dot(right)/z, -c.Focal*d.dot(up)/z
		r := math.Hypot(u, v) / half
		bent := 1 + c.Bend*r*r
		return mx + u*bent, my + v*bent, true
	}
}
