package cost_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// maker makes random quotes that hang together; the same seed gives the same
// quotes everywhere.
type maker struct {
	t *testing.T
	r *rand.Rand
	c cost.Currency
	n int // lines made so far
}

func pick[T any](r *rand.Rand, xs ...T) T { return xs[r.IntN(len(xs))] }

func (m *maker) ratio(most int) unit.Ratio { return unit.Ratio(m.r.IntN(most*100+1)) / 10_000 }

// amount is a random amount, often finer than the minor unit.
func (m *maker) amount() cost.Money {
	text := fmt.Sprintf("%d.%0*d", m.r.IntN(pick(m.r, 3, 60, 900)), 1+m.r.IntN(4), m.r.IntN(10))
	a, err := cost.NewMoney(text, m.c)
	require.NoError(m.t, err)
	return a
}

func randomItem[Q cost.Quantity](m *maker, most, per Q) cost.Line {
	p, err := cost.Per(m.amount(), per)
	require.NoError(m.t, err)
	q := Q(m.r.Int64N(int64(most)))
	if l, ok := any(q).(interface{ Forgotten() bool }); ok && l.Forgotten() {
		q = 0
	}
	it := cost.Item[Q]{Kind: pick(m.r, cost.Goods, cost.Foam, cost.Sundries, cost.Labour, cost.Outwork, cost.Delivery, cost.OwnMaterial),
		What: fmt.Sprintf("line %d", m.n), Quantity: q, Price: p}
	switch m.r.IntN(4) {
	case 0:
		it.Uplift = cost.Markup(m.ratio(150))
	case 1:
		it.Uplift = cost.Margin(m.ratio(90))
	case 2:
		it.Sells = cost.AsListed
	}
	if m.r.IntN(4) == 0 {
		it.Fixed = m.amount()
	}
	for range m.r.IntN(4) {
		it.Shares = append(it.Shares, cost.Share{Group: pick(m.r, "chair", "sofa", "stool"), Weight: 1 + m.r.Int64N(1<<40)})
	}
	if m.r.IntN(2) == 0 && q > 0 {
		it.Net = Q(m.r.Int64N(int64(q) + 1))
	}
	if m.r.IntN(4) == 0 {
		it.TaxClass = "fabrication labour"
	}
	m.n++
	l, err := it.Line()
	require.NoError(m.t, err)
	return l
}

func (m *maker) line() cost.Line {
	switch m.r.IntN(6) {
	case 0:
		return randomItem(m, 20*unit.Yard, pick(m.r, unit.Yard, unit.Metre))
	case 1:
		return randomItem(m, 90*unit.SquareFoot, pick(m.r, unit.SquareFoot, unit.SquareDecimetre))
	case 2:
		return randomItem(m, 40*unit.BoardFoot, pick(m.r, unit.BoardFoot, unit.Litre))
	case 3:
		return randomItem(m, 9*unit.Pound, unit.Pound)
	case 4:
		return randomItem(m, 30*unit.Hour, unit.Hour)
	}
	return randomItem(m, cost.Pieces(200), cost.Pieces(1+m.r.IntN(3)))
}

func (m *maker) terms() cost.Terms {
	t := cost.Terms{Currency: m.c, Rounding: pick(m.r, cost.Roundings()...)}
	for k := range m.r.IntN(4) {
		l := cost.Levy{Name: fmt.Sprintf("levy %d", k), Rate: m.ratio(25)}
		switch m.r.IntN(3) {
		case 0:
			l.On = []cost.TaxClass{cost.Goods.TaxClass(), cost.Labour.TaxClass()}
		case 1:
			l.Except = []cost.TaxClass{cost.Labour.TaxClass(), cost.Contingency.TaxClass()}
		}
		t.Tax.Levies = append(t.Tax.Levies, l)
	}
	t.Tax.Level = pick(m.r, cost.PerInvoice, cost.PerLine)
	t.Tax.Inclusive = m.r.IntN(2) == 0
	t.Tax.Together = m.r.IntN(3) == 0
	if m.r.IntN(2) == 0 {
		t.Tax.Rounding = pick(m.r, cost.Roundings()...)
	}
	if m.r.IntN(3) == 0 {
		t.Contingency = m.ratio(20)
	}
	for k := range m.r.IntN(3) {
		d := cost.Discount{Name: fmt.Sprintf("discount %d", k), Rate: m.ratio(30) + unit.Percent, AfterTax: m.r.IntN(2) == 0}
		if !d.AfterTax && m.r.IntN(2) == 0 {
			d.Kinds = []cost.Kind{cost.Goods, cost.Foam}
		}
		t.Discounts = append(t.Discounts, d)
	}
	switch m.r.IntN(3) {
	case 0:
		t.Stages = []cost.Stage{{Name: "deposit", Share: m.ratio(50), AtLeast: []cost.Kind{cost.Goods}}, {Name: "balance"}}
	case 1:
		t.Stages = []cost.Stage{{Name: "a", Share: 0.3}, {Name: "b", Share: 0.3}, {Name: "c", Share: 0.4}}
	}
	whole := func(most int) cost.Money {
		a, err := cost.NewMoney(fmt.Sprint(1+m.r.IntN(most)), m.c)
		require.NoError(m.t, err)
		return a
	}
	if m.r.IntN(3) == 0 {
		t.Least = whole(9000)
	}
	if m.r.IntN(3) == 0 {
		t.Step = whole(50)
	}
	if m.r.IntN(2) == 0 {
		t.Groups = []cost.GroupCount{{Name: "stool", Items: m.r.IntN(7)}}
	}
	if m.r.IntN(2) == 0 {
		t.Class = cost.EstimateClass(1 + m.r.IntN(5))
	}
	return t
}

