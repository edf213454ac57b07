package cost_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

func lumpsOf(t *testing.T, kind cost.Kind, c cost.Currency, amounts ...string) []cost.Line {
	t.Helper()
	var out []cost.Line
	for _, a := range amounts {
		l, err := cost.LumpSum(kind, "line", money(t, a+" "+string(c)))
		out = append(out, line(t, l, err))
	}
	return out
}

// Two taxes inside the price, on lines they do not share alike: of 122.50 at
// 10 % and 12.5 % together a part of 100.00 is net.
func TestTaxInclusiveSeveralRates(t *testing.T) {
	t.Parallel()
	lines := append(lumpsOf(t, cost.Goods, cost.USD, "122.50"), lumpsOf(t, cost.Labour, cost.USD, "110.00")...)
	tax := cost.Tax{Inclusive: true, Levies: []cost.Levy{
		{Name: "state", Rate: 10 * unit.Percent},
		{Name: "city", Rate: 12.5 * unit.Percent, On: []cost.TaxClass{"goods"}},
	}}
	for _, level := range []cost.TaxLevel{cost.PerInvoice, cost.PerLine} {
		tax.Level = level
		q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Tax: tax}, lines...)
		require.NoError(t, err)
		require.Equal(t, "20.00 USD", q.Taxes[0].Tax.String())
		require.Equal(t, "12.50 USD", q.Taxes[1].Tax.String())
		require.Equal(t, "200.00 USD", q.Net.String())
		require.Equal(t, "232.50 USD", q.Total.String())
		require.Equal(t, "22.50 USD", q.Lines[0].Tax.String())
		require.Equal(t, "10.00 USD", q.Lines[1].Tax.String())
		addsUp(t, q)
	}
}

// State and local tax as one: 0.5 % and 0.5 % of 1.00 are half a cent each, so
// apart they come to two cents and together to one, which the first levy gets.
func TestTaxTogether(t *testing.T) {
	t.Parallel()
	for _, level := range []cost.TaxLevel{cost.PerInvoice, cost.PerLine} {
		for together, want := range map[bool][]string{false: {"0.01", "0.01", "0.02"}, true: {"0.01", "0.00", "0.01"}} {
			q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Tax: cost.Tax{Level: level, Together: together,
				Levies: []cost.Levy{{Name: "state", Rate: 0.005}, {Name: "city", Rate: 0.005}}}}, lumpsOf(t, cost.Goods, cost.USD, "1.00")...)
			require.NoError(t, err)
			require.Equal(t, want, []string{q.Taxes[0].Tax.Amount(), q.Taxes[1].Tax.Amount(), q.Tax.Amount()})
			addsUp(t, q)
		}
	}
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Tax: cost.Tax{Together: true}}, lumpsOf(t, cost.Goods, cost.USD, "1.00")...)
	require.NoError(t, err)
	require.True(t, q.Tax.IsZero())
}

// A rate on labour and another on goods, none on delivery.
func TestTaxByKind(t *testing.T) {
	t.Parallel()
	lines := append(append(lumpsOf(t, cost.Goods, cost.EUR, "100.00"), lumpsOf(t, cost.Labour, cost.EUR, "200.00")...), lumpsOf(t, cost.Delivery, cost.EUR, "50.00")...)
	q, err := cost.NewQuote(cost.Terms{Currency: cost.EUR, Rounding: cost.HalfUp, Tax: cost.Tax{Levies: []cost.Levy{
		{Name: "goods rate", Rate: 20 * unit.Percent, On: []cost.TaxClass{cost.Goods.TaxClass()}},
		{Name: "labour rate", Rate: 10 * unit.Percent, Except: []cost.TaxClass{cost.Goods.TaxClass(), cost.Delivery.TaxClass()}},
	}}}, lines...)
	require.NoError(t, err)
	require.Equal(t, []string{"20.00 EUR", "20.00 EUR", "0.00 EUR"}, []string{q.Lines[0].Tax.String(), q.Lines[1].Tax.String(), q.Lines[2].Tax.String()})
	require.Equal(t, "390.00 EUR", q.Total.String())
	require.Equal(t, "200.00 EUR", q.Taxes[1].Base.String())
}

