package allowance_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

func oldCut(a unit.Length) allowance.OldEdge { return allowance.OldEdge{Allowance: a} }

// Every line of an old edge, and the finished panel of 20 x 16 in behind it: cut
// and staples lie outside, stitches and folds are the finished line (derived).
func TestOldLines(t *testing.T) {
	in := unit.Inch
	o, err := shape.Rectangle(21*in, 37*in/2)
	require.NoError(t, err)
	got, err := allowance.Ripped{OldEdge: oldCut(in / 2), Edges: map[string]allowance.OldEdge{
		"bottom": {Line: allowance.OldStaples, Allowance: 5 * in / 2}, "top": {Line: allowance.OldFold},
	}}.Finished(o)
	require.NoError(t, err)
	assert.Equal(t, 20*in, got.Width)
	assert.Equal(t, 16*in, got.Height)
	// Both sides are off by 1/16 in: 2 sqrt(2) 0.0361 in.
	assert.InDelta(t, 0.10206, got.WidthWithin.Inches(), 1e-5)

	cut, err := allowance.Panel{Outline: got.Outline, Edges: map[string]allowance.Edge{"bottom": {Finish: allowance.PullOver}}}.Cut()
	require.NoError(t, err)
	pull, _ := allowance.PullOver.Default()
	assert.Equal(t, 21*in, cut.Width)
	assert.Equal(t, 33*in/2+pull, cut.Height)
}

// From 85 % to 115 % of the length on the panel a frame has stretched it.
func TestFrameAtItsBorders(t *testing.T) {
	in := unit.Inch
	for _, frame := range []unit.Length{17 * in, 20 * in, 23 * in} {
		got, err := allowance.Ripped{OldEdge: oldCut(in / 2), Frame: []allowance.FrameMeasure{{Panel: 20 * in, Frame: frame}}}.Finished(sure(shape.Rectangle(20*in, 16*in)))
		require.NoError(t, err)
		w, _ := got.Outline.Size()
		assert.InDelta(t, frame.Inches()*19/20, w.Inches(), 1e-4)
	}
}

// Two measures of the frame are square to each other wherever they start.
func TestFrameSquareMeasures(t *testing.T) {
	in := unit.Inch
	for directions, ok := range map[[2]unit.Angle]bool{{0, 90}: true, {30, 120}: true, {120, 30}: true, {30, 60}: false, {30, 150}: false, {45, 135}: true, {45, 45}: false} {
		var frame []allowance.FrameMeasure
		for _, d := range directions {
			frame = append(frame, allowance.FrameMeasure{Direction: d * unit.Degree, Panel: 12 * in, Frame: 12 * in})
		}
		_, err := allowance.Ripped{OldEdge: oldCut(in / 2), Frame: frame}.Finished(sure(shape.Rectangle(20*in, 20*in)))
		if ok {
			require.NoError(t, err, directions)
			continue
		}
		require.ErrorContains(t, err, "frame[1].direction", directions)
	}
}

