package account_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/internal/dev/exported"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
)

func money(t require.TestingT, text string) cost.Money {
	m, err := cost.ParseMoney(text)
	require.NoError(t, err)
	return m
}

func day(t require.TestingT, text string) cost.Date {
	d, err := cost.ParseDate(text)
	require.NoError(t, err)
	return d
}

// salesTax falls on goods and on what is made new.
var salesTax = cost.Tax{Levies: []cost.Levy{{Name: "sales tax", Rate: 0.0625, On: []cost.TaxClass{"goods", bench.Fabrication}}}}

func change(t require.TestingT, amount string, kind cost.Kind, class cost.TaxClass) account.Change {
	return account.Change{What: "more of it", Amount: money(t, amount), Kind: kind, TaxClass: class, Agreed: day(t, "2027-03-09")}
}

// Worked by hand: 6.25 % of 80.00 is 5.00, repair is free of tax, 6.25 % of 33.36 is
// 2.085, so 2.09, taken off; 1000 + 85 + 48 - 35.45 is 1097.55.
func TestSettle(t *testing.T) {
	a := account.Account{Changes: []account.Change{change(t, "80 USD", cost.Goods, ""), change(t, "48 USD", cost.Labour, bench.Application), change(t, "-33.36 USD", cost.Labour, bench.Fabrication)},
		Received: []account.Receipt{{What: "deposit", Amount: money(t, "500 USD"), On: day(t, "2027-02-01")}}}
	s, err := account.Settle(a, money(t, "1000 USD"), salesTax, cost.HalfUp)
	require.NoError(t, err)
	var totals []string
	for _, c := range s.Changes {
		totals = append(totals, c.Net.Amount()+" + "+c.Tax.Amount()+" = "+c.Total.Amount())
	}
	assert.Equal(t, []string{"80.00 + 5.00 = 85.00", "48.00 + 0.00 = 48.00", "-33.36 + -2.09 = -35.45"}, totals)
	assert.Equal(t, "1097.55", s.Sum.Amount())
	assert.Equal(t, "597.55", s.Balance.Amount())
	assert.True(t, s.Credit.IsZero())

	a.Received = append(a.Received, account.Receipt{What: "second", Amount: money(t, "600 USD"), On: day(t, "2027-02-03")})
	s, err = account.Settle(a, money(t, "1000 USD"), salesTax, cost.HalfUp)
	require.NoError(t, err)
	assert.Equal(t, "-2.45", s.Balance.Amount())
	assert.Equal(t, "2.45", s.Credit.Amount())
}

// Of 106.25 with 6.25 % of tax within, 100.00 is without it.
func TestTaxWithin(t *testing.T) {
	tax := salesTax
	tax.Inclusive = true
	s, err := account.Settle(account.Account{Changes: []account.Change{change(t, "106.25 USD", cost.Goods, "")}}, money(t, "0 USD"), tax, cost.HalfUp)
	require.NoError(t, err)
	assert.Equal(t, "100.00", s.Changes[0].Net.Amount())
	assert.Equal(t, "106.25", s.Sum.Amount())
	assert.Equal(t, "100.00", s.Changes[0].Taxes[0].Base.Amount())
}

// Sum = quoted + changes, Balance + Received = Sum, and a change and its opposite
// cancel.
func TestLawsOfAccounts(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		cents := func(name string, least int64) cost.Money {
			m, err := cost.MinorUnits(rapid.Int64Range(least, 10_000_00).Draw(r, name), "USD")
			require.NoError(r, err)
			return m
		}
		tax := salesTax
		tax.Inclusive = rapid.Bool().Draw(r, "inclusive")
		var a account.Account
		for range rapid.IntRange(0, 5).Draw(r, "changes") {
			k := rapid.SampledFrom([]cost.Kind{cost.Goods, cost.Labour, cost.Delivery}).Draw(r, "kind")
			c := account.Change{What: "x", Kind: k, Amount: cents("amount", -10_000_00), Agreed: day(r, "2027-01-01")}
			if k == cost.Labour {
				c.TaxClass = rapid.SampledFrom([]cost.TaxClass{"", bench.Fabrication, bench.Application}).Draw(r, "class")
			}
			a.Changes = append(a.Changes, c)
		}
		for range rapid.IntRange(0, 4).Draw(r, "receipts") {
			a.Received = append(a.Received, account.Receipt{What: "x", Amount: cents("received", 0), On: day(r, "2027-01-01")})
		}
		s, err := account.Settle(a, cents("total", 0), tax, cost.HalfEven)
		require.NoError(r, err)
		sum, received := s.Quoted, s.Received
		for _, c := range s.Changes {
			back, err := c.Net.Plus(c.Tax)
			require.NoError(r, err)
			require.True(r, back.Equal(c.Total))
			sum, err = sum.Plus(c.Total)
			require.NoError(r, err)
		}
		require.True(r, sum.Equal(s.Sum))
		back, err := s.Balance.Plus(received)
		require.NoError(r, err)
		require.True(r, back.Equal(s.Sum))
		require.Equal(r, s.Balance.Sign() < 0, !s.Credit.IsZero())

		both := account.Account{}
		for _, c := range a.Changes {
			c.Amount = c.Amount.Neg()
			both.Changes = append(both.Changes, c)
		}
		both.Changes = append(both.Changes, a.Changes...)
		s, err = account.Settle(both, s.Quoted, tax, cost.HalfEven)
		require.NoError(r, err)
		require.True(r, s.Changed.IsZero(), "%v", s.Changed)
	})
}

