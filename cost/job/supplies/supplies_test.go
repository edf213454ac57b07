package supplies_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/supplies"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/unit"
)

type failer interface {
	require.TestingT
	Helper()
}

func read(t failer, text string) job.WorkOrder {
	t.Helper()
	o, err := job.Read(context.Background(), strings.NewReader(text), job.Options{Effort: 0.0001})
	require.NoError(t, err, text)
	return o
}

func listOf(t failer, o job.WorkOrder, options supplies.Options) supplies.List {
	t.Helper()
	l, err := supplies.Of(o, options)
	require.NoError(t, err)
	return l
}

// demand reads a quantity as whole numbers of its smallest part.
func demand(q cost.AnyQuantity) (kind string, n int64) {
	if l, ok := cost.QuantityAs[unit.Length](q); ok {
		return "length", int64(l)
	}
	if a, ok := cost.QuantityAs[unit.Area](q); ok {
		return "area", int64(a)
	}
	if v, ok := cost.QuantityAs[unit.Volume](q); ok {
		return "volume", int64(v)
	}
	if m, ok := cost.QuantityAs[unit.Mass](q); ok {
		return "mass", int64(m)
	}
	p, _ := cost.QuantityAs[cost.Pieces](q)
	return "pieces", int64(p)
}

// lawful holds the laws of a list: every line of the quote that buys is on it once with
// its quantity, nothing else of the quote is, all findings are, and what is at hand is
// not ordered.
func lawful(t failer, o job.WorkOrder) supplies.List {
	t.Helper()
	list := listOf(t, o, supplies.Options{})
	on := map[unit.Path]int{}
	bought := map[string]int64{}
	for _, l := range list.Lines() {
		require.NotEmpty(t, l.From)
		require.NotEmpty(t, l.What)
		require.NotEmpty(t, l.Text)
		for _, from := range l.From {
			on[from]++
		}
		if k, n := demand(l.Quantity); !l.Unpriced {
			bought[k] += n
		}
		var volume unit.Volume
		for _, b := range l.Blocks {
			volume += b.Volume
		}
		if len(l.Blocks) > 0 {
			require.Equal(t, cost.AnyOf(volume), l.Quantity)
		}
	}
	for from, n := range on {
		require.Equal(t, 1, n, from)
	}

	paid := map[string]int64{}
	inSum := map[string]int64{}
	for i := range o.Purchases {
		require.Contains(t, on, unit.Path("purchases").At(i))
	}
	for i, f := range o.Findings {
		require.Contains(t, on, unit.Path("findings").At(i))
		if f.Paid == "in sundries" {
			k, n := demand(f.Use)
			inSum[k] += n
		}
	}
	quoted := 0
	for i, q := range o.Quote.Lines {
		switch {
		case q.Kind != cost.Goods && q.Kind != cost.Foam && q.Kind != cost.Sundries, q.ID == "sundries",
			strings.HasSuffix(q.ID, " from stock"), q.Cost.IsZero() && strings.HasSuffix(q.What, ", from stock"):
			continue
		case on[unit.Path("quote.lines").At(i)] == 1:
			quoted++
			continue
		}
		k, n := demand(q.Exact.Quantity)
		paid[k] += n
	}
	for k, n := range inSum {
		paid[k] += n
	}
	for _, k := range []string{"length", "area", "volume", "mass", "pieces"} {
		require.Equal(t, paid[k], bought[k], k)
	}
	for i, p := range o.Purchases {
		for _, l := range list.Lines() {
			if l.From[0] != unit.Path("purchases").At(i) {
				continue
			}
			if p.Length == 0 && p.Hides == 0 {
				require.False(t, l.Buys())
				require.NotEmpty(t, l.AtHand, p.Name)
			}
			if p.Stock != nil && p.Stock.Whose == stock.Customers {
				require.False(t, l.Buys())
			}
		}
	}
	text, err := json.Marshal(list)
	require.NoError(t, err)
	require.NotRegexp(t, `[0-9] `+string(o.Quote.Currency), string(text))
	var back supplies.List
	require.NoError(t, json.Unmarshal(text, &back))
	again, err := json.Marshal(back)
	require.NoError(t, err)
	require.JSONEq(t, string(text), string(again))
	return list
}

func TestOfAnatomies(t *testing.T) {
	files, err := filepath.Glob("../testdata/anatomy/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		text, err := os.ReadFile(file) //nolint:gosec // of the module
		require.NoError(t, err)
		o := read(t, string(text))
		lawful(t, o)
		priced(t, o)
	}
}