// A line with a class of its own is taxed by that class and not by its kind.
func TestTaxClassOfALine(t *testing.T) {
	t.Parallel()
	made, err := cost.Item[unit.Duration]{Kind: cost.Labour, What: "making cushions", Quantity: 2 * unit.Hour,
		Price: price[unit.Duration](t, "50.00 USD/h"), TaxClass: "fabrication labour"}.Line()
	lines := []cost.Line{line(t, made, err)}
	repair, err := cost.Item[unit.Duration]{Kind: cost.Labour, What: "stripping", Quantity: 3 * unit.Hour, Price: price[unit.Duration](t, "50.00 USD/h")}.Line()
	lines = append(lines, line(t, repair, err))
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Tax: cost.Tax{Levies: []cost.Levy{
		{Name: "sales tax", Rate: 10 * unit.Percent, On: []cost.TaxClass{"fabrication labour", "goods"}}}}}, lines...)
	require.NoError(t, err)
	require.Equal(t, "10.00 USD", q.Tax.String())
	require.Equal(t, "100.00 USD", q.Taxes[0].Base.String())
}

func TestTaxRegimeChoosesTheMode(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct{ regime, want string }{{"US-SST", "1.49 USD"}, {"NZ", "1.48 USD"}, {"JP", "1.48 USD"}, {"GB", "1.49 USD"}, {"GB-INVOICE", "1.48 USD"}} {
		q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Tax: cost.Tax{Regime: tc.regime,
			Levies: []cost.Levy{{Name: "tax", Rate: 7.5 * unit.Percent}}}}, lumpsOf(t, cost.Goods, cost.USD, "4.95", "4.95", "4.95", "4.95")...)
		require.NoError(t, err)
		require.Equal(t, tc.want, q.Tax.String(), tc.regime)
		f, err := q.Explain("tax")
		require.NoError(t, err)
		require.Equal(t, q.Tax.String(), f[0].Value)
	}
}

// 10 % off 100.00 with 8 % tax: before tax it lowers the tax, after tax not.
func TestDiscountBeforeAndAfterTax(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		after                  bool
		tax, credit, net, want string
	}{{false, "7.20 USD", "0.00 USD", "90.00 USD", "97.20 USD"}, {true, "8.00 USD", "10.80 USD", "100.00 USD", "97.20 USD"}} {
		q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp,
			Tax:       cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: 8 * unit.Percent}}},
			Discounts: []cost.Discount{{Name: "off", Rate: 10 * unit.Percent, AfterTax: tc.after}}}, lumpsOf(t, cost.Goods, cost.USD, "60.00", "40.00")...)
		require.NoError(t, err)
		require.Equal(t, tc.tax, q.Tax.String())
		require.Equal(t, tc.credit, q.Credit.String())
		require.Equal(t, tc.net, q.Net.String())
		require.Equal(t, tc.want, q.Total.String())
	}
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Discounts: []cost.Discount{
		{Name: "first", Rate: 10 * unit.Percent}, {Name: "second", Rate: 10 * unit.Percent}, {Name: "coupon", Amount: money(t, "1.00 USD"), AfterTax: true}}},
		lumpsOf(t, cost.Goods, cost.USD, "100.00")...)
	require.NoError(t, err)
	require.Equal(t, "19.00 USD", q.Discount.String(), "the second takes its share of what the first has left")
	require.Equal(t, "80.00 USD", q.Total.String())
	all, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Stages: []cost.Stage{{Name: "deposit", Share: 0.5}, {Name: "balance"}},
		Discounts: []cost.Discount{{Name: "all of it", Rate: 1}}}, lumpsOf(t, cost.Goods, cost.USD, "33.33", "66.67")...)
	require.NoError(t, err)
	require.True(t, all.Total.IsZero())
	addsUp(t, all)
	require.Zero(t, all.Margin())
}

