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
	from "github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// How a finding came about has its share for waste, or the figures do not come to what
// is used, and lengths in the unit of the order.
func TestHowOfFindings(t *testing.T) {
	o := job.WorkOrder{Findings: []from.Line{{ID: "webbing", Net: cost.AnyOf(200 * unit.Inch), Use: cost.AnyOf(210 * unit.Inch), Waste: 5 * unit.Percent,
		How: "chair: seat: 3 strips of 30 1/2 in and 4 of 26 in, 3/4 in each, 1 1/2 yd of it", Paid: from.Unpriced}}}
	rows := (&sheet{}).findingRows(o)
	assert.Equal(t, "chair: seat: 3 strips of 30 1/2 in and 4 of 26 in, 3/4 in each, 1 1/2 yd of it, and 5 % for waste", rows[0].How)
	rows = (&sheet{metric: true}).findingRows(o)
	assert.Equal(t, "chair: seat: 3 strips of 775 mm and 4 of 660 mm, 19 mm each, 1.37 m of it, and 5 % for waste", rows[0].How)
}

// A finding that is bought as one has its price on the quote, as every other line.
func TestOneOfAFindingHasItsPrice(t *testing.T) {
	e, err := cost.ReadPriceListCSV(strings.NewReader("code,kind,description,price,uplift\nthread,thread and sundries,a cone of thread,9.50 USD/piece,25 % markup\n"))
	require.NoError(t, err)
	c, err := e.Entries()[0].Charge(cost.AnyOf(cost.Pieces(1)), cost.HalfUp)
	require.NoError(t, err)
	l, err := c.Line()
	require.NoError(t, err)
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD}, l)
	require.NoError(t, err)
	var out bytes.Buffer
	(&sheet{w: &errWriter{w: &out}}).quote(job.WorkOrder{Quote: q}, "")
	assert.Contains(t, out.String(), "1 piece   9.50 USD/piece + 25 % markup")
	page, err := copyHTML(job.WorkOrder{Quote: q}, settings{}, "office")
	require.NoError(t, err)
	assert.Contains(t, string(page), "1 piece at 9.50 USD/piece")
}

// The page of a piece priced by telephone tells nothing of cutting, leads to what is not
// measured, and says under the quote what is not in it.
func TestPageByTelephone(t *testing.T) {
	text, err := os.ReadFile("testdata/stool.json")
	require.NoError(t, err)
	spec, err := job.ReadSpec(bytes.NewReader(text))
	require.NoError(t, err)
	spec.Pieces = []job.Furniture{{Name: "chair", KindSpec: job.KindSpec{From: "wing chair", Goods: spec.Goods[0].ID}, Rough: &job.RoughSpec{}}}
	o, err := job.Build(context.Background(), spec, job.Options{Effort: 0.001})
	require.NoError(t, err)
	o.Unpriced = 2
	page, err := copyHTML(o, settings{}, "office")
	require.NoError(t, err)
	assert.NotContains(t, string(page), "to cut")
	assert.Contains(t, string(page), `<a href="#rough">`)
	_, quote, _ := strings.Cut(string(page), `<section id="quote"`)
	assert.Contains(t, quote, "findings, 10 % of goods before markup and time, rule of thumb")
	assert.Contains(t, quote, "Not in this price: 2 findings without a price")
	assert.Contains(t, string(page), `<th scope="col" class="num">Range</th>`)
}

// Needle and bobbin are rounded up each, so the order says what both come to.
func TestThreadOfBoth(t *testing.T) {
	got := (&sheet{}).threads(job.Sewing{Threads: []job.ThreadUse{{Consumption: thread.Consumption{Needle: 1912 * unit.Inch, Under: 1912 * unit.Inch, Total: 3824 * unit.Inch}}}})
	assert.Contains(t, got[0], "54 yd in the needle and 54 yd on the bobbin, 107 yd in all")
}
