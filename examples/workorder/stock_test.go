package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const stockJob = `{"schema": "coverwright/job/1", "name": "seats", "currency": "USD",
	"goods": [{"id": "cloth", "kind": "roll", "name": "tweed", "material": "woven", "price": "40 USD/yd", "width": "54 in", GOODS}],
	"pieces": [{"name": "seat", "count": 8, "panels": [{"name": "cover", "goods": "cloth", "width": "24 in", "length": "24 in", "edges": "raw"}]}],
	"quote": {"labour_rate": "50 USD/h"}}`

// told gives the order of a job in every form that is read, in single spaces.
func told(t *testing.T, job string) (text, page string) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "job.json")
	require.NoError(t, os.WriteFile(file, []byte(job), 0o600))
	var out, errs bytes.Buffer
	require.Equal(t, exitOK, run(context.Background(), append([]string{"-job", file}, little...), &out, &errs), errs.String())
	folder := filepath.Join(t.TempDir(), "page")
	require.Equal(t, exitOK, run(context.Background(), append([]string{"-job", file, "-format", "html", "-out", folder}, little...), &bytes.Buffer{}, &errs), errs.String())
	var html []byte
	for _, name := range []string{"office.html", "bench.html"} {
		page, err := os.ReadFile(filepath.Join(folder, name)) //nolint:gosec // made here
		require.NoError(t, err)
		html = append(html, page...)
	}
	return strings.Join(strings.Fields(out.String()), " "), strings.NewReplacer("&#39;", "'", "&#43;", "+").Replace(string(html))
}

// The way from need to order, and what is at hand, stand in text and page alike.
func TestStockInWords(t *testing.T) {
	for goods, lines := range map[string][]string{
		`"increment": "1/4 yd"`: {"2 2/3 yd by the layout + 4 in to square the ends, buy 3 yd"},
		`"margin": {}`:          {"2 2/3 yd by the layout, buy 2 3/4 yd"},
		`"margin": {"squaring": "1 in", "test": "6 in", "flaw_every": "40 in", "flaw_length": "4 1/2 in", "treatment": "3 %"}`: {
			"2 2/3 yd by the layout + 2 in to square the ends + 6 in for a test piece + 9 in for flaws + 3 in lost at the finisher, buy 3 1/4 yd"},
		`"at_hand": [{"name": "the bolt", "length": "99 in"}]`: {"the bolt is tight: room for the layout, 2 2/3 yd, but 1 in short of the margin; 3 in left", "nothing; from stock", "charged as if bought"},
		`"charged": "cost", "at_hand": [{"name": "the bolt", "length": "4 yd"}]`: {
			"the bolt is enough: 2 2/3 yd by the layout, 2 7/8 yd with the margin; 1 1/3 yd left beyond the layout", "charged at cost", "tweed, the bolt"},
		`"at_hand": [{"name": "rest", "length": "25 in", "remnant": true}]`: {"rest, a remnant, takes 2 pieces; 1 in of its length left", "2 1/8 yd, and 1 remnant from stock", "tweed, rest"},
		`"whose": "customer", "at_hand": [{"name": "hers", "length": "2 yd"}]`: {
			"nothing; the customer's own", "hers is lacking: 2/3 yd short of the 2 2/3 yd of the layout",
			"the customer is to bring: 2 2/3 yd by the layout + 4 in to square the ends, buy 2 7/8 yd", "lacks"},
	} {
		text, page := told(t, strings.Replace(stockJob, "GOODS", goods, 1))
		for _, line := range lines {
			assert.Contains(t, text, line, goods)
			assert.Contains(t, page, line, goods)
		}
	}
}
