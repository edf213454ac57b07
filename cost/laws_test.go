package cost_test

import (
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

var someCurrencies = []cost.Currency{cost.USD, cost.JPY, cost.KWD, "CLF"}

func drawMinor(t *rapid.T, c cost.Currency, lo, hi int64) cost.Money {
	m, err := cost.MinorUnits(rapid.Int64Range(lo, hi).Draw(t, "minor"), c)
	require.NoError(t, err)
	return m
}

func minor(t require.TestingT, m cost.Money) int64 {
	n, err := m.Minor()
	require.NoError(t, err)
	return n
}

// The parts add up to the whole and each is less than one minor unit off its
// exact share; a credit note mirrors its invoice.
func TestLawAllocation(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(someCurrencies).Draw(t, "currency")
		whole := drawMinor(t, c, -1_000_000, 1_000_000)
		weights := rapid.SliceOfN(rapid.IntRange(0, 10_000), 1, 20).Draw(t, "weights")
		sum := 0
		for _, w := range weights {
			sum += w
		}
		if sum == 0 {
			weights[0], sum = 1, 1
		}
		parts, err := cost.Allocate(whole, weights)
		require.NoError(t, err)
		total, err := cost.Sum(parts...)
		require.NoError(t, err)
		require.True(t, total.Equal(whole), "%s is not %s", total, whole)
		for i, p := range parts {
			share := big.NewRat(minor(t, whole)*int64(weights[i]), int64(sum))
			off := new(big.Rat).Sub(big.NewRat(minor(t, p), 1), share)
			require.Negative(t, off.Abs(off).Cmp(big.NewRat(1, 1)), "part %d", i)
		}
		mirror, err := cost.Allocate(whole.Neg(), weights)
		require.NoError(t, err)
		for i := range parts {
			require.True(t, mirror[i].Equal(parts[i].Neg()))
		}
	})
}

func TestLawMarkupMargin(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		m := unit.Ratio(rapid.IntRange(0, 100_000).Draw(t, "m")) / 10_000
		g, err := cost.MarginOfMarkup(m)
		require.NoError(t, err)
		require.True(t, g >= 0 && g < 1)
		back, err := cost.MarkupOfMargin(g)
		require.NoError(t, err)
		require.InDelta(t, float64(m), float64(back), 2e-9*float64(1+m)*float64(1+m))

		// Both ways lead to the same price.
		c := drawMinor(t, cost.USD, 0, 10_000_000)
		g = unit.Ratio(rapid.IntRange(0, 90).Draw(t, "g")) / 100
		by, err := cost.Margin(g).Price(c, cost.HalfUp)
		require.NoError(t, err)
		markup, err := cost.MarkupOfMargin(g)
		require.NoError(t, err)
		other, err := cost.Markup(markup).Price(c, cost.HalfUp)
		require.NoError(t, err)
		require.InDelta(t, minor(t, by), minor(t, other), 1)
	})
}

// Rounding goes to one of the two neighbouring steps, the mode says which; a
// rounded amount stays where it is; negation turns ceiling into floor.
func TestLawRounding(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(-1_000_000, 1_000_000).Draw(t, "thousandths")
		x, err := cost.MinorUnits(n, cost.KWD) // three digits
		require.NoError(t, err)
		step, err := cost.MinorUnits(rapid.Int64Range(1, 500).Draw(t, "step"), cost.KWD)
		require.NoError(t, err)
		mode := rapid.SampledFrom(cost.Roundings()).Draw(t, "mode")
		got, err := x.RoundTo(step, mode)
		require.NoError(t, err)
		require.Zero(t, minor(t, got)%minor(t, step))
		off := minor(t, got) - n
		require.Less(t, max(off, -off), minor(t, step))
		switch mode {
		case cost.HalfUp, cost.HalfEven, cost.HalfDown:
			require.LessOrEqual(t, 2*max(off, -off), minor(t, step))
		case cost.Up:
			require.GreaterOrEqual(t, off*int64(x.Sign()), int64(0))
		case cost.Down:
			require.LessOrEqual(t, off*int64(x.Sign()), int64(0))
		case cost.Ceiling:
			require.GreaterOrEqual(t, off, int64(0))
		case cost.Floor:
			require.LessOrEqual(t, off, int64(0))
		}
		again, err := got.RoundTo(step, mode)
		require.NoError(t, err)
		require.True(t, again.Equal(got))
		mirror := map[cost.Rounding]cost.Rounding{cost.Ceiling: cost.Floor, cost.Floor: cost.Ceiling}[mode]
		if mirror == 0 {
			mirror = mode
		}
		neg, err := x.Neg().RoundTo(step, mirror)
		require.NoError(t, err)
		require.True(t, neg.Equal(got.Neg()))
	})
}

// On ties half-even goes up as often as down, so long sums do not drift;
// half-up does not have this.
func TestHalfEvenIsUnbiasedOnTies(t *testing.T) {
	t.Parallel()
	drift := map[cost.Rounding]int64{}
	for n := range int64(2000) { // n and a half cents
		x, err := cost.MinorUnits(10*n+5, cost.KWD)
		require.NoError(t, err)
		step, err := cost.MinorUnits(10, cost.KWD)
		require.NoError(t, err)
		for _, mode := range []cost.Rounding{cost.HalfUp, cost.HalfEven, cost.HalfDown} {
			got, err := x.RoundTo(step, mode)
			require.NoError(t, err)
			drift[mode] += minor(t, got) - minor(t, x)
		}
	}
	require.Zero(t, drift[cost.HalfEven])
	require.Equal(t, int64(10_000), drift[cost.HalfUp])
	require.Equal(t, int64(-10_000), drift[cost.HalfDown])
}

