package cost_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

func TestItemRefused(t *testing.T) {
	t.Parallel()
	good := cost.Item[unit.Length]{Kind: cost.Goods, What: "cloth", Quantity: 7 * unit.Yard, Price: price[unit.Length](t, "42.00 USD/yd")}
	_, err := good.Line()
	require.NoError(t, err)
	for _, tc := range []struct {
		name  string
		spoil func(*cost.Item[unit.Length])
		field string
		err   error
	}{
		{"no kind", func(i *cost.Item[unit.Length]) { i.Kind = 0 }, "kind", unit.ErrRequired},
		{"odd kind", func(i *cost.Item[unit.Length]) { i.Kind = 99 }, "kind", unit.ErrRequired},
		{"no description", func(i *cost.Item[unit.Length]) { i.What = "" }, "what", unit.ErrRequired},
		{"no price", func(i *cost.Item[unit.Length]) { i.Price = cost.LengthPrice{} }, "price", unit.ErrRequired},
		{"negative", func(i *cost.Item[unit.Length]) { i.Quantity = -unit.Yard }, "quantity", unit.ErrRange},
		{"forgotten unit", func(i *cost.Item[unit.Length]) { i.Quantity = 7 }, "quantity", unit.ErrForgottenUnit},
		{"net above quantity", func(i *cost.Item[unit.Length]) { i.Net = 8 * unit.Yard }, "net", unit.ErrRange},
		{"negative net", func(i *cost.Item[unit.Length]) { i.Net = -unit.Yard }, "net", unit.ErrRange},
		{"margin of 100 %", func(i *cost.Item[unit.Length]) { i.Uplift = cost.Margin(1) }, "margin", unit.ErrRange},
		{"negative markup", func(i *cost.Item[unit.Length]) { i.Uplift = cost.Markup(-0.1) }, "markup", unit.ErrRange},
		{"NaN markup", func(i *cost.Item[unit.Length]) { i.Uplift = cost.Markup(unit.Ratio(math.NaN())) }, "markup", unit.ErrNotFinite},
		{"infinite margin", func(i *cost.Item[unit.Length]) { i.Uplift = cost.Margin(unit.Ratio(math.Inf(-1))) }, "margin", unit.ErrNotFinite},
	} {
		t.Run(tc.name, func(t *testing.T) {
			it := good
			tc.spoil(&it)
			_, err := it.Line()
			require.ErrorIs(t, err, tc.err)
			var in *unit.InputError
			require.ErrorAs(t, err, &in)
			require.Contains(t, in.Field, tc.field)
		})
	}
}

