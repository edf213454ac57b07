package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Offcuts are clear, worth keeping, inside the goods and apart from each
// other, and the largest comes first.
func TestOffcutLaws(t *testing.T) { few.Check(t, 12, offcutLaws) }

func offcutLaws(t *rapid.T) {
	roll, rects := anyRects(t)
	roll.Increment = unit.Yard
	l, err := onRoll(roll, pieces(rects...), quick)
	require.NoError(t, err)
	least := unit.Length(rapid.IntRange(4, 12).Draw(t, "least")) * in
	cuts, err := l.RollOffcuts(least, 10*in)
	require.NoError(t, err)
	boxes := make([]Offcut, 0, len(cuts)+len(l.Places))
	for _, p := range l.Places {
		low, high := p.Bounds()
		boxes = append(boxes, Offcut{X: low.X, Y: low.Y, Width: high.X - low.X, Length: high.Y - low.Y})
	}
	last := unit.Area(1 << 62)
	for _, c := range cuts {
		assert.True(t, c.X >= 0 && c.Y >= 0 && c.X+c.Width <= roll.Usable() && c.Y+c.Length <= l.Order)
		assert.True(t, c.Width >= least && c.Length >= 10*in || c.Length >= least && c.Width >= 10*in)
		for _, b := range boxes {
			apart := c.X >= b.X+b.Width || b.X >= c.X+c.Width || c.Y >= b.Y+b.Length || b.Y >= c.Y+c.Length
			assert.True(t, apart, "%v on %v", c, b)
		}
		boxes = append(boxes, c)
		a, err := c.Width.By(c.Length)
		require.NoError(t, err)
		assert.LessOrEqual(t, a, last)
		last = a
	}
}

// One 20 in square in the corner of a yard of 54 in goods leaves the strip
// beside it and the end above it.
func TestOffcutsKnown(t *testing.T) {
	l, err := onRoll(material.Roll{Width: 54 * in, Increment: unit.Yard}, pieces(cloth{width: 20 * in, length: 20 * in, count: 1}), quick)
	require.NoError(t, err)
	cuts, err := l.RollOffcuts(10*in, 10*in)
	require.NoError(t, err)
	assert.Equal(t, []Offcut{{X: 20 * in, Width: 34 * in, Length: 36 * in}, {Y: 20 * in, Width: 20 * in, Length: 16 * in}}, cuts)
	_, err = l.RollOffcuts(0, in)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = Plan{}.RollOffcuts(in, in)
	require.ErrorIs(t, err, unit.ErrRequired)
}