func TestStages(t *testing.T) {
	t.Parallel()
	lines := append(lumpsOf(t, cost.Goods, cost.USD, "700.00"), lumpsOf(t, cost.Labour, cost.USD, "300.01")...)
	for _, tc := range []struct {
		name   string
		stages []cost.Stage
		want   []string
	}{
		{"half", []cost.Stage{{Name: "deposit", Share: 0.5}, {Name: "balance"}}, []string{"500.01", "500.00"}},
		{"half, at least the material", []cost.Stage{{Name: "deposit", Share: 0.5, AtLeast: []cost.Kind{cost.Goods}}, {Name: "balance"}}, []string{"700.00", "300.01"}},
		{"at least everything", []cost.Stage{{Name: "deposit", AtLeast: []cost.Kind{cost.Goods, cost.Labour}}, {Name: "balance"}}, []string{"1000.01", "0.00"}},
		{"a fixed sum first", []cost.Stage{{Name: "deposit", Amount: money(t, "250 USD")}, {Name: "stripped", Share: 0.25}, {Name: "balance"}}, []string{"250.00", "250.00", "500.01"}},
		{"three shares", []cost.Stage{{Name: "a", Share: 0.3}, {Name: "b", Share: 0.3}, {Name: "c", Share: 0.4}}, []string{"300.00", "300.00", "400.01"}},
		{"one", []cost.Stage{{Name: "all"}}, []string{"1000.01"}},
	} {
		q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Stages: tc.stages}, lines...)
		require.NoError(t, err, tc.name)
		var got []string
		for _, p := range q.Payments {
			got = append(got, p.Amount.Amount())
		}
		require.Equal(t, tc.want, got, tc.name)
		addsUp(t, q)
	}
}

func TestContingencyCashAndClass(t *testing.T) {
	t.Parallel()
	cash, ok := cost.CashRuleOf(cost.CAD)
	require.True(t, ok)
	q, err := cost.NewQuote(cost.Terms{Currency: cost.CAD, Rounding: cost.HalfUp, Contingency: 5 * unit.Percent, Class: 3, Cash: cash,
		Tax: cost.Tax{Levies: []cost.Levy{{Name: "GST", Rate: 5 * unit.Percent}}}}, lumpsOf(t, cost.Labour, cost.CAD, "333.33", "100.00")...)
	require.NoError(t, err)
	require.Equal(t, "21.67 CAD", q.SubtotalOf(cost.Contingency).String())
	require.Equal(t, "455.00 CAD", q.Net.String())
	require.Equal(t, "22.75 CAD", q.Tax.String())
	require.Equal(t, "477.75 CAD", q.Cash.Payable.String())
	require.Equal(t, "364.00 CAD", q.Low.String())
	require.Equal(t, "591.50 CAD", q.High.String())
	require.Equal(t, "21.67 CAD", minus(t, q.Cost, money(t, "433.33 CAD")).String(), "contingency is money that will be spent")
	addsUp(t, q)
	_, ok = cost.CashRuleOf(cost.USD)
	require.False(t, ok)
	_, err = cost.CashRuleIn("Utopia")
	require.ErrorIs(t, err, unit.ErrUnknown)
}

func TestValidity(t *testing.T) {
	t.Parallel()
	day := func(s string) cost.Date {
		d, err := cost.ParseDate(s)
		require.NoError(t, err)
		return d
	}
	lines := lumpsOf(t, cost.Labour, cost.USD, "1.00")
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Issued: day("2028-02-01"), ValidDays: 28}, lines...)
	require.NoError(t, err)
	require.Equal(t, "2028-02-29", q.ValidUntil.String())
	for s, want := range map[string]bool{"2028-01-31": false, "2028-02-01": true, "2028-02-29": true, "2028-03-01": false} {
		require.Equal(t, want, q.ValidOn(day(s)), s)
	}
	q, err = cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}, lines...)
	require.NoError(t, err)
	require.True(t, q.ValidUntil.IsZero())
	require.True(t, q.ValidOn(day("2028-01-31")))
	for _, s := range []string{"", "2028-02-30", "28-2-1", "2028/02/01", "0000-01-01", "today"} {
		_, err := cost.ParseDate(s)
		require.ErrorIs(t, err, unit.ErrSyntax, s)
	}
	_, err = cost.NewDate(2027, 2, 29)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = day("9999-12-31").AddDays(1)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = day("2028-01-01").AddDays(1_000_000)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = cost.Date{}.AddDays(1)
	require.ErrorIs(t, err, unit.ErrRequired)
	var d cost.Date
	require.NoError(t, json.Unmarshal([]byte(`"2028-02-29"`), &d))
	text, err := json.Marshal(d)
	require.NoError(t, err)
	require.Equal(t, `"2028-02-29"`, string(text))
}

