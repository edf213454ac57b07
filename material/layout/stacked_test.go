package layout

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/material"
)

// settee is a job of many pieces: plates with ears, on the pattern, fronts, borders and backs on it, and strips that are
// not.
func settee(t require.TestingT) []Piece {
	left := polygon(t, inches(0, 0), inches(31, 0), inches(31, 5), inches(26, 5), inches(26, 24), inches(0, 24))
	ps := pieces(
		cloth{name: "back", width: 26 * in, length: 33 * in, count: 3, motif: inches(13, 20)},
		cloth{name: "arm", width: 27 * in, length: 24 * in, count: 2, motif: inches(12, 13)},
		cloth{name: "front", width: 26 * in, length: 6 * in, count: 3, motif: inches(13, 11)},
		cloth{name: "border", width: 26 * in, length: 9 * in, count: 3, motif: inches(13, 18)},
		cloth{name: "skirt", width: 54 * in, length: 9 * in, count: 2, motif: shape.Point{X: 27 * in / 2, Y: 25 * in}},
		cloth{name: "under", width: 26 * in, length: 24 * in, count: 3, free: true},
		cloth{name: "side", width: 21 * in, length: 6 * in, count: 6, free: true},
		cloth{name: "welt", width: 54 * in, length: 2 * in, count: 8, free: true},
	)
	return append(ps, Piece{Name: "plate", Outline: left, Count: 2, Hand: Paired, Phase: OnMotif(inches(13, 6))},
		Piece{Name: "outside arm", Outline: rectOutline(t, 35*in, 20*in), Count: 2, Phase: Phase{Axes: AlongOnly, Spots: []Spot{{Point: inches(17, 11)}}}})
}

// Many pieces on a pattern: a half repeat both ways, on which every layout of the whole one lies, needs no more; nor does
// goods of which the start may be chosen; and outlines need less than their boxes.
func TestManyOnPattern(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Repeat: 27 * in, Across: 27 * in, First: shape.Point{X: 27 * in / 2}}
	known, err := onRoll(roll, settee(t), light)
	require.NoError(t, err)
	roll.UnknownStart = true
	whole, err := onRoll(roll, settee(t), light)
	require.NoError(t, err)
	assert.LessOrEqual(t, whole.Need, known.Need)
	boxes, ok := whole.Found(BoxesSearched)
	require.True(t, ok)
	assert.Less(t, whole.Need, boxes.Length)
	assert.LessOrEqual(t, whole.Need, 300*in, "the level: searched as boxes, and nested from scratch, the same work gave 312")
	roll.Repeat, roll.Across = roll.Repeat/2, roll.Across/2
	half, err := onRoll(roll, settee(t), light)
	require.NoError(t, err)
	assert.LessOrEqual(t, half.Need, whole.Need)
	for _, p := range []Plan{known, whole, half} {
		require.NoError(t, p.Verify())
	}
}

// Cells cover an outline: every chord of it lies in the cells at its height.
func TestCellsCover(t *testing.T) {
	few.Check(t, 60, func(t *rapid.T) {
		var r geom.Ring
		n := rapid.IntRange(3, 40).Draw(t, "corners")
		for k := range n { // round a middle
			far, at := float64(rapid.IntRange(10_000, 1_000_000).Draw(t, "far")), 2*math.Pi*float64(k)/float64(n)
			r = append(r, geom.Point{X: int64(far * math.Cos(at)), Y: int64(far * math.Sin(at))})
		}
		cs := cells(r)
		assert.LessOrEqual(t, len(cs), mostCells)
		for k := range cs[:max(0, len(cs)-1)] {
			assert.Equal(t, cs[k].Y+cs[k].H, cs[k+1].Y, "one above the other")
		}
		if cs == nil {
			return
		}
		for i, p := range r {
			q := r[(i+1)%n]
			for k := range int64(11) { // points of the side, in tenths of the unit
				x, y := p.X*10+(q.X-p.X)*k, p.Y*10+(q.Y-p.Y)*k
				in := false
				for _, c := range cs {
					in = in || x >= c.X*10 && x <= (c.X+c.W)*10 && y >= c.Y*10 && y <= (c.Y+c.H)*10
				}
				assert.True(t, in, "%d, %d of tenths off %v", x, y, cs)
			}
		}
	})
}
