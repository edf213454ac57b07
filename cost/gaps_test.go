package cost_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// What two amounts say of each other, and what cannot be said.
func TestMarkupAndMarginOf(t *testing.T) {
	t.Parallel()
	ten, fifteen, none := money(t, "10 USD"), money(t, "15 USD"), money(t, "0 USD")
	m, err := cost.MarkupOf(ten, fifteen)
	require.NoError(t, err)
	assert.Equal(t, unit.Ratio(0.5), m)
	g, err := cost.MarginOf(ten, fifteen)
	require.NoError(t, err)
	assert.InDelta(t, 1.0/3, float64(g), 1e-12)
	_, err = cost.MarkupOf(none, ten)
	require.ErrorIs(t, err, unit.ErrDivideByZero)
	_, err = cost.MarginOf(ten, none)
	require.ErrorIs(t, err, unit.ErrDivideByZero)
	for _, of := range []func(a, b cost.Money) (unit.Ratio, error){cost.MarkupOf, cost.MarginOf} {
		_, err = of(ten, money(t, "15 EUR"))
		require.ErrorIs(t, err, cost.ErrCurrency)
	}
	_, err = cost.MarkupOfMargin(1)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = cost.MarginOfMarkup(-1)
	require.ErrorIs(t, err, unit.ErrRange)
	for _, of := range []func(unit.Ratio) (unit.Ratio, error){cost.MarkupOfMargin, cost.MarginOfMarkup} {
		_, err = of(1e300)
		require.Error(t, err)
	}
}

// Shares and amounts divide a whole alike, and both refuse what divides nothing.
func TestAllocateBy(t *testing.T) {
	t.Parallel()
	whole := money(t, "10.00 USD")
	shares, err := cost.AllocateByShare(whole, []unit.Ratio{0.5, 0.25, 0.25})
	require.NoError(t, err)
	amounts, err := cost.AllocateByMoney(whole, []cost.Money{money(t, "2 USD"), money(t, "1 USD"), money(t, "1 USD")})
	require.NoError(t, err)
	assert.Equal(t, []cost.Money{money(t, "5.00 USD"), money(t, "2.50 USD"), money(t, "2.50 USD")}, shares)
	assert.Equal(t, shares, amounts)

	for want, weights := range map[error][]unit.Ratio{unit.ErrRequired: nil, unit.ErrRange: {1, -1}} {
		_, err = cost.AllocateByShare(whole, weights)
		require.ErrorIs(t, err, want)
	}
	_, err = cost.AllocateByShare(whole, []unit.Ratio{0, 0})
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = cost.AllocateByShare(money(t, "0.005 USD"), []unit.Ratio{1})
	require.ErrorIs(t, err, cost.ErrFraction)
	_, err = cost.AllocateByShare(cost.Money{}, []unit.Ratio{1})
	require.ErrorIs(t, err, cost.ErrNoCurrency)
	_, err = cost.AllocateByMoney(whole, []cost.Money{money(t, "2 USD"), money(t, "1 EUR")})
	require.ErrorIs(t, err, cost.ErrCurrency)
}

// A line of the caller's own kind takes what fills a price up, and the table of
// options shows the discount of any of them.
func TestFilledUpBesideALineOfTheKind(t *testing.T) {
	t.Parallel()
	sum := func(kind cost.Kind, what, amount string) cost.Line {
		l, err := cost.LumpSum(kind, what, money(t, amount))
		require.NoError(t, err)
		return l
	}
	q, err := cost.NewQuote(cost.Terms{Currency: "USD", Least: money(t, "100 USD")}, sum(cost.Labour, "work", "50 USD"), sum(cost.MinimumCharge, "call-out", "20 USD"))
	require.NoError(t, err)
	assert.Equal(t, "100.00 USD", q.Total.String())
	for _, s := range q.Subtotals {
		if s.Kind == cost.MinimumCharge {
			assert.Equal(t, "50.00 USD", s.Amount.String(), "20 of the call-out and 30 to fill up")
		}
	}
	off := cost.Terms{Currency: "USD", Discounts: []cost.Discount{{Name: "off", Rate: 0.1}}}
	o, err := cost.PriceOptions(off, []cost.Line{sum(cost.Labour, "work", "50 USD")}, cost.Option{Name: "cloth", Lines: []cost.Line{sum(cost.Goods, "cloth", "50 USD")}})
	require.NoError(t, err)
	assert.Regexp(t, `(?m)^discount +-10\.00$`, o.String())
}

