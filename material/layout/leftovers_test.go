package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// One 20 in square in the corner of a yard of goods whose stripes are 9 in apart leaves
// the strip beside it, in which a stripe lies 7 in in, and the end above it.
func TestLeftoversKnown(t *testing.T) {
	roll := material.Roll{Name: "ticking", Width: 54 * in, Across: 9 * in, Increment: unit.Yard}
	p := rectanglePiece(t, 20*in, 20*in)
	p.Phase.Axes = Unbound
	l, err := onRoll(roll, []Piece{p}, quick)
	require.NoError(t, err)
	left, err := l.Leftovers(0, 10*in, 10*in)
	require.NoError(t, err)
	require.Len(t, left, 2)
	assert.Equal(t, material.Stock{Roll: material.Roll{Name: "ticking", Width: 34 * in, Across: 9 * in, First: shape.Point{X: 7 * in}}, Length: 36 * in}, left[0])
	assert.Equal(t, []unit.Length{20 * in, 16 * in}, []unit.Length{left[1].Roll.Width, left[1].Length})
	// Goods at hand that are longer leave more, shorter ones less.
	left, err = l.Leftovers(2*unit.Yard, 10*in, 10*in)
	require.NoError(t, err)
	assert.Equal(t, []unit.Length{54 * in, 52 * in}, []unit.Length{left[0].Roll.Width, left[0].Length})
	left, err = l.Leftovers(20*in, 10*in, 10*in)
	require.NoError(t, err)
	require.Len(t, left, 1)
	assert.Equal(t, 20*in, left[0].Length)
}

func rectanglePiece(t *testing.T, w, h unit.Length) Piece {
	t.Helper()
	p, err := RectPiece("piece", w, h, 1)
	require.NoError(t, err)
	return p
}

// What shrinks and what a bolt is cut back by is not left; the motif is known then.
func TestLeftoversOfTheOrder(t *testing.T) {
	p := rectanglePiece(t, 20*in, 20*in)
	l, err := onRoll(material.Roll{Width: 54 * in, Shrinkage: 0.2, Increment: 50 * in}, []Piece{p}, quick)
	require.NoError(t, err)
	left, err := l.Leftovers(0, 10*in, 10*in)
	require.NoError(t, err)
	assert.Equal(t, 40*in, left[0].Length, "50 in shrink by a fifth")
	assert.Zero(t, left[0].Roll.Shrinkage)
	cuts, err := l.RollOffcuts(10*in, 10*in)
	require.NoError(t, err)
	assert.Equal(t, 40*in, cuts[0].Length)

	p.Phase = Phase{Spots: []Spot{{Point: shape.Point{X: 10 * in, Y: 10 * in}}}}
	l, err = onRoll(material.Roll{Width: 54 * in, Repeat: 18 * in, UnknownStart: true, Increment: unit.Yard}, []Piece{p}, quick)
	require.NoError(t, err)
	require.Equal(t, 18*in, l.Spare)
	require.Equal(t, 2*unit.Yard, l.Order, "20 in and 18 in")
	left, err = l.Leftovers(0, 10*in, 10*in)
	require.NoError(t, err)
	assert.Equal(t, 54*in, left[0].Length)
	assert.False(t, left[0].Roll.UnknownStart)
	assert.Equal(t, 10*in, left[0].Roll.First.Y, "the motif in the middle of the piece")
}

// Leftovers are goods that a layout takes; the pattern on them is that of the goods; and
// they are as large as the offcuts.
func TestLawLeftovers(t *testing.T) { few.Check(t, 12, leftoverLaws) }