func TestTermsRefused(t *testing.T) {
	t.Parallel()
	lump := func(s string) cost.Line {
		l, err := cost.LumpSum(cost.Goods, "line", money(t, s))
		return line(t, l, err)
	}
	issued, err := cost.NewDate(2026, 2, 1)
	require.NoError(t, err)
	for _, tc := range []struct {
		name  string
		spoil func(*cost.Terms)
		field string
		err   error
	}{
		{"no currency", func(c *cost.Terms) { c.Currency = "" }, "currency", cost.ErrNoCurrency},
		{"unknown currency", func(c *cost.Terms) { c.Currency = "QQQ" }, "currency", unit.ErrUnknown},
		{"gold", func(c *cost.Terms) { c.Currency = "XAU" }, "currency", unit.ErrRange},
		{"other currency", func(c *cost.Terms) { c.Currency = cost.EUR }, "lines[0]", cost.ErrCurrency},
		{"unknown rounding", func(c *cost.Terms) { c.Rounding = 99 }, "rounding", cost.ErrMode},
		{"nameless levy", func(c *cost.Terms) { c.Tax.Levies = []cost.Levy{{Rate: 0.1}} }, "tax.levies[0].name", unit.ErrRequired},
		{"levy above 100 %", func(c *cost.Terms) { c.Tax.Levies = []cost.Levy{{Name: "x", Rate: 1.1}} }, "tax.levies[0].rate", unit.ErrRange},
		{"NaN levy", func(c *cost.Terms) { c.Tax.Levies = []cost.Levy{{Name: "x", Rate: unit.Ratio(math.NaN())}} }, "tax.levies[0].rate", unit.ErrNotFinite},
		{"misspelt class", func(c *cost.Terms) { c.Tax.Levies = []cost.Levy{{Name: "x", On: []cost.TaxClass{"good"}}} }, "tax.levies[0].on", unit.ErrUnknown},
		{"misspelt exception", func(c *cost.Terms) { c.Tax.Levies = []cost.Levy{{Name: "x", Except: []cost.TaxClass{"labuor"}}} }, "tax.levies[0].on", unit.ErrUnknown},
		{"odd level", func(c *cost.Terms) { c.Tax.Level = 7 }, "tax.level", unit.ErrUnknown},
		{"unknown regime", func(c *cost.Terms) { c.Tax.Regime = "MOON" }, "tax.regime", unit.ErrUnknown},
		{"mode against the regime", func(c *cost.Terms) { c.Tax.Regime, c.Tax.Rounding = "NZ", cost.HalfUp }, "tax.rounding", unit.ErrRange},
		{"level against the regime", func(c *cost.Terms) { c.Tax.Regime, c.Tax.Level = "JP", cost.PerLine }, "tax.level", unit.ErrRange},
		{"nameless discount", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Rate: 0.1}} }, "discounts[0].name", unit.ErrRequired},
		{"discount above 100 %", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Name: "x", Rate: 1.5}} }, "discounts[0].rate", unit.ErrRange},
		{"discount both ways", func(c *cost.Terms) {
			c.Discounts = []cost.Discount{{Name: "x", Rate: 0.1, Amount: money(t, "1 USD")}}
		}, "discounts[0].amount", unit.ErrRange},
		{"negative discount", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Name: "x", Amount: money(t, "-1 USD")}} }, "discounts[0].amount", unit.ErrRange},
		{"discount above the price", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Name: "x", Amount: money(t, "101 USD")}} }, "discounts[0].amount", unit.ErrRange},
		{"discount after tax above the total", func(c *cost.Terms) {
			c.Discounts = []cost.Discount{{Name: "x", Amount: money(t, "101 USD"), AfterTax: true}}
		}, "discounts[0].amount", unit.ErrRange},
		{"discount finer than a cent", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Name: "x", Amount: money(t, "1.005 USD")}} }, "discounts[0]", cost.ErrFraction},
		{"discount after tax finer than a cent", func(c *cost.Terms) {
			c.Discounts = []cost.Discount{{Name: "x", Amount: money(t, "1.005 USD"), AfterTax: true}}
		}, "discounts[0]", cost.ErrFraction},
		{"discount after tax in euros", func(c *cost.Terms) {
			c.Discounts = []cost.Discount{{Name: "x", Amount: money(t, "1 EUR"), AfterTax: true}}
		}, "discounts[0]", cost.ErrCurrency},
		{"valid for more than a century", func(c *cost.Terms) { c.Issued, c.ValidDays = issued, 36601 }, "valid_days", unit.ErrRange},
		{"discount in euros", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Name: "x", Amount: money(t, "1 EUR")}} }, "discounts[0]", cost.ErrCurrency},
		{"discount on an odd kind", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Name: "x", Rate: 0.1, Kinds: []cost.Kind{0}}} }, "discounts[0].kinds[0]", unit.ErrRequired},
		{"kinds after tax", func(c *cost.Terms) {
			c.Discounts = []cost.Discount{{Name: "x", Rate: 0.1, Kinds: []cost.Kind{cost.Goods}, AfterTax: true}}
		}, "discounts[0].kinds", unit.ErrRange},
		{"nameless stage", func(c *cost.Terms) { c.Stages = []cost.Stage{{}} }, "stages[0].name", unit.ErrRequired},
		{"shares that do not add up", func(c *cost.Terms) { c.Stages = []cost.Stage{{Name: "a", Share: 0.3}, {Name: "b", Share: 0.3}} }, "stages", unit.ErrRange},
		{"shares above the total", func(c *cost.Terms) {
			c.Stages = []cost.Stage{{Name: "a", Share: 0.8}, {Name: "b", Share: 0.8}, {Name: "c"}}
		}, "stages[2]", unit.ErrRange},
		{"two balances", func(c *cost.Terms) { c.Stages = []cost.Stage{{Name: "a"}, {Name: "b"}} }, "stages[1]", unit.ErrRange},
		{"stage both ways", func(c *cost.Terms) { c.Stages = []cost.Stage{{Name: "a", Share: 0.5, Amount: money(t, "1 USD")}} }, "stages[0].amount", unit.ErrRange},
		{"negative stage", func(c *cost.Terms) { c.Stages = []cost.Stage{{Name: "a", Amount: money(t, "-1 USD")}} }, "stages[0].amount", unit.ErrRange},
		{"stage in euros", func(c *cost.Terms) { c.Stages = []cost.Stage{{Name: "a", Amount: money(t, "1 EUR")}, {Name: "b"}} }, "stages[0].amount", cost.ErrCurrency},
		{"stage finer than a cent", func(c *cost.Terms) {
			c.Stages = []cost.Stage{{Name: "a", Amount: money(t, "0.001 USD")}, {Name: "b"}}
		}, "stages[0]", cost.ErrFraction},
		{"stage at least of no kind", func(c *cost.Terms) { c.Stages = []cost.Stage{{Name: "a", AtLeast: []cost.Kind{0}}, {Name: "b"}} }, "stages[0].at_least[0]", unit.ErrRequired},
		{"contingency above 100 %", func(c *cost.Terms) { c.Contingency = 2 }, "contingency", unit.ErrRange},
		{"class 6", func(c *cost.Terms) { c.Class = 6 }, "class", unit.ErrRange},
		{"negative days", func(c *cost.Terms) { c.Issued, c.ValidDays = issued, -1 }, "valid_days", unit.ErrRange},
		{"cash of another country", func(c *cost.Terms) { c.Cash, _ = cost.CashRuleOf(cost.CAD) }, "cash", cost.ErrCurrency},
		{"cash of an unknown mode", func(c *cost.Terms) { c.Cash = cost.CashRule{Step: money(t, "0.05 USD"), Rounding: 99} }, "cash", cost.ErrMode},
		{"two identical taxes", func(c *cost.Terms) {
			c.Tax.Levies = []cost.Levy{{Name: "VAT", Rate: 0.2}, {Name: "VAT", Rate: 0.2}}
		}, "tax.levies[1]", unit.ErrRange},
		{"one tax twice on the same line", func(c *cost.Terms) {
			c.Tax.Levies = []cost.Levy{{Name: "VAT", Rate: 0.2, On: []cost.TaxClass{"goods", "foam"}}, {Name: "VAT", Rate: 0.2, On: []cost.TaxClass{"goods"}}}
		}, "tax.levies[1]", unit.ErrRange},
		{"a discount of nothing", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Name: "x"}} }, "discounts[0].rate", unit.ErrRequired},
		{"valid days from no day", func(c *cost.Terms) { c.ValidDays = 30 }, "issued", unit.ErrRequired},
	} {
		t.Run(tc.name, func(t *testing.T) {
			terms := cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}
			tc.spoil(&terms)
			_, err := cost.NewQuote(terms, lump("100 USD"))
			require.ErrorIs(t, err, tc.err)
			var in *unit.InputError
			require.ErrorAs(t, err, &in)
			require.Contains(t, in.Field, tc.field)
		})
	}
	_, err = cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp})
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}, cost.Line{})
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}, lump("999999999999999 USD"), lump("1 USD"))
	require.ErrorIs(t, err, unit.ErrOverflow)
}
