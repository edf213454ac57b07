package allowance_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// Known panels with inward corners and gaps wider than two allowances give
// their seam line back. The random test beside this one has to leave concave
// outlines out where a gap closes; these may not be left out.
func TestSeamLineRecoveredConcave(t *testing.T) {
	at := func(x, y int) shape.Point {
		return shape.Point{X: unit.Length(x) * unit.Inch, Y: unit.Length(y) * unit.Inch}
	}
	for name, corners := range map[string][]shape.Point{
		"L": {at(0, 0), at(24, 0), at(24, 10), at(10, 10), at(10, 24), at(0, 24)},
		"T": {at(3, 0), at(21, 0), at(21, 16), at(24, 16), at(24, 22), at(0, 22), at(0, 16), at(3, 16)},
		"U": {at(0, 0), at(24, 0), at(24, 20), at(16, 20), at(16, 8), at(8, 8), at(8, 20), at(0, 20)},
		"V": {at(0, 0), at(24, 0), at(24, 20), at(12, 9), at(0, 20)},
	} {
		t.Run(name, func(t *testing.T) {
			o, err := shape.Polygon(corners...)
			require.NoError(t, err)
			require.False(t, o.Convex())
			dev, err := allowance.Panel{Outline: o, AllEdges: allowance.Edge{Allowance: allowance.Exactly(unit.Inch / 2)}}.SeamDeviation()
			require.NoError(t, err)
			require.LessOrEqual(t, dev, shape.DefaultTolerance)
		})
	}
}