// Rounding to the nearest line by line is never more than half a minor unit a
// line away from rounding the invoice once.
func TestLawTaxLevels(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(someCurrencies).Draw(t, "currency")
		n := rapid.IntRange(1, 12).Draw(t, "lines")
		var lines []cost.Line
		for range n {
			l, err := cost.LumpSum(cost.Goods, "line", drawMinor(t, c, 0, 50_000))
			require.NoError(t, err)
			lines = append(lines, l)
		}
		tax := cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: unit.Ratio(rapid.IntRange(0, 3000).Draw(t, "rate")) / 10_000}}, Inclusive: rapid.Bool().Draw(t, "inclusive")}
		q, err := cost.NewQuote(cost.Terms{Currency: c, Tax: tax, Rounding: rapid.SampledFrom([]cost.Rounding{cost.HalfUp, cost.HalfEven, cost.HalfDown}).Draw(t, "mode")}, lines...)
		require.NoError(t, err)
		methods, err := q.TaxMethods()
		require.NoError(t, err)
		require.Len(t, methods, 2)
		require.True(t, methods[0].Difference.IsZero(), "the quote's own method")
		off := minor(t, methods[1].Difference)
		require.LessOrEqual(t, 2*max(off, -off), int64(n+1))
		sum, err := q.Tax.Plus(methods[1].Difference)
		require.NoError(t, err)
		require.True(t, methods[1].Tax.Equal(sum))
	})
}

// The order of the lines changes no sum.
func TestLawOrderOfLines(t *testing.T) {
	t.Parallel()
	for i := range 300 {
		m := &maker{t: t, r: rand.New(rand.NewPCG(11, uint64(i))), c: cost.USD}
		lines := []cost.Line{classLine(t, m.c)}
		for range 1 + m.r.IntN(6) {
			lines = append(lines, m.line())
		}
		terms := m.terms()
		for k := range terms.Discounts { // one discount spreads by order where fractions tie
			terms.Discounts[k].AfterTax = true
			terms.Discounts[k].Kinds = nil
		}
		a, err := cost.NewQuote(terms, lines...)
		require.NoError(t, err)
		m.r.Shuffle(len(lines), func(i, k int) { lines[i], lines[k] = lines[k], lines[i] })
		b, err := cost.NewQuote(terms, lines...)
		require.NoError(t, err)
		for _, f := range []func(cost.Quote) cost.Money{
			func(q cost.Quote) cost.Money { return q.Subtotal }, func(q cost.Quote) cost.Money { return q.Tax },
			func(q cost.Quote) cost.Money { return q.Total }, func(q cost.Quote) cost.Money { return q.Cost },
		} {
			require.True(t, f(a).Equal(f(b)))
		}
		require.Len(t, b.Payments, len(a.Payments))
		for k := range a.Payments {
			require.True(t, a.Payments[k].Amount.Equal(b.Payments[k].Amount))
		}
	}
}

// A unit price never loses to rounding: the price of a sum is within one minor
// unit for each part of the sum of the prices, and pricing is monotone.
func TestLawPrice(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p, err := cost.Per(drawMinor(t, cost.USD, 0, 100_000), rapid.SampledFrom([]unit.Length{unit.Yard, unit.Metre, unit.Foot}).Draw(t, "per"))
		require.NoError(t, err)
		draw := func(name string) unit.Length {
			return unit.Millimetre * unit.Length(rapid.Int64Range(0, 50_000).Draw(t, name))
		}
		a, b := draw("a"), draw("b")
		of := func(l unit.Length) int64 {
			m, err := p.Of(l, cost.HalfUp)
			require.NoError(t, err)
			return minor(t, m)
		}
		require.InDelta(t, of(a)+of(b), of(a+b), 1)
		require.LessOrEqual(t, of(a), of(a+b))
		require.Equal(t, minor(t, p.Amount()), of(p.Unit()))
		text, err := p.MarshalText()
		require.NoError(t, err)
		var back cost.LengthPrice
		require.NoError(t, back.UnmarshalText(text))
		require.Equal(t, p, back, "%s", text)
	})
}

// Comparing a quote with itself shows no difference, and the differences of
// the lines add up to that of the subtotals.
func TestLawCompare(t *testing.T) {
	t.Parallel()
	for i := range 200 {
		m := &maker{t: t, r: rand.New(rand.NewPCG(12, uint64(i))), c: cost.USD}
		a, err := cost.NewQuote(m.terms(), classLine(t, m.c), m.line(), m.line(), m.line())
		require.NoError(t, err)
		m.n = 2 // line 2 is in both
		b, err := cost.NewQuote(m.terms(), m.line(), m.line(), classLine(t, m.c))
		require.NoError(t, err)
		self, err := cost.Compare(a, a)
		require.NoError(t, err)
		for _, r := range slices.Concat(self.Lines, self.Sums) {
			require.Equal(t, cost.Same, r.Change)
			require.True(t, r.Difference.IsZero())
		}
		c, err := cost.Compare(a, b)
		require.NoError(t, err)
		sum := plus(t, cost.USD, column(c.Lines, func(r cost.CompareRow) cost.Money { return r.Difference })...)
		require.True(t, sum.Equal(c.Sums[0].Difference))
		require.True(t, c.Sums[3].AmountA.Equal(a.Total))
		require.True(t, c.Sums[3].AmountB.Equal(b.Total))
	}
}
