package material_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Wider goods never need more, and longer needs never less: down each column
// and along each row.
func TestWidthChartIsMonotone(t *testing.T) {
	chart := material.WidthChart()
	widest := []unit.Length{36 * in, 39 * in, 42 * in, 45 * in, 50 * in, 54 * in, 60 * in, 66 * in}
	require.Len(t, chart, 12)
	require.Len(t, widest, len(material.ChartWidths()))
	for i, row := range chart {
		require.Len(t, row, len(material.ChartWidths()))
		for j := range row {
			if j > 0 {
				assert.LessOrEqual(t, row[j], row[j-1])
			}
			if i > 0 {
				assert.Greater(t, row[j], chart[i-1][j])
			}
			// The stated distance from the area rule.
			area, err := material.ConvertByArea(row[0], 36*in, widest[j])
			require.NoError(t, err)
			r, err := row[j].Per(area.Length)
			require.NoError(t, err)
			assert.InDelta(t, 1, float64(r), 0.13)
		}
	}
}

func TestConvertByChartRefuses(t *testing.T) {
	_, err := material.ConvertByChart(unit.Yard, 37*in, 54*in)
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, err = material.ConvertByChart(unit.Yard, 36*in, 5*in)
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, err = material.ConvertByChart(6*unit.Yard, 36*in, 54*in)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = material.ConvertByChart(0, 36*in, 54*in)
	require.ErrorIs(t, err, unit.ErrRange)
}

// Converting by area there and back gives the length again, never less.
func TestConvertByAreaLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := unit.Length(rapid.IntRange(1, 400).Draw(t, "l")) * in / 4
		a := unit.Length(rapid.IntRange(20, 80).Draw(t, "a")) * in
		b := unit.Length(rapid.IntRange(20, 80).Draw(t, "b")) * in
		there, err := material.ConvertByArea(l, a, b)
		require.NoError(t, err)
		back, err := material.ConvertByArea(there.Length, b, a)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, back.Length, l)
		assert.LessOrEqual(t, back.Length-l, 5*unit.Nanometre)
	})
}

// More repeat never takes less cloth.
func TestExtraForPatternIsMonotone(t *testing.T) {
	last := unit.Ratio(0)
	for sum := range 55 {
		x, err := material.ExtraForPattern(54*in, unit.Length(sum)*in, 0)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, x.Share, last)
		last = x.Share
		narrow, err := material.ExtraForPattern(52*in, 0, unit.Length(sum)*in)
		require.NoError(t, err)
		assert.InDelta(t, float64(x.Share+0.10), float64(narrow.Share), 1e-12)
	}
	_, err := material.ExtraForPattern(54*in, 50*in, 5*in)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = material.ExtraForPattern(45*in, 0, 0)
	require.ErrorIs(t, err, unit.ErrRange)
}

func TestFurnitureYardageIsFounded(t *testing.T) {
	for _, y := range material.FurnitureYardage() {
		assert.NotZero(t, y.Basis.Status, y.Piece)
		assert.LessOrEqual(t, y.From, y.To, y.Piece)
		assert.Positive(t, y.From, y.Piece)
		if y.Basis.Status == cite.Published {
			_, ok := cite.Lookup(y.Basis.Source)
			assert.True(t, ok, y.Piece)
		}
	}
}
