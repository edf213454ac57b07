package cost_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

func TestMoneyText(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct{ in, want string }{
		{"12.50 USD", "12.50 USD"},
		{"12.5 USD", "12.50 USD"},
		{"  -0.05 USD ", "-0.05 USD"},
		{"+7 USD", "7.00 USD"},
		{"-0 USD", "0.00 USD"},
		{"1250 JPY", "1250 JPY"},
		{"1250.5 JPY", "1250.5 JPY"},
		{"1.2345 KWD", "1.2345 KWD"},
		{"1.2000 KWD", "1.200 KWD"},
		{"12.925 USD", "12.925 USD"},
		{"999999999999999.999999999999 USD", "999999999999999.999999999999 USD"},
		{"0000012.50 USD", "12.50 USD"},
	} {
		m, err := cost.ParseMoney(tc.in)
		require.NoError(t, err, tc.in)
		require.Equal(t, tc.want, m.String())
		text, err := json.Marshal(m)
		require.NoError(t, err)
		var back cost.Money
		require.NoError(t, json.Unmarshal(text, &back))
		require.True(t, m.Equal(back), "%s", text)
		require.Equal(t, m, back, "equal amounts are the same value")
	}
}

func TestMoneyRefused(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		in  string
		err error
	}{
		{"", unit.ErrSyntax}, {"12.50", unit.ErrSyntax}, {"USD", unit.ErrSyntax}, {"12.50USD", unit.ErrSyntax},
		{"USD 12.50", unit.ErrSyntax}, {"1,250.00 USD", unit.ErrDecimalComma}, {"12,50 EUR", unit.ErrDecimalComma},
		{"1e3 USD", unit.ErrSyntax}, {"1e999999999 USD", unit.ErrSyntax}, {"NaN USD", unit.ErrSyntax}, {"Inf USD", unit.ErrSyntax},
		{".50 USD", unit.ErrSyntax}, {"12. USD", unit.ErrSyntax}, {"--1 USD", unit.ErrSyntax}, {"0x10 USD", unit.ErrSyntax},
		{"1_000 USD", unit.ErrSyntax}, {"1.0000000000001 USD", unit.ErrSyntax}, {"12.50 usd", unit.ErrUnknown},
		{"12.50 QQQ", unit.ErrUnknown}, {"1 XAU", unit.ErrRange}, {"1000000000000000 USD", unit.ErrOverflow},
		{"12.50 ", unit.ErrSyntax}, {"٣ USD", unit.ErrSyntax},
	} {
		_, err := cost.ParseMoney(tc.in)
		require.ErrorIs(t, err, tc.err, tc.in)
		var in *unit.InputError
		require.ErrorAs(t, err, &in, tc.in)
	}
}

func TestMoneyMinorUnits(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		n    int64
		c    cost.Currency
		want string
	}{{1250, cost.USD, "12.50 USD"}, {-5, cost.USD, "-0.05 USD"}, {1250, cost.JPY, "1250 JPY"}, {1250, cost.KWD, "1.250 KWD"}, {1, "CLF", "0.0001 CLF"}} {
		m, err := cost.MinorUnits(tc.n, tc.c)
		require.NoError(t, err)
		require.Equal(t, tc.want, m.String())
		n, err := m.Minor()
		require.NoError(t, err)
		require.Equal(t, tc.n, n)
	}
	_, err := money(t, "12.505 USD").Minor()
	require.ErrorIs(t, err, cost.ErrFraction)
	_, err = cost.Money{}.Minor()
	require.ErrorIs(t, err, cost.ErrNoCurrency)
	_, err = cost.MinorUnits(1, "")
	require.ErrorIs(t, err, cost.ErrNoCurrency)
	m, err := cost.MinorUnits(math.MaxInt64, cost.JPY)
	require.ErrorIs(t, err, unit.ErrOverflow, m.String())
}