func plus(t testing.TB, c cost.Currency, ms ...cost.Money) cost.Money {
	t.Helper()
	zero, err := cost.Zero(c)
	require.NoError(t, err)
	sum, err := cost.Sum(append([]cost.Money{zero}, ms...)...)
	require.NoError(t, err)
	return sum
}

func minus(t testing.TB, a, b cost.Money) cost.Money {
	t.Helper()
	d, err := a.Minus(b)
	require.NoError(t, err)
	return d
}

func column[T any](xs []T, of func(T) cost.Money) []cost.Money {
	out := make([]cost.Money, len(xs))
	for i, x := range xs {
		out[i] = of(x)
	}
	return out
}

func equal(t *testing.T, what string, a, b cost.Money) {
	t.Helper()
	if !a.Equal(b) {
		t.Fatalf("%s: %s is not %s", what, a, b)
	}
}

// addsUp holds a quote to every identity its documentation states.
func addsUp(t *testing.T, q cost.Quote) {
	t.Helper()
	sum := func(ms []cost.Money) cost.Money { return plus(t, q.Currency, ms...) }
	amounts := column(q.Lines, func(l cost.QuoteLine) cost.Money { return l.Amount })
	equal(t, "lines and subtotal", sum(amounts), q.Subtotal)
	equal(t, "subtotals and subtotal", sum(column(q.Subtotals, func(s cost.KindSubtotal) cost.Money { return s.Amount })), q.Subtotal)
	equal(t, "discounts of lines", sum(column(q.Lines, func(l cost.QuoteLine) cost.Money { return l.Discount })), q.Discount)
	var before, after []cost.Money
	for _, d := range q.Discounts {
		if d.AfterTax {
			after = append(after, d.Amount)
		} else {
			before = append(before, d.Amount)
		}
	}
	equal(t, "discounts before tax", sum(before), q.Discount)
	equal(t, "discounts after tax", sum(after), q.Credit)
	equal(t, "taxed", minus(t, q.Subtotal, q.Discount), q.Taxed)
	equal(t, "taxed lines", sum(column(q.Lines, func(l cost.QuoteLine) cost.Money { return l.Taxed })), q.Taxed)
	equal(t, "levies", sum(column(q.Taxes, func(l cost.LevyAmount) cost.Money { return l.Tax })), q.Tax)
	equal(t, "tax of lines", sum(column(q.Lines, func(l cost.QuoteLine) cost.Money { return l.Tax })), q.Tax)
	net := q.Taxed
	if q.Inclusive {
		net = minus(t, q.Taxed, q.Tax)
	}
	equal(t, "net", net, q.Net)
	equal(t, "total", minus(t, plus(t, q.Currency, q.Net, q.Tax), q.Credit), q.Total)
	equal(t, "cost", sum(column(q.Lines, func(l cost.QuoteLine) cost.Money { return l.Cost })), q.Cost)
	equal(t, "credit of lines", sum(column(q.Lines, func(l cost.QuoteLine) cost.Money { return l.Credit })), q.Credit)
	equal(t, "profit", minus(t, minus(t, minus(t, q.Net, minus(t, q.Cost, q.CostTax)), q.Credit), q.CostUnknown), q.Profit)
	groupsAddUp(t, q)
	if len(q.Payments) > 0 {
		equal(t, "payments", sum(column(q.Payments, func(p cost.Payment) cost.Money { return p.Amount })), q.Total)
	}
	for _, l := range q.Lines {
		for _, m := range []cost.Money{l.Cost, l.Amount, l.Discount, l.Taxed, l.Tax} {
			if _, err := m.Minor(); err != nil || m.Sign() < 0 {
				t.Fatalf("%s: %s is not whole minor units", l.ID, m)
			}
		}
	}
}

