package layout

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/internal/geom"
)

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
