package thread_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// A count is accepted up to 100 000 tex, or 100 000 m/g, and their like in the
// other systems, and not a hair beyond.
func TestLargestCounts(t *testing.T) {
	for _, r := range []struct {
		system thread.CountSystem
		most   float64
	}{
		{thread.CountTex, 1e5}, {thread.CountDecitex, 1e6}, {thread.CountDenier, 9e5}, {thread.CountTradeNumber, 9e4},
		{thread.CountMetric, 1e5}, {thread.CountCotton, 1e5}, {thread.CountYardsPerPound, 5e7}, {thread.CountMetricTicket, 3e5}, {thread.CountCottonTicket, 3e5},
	} {
		_, err := r.system.Of(r.most)
		require.NoError(t, err, r.system)
		_, err = r.system.Of(math.Nextafter(r.most, math.Inf(1)))
		require.ErrorIs(t, err, unit.ErrRange, r.system)
	}
	_, err := thread.CountMetric.In(1e5 * unit.Tex)
	require.NoError(t, err)
	_, err = thread.CountMetric.In(unit.LinearDensity(math.Nextafter(1e5, 2e5)))
	require.ErrorIs(t, err, unit.ErrRange)
}

// The advice for a use and the density for its goods are one figure.
func TestAdviceAndGoodsAgree(t *testing.T) {
	goods := map[string]thread.Goods{"clothing, general": thread.LightWoven, "upholstery cloth": thread.Woven, "tent canvas": thread.Canvas,
		"vinyl and faux leather": thread.Vinyl, "upholstery leather": thread.Leather, "coarse leather work": thread.HeavyLeather}
	for _, a := range thread.StitchDensities() {
		g, ok := goods[a.Use]
		if !ok {
			continue
		}
		delete(goods, a.Use)
		d, err := thread.StitchDensityFor(g)
		require.NoError(t, err)
		assert.Equal(t, [2]thread.StitchesPerInch{d.From, d.To}, [2]thread.StitchesPerInch{a.Density.From, a.Density.To}, a.Use)
	}
	assert.Empty(t, goods, "every goods has its use")
}
