package cost_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// twoPieces is a pair of chairs and a sofa of one cloth, with a delivery for all.
func twoPieces(t *testing.T) []cost.Line {
	t.Helper()
	cloth, err := cost.Item[unit.Length]{Kind: cost.Goods, What: "cloth", Quantity: 6 * unit.Yard, Price: price[unit.Length](t, "40.00 USD/yd"),
		Uplift: cost.Markup(25 * unit.Percent), Shares: []cost.Share{{Group: "chair", Weight: 1}, {Group: "sofa", Weight: 2}}}.Line()
	require.NoError(t, err)
	lines := []cost.Line{cloth}
	for _, x := range []struct {
		kind   cost.Kind
		group  string
		amount string
	}{{cost.Foam, "sofa", "90.00"}, {cost.Labour, "chair", "120.00"}, {cost.Labour, "sofa", "200.00"}, {cost.Delivery, "", "50.00"}} {
		l, err := cost.LumpSum(x.kind, x.kind.String(), money(t, x.amount+" USD"))
		require.NoError(t, err)
		if x.group != "" {
			l.Shares = []cost.Share{{Group: x.group, Weight: 1}}
		}
		lines = append(lines, l)
	}
	return lines
}

func groupText(q cost.Quote, of func(cost.Group) cost.Money) string {
	var out []string
	for _, g := range q.Groups {
		out = append(out, g.Name+" "+of(g).Amount())
	}
	return strings.Join(out, ", ")
}

// Worked by hand. Cloth 300.00 goes 1 : 2, so the chairs come to 100 + 120, the
// sofa to 200 + 90 + 200, the job itself to 50: 760. The least of 800 lacks 40,
// which goes 220 : 490 : 50, 11.578.., 25.789.. and 2.631.., so 11.58, 25.79 and
// 2.63. The next step of 30 is 810: 10 more, 2.894.., 6.447.. and 0.657.., so
// 2.89, 6.45 and 0.66. Tax of 10 % is on the cloth.
func TestGroupsWorked(t *testing.T) {
	t.Parallel()
	terms := cost.Terms{Currency: cost.USD, Least: money(t, "800.00 USD"), Step: money(t, "30.00 USD"), Groups: []cost.GroupCount{{Name: "chair", Items: 2}, {Name: "sofa"}},
		Tax: cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: 0.1, On: []cost.TaxClass{"goods"}}}}}
	q, err := cost.NewQuote(terms, twoPieces(t)...)
	require.NoError(t, err)
	addsUp(t, q)
	require.Equal(t, "chair 234.47, sofa 522.24, whole job 53.29", groupText(q, func(g cost.Group) cost.Money { return g.Net }))
	require.Equal(t, "chair 244.47, sofa 542.24, whole job 53.29", groupText(q, func(g cost.Group) cost.Money { return g.Total }))
	require.Equal(t, "chair 200.00, sofa 450.00, whole job 50.00", groupText(q, func(g cost.Group) cost.Money { return g.Cost }))
	require.Equal(t, "chair 34.47, sofa 72.24, whole job 3.29", groupText(q, func(g cost.Group) cost.Money { return g.Profit }))
	require.InDelta(t, 34.47/234.47, float64(q.Groups[0].Margin), 1e-12)
	each, err := q.Groups[0].Each(cost.HalfUp)
	require.NoError(t, err)
	require.Equal(t, "122.24 USD", each.String(), "of two")
	require.Equal(t, "840.00 USD", q.Total.String())
	require.Equal(t, "40.00 USD", q.SubtotalOf(cost.MinimumCharge).String())
	require.Equal(t, "10.00 USD", q.SubtotalOf(cost.RoundingUp).String())
	for name, want := range map[string]string{
		"minimum charge": "minimum charge: amount = least that is charged - price without tax = 800.00 - 760.00 -> 40.00 USD",
		"rounding up":    "rounding up: amount = next step of 30.00 USD - price without tax = 810.00 - 800.00 -> 10.00 USD",
		"group chair":    "group chair: total = its shares of the lines, with tax and after discounts = 234.47 + 10.00 - 0.00 -> 244.47 USD",
	} {
		f, err := q.Explain(name)
		require.NoError(t, err)
		require.Contains(t, f[0].String(), want)
	}
}

