package pattern_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// A panel of 22 x 24 in with 1/2 in of seam is cut 23 x 25 in: its middle line is
// 11 1/2 in from the cut edge, its seam line 1/2 in above that below.
func TestLandingWords(t *testing.T) {
	o, err := shape.Rectangle(22*unit.Inch, 24*unit.Inch)
	require.NoError(t, err)
	cut, err := allowance.Panel{Outline: o, AllEdges: allowance.Edge{Finish: allowance.PlainSeam}}.Cut()
	require.NoError(t, err)
	panel := pattern.Of(cut)
	strip, err := pattern.Strip(20*unit.Inch, 4*unit.Inch)
	require.NoError(t, err)
	half := unit.Inch / 2
	for _, c := range []struct {
		of   pattern.Pattern
		x, y unit.Length // from the corner of the cut line
		way  allowance.PatternWay
		want string
	}{
		{panel, 23 * half, 25 * half, allowance.BothWays, "motif on the middle line, 12 in above the lower seam line"},
		{panel, 20 * half, 1 * half, allowance.BothWays, "motif 1 1/2 in left of the middle, on the lower seam line"},
		{panel, 24 * half, -3 * half, allowance.BothWays, "motif 1/2 in right of the middle, 2 in below the lower seam line"},
		{panel, 24 * half, 25 * half, allowance.AcrossOnly, "stripe 1/2 in right of the middle"},
		{panel, 24 * half, 25 * half, allowance.AlongOnly, "motifs 12 in above the lower seam line"},
		{strip, 20 * half, 4 * half, allowance.BothWays, "motif on the middle line, 2 in above the lower cut edge"},
		{panel, 0, 0, allowance.NoPattern, ""},
	} {
		l := pattern.Landing{At: shape.Point{X: c.x, Y: c.y}, Way: c.way}
		assert.Equal(t, c.want, l.Words(c.of, pattern.Inches))
		s, err := l.Draw(c.of, pattern.Inches)
		if c.way == allowance.NoPattern {
			require.ErrorIs(t, err, unit.ErrUnknown)
			continue
		}
		require.NoError(t, err)
		assert.Equal(t, map[bool]int{true: 1, false: 0}[c.way == allowance.BothWays], strings.Count(s, `class="motif"`))
		assert.Contains(t, s, c.want)
	}
	_, err = pattern.Landing{At: shape.Point{X: 51 * unit.Metre}, Way: allowance.BothWays}.Draw(panel, pattern.Inches)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = pattern.Landing{Way: allowance.BothWays}.Draw(pattern.Pattern{}, pattern.Inches)
	require.Error(t, err)
}
