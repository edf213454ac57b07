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
	// The last row of each column still converts, and more of it says how far the
	// chart goes.
	for _, row := range material.WidthChart()[len(material.WidthChart())-1:] {
		for i, last := range row {
			from := []unit.Length{36 * in, 39 * in, 41 * in, 45 * in, 50 * in, 54 * in, 60 * in, 66 * in}[i]
			got, err := material.ConvertByChart(last, from, from)
			require.NoError(t, err)
			require.Equal(t, last, got.Length)
			_, err = material.ConvertByChart(last+1, from, from)
			require.ErrorContains(t, err, "at most "+last.Mixed(unit.Yard, unit.Eighths, unit.Nearest)+" at ")
		}
	}
}

// Each column begins and ends where it is said, and what lies between two is none.
func TestBordersOfTheColumns(t *testing.T) {
	for c, ends := range map[material.ChartWidth][2]unit.Length{
		material.Chart36: {35, 36}, material.Chart39: {39, 39}, material.Chart41: {41, 42}, material.Chart45: {44, 45},
		material.Chart50: {50, 50}, material.Chart54: {52, 54}, material.Chart60: {58, 60}, material.Chart66: {65, 66},
	} {
		for _, w := range ends {
			got, err := material.ChartWidthOf(w * in)
			require.NoError(t, err)
			require.Equal(t, c, got)
		}
		for _, w := range []unit.Length{ends[0]*in - 1, ends[1]*in + 1} {
			_, err := material.ChartWidthOf(w)
			require.ErrorIs(t, err, unit.ErrUnknown)
		}
	}
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

// What is sold sideways has its horizontal repeat along the roll; beyond the chart
// two fifths are said; plain goods have no rule.
func TestPatternRules(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Repeat: 30 * in, Across: 25 * in}
	lengths := func(r material.Roll, widths ...unit.Length) []unit.Length {
		rules, err := material.PatternRules(100*in, r, widths)
		require.NoError(t, err)
		var out []unit.Length
		for _, x := range rules {
			assert.Equal(t, cite.RuleOfThumb, x.Kind)
			assert.Equal(t, cite.CommonPractice, x.Basis.Status)
			out = append(out, x.Length)
		}
		return out
	}
	assert.Equal(t, []unit.Length{140 * in, 190 * in}, lengths(roll, 20*in, 20*in, 40*in, 14*in, 30*in, 20*in), "40 and 14, 30 and 20, 20 and 20")
	roll.Up = material.UpToLeft
	assert.Equal(t, []unit.Length{140 * in, 125 * in}, lengths(roll, 40*in, 14*in))
	assert.Equal(t, []unit.Length{120 * in}, lengths(material.Roll{Width: 54 * in, Across: 27 * in}, 20*in), "stripes")
	assert.Equal(t, []unit.Length{127 * in}, lengths(material.Roll{Width: 45 * in, Repeat: 27 * in}, 20*in), "too narrow for the chart")
	assert.Empty(t, lengths(material.Roll{Width: 54 * in}, 20*in))

	for _, c := range []struct {
		plain  unit.Length
		roll   material.Roll
		widths []unit.Length
	}{
		{100 * in, material.Roll{}, nil}, {0, roll, nil}, {100 * in, roll, []unit.Length{55 * in}}, {100 * in, roll, []unit.Length{0}},
		{100 * in, roll, make([]unit.Length, 10_001)},
	} {
		_, err := material.PatternRules(c.plain, c.roll, c.widths)
		require.Error(t, err)
	}
}

// A row more is a repeat more, and pieces fill no fewer rows than their widths would
// end to end, nor more rows than there are pieces.
func TestRowsOfPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		roll := material.Roll{Width: 54 * in, Repeat: in}
		var widths []unit.Length
		sum := unit.Length(0)
		for range rapid.IntRange(1, 12).Draw(t, "pieces") {
			w := unit.Length(rapid.IntRange(1, 54).Draw(t, "width")) * in
			widths, sum = append(widths, w), sum+w
			rules, err := material.PatternRules(unit.Metre, roll, widths)
			require.NoError(t, err)
			rows := int((rules[1].Length - unit.Metre) / in)
			assert.LessOrEqual(t, rows, len(widths))
			assert.GreaterOrEqual(t, unit.Length(rows)*54*in, sum)
		}
	})
}

// Without pieces there is no rule for their rows.
func TestNoRowsOfPieces(t *testing.T) {
	rules, err := material.PatternRules(unit.Metre, material.Roll{Width: 54 * in, Repeat: in}, nil)
	require.NoError(t, err)
	for _, r := range rules {
		require.NotContains(t, r.Text, "rows")
	}
	var d material.Drop
	require.NoError(t, d.UnmarshalText([]byte("0/1")))
	require.Zero(t, d)
	require.Error(t, d.UnmarshalText([]byte("0/0")))
}

// A piece wider than the goods lies in no row.
func TestRowsOfPiecesTooWide(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Repeat: in}
	_, err := material.PatternRules(unit.Metre, roll, []unit.Length{54 * in, 54*in + 1})
	var bad *unit.InputError
	require.ErrorAs(t, err, &bad)
	require.Equal(t, "widths[1]", string(bad.Field))
}

func TestYardageIsFounded(t *testing.T) {
	for _, y := range append(material.FurnitureYardage(), material.PatternYardage()...) {
		assert.NotZero(t, y.Basis.Status, y.Piece)
		assert.LessOrEqual(t, y.From, y.To, y.Piece)
		assert.Positive(t, y.From, y.Piece)
		if y.Basis.Status == cite.Published {
			_, ok := cite.Lookup(y.Basis.Source)
			assert.True(t, ok, y.Piece)
		}
	}
}
