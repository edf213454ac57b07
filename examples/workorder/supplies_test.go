package main

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/supplies"
	"github.com/coverwright/coverwright/unit"
)

// Every line to order stands once with its quantity and its boxes; money does not.
func TestSuppliesCopy(t *testing.T) {
	for name, o := range orders(t) {
		for _, metric := range []bool{false, true} {
			list, err := supplies.Of(o, supplies.Options{System: (&sheet{metric: metric}).system()})
			require.NoError(t, err)
			root := parse(t, pageOf(t, name, "supplies", metric))
			text := root.words()
			assert.NotContains(t, text, string(o.Quote.Currency), name)
			assert.NotContains(t, text, "markup")
			for _, q := range o.Questions { // asked in words, not by a place in the job file
				assert.Contains(t, text, q.Text)
				assert.NotContains(t, text, string(q.Field))
			}
			boxes, rows := map[string]int{}, 0
			root.each(func(e *element) {
				if e.name == "input" && e.attrs["type"] == "checkbox" {
					boxes[e.attrs["aria-label"]]++
				}
				if e.name == "tr" {
					rows++
				}
			})
			tables := len(root.all("table", "supplies")) + len(root.all("table", "supplies checked"))
			assert.Equal(t, len(list.Lines())+tables, rows)
			for _, l := range list.Lines() {
				assert.Contains(t, text, l.What)
				for _, h := range l.AtHand {
					assert.Contains(t, text, h.Text)
				}
				if !l.Buys() {
					assert.Positive(t, boxes["checked: "+l.What])
					continue
				}
				assert.Contains(t, text, l.Text)
				assert.Positive(t, boxes["ordered: "+l.What])
				assert.Positive(t, boxes["received: "+l.What])
			}
		}
	}
}

// Goods are measured when they come, beside what was ordered.
func TestMeasuresOnArrival(t *testing.T) {
	v, err := viewSupplies(&sheet{}, copyHead{}, orders(t)["demo"])
	require.NoError(t, err)
	goods := v.(suppliesCopy).Orders[0].Lines[0]
	assert.Equal(t, "dye lot", goods.Lot)
	assert.Equal(t, []toMeasure{{"width", "54 in"}, {"repeat", "27 in"}, {"length", "10 1/2 yd"}}, goods.Measures)
	assert.True(t, strings.HasPrefix(goods.Note, "54 in wide, 53 in usable, repeat 27 in up the pattern, nap one way; the layout takes 10 1/3 yd of it"), goods.Note)

	back := supplies.Block{Piece: "sofa", Part: "seat", Count: 2, Form: "wedge", Back: 3 * unit.Inch}
	back.Size.Length, back.Size.Width, back.Size.Thickness = 22*unit.Inch, 20*unit.Inch, 4*unit.Inch
	assert.Equal(t, "2 of 22 in x 20 in x 4 in, a wedge, 3 in at the back: sofa, seat", (&sheet{}).foamBlock(back))
}

// What nobody has measured is on the first page of the bench, and who orders is told so
// in place of a share of a price.
func TestNotMeasuredOnTheCopies(t *testing.T) {
	text, err := os.ReadFile("testdata/usual.json")
	require.NoError(t, err)
	o, err := job.Read(t.Context(), bytes.NewReader(text), job.Options{Effort: 0.001})
	require.NoError(t, err)
	require.NotEmpty(t, o.Rough)
	made := everyCopy(t, o, settings{})
	assert.NotContains(t, string(made["supplies.html"]), "markup")
	assert.Contains(t, string(made["supplies.html"]), "counted when the piece is measured")
	assert.Contains(t, string(made["bench.html"]), "not measured yet")
}