// Two lines with one ID get IDs of their own, whatever else they meet.
func TestDoubledLines(t *testing.T) {
	t.Parallel()
	named := func(id string) cost.Line {
		l, err := cost.Item[cost.Pieces]{ID: id, Kind: cost.Goods, What: "seat", Quantity: 1, Price: price[cost.Pieces](t, "1 USD/piece")}.Line()
		return line(t, l, err)
	}
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}, named("a"), named("a"), named("a (2)"), named("a"), named(""))
	require.NoError(t, err)
	var ids []string
	seen := map[string]bool{}
	for _, l := range q.Lines {
		ids = append(ids, l.ID)
		require.False(t, seen[l.ID], ids)
		seen[l.ID] = true
	}
	require.Equal(t, "seat", ids[4])
}

// Every figure of a quote is explained: whatever amount the quote shows stands
// as the value of some figure.
func TestEveryFigureIsExplained(t *testing.T) {
	t.Parallel()
	cash, _ := cost.CashRuleOf(cost.CAD)
	issued, err := cost.NewDate(2026, 11, 30)
	require.NoError(t, err)
	cloth, err := cost.Item[unit.Length]{ID: "cover", Kind: cost.Goods, What: "cloth", Quantity: 7*unit.Yard + unit.Yard/3, Net: 6 * unit.Yard,
		Price: price[unit.Length](t, "41.00 CAD/yd"), Uplift: cost.Margin(30 * unit.Percent),
		Figures: []cost.Figure{{Name: "yards", Value: "7 1/3 yd", Formula: "from the layout"}}}.Line()
	lines := append([]cost.Line{line(t, cloth, err)}, lumpsOf(t, cost.Labour, cost.CAD, "935.98", "17.77")...)
	for _, level := range []cost.TaxLevel{cost.PerInvoice, cost.PerLine} {
		for _, inclusive := range []bool{false, true} {
			q, err := cost.NewQuote(cost.Terms{Currency: cost.CAD, Rounding: cost.HalfUp, Class: 2, Contingency: 3 * unit.Percent, Cash: cash,
				Tax:       cost.Tax{Level: level, Inclusive: inclusive, Levies: []cost.Levy{{Name: "GST", Rate: 5 * unit.Percent}, {Name: "PST", Rate: 7 * unit.Percent, On: []cost.TaxClass{"goods"}}}},
				Discounts: []cost.Discount{{Name: "trade", Rate: 4 * unit.Percent}, {Name: "coupon", Amount: money(t, "5 CAD"), AfterTax: true}},
				Stages:    []cost.Stage{{Name: "deposit", Share: 50 * unit.Percent, AtLeast: []cost.Kind{cost.Goods}}, {Name: "stripped", Amount: money(t, "100 CAD")}, {Name: "balance"}},
				Issued:    issued, ValidDays: 60}, lines...)
			require.NoError(t, err)
			addsUp(t, q)
			values := map[string]bool{}
			for _, f := range q.Figures() {
				values[f.Value] = true
				require.NotEmpty(t, f.Name)
				require.NotEmpty(t, f.Formula, f.Name)
				require.NotContains(t, f.String(), "%!")
			}
			var amounts []cost.Money
			for _, l := range q.Lines {
				amounts = append(amounts, l.Cost, l.Amount, l.Tax)
				if l.Waste != "" {
					amounts = append(amounts, l.WasteCost)
				}
				amounts = append(amounts, l.Taxed)
			}
			for _, s := range q.Subtotals {
				amounts = append(amounts, s.Amount)
			}
			for _, l := range q.Taxes {
				amounts = append(amounts, l.Tax)
			}
			for _, d := range q.Discounts {
				amounts = append(amounts, d.Amount)
			}
			for _, p := range q.Payments {
				amounts = append(amounts, p.Amount)
			}
			amounts = append(amounts, q.Subtotal, q.Discount, q.Taxed, q.Net, q.Tax, q.Total, q.Cost, q.Profit, q.Low, q.High, q.Cash.Payable)
			for _, m := range amounts {
				require.True(t, values[m.String()], "%s is not explained", m)
			}
			f, err := q.Explain("cover")
			require.NoError(t, err)
			require.Equal(t, "cover: yards", f[0].Name)
			_, err = q.Explain("nonsense")
			require.ErrorIs(t, err, unit.ErrUnknown)
		}
	}
}