// Lines that are in one quote alone have a dash in the other.
func TestComparisonShowsWhatIsNotThere(t *testing.T) {
	t.Parallel()
	quote := func(lines ...string) cost.Quote {
		var all []cost.Line
		for _, what := range lines {
			each, err := cost.Per(money(t, "3.00 USD"), cost.Pieces(1))
			require.NoError(t, err)
			l, err := cost.Item[cost.Pieces]{ID: what, Kind: cost.Goods, What: what, Quantity: 2, Price: each}.Line()
			require.NoError(t, err)
			all = append(all, l)
		}
		q, err := cost.NewQuote(cost.Terms{Currency: "USD"}, all...)
		require.NoError(t, err)
		return q
	}
	c, err := cost.Compare(quote("cloth", "cord"), quote("cloth", "zip"))
	require.NoError(t, err)
	assert.Regexp(t, `(?m)^cord +6\.00 +- +-6\.00$`, c.String())
	assert.Regexp(t, `(?m)^zip +- +6\.00 +\+?6\.00$`, c.String())
	for i, change := range []cost.Change{cost.Same, cost.Dropped, cost.Added} {
		assert.Equal(t, change, c.Lines[i].Change)
	}
	var unknown cost.Change
	require.ErrorIs(t, unknown.UnmarshalText([]byte("other")), unit.ErrUnknown)
}

// An amount says how many times its price it is, and like is of one kind.
func TestAmountsOfAKind(t *testing.T) {
	t.Parallel()
	a := cost.Amount{Quantity: cost.AnyOf(29 * unit.Yard / 4), Price: price[unit.Length](t, "2.00 USD/yd").Any()}
	assert.Equal(t, unit.Ratio(7.25), a.Units())
	assert.Zero(t, cost.Amount{Quantity: cost.AnyOf(unit.Yard)}.Units())
	assert.Zero(t, cost.Amount{Quantity: cost.AnyOf(unit.Pound), Price: a.Price}.Units())
	assert.True(t, cost.AnyOf(unit.Yard).Like(cost.AnyOf(unit.Inch)))
	assert.False(t, cost.AnyOf(unit.Yard).Like(cost.AnyOf(unit.Pound)))
	assert.False(t, cost.AnyQuantity{}.Like(cost.AnyQuantity{}))
	x, err := price[unit.Length](t, "1.00 USD/yd").Exact(unit.Foot)
	require.NoError(t, err)
	assert.Equal(t, "1/3", x.String())
}

// A list of too many rows is refused by both readers.
func TestPriceListOfTooManyRows(t *testing.T) {
	t.Parallel()
	var csv, list strings.Builder
	csv.WriteString("code,kind,description,price\n")
	for i := range 20_000 {
		fmt.Fprintf(&csv, "c%d,goods,cloth,1.00 USD/yd\n", i)
		fmt.Fprintf(&list, `,{"code":"c%d"}`, i)
	}
	_, err := cost.ReadPriceListCSV(strings.NewReader(csv.String()))
	require.ErrorContains(t, err, "at most 20000 rows")
	_, err = cost.ReadPriceListJSON(strings.NewReader("[" + list.String()[1:] + "]"))
	require.ErrorContains(t, err, "at most 19999 entries")
}

// A figure on one line leaves out a working that says no more than the value, and
// a rule that there is none of.
func TestFigureOnALine(t *testing.T) {
	t.Parallel()
	f := cost.Figure{Name: "amount", Value: "5.00 USD", Formula: "quantity × price"}
	assert.Equal(t, "amount = quantity × price -> 5.00 USD", f.String())
	f.Working = f.Value
	assert.Equal(t, "amount = quantity × price -> 5.00 USD", f.String())
	f.Working, f.Rule = "2 × 2.50", "once"
	assert.Equal(t, "amount = quantity × price = 2 × 2.50 -> 5.00 USD (once)", f.String())
}

