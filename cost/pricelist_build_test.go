package cost_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

func drawEntry[Q cost.Quantity](t *rapid.T, code string, per ...Q) cost.Entry {
	p, err := cost.Per(drawMinor(t, cost.USD, 0, 1_000_000), rapid.SampledFrom(per).Draw(t, "per"))
	require.NoError(t, err)
	text := rapid.StringMatching(`[a-z"';,|\\ä€][ -~ä€]{0,20}[a-z"'\\ä€]`)
	e, err := cost.NewEntry(code, rapid.SampledFrom(cost.Kinds()).Draw(t, "kind"), text.Draw(t, "what"), p)
	require.NoError(t, err)
	switch rapid.IntRange(0, 2).Draw(t, "uplift") {
	case 1:
		e.Uplift = cost.Markup(unit.Ratio(rapid.IntRange(0, 10_000).Draw(t, "markup")) / 1000)
	case 2:
		e.Uplift = cost.Margin(unit.Ratio(rapid.IntRange(0, 990).Draw(t, "margin")) / 1000)
	}
	if rapid.Bool().Draw(t, "sold") {
		step := p.Unit() * Q(rapid.IntRange(1, 20).Draw(t, "step"))
		e.Step, e.Pack = cost.AnyOf(step), cost.AnyOf(step*Q(rapid.IntRange(1, 20).Draw(t, "pack")))
		e.CutCharge = drawMinor(t, cost.USD, 1, 10_000)
	}
	if rapid.Bool().Draw(t, "bought") {
		e.Least, e.Freight, e.Supplier = cost.AnyOf(p.Unit()), drawMinor(t, cost.USD, 1, 10_000), text.Draw(t, "supplier")
		var err error
		e.Dated, err = cost.NewDate(2026, rapid.IntRange(1, 12).Draw(t, "month"), 30-rapid.IntRange(2, 20).Draw(t, "day"))
		require.NoError(t, err)
	}
	if e.Uplift == (cost.Uplift{}) && rapid.Bool().Draw(t, "as listed") {
		e.Sells = cost.AsListed
	}
	if rapid.Bool().Draw(t, "classed") {
		e.TaxClass = cost.TaxClass(text.Draw(t, "class"))
	}
	return e
}

// A list built in Go goes through CSV and JSON without loss; a new price takes
// the place of the old one, and what is taken out is gone.
func TestLawPriceList(t *testing.T) {
	t.Parallel()
	perMetre := price[unit.Length](t, "1.00 EUR/m").Any()
	rapid.Check(t, func(t *rapid.T) {
		var l cost.PriceList
		n := rapid.IntRange(0, 8).Draw(t, "n")
		for i := range n {
			code := fmt.Sprintf("%s-%d", rapid.StringMatching(`[A-Z";,]{1,5}`).Draw(t, "code"), i)
			var e cost.Entry
			switch rapid.IntRange(0, 5).Draw(t, "quantity") {
			case 0:
				e = drawEntry(t, code, unit.Yard, unit.Metre, 3*unit.Foot+unit.Mil)
			case 1:
				e = drawEntry(t, code, unit.SquareFoot, unit.SquareDecimetre)
			case 2:
				e = drawEntry(t, code, unit.BoardFoot, 7*unit.Litre)
			case 3:
				e = drawEntry(t, code, unit.Pound, 5*unit.Pound)
			case 4:
				e = drawEntry(t, code, unit.Hour)
			default:
				e = drawEntry(t, code, cost.Pieces(1), 100)
			}
			var err error
			l, err = l.With(e)
			require.NoError(t, err)
		}
		var csv bytes.Buffer
		require.NoError(t, l.WriteCSV(&csv))
		back, err := cost.ReadPriceListCSV(&csv)
		require.NoError(t, err)
		require.Equal(t, l, back)
		text, err := json.Marshal(l)
		require.NoError(t, err)
		back, err = cost.ReadPriceListJSON(bytes.NewReader(text))
		require.NoError(t, err)
		require.Equal(t, l, back)
		if n == 0 {
			return
		}
		old := l.Entries()[rapid.IntRange(0, n-1).Draw(t, "which")]
		changed := cost.Entry{Code: old.Code, Kind: cost.Delivery, What: old.What, Price: perMetre}
		m, err := l.With(changed)
		require.NoError(t, err)
		require.Len(t, m.Entries(), n)
		got, err := m.Entry(old.Code)
		require.NoError(t, err)
		require.Equal(t, changed, got)
		kept, err := l.Entry(old.Code)
		require.NoError(t, err)
		require.Equal(t, old, kept, "the list itself is never changed")
		m, err = m.Without(old.Code)
		require.NoError(t, err)
		require.Len(t, m.Entries(), n-1)
		_, err = m.Entry(old.Code)
		require.ErrorIs(t, err, unit.ErrUnknown)
	})
}

