package job

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// Pieces that are cut alike stand on one line, whatever they are sewn to; every cut
// stands on just one.
func TestCutLines(t *testing.T) {
	t.Parallel()
	s := madeJob(t, `{"name": "booth", "channels": [{"name": "back", "goods": "cloth", "width": "40 in", "length": "20 in", "number": 5, "rise": "1 in"}],
		"cushions": [{"name": "seat", "count": 2, "top": "cloth", "width": "60 in", "depth": "22 in", "thickness": "4 in", "zip": true}],
		"panels": [{"name": "wing 3", "goods": "cloth", "width": "9 in", "length": "9 in"}, {"name": "wing 12", "goods": "cloth", "width": "9 in", "length": "9 in"},
			{"name": "wing 4", "goods": "cloth", "width": "9 in", "length": "9 1/4 in"}]}`)
	d, err := prepare(t.Context(), s)
	require.NoError(t, err)
	var o WorkOrder
	for _, p := range d.cut.pieces {
		o.Cuts = append(o.Cuts, p.Cut)
	}
	seen := map[int]bool{}
	counts := map[string]int{}
	for _, l := range o.CutLines() {
		counts[l.Part] = l.Count
		n := 0
		for _, k := range l.Cuts {
			assert.False(t, seen[k])
			seen[k] = true
			n += o.Cuts[k].Count
		}
		assert.Equal(t, n, l.Count)
	}
	assert.Len(t, seen, len(o.Cuts))
	for part, n := range map[string]int{"wing 3 and 12": 2, "wing 4": 1, "back, channel 1 to 3": 3, "back, first channel": 1, "back, last channel": 1, "seat, boxing side 1 and 2": 4} {
		assert.Equal(t, n, counts[part], "%s: %v", part, counts)
	}
}

// A rectangle whose edge is divided by two seams is one; with a corner cut off it is
// none.
// Lines of some goods stand together whatever furniture they are for, where all else is
// the same.
func TestCutLinesOf(t *testing.T) {
	t.Parallel()
	panel := func(x unit.Length) *allowance.PanelCut {
		return &allowance.PanelCut{CutLine: shape.Contour{Outer: []shape.Point{{}, {X: x}, {X: x, Y: x}, {Y: x}}}}
	}
	o := WorkOrder{Cuts: []Cut{
		{Piece: "a", Part: "seat", Goods: "cloth", Count: 2, Panel: panel(5)},
		{Piece: "a", Part: "lid", Goods: "hide", Count: 1, Panel: panel(5)},
		{Piece: "b", Part: "seat", Goods: "cloth", Count: 3, Panel: panel(5)},
		{Piece: "c", Part: "seat", Goods: "cloth", Count: 4, Panel: panel(6)},
		{Piece: "c", Part: "back", Goods: "cloth", Count: 4, Panel: panel(5)},
		{Piece: "a", Part: "welt strip", Goods: "cloth", Count: 1, Cord: 4},
		{Piece: "b", Part: "welt strip", Goods: "cloth", Count: 1, Cord: 4},
		{Piece: "c", Part: "welt strip", Goods: "cloth", Count: 1, Cord: 5},
		{Piece: "c", Part: "seat", Goods: "cloth", Count: 1, Panel: panel(5), Tufting: &made.TuftPlan{Buttons: 3}},
	}}
	assert.Equal(t, []CutLine{{"seat", 5, []int{0, 2}}, {"seat", 4, []int{3}}, {"back", 4, []int{4}}, {"welt strip", 2, []int{5, 6}}, {"welt strip", 1, []int{7}}, {"seat", 1, []int{8}}}, o.CutLinesOf("cloth"))
	assert.Equal(t, []CutLine{{"lid", 1, []int{1}}}, o.CutLinesOf("hide"))
	assert.Empty(t, o.CutLinesOf("lining"))
}

func TestRectangularCuts(t *testing.T) {
	t.Parallel()
	pt := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	cut := func(ps ...shape.Point) Cut {
		return Cut{Panel: &allowance.PanelCut{CutLine: shape.Contour{Outer: ps}}}
	}
	assert.True(t, Cut{}.Rectangular(), "a strip")
	assert.True(t, cut(pt(0, 0), pt(4, 0), pt(4, 2), pt(0, 2)).Rectangular())
	assert.True(t, cut(pt(0, 0), pt(3, 0), pt(4, 0), pt(4, 2), pt(0, 2), pt(0, 1)).Rectangular())
	assert.False(t, cut(pt(0, 0), pt(3, 0), pt(4, 1), pt(4, 2), pt(0, 2)).Rectangular())
	assert.False(t, cut(pt(0, 0), pt(4, 0), pt(4, 2), pt(2, 1), pt(0, 2)).Rectangular())
}

// A part whose own fields are wrong is not cut: each fault is told once.
func TestFaultsOfChannelsAreToldOnce(t *testing.T) {
	_, err := read(t, timedJob(`{"name": "booth", "channels": [{"name": "back", "goods": "cloth", "width": "-40 in", "length": "20 in", "number": 5, "rise": "1 in"}]}`, ""))
	var f Faults
	require.ErrorAs(t, err, &f)
	require.Len(t, f, 1)
	assert.ErrorContains(t, f[0], "pieces[0].channels[0].width")
}