// The explanation of the cost adds up every line, and that of a payment says what
// it is at least, where it is.
func TestExplainedCostAndPayments(t *testing.T) {
	t.Parallel()
	var lines []cost.Line
	for what, amount := range map[string]string{"work": "50 USD", "cloth": "30 USD"} {
		kind := cost.Labour
		if what == "cloth" {
			kind = cost.Goods
		}
		l, err := cost.LumpSum(kind, what, money(t, amount))
		require.NoError(t, err)
		lines = append(lines, l)
	}
	q, err := cost.NewQuote(cost.Terms{Currency: "USD", Stages: []cost.Stage{
		{Name: "deposit", Share: 0.25, AtLeast: []cost.Kind{cost.Goods}}, {Name: "half", Share: 0.25}, {Name: "rest"},
	}}, lines...)
	require.NoError(t, err)
	of := func(name string) cost.Figure {
		f, err := q.Explain(name)
		require.NoError(t, err)
		require.Len(t, f, 1)
		return f[0]
	}
	assert.Equal(t, q.Lines[0].Cost.Amount()+" + "+q.Lines[1].Cost.Amount(), of("cost").Working)
	assert.Contains(t, of("payment deposit").Rule, "at least the subtotal of ")
	assert.NotContains(t, of("payment half").Rule, "at least")
	assert.Equal(t, "what is left of the total", of("payment rest").Formula)
}

// Nothing can be divided by weights that come to nothing, and it says so.
func TestWeightsOfNothing(t *testing.T) {
	t.Parallel()
	_, err := cost.Allocate(money(t, "10 USD"), []int{0, 0})
	require.ErrorContains(t, err, "at least one weight above zero")
	_, err = cost.Allocate(money(t, "10 USD"), []int{2, -1})
	require.ErrorContains(t, err, "a weight that is not negative")
}

// The most packs that are counted are counted, and one more is refused.
func TestMostPacks(t *testing.T) {
	t.Parallel()
	e, err := cost.NewEntry("nail", cost.Sundries, "nails", price[cost.Pieces](t, "0.01 USD/piece"))
	require.NoError(t, err)
	e.Pack = cost.AnyOf(cost.Pieces(2))
	c, err := e.Charge(cost.AnyOf(cost.Pieces(2*math.MaxInt32)), cost.HalfUp)
	require.NoError(t, err)
	assert.Equal(t, math.MaxInt32, c.Packs)
	_, err = e.Charge(cost.AnyOf(cost.Pieces(2*math.MaxInt32+1)), cost.HalfUp)
	require.ErrorContains(t, err, "2147483648 packs")
}

// Every way in which a line may differ reads back as itself.
func TestChangesReadBack(t *testing.T) {
	t.Parallel()
	for i, name := range []string{"same", "changed", "added", "dropped"} {
		var c cost.Change
		require.NoError(t, c.UnmarshalText([]byte(name)))
		assert.Equal(t, cost.Same+cost.Change(i), c)
		assert.Equal(t, name, c.String())
	}
	c := cost.Added
	require.ErrorIs(t, c.UnmarshalText([]byte("lost")), unit.ErrUnknown)
	assert.Equal(t, cost.Added, c)
}

// Lengths are written by what they are priced by.
func TestLengthsAsAShopWritesThem(t *testing.T) {
	t.Parallel()
	for per, want := range map[unit.Length]string{
		unit.Metre: "2.00 m", unit.Centimetre: "2.00 m", unit.Yard: "2 1/4 yd", unit.Foot: "6 5/8 ft", 0: "2 1/4 yd",
		127 * unit.Millimetre: "2 1/4 yd", unit.Millimetre / 2: "2 1/4 yd",
	} {
		got, rounded := cost.AnyOf(2 * unit.Metre).Shop(cost.AnyOf(per))
		assert.Equal(t, want, got, per)
		assert.Equal(t, want != "2.00 m", rounded, per)
	}
	var none cost.AnyQuantity
	require.NoError(t, none.UnmarshalText([]byte("0 pieces")))
	require.Error(t, none.UnmarshalText([]byte("-1 pieces")))
}

// A quantity that is too large is refused as such, not as one of no known unit,
// whatever kind it is of.
func TestQuantityTooLarge(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]error{
		"99999999999999999999 yd": unit.ErrOverflow, "99999999999999999999 m2": unit.ErrOverflow, "99999999999999999999 h": unit.ErrOverflow,
		"7 furlongs": unit.ErrUnknownUnit, "7": unit.ErrUnknownUnit,
	} {
		var q cost.AnyQuantity
		require.ErrorIs(t, q.UnmarshalText([]byte(text)), want, text)
	}
}

// What is not in the piece is what there is more of than goes into it, of the
// same kind, and nothing where nobody said.
func TestWasteOfAQuantity(t *testing.T) {
	t.Parallel()
	yards := func(n unit.Length) cost.AnyQuantity { return cost.AnyOf(n * unit.Yard) }
	for _, c := range []struct{ quantity, net, waste cost.AnyQuantity }{
		{yards(7), yards(5), yards(2)}, {yards(7), yards(7), yards(0)}, {yards(7), yards(8), cost.AnyQuantity{}}, {yards(7), yards(-1), cost.AnyQuantity{}},
		{yards(7), cost.AnyQuantity{}, cost.AnyQuantity{}}, {yards(7), cost.AnyOf(unit.Kilogram), cost.AnyQuantity{}},
	} {
		assert.Equal(t, c.waste, cost.Amount{Quantity: c.quantity, Net: c.net}.Waste(), c)
	}
}