// A quote goes through JSON without loss, and a quote read back explains what
// it can without failing.
func TestQuoteJSON(t *testing.T) {
	t.Parallel()
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfEven, Class: 1, Contingency: 0.02,
		Tax:       cost.Tax{Levies: []cost.Levy{{Name: "sales tax", Rate: 6.25 * unit.Percent}}},
		Discounts: []cost.Discount{{Name: "trade", Rate: 4 * unit.Percent}},
		Stages:    []cost.Stage{{Name: "deposit", Share: 0.5}, {Name: "balance"}}}, wingChair(t)...)
	require.NoError(t, err)
	text, err := json.Marshal(q)
	require.NoError(t, err)
	require.Contains(t, string(text), `"rate":"6.25 %"`)
	require.Contains(t, string(text), `"price":"42.00 USD/yd"`)
	var back cost.Quote
	require.NoError(t, json.Unmarshal(text, &back))
	again, err := json.Marshal(back)
	require.NoError(t, err)
	require.JSONEq(t, string(text), string(again))
	addsUp(t, back)
	require.NotEmpty(t, back.Figures())
	require.NotEmpty(t, back.String())
	require.Empty(t, cost.Quote{}.SubtotalOf(cost.Goods).Currency())
	require.NotEmpty(t, cost.Quote{}.Figures())
	require.NotEmpty(t, cost.Quote{}.String())
}

func TestOptionsAndCompareRefuse(t *testing.T) {
	t.Parallel()
	terms := cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}
	shared := lumpsOf(t, cost.Labour, cost.USD, "1.00")
	_, err := cost.PriceOptions(terms, shared)
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = cost.PriceOptions(terms, shared, cost.Option{})
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = cost.PriceOptions(terms, shared, cost.Option{Name: "a"}, cost.Option{Name: "a"})
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = cost.PriceOptions(terms, nil, cost.Option{Name: "a"})
	require.ErrorIs(t, err, unit.ErrRequired)
	require.ErrorContains(t, err, "options[0]")
	a, err := cost.NewQuote(terms, shared...)
	require.NoError(t, err)
	b, err := cost.NewQuote(cost.Terms{Currency: cost.EUR, Rounding: cost.HalfUp}, lumpsOf(t, cost.Labour, cost.EUR, "1.00")...)
	require.NoError(t, err)
	_, err = cost.Compare(a, b)
	require.ErrorIs(t, err, cost.ErrCurrency)
}

// An option replaces one shared line for each of its own, not every line of
// that ID.
func TestOptionReplacesOneLine(t *testing.T) {
	t.Parallel()
	terms := cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}
	o, err := cost.PriceOptions(terms, lumpsOf(t, cost.Goods, cost.USD, "1.00", "2.00"),
		cost.Option{Name: "one", Lines: lumpsOf(t, cost.Goods, cost.USD, "10.00")},
		cost.Option{Name: "both and more", Lines: lumpsOf(t, cost.Goods, cost.USD, "10.00", "20.00", "30.00")})
	require.NoError(t, err)
	require.Equal(t, "12.00 USD", o.Options[0].Quote.Total.String())
	require.Equal(t, "60.00 USD", o.Options[1].Quote.Total.String())
}

// Every source that a table names is a document of package cite.
func TestTablesNameTheirSources(t *testing.T) {
	t.Parallel()
	var bases []cite.Basis
	rules, err := cost.CashRules()
	require.NoError(t, err)
	for _, r := range rules {
		require.Positive(t, r.Step.Sign(), r.Place)
		same, err := cost.CashRuleIn(r.Place)
		require.NoError(t, err)
		require.Equal(t, r, same)
		bases = append(bases, r.Basis)
	}
	for _, r := range cost.Regimes() {
		require.NotEmpty(t, r.Roundings, r.Code)
		require.NotEmpty(t, r.Levels, r.Code)
		bases = append(bases, r.Basis)
	}
	for i, a := range cost.Accuracies() {
		require.Equal(t, cost.EstimateClass(i+1), a.Class)
		require.InDelta(t, float64(a.High-a.Low)/2, float64(a.Contingency), 1e-12)
		bases = append(bases, a.Basis)
	}
	for _, b := range bases {
		if b.Status == cite.CommonPractice || b.Status == cite.FromMemory {
			require.Empty(t, b.Source)
			continue
		}
		_, ok := cite.Lookup(b.Source)
		require.True(t, ok, b.Source)
	}
	// The tables are copies: a caller who writes to them changes nothing.
	cost.Regimes()[0].Roundings[0] = cost.Floor
	require.Equal(t, cost.HalfUp, cost.Regimes()[0].Roundings[0])
	cost.Accuracies()[0].Low = 9
	require.Less(t, cost.Accuracies()[0].Low, unit.Ratio(1))
}

