package main

import (
	"bytes"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/examples/trace/internal/scene"
	"github.com/coverwright/coverwright/unit"
)

func at(x, y float64) shape.Point {
	return shape.Point{X: unit.Length(math.Round(x * 1e6)), Y: unit.Length(math.Round(y * 1e6))}
}

func mm(x float64) unit.Length { return unit.Length(math.Round(x * 1e6)) }

// insideBack is an inside back, 600 mm wide: straight below and on the left, hollow
// on the right, crowned. Its middle is about the origin.
func insideBack(t testing.TB) shape.Outline {
	o, err := shape.TraceFrom(at(-300, -205)).Edge("bottom").Line(at(300, -205)).
		Edge("right").Cubic(at(255, -75), at(255, 45), at(290, 165)).
		Edge("top").Arc(at(-290, 165), mm(40)).Edge("left").Line(at(-300, -205)).Close()
	require.NoError(t, err)
	return o
}

// arm is an inside arm, 360 mm long, with a hollow corner.
func arm(t testing.TB) shape.Outline {
	o, err := shape.TraceFrom(at(-180, -120)).Edge("bottom").Line(at(180, -120)).Edge("front").Line(at(170, 90)).
		Edge("top").Cubic(at(110, 130), at(20, 90), at(-60, 85)).Edge("notch").Line(at(-60, 20)).Line(at(-170, 10)).
		Edge("back").Line(at(-180, -120)).Close()
	require.NoError(t, err)
	return o
}

// seat is round in front.
func seat(t testing.TB) shape.Outline {
	o, err := shape.TraceFrom(at(-160, 140)).Edge("left").Line(at(-170, -60)).Edge("front").Cubic(at(-150, -170), at(150, -170), at(170, -60)).
		Edge("right").Line(at(160, 140)).Edge("back").Line(at(-160, 140)).Close()
	require.NoError(t, err)
	return o
}

func moved(t testing.TB, o shape.Outline, x, y float64) shape.Outline {
	o, err := o.Moved(at(x, y))
	require.NoError(t, err)
	return o
}

// kinds of scenes.
const (
	twoPages = iota
	twoPagesDark
	fourPages
	threePanels
	kinds
)

// trial is a scene with its camera.
type trial struct {
	scene  scene.Scene
	camera scene.Camera
}

// drawTrial draws a scene of a kind and a camera of so many megapixels.
func drawTrial(t testing.TB, r *rand.Rand, kind int, megapixels float64) trial {
	tone := func(low, high float64) scene.Tone {
		return scene.Tone{Light: low + (high-low)*r.Float64(), Cb: 16*r.Float64() - 8, Cr: 16*r.Float64() - 8}
	}
	jitter := func(size float64) float64 { return size * (2*r.Float64() - 1) }
	sheet := func(x, y float64) scene.Sheet {
		return scene.Sheet{X: x + jitter(8), Y: y + jitter(20), Turn: jitter(4)}
	}
	light, dark := tone(0.4, 0.85), tone(0.02, 0.12)
	s := scene.Scene{Ground: light}
	panel := func(o shape.Outline, x, y float64, t0 scene.Tone) {
		s.Panels = append(s.Panels, scene.Panel{Outline: moved(t, o, x, y), Tone: t0})
	}
	switch kind {
	case twoPages, twoPagesDark:
		if kind == twoPagesDark {
			s.Ground, dark = dark, light
		}
		panel(insideBack(t), 0, 0, dark)
		s.Sheets = []scene.Sheet{sheet(-555, -150), sheet(345, -150)}
	case fourPages:
		if r.IntN(2) == 0 {
			s.Ground, dark = dark, light
		}
		panel(insideBack(t), 0, 0, dark)
		s.Sheets = []scene.Sheet{sheet(-555, -340), sheet(345, -340), sheet(-555, 40), sheet(345, 40)}
	case threePanels:
		s.Ground = tone(0.25, 0.35)
		panel(insideBack(t), 0, 250, tone(0.6, 0.85))
		panel(arm(t), -210, -150, dark)
		panel(seat(t), 220, -150, tone(0.02, 0.1))
		s.Sheets = []scene.Sheet{sheet(-640, -300), sheet(430, -300), sheet(-640, 90), sheet(430, 90)}
	}
	h := math.Sqrt(megapixels * 1e6 * 3 / 4)
	w, tall := int(h*4/3/8)*8, int(h/8)*8
	c, err := scene.Random(r, w, tall, s)
	require.NoError(t, err)
	return trial{s, c}
}

// photoOf takes the picture and gives the file.
func (tr trial) photo(t testing.TB) []byte {
	m, err := tr.camera.Take(tr.scene)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, &jpeg.Options{Quality: 80}))
	return b.Bytes()
}

