package cost_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// soldEntry is an entry that says all about how it is sold.
func soldEntry(t testing.TB) cost.Entry {
	t.Helper()
	e, err := cost.NewEntry("webbing", cost.Sundries, "jute webbing", price[unit.Length](t, "0.90 USD/yd"))
	require.NoError(t, err)
	e.Step, e.Pack, e.Least = cost.AnyOf(unit.Yard/4), cost.AnyOf(72*unit.Yard), cost.AnyOf(unit.Yard)
	e.CutCharge, e.Freight, e.Supplier = money(t, "2.00 USD"), money(t, "14.00 USD"), "the mill"
	e.Dated, err = cost.NewDate(2026, 11, 2)
	require.NoError(t, err)
	return e
}

// Worked by hand, at 0.90 a yard, in quarters of a yard, at least a yard, by
// the roll of 72 yd, 2.00 for a cut: 500 in are 13.889 yd, so 14 yd, 12.60 and
// the cut.
func TestChargeWorked(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		used        unit.Length
		use, amount string
		packs       int
		cut         bool
	}{
		{500 * unit.Inch, "14 yd", "14.60 USD", 1, true},
		{14 * unit.Yard, "14 yd", "14.60 USD", 1, true},
		{14*unit.Yard + 1, "14.25 yd", "14.83 USD", 1, true}, // 12.825 + 2
		{9 * unit.Inch, "1 yd", "2.90 USD", 1, true},
		{72 * unit.Yard, "72 yd", "64.80 USD", 1, false},
		{72*unit.Yard + 1, "72.25 yd", "67.03 USD", 2, true}, // 65.025 + 2
		{144 * unit.Yard, "144 yd", "129.60 USD", 2, false},
		{0, "0 yd", "0.00 USD", 0, false},
	} {
		c, err := soldEntry(t).Charge(cost.AnyOf(tc.used), cost.HalfUp)
		require.NoError(t, err)
		require.Equal(t, tc.amount, c.Amount.String(), tc.used)
		require.Equal(t, tc.packs, c.Packs, tc.used)
		require.Equal(t, tc.cut, !c.Cut.IsZero(), tc.used)
		l, err := c.Line()
		require.NoError(t, err)
		q, err := cost.NewQuote(cost.Terms{Currency: cost.USD}, l)
		require.NoError(t, err)
		require.Equal(t, tc.use, q.Lines[0].Quantity, tc.used)
		require.Equal(t, tc.amount, q.Total.String(), "the line comes to what the charge says")
	}
	// What comes in no pack is always cut; what has no step is charged as used.
	e := soldEntry(t)
	e.Step, e.Pack, e.Least = cost.AnyQuantity{}, cost.AnyQuantity{}, cost.AnyQuantity{}
	c, err := e.Charge(cost.AnyOf(90*unit.Inch), cost.HalfUp)
	require.NoError(t, err)
	require.Equal(t, "4.25 USD", c.Amount.String())
	require.Zero(t, c.Packs)
}

func TestChargeRefuses(t *testing.T) {
	t.Parallel()
	e := soldEntry(t)
	for _, tc := range []struct {
		used  cost.AnyQuantity
		mode  cost.Rounding
		field unit.Path
		err   error
	}{
		{cost.AnyOf(unit.SquareFoot), cost.HalfUp, "used", unit.ErrUnknownUnit},
		{cost.AnyQuantity{}, cost.HalfUp, "used", unit.ErrUnknownUnit},
		{cost.AnyOf(-unit.Yard), cost.HalfUp, "used", unit.ErrRange},
		{cost.AnyOf(unit.Length(7)), cost.HalfUp, "used", unit.ErrForgottenUnit},
		{cost.AnyOf(unit.Length(math.MaxInt64)), cost.HalfUp, "used", unit.ErrOverflow},
		{cost.AnyOf(unit.Yard), 99, "", cost.ErrMode},
	} {
		_, err := e.Charge(tc.used, tc.mode)
		require.ErrorIs(t, err, tc.err)
		if tc.field != "" {
			var in *unit.InputError
			require.ErrorAs(t, err, &in)
			require.Equal(t, tc.field, in.Field)
		}
	}
	many, err := cost.NewEntry("nail", cost.Sundries, "nails", price[cost.Pieces](t, "0.01 USD/piece"))
	require.NoError(t, err)
	many.Pack = cost.AnyOf(cost.Pieces(1))
	_, err = many.Charge(cost.AnyOf(cost.Pieces(1)<<40), cost.HalfUp)
	require.ErrorIs(t, err, unit.ErrOverflow)
	e.Kind = 0
	_, err = e.Charge(cost.AnyOf(unit.Yard), cost.HalfUp)
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = cost.Freight(e)
	require.ErrorContains(t, err, "entries[0].kind")
}

// What is charged is enough, is sold that way, and no less would do; packs hold
// it and one pack fewer would not.
func TestLawCharge(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		e := drawEntry(t, "A", cost.Pieces(1), 100, 1000)
		used := cost.Pieces(rapid.Int64Range(1, 1_000_000).Draw(t, "used"))
		c, err := e.Charge(cost.AnyOf(used), rapid.SampledFrom(cost.Roundings()).Draw(t, "mode"))
		require.NoError(t, err)
		of := func(a cost.AnyQuantity) cost.Pieces { n, _ := cost.QuantityAs[cost.Pieces](a); return n }
		use, step, pack, least := of(c.Use), max(of(e.Step), 1), of(e.Pack), of(e.Least)
		require.GreaterOrEqual(t, use, max(used, least))
		require.Zero(t, use%step)
		require.Less(t, use-step, max(used, least))
		if pack > 0 {
			require.GreaterOrEqual(t, cost.Pieces(c.Packs)*pack, use)
			require.Less(t, cost.Pieces(c.Packs-1)*pack, use)
			require.Equal(t, use%pack == 0, c.Cut.IsZero())
		}
		more, err := e.Charge(cost.AnyOf(used+1), cost.HalfUp)
		require.NoError(t, err)
		require.GreaterOrEqual(t, of(more.Use), use)
	})
}

