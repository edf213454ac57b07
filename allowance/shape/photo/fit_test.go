package photo_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/allowance/shape/photo"
	"github.com/coverwright/coverwright/unit"
)

const mm = unit.Millimetre

func place(x, y float64) shape.Point {
	return shape.Point{X: unit.Length(math.Round(x * 1e6)), Y: unit.Length(math.Round(y * 1e6))}
}

// spaced gives points along an outline, some way apart, with noise square to it.
func spaced(t testing.TB, o shape.Outline, step, noise float64) []shape.Point {
	ring, err := o.Flatten(10 * unit.Micrometre)
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(3, 4))
	var out []shape.Point
	left := 0.0
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		ax, ay := p.X.Millimetres(), p.Y.Millimetres()
		dx, dy := q.X.Millimetres()-ax, q.Y.Millimetres()-ay
		l := math.Hypot(dx, dy)
		for ; left < l; left += step {
			e := noise * rng.NormFloat64()
			out = append(out, place(ax+left/l*dx-e*dy/l, ay+left/l*dy+e*dx/l))
		}
		left -= l
	}
	return out
}

// panel600 is a panel of 600 x 410 mm: straight bottom and left, a hollow right side
// and a crowned top.
func panel600(t testing.TB) shape.Outline {
	o, err := shape.TraceFrom(place(-290, -190)).Edge("bottom").Line(place(300, -190)).
		Edge("right").Cubic(place(255, -60), place(255, 60), place(290, 180)).
		Edge("top").Arc(place(-290, 180), 40*mm).Edge("left").Close()
	require.NoError(t, err)
	return o
}

// within gives the larger of the largest distances from each outline to the other.
func within(t testing.TB, a, b shape.Outline) float64 {
	p, err := a.Flatten(20 * unit.Micrometre)
	require.NoError(t, err)
	q, err := b.Flatten(20 * unit.Micrometre)
	require.NoError(t, err)
	return math.Max(apart(p, q), apart(q, p))
}

func apart(ps, ring []shape.Point) float64 {
	most := 0.0
	for _, p := range ps {
		least := math.Inf(1)
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			dx, dy := (b.X - a.X).Millimetres(), (b.Y - a.Y).Millimetres()
			px, py := (p.X - a.X).Millimetres(), (p.Y - a.Y).Millimetres()
			f := min(1, max(0, (px*dx+py*dy)/(dx*dx+dy*dy)))
			least = min(least, math.Hypot(px-f*dx, py-f*dy))
		}
		most = max(most, least)
	}
	return most
}

func TestFitPanel(t *testing.T) {
	o := panel600(t)
	for _, r := range []struct {
		noise  float64 // mm
		off    float64 // most, mm
		curves int     // at most
	}{{0, .27, 2}, {.02, .3, 3}, {.05, .35, 5}, {.1, .65, 6}} {
		f, report, err := photo.Fit(spaced(t, o, .4, r.noise), photo.FitOptions{Names: []string{"bottom", "right", "top", "left"}})
		require.NoError(t, err)
		assert.Equal(t, []string{"bottom", "right", "top", "left"}, f.Edges())
		assert.Len(t, report.Corners, 4)
		assert.GreaterOrEqual(t, report.Lines, 2)
		assert.LessOrEqual(t, report.Curves, r.curves, "noise %v", r.noise)
		assert.InDelta(t, r.noise, report.Noise.Millimetres(), .05*r.noise+1e-5)
		assert.LessOrEqual(t, report.Worst, report.Tolerance)
		assert.Less(t, within(t, f, o), r.off, "noise %v", r.noise)
	}
}

// A circle of radius 100 mm takes so many curves, its points so far off: the first
// three as another program found them.
func TestFitCircle(t *testing.T) {
	c, err := shape.Circle(200 * mm)
	require.NoError(t, err)
	for _, r := range []struct {
		tolerance unit.Length
		curves    int
		worst     float64
	}{{mm / 2, 4, .374}, {mm / 10, 6, .095}, {3 * mm / 100, 8, .026}, {mm / 100, 11, .0099}} {
		f, report, err := photo.Fit(spaced(t, c, .5, 0), photo.FitOptions{Tolerance: r.tolerance})
		require.NoError(t, err)
		assert.Empty(t, report.Corners[1:])
		assert.Equal(t, r.curves, report.Curves)
		assert.InDelta(t, r.worst, report.Worst.Millimetres(), .01+r.worst/50)
		assert.Less(t, within(t, f, c), 1.1*r.tolerance.Millimetres()+.03) // chords stand for the curves
	}
}
