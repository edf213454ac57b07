package made_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// A motif 12 in up the middle of a top plate 24 in wide and 22 in deep lies 12 in above
// the upper edge of the boxing, over the middle of the front, wherever that piece
// begins: 16 in up its seam line, 4 in wide. The boxing of a T cushion, of a pair, and
// of a wedge likewise.
func TestPatternRunsOverTheFront(t *testing.T) {
	goods := made.Goods{ID: "cloth", Across: 54 * unit.Inch, Along: 54 * unit.Inch, Directed: true, Repeat: 13 * unit.Inch}
	limits, _ := allowance.FirmWoven.Limits()
	sewn := map[string]allowance.SewnGoods{"cloth": {Ease: limits}}
	for name, c := range map[string]made.Cushion{
		"square":          {Width: 24 * unit.Inch, Depth: 22 * unit.Inch, Zip: true},
		"by hand":         {Width: 24 * unit.Inch, Depth: 22 * unit.Inch},
		"joined in front": {Width: 24 * unit.Inch, Depth: 22 * unit.Inch, Zip: true, Boxing: made.Goods{ID: "cloth", Across: 16 * unit.Inch, Along: 16 * unit.Inch, Directed: true}},
		"T":               {Width: 24 * unit.Inch, Depth: 22 * unit.Inch, LeftEar: 3 * unit.Inch, RightEar: 3 * unit.Inch, EarDepth: 4 * unit.Inch, Zip: true},
		"L pair":          {Width: 24 * unit.Inch, Depth: 22 * unit.Inch, LeftEar: 3 * unit.Inch, EarDepth: 4 * unit.Inch, Zip: true, Pair: true},
		"wedge":           {Width: 24 * unit.Inch, Depth: 22 * unit.Inch, BackThickness: 4 * unit.Inch, Zip: true},
	} {
		t.Run(name, func(t *testing.T) {
			c.Top, c.Thickness, c.Pattern = goods, 4*unit.Inch, allowance.BothWays
			part, err := c.Make()
			require.NoError(t, err)
			require.NotEmpty(t, part.Cover.Meets)
			f, err := part.Cover.Flow(sewn, []allowance.MotifWish{{Panel: "top plate", At: shape.Point{X: 12 * unit.Inch, Y: 12 * unit.Inch}, Way: allowance.BothWays}})
			require.NoError(t, err)
			assert.Empty(t, f.Unmet)
			for _, x := range f.Crossings {
				p := f.Pieces[x.To]
				assert.LessOrEqual(t, p.Width, 40*unit.Inch, "54 less 1 in of seam and the repeat")
				assert.Zero(t, x.Off)
				assert.False(t, x.Turned)
				assert.Contains(t, p.Name, "boxing")
				assert.Equal(t, 16*unit.Inch, p.Motif.Y, p.Name)
				// The middle of the plate's front is 12 in from its left end; so far from the
				// point on the boxing that meets it.
				assert.Equal(t, 12*unit.Inch-x.FromAt.X, p.Motif.X-x.ToAt.X, p.Name)
			}
		})
	}
	_, err := made.Cushion{Kind: made.Round, Width: 20 * unit.Inch, Thickness: 4 * unit.Inch, Top: goods, Pattern: allowance.BothWays}.Make()
	require.ErrorContains(t, err, "pattern")
}
