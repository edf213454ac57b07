package main

import (
	"bytes"
	"context"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// A shop that sees which piece earns; what lists as sold shows no margin of its own.
func TestByPiece(t *testing.T) {
	usd := func(text string) cost.Money {
		m, err := cost.ParseMoney(text + " USD")
		require.NoError(t, err)
		return m
	}
	var lines []cost.Line
	for _, x := range []struct {
		group, amount string
		sells         cost.Selling
		markup        cost.Uplift
	}{{"chair", "100", cost.MarkedUp, cost.Markup(0.25)}, {"chair", "75", cost.AsListed, cost.Uplift{}}, {"sofa", "300", cost.MarkedUp, cost.Uplift{}}} {
		l, err := cost.LumpSum(cost.Goods, "cloth", usd(x.amount))
		require.NoError(t, err)
		l.Sells, l.Uplift, l.Shares = x.sells, x.markup, []cost.Share{{Group: x.group, Weight: 1}}
		lines = append(lines, l)
	}
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Groups: []cost.GroupCount{{Name: "chair", Items: 4}}}, lines...)
	require.NoError(t, err)
	rows, notes := byPiece(q)
	assert.Equal(t, []pieceMoney{
		{Name: "chair", Items: "4", Cost: "100.00 + ?", Price: "200.00", Margin: "20.0 %", Total: "200.00", Each: "50.00"},
		{Name: "sofa", Cost: "300.00", Price: "300.00", Margin: "0.0 %", Total: "300.00"},
		{Name: "together", Cost: "400.00 + ?", Price: "500.00", Margin: "5.9 %", Total: "500.00", Sum: true},
	}, rows)
	assert.Equal(t, []string{hoursAtCost, unknownCost}, notes)
	rows, _ = byPiece(cost.Quote{})
	assert.Empty(t, rows)
}

// The deposit says what it covers where that is more than its share, the page and
// the text show the pieces.
func TestDepositThatCovers(t *testing.T) {
	text, err := os.ReadFile("testdata/stool.json")
	require.NoError(t, err)
	o, err := job.Read(context.Background(), strings.NewReader(strings.Replace(string(text), `"quote": {`,
		`"quote": {"deposit": "10 %", "deposit_covers": ["goods"], "step": "5.00 EUR", "extras": [{"kind": "delivery", "name": "delivery", "amount": "13.00 EUR"}], `, 1)),
		job.Options{Effort: 0.001})
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, printText(&out, o, false, true))
	page, err := copyHTML(o, settings{}, "office")
	require.NoError(t, err)
	for _, printed := range []string{out.String(), string(page)} {
		for _, want := range []string{"By piece of furniture", "covers goods", "rounding up", "whole job", hoursAtCost} {
			assert.Contains(t, printed, want)
		}
	}
}

// What is paid once stands beside the price, or the line would not add up.
func TestPaidOnceIsSaid(t *testing.T) {
	e, err := cost.ReadPriceListCSV(strings.NewReader("code,kind,description,price,uplift,cut charge\nwebbing,thread and sundries,webbing,0.90 USD/yd,25 % markup,2.00 USD\n"))
	require.NoError(t, err)
	c, err := e.Entries()[0].Charge(cost.AnyOf(10*unit.Yard), cost.HalfUp)
	require.NoError(t, err)
	l, err := c.Line()
	require.NoError(t, err)
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD}, l)
	require.NoError(t, err)
	var out bytes.Buffer
	(&sheet{w: &errWriter{w: &out}}).quote(job.WorkOrder{Quote: q}, "")
	assert.Contains(t, strings.Join(strings.Fields(out.String()), " "), "webbing 10 yd 0.90 USD/yd + 2.00 USD once + 25 % markup 13.75")
}
