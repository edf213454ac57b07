package shape_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// traced gives edges with one allowance.
func traced(o shape.Outline, a unit.Length) []shape.TracedEdge {
	out := make([]shape.TracedEdge, len(o.Edges()))
	for i := range out {
		out[i].Allowance = a
	}
	return out
}

// The four ways round the corners of a panel of 20 x 16 in with half an inch
// (derived): the cut area, what is dropped at each corner, and the panel of
// 21 x 17 in that is left each time.
func TestCornersRestored(t *testing.T) {
	o, err := shape.Rectangle(20*unit.Inch, 16*unit.Inch)
	require.NoError(t, err)
	for _, c := range []struct {
		style       shape.Corner
		area        float64
		count       int
		length, tol float64
	}{
		{shape.MitredCorner, 357, 0, 0, 0},
		{shape.ClippedCorner, 356.5, 4, 0.707107, 1e-6},
		{shape.SquareCorner, 356.828427, 4, 0.414214, 1e-6},
		{shape.RoundCorner, 356.785398, 4, math.Pi / 4, 0.01},
	} {
		t.Run(c.style.String(), func(t *testing.T) {
			cut, err := tracedCut(o, shape.OffsetOptions{Corner: c.style}, []unit.Length{unit.Inch / 2, unit.Inch / 2, unit.Inch / 2, unit.Inch / 2})
			require.NoError(t, err)
			assert.InDelta(t, c.area, cut.Area().SquareInches(), 0.02)
			r, err := cut.Restored(traced(cut, unit.Inch/2))
			require.NoError(t, err)
			assert.Equal(t, 357*unit.SquareInch, r.Outline.Area())
			assert.ElementsMatch(t, o.Edges(), r.Outline.Edges())
			assert.Len(t, r.Corners, c.count)
			for _, x := range r.Corners {
				assert.Equal(t, c.style, x.Style)
				assert.InDelta(t, c.length, x.Length.Inches(), c.tol)
			}
		})
	}
}

// A clip between allowances of 3 and 1/2 in is 3.041381 in long (derived).
func TestUnequalClipRestored(t *testing.T) {
	o, err := shape.Rectangle(20*unit.Inch, 16*unit.Inch)
	require.NoError(t, err)
	by := []unit.Length{3 * unit.Inch, unit.Inch / 2, unit.Inch / 2, unit.Inch / 2}
	cut, err := tracedCut(o, shape.OffsetOptions{Corner: shape.ClippedCorner}, by)
	require.NoError(t, err)
	edges := traced(cut, unit.Inch/2)
	for i, name := range cut.Edges() {
		if name == "bottom" {
			edges[i].Allowance = 3 * unit.Inch
		}
	}
	r, err := cut.Restored(edges)
	require.NoError(t, err)
	require.Len(t, r.Corners, 4)
	most := unit.Length(0)
	for _, x := range r.Corners {
		most = max(most, x.Length)
	}
	assert.InDelta(t, 3.041381, most.Inches(), 1e-6)
	assert.Equal(t, 21*195*unit.SquareInch/10, r.Outline.Area())
}

// A corner rounded with 1/4 in where the allowance is 1/2 in is taken as sharp,
// and off by (s - r)(sqrt 2 - 1) = 0.103553 in when it is cut round again
// (derived).
func TestCornerRoundedByTheKnife(t *testing.T) {
	o, err := shape.RoundedRectangle(10*unit.Inch, 10*unit.Inch, shape.SameRadii(unit.Inch/4))
	require.NoError(t, err)
	r, err := o.Restored(traced(o, unit.Inch/2))
	require.NoError(t, err)
	assert.Equal(t, 100*unit.SquareInch, r.Outline.Area())
	require.Len(t, r.Corners, 4)
	for _, x := range r.Corners {
		assert.InDelta(t, 0.103553, x.Off.Inches(), 1e-6)
	}
	assert.Equal(t, []string{"bottom", "right", "top", "left"}, r.Outline.Edges())

	kept := traced(o, unit.Inch/2)
	for i := range kept {
		kept[i].Kept = true
	}
	r, err = o.Restored(kept)
	require.NoError(t, err)
	assert.Empty(t, r.Corners)
	assert.Equal(t, o.Area(), r.Outline.Area())
}

// A long bevel is an edge, unless it is said to be the cut of a corner.
func TestBevelKept(t *testing.T) {
	o, err := shape.Polygon(inchesAt(t, 0, 0, 20, 0, 20, 14, 18, 16, 0, 16)...)
	require.NoError(t, err)
	r, err := o.Restored(traced(o, unit.Inch/2))
	require.NoError(t, err)
	assert.Empty(t, r.Corners)
	edges := traced(o, unit.Inch/2)
	edges[2].Corner = true
	r, err = o.Restored(edges)
	require.NoError(t, err)
	require.Len(t, r.Corners, 1)
	assert.Equal(t, shape.MitredCorner, r.Corners[0].Style)
	assert.Equal(t, 320*unit.SquareInch, r.Outline.Area())
}

// Nicks 1/4 in deep are taken out of their edges, and their places said; a
// notch an inch wide is part of the panel.
func TestNicks(t *testing.T) {
	p := func(x, y float64) shape.Point { return inchesAt(t, x, y)[0] }
	o, err := shape.TraceFrom(p(0, 0)).Edge("front").Line(p(6, 0)).Line(p(6.125, .25)).Line(p(6.25, 0)).Line(p(20, 0)).
		Edge("side").Line(p(20, 7)).Line(p(19.5, 7.5)).Line(p(20, 8)).Line(p(20, 16)).
		Edge("back").Line(p(10, 16)).Line(p(9.9, 15.75)).Line(p(9.8, 16)).Line(p(5, 16)).Line(p(4.9, 15.75)).Line(p(4.8, 16)).Line(p(0, 16)).
		Edge("left").Line(p(0, 0)).Close()
	require.NoError(t, err)
	r, err := o.Restored(traced(o, unit.Inch/2))
	require.NoError(t, err)
	require.Len(t, r.Nicks, 3)
	assert.Equal(t, shape.Nick{Edge: "front", At: p(6.125, 0), Depth: unit.Inch / 4}, r.Nicks[0])
	assert.Equal(t, "back", r.Nicks[1].Edge)
	assert.InDelta(t, 319.75, r.Outline.Area().SquareInches(), 1e-6)
	require.Len(t, r.Hollows, 1, "the point of the wide notch")
	assert.Equal(t, p(19.5, 7.5), r.Hollows[0].At)
}

// Fields of the wrong size are refused.
func TestRestoredRefused(t *testing.T) {
	o, err := shape.Rectangle(20*unit.Inch, 16*unit.Inch)
	require.NoError(t, err)
	for field, edges := range map[string][]shape.TracedEdge{
		"edges":              nil,
		"edges[1].allowance": {{}, {Allowance: -1 * unit.Inch}, {}, {}},
		"edges[2].corner":    {{}, {}, {Kept: true, Corner: true}, {}},
	} {
		_, err := o.Restored(edges)
		var in *unit.InputError
		require.ErrorAs(t, err, &in)
		assert.Equal(t, unit.Path(field), in.Field)
	}
	_, err = shape.Outline{}.Restored(nil)
	require.ErrorIs(t, err, unit.ErrRequired)
}