// The first and the last day of the calendar are days, those beside them are not.
func TestEndsOfTheCalendar(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		year, month, day int
		ok               bool
	}{{1, 1, 1, true}, {0, 12, 31, false}, {9999, 12, 31, true}, {10000, 1, 1, false}, {2024, 2, 29, true}, {2026, 2, 29, false}, {2026, 0, 1, false}, {2026, 13, 1, false}, {2026, 1, 0, false}} {
		_, err := cost.NewDate(c.year, c.month, c.day)
		assert.Equal(t, c.ok, err == nil, c)
	}
	_, err := cost.ParseDate("0001-01-01")
	require.NoError(t, err)
	_, err = cost.ParseDate("0000-12-31")
	require.ErrorIs(t, err, unit.ErrSyntax)
}

// Minor units of four places go beyond an int64 before the amount goes beyond
// its own limit.
func TestMinorUnitsBeyondCounting(t *testing.T) {
	t.Parallel()
	_, err := money(t, "999999999999999 CLF").Minor()
	require.ErrorIs(t, err, unit.ErrOverflow)
	n, err := money(t, "900000000000000 CLF").Minor()
	require.NoError(t, err)
	assert.Equal(t, int64(9_000_000_000_000_000_000), n)
}

func TestPriceOfNothing(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]error{"42.00 USD/": unit.ErrMissingUnit, "42.00 USD": unit.ErrMissingUnit, "42.00 USD/furlong": unit.ErrUnknownUnit} {
		var p cost.AnyPrice
		require.ErrorIs(t, p.UnmarshalText([]byte(text)), want, text)
	}
}

// Two quotes without a currency cannot be compared.
func TestComparisonOfNoQuotes(t *testing.T) {
	t.Parallel()
	_, err := cost.Compare(cost.Quote{}, cost.Quote{})
	require.ErrorIs(t, err, cost.ErrNoCurrency)
}

// Prices of an area say by what it is written, a hair above a step as the next
// one, and only the exact step as not rounded.
func TestAreasAsAShopWritesThem(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		a, per  unit.Area
		want    string
		rounded bool
	}{
		{2 * unit.SquareMetre, unit.SquareMetre, "2.00 m2", false},
		{2*unit.SquareMetre + 1, unit.SquareDecimetre, "2.01 m2", true},
		{2 * unit.SquareFoot, unit.SquareFoot, "2.0 sq ft", false},
		{2*unit.SquareFoot + 1, 0, "2.1 sq ft", true},
		{2 * unit.SquareFoot, 50 * unit.SquareMillimetre, "2.0 sq ft", false},
		{2 * unit.SquareYard, unit.SquareYard, "2 sq yd", false},
		{2*unit.SquareYard + 1, unit.SquareYard, "2.01 sq yd", true},
	} {
		got, rounded := cost.AnyOf(c.a).Shop(cost.AnyOf(c.per))
		assert.Equal(t, c.want, got)
		assert.Equal(t, c.rounded, rounded, c.want)
	}
}

// What each figure is worked from: a subtotal from the lines of its kind alone,
// the subtotal from all, contingency from its share of a sum with commas.
func TestWorkingOfSubtotals(t *testing.T) {
	t.Parallel()
	sum := func(kind cost.Kind, what, amount string) cost.Line {
		l, err := cost.LumpSum(kind, what, money(t, amount))
		require.NoError(t, err)
		return l
	}
	terms := cost.Terms{Currency: cost.USD, Contingency: 0.1}
	q, err := cost.NewQuote(terms, sum(cost.Goods, "cloth", "1000 USD"), sum(cost.Labour, "work", "200 USD"), sum(cost.Labour, "more work", "34 USD"))
	require.NoError(t, err)
	working := map[string]string{}
	for _, f := range q.Figures() {
		working[f.Name] = f.Working
	}
	assert.Equal(t, "200.00 + 34.00", working["subtotal of labour"])
	assert.Equal(t, "1000.00", working["subtotal of goods"])
	assert.Equal(t, "1000.00 + 200.00 + 34.00 + 123.40", working["subtotal"])
	text, rounded := q.Lines[3].ShopQuantity()
	assert.Equal(t, "10 % of 1,234.00 USD", text)
	assert.False(t, rounded)
	c, err := cost.Compare(q, q)
	require.NoError(t, err)
	assert.Equal(t, "cloth: 1 piece at 1000.00 USD/piece", c.Lines[0].A)
	assert.Equal(t, "10 % of 1234.00 USD", c.Lines[3].A)
}

