package shape_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/generate"
	"github.com/coverwright/coverwright/unit"
)

// inchesAt gives corners from pairs of inches.
func inchesAt(t testing.TB, xy ...float64) []shape.Point {
	t.Helper()
	var out []shape.Point
	for i := 0; i < len(xy); i += 2 {
		out = append(out, shape.Point{X: inchesOf(xy[i]), Y: inchesOf(xy[i+1])})
	}
	return out
}

func inchesOf(v float64) unit.Length { return unit.Length(v*25_400_000 + 0.5) }

// Finished and cut corners of three panels, worked out by hand from the meeting
// of neighbouring lines (derived).
func TestInset(t *testing.T) {
	for name, c := range map[string]struct {
		cut, finished []float64
		by            []float64
		area          float64 // finished
	}{
		"tapered": {[]float64{-1.07121314, -3, 21.07121314, -3, 17.41496314, 16.5, 2.58503686, 16.5}, []float64{0, 0, 20, 0, 17, 16, 3, 16}, []float64{3, .5, .5, .5}, 272},
		"L":       {[]float64{-2, -.5, 20.5, -.5, 20.5, 8.5, 12.75, 8.5, 12.75, 16, -2, 16}, []float64{0, 0, 20, 0, 20, 8, 12, 8, 12, 15, 0, 15}, []float64{.5, .5, .5, .75, 1, 2}, 244},
		"square":  {[]float64{-.5, -.5, 20.5, -.5, 20.5, 16.5, -.5, 16.5}, []float64{0, 0, 20, 0, 20, 16, 0, 16}, []float64{.5, .5, .5, .5}, 320},
	} {
		t.Run(name, func(t *testing.T) {
			o, err := shape.Polygon(inchesAt(t, c.cut...)...)
			require.NoError(t, err)
			var by []unit.Length
			for _, v := range c.by {
				by = append(by, inchesOf(v))
			}
			in, err := o.Inset(0, by)
			require.NoError(t, err)
			assert.Equal(t, o.Edges(), in.Edges())
			got, err := in.Flatten(0)
			require.NoError(t, err)
			for i, want := range inchesAt(t, c.finished...) {
				assert.InDelta(t, int64(want.X), int64(got[i].X), 1000)
				assert.InDelta(t, int64(want.Y), int64(got[i].Y), 1000)
			}
			assert.InDelta(t, c.area, float64(in.Area())/float64(unit.SquareInch), 1e-6*c.area)
		})
	}
}

// What a knife leaves nothing of.
func TestInsetRefused(t *testing.T) {
	neck := func(w float64) shape.Outline {
		o, err := shape.Polygon(inchesAt(t, 0, 0, 5, 0, 5, 3-w/2, 8, 3-w/2, 8, 0, 13, 0, 13, 6, 8, 6, 8, 3+w/2, 5, 3+w/2, 5, 6, 0, 6)...)
		require.NoError(t, err)
		return o
	}
	all := func(o shape.Outline, d float64) []unit.Length {
		out := make([]unit.Length, len(o.Edges()))
		for i := range out {
			out[i] = inchesOf(d)
		}
		return out
	}
	in, err := neck(1.2).Inset(0, all(neck(1.2), 0.59))
	require.NoError(t, err)
	assert.InDelta(t, 36.9084, float64(in.Area())/float64(unit.SquareInch), 0.0001)
	disc, err := shape.Circle(unit.Inch)
	require.NoError(t, err)
	strip, err := shape.Rectangle(20*unit.Inch, inchesOf(3.9))
	require.NoError(t, err)
	for name, c := range map[string]struct {
		o             shape.Outline
		by            float64
		kind          error
		first, second string
	}{
		"neck":   {neck(1.2), 0.61, shape.ErrNothingLeft, "side 3", "side 9"},
		"circle": {disc, 0.5, shape.ErrTight, "rim", ""},
		"strip":  {strip, 2, shape.ErrNothingLeft, "bottom", "top"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := c.o.Inset(0, all(c.o, c.by))
			require.ErrorIs(t, err, c.kind)
			var ie *shape.InsetError
			require.ErrorAs(t, err, &ie)
			assert.Equal(t, c.first, ie.First)
			assert.Equal(t, c.second, ie.Second)
		})
	}
}

// The cut line of an outline, moved back, is the outline, but where a cut line
// closed a hollow.
func TestInsetOfCutLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := generate.Outline(t)
		by := map[string]unit.Length{}
		var list, back []unit.Length
		for _, e := range o.Edges() {
			by[e] = rapid.SampledFrom([]unit.Length{0, 6 * unit.Millimetre, unit.Inch / 2, 20 * unit.Millimetre}).Draw(t, "by")
			list = append(list, by[e])
		}
		cut, err := tracedCut(o, shape.OffsetOptions{MitreLimit: 100}, list)
		if err != nil {
			t.Skip("a hollow closed to a hole: ", err)
		}
		for _, e := range cut.Edges() {
			back = append(back, by[e])
		}
		in, err := cut.Inset(0, back)
		if err != nil {
			var ie *shape.InsetError
			require.ErrorAs(t, err, &ie)
			require.False(t, o.Convex(), "%v", err)
			return
		}
		if deviation(t, o, in) > shape.DefaultTolerance {
			require.False(t, o.Convex(), "the cut line of a convex outline is that of no other")
		}
	})
}

// deviation gives how far two outlines are apart.
func deviation(t require.TestingT, a, b shape.Outline) unit.Length {
	p, err := a.Flatten(10 * unit.Micrometre)
	require.NoError(t, err)
	q, err := b.Flatten(10 * unit.Micrometre)
	require.NoError(t, err)
	far, err := shape.Contour{Outer: p}.Deviation(shape.Contour{Outer: q})
	require.NoError(t, err)
	return far
}

// An arc stays an arc, with its radius less or more by the distance.
func TestInsetOfArcs(t *testing.T) {
	o, err := shape.RoundedRectangle(20*unit.Inch, 16*unit.Inch, shape.SameRadii(2*unit.Inch))
	require.NoError(t, err)
	by := make([]unit.Length, len(o.Edges()))
	for i := range by {
		by[i] = unit.Inch / 2
	}
	in, err := o.Inset(0, by)
	require.NoError(t, err)
	want, err := shape.RoundedRectangle(19*unit.Inch, 15*unit.Inch, shape.SameRadii(3*unit.Inch/2))
	require.NoError(t, err)
	assert.Equal(t, want.Area(), in.Area())
	assert.Equal(t, want.Perimeter(), in.Perimeter())
	for _, p := range in.Shape().Trace.Edges {
		assert.Len(t, p.Pieces, 1)
	}
}