// What cannot be right is refused at its field.
func TestRippedRefused(t *testing.T) {
	in := unit.Inch
	o, err := shape.Rectangle(20*in, 16*in)
	require.NoError(t, err)
	lop, err := shape.Polygon(corner(0, 0), corner(20, 0), corner(18, 16), corner(0, 16))
	require.NoError(t, err)
	far := sure(o.Moved(shape.Point{X: 50*unit.Metre - 20*in}))
	half := oldCut(in / 2)
	pair := func(direction unit.Angle, panel, frame unit.Length) allowance.FrameMeasure {
		return allowance.FrameMeasure{Direction: direction, Panel: panel, Frame: frame}
	}
	axis := []shape.Point{corner(10, 0), corner(10, 1)}
	for name, c := range map[string]struct {
		o     shape.Outline
		r     allowance.Ripped
		field unit.Path
		kind  error
	}{
		"nothing":       {shape.Outline{}, allowance.Ripped{}, "outline", unit.ErrRequired},
		"no allowance":  {o, allowance.Ripped{}, "allowance", unit.ErrRequired},
		"staples":       {o, allowance.Ripped{OldEdge: half, Edges: map[string]allowance.OldEdge{"top": {Line: allowance.OldStaples}}}, "edges.top.allowance", unit.ErrRequired},
		"stitches":      {o, allowance.Ripped{OldEdge: allowance.OldEdge{Line: allowance.OldStitches, Allowance: in}}, "allowance", unit.ErrRange},
		"no such edge":  {o, allowance.Ripped{OldEdge: half, Edges: map[string]allowance.OldEdge{"front": half}}, "edges", unit.ErrUnknown},
		"too wide":      {o, allowance.Ripped{OldEdge: oldCut(8 * in)}, "outline", shape.ErrNothingLeft},
		"notch":         {o, allowance.Ripped{OldEdge: half, Notches: []allowance.Notch{{Edge: "top", At: 30 * in}}}, "notches[0].at", unit.ErrRange},
		"notch nowhere": {o, allowance.Ripped{OldEdge: half, Notches: []allowance.Notch{{Edge: "front", At: in}}}, "notches[0].edge", unit.ErrUnknown},
		"narrow frame":  {o, allowance.Ripped{OldEdge: half, Frame: []allowance.FrameMeasure{pair(0, 20*in, 17*in-1)}}, "frame[0].frame", unit.ErrRange},
		"wide frame":    {o, allowance.Ripped{OldEdge: half, Frame: []allowance.FrameMeasure{pair(0, 20*in, 23*in+1)}}, "frame[0].frame", unit.ErrRange},
		"wrong pair":    {o, allowance.Ripped{OldEdge: half, Frame: []allowance.FrameMeasure{pair(0, 18*in, 14*in)}}, "frame[0].frame", unit.ErrRange},
		"short pair":    {o, allowance.Ripped{OldEdge: half, Frame: []allowance.FrameMeasure{pair(0, 6*in, 6*in)}}, "frame[0].panel", unit.ErrRange},
		"oblique pairs": {o, allowance.Ripped{OldEdge: half, Frame: []allowance.FrameMeasure{pair(0, 18*in, 18*in), pair(60*unit.Degree, 18*in, 18*in)}}, "frame[1].direction", unit.ErrRange},
		"three pairs":   {o, allowance.Ripped{OldEdge: half, Frame: make([]allowance.FrameMeasure, 3)}, "frame", unit.ErrRange},
		"one point":     {o, allowance.Ripped{OldEdge: half, Halves: &allowance.OldHalves{Axis: axis[:1]}}, "halves.axis", unit.ErrRange},
		"halves":        {lop, allowance.Ripped{OldEdge: half, Halves: &allowance.OldHalves{Axis: axis}}, "halves", allowance.ErrHalvesDiffer},
		"far axis":      {o, allowance.Ripped{OldEdge: half, Halves: &allowance.OldHalves{Axis: []shape.Point{{X: 2000 * unit.Metre}, corner(10, 1)}}}, "halves.axis[0].outline", unit.ErrRange},
		"far top":       {o, allowance.Ripped{OldEdge: half, Halves: &allowance.OldHalves{Axis: []shape.Point{corner(10, 0), {X: 2000 * unit.Metre}}}}, "halves.axis[1].outline", unit.ErrRange},
		"far frame":     {far, allowance.Ripped{OldEdge: allowance.OldEdge{Line: allowance.OldFold}, Frame: []allowance.FrameMeasure{pair(0, 18*in, 19*in)}}, "frame.outline", unit.ErrRange},
		"no axis":       {o, allowance.Ripped{OldEdge: half, Halves: &allowance.OldHalves{Axis: []shape.Point{corner(10, 0), corner(10, 0)}}}, "halves.axis[1]", unit.ErrRange},
		"tolerance":     {o, allowance.Ripped{OldEdge: half, Tolerance: 20 * unit.Millimetre}, "tolerance", unit.ErrRange},
		"sigma":         {o, allowance.Ripped{OldEdge: half, Sigma: -1 * in}, "sigma", unit.ErrRange},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := c.r.Finished(c.o)
			require.ErrorIs(t, err, c.kind)
			var bad *unit.InputError
			require.ErrorAs(t, err, &bad)
			assert.Equal(t, c.field, bad.Field)
		})
	}
}

