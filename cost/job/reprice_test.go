package job

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// reread gives an order as it comes back from a file.
func reread(t *testing.T, o WorkOrder) WorkOrder {
	t.Helper()
	text, err := json.Marshal(o)
	require.NoError(t, err)
	back, err := ReadOrder(bytes.NewReader(text))
	require.NoError(t, err)
	again, err := json.Marshal(back)
	require.NoError(t, err)
	require.Equal(t, string(text), string(again))
	return back
}

// bench gives a job of a bench at a price of its cloth, and with more.
func benchAt(t *testing.T, price, hours, more string) WorkOrder {
	t.Helper()
	o, err := Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "bench", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "wool tweed", "material": "woven", "price": "`+price+`", "width": "54 in", "margin": {"squaring": "0 in"}}],
		"pieces": [{"name": "bench", "panels": [{"name": "seat", "goods": "cloth", "width": "40 in", "length": "35 in"}], "labour": [{"task": "sew", "time": "`+hours+`"}]}],
		"quote": {"labour_rate": "60.00 USD/h", "markup": "50 %", "extras": [{"kind": "delivery", "name": "delivery", "amount": "30 USD"}`+more+`]}}`), quick)
	require.NoError(t, err)
	return o
}

// A saved order is re-priced line by line. By hand: 1 yd of cloth at 42.00 and half as
// much again is 63.00, at 50.00 it is 75.00; an hour less is 60.00 less.
func TestAgainst(t *testing.T) {
	t.Parallel()
	saved := reread(t, benchAt(t, "42.00 USD/yd", "3 h", ""))
	c, err := benchAt(t, "50.00 USD/yd", "2 h", `, {"kind": "outwork", "name": "stairs", "amount": "5 USD"}`).Against(saved)
	require.NoError(t, err)
	var got [][]string
	for _, r := range c.Lines {
		got = append(got, []string{r.Change.String(), r.A, r.B, r.AmountA.Amount(), r.AmountB.Amount(), r.Difference.Amount()})
	}
	assert.Equal(t, [][]string{
		{"changed", "wool tweed: 1 yd at 42.00 USD/yd, 50 % markup", "wool tweed: 1 yd at 50.00 USD/yd, 50 % markup", "63.00", "75.00", "12.00"},
		{"changed", "bench: sew: 3 h at 60.00 USD/h", "bench: sew: 2 h at 60.00 USD/h", "180.00", "120.00", "-60.00"},
		{"same", "delivery: 1 piece at 30.00 USD/piece", "delivery: 1 piece at 30.00 USD/piece", "30.00", "30.00", "0.00"},
		{"added", "", "stairs: 1 piece at 5.00 USD/piece", "0.00", "5.00", "5.00"},
	}, got)
	assert.Equal(t, "-43.00", c.Sums[len(c.Sums)-1].Difference.Amount())

	c, err = saved.Against(saved)
	require.NoError(t, err)
	for _, r := range append(c.Lines, c.Sums...) {
		assert.Equal(t, cost.Same, r.Change, r.ID)
	}
}

// Orders of other jobs, in other money, and what is no order are refused.
func TestAgainstRefuses(t *testing.T) {
	t.Parallel()
	o := benchAt(t, "42.00 USD/yd", "3 h", "")
	other := o
	other.Name = "sofa"
	_, err := o.Against(other)
	require.ErrorIs(t, err, ErrMisplaced)
	other = o
	o.Number, other.Number = "7", "8"
	_, err = o.Against(other)
	require.ErrorIs(t, err, ErrMisplaced)
	other.Number, other.Quote.Currency = "", "EUR"
	_, err = o.Against(other)
	require.ErrorIs(t, err, cost.ErrCurrency)

	whole, err := json.Marshal(o)
	require.NoError(t, err)
	for text, want := range map[string]error{
		"":                           unit.ErrSyntax,
		"[]":                         unit.ErrSyntax,
		`{"schema": "x"}`:            unit.ErrUnknown,
		demo(t):                      unit.ErrUnknown, // a job
		string(whole[:len(whole)/2]): unit.ErrSyntax,
		strings.Replace(string(whole), `"name":"bench"`, `"name":"be\u202ench"`, 1): unit.ErrSyntax,
		strings.Replace(string(whole), `"total":"`, `"total":"x`, 1):                unit.ErrSyntax,
		strings.Replace(string(whole), `"cuts":[`, `"cuts":[7,`, 1):                 unit.ErrSyntax,
	} {
		_, err := ReadOrder(strings.NewReader(text))
		require.ErrorIs(t, err, want, "%.60s", text)
	}
}

func FuzzReadOrder(f *testing.F) {
	o, err := demoOrder()
	require.NoError(f, err)
	o.Cuts, o.Purchases, o.Assembly, o.Options, o.Sewing, o.Foam = o.Cuts[:1], nil, nil, nil, Sewing{}, nil
	text, err := json.Marshal(o)
	require.NoError(f, err)
	f.Add(text)
	f.Add([]byte(`{"schema": "coverwright/work-order/2", "quote": {"total": "1 USD"}}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		o, err := ReadOrder(bytes.NewReader(text))
		if err != nil {
			return
		}
		if c, err := o.Against(o); err == nil {
			for _, r := range c.Lines {
				require.True(t, r.Difference.IsZero())
			}
		}
		written, err := json.Marshal(o)
		if err != nil {
			return // a value that no order has
		}
		_, err = ReadOrder(bytes.NewReader(written))
		require.NoError(t, err)
	})
}
