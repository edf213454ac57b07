package contour

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/examples/trace/internal/picture"
)

// The border of a solid part encloses as many pixels as it has, once round, and
// every step of it is one pixel long.
func TestBorder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(4, 14).Draw(t, "w"), rapid.IntRange(4, 14).Draw(t, "h")
		in := make([]bool, w*h)
		for y := 1; y < h-1; y++ {
			for x := 1; x < w-1; x++ {
				in[y*w+x] = rapid.IntRange(0, 2).Draw(t, "on") > 0
			}
		}
		out, holes := solid(in, w, h)
		n, kept := 0, 0
		for i, on := range out {
			if on {
				n++
				if in[i] {
					kept++
				}
			}
		}
		ring := border(out, w, h)
		if n == 0 {
			assert.Empty(t, ring)
			return
		}
		assert.GreaterOrEqual(t, kept, int(float64(n)/(1+holes)-0.5), "holes are what was not there")
		area := 0.0
		for i, a := range ring {
			b := around(ring, i+1)
			assert.InDelta(t, 1, math.Hypot(b.X-a.X, b.Y-a.Y), 0)
			area += (a.X*b.Y - b.X*a.Y) / 2
		}
		assert.InDelta(t, n, area, 0, "with the part on the right as seen, Y down, the area is above nothing")
	})
}

// A ground whose light is a quadratic is found as that, whatever lies on part of it.
func TestGround(t *testing.T) {
	const w, h = 200, 150
	want := ground{30000, 6000, -4000, 1500, 800, -2500}
	p := picture.Plane{W: w, H: h, Pix: make([]uint16, w*h)}
	sure, blank := make([]bool, w*h), make([]bool, w*h)
	for y := range h {
		for x := range w {
			i := y*w + x
			p.Pix[i] = uint16(math.Round(want.at(basis(x, y, w, h))))
			sure[i] = x < 6 || y < 6 || x >= w-6 || y >= h-6
			if x > 60 && x < 150 && y > 40 && y < 110 {
				p.Pix[i] /= 4
			}
			if x > 20 && x < 50 && y > 40 && y < 110 {
				p.Pix[i], blank[i] = 60000, true
			}
		}
	}
	got, ok := groundOf(p, sure, blank)
	require.True(t, ok)
	for i := range want {
		assert.InDelta(t, want[i], got[i], 2)
	}
	_, ok = groundOf(p, make([]bool, w*h), blank)
	assert.False(t, ok, "nothing of it is seen")
}

// An edge of light that a lens has spread by a Gauss curve is found where it is, to three
// hundredths of a pixel, at any place, and its width is that of the curve.
func TestProfile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at, s := rapid.Float64Range(-2, 2).Draw(t, "at"), rapid.Float64Range(0.8, 1.8).Draw(t, "sigma")
		turn := rapid.Float64Range(0, 2*math.Pi).Draw(t, "turn")
		in, out := rapid.Float64Range(0.02, 0.2).Draw(t, "in"), rapid.Float64Range(0.4, 0.9).Draw(t, "out")
		n := Point{math.Cos(turn), math.Sin(turn)}
		const w = 60
		p := picture.Plane{W: w, H: w, Pix: make([]uint16, w*w)}
		for i := range p.Pix {
			x, y := float64(i%w)+0.5-w/2, float64(i/w)+0.5-w/2
			d := x*n.X + y*n.Y - at
			p.Pix[i] = uint16(picture.White * (in + (out-in)*0.5*math.Erfc(-d/s/math.Sqrt2)))
		}
		c := profile(p, Point{w / 2, w / 2}, n, reach)
		require.True(t, c.ok)
		assert.False(t, c.soft)
		assert.InDelta(t, at, c.at, 0.03)
		// A tenth to nine tenths is 2.563 sigma (derived); pixels widen it a little.
		assert.InDelta(t, 2.563*s, c.width, 0.45)
	})
}

// Points are put at equal steps along a ring, and steps that are no part of it are
// dropped while a corner is kept.
func TestEvenAndSteady(t *testing.T) {
	square := []Point{{0, 0}, {100, 0}, {100, 80}, {0, 80}}
	ring := even(square, 2)
	assert.Len(t, ring, 180)
	for i, a := range ring {
		b := around(ring, i+1)
		assert.InDelta(t, 2, math.Hypot(b.X-a.X, b.Y-a.Y), 1e-9)
	}
	assert.Equal(t, ring, steady(ring), "corners stay")
	spoilt := append([]Point(nil), ring...)
	spoilt[20].Y -= 6
	spoilt[100].Y += 4
	assert.Len(t, steady(spoilt), 178)
	assert.InDelta(t, 0, scatter(ring), 1e-9)
}