// groupsAddUp holds every column of the groups to the quote, and every group to
// the identities of a quote.
func groupsAddUp(t *testing.T, q cost.Quote) {
	t.Helper()
	for name, c := range map[string]struct {
		of   func(cost.Group) cost.Money
		want cost.Money
	}{
		"cost": {func(g cost.Group) cost.Money { return g.Cost }, q.Cost}, "tax within the cost": {func(g cost.Group) cost.Money { return g.CostTax }, q.CostTax}, "cost unknown": {func(g cost.Group) cost.Money { return g.CostUnknown }, q.CostUnknown},
		"amount": {func(g cost.Group) cost.Money { return g.Amount }, q.Subtotal}, "discount": {func(g cost.Group) cost.Money { return g.Discount }, q.Discount},
		"taxed": {func(g cost.Group) cost.Money { return g.Taxed }, q.Taxed}, "tax": {func(g cost.Group) cost.Money { return g.Tax }, q.Tax},
		"credit": {func(g cost.Group) cost.Money { return g.Credit }, q.Credit}, "net": {func(g cost.Group) cost.Money { return g.Net }, q.Net},
		"total": {func(g cost.Group) cost.Money { return g.Total }, q.Total}, "profit": {func(g cost.Group) cost.Money { return g.Profit }, q.Profit},
	} {
		equal(t, "groups and "+name, plus(t, q.Currency, column(q.Groups, c.of)...), c.want)
	}
	seen := map[string]bool{}
	for _, g := range q.Groups {
		require.False(t, seen[g.Name], g.Name)
		require.Positive(t, g.Items)
		seen[g.Name] = true
		equal(t, "taxed of "+g.Name, minus(t, g.Amount, g.Discount), g.Taxed)
		net := g.Taxed
		if q.Inclusive {
			net = minus(t, g.Taxed, g.Tax)
		}
		equal(t, "net of "+g.Name, net, g.Net)
		equal(t, "total of "+g.Name, minus(t, plus(t, q.Currency, g.Net, g.Tax), g.Credit), g.Total)
		equal(t, "profit of "+g.Name, minus(t, minus(t, minus(t, g.Net, g.Credit), minus(t, g.Cost, g.CostTax)), g.CostUnknown), g.Profit)
	}
	if least := q.Terms.Least; !least.IsZero() {
		require.GreaterOrEqual(t, minor(t, q.Taxed), minor(t, least))
	}
	if step := q.Terms.Step; !step.IsZero() {
		require.Zero(t, minor(t, q.Taxed)%minor(t, step))
	}
}

// Every quote adds up, whatever its currency, lines, taxes, discounts, stages
// and rounding mode.
func TestEveryQuoteAddsUp(t *testing.T) { everyQuoteAddsUp(t, 1200) }

func everyQuoteAddsUp(t *testing.T, quotes int) {
	t.Helper()
	t.Parallel()
	for k, c := range []cost.Currency{cost.USD, cost.JPY, cost.KWD, "CLF"} { // 2, 0, 3 and 4 digits
		t.Run(string(c), func(t *testing.T) {
			t.Parallel()
			modes, levels, inclusive := map[cost.Rounding]int{}, map[cost.TaxLevel]int{}, 0
			for i := range quotes / 4 {
				m := &maker{t: t, r: rand.New(rand.NewPCG(uint64(k), uint64(i))), c: c}
				lines := []cost.Line{classLine(t, c)}
				for range 1 + m.r.IntN(7) {
					lines = append(lines, m.line())
				}
				q, err := cost.NewQuote(m.terms(), lines...)
				if err != nil {
					t.Fatalf("quote %d: %v", i, err)
				}
				addsUp(t, q)
				modes[q.Rounding]++
				levels[q.TaxLevel]++
				if q.Inclusive {
					inclusive++
				}
			}
			for _, r := range cost.Roundings() {
				require.Greater(t, modes[r], quotes/60, r)
			}
			require.Greater(t, levels[cost.PerLine], quotes/12)
			require.Greater(t, levels[cost.PerInvoice], quotes/12)
			require.Greater(t, inclusive, quotes/12)
		})
	}
}

// classLine carries the tax class that some levies name.
func classLine(t *testing.T, c cost.Currency) cost.Line {
	t.Helper()
	m, err := cost.NewMoney("3.33", c)
	require.NoError(t, err)
	p, err := cost.Per(m, cost.Pieces(1))
	require.NoError(t, err)
	l, err := cost.Item[cost.Pieces]{Kind: cost.Labour, What: "making covers", Quantity: 3, Price: p, TaxClass: "fabrication labour"}.Line()
	require.NoError(t, err)
	return l
}