// wrongBy is the largest distance of a point of either outline from the other, after
// the best move and turn.
func wrongBy(t testing.TB, is, want shape.Outline) float64 {
	a, b := dots(t, is), dots(t, want)
	for range 30 {
		// The move and turn that bring each point of a nearest to its foot on b.
		var ma, mb spot
		feet := make([]spot, len(a))
		for i, p := range a {
			feet[i] = foot(p, b)
			ma, mb = ma.plus(p, 1/float64(len(a))), mb.plus(feet[i], 1/float64(len(a)))
		}
		var cos, sin float64
		for i, p := range a {
			u, v := p.plus(ma, -1), feet[i].plus(mb, -1)
			cos += u.x*v.x + u.y*v.y
			sin += u.x*v.y - u.y*v.x
		}
		l := math.Hypot(cos, sin)
		cos, sin = cos/l, sin/l
		moved := 0.0
		for i, p := range a {
			u := p.plus(ma, -1)
			a[i] = spot{mb.x + cos*u.x - sin*u.y, mb.y + sin*u.x + cos*u.y}
			moved = max(moved, math.Hypot(a[i].x-p.x, a[i].y-p.y))
		}
		if moved < 0.001 {
			break
		}
	}
	worst := 0.0
	for range 2 {
		for _, p := range a {
			q := foot(p, b)
			worst = max(worst, math.Hypot(p.x-q.x, p.y-q.y))
		}
		a, b = b, a
	}
	return worst
}

// spot is a place in millimetres.
type spot struct{ x, y float64 }

func (p spot) plus(q spot, by float64) spot { return spot{p.x + by*q.x, p.y + by*q.y} }

// dots puts points along an outline, its corners among them.
func dots(t testing.TB, o shape.Outline) []spot {
	points, err := o.Flatten(unit.Millimetre / 100)
	require.NoError(t, err)
	mid := o.Centroid()
	var out []spot
	for i, p := range points {
		q := points[(i+1)%len(points)]
		a := spot{(p.X - mid.X).Millimetres(), (p.Y - mid.Y).Millimetres()}
		b := spot{(q.X - mid.X).Millimetres(), (q.Y - mid.Y).Millimetres()}
		n := max(int(math.Hypot(b.x-a.x, b.y-a.y)/5), 1)
		for k := range n {
			out = append(out, a.plus(b.plus(a, -1), float64(k)/float64(n)))
		}
	}
	return out
}

func foot(p spot, ring []spot) spot {
	best, least := spot{}, math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		u, v := b.plus(a, -1), p.plus(a, -1)
		f := min(max((u.x*v.x+u.y*v.y)/(u.x*u.x+u.y*u.y), 0), 1)
		q := a.plus(u, f)
		if d := (p.x-q.x)*(p.x-q.x) + (p.y-q.y)*(p.y-q.y); d < least {
			best, least = q, d
		}
	}
	return best
}

// result is how far a panel of a trial came out wrong.
type result struct {
	kind   int
	wrong  float64 // of the panel's length
	beyond bool    // further than was stated
}

// measure takes the photo of a trial, reads it, and compares every panel with the
// true outline that is most like it.
func (tr trial) measure(t testing.TB, kind int) []result {
	t.Helper()
	r, _, err := read(bytes.NewReader(tr.photo(t)), settings{})
	require.NoError(t, err, "%+v", tr.camera)
	require.Len(t, r.panels, len(tr.scene.Panels), "%+v", tr.camera)
	var out []result
	found := map[int]bool{}
	for _, p := range r.panels {
		best, which := math.Inf(1), -1
		for i, q := range tr.scene.Panels {
			if d := wrongBy(t, p.outline, q.Outline); d < best {
				best, which = d, i
			}
		}
		require.False(t, found[which], "a panel was read twice")
		found[which] = true
		w, h := tr.scene.Panels[which].Outline.Size()
		// Nobody printed the page, so the scale is true.
		stated := (p.off.Picture + p.fit.Tolerance).Millimetres()
		out = append(out, result{kind, best / max(w, h).Millimetres(), best > stated})
	}
	return out
}

// measureAll measures the trials from one number to another, of all kinds in turn, and
// gives their results in order.
func measureAll(t *testing.T, from, n int, megapixels [kinds][2]float64) []result {
	t.Helper()
	all := make([][]result, n)
	t.Run("photo", func(t *testing.T) {
		for i := from; i < n; i++ {
			t.Run(strconv.Itoa(i), func(t *testing.T) {
				t.Parallel()
				r := rand.New(rand.NewPCG(uint64(i), 77))
				kind := i % kinds
				size := megapixels[kind]
				all[i] = drawTrial(t, r, kind, size[0]+(size[1]-size[0])*r.Float64()).measure(t, kind)
			})
		}
	})
	return slices.Concat(all...)
}