// draw writes a job with whatever may be bought or be at hand.
func draw(t *rapid.T) string {
	b := func(name string) bool { return rapid.Bool().Draw(t, name) }
	either := func(name, yes, no string) string {
		if b(name) {
			return yes
		}
		return no
	}
	cloth := `"width": "54 in"` + either("priced by metre", `, "price": "40 USD/m"`, `, "price": "40 USD/yd"`) + either("supplier", `, "supplier": "the mill"`, "")
	switch rapid.IntRange(0, 3).Draw(t, "stock") {
	case 1:
		cloth += `, "at_hand": [{"name": "rest", "length": "26 in", "remnant": true}]`
	case 2:
		cloth += fmt.Sprintf(`, "at_hand": [{"name": "bolt", "length": "%d yd"}]`, rapid.IntRange(1, 6).Draw(t, "bolt"))
	case 3:
		cloth += `, "whose": "customer"` + either("said", `, "at_hand": [{"name": "hers", "length": "2 yd"}]`, "")
	}
	hides := either("measured", `"hides": [{"name": "no. 1", "area": "44 sq ft"}, {"name": "no. 2", "area": "47 sq ft", "on_offer": true}], `, "") +
		`"hide_area": "50 sq ft", "price": "9.50 USD/sq ft"` + either("tannery", `, "supplier": "the tannery"`, "") + either("her hides", `, "whose": "customer"`, "")
	filling := `"use": "seat", "duty": "normal", "base": "board", "price": "3.40 USD/bd ft"` + either("foam supplier", `, "supplier": "the foam merchant"`, "") +
		either("sheets", `, "sheet": {"length": "82 in", "width": "76 in"}`, "")
	wrap := `, "wrap": {"loft": "3/4 in"` + either("width", `, "width": "48 in"`, "") + either("wrap price", `, "price": "0.40 USD/sq ft"`, "") + either("wrap supplier", `, "supplier": "the mill"`, "") + `}`
	filling2 := filling + either("wrapped", wrap, "")
	form := either("form price", `{"price": "12 USD", "supplier": "the mill"}`, `{}`)
	prices := either("prices", `"prices": [{"code": "thread", "kind": "thread and sundries", "description": "thread", "price": "9 USD/500 yd", "supplier": "the mill", "freight": "8 USD"},
		{"code": "staple", "kind": "thread and sundries", "description": "staples", "price": "1.80 USD/1000 pieces", "pack": "5000 pieces", "least": "1000 pieces"}],`, "")
	quote := `"labour_rate": "60 USD/h"` + either("sundries", `, "sundries": {"amount": "20 USD", "covers": ["staple"]}`, "") +
		either("extra", `, "extras": [{"kind": "thread and sundries", "name": "buttons", "amount": "12 USD"}, {"kind": "delivery", "name": "van", "amount": "50 USD"}]`, "")
	rough := either("rough", `, {"name": "club chair", "from": "club chair", "goods": "cloth", "rough": {}}`, "")
	return fmt.Sprintf(`{"schema": "coverwright/job/1", "name": "drawn", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "tweed", "material": "woven", %s}, {"id": "hide", "kind": "hide", "name": "leather", "material": "leather", %s}],
		"pieces": [{"name": "bench", "count": %d, "cushions": [
				{"name": "seat", "kind": "boxed", "width": "22 in", "depth": "22 in", "thickness": "4 in", "top": "cloth", "foam": {%s}},
				{"name": "pillow", "kind": "knife edge", "width": "18 in", "depth": "18 in", "top": "cloth", "pillow_form": %s}]},
			{"name": "stool", "panels": [{"name": "top", "goods": "hide", "width": "20 in", "length": "20 in", "edges": "pull-over"}],
				"foam": [{"name": "pad", "width": "20 in", "depth": "20 in", "thickness": "4 in", "filling": {%s}}]}%s],
		%s "quote": {%s}}`, cloth, hides, rapid.IntRange(1, 3).Draw(t, "count"), filling2, form, filling, rough, prices, quote)
}

func everyJob(t *rapid.T) {
	o := read(t, draw(t))
	lawful(t, o)
	priced(t, o)
}

func TestOfEveryJob(t *testing.T) { few.Check(t, 15, everyJob) }

