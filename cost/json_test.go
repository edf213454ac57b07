package cost_test

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
)

// fullTerms says everything terms can say.
func fullTerms(t testing.TB) cost.Terms {
	t.Helper()
	issued, err := cost.NewDate(2026, 2, 1)
	require.NoError(t, err)
	cash, ok := cost.CashRuleOf(cost.CAD)
	require.True(t, ok)
	return cost.Terms{Currency: cost.CAD, Rounding: cost.HalfEven, Class: 2, Contingency: 0.02, Cash: cash, Issued: issued, ValidDays: 30,
		Least: money(t, "75.00 CAD"), Step: money(t, "5.00 CAD"), Groups: []cost.GroupCount{{Name: "sofa", Items: 2}},
		Tax: cost.Tax{Regime: "GB", Together: true, Levies: []cost.Levy{
			{Name: "sales tax", Rate: 6.25 * unit.Percent, Except: []cost.TaxClass{"labour"}}, {Name: "levy", Rate: 1.0 / 3, On: []cost.TaxClass{"goods"}}}},
		Discounts: []cost.Discount{{Name: "trade", Rate: 4 * unit.Percent, Kinds: []cost.Kind{cost.Goods}}, {Name: "rounded off", Amount: money(t, "3.00 CAD"), AfterTax: true}},
		Stages:    []cost.Stage{{Name: "deposit", Share: 0.5, AtLeast: []cost.Kind{cost.Goods}, Due: "with the order"}, {Name: "balance"}}}
}

func fullItem(t testing.TB) cost.Item[unit.Length] {
	t.Helper()
	return cost.Item[unit.Length]{Shares: []cost.Share{{Group: "chair", Weight: 2}, {Group: "sofa", Weight: 1}}, ID: "CLOTH", Source: "pieces[1]", Kind: cost.Goods, What: "cover cloth", Quantity: 7*unit.Yard + unit.Nanometre, Net: 6 * unit.Yard,
		Price: price[unit.Length](t, "42.1234 CAD/yd"), Uplift: cost.Markup(4.5), TaxClass: "cloth", Figures: []cost.Figure{{Name: "yards", Value: "7 yd", Formula: "f", Working: "w"}}}
}

// TestEveryTypeIsJSON holds every exported struct type of the package to JSON:
// empty and with values that real calls made.
func TestEveryTypeIsJSON(t *testing.T) {
	t.Parallel()
	item := fullItem(t)
	l, err := item.Line()
	require.NoError(t, err)
	lump, err := cost.LumpSum(cost.Labour, "work", money(t, "100 CAD"))
	require.NoError(t, err)
	q, err := cost.NewQuote(fullTerms(t), l, lump, lump)
	require.NoError(t, err)
	plain, err := cost.NewQuote(cost.Terms{Currency: cost.CAD}, l)
	require.NoError(t, err)
	comparison, err := cost.Compare(q, plain)
	require.NoError(t, err)
	option := cost.Option{Name: "better", Lines: []cost.Line{l}}
	options, err := cost.PriceOptions(fullTerms(t), []cost.Line{lump}, option)
	require.NoError(t, err)
	methods, err := q.TaxMethods()
	require.NoError(t, err)
	accuracy, err := cost.EstimateClass(3).Accuracy()
	require.NoError(t, err)
	list := readCSV(t, listCSV)
	webbing := soldEntry(t)
	charge, err := webbing.Charge(cost.AnyOf(5*unit.Yard), cost.HalfUp)
	require.NoError(t, err)

	faults, err := roundtrip.Faults(os.DirFS("."), []any{
		money(t, "12.345678901234 USD"), money(t, "0 JPY"), item.Price, item.Price.Any(), cost.AnyOf(item.Quantity), cost.AnyOf(cost.Pieces(0)), fullTerms(t).Issued,
		item.Uplift, cost.Markup(100), cost.Margin(0.99), item, l, lump, l.Amount, option, q, plain, q.Lines[0], q.Lines[3], q.Subtotals[0], q.Discounts[0], q.Discounts[1], q.Taxes[0],
		q.Payments[0], q.Cash, q.Terms, cost.Terms{Currency: cost.EUR}, q.Terms.Tax, q.Terms.Tax.Levies[0], q.Terms.Discounts[1], q.Terms.Stages[0], q.Terms.Cash, q.Figures()[0],
		comparison, comparison.Lines[0], options, options.Options[0], methods[0], accuracy, cost.Regimes()[0], list, list.Entries()[0], webbing, charge,
		q.Groups[0], q.Terms.Groups[0], l.Shares[0],
	})
	require.NoError(t, err)
	require.Empty(t, faults)
}

// A quote read back knows all that it knew: figures, other ways to round.
func TestQuoteReadBackKnowsAll(t *testing.T) {
	t.Parallel()
	l, err := fullItem(t).Line()
	require.NoError(t, err)
	q, err := cost.NewQuote(fullTerms(t), l)
	require.NoError(t, err)
	text, err := json.Marshal(q)
	require.NoError(t, err)
	var back cost.Quote
	require.NoError(t, json.Unmarshal(text, &back))
	require.Equal(t, q.Figures(), back.Figures())
	require.Equal(t, q.String(), back.String())
	methods, err := q.TaxMethods(cost.Roundings()...)
	require.NoError(t, err)
	again, err := back.TaxMethods(cost.Roundings()...)
	require.NoError(t, err)
	require.Equal(t, methods, again)
}

// What a caller reads with encoding/json tells the place of each fault.
func TestPathsThroughJSON(t *testing.T) {
	t.Parallel()
	var shop struct {
		List cost.PriceList `json:"list"`
	}
	err := json.Unmarshal([]byte(`{"list": [{"code": "A", "kind": "goods", "description": "cloth", "price": "42 USD/yd"},
		{"code": "B", "kind": "clothes", "description": "cloth", "price": "42 USD"}]}`), &shop)
	var list *cost.ListError
	require.ErrorAs(t, err, &list)
	var paths []unit.Path
	for _, c := range list.Cells {
		var in *unit.InputError
		require.ErrorAs(t, c, &in)
		paths = append(paths, in.Field)
	}
	require.Equal(t, []unit.Path{"[1].kind", "[1].price"}, paths)
}
