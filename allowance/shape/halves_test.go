package shape_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/internal/dev/generate"
	"github.com/coverwright/coverwright/unit"
)

// Two halves of an inside back and their mean (derived): the right half has the
// corners (0,0) (9.8,.1) (9.2,8) (6.2,12) (0,13), the left one, turned over,
// (0,0) (10.1,0) (9.4,8.1) (6,12.3) (0,13).
func TestHalvesAveraged(t *testing.T) {
	o, err := shape.Polygon(inchesAt(t, 0, 0, 9.8, .1, 9.2, 8, 6.2, 12, 0, 13, -6, 12.3, -9.4, 8.1, -10.1, 0)...)
	require.NoError(t, err)
	axis := inchesAt(t, 0, -1, 0, 14)
	h, err := o.Halved(axis[0], axis[1], shape.BothHalves)
	require.NoError(t, err)
	assert.InDelta(t, 222.8225, h.Outline.Area().SquareInches(), 1e-5)
	got, err := h.Outline.Flatten(0)
	require.NoError(t, err)
	want := inchesAt(t, 0, 0, 9.95, .05, 9.3, 8.05, 6.1, 12.15, 0, 13, -6.1, 12.15, -9.3, 8.05, -9.95, .05)
	require.Len(t, got, len(want))
	for i := range want {
		assert.InDelta(t, want[i].X.Inches(), got[i].X.Inches(), 1e-7)
		assert.InDelta(t, want[i].Y.Inches(), got[i].Y.Inches(), 1e-7)
	}
	require.Len(t, h.Edges, 4)
	for i, most := range []float64{0.158114, 0.158114, 0.180278, 0.180278} {
		assert.InDelta(t, most, h.Edges[i].Most.Inches(), 1e-6)
	}
	assert.InDelta(t, 0.180278, h.Most.Inches(), 1e-6)
	assert.Equal(t, o.Edges(), h.Outline.Edges())
	assert.InDelta(t, 0.180278/19.9, float64(h.Share), 1e-6)

	right, err := o.Halved(axis[0], axis[1], shape.RightHalf)
	require.NoError(t, err)
	assert.InDelta(t, 2*109.44, right.Outline.Area().SquareInches(), 1e-5)
	left, err := o.Halved(axis[0], axis[1], shape.LeftHalf)
	require.NoError(t, err)
	assert.InDelta(t, 2*113.415, left.Outline.Area().SquareInches(), 1e-5)
}

// The axis of a panel of five corners, turned by 23 degrees, lies at 113 degrees:
// found to a fortieth of a degree (derived).
func TestAxisFound(t *testing.T) {
	sin, cos := math.Sincos(23 * math.Pi / 180)
	var xy []float64
	for _, p := range [][2]float64{{-8, 0}, {8, 0}, {10, 9}, {0, 15}, {-10, 9}} {
		xy = append(xy, 100+p[0]*cos-p[1]*sin, 100+p[0]*sin+p[1]*cos)
	}
	o, err := shape.Polygon(inchesAt(t, xy...)...)
	require.NoError(t, err)
	low, high, err := o.SymmetryAxis()
	require.NoError(t, err)
	assert.InDelta(t, 113, math.Atan2(float64(high.Y-low.Y), float64(high.X-low.X))*180/math.Pi, 0.025)
	h, err := o.Halved(low, high, shape.BothHalves)
	require.NoError(t, err)
	assert.Less(t, h.Share, 0.1*unit.Percent)
}

// The mean of an outline that is its own mirror image is that outline; the mean
// of any is, and stays so when it is taken again.
func TestHalvesLaw(t *testing.T) {
	few.Check(t, 12, func(t *rapid.T) {
		o := generate.Outline(t)
		low, high, err := o.SymmetryAxis()
		require.NoError(t, err)
		h, err := o.Halved(low, high, rapid.SampledFrom([]shape.HalfTaken{shape.BothHalves, shape.RightHalf, shape.LeftHalf}).Draw(t, "taken"))
		if err != nil {
			t.Skip("no two halves: ", err)
		}
		again, err := h.Outline.Halved(low, high, shape.BothHalves)
		if err != nil {
			t.Skip("a corner came within reach of the axis: ", err)
		}
		require.Less(t, again.Most, unit.Micrometre)
		require.Less(t, deviation(t, h.Outline, again.Outline), 20*unit.Micrometre)
	})
}

// An axis that misses the outline, and halves that do not correspond.
func TestHalvedRefused(t *testing.T) {
	o, err := shape.Polygon(inchesAt(t, 0, 0, 20, 0, 20, 5, 18, 6, 20, 7, 20, 16, 0, 16)...)
	require.NoError(t, err)
	for field, p := range map[string][]shape.Point{
		"low":     inchesAt(t, 30, 0, 30, 10),
		"high":    inchesAt(t, 10, 0, 10, 0),
		"outline": inchesAt(t, 10, 0, 10, 10),
	} {
		_, err := o.Halved(p[0], p[1], shape.BothHalves)
		var in *unit.InputError
		require.ErrorAs(t, err, &in)
		assert.Equal(t, unit.Path(field), in.Field)
	}
}

// A panel stretched and brought back is where it was.
func TestStrainedLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := generate.Outline(t)
		a := unit.Angle(rapid.Float64Range(-180, 180).Draw(t, "direction")) * unit.Degree
		k, q := unit.Ratio(rapid.Float64Range(0.85, 1.15).Draw(t, "by")), unit.Ratio(rapid.Float64Range(0.85, 1.15).Draw(t, "square"))
		s, err := o.Strained(a, k, q)
		require.NoError(t, err)
		require.InEpsilon(t, float64(o.Area())*float64(k*q), float64(s.Area()), 1e-6)
		before, err := o.Extent(a)
		require.NoError(t, err)
		after, err := s.Extent(a)
		require.NoError(t, err)
		// Each extent is that of chords, up to a tolerance inside the line at both ends.
		require.InDelta(t, float64(before)*float64(k), float64(after), float64(3*shape.DefaultTolerance))
	})
}
