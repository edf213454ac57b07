package cost_test

import (
	"bytes"
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// refused holds every error to an *unit.InputError.
func refused(t *testing.T, err error) {
	t.Helper()
	var in *unit.InputError
	require.ErrorAs(t, err, &in)
	require.NotEmpty(t, err.Error())
}

func FuzzParseMoney(f *testing.F) {
	for _, s := range []string{"12.50 USD", "-0.05 EUR", "1250 JPY", "1.2345 KWD", "1e9 USD", "1,5 EUR", "999999999999999.999999999999 USD", "+0 USD"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		m, err := cost.ParseMoney(s)
		if err != nil {
			refused(t, err)
			return
		}
		back, err := cost.ParseMoney(m.String())
		require.NoError(t, err)
		require.True(t, m.Equal(back))
		require.Equal(t, m.String(), back.String())
		for _, mode := range cost.Roundings() {
			r, err := m.Round(mode)
			if err != nil { // up from just under the largest amount
				require.ErrorIs(t, err, unit.ErrOverflow)
				continue
			}
			_, err = r.Minor()
			if err != nil {
				require.ErrorIs(t, err, unit.ErrOverflow)
			}
		}
	})
}

func FuzzParsePrice(f *testing.F) {
	for _, s := range []string{"42.00 USD/yd", "9.80 USD/sq ft", "5.40 USD/bd ft", "18 USD/5 lb", "64.55 USD/h", "25 USD/1000 pcs", "1 USD/", "1 USD/1/2 yd"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		tryPrice[unit.Length](t, s)
		tryPrice[unit.Area](t, s)
		tryPrice[unit.Volume](t, s)
		tryPrice[unit.Mass](t, s)
		tryPrice[unit.Duration](t, s)
		tryPrice[cost.Pieces](t, s)
	})
}

func tryPrice[Q cost.Quantity](t *testing.T, s string) {
	t.Helper()
	p, err := cost.ParsePrice[Q](s)
	if err != nil {
		refused(t, err)
		return
	}
	back, err := cost.ParsePrice[Q](p.String())
	require.NoError(t, err, p.String())
	require.Equal(t, p, back)
	m, err := p.Of(p.Unit(), cost.HalfUp)
	if err == nil {
		want, err := p.Amount().Round(cost.HalfUp)
		require.NoError(t, err)
		require.True(t, m.Equal(want))
	}
}

func FuzzAnyQuantity(f *testing.F) {
	for _, s := range []string{"7 1/4 yd", "48 sq ft", "29.4 bd ft", "5 lb", "2 h 30 min", "6 pieces", "1 each", "0", "-3 in", "6"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var a, back cost.AnyQuantity
		if err := a.UnmarshalText([]byte(s)); err != nil {
			refused(t, err)
			return
		}
		text, err := a.MarshalText()
		require.NoError(t, err)
		require.NoError(t, back.UnmarshalText(text), "%s", text)
		require.Equal(t, a, back)
	})
}

func FuzzUplift(f *testing.F) {
	for _, s := range []string{"25 % markup", "20 % margin", "at cost", "", "1e9 % markup", "0.1markup", "-5 % margin"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var u cost.Uplift
		if err := u.UnmarshalText([]byte(s)); err != nil {
			refused(t, err)
			return
		}
		text, err := u.MarshalText()
		require.NoError(t, err)
		var back cost.Uplift
		require.NoError(t, back.UnmarshalText(text), "%s", text)
		m, err := cost.NewMoney("100", cost.USD)
		require.NoError(t, err)
		p, err := u.Price(m, cost.HalfUp)
		if err != nil {
			refused(t, err)
			return
		}
		c, err := p.Cmp(m)
		require.NoError(t, err)
		require.GreaterOrEqual(t, c, 0)
	})
}

func FuzzParseDate(f *testing.F) {
	for _, s := range []string{"2026-11-30", "2028-02-29", "2027-02-29", "0000-01-01", "9999-12-31"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := cost.ParseDate(s)
		if err != nil {
			refused(t, err)
			return
		}
		require.Equal(t, s, d.String())
	})
}

const soldCSV = `code,kind,description,price,step,pack,least,cut charge,freight,supplier,dated,sells
webbing,thread and sundries,jute webbing,0.90 USD/yd,1/4 yd,72 yd,1 yd,2.00 USD,0 USD,Mill & Sons,2026-11-02,as listed
`

func FuzzPriceListCSV(f *testing.F) {
	for _, s := range []string{listCSV, "code;kind;description;price\nA;goods;cloth;38.50 EUR/m", "code,kind,description,price\n\"", "", "\ufeffcode", soldCSV} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		l, err := cost.ReadPriceListCSV(bytes.NewReader(text))
		if err != nil {
			faults(t, err)
			return
		}
		var out bytes.Buffer
		require.NoError(t, l.WriteCSV(&out))
		back, err := cost.ReadPriceListCSV(&out)
		require.NoError(t, err)
		require.Equal(t, l, back)
		for _, e := range l.Entries() { // what can be read can be charged
			c, err := e.Charge(e.Price.Unit(), cost.HalfUp)
			if err != nil {
				refused(t, err)
				continue
			}
			line, err := c.Line()
			require.NoError(t, err)
			q, err := cost.NewQuote(cost.Terms{Currency: e.Price.Amount().Currency()}, line)
			require.NoError(t, err)
			if e.Uplift == (cost.Uplift{}) {
				require.True(t, q.Total.Equal(c.Amount))
			}
		}
	})
}

func FuzzPriceListJSON(f *testing.F) {
	for _, s := range []string{`[]`, `[{"code":"A","kind":"goods","description":"cloth","price":"42 USD/yd","uplift":"25 % markup"}]`, `[null]`, `[{"code":1}]`, `{`, `null`,
		`[{"code":"A","kind":"goods","description":"cloth","price":"42 USD/yd","step":"9 in","pack":"55 yd","cut_charge":"0 USD","dated":"2026-11-02","sells":"as listed"}]`} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		l, err := cost.ReadPriceListJSON(bytes.NewReader(text))
		if err != nil {
			faults(t, err)
			return
		}
		out, err := l.MarshalJSON()
		require.NoError(t, err)
		back, err := cost.ReadPriceListJSON(bytes.NewReader(out))
		require.NoError(t, err, "%s", out)
		require.Equal(t, l, back)
	})
}

// faults holds every fault of a list to a row, and to at most 20 of them.
func faults(t *testing.T, err error) {
	t.Helper()
	var list *cost.ListError
	if !errors.As(err, &list) {
		refused(t, err)
		return
	}
	require.NotEmpty(t, list.Cells)
	require.LessOrEqual(t, len(list.Cells), 20)
	for _, c := range list.Cells {
		require.Positive(t, c.Row)
		require.NotEmpty(t, c.Error())
	}
}