func TestFaults(t *testing.T) {
	ok := change(t, "80 USD", cost.Goods, "")
	for want, a := range map[string]account.Account{
		"revision.letter":      {Revision: &account.Revision{}},
		"changes[0].what":      {Changes: []account.Change{{Amount: ok.Amount, Kind: ok.Kind, Agreed: ok.Agreed}}},
		"changes[0].amount":    {Changes: []account.Change{change(t, "80 EUR", cost.Goods, "")}},
		"changes[0].kind":      {Changes: []account.Change{change(t, "80 USD", cost.Contingency, "")}},
		"changes[0].tax_class": {Changes: []account.Change{change(t, "80 USD", cost.Labour, "fabrication")}},
		"changes[0].agreed":    {Changes: []account.Change{ok}, Invoice: &account.Invoice{Number: "1", Issued: day(t, "2027-03-08")}},
		"received[0].on":       {Received: []account.Receipt{{What: "deposit", Amount: ok.Amount}}},
		"received[0].amount":   {Received: []account.Receipt{{What: "deposit", Amount: money(t, "0.005 USD"), On: ok.Agreed}}},
		"invoice.number":       {Invoice: &account.Invoice{Issued: ok.Agreed}},
		"invoice.issued":       {Invoice: &account.Invoice{Number: "1"}},
		"invoice.due":          {Invoice: &account.Invoice{Number: "1", Issued: ok.Agreed, Due: day(t, "2027-03-08")}},
	} {
		f := account.Faults(a, "USD")
		require.Len(t, f, 1, want)
		var in *unit.InputError
		require.ErrorAs(t, f[0], &in, want)
		assert.Equal(t, unit.Path(want), in.Field)
		_, err := account.Settle(a, money(t, "1 USD"), cost.Tax{}, cost.HalfUp)
		require.Error(t, err)
	}
	var none *account.Copy
	assert.Empty(t, none.Faults("USD"))
	f := (&account.Copy{GoOn: money(t, "-1 USD"), Terms: make([]string, 31), By: 7}).Faults("USD")
	require.Len(t, f, 3)
	assert.Contains(t, f[1].Error(), "without_asking")
}

func TestEveryTypeIsJSON(t *testing.T) {
	c, r := change(t, "80 USD", cost.Goods, ""), account.Receipt{What: "deposit", Amount: money(t, "5 USD"), On: day(t, "2027-02-01"), How: "by card"}
	a := account.Account{Changes: []account.Change{c}, Received: []account.Receipt{r}, Revision: &account.Revision{Letter: "B"}, Invoice: &account.Invoice{Number: "7", Issued: c.Agreed}}
	s, err := account.Settle(a, money(t, "80 USD"), salesTax, cost.HalfUp)
	require.NoError(t, err)
	faults, err := roundtrip.Faults(os.DirFS("."), []any{a, c, r, *a.Revision, *a.Invoice, s, s.Changes[0],
		account.Copy{By: account.Work, Tax: account.Below, Damage: "we ask", GoOn: r.Amount, NotIncluded: []string{"a"}, Terms: []string{"b"}}})
	require.NoError(t, err)
	require.Empty(t, faults)
	exported.EnumsListed(t, ".")
	for _, text := range []string{"piece", "work"} {
		var b account.By
		require.NoError(t, b.UnmarshalText([]byte(text)))
		assert.Equal(t, text, b.String())
	}
	var x account.Tax
	require.NoError(t, x.UnmarshalText([]byte("below")))
	require.ErrorIs(t, x.UnmarshalText([]byte("above")), unit.ErrUnknown)
	assert.Equal(t, "below", x.String())
	assert.False(t, strings.Contains(account.By(9).String(), "piece"))
}