// Freight comes once an order, however many entries it brings.
func TestFreight(t *testing.T) {
	t.Parallel()
	from := func(supplier, freight string) cost.Entry {
		e := soldEntry(t)
		e.Supplier, e.Freight = supplier, money(t, freight)
		return e
	}
	listed := from("the tannery", "30.00 USD")
	listed.Sells = cost.AsListed
	lines, err := cost.Freight(from("the mill", "14.00 USD"), from("", "3.00 USD"), from("the mill", "16.50 USD"), listed, from("", "4.00 USD"), from("the mill", "0 USD"))
	require.NoError(t, err)
	var got []string
	for _, l := range lines {
		require.Equal(t, cost.Delivery, l.Kind)
		got = append(got, l.What+" "+l.Amount.Price.Amount().String()+" "+l.Sells.String())
	}
	require.Equal(t, []string{"freight, the mill 16.50 USD marked up", "freight, jute webbing 3.00 USD marked up",
		"freight, the tannery 30.00 USD as listed", "freight, jute webbing 4.00 USD marked up"}, got)
}

// A price that the customer pays is taken as it stands, and no profit is made
// up for it: cost, profit and margin are those of the other lines.
func TestAsListedHasNoMargin(t *testing.T) {
	t.Parallel()
	listed, err := cost.Item[unit.Length]{Kind: cost.Goods, What: "cloth", Quantity: 5 * unit.Yard, Net: 4 * unit.Yard,
		Price: price[unit.Length](t, "60.00 USD/yd"), Sells: cost.AsListed}.Line()
	require.NoError(t, err)
	marked, err := cost.Item[cost.Pieces]{Kind: cost.Foam, What: "foam", Quantity: 1, Price: price[cost.Pieces](t, "80.00 USD/piece"), Uplift: cost.Markup(25 * unit.Percent)}.Line()
	require.NoError(t, err)
	terms := cost.Terms{Currency: cost.USD, Tax: cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: 0.1}}}}
	q, err := cost.NewQuote(terms, listed, marked)
	require.NoError(t, err)
	require.Equal(t, "400.00 USD", q.Net.String())
	require.Equal(t, "80.00 USD", q.Cost.String())
	require.Equal(t, "300.00 USD", q.CostUnknown.String())
	require.Equal(t, "20.00 USD", q.Profit.String())
	require.InDelta(t, 0.2, float64(q.Margin()), 1e-12)
	require.Equal(t, "0.00 USD", q.Lines[0].WasteCost.String())
	f, err := q.Explain("profit")
	require.NoError(t, err)
	require.Contains(t, f[0].String(), "- 300.00 -> 20.00 USD")
	f, err = q.Explain("cloth")
	require.NoError(t, err)
	require.Contains(t, f[0].Rule, "the cost is not known")

	// 44 off the 440 with tax: 33 of it off the cloth.
	terms.Discounts = []cost.Discount{{Name: "repaid", Amount: money(t, "44.00 USD"), AfterTax: true}}
	q, err = cost.NewQuote(terms, listed, marked)
	require.NoError(t, err)
	require.Equal(t, "267.00 USD", q.CostUnknown.String())
	require.Equal(t, "9.00 USD", q.Profit.String())

	only, err := cost.NewQuote(terms, listed)
	require.NoError(t, err)
	require.True(t, only.Profit.IsZero())
	require.Zero(t, only.Margin())

	listed.Uplift = cost.Markup(0.1)
	_, err = cost.NewQuote(terms, listed)
	require.ErrorIs(t, err, unit.ErrRange)
	listed.Uplift, listed.Sells = cost.Uplift{}, 9
	_, err = cost.NewQuote(terms, listed)
	require.ErrorIs(t, err, unit.ErrUnknown)
	marked.Amount.Fixed = money(t, "-1 USD")
	_, err = cost.NewQuote(terms, marked)
	require.ErrorIs(t, err, unit.ErrRange)
	marked.Amount.Fixed = money(t, "1 EUR")
	_, err = cost.NewQuote(terms, marked)
	require.ErrorIs(t, err, cost.ErrCurrency)
}

// The most that can be rounded up to a step is rounded up.
func TestChargeAtTheEndOfLengths(t *testing.T) {
	t.Parallel()
	e := soldEntry(t)
	e.Pack = cost.AnyQuantity{}
	const step = unit.Yard / 4
	c, err := e.Charge(cost.AnyOf(math.MaxInt64-step), cost.HalfUp)
	require.NoError(t, err)
	use, _ := cost.QuantityAs[unit.Length](c.Use)
	require.Equal(t, math.MaxInt64/step*step, use)
	_, err = e.Charge(cost.AnyOf(math.MaxInt64-step+1), cost.HalfUp)
	require.ErrorIs(t, err, unit.ErrOverflow)
}
