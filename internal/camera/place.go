package camera

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Lens is the lens term k.
func (v *View) Lens() float64 { return v.par[lens] }

// Pixel gives where a place is seen: anywhere, also outside the picture. It
// refuses places that are not in front of the camera.
func (v *View) Pixel(p Point) (Point, error) {
	st := v.see(p.Sub(v.centre).Scale(v.factor))
	d := st.seen
	// Beyond 1.3 half diagonals the lens term may no longer rise.
	if !(st.depth > 0) || !(d.Norm() < 1.3/(1-mostLens)) || float64(st.place[0][0]*st.place[1][1])-float64(st.place[0][1]*st.place[1][0]) >= 0 {
		return Point{}, check.Refuse("", "", ErrBehind, "a place in front of the camera, near the picture")
	}
	return v.pixel(d), nil
}

// Place gives the place that is seen at a pixel.
func (v *View) Place(field unit.Path, p Point) (Point, error) {
	if err := Inside(field, p, int(v.width), int(v.height)); err != nil {
		return Point{}, err
	}
	d := v.straighten(v.unit(p))
	at, w := v.back.point(d)
	if !(w*v.sign > 0) || !(math.Abs(at.X) <= mostPlace && math.Abs(at.Y) <= mostPlace) {
		return Point{}, check.Refuse(field, "", ErrBehind, "a pixel below the horizon of the plane")
	}
	return at, nil
}

// Page gives where a page lies: its turn (sine and cosine) and its move; false
// when it was left out.
func (v *View) Page(page int) (turn float64, move Point, ok bool) {
	slot := v.slot(page)
	if slot < 0 {
		return 0, Point{}, false
	}
	if slot == 0 {
		return 0, Point{}, true
	}
	o := v.par[plain+perPage*(slot-1):]
	at := func(p Point) Point { return v.placed(slot, p).Scale(1 / v.factor).Add(v.centre) }
	return o[0], at(Point{}), true
}

// Camera is where the picture was taken from.
type Camera struct {
	Focal  float64 // pixels
	Height float64 // above the plane, mm
	Foot   Point   // the place below it
	Cosine float64 // of the tilt from straight down
	Sine   float64
	Told   bool // the focal length follows from the picture; else it is that of a usual camera
}

// usualFocal is the focal length of a usual camera, by the longer side of the
// picture: that of a phone (from memory).
const usualFocal = 0.75

// Camera gives where the picture was taken from.
func (v *View) Camera() Camera { return v.camera }

// taken works out the camera from the homography G, with the middle of the picture
// at zero:
//
//	n₁ = -(g₁₁ g₁₂ + g₂₁ g₂₂),  d₁ = g₃₁ g₃₂
//	n₂ = g₁₁² + g₂₁² - g₁₂² - g₂₂²,  d₂ = g₃₂² - g₃₁²
//	f² = (n₁ d₁ + n₂ d₂) / (d₁² + d₂²)
//
// Under ten degrees of tilt that says little, and a usual camera is taken.
func (v *View) taken() Camera {
	g := v.homography()
	for i := range 2 {
		for j := range 3 {
			g[i][j] = float64(g[i][j] * v.half)
		}
	}
	longer := math.Max(v.width, v.height)
	c := cameraOf(g, usualFocal*longer)
	if c.Sine < 0.17364817766693033 { // sin 10 deg
		return c
	}
	sq := func(x float64) float64 { return float64(x * x) }
	n1, d1 := -(float64(g[0][0]*g[0][1]) + float64(g[1][0]*g[1][1])), float64(g[2][0]*g[2][1])
	n2, d2 := sq(g[0][0])+sq(g[1][0])-sq(g[0][1])-sq(g[1][1]), sq(g[2][1])-sq(g[2][0])
	f2 := (float64(n1*d1) + float64(n2*d2)) / (sq(d1) + sq(d2))
	if !(f2 > sq(0.3*longer) && f2 < sq(5*longer)) {
		return c
	}
	c = cameraOf(g, math.Sqrt(f2))
	c.Told = true
	return c
}

// cameraOf takes G apart: with M = diag(1/f, 1/f, 1) G and l = √(|m₁| |m₂|), the
// columns m₁/l, m₂/l are the axes of the plane and m₃/l its origin, seen from the
// camera.
func cameraOf(g matrix3, f float64) Camera {
	var m [3][3]float64 // columns
	for j := range 3 {
		m[j] = [3]float64{g[0][j] / f, g[1][j] / f, g[2][j]}
	}
	dot := func(a, b [3]float64) float64 {
		return float64(a[0]*b[0]) + float64(a[1]*b[1]) + float64(a[2]*b[2])
	}
	l := math.Sqrt(math.Sqrt(dot(m[0], m[0])) * math.Sqrt(dot(m[1], m[1])))
	for j := range m {
		for i := range m[j] {
			m[j][i] /= l
		}
	}
	a, b := m[0], m[1]
	n := [3]float64{float64(a[1]*b[2]) - float64(a[2]*b[1]), float64(a[2]*b[0]) - float64(a[0]*b[2]), float64(a[0]*b[1]) - float64(a[1]*b[0])}
	c := Camera{Focal: f, Height: math.Abs(dot(n, m[2])), Foot: Point{-dot(a, m[2]), -dot(b, m[2])}}
	size := math.Sqrt(dot(n, n))
	c.Cosine = math.Min(1, math.Abs(n[2])/size)
	c.Sine = math.Sqrt(1 - float64(c.Cosine*c.Cosine))
	return c
}

// Lower gives the place in the plane below which a point at height t above the
// plane was seen, and which is its true place: it is seen further from the foot
// of the camera by Z / (Z - t).
func (c Camera) Lower(p Point, t float64) Point {
	return c.Foot.Add(p.Sub(c.Foot).Scale((c.Height - t) / c.Height))
}

// Raise is the inverse of Lower.
func (c Camera) Raise(p Point, t float64) Point {
	return c.Foot.Add(p.Sub(c.Foot).Scale(c.Height / (c.Height - t)))
}
