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