// priced holds that a list with prices has what the quote says the shop pays.
func priced(t failer, o job.WorkOrder) {
	t.Helper()
	sum := func(list []cost.Money) cost.Money {
		all, err := cost.Zero(o.Quote.Currency)
		require.NoError(t, err)
		for _, m := range list {
			if m.Currency() != "" {
				all, err = all.Plus(m)
				require.NoError(t, err)
			}
		}
		return all
	}
	var told, paid []cost.Money
	for _, l := range listOf(t, o, supplies.Options{Prices: true}).Lines() {
		told = append(told, l.Cost)
	}
	for _, q := range o.Quote.Lines {
		if (q.Kind == cost.Goods || q.Kind == cost.Foam || q.Kind == cost.Sundries) && q.ID != "sundries" && !strings.HasSuffix(q.ID, " from stock") {
			paid = append(paid, q.Cost)
		}
	}
	require.Equal(t, sum(paid).String(), sum(told).String())
}

func TestWords(t *testing.T) {
	const text = `{"schema": "coverwright/job/1", "name": "words", "currency": "USD",
		"goods": [{"id": "a", "kind": "roll", "name": "damask", "supplier": "mill", "material": "woven", "price": "40 USD/yd", "width": "54 in", "repeat": "27 in", "unknown_start": true, "nap": true,
				"at_hand": [{"name": "rest", "length": "1 1/2 yd", "remnant": true}]},
			{"id": "b", "kind": "roll", "name": "velvet", "material": "woven", "width": "140 cm", "whose": "customer"},
			{"id": "c", "kind": "hide", "name": "leather", "material": "leather", "price": "9 USD/sq ft", "hide_area": "50 sq ft", "hides": [{"name": "no. 7", "area": "48 sq ft", "on_offer": true}]}],
		"pieces": [{"name": "seat", "count": 4, "panels": [{"name": "top", "goods": "a", "width": "24 in", "length": "24 in", "edges": "raw", "motif": "12 in, 12 in"},
			{"name": "back", "goods": "b", "width": "24 in", "length": "24 in", "edges": "raw"}, {"name": "arm", "goods": "c", "width": "24 in", "length": "24 in", "edges": "raw"}]}],
		"quote": {"labour_rate": "60 USD/h"}}`
	o := read(t, text)
	list := lawful(t, o)
	require.Len(t, list.Orders, 3)
	mill := list.Orders[0]
	assert.Equal(t, "mill", mill.Supplier)
	assert.True(t, mill.Buys())
	damask := mill.Lines[0]
	assert.Equal(t, []string{"the layout takes 2/3 yd of it", "in one length, of one dye lot", "compare it with what is at hand before any of it is cut: another lot may be another shade",
		"one repeat more is in it, for a bolt that starts anywhere in the pattern"}, damask.Notes)
	require.Len(t, damask.AtHand, 1)
	assert.Contains(t, damask.AtHand[0].Text, "rest, a remnant, of which 2/3 yd is used")
	assert.Equal(t, 27*unit.Inch, damask.Roll.Goods.Repeat)
	assert.Equal(t, o.Purchases[0].Plan.Need, damask.Roll.Need)
	velvet := list.Orders[1].Lines[0]
	assert.False(t, list.Orders[1].Buys())
	assert.Equal(t, "nothing to order", velvet.Text)
	assert.Equal(t, "arrives from the customer: 1 1/2 yd in one length; check length and width", velvet.AtHand[0].Text)
	hide := list.Orders[2].Lines[0]
	assert.Equal(t, "1 hide, 48.0 sq ft together", hide.Text)
	assert.Equal(t, []supplies.Hide{{Name: "no. 7", Area: 48 * unit.SquareFoot}}, hide.Hides)

	metric := listOf(t, o, supplies.Options{System: unit.Metric})
	assert.Equal(t, "arrives from the customer: 1.38 m in one length; check length and width", metric.Orders[1].Lines[0].AtHand[0].Text)
	assert.Equal(t, damask.Text, metric.Orders[0].Lines[0].Text, "goods that are sold by the yard")

	_, err := supplies.Of(o, supplies.Options{System: 9})
	assert.ErrorIs(t, err, unit.ErrUnknown)
}

// Sheets that are cut into blocks the order does not have are refused by their place.
func TestSheetsOfNoFoam(t *testing.T) {
	for _, k := range []int{-1, 1} {
		_, err := supplies.Of(job.WorkOrder{Foam: make([]job.FoamBlock, 1), Sheets: []job.FoamSheets{{Blocks: []int{0}}, {Blocks: []int{0, k}}}}, supplies.Options{})
		var in *unit.InputError
		require.ErrorAs(t, err, &in)
		require.ErrorIs(t, err, unit.ErrRange)
		assert.Equal(t, unit.Path("sheets[1].blocks"), in.Field)
	}
}