func TestMoneyArithmetic(t *testing.T) {
	t.Parallel()
	a, b := money(t, "10.10 USD"), money(t, "0.20 USD")
	sum, err := a.Plus(b)
	require.NoError(t, err)
	require.Equal(t, "10.30 USD", sum.String())
	diff, err := b.Minus(a)
	require.NoError(t, err)
	require.Equal(t, "-9.90 USD", diff.String())
	require.Equal(t, "9.90 USD", diff.Abs().String())
	require.Equal(t, -1, diff.Sign())
	three, err := a.Times(3)
	require.NoError(t, err)
	require.Equal(t, "30.30 USD", three.String())
	c, err := a.Cmp(b)
	require.NoError(t, err)
	require.Equal(t, 1, c)
	r, err := b.Per(a)
	require.NoError(t, err)
	require.InDelta(t, 0.2/10.1, float64(r), 1e-15)

	third, err := a.MulDiv(1, 3, cost.HalfUp)
	require.NoError(t, err)
	require.Equal(t, "3.37 USD", third.String())
	_, err = a.MulDiv(1, 0, cost.HalfUp)
	require.ErrorIs(t, err, unit.ErrDivideByZero)
	_, err = a.Per(money(t, "0 USD"))
	require.ErrorIs(t, err, unit.ErrDivideByZero)
	up, err := a.MulDiv(1, 3, 0)
	require.NoError(t, err)
	require.Equal(t, third, up, "the zero value rounds half up")
	_, err = a.Round(99)
	require.ErrorIs(t, err, cost.ErrMode)
	_, err = a.Scale(unit.Ratio(math.NaN()), cost.HalfUp)
	require.ErrorIs(t, err, unit.ErrNotFinite)
	_, err = a.Scale(unit.Ratio(math.Inf(1)), cost.HalfUp)
	require.ErrorIs(t, err, unit.ErrNotFinite)
	_, err = a.Scale(2e6, cost.HalfUp)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = money(t, "999999999999999 USD").Plus(money(t, "1 USD"))
	require.ErrorIs(t, err, unit.ErrOverflow)
	_, err = money(t, "999999999999999 USD").Times(math.MaxInt)
	require.ErrorIs(t, err, unit.ErrOverflow)
	_, err = money(t, "9999999999 USD").Scale(1e6, cost.HalfUp)
	require.ErrorIs(t, err, unit.ErrOverflow)
	for _, step := range []string{"0 USD", "-0.05 USD"} {
		_, err = a.RoundTo(money(t, step), cost.HalfUp)
		require.ErrorIs(t, err, unit.ErrRange)
	}
}

// 7.5 % is written as 0.07500000000000001 by some sums of binary fractions;
// the noise must not break a tie.
func TestRatioNoiseKeepsTies(t *testing.T) {
	t.Parallel()
	noisy := unit.Ratio(0.1) + 0.2 - 0.225
	require.NotEqual(t, unit.Ratio(0.075), noisy)
	m, err := money(t, "19.80 USD").Scale(noisy, cost.HalfDown)
	require.NoError(t, err)
	require.Equal(t, "1.48 USD", m.String(), "1.485 is a tie")
}

func TestMoneyMixedCurrencies(t *testing.T) {
	t.Parallel()
	a, b := money(t, "1 USD"), money(t, "1 EUR")
	_, err := a.Plus(b)
	require.ErrorIs(t, err, cost.ErrCurrency)
	var mix *cost.MismatchError
	require.ErrorAs(t, err, &mix)
	require.Equal(t, cost.MismatchError{A: cost.USD, B: cost.EUR}, *mix)
	_, err = a.Minus(b)
	require.ErrorIs(t, err, cost.ErrCurrency)
	_, err = a.Cmp(b)
	require.ErrorIs(t, err, cost.ErrCurrency)
	_, err = a.Per(b)
	require.ErrorIs(t, err, cost.ErrCurrency)
	_, err = cost.Sum(a, b)
	require.ErrorIs(t, err, cost.ErrCurrency)
	_, err = a.RoundTo(b, cost.HalfUp)
	require.ErrorIs(t, err, cost.ErrCurrency)
	_, err = cost.AllocateByMoney(a, []cost.Money{a, b})
	require.ErrorIs(t, err, cost.ErrCurrency)
	require.False(t, a.Equal(b))
	zero, err := cost.Zero(cost.EUR)
	require.NoError(t, err)
	_, err = a.Plus(zero)
	require.ErrorIs(t, err, cost.ErrCurrency, "nothing in another currency is still another currency")
}

