package pattern

import (
	"encoding/json"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// A half and its mirror image about the fold are the whole, point for point.
func TestHalfAndItsImageAreTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// The left half of a star, from the head round to the foot, then its image.
		n := rapid.IntRange(1, 12).Draw(t, "corners")
		wide, high := length(10, 900).Draw(t, "wide"), length(10, 900).Draw(t, "high")
		var left, right []shape.Point
		for i := range n {
			a := math.Pi/2 + math.Pi*float64(i+1)/float64(n+1)
			r := rapid.Float64Range(0.2, 1).Draw(t, "reach")
			q := shape.Point{X: unit.Length(r * math.Cos(a) * float64(wide)), Y: unit.Length(r * math.Sin(a) * float64(high))}
			left, right = append(left, q), append(right, shape.Point{X: -q.X, Y: q.Y})
		}
		head, foot := shape.Point{Y: high}, shape.Point{Y: -high}
		slices.Reverse(right)
		var whole []shape.Point
		if rapid.Bool().Draw(t, "corners on the fold") {
			whole = slices.Concat([]shape.Point{head}, left, []shape.Point{foot}, right)
		} else {
			whole = slices.Concat(left, right)
			head, foot = shape.Point{Y: left[0].Y}, shape.Point{Y: left[n-1].Y}
			if n == 1 {
				return // two points are no line
			}
		}
		k := rapid.IntRange(0, len(whole)-1).Draw(t, "first")
		p := Pattern{Cut: shape.Contour{Outer: slices.Concat(whole[k:], whole[:k])}}
		half, ok := p.Half()
		require.True(t, ok)
		require.NoError(t, half.Check())
		assert.Equal(t, slices.Concat([]shape.Point{head}, left, []shape.Point{foot}), half.Cut.Outer)
		assert.Equal(t, Fold{From: foot, To: head}, half.Fold)
		assert.Equal(t, half, half.Mirror().Mirror())
		_, again := half.Half()
		assert.False(t, again)
		// A line of another piece is none.
		p.Cut.Outer = slices.Clone(p.Cut.Outer)
		p.Cut.Outer[0].X += 2 * unit.Millimetre
		_, ok = p.Half()
		assert.False(t, ok)
	})
}

// The true panels that are alike on both sides have halves; their lines, notches and
// edges are those of the whole.
func TestHalfOfPanels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := length(120, 900).Draw(t, "a")/2*2, length(120, 900).Draw(t, "b")
		var o shape.Outline
		var err error
		switch rapid.IntRange(0, 3).Draw(t, "shape") {
		case 0:
			o, err = shape.Rectangle(a, b)
		case 1:
			o, err = shape.Ellipse(a, b)
		case 2:
			o, err = shape.RoundedRectangle(a, b, shape.SameRadii(length(1, 50).Draw(t, "radius")))
		default:
			o, err = shape.Crowned(a, b, length(5, 50).Draw(t, "rise"))
		}
		require.NoError(t, err)
		c, err := allowance.Panel{Outline: o}.Cut()
		require.NoError(t, err)
		p := Of(c)
		half, ok := p.Half()
		require.True(t, ok)
		require.NoError(t, half.Check())
		box := func(p Pattern) float64 { return roundOf(p.Cut.Outer) }
		fold := distance(half.Fold.From, half.Fold.To, half.Fold.To) / 1e6
		assert.InDelta(t, box(p), 2*(box(half)-fold), 1e-3)
		var edges float64
		for _, e := range half.Edges {
			edges += e.Length.Millimetres()
		}
		var whole float64
		for _, e := range p.Edges {
			whole += e.Length.Millimetres()
		}
		assert.InDelta(t, whole/2, edges, 0.3)
		data, err := json.Marshal(half)
		require.NoError(t, err)
		var back Pattern
		require.NoError(t, json.Unmarshal(data, &back))
		assert.Equal(t, half, back)
	})
}