func leftoverLaws(t *rapid.T) {
	roll, rects := anyRects(t)
	roll.Increment = unit.Yard
	if roll.Patterned() {
		roll.First = shape.Point{X: unit.Length(rapid.IntRange(0, 30).Draw(t, "first x")) * in, Y: unit.Length(rapid.IntRange(0, 30).Draw(t, "first y")) * in}
	}
	l, err := onRoll(roll, pieces(rects...), quick)
	require.NoError(t, err)
	left, err := l.Leftovers(0, 10*in, 10*in)
	require.NoError(t, err)
	cuts, err := l.RollOffcuts(10*in, 10*in)
	require.NoError(t, err)
	require.Len(t, left, len(cuts))
	for i, s := range left {
		require.NoError(t, s.Check())
		require.Equal(t, []unit.Length{cuts[i].Width, cuts[i].Length}, []unit.Length{s.Roll.Width, s.Length})
		d := shape.Point{X: cuts[i].X + s.Roll.First.X - roll.First.X, Y: cuts[i].Y + s.Roll.First.Y - roll.First.Y}
		apart := roll.Motifs().Apart(d)
		require.LessOrEqual(t, max(apart.X, -apart.X, apart.Y, -apart.Y), 10*unit.Micrometre)
		again, err := onRoll(s.Roll, pieces(cloth{width: 9 * in, length: 9 * in, count: 1}), quick)
		require.NoError(t, err)
		enough, err := s.Suffices(again.Need, again.Spare, material.WorkingMargin{})
		require.NoError(t, err)
		require.Equal(t, again.Need > s.Length, enough.Supply == material.Lacking)
	}
}

func TestLeftoversRefused(t *testing.T) {
	l, err := onRoll(material.Roll{Width: 54 * in}, pieces(cloth{width: 20 * in, length: 20 * in, count: 1}), quick)
	require.NoError(t, err)
	_, err = l.Leftovers(19*in, 10*in, 10*in)
	require.ErrorIs(t, err, unit.ErrRange)
	require.ErrorContains(t, err, "20 in")
	_, err = l.Leftovers(-in, 10*in, 10*in)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = l.Leftovers(0, 9*in, 10*in)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = l.Leftovers(0, 10*in, 4)
	require.ErrorIs(t, err, unit.ErrForgottenUnit)
	_, err = l.LeftoverSkins()
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = Plan{}.Leftovers(0, 10*in, 10*in)
	require.ErrorIs(t, err, unit.ErrRequired)
}

// What a hide leaves goes on the table as a skin: as large as the offcut, of the poorer
// grade where a zone reaches it, and a piece that fits is laid on it.
func TestLeftoverSkins(t *testing.T) {
	skins, err := UsualHides(material.WholeHide, 50*unit.SquareFoot, 1)
	require.NoError(t, err)
	skins[0].Stretch = []material.StretchRegion{{Direction: 90}}
	border, err := skins[0].Shape()
	require.NoError(t, err)
	low, high := border.Bounds()
	plan := onHides(t, skins, []Piece{{Outline: boxAt(t, 0, 0, 23, 21), Count: 3, Grain: FreeGrain()}}, light)
	rest, err := plan.LeftoverSkins()
	require.NoError(t, err)
	require.NotEmpty(t, rest)
	for i, s := range rest {
		w, h := s.Outline.Size()
		assert.Equal(t, []unit.Length{plan.Offcuts[i].Width, plan.Offcuts[i].Length}, []unit.Length{w, h})
		assert.Equal(t, skins[0].Stretch, s.Stretch)
		assert.Equal(t, material.PrimeGrade, s.Grade)
		small := Piece{Outline: rectOutline(t, w-in, h-in), Count: 1, Least: material.RoughGrade}
		again := onHides(t, []material.Skin{s}, []Piece{small}, quick)
		assert.Empty(t, again.Unplaced)
	}
	// The upper half is rough: what it reaches into is rough, and nothing else.
	half, err := shape.Rectangle(high.X-low.X, (high.Y-low.Y)/2)
	require.NoError(t, err)
	half, err = half.Moved(shape.Point{X: low.X, Y: (low.Y + high.Y) / 2})
	require.NoError(t, err)
	plan.Hides[0].Zones = []material.QualityZone{{Grade: material.RoughGrade, Outline: half}}
	rest, err = plan.LeftoverSkins()
	require.NoError(t, err)
	for i, s := range rest {
		c := plan.Offcuts[i]
		assert.Equal(t, c.Y+c.Length > (low.Y+high.Y)/2, s.Grade == material.RoughGrade)
	}
	plan.Offcuts[0].Hide = 9
	_, err = plan.LeftoverSkins()
	require.ErrorIs(t, err, unit.ErrRange)
}
