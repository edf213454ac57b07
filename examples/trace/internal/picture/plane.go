package picture

import (
	"image"
	"image/color" //nolint:misspell // as the library spells it
	"math"
	"sync"
)

// White is the light of a pixel at the upper end of the scale.
const White = 65535

// Plane is the light of a picture, linear: 0 is black and White the most. The
// pixel in column x and row y covers x to x+1 and y to y+1.
type Plane struct {
	W, H int
	Pix  []uint16
}

// decoded gives the linear light of a value as it is coded in files (IEC
// 61966-2-1).
func decoded(v float64) float64 {
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

// table holds the light of the 256 coded values.
var table = sync.OnceValue(func() *[256]uint16 {
	var t [256]uint16
	for i := range t {
		t[i] = uint16(math.Round(White * decoded(float64(i)/255)))
	}
	return &t
})

// Weights of red, green and blue in light, of White.
const (
	red   = 0.2126
	green = 0.7152
	blue  = 0.0722
)

func mix(r, g, b uint16) uint16 {
	return uint16(math.Round(float64(red*float64(r)) + float64(green*float64(g)) + float64(blue*float64(b))))
}

// light gives the light of a picture, upright, and the number of pixels at the
// upper end of the scale.
func light(m image.Image, t Turn) (Plane, int) {
	at := lightAt(m)
	w, h := m.Bounds().Dx(), m.Bounds().Dy()
	p := Plane{W: w, H: h}
	if t.Swaps() {
		p.W, p.H = h, w
	}
	p.Pix = make([]uint16, w*h)
	burnt := 0
	limit := table()[253]
	for y := range p.H {
		row := p.Pix[y*p.W : (y+1)*p.W]
		for x := range row {
			sx, sy := t.Stored(x, y, w, h)
			row[x] = at(sx, sy)
			if row[x] >= limit {
				burnt++
			}
		}
	}
	return p, burnt
}

// lightAt gives the light of a pixel of a picture, counted from its corner.
func lightAt(m image.Image) func(x, y int) uint16 {
	lin := table()
	switch m := m.(type) {
	case *image.YCbCr:
		return func(x, y int) uint16 { return lin[m.Y[y*m.YStride+x]] }
	case *image.Gray:
		return func(x, y int) uint16 { return lin[m.Pix[y*m.Stride+x]] }
	case *image.RGBA:
		return func(x, y int) uint16 {
			p := m.Pix[y*m.Stride+4*x:]
			return mix(lin[p[0]], lin[p[1]], lin[p[2]])
		}
	case *image.NRGBA:
		return func(x, y int) uint16 {
			p := m.Pix[y*m.Stride+4*x:]
			return mix(lin[p[0]], lin[p[1]], lin[p[2]])
		}
	case *image.Paletted:
		var colours [256]uint16
		for i, c := range m.Palette {
			colours[i&255] = lightOf(c)
		}
		return func(x, y int) uint16 { return colours[m.Pix[y*m.Stride+x]] }
	}
	low := m.Bounds().Min
	return func(x, y int) uint16 { return lightOf(m.At(low.X+x, low.Y+y)) }
}

func lightOf(c color.Color) uint16 { //nolint:misspell // as the library spells it
	r, g, b, _ := c.RGBA()
	lin := func(v uint32) uint16 { return uint16(math.Round(White * decoded(float64(v)/0xffff))) }
	return mix(lin(r), lin(g), lin(b))
}

// Shrink gives the plane n times smaller, each pixel the mean of n x n. What is
// left over at the right and at the bottom is dropped.
func (p Plane) Shrink(n int) Plane {
	if n <= 1 {
		return p
	}
	q := Plane{W: p.W / n, H: p.H / n}
	q.Pix = make([]uint16, q.W*q.H)
	sums := make([]uint32, q.W)
	area := uint32(n * n)
	for y := range q.H {
		clear(sums)
		for k := range n {
			row := p.Pix[(y*n+k)*p.W:]
			for x := range sums {
				for i := range n {
					sums[x] += uint32(row[x*n+i])
				}
			}
		}
		out := q.Pix[y*q.W:]
		for x, s := range sums {
			out[x] = uint16((s + area/2) / area)
		}
	}
	return q
}

// At gives the light at a place, between pixels on the straight line from centre
// to centre; outside the picture that of the nearest pixel.
func (p Plane) At(x, y float64) float64 {
	x, y = x-0.5, y-0.5
	x = min(max(x, 0), float64(p.W-1))
	y = min(max(y, 0), float64(p.H-1))
	i, j := min(int(x), p.W-2), min(int(y), p.H-2)
	u, v := x-float64(i), y-float64(j)
	row, next := p.Pix[j*p.W+i:], p.Pix[(j+1)*p.W+i:]
	above := float64(row[0]) + float64(u*(float64(row[1])-float64(row[0])))
	below := float64(next[0]) + float64(u*(float64(next[1])-float64(next[0])))
	return above + float64(v*(below-above))
}

// Inside tells whether a place lies in the picture with a margin.
func (p Plane) Inside(x, y, margin float64) bool {
	return x >= margin && y >= margin && x <= float64(p.W)-margin && y <= float64(p.H)-margin
}