// The same levy twice is refused only where both fall on the same lines.
func TestLevyTwiceForDifferentLines(t *testing.T) {
	t.Parallel()
	l, err := cost.LumpSum(cost.Labour, "work", money(t, "100 USD"))
	require.NoError(t, err)
	on := []cost.TaxClass{cost.Goods.TaxClass()}
	levies := []cost.Levy{{Name: "GST", Rate: 0.05, On: on}, {Name: "GST", Rate: 0.05, On: on, Except: []cost.TaxClass{cost.Labour.TaxClass()}}}
	_, err = cost.NewQuote(cost.Terms{Currency: cost.USD, Tax: cost.Tax{Levies: levies}}, l)
	require.NoError(t, err)
	levies[1].Except = nil
	_, err = cost.NewQuote(cost.Terms{Currency: cost.USD, Tax: cost.Tax{Levies: levies}}, l)
	require.Error(t, err)
}

// No amount of one currency is none of another, and adds to its own alone.
func TestNothingHasACurrency(t *testing.T) {
	t.Parallel()
	_, err := money(t, "0 USD").Plus(money(t, "5 EUR"))
	require.ErrorIs(t, err, cost.ErrCurrency)
	_, err = money(t, "5 EUR").Plus(money(t, "0 USD"))
	require.ErrorIs(t, err, cost.ErrCurrency)
}

// A quote holds for a century at most.
func TestLongestValidity(t *testing.T) {
	t.Parallel()
	issued, err := cost.NewDate(2026, 1, 1)
	require.NoError(t, err)
	l, err := cost.LumpSum(cost.Labour, "work", money(t, "100 USD"))
	require.NoError(t, err)
	_, err = cost.NewQuote(cost.Terms{Currency: cost.USD, Issued: issued, ValidDays: 36600}, l)
	require.NoError(t, err)
}

// What is sold at its cost is worked once, what has a markup from the cost on, and
// what comes in no packs has none to order.
func TestWorkingOfALine(t *testing.T) {
	t.Parallel()
	each := price[cost.Pieces](t, "2.50 USD/piece")
	line := func(id string, u cost.Uplift) cost.Line {
		l, err := cost.Item[cost.Pieces]{ID: id, Kind: cost.Goods, What: id, Quantity: 3, Price: each, Uplift: u}.Line()
		require.NoError(t, err)
		return l
	}
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD}, line("plain", cost.Uplift{}), line("marked up", cost.Markup(0.5)), line("margin", cost.Margin(0.25)))
	require.NoError(t, err)
	working := map[string]string{}
	for _, f := range q.Figures() {
		working[f.Name] = f.Working
	}
	assert.Equal(t, "7.5", working["plain: amount"])
	assert.Equal(t, "7.5 × (1 + 50 %) = 11.25", working["marked up: amount"])
	assert.Equal(t, "7.5 / (1 - 25 %) = 10", working["margin: amount"])
	assert.Equal(t, "3 pieces × 2.50 USD/piece = 7.5", working["plain: cost"])

	e, err := cost.NewEntry("nail", cost.Sundries, "nails", each)
	require.NoError(t, err)
	c, err := e.Charge(cost.AnyOf(cost.Pieces(3)), cost.HalfUp)
	require.NoError(t, err)
	require.Len(t, c.Figures, 1)
	assert.Equal(t, "use", c.Figures[0].Name)
}

// A price that was not given is written as nothing, and modes that are none are
// refused by their place.
func TestNoPriceAndNoMode(t *testing.T) {
	t.Parallel()
	text, err := cost.AnyPrice{}.MarshalText()
	require.NoError(t, err)
	assert.Empty(t, text)
	text, err = cost.LengthPrice{}.MarshalText()
	require.NoError(t, err)
	assert.Empty(t, text)
	l, err := cost.LumpSum(cost.Labour, "work", money(t, "100 USD"))
	require.NoError(t, err)
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD}, l)
	require.NoError(t, err)
	_, err = q.TaxMethods(cost.HalfUp, 99)
	require.ErrorIs(t, err, cost.ErrMode)
	require.ErrorContains(t, err, "modes[1]")
}
