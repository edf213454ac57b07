package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/unit"
)

func angleOf(degrees int) unit.Angle { return unit.Angle(degrees) }

// Grids, worked by hand.
func TestLabelGrid(t *testing.T) {
	const mm, in = unit.Millimetre, unit.Inch
	for name, c := range map[string]struct {
		flags         labelFlags
		paper         pattern.Sheet
		columns, rows int
		margin        acrossDown
		last          acrossDown // corner of the last place
	}{
		// 3 x 64 = 192 of 210, 9 each side; 8 x 34 = 272 of 297, 12.5 above and below.
		"A4": {labelFlags{}, pattern.A4(), 3, 8, acrossDown{9 * mm, 25 * mm / 2}, acrossDown{137 * mm, 501 * mm / 2}},
		// 2 x 4 in = 8 of 8 1/2; 8 x 1 1/4 = 10 of 11.
		"Letter": {labelFlags{}, pattern.Letter(), 2, 8, acrossDown{in / 4, in / 2}, acrossDown{17 * in / 4, 37 * in / 4}},
		// 3 x 2 5/8 + 2 x 1/8 = 8 1/8, 3/16 left on each side: the printer would leave more,
		// 4 mm is less than that. 10 x 1 = 10 of 11.
		"gap": {labelFlags{label: "2 5/8 in x 1 in", gap: "1/8 in x 0 in"}, pattern.Letter(), 3, 10, acrossDown{3 * in / 16, in / 2}, acrossDown{91 * in / 16, 19 * in / 2}},
		// 2 x 99 = 198, 12 left; 5 x 57 = 285, 12 left.
		"large": {labelFlags{label: "99 x 57 mm"}, pattern.A4(), 2, 5, acrossDown{6 * mm, 6 * mm}, acrossDown{105 * mm, 234 * mm}},
		// As many as leave the margin on both sides: 210 - 14 = 196 holds 3 x 64 + 2 x 2 just.
		"margin": {labelFlags{margin: "7 mm x 12 mm", gap: "2 mm"}, pattern.A4(), 3, 7, acrossDown{7 * mm, 12 * mm}, acrossDown{139 * mm, 228 * mm}},
		// Given columns may leave less than the margin at the other side.
		"given": {labelFlags{margin: "18 mm x 0 mm", columns: 3, rows: 8}, pattern.A4(), 3, 8, acrossDown{18 * mm, 0}, acrossDown{146 * mm, 238 * mm}},
		"fewer": {labelFlags{columns: 1, rows: 2}, pattern.A4(), 1, 2, acrossDown{73 * mm, 229 * mm / 2}, acrossDown{73 * mm, 297 * mm / 2}},
		"whole": {labelFlags{label: "210 mm x 297 mm", margin: "0 mm"}, pattern.A4(), 1, 1, acrossDown{}, acrossDown{}},
	} {
		c.flags.first = 1
		g, err := c.flags.grid(c.paper)
		require.NoError(t, err, name)
		assert.Equal(t, [2]int{c.columns, c.rows}, [2]int{g.columns, g.rows}, name)
		assert.Equal(t, c.margin, g.margin, name)
		assert.Equal(t, c.last, g.at(g.each()-1), name)
	}
}

// What does not fit is refused with the figures.
func TestLabelGridRefused(t *testing.T) {
	for want, f := range map[string]labelFlags{
		"-columns 4: labels 64 mm wide with gaps of 0 mm after a margin of 0 mm: the paper, 210 mm wide, holds 3":  {columns: 4, first: 1},
		"-rows 9: labels 34 mm high with gaps of 0 mm after a margin of 0 mm: the paper, 297 mm high, holds 8":     {rows: 9, first: 1},
		"-columns 3: labels 64 mm wide with gaps of 0 mm after a margin of 19 mm: the paper, 210 mm wide, holds 2": {columns: 3, margin: "19 mm", first: 1},
		"-columns: no label 205 mm wide fits on paper 210 mm wide between margins of 4 mm":                         {label: "205 mm x 30 mm", first: 1},
		"-columns: a label of 300 mm, a gap of 0 mm, a margin of 0 mm: the paper is 210 mm wide":                   {label: "300 mm x 30 mm", first: 1},
		`-label "20 mm x 30 mm": want at least 25 mm x 12 mm, which hold type that can be read`:                    {label: "20 mm x 30 mm", first: 1},
		`-label "64 mm": want WIDTHxHEIGHT, such as 64 mm x 34 mm`:                                                 {label: "64 mm", first: 1},
		`-gap "-1 mm": want no length below zero`:                                                                  {gap: "-1 mm", first: 1},
		"-first 25: a sheet has places 1 to 24, 3 columns of 8":                                                    {first: 25},
		"-first 0: a sheet has places 1 to 24, 3 columns of 8":                                                     {},
		"-columns -1: labels 64 mm wide with gaps of 0 mm after a margin of 0 mm: the paper, 210 mm wide, holds 3": {columns: -1, first: 1},
	} {
		_, err := f.grid(pattern.A4())
		assert.EqualError(t, err, want)
	}
	for _, text := range []string{"", "x", "64x", "64 x 34", "64 mm x 34 mm x 2 mm", "wide", "1e400 mm x 1 mm", "9000000000 m x 34 mm"} {
		_, err := labelFlags{label: text + " ", first: 1}.grid(pattern.A4())
		assert.Error(t, err, "%q", text)
	}
}

// A grid lies on its paper, its labels clear of each other; sheets hold all labels and
// none is empty.
func TestLabelGridLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, most int) string {
			return unit.Length(rapid.IntRange(0, most).Draw(t, name)*int(unit.Millimetre)/10).Decimal(unit.Millimetre, 1, unit.Nearest)
		}
		paper := rapid.SampledFrom(papers()).Draw(t, "paper")
		f := labelFlags{label: length("wide", 2200) + " x " + length("high", 3000), gap: length("across", 100) + " x " + length("down", 100),
			columns: rapid.IntRange(0, 5).Draw(t, "columns"), rows: rapid.IntRange(0, 9).Draw(t, "rows"), first: rapid.IntRange(1, 3).Draw(t, "first")}
		if rapid.Bool().Draw(t, "margin") {
			f.margin = length("left", 300) + " x " + length("top", 300)
		}
		g, err := f.grid(paper)
		if err != nil {
			return
		}
		assert.True(t, f.columns == 0 || f.columns == g.columns)
		assert.True(t, f.rows == 0 || f.rows == g.rows)
		for i := range g.each() {
			at := g.at(i)
			assert.GreaterOrEqual(t, min(at.across, at.down), unit.Length(0))
			assert.LessOrEqual(t, at.across+g.label.across, paper.Width)
			assert.LessOrEqual(t, at.down+g.label.down, paper.Height)
			if i%g.columns > 0 {
				assert.Equal(t, g.label.across+g.gap.across, at.across-g.at(i-1).across)
			}
			if i >= g.columns {
				assert.Equal(t, g.label.down+g.gap.down, at.down-g.at(i-g.columns).down)
			}
		}
		n := rapid.IntRange(1, 500).Draw(t, "labels")
		assert.Equal(t, int(math.Ceil(float64(n+g.first-1)/float64(g.each()))), g.sheets(n))
	})
}
