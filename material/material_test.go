package material_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

const in = unit.Inch

func TestHidesToBuyRefuses(t *testing.T) {
	good := material.Hide{Area: 50 * unit.SquareFoot}
	for name, c := range map[string]struct {
		net  unit.Area
		hide material.Hide
		w    unit.Ratio
		want error
	}{
		"negative net":  {-unit.SquareFoot, good, 0.3, unit.ErrRange},
		"bare net":      {67, good, 0.3, unit.ErrForgottenUnit},
		"no hide":       {unit.SquareFoot, material.Hide{}, 0.3, unit.ErrRange},
		"absurd hide":   {unit.SquareFoot, material.Hide{Area: 200 * unit.SquareFoot}, 0.3, unit.ErrRange},
		"thick hide":    {unit.SquareFoot, material.Hide{Area: 50 * unit.SquareFoot, Thickness: in}, 0.3, unit.ErrRange},
		"all waste":     {unit.SquareFoot, good, 1, unit.ErrRange},
		"waste is NaN":  {unit.SquareFoot, good, unit.Ratio(nan()), unit.ErrNotFinite},
		"negative loss": {unit.SquareFoot, good, -0.1, unit.ErrRange},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := material.HidesToBuy(c.net, c.hide, material.WasteFactor{Waste: c.w})
			require.ErrorIs(t, err, c.want)
		})
	}
}

func nan() float64 { z := 0.0; return z / z }

// An exact fit is not pushed over the edge by binary fractions.
func TestHidesToBuyExactFit(t *testing.T) {
	e, err := material.HidesToBuy(35*unit.SquareFoot, material.Hide{Area: 50 * unit.SquareFoot}, material.WasteFactor{Waste: 0.3})
	require.NoError(t, err)
	assert.Equal(t, 50*unit.SquareFoot, e.Gross)
	assert.Equal(t, 1, e.Hides)
	none, err := material.HidesToBuy(0, material.Hide{Area: 50 * unit.SquareFoot}, material.WholeHideWaste())
	require.NoError(t, err)
	assert.Zero(t, none.Hides)
}

// More waste never needs fewer hides, and the hides bought always cover gross.
func TestHidesLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		net := unit.Area(rapid.Int64Range(0, int64(900*unit.SquareFoot)).Draw(t, "net"))
		if net.Forgotten() {
			net = 0
		}
		h := material.Hide{Area: unit.Area(rapid.Int64Range(int64(unit.SquareFoot), int64(100*unit.SquareFoot)).Draw(t, "hide"))}
		w1 := unit.Ratio(rapid.IntRange(0, 89).Draw(t, "w1")) / 100
		w2 := w1 + unit.Ratio(rapid.IntRange(0, 89-int(w1*100)).Draw(t, "more"))/100
		a, err := material.HidesToBuy(net, h, material.WasteFactor{Waste: w1})
		require.NoError(t, err)
		b, err := material.HidesToBuy(net, h, material.WasteFactor{Waste: min(w2, 0.9)})
		require.NoError(t, err)
		assert.LessOrEqual(t, a.Gross, b.Gross)
		assert.LessOrEqual(t, a.Hides, b.Hides)
		assert.GreaterOrEqual(t, unit.Area(a.Hides)*h.Area, a.Gross)
		assert.GreaterOrEqual(t, a.Gross, net)
	})
}

// A part of a foot is one digit, below four where feet are in quarters.
func TestFootageMarks(t *testing.T) {
	for _, r := range []struct {
		mark string
		n    material.Footage
		want unit.Area // 0 for what is refused
	}{
		{"50.9", material.Tenths, 509 * unit.SquareFoot / 10}, {"50.x", material.Tenths, 0}, {"50.", material.Tenths, 0}, {"50.12", material.Tenths, 0},
		{"50.3", material.PointQuarters, 203 * unit.SquareFoot / 4}, {"50.4", material.PointQuarters, 0}, {"50.03", material.PointQuarters, 0},
		{"50/3", material.Quarters, 203 * unit.SquareFoot / 4}, {"50/4", material.Quarters, 0}, {"50.3", material.Quarters, 0}, {"50", material.Quarters, 50 * unit.SquareFoot},
		{"1000", material.Tenths, 1000 * unit.SquareFoot}, {"1001", material.Tenths, 0}, {"x", material.Tenths, 0}, {"-1", material.Tenths, 0}, {"50", 0, 0}, {"50", 9, 0},
	} {
		got, err := material.ParseFootage(r.mark, r.n)
		assert.Equal(t, r.want, got, "%s %v", r.mark, r.n)
		assert.Equal(t, r.want == 0, err != nil, "%s %v", r.mark, r.n)
	}
}

func FuzzParseFootage(f *testing.F) {
	for _, s := range []string{"4/1", "50.3", "12", "4/5", "", "99999999999", "1.10", "-3"} {
		f.Add(s, uint8(1))
		f.Add(s, uint8(2))
	}
	f.Fuzz(func(t *testing.T, s string, n uint8) {
		a, err := material.ParseFootage(s, material.Footage(n))
		if err == nil && (a < 0 || a > 1001*unit.SquareFoot) {
			t.Fatalf("%q: %v", s, a)
		}
	})
}

// The usual loss of a whole hide and its usual yield are one figure.
func TestWholeHideIsOneFigure(t *testing.T) {
	i := slices.IndexFunc(material.Yields(material.MixedPieces), func(y material.YieldRange) bool { return y.Kind == material.WholeHide })
	require.NotEqual(t, -1, i)
	y := material.Yields(material.MixedPieces)[i]
	assert.InDelta(t, 1-float64(material.WholeHideWaste().Waste), float64(y.From), 1e-12)
	assert.InDelta(t, float64(y.From), float64(y.To), 0)
}