// A panel that stretched from 20 to 21 in across and from 15.5 to 15.6 along is
// brought back by factors of .952381 and .993590; those of one measure leave the other way
// alone (derived).
func TestStretchedPanel(t *testing.T) {
	in := unit.Inch
	o, err := shape.Rectangle(22*in, 166*in/10) // 21 x 15.6 and its allowances
	require.NoError(t, err)
	r := allowance.Ripped{OldEdge: oldCut(in / 2), Frame: []allowance.FrameMeasure{
		{Panel: 21 * in, Frame: 20 * in}, {Direction: 90 * unit.Degree, Panel: 156 * in / 10, Frame: 155 * in / 10},
	}}
	got, err := r.Finished(o)
	require.NoError(t, err)
	assert.InDelta(t, 20, got.Width.Inches(), 1e-7)
	assert.InDelta(t, 15.5, got.Height.Inches(), 1e-7)
	assert.InDelta(t, 0.952381, float64(got.Frame[0].Factor), 1e-6)
	assert.InDelta(t, 0.993590, float64(got.Frame[1].Factor), 1e-6)
	assert.InDelta(t, 0.0361*1.414214/21, float64(got.Frame[0].Sigma), 1e-5)
	assert.Greater(t, got.WidthWithin, 3*in/32)

	r.Frame = r.Frame[:1]
	got, err = r.Finished(o)
	require.NoError(t, err)
	assert.Equal(t, 156*in/10, got.Height)
}

// Nicks and notches keep their share of the edge: on an arc of 10 in with 1/2 in
// allowance, 9 in along is 9 (9.5 / 10) in along the finished one (derived).
func TestOldNotchesCarried(t *testing.T) {
	in := unit.Inch
	o, err := shape.TraceFrom(corner(10, 0)).Edge("round").Arc(corner(-10, 0), 10*in).Edge("front").
		Line(corner(-2, 0)).Line(shape.Point{X: -15 * in / 8, Y: in / 4}).Line(shape.Point{X: -7 * in / 4}).Line(corner(10, 0)).Close()
	require.NoError(t, err)
	r := allowance.Ripped{OldEdge: oldCut(in / 2), Edges: map[string]allowance.OldEdge{"front": {Line: allowance.OldStitches}, "round": oldCut(in / 2)},
		Notches: []allowance.Notch{{Edge: "round", At: 9 * in}}}
	got, err := r.Finished(o)
	require.NoError(t, err)
	require.Len(t, got.Notches, 2)
	assert.Equal(t, "round", got.Notches[0].Edge)
	l, err := got.Outline.EdgeLength("round")
	require.NoError(t, err)
	assert.InDelta(t, 9*0.95, float64(got.Notches[0].Share)*l.Inches(), 1e-4)
	assert.Equal(t, "front", got.Notches[1].Edge)
	assert.Equal(t, in/4, got.Notches[1].Depth)

	p, err := got.Marked(allowance.Panel{Notches: []allowance.Notch{{Edge: "front", At: in}}})
	require.NoError(t, err)
	require.Len(t, p.Notches, 3)
	cut, err := p.Cut()
	require.NoError(t, err)
	assert.InDelta(t, -15.0/8, cut.Notches[2].Seam.X.Inches(), 1e-5)
}

