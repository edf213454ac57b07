package made_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

// A zip goes 3 in round a back corner of boxing up to 5 in deep, and half the
// depth and 1 in round deeper ones.
func TestZipGoesRoundTheCorner(t *testing.T) {
	for depth, turn := range map[unit.Length]unit.Length{
		3 * unit.Inch: 3 * unit.Inch, 5 * unit.Inch: 3 * unit.Inch,
		5*unit.Inch + unit.Inch/8: 3*unit.Inch + 9*unit.Inch/16, 6 * unit.Inch: 4 * unit.Inch,
	} {
		b := made.Boxing{Perimeter: 96 * unit.Inch, Depth: depth, Zip: true}
		for _, at := range []unit.Length{12, 36, 60, 84} {
			b.Corners = append(b.Corners, made.RingCorner{At: at * unit.Inch})
		}
		cut, err := b.Cut(made.Goods{})
		require.NoError(t, err)
		assert.Equal(t, turn, cut.Turn, depth)
		assert.Equal(t, 24*unit.Inch+2*turn, cut.Opening, depth)
	}
}