// The least and the step are of the price as it is said: prices that include the
// tax are rounded with it, and a discount before tax comes off first.
func TestLeastAndStepOfThePriceSaid(t *testing.T) {
	t.Parallel()
	work := lumpsOf(t, cost.Labour, cost.USD, "61.30")
	tax := cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: 0.1}}}
	terms := cost.Terms{Currency: cost.USD, Step: money(t, "5.00 USD"), Tax: tax}
	q, err := cost.NewQuote(terms, work...)
	require.NoError(t, err)
	require.Equal(t, "65.00 USD + 6.50 USD", q.Net.String()+" + "+q.Tax.String())
	terms.Tax.Inclusive = true
	q, err = cost.NewQuote(terms, work...)
	require.NoError(t, err)
	require.Equal(t, "65.00 USD, tax 5.91 USD", q.Total.String()+", tax "+q.Tax.String())
	terms.Discounts = []cost.Discount{{Name: "trade", Rate: 0.5}}
	terms.Least = money(t, "32.00 USD")
	q, err = cost.NewQuote(terms, work...)
	require.NoError(t, err)
	require.Equal(t, "30.65 + 1.35 + 3.00 = 35.00 USD", minus(t, q.Lines[0].Amount, q.Lines[0].Discount).Amount()+" + "+q.Lines[1].Amount.Amount()+" + "+
		q.Lines[2].Amount.Amount()+" = "+q.Total.String())
	// What is dear enough and lies on a step gets no line.
	q, err = cost.NewQuote(cost.Terms{Currency: cost.USD, Least: money(t, "61.30 USD"), Step: money(t, "0.10 USD")}, work...)
	require.NoError(t, err)
	require.Len(t, q.Lines, 1)
	// A job that costs nothing is charged the least all the same, as a whole.
	free := lumpsOf(t, cost.OwnMaterial, cost.USD, "0.00")
	free[0].Shares = []cost.Share{{Group: "chair", Weight: 1}}
	q, err = cost.NewQuote(cost.Terms{Currency: cost.USD, Least: money(t, "75.00 USD")}, free...)
	require.NoError(t, err)
	require.Equal(t, "chair 0.00, whole job 75.00", groupText(q, func(g cost.Group) cost.Money { return g.Total }))
}

func TestGroupsRefused(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name  string
		spoil func(*cost.Terms, *cost.Line)
		field unit.Path
		err   error
	}{
		{"no name", func(_ *cost.Terms, l *cost.Line) { l.Shares = []cost.Share{{Weight: 1}} }, "lines[0].shares[0].group", unit.ErrRequired},
		{"no weight", func(_ *cost.Terms, l *cost.Line) { l.Shares = []cost.Share{{Group: "a"}, {Group: "b"}} }, "lines[0].shares", unit.ErrRange},
		{"negative", func(_ *cost.Terms, l *cost.Line) {
			l.Shares = []cost.Share{{Group: "a", Weight: 2}, {Group: "b", Weight: -1}}
		}, "lines[0].shares[1].weight", unit.ErrRange},
		{"many", func(_ *cost.Terms, l *cost.Line) { l.Shares = make([]cost.Share, 10_001) }, "lines[0].shares", unit.ErrRange},
		{"nameless group", func(q *cost.Terms, _ *cost.Line) { q.Groups = []cost.GroupCount{{}} }, "groups[0].name", unit.ErrRequired},
		{"twice", func(q *cost.Terms, _ *cost.Line) { q.Groups = []cost.GroupCount{{Name: "a"}, {Name: "a"}} }, "groups[1].name", unit.ErrRange},
		{"items", func(q *cost.Terms, _ *cost.Line) { q.Groups = []cost.GroupCount{{Name: "a", Items: -1}} }, "groups[0].items", unit.ErrRange},
		{"least below zero", func(q *cost.Terms, _ *cost.Line) { q.Least = money(t, "-1 USD") }, "least", unit.ErrRange},
		{"least in parts", func(q *cost.Terms, _ *cost.Line) { q.Least = money(t, "0.001 USD") }, "least", cost.ErrFraction},
		{"step in other money", func(q *cost.Terms, _ *cost.Line) { q.Step = money(t, "1 EUR") }, "step", cost.ErrCurrency},
	} {
		terms, lines := cost.Terms{Currency: cost.USD}, lumpsOf(t, cost.Labour, cost.USD, "10.00")
		tc.spoil(&terms, &lines[0])
		_, err := cost.NewQuote(terms, lines...)
		require.ErrorIs(t, err, tc.err, tc.name)
		var in *unit.InputError
		require.ErrorAs(t, err, &in, tc.name)
		require.Equal(t, tc.field, in.Field, tc.name)
	}
}

