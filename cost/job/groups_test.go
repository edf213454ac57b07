package job

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/strictjson"
	"github.com/coverwright/coverwright/unit"
)

// twoStools is two stools and a bench of one cloth, cut without allowances.
const twoStools = `{"schema": "coverwright/job/1", "name": "stools", "currency": "USD",
	"goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "40.00 USD/yd", "width": "54 in", "increment": "9 in", "margin": {}}],
	"pieces": [
		{"name": "stool", "count": 2, "panels": [{"name": "seat", "goods": "cloth", "width": "18 in", "length": "18 in", "edges": "raw"}],
			"labour": [{"task": "cover", "time": "1 h"}]},
		{"name": "bench", "panels": [{"name": "seat", "goods": "cloth", "width": "54 in", "length": "18 in", "edges": "raw"}],
			"foam": [{"name": "seat", "width": "54 in", "depth": "18 in", "thickness": "2 in", "filling": {"use": "seat", "duty": "normal", "base": "board", "price": "5.00 USD/bd ft"}}],
			"labour": [{"task": "cover", "time": "1 h 30 min"}]}],
	"quote": {"labour_rate": "60.00 USD/h", "markup": "25 %", "extras": [
		{"kind": "delivery", "name": "delivery", "amount": "50.00 USD"}, {"kind": "thread and sundries", "name": "feet", "amount": "12.00 USD", "piece": "bench"}]}}`

func groupsOf(q cost.Quote, of func(cost.Group) cost.Money) string {
	var out []string
	for _, g := range q.Groups {
		out = append(out, g.Name+" "+of(g).Amount())
	}
	return strings.Join(out, ", ")
}

// Worked by hand. Two seats of 18 by 18 and one of 54 by 18 lie in 36 in of the
// roll, 1 yd at 40.00 and 25 %, 50.00; the stools have 648 of 1620 sq in of it,
// two fifths, 20.00. The foam is 54 x 18 x 2 / 144 = 13.5 bd ft, 67.50 and 25 %,
// 84.375, so 84.38. Two hours for the stools, one and a half for the bench.
func TestQuoteByPieceOfFurniture(t *testing.T) {
	t.Parallel()
	o, err := read(t, twoStools)
	require.NoError(t, err)
	assert.Equal(t, "stool 140.00, bench 216.38, whole job 50.00", groupsOf(o.Quote, func(g cost.Group) cost.Money { return g.Total }))
	assert.Equal(t, "stool 136.00, bench 193.50, whole job 50.00", groupsOf(o.Quote, func(g cost.Group) cost.Money { return g.Cost }))
	assert.Equal(t, "stool 4.00, bench 22.88, whole job 0.00", groupsOf(o.Quote, func(g cost.Group) cost.Money { return g.Profit }))
	assert.Equal(t, []int{2, 1, 1}, []int{o.Quote.Groups[0].Items, o.Quote.Groups[1].Items, o.Quote.Groups[2].Items})
	each, err := o.Quote.Groups[0].Each(cost.HalfUp)
	require.NoError(t, err)
	assert.Equal(t, "70.00 USD", each.String())
}

// Worked by hand on the job above: goods at 50 % in place of 25 % are 60.00, foam
// at nothing 67.50, so 399.50 in all; the least of 410 lacks 10.50 and the next
// step of 25 is 425. A fifth of it is 85.00, less than the goods and the foam.
func TestTermsOfTheShop(t *testing.T) {
	t.Parallel()
	text := strings.Replace(twoStools, `"markup": "25 %",`, `"markup": "25 %", "markup_by": {"goods": "50 %", "foam": "0 %"}, "least": "410.00 USD", "step": "25.00 USD",
		"deposit": "20 %", "deposit_covers": ["goods", "foam"],`, 1)
	o, err := read(t, text)
	require.NoError(t, err)
	q := o.Quote
	assert.Equal(t, "60.00 USD", q.SubtotalOf(cost.Goods).String())
	assert.Equal(t, "67.50 USD", q.SubtotalOf(cost.Foam).String())
	assert.Equal(t, "10.50 USD", q.SubtotalOf(cost.MinimumCharge).String())
	assert.Equal(t, "15.00 USD", q.SubtotalOf(cost.RoundingUp).String())
	assert.Equal(t, "425.00 USD", q.Total.String())
	assert.Equal(t, "127.50 USD", q.Payments[0].Amount.String())
	assert.Equal(t, []cost.Kind{cost.Goods, cost.Foam}, q.Payments[0].Covers)

	o, err = read(t, strings.Replace(text, `"deposit": "20 %"`, `"deposit": "50 %"`, 1))
	require.NoError(t, err)
	assert.Equal(t, "212.50 USD", o.Quote.Payments[0].Amount.String())
	assert.Empty(t, o.Quote.Payments[0].Covers)

	o, err = read(t, strings.Replace(text, `"deposit": "20 %",`, ``, 1))
	require.NoError(t, err)
	assert.Equal(t, "127.50 USD", o.Quote.Payments[0].Amount.String(), "what it covers is enough")
}

