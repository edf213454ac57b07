package layout

import (
	"strings"
	"testing"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Offcuts are clear, worth keeping, inside the goods and apart from each
// other, and what is left holds no further one.
func TestOffcutLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		roll, pieces := anyJob(t)
		roll.Increment = unit.Yard
		l, err := Rows(roll, pieces)
		require.NoError(t, err)
		least := unit.Length(rapid.IntRange(4, 12).Draw(t, "least")) * in
		cuts, err := l.Offcuts(least, 10*in)
		require.NoError(t, err)
		boxes := make([]Offcut, 0, len(cuts)+len(l.Placements))
		for _, p := range l.Placements {
			boxes = append(boxes, Offcut{p.X, p.Y, p.Width, p.Length})
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
	})
}

// One 20 in square in the corner of a yard of 54 in goods leaves the strip
// beside it and the end above it.
func TestOffcutsKnown(t *testing.T) {
	l, err := Rows(material.Roll{Width: 54 * in, Increment: unit.Yard}, []Box{{Width: 20 * in, Length: 20 * in, Count: 1}})
	require.NoError(t, err)
	cuts, err := l.Offcuts(10*in, 10*in)
	require.NoError(t, err)
	assert.Equal(t, []Offcut{{20 * in, 0, 34 * in, 36 * in}, {0, 20 * in, 20 * in, 16 * in}}, cuts)
}

func TestLayoutSVG(t *testing.T) {
	l, err := Rows(material.Roll{Name: "cloth & <thread>", Width: 54 * in, Repeat: 27 * in}, []Box{{Name: "back", Width: 20 * in, Length: 20 * in, Count: 3}})
	require.NoError(t, err)
	s, err := l.SVG(unit.Inches)
	require.NoError(t, err)
	assert.Equal(t, 3, strings.Count(s, ">back<"))
	assert.Contains(t, s, "cloth &amp; &lt;thread&gt;")
	l.Placements[0].X = 1 * in
	_, err = l.SVG(unit.Inches)
	require.ErrorIs(t, err, ErrBadLayout, "a wrong layout is not drawn")
}
