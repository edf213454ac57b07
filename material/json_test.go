package material_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Every exported struct type goes through JSON, empty and with values that real
// calls take or make.
func TestEveryTypeIsJSON(t *testing.T) {
	const in = unit.Inch
	var typical []any
	add := func(err error, vs ...any) {
		require.NoError(t, err)
		typical = append(typical, vs...)
	}
	hide := material.Hide{Name: "tan", Area: 50 * unit.SquareFoot, Thickness: unit.Millimetre}
	own := material.WasteFactor{Waste: 0.3}
	estimate, err := material.HidesToBuy(62*unit.SquareFoot, hide, own)
	add(err, hide, own, material.WholeHideWaste(), estimate)
	extra, err := material.ExtraForPattern(54*in, 14*in, 0)
	add(err, extra)
	rules, err := material.PatternRules(4*unit.Yard, material.Roll{Width: 54 * in, Repeat: 14 * in}, []unit.Length{20 * in})
	add(err, rules[0])
	converted, err := material.ConvertByArea(5*unit.Yard, 45*in, 54*in)
	add(err, converted, material.FurnitureYardage()[0])
	roll := material.Roll{Name: "stripe", Width: 54 * in, Repeat: 9 * in, Across: 13 * in, Drop: material.Drop{Num: 1, Den: 2}, Nap: true, Even: true, OneWay: true, Up: material.UpToLeft, First: shape.Point{X: in, Y: 2 * in}, Shrinkage: 0.03, Flaws: []material.Flaw{{X: in, Y: 3 * in, Length: in}}}
	add(roll.Check(), roll, roll.Motifs(), roll.Drop, roll.Flaws[0])
	margins := material.UsualMargins()
	ordered, err := roll.OrderWith(90*in, 9*in, margins.Most)
	add(err, margins, margins.Most, ordered, ordered.Margin)
	stock := material.Stock{Roll: roll, Length: 99 * in}
	suffices, err := stock.Suffices(90*in, 0, margins.Usual)
	add(err, stock, suffices)
	spot, err := shape.Circle(2 * in)
	require.NoError(t, err)
	spot, err = spot.Moved(shape.Point{X: 40 * in, Y: 50 * in})
	require.NoError(t, err)
	skin := material.Skin{ID: "1", Kind: material.WholeHide, Area: 50 * unit.SquareFoot, Grade: material.GoodGrade, Holes: []shape.Outline{spot},
		Defects: []material.Defect{{Kind: material.Vein, At: shape.Point{X: 40 * in, Y: 40 * in}, Across: in}}, Zones: []material.QualityZone{{Grade: material.FairGrade, Outline: spot}},
		Stretch: []material.StretchRegion{{Direction: 90 * unit.Degree}}}
	add(skin.Check(), skin, skin.Defects[0], skin.Zones[0], skin.Stretch[0])
	supply := material.SkinSupply{Mean: 50 * unit.SquareFoot, Spread: 4 * unit.SquareFoot}
	forecast, err := material.ForecastSkins(200*unit.SquareFoot, supply, material.YieldRange{From: 0.6, To: 0.7}, 0.9)
	add(err, supply, forecast, material.Yields(material.MixedPieces)[0], material.UsualAreas(material.WholeHide)[0], material.UpholsteryThickness()[0], material.PartShares()[0], material.PartNotes()[0])

	faults, err := roundtrip.Faults(os.DirFS("."), typical)
	require.NoError(t, err)
	require.Empty(t, faults)
}

func TestDropText(t *testing.T) {
	for text, want := range map[string]material.Drop{"1/2": {1, 2}, " 2 / 6": {2, 6}, "63/64": {63, 64}, "0": {}, "0/3": {}} { //nolint:gocritic // blanks round the stroke are allowed
		var d material.Drop
		require.NoError(t, d.UnmarshalText([]byte(text)), text)
		assert.Equal(t, want, d, text)
		out, err := d.MarshalText()
		require.NoError(t, err)
		var back material.Drop
		require.NoError(t, back.UnmarshalText(out))
		assert.Equal(t, want, back, text)
	}
	for _, text := range []string{"", "1", "1/1", "2/1", "1/0", "-1/2", "1/-2", "1/2/3", "1/65", "0/0", "a/2"} {
		d := material.Drop{1, 3}
		require.ErrorIs(t, d.UnmarshalText([]byte(text)), unit.ErrSyntax, text)
		assert.Equal(t, material.Drop{1, 3}, d)
	}
	_, err := material.Drop{3, 2}.MarshalText()
	require.ErrorIs(t, err, unit.ErrRange)
}

// Notations and widths of a chart are written as they are called.
func TestNamesAsText(t *testing.T) {
	for _, f := range []material.Footage{0, material.Tenths, material.Quarters, material.PointQuarters} {
		text, err := f.MarshalText()
		require.NoError(t, err)
		back := material.Footage(9)
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, f, back)
	}
	for _, c := range append(material.ChartWidths(), 0) {
		text, err := c.MarshalText()
		require.NoError(t, err)
		back := material.ChartWidth(99)
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, c, back)
	}
	_, err := material.Footage(9).MarshalText()
	require.ErrorIs(t, err, unit.ErrUnknown)
	require.ErrorIs(t, new(material.ChartWidth).UnmarshalText([]byte("53 in")), unit.ErrUnknown)
}

// A bare number is no area: its unit was forgotten.
func TestForgottenUnitOfAnArea(t *testing.T) {
	hide := material.Hide{Area: 50 * unit.SquareFoot}
	_, err := material.HidesToBuy(67, hide, material.WholeHideWaste())
	require.ErrorIs(t, err, unit.ErrForgottenUnit)
	_, err = material.HidesToBuy(67*unit.SquareFoot, material.Hide{Area: 50}, material.WholeHideWaste())
	require.ErrorIs(t, err, unit.ErrForgottenUnit)
	_, err = material.GrossArea(67, 0.3)
	require.ErrorIs(t, err, unit.ErrForgottenUnit)
	_, err = material.ForecastSkins(67, material.SkinSupply{Mean: 50 * unit.SquareFoot}, material.YieldRange{From: 0.6, To: 0.7}, 0.9)
	require.ErrorIs(t, err, unit.ErrForgottenUnit)
	_, err = material.ForecastSkins(67*unit.SquareFoot, material.SkinSupply{Mean: 50 * unit.SquareFoot, Spread: 4}, material.YieldRange{From: 0.6, To: 0.7}, 0.9)
	require.ErrorIs(t, err, unit.ErrForgottenUnit)
	_, err = material.ForecastSkins(67*unit.SquareFoot, material.SkinSupply{Sample: []unit.Area{50, 51}}, material.YieldRange{From: 0.6, To: 0.7}, 0.9)
	require.ErrorIs(t, err, unit.ErrForgottenUnit)
	require.ErrorIs(t, material.Skin{Kind: material.WholeHide, Area: 50}.Check(), unit.ErrForgottenUnit)
	_, err = material.NaturalShape(material.WholeHide, 50)
	require.ErrorIs(t, err, unit.ErrForgottenUnit)
	_, err = material.PartShares()[0].Of(50)
	require.ErrorIs(t, err, unit.ErrForgottenUnit)
}