// What was done is said, with how much it is.
func TestRippedWords(t *testing.T) {
	in := unit.Inch
	o, err := shape.Polygon(corner(1, 0), corner(21, 0), corner(20, 17), corner(0, 17))
	require.NoError(t, err)
	got, err := allowance.Ripped{OldEdge: oldCut(in / 2), Halves: &allowance.OldHalves{Take: shape.RightHalf, Axis: []shape.Point{corner(10, 0), corner(10, 1)}},
		Frame: []allowance.FrameMeasure{{Panel: 18 * in, Frame: 17 * in}}}.Finished(o)
	require.NoError(t, err)
	words := got.Words(func(l unit.Length) string { return l.Decimal(in, 2, unit.Nearest) })
	require.Len(t, words, 4)
	assert.Contains(t, words[0], "19 times of 20")
	assert.Contains(t, words[1], "had stretched: brought to 94.44 %")
	assert.Contains(t, words[2], "made from the right one")
	assert.True(t, got.Caution())
	// The mean lies half way between two halves, which are as far apart as twice that.
	half := func(taken shape.HalfTaken, share unit.Ratio) []string {
		return allowance.Recovered{Halves: &shape.Halves{Taken: taken, Most: in / 2, Edge: "top", Share: share, RMS: in / 4}}.
			Words(func(l unit.Length) string { return l.Decimal(in, 2, unit.Nearest) })
	}
	assert.Contains(t, half(shape.BothHalves, 0), "The two halves are made their mean: each was off it by up to 0.50 in at top, 0.00 % of the width, and 0.25 in in the mean.")
	assert.Contains(t, half(shape.RightHalf, 0), "Both halves are made from the right one: the two were up to 1.00 in apart at top.")
	assert.Contains(t, half(shape.LeftHalf, 0), "Both halves are made from the left one: the two were up to 1.00 in apart at top.")
	assert.Len(t, half(shape.BothHalves, 0.01), len(half(shape.BothHalves, 0))+1, "halves that differ much are to be looked at")
}

// Halves that are off their mean by 2 % of the width are made it, and by more are
// not: of 9.6 and 10.4 in either side of the axis that is 0.4 of 20 in (derived).
func TestHalvesAtTheirLimit(t *testing.T) {
	in := unit.Inch
	for more, ok := range map[unit.Length]bool{0: true, in / 1000: false} {
		o, err := shape.Polygon(corner(0, 0), shape.Point{X: 20*in + more}, shape.Point{X: 20*in + more, Y: 16 * in}, corner(0, 16))
		require.NoError(t, err)
		axis := []shape.Point{{X: 96 * in / 10}, {X: 96 * in / 10, Y: 16 * in}}
		_, err = allowance.Ripped{OldEdge: allowance.OldEdge{Line: allowance.OldFold}, Halves: &allowance.OldHalves{Axis: axis}}.Finished(o)
		if ok {
			require.NoError(t, err)
			continue
		}
		require.ErrorIs(t, err, allowance.ErrHalvesDiffer)
	}
}

// A corner of 1/2 in allowances that was clipped 1/2 in either way is made sharp,
// also where it is said to be one; as an edge by name it stays. Its cut is 0.7071 in.
func TestOldCornersDropped(t *testing.T) {
	in := unit.Inch
	o, err := shape.Polygon(corner(0, 0), corner(21, 0), corner(21, 16.5), corner(20.5, 17), corner(0, 17))
	require.NoError(t, err)
	bevel := o.Edges()[2]
	for name, r := range map[string]struct {
		edges map[string]allowance.OldEdge
		cut   bool
	}{
		"found": {nil, true},
		"given": {map[string]allowance.OldEdge{bevel: {Line: allowance.OldCorner}}, true},
		"kept":  {map[string]allowance.OldEdge{bevel: oldCut(in / 2)}, false},
	} {
		got, err := allowance.Ripped{OldEdge: oldCut(in / 2), Edges: r.edges}.Finished(o)
		require.NoError(t, err, name)
		assert.Equal(t, [2]unit.Length{20 * in, 16 * in}, [2]unit.Length{got.Width, got.Height}, name)
		if !r.cut {
			assert.Empty(t, got.Corners, name)
			assert.Len(t, got.Outline.Edges(), 5, name)
			continue
		}
		require.Len(t, got.Corners, 1, name)
		assert.InDelta(t, 0.70711, got.Corners[0].Length.Inches(), 1e-5, name)
		assert.Equal(t, shape.ClippedCorner, got.Corners[0].Style, name)
		assert.Len(t, got.Outline.Edges(), 4, name)
	}
}