func TestEntryRefused(t *testing.T) {
	t.Parallel()
	yard := price[unit.Length](t, "42.00 USD/yd")
	for _, tc := range []struct {
		name  string
		spoil func(*cost.Entry)
		field unit.Path
		err   error
	}{
		{"no code", func(e *cost.Entry) { e.Code = "" }, "code", unit.ErrRequired},
		{"code with space", func(e *cost.Entry) { e.Code = " A" }, "code", unit.ErrSyntax},
		{"code of two lines", func(e *cost.Entry) { e.Code = "A\r\nB" }, "code", unit.ErrSyntax},
		{"code not UTF-8", func(e *cost.Entry) { e.Code = "\xff" }, "code", unit.ErrSyntax},
		{"no kind", func(e *cost.Entry) { e.Kind = 0 }, "kind", unit.ErrRequired},
		{"no description", func(e *cost.Entry) { e.What = "" }, "description", unit.ErrRequired},
		{"long description", func(e *cost.Entry) { e.What = string(bytes.Repeat([]byte("x"), 161)) }, "description", unit.ErrRange},
		{"no price", func(e *cost.Entry) { e.Price = cost.AnyPrice{} }, "price", unit.ErrRequired},
		{"markup too high", func(e *cost.Entry) { e.Uplift = cost.Markup(101) }, "uplift", unit.ErrRange},
		{"no step", func(e *cost.Entry) { e.Step = cost.AnyOf(unit.Length(0)) }, "step", unit.ErrRange},
		{"step without unit", func(e *cost.Entry) { e.Step = cost.AnyOf(unit.Length(3)) }, "step", unit.ErrForgottenUnit},
		{"step of another kind", func(e *cost.Entry) { e.Step = cost.AnyOf(unit.SquareFoot) }, "step", unit.ErrUnknownUnit},
		{"pack of another kind", func(e *cost.Entry) { e.Pack = cost.AnyOf(cost.Pieces(12)) }, "pack", unit.ErrUnknownUnit},
		{"pack under a step", func(e *cost.Entry) { e.Step, e.Pack = cost.AnyOf(unit.Yard), cost.AnyOf(unit.Yard-unit.Mil) }, "pack", unit.ErrRange},
		{"least of another kind", func(e *cost.Entry) { e.Least = cost.AnyOf(unit.Hour) }, "least", unit.ErrUnknownUnit},
		{"negative cut charge", func(e *cost.Entry) { e.CutCharge = money(t, "-1 USD") }, "cut_charge", unit.ErrRange},
		{"freight in other money", func(e *cost.Entry) { e.Freight = money(t, "1 EUR") }, "freight", cost.ErrCurrency},
		{"supplier of two lines", func(e *cost.Entry) { e.Supplier = "A\nB" }, "supplier", unit.ErrSyntax},
		{"sells in no way", func(e *cost.Entry) { e.Sells = 9 }, "sells", unit.ErrUnknown},
		{"marked up as listed", func(e *cost.Entry) { e.Sells, e.Uplift = cost.AsListed, cost.Markup(0.2) }, "uplift", unit.ErrRange},
		{"long class", func(e *cost.Entry) { e.TaxClass = cost.TaxClass(bytes.Repeat([]byte("x"), 161)) }, "tax_class", unit.ErrRange},
	} {
		e, err := cost.NewEntry("A", cost.Goods, "cloth", yard)
		require.NoError(t, err)
		tc.spoil(&e)
		_, err = cost.PriceList{}.With(e)
		require.ErrorIs(t, err, tc.err, tc.name)
		var in *unit.InputError
		require.ErrorAs(t, err, &in, tc.name)
		require.Equal(t, "entries[0]."+tc.field, in.Field, tc.name)
	}
	_, err := cost.NewEntry("A", cost.Goods, "cloth", cost.LengthPrice{})
	require.ErrorIs(t, err, unit.ErrRequired)
	e, err := cost.NewEntry("A", cost.Goods, "cloth", yard)
	require.NoError(t, err)
	_, err = cost.PriceList{}.With(e, e)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = cost.PriceList{}.Without("A")
	require.ErrorIs(t, err, unit.ErrUnknown)
}

