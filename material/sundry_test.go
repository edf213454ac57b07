package material_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

func TestZeroSundriesAreRefused(t *testing.T) {
	_, err := material.Running{}.Order()
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = material.Zips{}.Order()
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = material.Sheet{}.Cut()
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = material.Webbing{}.Plan()
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = material.Nails{}.Plan()
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = material.Staples{}.Plan()
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = material.Adhesive{}.Order()
	require.ErrorIs(t, err, unit.ErrRange)
}

// What is bought covers what is needed, by less than one stock length more.
func TestRunningLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := material.Running{
			Runs:  rapid.SliceOfN(rapid.Map(rapid.IntRange(1, 400), func(n int) unit.Length { return unit.Length(n) * in / 4 }), 1, 9).Draw(t, "runs"),
			Ends:  unit.Length(rapid.IntRange(0, 12).Draw(t, "ends")) * in / 4,
			Waste: unit.Ratio(rapid.IntRange(0, 20).Draw(t, "waste")) / 100,
			Stock: unit.Length(rapid.IntRange(1, 100).Draw(t, "stock")) * in,
		}
		o, err := r.Order()
		require.NoError(t, err)
		assert.GreaterOrEqual(t, o.Gross, o.Net)
		assert.GreaterOrEqual(t, o.Buy, o.Gross)
		assert.Less(t, o.Buy-o.Gross, r.Stock)
		assert.Equal(t, o.Buy, unit.Length(o.Pieces)*r.Stock)
	})
}

// Strips and gaps fill the opening, and no gap is wider than asked for unless
// the strips already touch.
func TestWebbingLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := material.Webbing{
			Width: unit.Length(rapid.IntRange(16, 160).Draw(t, "width")) * in / 2,
			Depth: unit.Length(rapid.IntRange(16, 160).Draw(t, "depth")) * in / 2,
			Strip: unit.Length(rapid.IntRange(8, 16).Draw(t, "strip")) * in / 4,
			Gap:   unit.Length(rapid.IntRange(1, 12).Draw(t, "gap")) * in / 4,
		}
		p, err := w.Plan()
		require.NoError(t, err)
		for _, x := range []struct {
			n       int
			gap, of unit.Length
		}{{p.FrontToBack, p.GapAcross, w.Width}, {p.SideToSide, p.GapAlong, w.Depth}} {
			n := unit.Length(x.n)
			assert.LessOrEqual(t, x.of-n*w.Strip-(n+1)*x.gap, n, "filled but for rounding")
			assert.GreaterOrEqual(t, x.gap, unit.Length(0))
			if (n+1)*w.Strip <= x.of {
				assert.LessOrEqual(t, x.gap, w.Gap)
			}
		}
		assert.Equal(t, p.Total, unit.Length(p.FrontToBack)*(w.Depth+6*in)+unit.Length(p.SideToSide)*(w.Width+6*in))
	})
}

// Nails stand on the corners and never overlap; the spacing is as near to the
// pitch as whole numbers allow.
func TestNailLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		head := unit.Length(rapid.IntRange(6, 16).Draw(t, "head")) * in / 32
		n := material.Nails{Head: head, Pitch: head + unit.Length(rapid.IntRange(0, 40).Draw(t, "more"))*in/32,
			Sides:  rapid.SliceOfN(rapid.Map(rapid.IntRange(8, 600), func(k int) unit.Length { return unit.Length(k) * in / 8 }), 1, 6).Draw(t, "sides"),
			Closed: rapid.Bool().Draw(t, "closed")}
		p, err := n.Plan()
		require.NoError(t, err)
		count := 0
		for i, r := range p.Rows {
			assert.GreaterOrEqual(t, r.Spacing, head)
			assert.LessOrEqual(t, n.Sides[i]-unit.Length(r.Spaces)*r.Spacing, unit.Length(r.Spaces), "closes on the corner")
			count += r.Spaces
		}
		if !n.Closed {
			count++
		}
		assert.Equal(t, count, p.Nails)
	})
}

func TestStapleLegs(t *testing.T) {
	s := material.Staples{Edges: []unit.Length{24 * in}, Layers: 3 * unit.Millimetre, Rail: 20 * unit.Millimetre}
	p, err := s.Plan()
	require.NoError(t, err)
	assert.Equal(t, 25, p.Count)
	assert.Equal(t, 3*in/8, p.Leg, "3 mm and 1/4 in need 9.35 mm")
	assert.False(t, p.Through)
	s.Rail = 7 * unit.Millimetre
	p, err = s.Plan()
	require.NoError(t, err)
	assert.True(t, p.Through)
	s.Layers = 40 * unit.Millimetre
	_, err = s.Plan()
	require.ErrorIs(t, err, unit.ErrRange)
}

// A thicker pack never takes a shorter leg or fewer staples.
func TestStapleLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		thick := unit.Length(rapid.IntRange(0, 100).Draw(t, "layers")) * unit.Millimetre / 10
		s := material.Staples{Edges: []unit.Length{unit.Length(rapid.IntRange(1, 400).Draw(t, "edge")) * in / 4}, Layers: thick, Rail: in}
		a, err := s.Plan()
		require.NoError(t, err)
		s.Layers += unit.Millimetre
		b, err := s.Plan()
		require.NoError(t, err)
		assert.LessOrEqual(t, a.Leg, b.Leg)
		assert.Equal(t, a.Count, b.Count)
		assert.GreaterOrEqual(t, a.Leg, a.Least)
	})
}

func TestAdhesive(t *testing.T) {
	o, err := material.Adhesive{Area: 10 * unit.SquareFoot, Coverage: 20 * unit.SquareFoot}.Order()
	require.NoError(t, err)
	assert.Equal(t, 1, o.Containers)
	assert.NotEmpty(t, o.Caution)
	o, err = material.Adhesive{Area: 10*unit.SquareFoot + 1, Coverage: 20 * unit.SquareFoot}.Order()
	require.NoError(t, err)
	assert.Equal(t, 2, o.Containers)
	_, err = material.Adhesive{Area: unit.SquareFoot, Coverage: 20 * unit.SquareFoot, Faces: 3}.Order()
	require.ErrorIs(t, err, unit.ErrRange)
}