// Corners, notches and the frame are told by what there is of them.
func TestRippedWordsOfEach(t *testing.T) {
	in := unit.Inch
	words := func(r allowance.Recovered) []string {
		return r.Words(func(l unit.Length) string { return l.Decimal(in, 2, unit.Nearest) })[1:]
	}
	mitred := shape.CornerCut{First: "a", Second: "b", Style: shape.MitredCorner, Length: in}
	clipped := shape.CornerCut{First: "b", Second: "c", Style: shape.ClippedCorner, Length: in / 2}
	notch := allowance.OldNotch{Edge: "top", Share: 0.25}
	for want, r := range map[string]allowance.Recovered{
		"Dropped 1 corner cut: a/b (1.00 in). A true bevel of that length looks the same.":                                          {Corners: []shape.CornerCut{mitred}},
		"Dropped 2 corner cuts: a/b (1.00 in), b/c (clipped, 0.50 in). A true bevel of that length looks the same.":                 {Corners: []shape.CornerCut{mitred, clipped}},
		"Corner a/b was rounded by the knife; taken as sharp. Cut round again it is off by 0.25 in.":                                {Corners: []shape.CornerCut{{First: "a", Second: "b", Off: in / 4}}},
		"1 old notch kept: top at 25 % of the edge.":                                                                                {Notches: []allowance.OldNotch{notch}},
		"2 old notches kept: top at 25 %, top at 25 % of the edge.":                                                                 {Notches: []allowance.OldNotch{notch, notch}},
		"The panel had shrunk: brought to 102.00 % of its length at 0 deg from across, within 1.00 % either way, 19 times of 20.":   {Frame: []allowance.FrameFit{{Factor: 1.02, Sigma: 0.005}}},
		"The panel had stretched: brought to 98.00 % of its length at 0 deg from across, within 1.00 % either way, 19 times of 20.": {Frame: []allowance.FrameFit{{Factor: 0.98, Sigma: 0.005}}},
		"The panel had neither stretched nor shrunk at 0 deg from across, within 1.00 % either way, 19 times of 20.":                {Frame: []allowance.FrameFit{{Factor: 1, Sigma: 0.005}}},
	} {
		assert.Equal(t, []string{want}, words(r))
	}
	assert.Len(t, words(allowance.Recovered{Halves: &shape.Halves{Share: 0.005}}), 1, "halves at half a per cent need no look")
}

// Old notches need a panel whose fit can be made.
func TestMarkedRefuses(t *testing.T) {
	o, err := shape.Rectangle(20*unit.Inch, 16*unit.Inch)
	require.NoError(t, err)
	r := allowance.Recovered{Outline: o, Notches: []allowance.OldNotch{{Edge: "top", Share: 0.5}}}
	_, err = r.Marked(allowance.Panel{Across: allowance.Stretch{TakeOut: 0.9}})
	require.ErrorContains(t, err, "across.take_out")
	r.Notches[0].Edge = "front"
	_, err = r.Marked(allowance.Panel{})
	require.ErrorIs(t, err, unit.ErrUnknown)
	r.Notches = nil
	_, err = r.Marked(allowance.Panel{Across: allowance.Stretch{TakeOut: 0.9}})
	require.NoError(t, err)
}

// The cut of a corner is no edge, so that it holds neither a notch nor a nick: of
// 1 in allowances one of 1 in either way, with a nick of 1/8 in in its middle.
func TestNotchOfACorner(t *testing.T) {
	in := unit.Inch
	trace := func(nick bool) shape.Outline {
		tr := shape.TraceFrom(shape.Point{}).Edge("bottom").Line(corner(22, 0)).Edge("right").Line(corner(22, 17)).Edge("bevel")
		if nick {
			tr.Line(corner(21.57, 17.43)).Line(corner(21.41, 17.41)).Line(corner(21.43, 17.57))
		}
		return sure(tr.Line(corner(21, 18)).Edge("top").Line(corner(0, 18)).Edge("left").Close())
	}
	bevel := map[string]allowance.OldEdge{"bevel": {Line: allowance.OldCorner}}
	got, err := allowance.Ripped{OldEdge: oldCut(in), Edges: bevel}.Finished(trace(false))
	require.NoError(t, err)
	assert.Equal(t, []string{"bottom", "right", "top", "left"}, got.Outline.Edges())
	_, err = allowance.Ripped{OldEdge: oldCut(in), Edges: bevel, Notches: []allowance.Notch{{Edge: "bevel", At: in / 2}}}.Finished(trace(false))
	require.ErrorContains(t, err, "notches[0].edge")
	_, err = allowance.Ripped{OldEdge: oldCut(in), Edges: bevel}.Finished(trace(true))
	require.ErrorContains(t, err, "outline.edge")
}