// Both letters are given where the halves are sewn to different things; a piece
// that is not alike on both sides has no half.
func TestHalfGivesBothLetters(t *testing.T) {
	o, err := shape.Rectangle(20*unit.Inch, 24*unit.Inch)
	require.NoError(t, err)
	panel := allowance.Panel{Name: "inside back", Outline: o, Notches: []allowance.Notch{
		{Edge: "left", At: 6 * unit.Inch}, {Edge: "right", At: 18 * unit.Inch}, {Edge: "top", At: 10 * unit.Inch}, {Edge: "top", At: 5 * unit.Inch}, {Edge: "top", At: 15 * unit.Inch},
	}}
	c, err := panel.Cut()
	require.NoError(t, err)
	p := Of(c)
	p.Letters = []allowance.PieceMark{{Label: "B1", To: []string{"inside arm right.back"}}, {Label: "C1", To: []string{"inside arm left.back"}}, {Label: "A2", To: []string{"top band.bottom"}}, {Label: "A3", To: []string{"top band.bottom"}}, {Label: "A1", To: []string{"top band.bottom"}}}
	p.Uses = []allowance.EdgeUse{{Edge: "left", Finish: "plain seam", Letter: "B", To: []string{"inside arm right.back"}}, {Edge: "right", Finish: "plain seam", Letter: "C", To: []string{"inside arm left.back"}}}
	half, ok := p.Half()
	require.True(t, ok)
	var texts []string
	for _, l := range half.Lettering() {
		texts = append(texts, l.Text)
	}
	assert.Subset(t, texts, []string{
		"place on fold", "B1, to inside arm right back; other half C1, to inside arm left back", "A2, to top band bottom",
		"A1, to top band bottom; other half A3, to top band bottom", "top: plain seam",
		"left: plain seam B, to inside arm right back; other half right: plain seam C, to inside arm left back",
	})
	assert.Contains(t, half.Texts(Inches), "half: the fold line on a fold")
	assert.Contains(t, half.Texts(Inches), "21 x 25 in unfolded", "the size of the whole")
	// A double notch on one side alone is said to be one.
	double := p
	double.Letters = slices.Clone(p.Letters)
	double.Letters[4].Double = true
	half, ok = double.Half()
	require.True(t, ok)
	assert.True(t, slices.ContainsFunc(half.Lettering(), func(l Lettering) bool {
		return l.Text == "A1 double, to top band bottom; other half A3, to top band bottom"
	}))
	// A notch on one side alone, or a letter, and there is no half.
	one := p
	one.Notches = p.Notches[:1]
	one.Letters = p.Letters[:1]
	_, ok = one.Half()
	assert.False(t, ok)
	one = p
	one.Letters = p.Letters[:1]
	_, ok = one.Half()
	assert.False(t, ok)
	one = p
	one.Marks = []shape.Point{{X: unit.Inch, Y: unit.Inch}}
	_, ok = one.Half()
	assert.False(t, ok)
	// Drawn, the cut line is open at the fold, which has a layer of its own.
	dxf, err := half.DXF(Inches)
	require.NoError(t, err)
	d := readDXF(t, dxf)
	folds := 0
	for _, l := range d.lines {
		if l.layer == "FOLD" {
			folds++
		}
		assert.False(t, l.closed)
	}
	assert.Equal(t, 1, folds)
	assert.Contains(t, d.labels, "place on fold")
	// A fold that is not where the lines end is refused.
	half.Fold.To.X += unit.Inch
	var input *unit.InputError
	require.ErrorAs(t, half.Check(), &input)
	assert.Equal(t, unit.Path("fold"), input.Field)
}

// A double notch lies on its like whichever way the edges run: its lines stand as far
// on both sides of the place, and at the end of an edge inwards.
func TestDoubleNotchIsEven(t *testing.T) {
	o, err := shape.Rectangle(20*unit.Inch, 24*unit.Inch)
	require.NoError(t, err)
	for at, want := range map[unit.Length][2]unit.Length{
		5 * unit.Inch: {39 * unit.Inch / 8, 41 * unit.Inch / 8}, 0: {0, unit.Inch / 4}, 20 * unit.Inch: {79 * unit.Inch / 4, 20 * unit.Inch},
	} {
		c, err := allowance.Panel{Outline: o, Notches: []allowance.Notch{{Edge: "bottom", At: at}}}.Cut()
		require.NoError(t, err)
		p := Of(c)
		p.Letters = []allowance.PieceMark{{Label: "A1", Double: true}}
		var got []unit.Length
		for _, l := range p.Lines() {
			if l.Kind == NotchLine {
				got = append(got, l.Points[1].X)
			}
		}
		assert.Equal(t, want[:], got)
	}
}