// Euros are paid to the cent, or to five cents where the job names such a place.
func TestCashInAPlace(t *testing.T) {
	t.Parallel()
	text := strings.NewReplacer("USD", "EUR", `"markup": "25 %"`, `"markup": "25 %", "cash_in": "Ireland"`).Replace(twoStools)
	o, err := read(t, text)
	require.NoError(t, err)
	step, _ := cost.ParseMoney("0.05 EUR")
	assert.Equal(t, step, o.Quote.Terms.Cash.Step)
	o, err = read(t, strings.Replace(text, `"cash_in": "Ireland"`, `"cash": true`, 1))
	require.NoError(t, err)
	assert.True(t, o.Quote.Terms.Cash.Step.IsZero())
}

func TestTermsOfTheShopRefused(t *testing.T) {
	t.Parallel()
	refused(t, twoStools, map[string]fault{
		"markup without its sign": {`"markup": "25 %"`, `"markup_by": {"sundries": 25}`, "quote.markup_by.sundries", unit.ErrRange},
		"kind without markup":     {`"markup": "25 %"`, `"markup_by": {"labour": "5 %"}`, "quote.markup_by.labour", strictjson.ErrUnknownField},
		"least in other money":    {`"markup": "25 %"`, `"least": "75.00 EUR"`, "quote.least", cost.ErrCurrency},
		"step below zero":         {`"markup": "25 %"`, `"step": "-5.00 USD"`, "quote.step", unit.ErrRange},
		"step in parts of a cent": {`"markup": "25 %"`, `"step": "0.005 USD"`, "quote.step", cost.ErrFraction},
		"cash of no place":        {`"markup": "25 %"`, `"cash_in": "Utopia"`, "quote.cash_in", unit.ErrUnknown},
		"cash of other money":     {`"markup": "25 %"`, `"cash_in": "Ireland"`, "quote.cash_in", cost.ErrCurrency},
		"piece that is not there": {`"piece": "bench"`, `"piece": "sofa"`, "quote.extras[1].piece", unit.ErrUnknown},
		"covered beside stages":   {`"markup": "25 %"`, `"deposit_covers": ["goods"], "stages": [{"name": "all"}]`, "quote.deposit_covers", ErrMisplaced},
		"covered nothing":         {`"markup": "25 %"`, `"deposit_covers": [""]`, "quote.deposit_covers[0]", unit.ErrRequired},
	})
}

// Of every job the pieces of furniture and the job as a whole are together the
// quote, to the cent, and what says a piece of furniture is in none but its own.
func TestLawPiecesAreTheQuote(t *testing.T) {
	t.Parallel()
	for _, of := range []func() (WorkOrder, error){demoOrder, secondOrder} {
		o, err := of()
		require.NoError(t, err)
		pieces := map[string]bool{}
		for _, c := range o.Cuts {
			pieces[c.Piece] = true
		}
		for _, q := range append([]cost.Quote{o.Quote}, optionQuotes(o)...) {
			var total, profit cost.Money
			for _, g := range q.Groups {
				total, err = total.Plus(g.Total)
				require.NoError(t, err)
				profit, err = profit.Plus(g.Profit)
				require.NoError(t, err)
				delete(pieces, g.Name)
			}
			assert.True(t, total.Equal(q.Total))
			assert.True(t, profit.Equal(q.Profit))
			for _, l := range q.Lines {
				if l.Kind == cost.Goods || l.Kind == cost.Foam || l.Kind == cost.Labour {
					assert.NotEmpty(t, l.Shares, l.ID)
				}
			}
		}
		assert.Empty(t, pieces)
	}
}

func optionQuotes(o WorkOrder) []cost.Quote {
	var out []cost.Quote
	for _, p := range o.Options {
		out = append(out, p.Quote)
	}
	return out
}

// Sundries of 10 % of the goods and foam that the job above pays for, 40.00 and
// 67.50, are 10.75: the stools have 16.00 of the 107.50, so 1.60, and the bench
// 9.15; its cloth is 24.00, its foam 67.50, its work 90.00 and its feet 12.00.
func TestSundriesByPiece(t *testing.T) {
	t.Parallel()
	text := strings.Replace(twoStools, `"markup": "25 %",`, `"sundries": {"share": "10 %", "covers": ["staple"]},`, 1)
	o, err := read(t, text)
	require.NoError(t, err)
	assert.Equal(t, "stool 137.60, bench 202.65, whole job 50.00", groupsOf(o.Quote, func(g cost.Group) cost.Money { return g.Total }))
}
