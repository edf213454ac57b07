package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
)

// The side of a seam that is eased in is told as its edges are.
func TestEasedSideIsNamed(t *testing.T) {
	o, err := job.Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "chair", "currency": "USD",
		"goods": [{"id": "plain", "kind": "roll", "name": "plain", "material": "woven", "price": "20 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "chair", "panels": [{"name": "back", "goods": "plain", "width": "20 in", "length": "24 in"},
			{"name": "seat", "goods": "plain", "width": "20 1/2 in", "length": "20 in"}],
			"seams": [{"sew": "back.bottom", "to": "seat.top"}],
			"fastenings": [{"fasten": ["back.right", "back.top", "back.left"]}, {"fasten": ["seat.left", "seat.bottom", "seat.right"]}]}],
		"quote": {"labour_rate": "50 USD/h"}}`), job.Options{})
	require.NoError(t, err)
	rows := (&sheet{}).seamRows(o.Assembly[0], func(panel string) string { return map[string]string{"back": "1 ", "seat": "2 "}[panel] })
	require.Len(t, rows, 1)
	assert.Equal(t, "1 bottom with 2 top; 2 top: 1/2 in longer, ease in", rows[0].Edges)
}

// What a skirt is longer by is gathered or folded up in its pleats, which is no fault
// of the seam; parts of an edge are told in the units of the order, and a pair of zips
// one by one, on the text and on the page of the bench.
func TestSeamsOfMadeUpParts(t *testing.T) {
	o, err := job.Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "stools", "currency": "USD",
		"goods": [{"id": "plain", "kind": "roll", "name": "plain", "material": "woven", "price": "20 USD/yd", "width": "64 in"}],
		"pieces": [
			{"name": "gathers", "panels": [{"name": "band", "goods": "plain", "width": "48 in", "length": "4 in"}],
				"skirts": [{"name": "skirt", "goods": "plain", "kind": "gathered", "sides": ["48 in"], "drop": "6 in", "fullness": 2}],
				"seams": [{"sew": "band.right", "to": "band.left"}, {"sew": "band.bottom", "to": "skirt.top"}], "fastenings": [{"fasten": ["band.top"]}]},
			{"name": "pleats", "panels": [{"name": "band", "goods": "plain", "width": "48 in", "length": "4 in"}],
				"skirts": [{"name": "skirt", "goods": "plain", "kind": "pleated", "pleats": 12, "underfold": "1 in", "sides": ["48 in"], "drop": "6 in"}],
				"seams": [{"sew": "band.right", "to": "band.left"}, {"sew": "band.bottom", "to": "skirt.top"}], "fastenings": [{"fasten": ["band.top"]}]},
			{"name": "kick", "panels": [{"name": "top", "goods": "plain", "width": "40 in", "length": "16 in"}],
				"skirts": [{"name": "skirt", "goods": "plain", "kind": "kick pleat", "sides": ["40 in", "16 in", "40 in", "16 in"], "drop": "6 in"}],
				"seams": [{"sew": "top.bottom", "to": "skirt.top 1"}, {"sew": "top.right", "to": "skirt.top 2"}, {"sew": "top.top", "to": "skirt.top 3"}, {"sew": "top.left", "to": "skirt.top 4"}]},
			{"name": "pillows", "cushions": [
				{"name": "scatter", "kind": "knife edge", "width": "18 in", "depth": "18 in", "taper": "1/2 in", "top": "plain", "zip": true},
				{"name": "end", "pair": true, "width": "22 in", "depth": "20 in", "thickness": "4 in", "left_ear": "2 in", "ear_depth": "4 in", "top": "plain", "zip": true}]}],
		"quote": {"labour_rate": "50 USD/h"}}`), job.Options{Effort: 0.01})
	require.NoError(t, err)
	var text strings.Builder
	require.NoError(t, printText(&text, o, false, false))
	page, err := copyHTML(o, settings{}, "bench")
	require.NoError(t, err)
	for _, printed := range []string{text.String(), parse(t, page).words()} {
		printed = strings.Join(strings.Fields(strings.ReplaceAll(printed, noBreak, " ")), " ")
		assert.NotContains(t, printed, "will not sew")
		assert.NotRegexp(t, `[0-9][.][0-9]{3,} mm`, printed)
		assert.Contains(t, printed, "back from 1 1/2 in to")
	}
	words := strings.Join(strings.Fields(text.String()), " ")
	for _, line := range []string{"skirt.top: 48 in longer, gathered", "skirt.top: 24 in longer, folded up in its pleats", "skirt.top 2: 9 in longer, folded up in its pleats",
		"zip tape 27 in for each of 2"} {
		assert.Contains(t, words, line)
	}
}

// A part of an edge that is hemmed or fastened is told by where it lies, in the units of
// the order.
func TestPartsOfEdgesInTheSteps(t *testing.T) {
	o, err := job.Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "chair", "currency": "USD",
		"goods": [{"id": "plain", "kind": "roll", "name": "plain", "material": "woven", "price": "20 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "chair", "panels": [{"name": "back", "goods": "plain", "width": "20 in", "length": "24 in"},
			{"name": "side", "goods": "plain", "width": "8 in", "length": "10 in"}],
			"seams": [{"sew": "back.left from 6 in to 16 in", "to": "side.right"}],
			"fastenings": [{"fasten": ["back.left to 6 in", "back.bottom"], "finish": "hem"},
				{"fasten": ["back.left from 16 in", "back.top", "back.right", "side.top", "side.left", "side.bottom"]}]}],
		"quote": {"labour_rate": "50 USD/h"}}`), job.Options{})
	require.NoError(t, err)
	inch, metric := &sheet{}, &sheet{metric: true}
	assert.Equal(t, []string{"hem back.left to 6 in, back.bottom", "sew A"}, inch.sewingSteps(o.Assembly[0]))
	assert.Equal(t, []string{"hem back.left to 152 mm, back.bottom", "sew A"}, metric.sewingSteps(o.Assembly[0]))
	assert.Contains(t, strings.Join(inch.fittingSteps(o.Assembly[0]), "\n"), "left from 16 in")
}