func TestZeroMoney(t *testing.T) {
	t.Parallel()
	var z cost.Money
	require.True(t, z.IsZero())
	require.Equal(t, "0", z.String())
	require.Empty(t, z.Currency())
	sum, err := z.Plus(money(t, "1 USD"))
	require.NoError(t, err)
	require.Equal(t, "1.00 USD", sum.String())
	sum, err = money(t, "1 USD").Minus(z)
	require.NoError(t, err)
	require.Equal(t, "1.00 USD", sum.String())
	sum, err = z.Plus(z)
	require.NoError(t, err)
	require.True(t, sum.Equal(z))
	sum, err = z.Times(7)
	require.NoError(t, err)
	require.True(t, sum.Equal(z))
	_, err = z.Scale(2, cost.HalfUp)
	require.ErrorIs(t, err, cost.ErrNoCurrency)
	_, err = z.Round(cost.HalfUp)
	require.ErrorIs(t, err, cost.ErrNoCurrency)
	_, err = cost.Allocate(z, []int{1})
	require.ErrorIs(t, err, cost.ErrNoCurrency)
	text, err := json.Marshal(z)
	require.NoError(t, err)
	require.JSONEq(t, `""`, string(text))
	require.NoError(t, json.Unmarshal(text, &z))
}

func TestCurrencyTable(t *testing.T) {
	t.Parallel()
	all := cost.Currencies()
	require.Greater(t, len(all), 170)
	seen := map[cost.Currency]bool{}
	for i, c := range all {
		require.Len(t, string(c), 3)
		require.False(t, seen[c], c)
		seen[c] = true
		require.NotEmpty(t, c.Name(), c)
		require.Len(t, c.Numeric(), 3, c)
		if i > 0 {
			require.Less(t, string(all[i-1]), string(c), "the table is searched by halves")
		}
		got, err := cost.ParseCurrency(string(c))
		require.NoError(t, err)
		require.Equal(t, c, got)
		d, err := c.Digits()
		if err != nil {
			require.ErrorIs(t, err, unit.ErrRange)
			continue
		}
		require.Contains(t, []int{0, 2, 3, 4}, d)
	}
	for _, c := range []cost.Currency{"", "usd", "US", "USDX", "QQQ"} {
		_, err := cost.ParseCurrency(string(c))
		require.Error(t, err)
		require.Empty(t, c.Name())
		require.Empty(t, c.Numeric())
	}
	require.Equal(t, "840", cost.USD.Numeric())
	require.Equal(t, "036", cost.AUD.Numeric())
	var c cost.Currency
	require.NoError(t, json.Unmarshal([]byte(`"JPY"`), &c))
	require.Equal(t, cost.JPY, c)
	require.ErrorIs(t, json.Unmarshal([]byte(`"ZZZ"`), &c), unit.ErrUnknown)
	_, err := json.Marshal(cost.Currency("ZZZ"))
	require.Error(t, err)
}

func TestMoneyOfRefused(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]error{
		"1e15": unit.ErrOverflow, "1e400": unit.ErrOverflow, "1e-400": unit.ErrOverflow, "0.0000000000001": unit.ErrSyntax, "1.00000000000000000000": nil,
	} {
		_, err := cost.MoneyOf(decimal.RequireFromString(text), cost.USD)
		require.ErrorIs(t, err, want, text)
	}
	_, err := cost.MoneyOf(decimal.Zero, "QQQ")
	require.ErrorIs(t, err, unit.ErrUnknown)
}