// "25" for a markup is 25 times the cost; what can only be meant as a
// percentage must say so.
func TestMarkupNeedsItsSign(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]cost.Uplift{
		"0.25 markup": cost.Markup(0.25), "3 markup": cost.Markup(3), "400 % markup": cost.Markup(4), "10000 % markup": cost.Markup(100),
	} {
		var u cost.Uplift
		require.NoError(t, u.UnmarshalText([]byte(text)), text)
		require.Equal(t, want, u)
		back, err := u.MarshalText()
		require.NoError(t, err)
		var again cost.Uplift
		require.NoError(t, again.UnmarshalText(back))
		require.Equal(t, u, again, "%s", back)
	}
	for _, text := range []string{"25 markup", "3.01 markup", "1e2 markup", "10001 % markup"} {
		var u cost.Uplift
		require.ErrorIs(t, u.UnmarshalText([]byte(text)), unit.ErrRange, text)
	}
	_, err := cost.Markup(101).Price(money(t, "1 USD"), cost.HalfUp)
	require.ErrorContains(t, err, "from 0 % to 10000 %")
}

// What a line is priced by comes out of a quote as what went in.
func TestQuoteLineIsTyped(t *testing.T) {
	t.Parallel()
	it := fullItem(t)
	l, err := it.Line()
	require.NoError(t, err)
	q, err := cost.NewQuote(cost.Terms{Currency: cost.CAD}, l, l)
	require.NoError(t, err)
	for _, ql := range q.Lines {
		require.Equal(t, "pieces[1]", ql.Source)
		n, ok := cost.QuantityAs[unit.Length](ql.Exact.Quantity)
		require.True(t, ok)
		require.Equal(t, it.Quantity, n)
		p, err := cost.PriceAs[unit.Length](ql.Exact.Price)
		require.NoError(t, err)
		require.Equal(t, it.Price, p)
		_, ok = cost.QuantityAs[unit.Area](ql.Exact.Quantity)
		require.False(t, ok)
		_, err = cost.PriceAs[unit.Area](ql.Exact.Price)
		require.ErrorIs(t, err, unit.ErrUnknownUnit)
	}
	require.Equal(t, []string{"CLOTH", "CLOTH (2)"}, []string{q.Lines[0].ID, q.Lines[1].ID})
	require.Equal(t, "7 yd", q.Lines[0].Quantity)
	_, err = cost.PriceAs[unit.Area](cost.AnyPrice{})
	require.ErrorIs(t, err, unit.ErrRequired)

	l.Amount.Quantity = cost.AnyOf(3 * unit.Hour)
	_, err = cost.NewQuote(cost.Terms{Currency: cost.CAD}, l)
	require.ErrorIs(t, err, unit.ErrUnknownUnit)
	for _, s := range []string{"7", "yd", "7 parsec", "1,5 m", "0.5 pieces"} {
		var a cost.AnyQuantity
		require.Error(t, a.UnmarshalText([]byte(s)), s)
	}
}

// The amount as a decimal and back.
func TestMoneyDecimal(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		m, err := drawMinor(t, cost.KWD, -1<<50, 1<<50).MulDiv(1, rapid.Int64Range(1, 1000).Draw(t, "by"), cost.HalfUp)
		require.NoError(t, err)
		back, err := cost.MoneyOf(m.Decimal(), cost.KWD)
		require.NoError(t, err)
		require.Equal(t, m, back)
		require.Equal(t, m.Amount(), m.Decimal().StringFixed(3))
		again, err := cost.RoundMoney(m.Rat(), cost.KWD, cost.Down)
		require.NoError(t, err)
		require.Equal(t, m, again)
	})
}
