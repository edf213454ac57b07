package allowance_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// X3: the inside back of a barrel has a top of 43.982297 in on a radius of
// 112.8716 in; the band it is sewn to is 43.5 in and straight.
func barrelTop(class allowance.EaseClass) (allowance.Cover, map[string]allowance.SewnGoods) {
	const length, radius = 43.982297, 112.8716
	chord, rise := 2*radius*math.Sin(length/radius/2), radius*(1-math.Cos(length/radius/2))
	var b builder
	b.panel("band", 43.5, 4, "inner", "right", "outer", "left")
	b.outline("back", sure(shape.TraceFrom(shape.Point{}).Edge("bottom").Line(corner(chord, 0)).Edge("right").Line(corner(chord, 16)).
		Edge("top").Arc(corner(0, 16), tapeInches(rise)).Edge("left").Close()))
	b.plain("band.inner", "back.top")
	for _, e := range []string{"band.right", "band.outer", "band.left", "back.bottom", "back.right", "back.left"} {
		b.fasten(allowance.StapledFlat, e)
	}
	limits, _ := class.Limits()
	return b.c, map[string]allowance.SewnGoods{"cloth": {Ease: limits}}
}

func TestEaseOfABarrel(t *testing.T) {
	c, goods := barrelTop(allowance.FirmWoven)
	w, err := c.Work(goods)
	require.NoError(t, err)
	s := w.Seams[0]
	assert.Equal(t, allowance.EaseIn, s.Match.Verdict)
	assert.Equal(t, 1, s.Eased)
	assert.InDelta(t, 0.482297, s.Match.Difference.Inches(), 1e-5)
	assert.InDelta(t, 0.011087, float64(s.Match.Ease), 1e-6)
	// No ease within 1 in of the ends, 1.1622 % between.
	const centre, top = 43.5 / 2, 43.982297 / 2
	for _, n := range s.Notches {
		on, far := n.At[0].Inches()-centre, top-n.At[1].Inches()
		want := on * (1 + 0.482297/41.5)
		if math.Abs(on) > centre-1 {
			want = math.Copysign(top-(centre-math.Abs(on)), on)
		}
		assert.InDelta(t, want, far, 1e-5, n.Label)
	}
	assert.Len(t, s.Notches, 13, "the middle, the ends, and 4 in apart where ease is worked in")

	c, goods = barrelTop(allowance.FirmLeather)
	w, err = c.Work(goods)
	require.NoError(t, err)
	assert.Equal(t, allowance.Gather, w.Seams[0].Match.Verdict, "fullness needed")

	c, goods = barrelTop(allowance.CoatedWoven)
	err = c.Check(goods)
	assert.Equal(t, []string{"seams[0].sides[1]"}, faultPaths(err))
	assert.Contains(t, err.Error(), "or at least 1107 mm on the other side") // 43.982297 / 1.01 = 43.54683 in
}

// A side that is stretched goes by its own goods.
func TestStretchedSide(t *testing.T) {
	c, _ := barrelTop(allowance.FirmWoven)
	c.Panels[0].Goods = "leather"
	w := worked(t, c)
	assert.Equal(t, [2]any{1, allowance.EaseIn}, [2]any{w.Seams[0].Eased, w.Seams[0].Match.Verdict})
	c.Seams[0].Stretched = true
	w = worked(t, c)
	assert.Equal(t, [2]any{0, allowance.Gather}, [2]any{w.Seams[0].Eased, w.Seams[0].Match.Verdict})
}

// Uniform ease where both edges are straight; none where they are equal.
func TestEaseOfStraightEdges(t *testing.T) {
	var b builder
	b.panel("a", 40, 10)
	b.panel("b", 40.6, 10)
	b.plain("a.top", "b.bottom")
	for _, e := range []string{"a.bottom", "a.left", "a.right", "b.top", "b.left", "b.right"} {
		b.fasten(allowance.StapledFlat, e)
	}
	s := worked(t, b.c).Seams[0]
	assert.Equal(t, allowance.EaseIn, s.Match.Verdict)
	for _, n := range s.Notches {
		assert.InDelta(t, (40-n.At[0].Inches())*40.6/40, n.At[1].Inches(), 1e-6, n.Label)
	}
	assert.Equal(t, "A1", s.Notches[0].Label)
	assert.True(t, s.Notches[1].Double, "a run that looks the same from both ends")
}

// Notches of a seam are marked on both pieces, at the same letter.
func TestNotchesOnPieces(t *testing.T) {
	w := worked(t, wingChair())
	marks := map[string]map[string]unit.Length{}
	for _, p := range w.Pieces {
		for i, m := range p.Marks {
			if marks[m.Label] == nil {
				marks[m.Label] = map[string]unit.Length{}
			}
			marks[m.Label][p.Name+"."+p.Panel.Notches[i].Edge] = p.Panel.Notches[i].At
		}
	}
	assert.Equal(t, map[string]unit.Length{"deck.front": 11 * unit.Inch, "front border.top": 11 * unit.Inch}, marks["C3"])
	// The run of an arm front turns its corner 4 in from the outer end of its top.
	assert.Equal(t, map[string]unit.Length{"arm front left.inner": 0, "inside arm left.front": 8 * unit.Inch}, marks["D2-L"])
	assert.Equal(t, map[string]unit.Length{"arm front right.top": 0, "inside arm right.front": 4 * unit.Inch}, marks["D3-R"])
	for label, on := range marks {
		assert.GreaterOrEqual(t, len(on), 2, label)
	}
}

// Every class of goods reads back from its words and has limits that are not refused.
func TestEaseClasses(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	for c := allowance.LooseWoven; c <= allowance.CoatedWoven; c++ {
		text, err := c.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, c.String(), string(text))
		assert.False(t, seen[c.String()], c)
		seen[c.String()] = true
		var back allowance.EaseClass
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, c, back)
		limits, basis := c.Limits()
		assert.Positive(t, limits.Flat, c)
		assert.Less(t, limits.Flat, limits.Ease, c)
		assert.Less(t, limits.Ease, limits.Gather, c)
		assert.Equal(t, cite.FromMemory, basis.Status)
	}
	none := allowance.CoatedWoven + 1
	_, err := none.MarshalText()
	require.ErrorIs(t, err, unit.ErrUnknown)
	require.ErrorIs(t, none.UnmarshalText([]byte("denim")), unit.ErrUnknown)
	limits, basis := none.Limits()
	assert.Zero(t, limits)
	assert.Zero(t, basis)
}
