package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// The bench is told where every button lies, on the face and on the cloth, and a
// boxing strip by strip.
func TestMadeUpPartsForTheBench(t *testing.T) {
	t.Parallel()
	plan, err := made.Tufting{Width: 16 * unit.Inch, Height: 8 * unit.Inch, Across: 2, Down: 1, Depth: unit.Inch, Rule: made.TwiceDepth}.Plan()
	require.NoError(t, err)
	part, err := made.Cushion{Width: 22 * unit.Inch, Depth: 22 * unit.Inch, Thickness: 4 * unit.Inch, Zip: true, Top: made.Goods{ID: "cloth", Across: 54 * unit.Inch}}.Make()
	require.NoError(t, err)
	o := job.WorkOrder{Cuts: []job.Cut{{Piece: "bed", Part: "headboard", Tufting: &plan}, {Piece: "chair", Part: "seat, zip panel lower", Boxing: part.Boxing}}}
	var text strings.Builder
	(&sheet{w: &text}).made(o)
	var lines []string
	for _, l := range strings.Split(text.String(), "\n") {
		if l = strings.Join(strings.Fields(l), " "); l != "" {
			lines = append(lines, l)
		}
	}
	assert.Equal(t, []string{
		"Buttons of bed, headboard, places from the top left corner inside the tack edge",
		"row down on the face down on the cloth",
		"1 0 in 4, 12 in 0 in 5, 15 in",
		"2 4 in 0, 8, 16 in 5 in 0, 10, 20 in",
		"3 8 in 4, 12 in 10 in 5, 15 in",
		"Boxing of chair, seat, upper edge up, places from the left seam",
		// 88 in round, less 53 in of one piece: 6 1/2 in of zip round each corner.
		"- zip panel: 35 in between seams, two halves; corners at 6 1/2 in (right and back), 28 1/2 in",
		"(back and left)",
		"- boxing: 53 in between seams; corners at 15 1/2 in (left and front), 37 1/2 in (front and",
		"right)",
	}, lines)
	o.Assembly = []job.Assembly{{Piece: "chair", PullStrips: []job.PullStrip{
		{Panel: "inside back", Edges: []string{"bottom"}, Goods: "hide", With: "lining", Saved: 288 * unit.SquareInch, Kind: cite.Estimate},
		{Panel: "deck", Edges: []string{"back"}, Goods: "hide", Pulled: 6 * unit.Inch, Saved: 144 * unit.SquareInch, Kind: cite.Estimate}}}}
	assert.Equal(t, []string{
		"chair, inside back: bottom ends in a strip of lining, which saves 2.0 sq ft of hide in the cut pieces (an estimate: what is bought follows the layout)",
		"chair, deck: back takes 6 in to pull; ending it in a strip of other goods would save 1.0 sq ft of hide in the cut pieces (an estimate: what is bought follows the layout)",
	}, (&sheet{}).pullStrips(o))
	assert.Equal(t, []gridRow{{"1", "0\u00a0in", "4, 12 in", "0\u00a0in", "5, 15 in"}}, (&sheet{}).grid(o.Cuts[0])[:1])
}

// A size of a piece is its width across the goods by its length along them, on the
// layout as in the list, and tufting has its buttons, diamonds and pleats in both.
func TestSizesAndTuftingOnTheOrder(t *testing.T) {
	o, err := job.Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "headboard", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "velvet", "material": "woven", "price": "40 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "bed", "tufted": [{"name": "headboard", "goods": "cloth", "width": "40 in", "length": "24 in", "across": 5, "down": 3, "depth": "1 in", "rule": "twice the depth"}]}],
		"quote": {"labour_rate": "50 USD/h"}}`), job.Options{})
	require.NoError(t, err)
	var text strings.Builder
	require.NoError(t, printText(&text, o, false, false))
	page, err := copyHTML(o, settings{}, "bench")
	require.NoError(t, err)
	for _, printed := range []string{text.String(), parse(t, page).words()} {
		printed = strings.Join(strings.Fields(strings.NewReplacer("×", "x", noBreak, " ").Replace(printed)), " ")
		assert.GreaterOrEqual(t, strings.Count(printed, "52 x 32 in"), 2, "in the list and on the layout")
		assert.NotContains(t, printed, "32 x 52 in")
		assert.Contains(t, printed, "38 buttons, diamonds 8 in x 8 in on the face, 10 in x 10 in on the cloth; 16 pleats from the outer buttons to the edge")
	}
}

// A pair of cushions has a zip in each: the tape of one is told, not of both.
func TestZipTapeIsThatOfOneZip(t *testing.T) {
	o, err := job.Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "cushions", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "tweed", "material": "woven", "price": "40 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "berth", "count": 2, "cushions": [{"name": "seat", "pair": true, "width": "22 in", "depth": "22 in", "thickness": "4 in", "top": "cloth", "zip": true}]}],
		"quote": {"labour_rate": "50 USD/h"}}`), job.Options{})
	require.NoError(t, err)
	var text strings.Builder
	require.NoError(t, printText(&text, o, false, false))
	assert.Contains(t, strings.Join(strings.Fields(text.String()), " "), "zip tape 36 in for each of 4") // 22 + 2 x 6 1/2 + 2 x 1/2 in
}
