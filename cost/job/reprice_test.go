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
func TestReprice(t *testing.T) {
	t.Parallel()
	saved := reread(t, benchAt(t, "42.00 USD/yd", "3 h", ""))
	r, err := Reprice(saved, benchAt(t, "50.00 USD/yd", "2 h", `, {"kind": "outwork", "name": "stairs", "amount": "5 USD"}`))
	require.NoError(t, err)
	assert.Equal(t, "bench", r.Name)
	assert.Equal(t, 1, r.Same, "delivery")
	require.Len(t, r.Lines, 3)
	text := func(l RepricedLine) []string {
		return []string{l.Change.String(), l.Quantity, l.NewQuantity, l.Price, l.NewPrice, l.Amount.Amount(), l.NewAmount.Amount(), l.Difference.Amount()}
	}
	assert.Equal(t, []string{"changed", "1 yd", "1 yd", "42.00 USD/yd, 50 % markup", "50.00 USD/yd, 50 % markup", "63.00", "75.00", "12.00"}, text(r.Lines[0]))
	assert.Equal(t, []string{"changed", "3 h", "2 h", "60.00 USD/h", "60.00 USD/h", "180.00", "120.00", "-60.00"}, text(r.Lines[1]))
	assert.Equal(t, []string{"added", "", "1 piece", "", "5.00 USD/piece", "0.00", "5.00", "5.00"}, text(r.Lines[2]))
	total := r.Sums[len(r.Sums)-1]
	assert.Equal(t, "-43.00", total.Difference.Amount())

	r, err = Reprice(saved, saved)
	require.NoError(t, err)
	assert.Empty(t, r.Lines)
	assert.Equal(t, len(saved.Quote.Lines), r.Same)

	// The same amount of other figures is a change all the same.
	r, err = Reprice(benchAt(t, "42.00 USD/yd", "3 h", ""), func() WorkOrder {
		o := benchAt(t, "42.00 USD/yd", "3 h", "")
		o.Quote.Lines = append([]cost.QuoteLine(nil), o.Quote.Lines...)
		for i := range o.Quote.Lines {
			if o.Quote.Lines[i].Kind == cost.Labour {
				o.Quote.Lines[i].Quantity, o.Quote.Lines[i].Price = "2 h", "90.00 USD/h"
			}
		}
		return o
	}())
	require.NoError(t, err)
	require.Len(t, r.Lines, 1)
	assert.Equal(t, cost.Changed, r.Lines[0].Change)
	assert.True(t, r.Lines[0].Difference.IsZero())
}

// Orders of other jobs, in other money, and what is no order are refused.
func TestRepriceRefuses(t *testing.T) {
	t.Parallel()
	o := benchAt(t, "42.00 USD/yd", "3 h", "")
	other := o
	other.Name = "sofa"
	_, err := Reprice(other, o)
	require.ErrorIs(t, err, ErrMisplaced)
	other = o
	o.Number, other.Number = "7", "8"
	_, err = Reprice(other, o)
	require.ErrorIs(t, err, ErrMisplaced)
	other.Number, other.Quote.Currency = "", "EUR"
	_, err = Reprice(other, o)
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
		if r, err := Reprice(o, o); err == nil {
			require.Empty(t, r.Lines)
		}
		written, err := json.Marshal(o)
		if err != nil {
			return // a value that no order has
		}
		_, err = ReadOrder(bytes.NewReader(written))
		require.NoError(t, err)
	})
}