// Groups change no line and no total, and a piece of furniture whose line nobody
// shares has it to the cent.
func TestLawGroupsChangeNothing(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var lines, bare []cost.Line
		names := []string{"chair", "sofa", "stool"}
		for range rapid.IntRange(1, 6).Draw(t, "lines") {
			l, err := cost.LumpSum(rapid.SampledFrom(cost.Kinds()).Draw(t, "kind"), "line", drawMinor(t, cost.USD, 0, 100_000))
			require.NoError(t, err)
			bare = append(bare, l)
			for range rapid.IntRange(0, 3).Draw(t, "shares") {
				l.Shares = append(l.Shares, cost.Share{Group: rapid.SampledFrom(names).Draw(t, "group"), Weight: rapid.Int64Range(1, 1<<60).Draw(t, "weight")})
			}
			lines = append(lines, l)
		}
		terms := cost.Terms{Currency: cost.USD, Rounding: rapid.SampledFrom(cost.Roundings()).Draw(t, "mode"),
			Discounts: []cost.Discount{{Name: "trade", Rate: 0.03}}, Tax: cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: 0.0725}}}}
		q, err := cost.NewQuote(terms, lines...)
		require.NoError(t, err)
		plain, err := cost.NewQuote(terms, bare...)
		require.NoError(t, err)
		require.True(t, q.Total.Equal(plain.Total))
		require.Len(t, plain.Groups, 1)
		require.True(t, plain.Groups[0].Total.Equal(plain.Total))
		alone := map[string]int64{}
		shared := map[string]bool{}
		for _, l := range q.Lines {
			for _, s := range l.Shares {
				shared[s.Group] = shared[s.Group] || len(l.Shares) > 1
				alone[s.Group] += minor(t, l.Amount)
			}
		}
		for _, g := range q.Groups {
			if g.Name != cost.WholeJob && !shared[g.Name] {
				require.Equal(t, alone[g.Name], minor(t, g.Amount), g.Name)
			}
		}
	})
}

// A line is found again by what it was made of.
func TestLinesFromASource(t *testing.T) {
	price, err := cost.ParsePrice[cost.Pieces]("5 USD/piece")
	require.NoError(t, err)
	var lines []cost.Line
	for _, source := range []string{"foam[0]", "cloth", "cloth"} {
		l, err := cost.Item[cost.Pieces]{Source: source, Kind: cost.Goods, What: "a thing", Quantity: 2, Price: price}.Line()
		require.NoError(t, err)
		lines = append(lines, l)
	}
	q, err := cost.NewQuote(cost.Terms{Currency: "USD"}, lines...)
	require.NoError(t, err)
	require.Equal(t, q.Lines[:1], q.From("foam[0]"))
	require.Equal(t, q.Lines[1:], q.From("cloth"), "whatever became of their ids")
	require.Empty(t, q.From("a thing"))
}