func TestNamesRoundTrip(t *testing.T) {
	t.Parallel()
	for _, k := range cost.Kinds() {
		text, err := json.Marshal(k)
		require.NoError(t, err)
		var back cost.Kind
		require.NoError(t, json.Unmarshal(text, &back))
		require.Equal(t, k, back)
	}
	_, err := json.Marshal(cost.Kind(99))
	require.ErrorIs(t, err, unit.ErrRequired)
	require.Equal(t, "no kind", cost.Kind(99).String())
	for _, l := range []cost.TaxLevel{cost.PerInvoice, cost.PerLine} {
		text, err := l.MarshalText()
		require.NoError(t, err)
		var back cost.TaxLevel
		require.NoError(t, back.UnmarshalText(text))
		require.Equal(t, l, back)
	}
	var l cost.TaxLevel
	require.ErrorIs(t, l.UnmarshalText([]byte("per item")), unit.ErrUnknown)
	for _, u := range []cost.Uplift{{}, cost.Markup(25 * unit.Percent), cost.Margin(20 * unit.Percent), cost.Markup(12)} {
		text, err := u.MarshalText()
		require.NoError(t, err)
		var back cost.Uplift
		require.NoError(t, back.UnmarshalText(text))
		require.Equal(t, u, back, "%s", text)
	}
	for _, s := range []string{"25 %", "markup", "x markup", "25 % profit"} {
		var u cost.Uplift
		require.Error(t, u.UnmarshalText([]byte(s)), s)
	}
	for _, c := range []cost.Change{cost.Same, cost.Changed, cost.Added, cost.Dropped, 99} {
		require.NotEmpty(t, c.String())
	}
}

// The same lines and terms give the same bytes, however often.
func TestSameBytes(t *testing.T) {
	t.Parallel()
	terms := cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Contingency: 0.03,
		Tax: cost.Tax{Levies: []cost.Levy{{Name: "a", Rate: 0.05}, {Name: "b", Rate: 0.0725, On: []cost.TaxClass{"goods"}}}}}
	var first string
	for range 20 {
		q, err := cost.NewQuote(terms, wingChair(t)...)
		require.NoError(t, err)
		text, err := json.Marshal(struct {
			Quote   cost.Quote
			Figures []cost.Figure
		}{q, q.Figures()})
		require.NoError(t, err)
		if first == "" {
			first = string(text)
		}
		require.Equal(t, first, string(text))
	}
}

// What the caller does to its slices afterwards changes no quote.
func TestQuoteKeepsItsTerms(t *testing.T) {
	t.Parallel()
	terms := cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Tax: cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: 0.1, On: []cost.TaxClass{"goods"}}}}}
	q, err := cost.NewQuote(terms, wingChair(t)...)
	require.NoError(t, err)
	terms.Tax.Levies[0].Rate = 0.9
	terms.Tax.Levies[0].On[0] = "labour"
	methods, err := q.TaxMethods()
	require.NoError(t, err)
	require.True(t, methods[0].Tax.Equal(q.Tax))
}

func TestCustomersOwnMaterial(t *testing.T) {
	t.Parallel()
	own, err := cost.Item[unit.Length]{Kind: cost.OwnMaterial, What: "customer's cloth", Quantity: 7 * unit.Yard, Price: price[unit.Length](t, "0 USD/yd")}.Line()
	lines := []cost.Line{line(t, own, err)}
	fee, err := cost.Item[unit.Length]{Kind: cost.Labour, What: "inspecting it", Quantity: 7 * unit.Yard, Price: price[unit.Length](t, "2.00 USD/yd")}.Line()
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Tax: cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: 0.1}}}}, append(lines, line(t, fee, err))...)
	require.NoError(t, err)
	require.Equal(t, "14.00 USD", q.Subtotal.String())
	require.Equal(t, "0.00 USD", q.Lines[0].Amount.String())
	require.Equal(t, "15.40 USD", q.Total.String())
	require.Contains(t, q.String(), "customer's cloth (7 yd)")
}
