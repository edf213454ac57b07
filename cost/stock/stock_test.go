package stock_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

const in = unit.Inch

func money(t *testing.T, text string) cost.Money {
	t.Helper()
	m, err := cost.ParseMoney(text)
	require.NoError(t, err)
	return m
}

// Every exported struct type goes through JSON, empty and with values of a job.
func TestEveryTypeIsJSON(t *testing.T) {
	perYard, err := cost.ParsePrice[unit.Length]("6 USD/yd")
	require.NoError(t, err)
	selvage, five := in/2, money(t, "5 USD")
	flaw := stock.Flaw{Y: in, Length: 2 * in}
	faults, err := roundtrip.Faults(os.DirFS("."), []any{flaw,
		stock.Length{Name: "rest", Length: 30 * in, Width: 20 * in, Selvage: &selvage, Remnant: true, FirstMotif: &shape.Point{X: in}, Flaws: []stock.Flaw{flaw}},
		stock.Keep{Width: 12 * in, Length: 18 * in}, stock.Handling{PerLength: perYard}, stock.Owned{Name: "hers", Length: unit.Yard, Cost: five, Markup: 0.25},
		stock.Supplied{Whose: stock.Customers, Supply: material.Tight, Charged: stock.NotCharged, Charge: five, Fee: five, BringHides: 1}, stock.Laid{On: "rest", Cuts: []int{1}, Left: in}})
	require.NoError(t, err)
	require.Empty(t, faults)
}

func TestNames(t *testing.T) {
	for _, w := range []stock.Whose{stock.Shops, stock.Customers} {
		text, err := w.MarshalText()
		require.NoError(t, err)
		var back stock.Whose
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, w, back)
	}
	for _, c := range []stock.Charged{0, stock.AsIfBought, stock.AtCost, stock.NotCharged} {
		text, err := c.MarshalText()
		require.NoError(t, err)
		var back stock.Charged
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, c, back)
	}
	_, err := stock.Whose(9).MarshalText()
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, err = stock.Charged(9).MarshalText()
	require.ErrorIs(t, err, unit.ErrUnknown)
	assert.Equal(t, "none", stock.Charged(0).String())
	assert.Equal(t, "customer", stock.Customers.String())
	assert.Equal(t, unit.Ratio(0), stock.AtCost.Uplift(cost.Markup(0.25)).Rate())
	assert.Equal(t, unit.Ratio(0.25), stock.AsIfBought.Uplift(cost.Markup(0.25)).Rate())
}

func TestHandlingRefuses(t *testing.T) {
	share, large := unit.Ratio(0.5), unit.Ratio(1.5)
	for want, h := range map[string]stock.Handling{
		"one of":      {Amount: money(t, "5 USD"), Share: &share},
		"per_area":    {},
		"share":       {Share: &large},
		"amount: “-5": {Amount: money(t, "-5 USD")},
	} {
		err := h.Check()
		var fault *unit.InputError
		require.ErrorAs(t, err, &fault, want)
		assert.Contains(t, err.Error(), want)
		_, _, err = h.Line(stock.Owned{Name: "hers"}, cost.HalfUp)
		require.Error(t, err)
	}
	assert.Len(t, stock.Handling{Amount: money(t, "5 USD")}.Money(), 1)
	require.NoError(t, stock.Usual().Check())
	require.Error(t, stock.Keep{Width: in, Length: 18 * in}.Check())
	require.Error(t, stock.Keep{Width: 12 * in}.Check())
	require.Error(t, stock.Length{}.Check(material.Roll{Width: 54 * in}))
}

// What a layout leaves is the same goods when it is written and read.
func TestLawRemnantsAreReadBack(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		inches := func(lo, hi int, name string) unit.Length {
			return unit.Length(rapid.IntRange(lo, hi).Draw(r, name)) * in
		}
		goods := material.Roll{Width: inches(40, 60, "width"), Selvage: inches(0, 2, "selvage"), Repeat: inches(0, 20, "repeat"), Shrinkage: unit.Ratio(rapid.IntRange(0, 9).Draw(r, "percent")) / 100}
		whole := material.Stock{Roll: goods, Length: inches(60, 120, "length")}
		whole.Roll.Shrinkage = 0
		part, err := whole.Part(inches(0, 20, "x"), inches(0, 30, "y"), inches(10, 15, "across"), inches(10, 30, "along"))
		if err != nil {
			r.Fatal(err)
		}
		l := stock.Remnant("rest", part, goods)
		if err := l.Check(goods); err != nil {
			r.Fatal(err)
		}
		back := l.Of(goods)
		back.Roll.Name = ""
		assert.Equal(r, part, back)
	})
}
