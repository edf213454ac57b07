package allowance_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
)

// Every exported struct type goes through JSON, empty and with values that real
// calls take or make.
func TestEveryTypeIsJSON(t *testing.T) {
	stretch, _ := allowance.LeatherStretch()
	fitted, err := stretch.Apply(20 * unit.Inch)
	require.NoError(t, err)
	edge := allowance.Edge{Finish: allowance.PullOver, Allowance: allowance.Exactly(2 * unit.Inch), Handling: unit.Inch}
	rect := allowance.RectPanel{Name: "seat", Width: 22 * unit.Inch, Height: 20 * unit.Inch, Top: edge, Across: stretch}
	rectCut, err := rect.Cut()
	require.NoError(t, err)
	crowned, err := shape.Crowned(22*unit.Inch, 24*unit.Inch, unit.Inch)
	require.NoError(t, err)
	panel := allowance.Panel{Name: "back", Outline: crowned, AllEdges: edge, Edges: map[string]allowance.Edge{"left": {}},
		Corner: shape.RoundCorner, Notches: []allowance.Notch{{Edge: "top", At: unit.Inch}}}
	cut, err := panel.Cut()
	require.NoError(t, err)
	limits, _ := allowance.FirmWoven.Limits()
	match, err := allowance.MatchSeam(20*unit.Inch, 21*unit.Inch, limits)
	require.NoError(t, err)
	marks, err := match.Marks(4 * unit.Inch)
	require.NoError(t, err)
	bend, err := allowance.BendOf(30*unit.Inch, 24*unit.Inch, 2*unit.Inch)
	require.NoError(t, err)

	cover := allowance.Cover{Panels: []allowance.CoverPanel{{Panel: panel, Goods: "cloth", Count: 2, Pair: true}}, Rows: []allowance.CoverRow{allowance.RowOn("zip", "cloth", unit.Inch, 2)}}

	chair := wingChair()
	work, err := chair.Work(sewnGoods())
	require.NoError(t, err)
	edges, err := knifeEdge().Work(sewnGoods()) // with edges divided
	require.NoError(t, err)
	round, err := bolster().Work(sewnGoods())
	require.NoError(t, err)
	backed, err := vehicleSeat().Work(sewnGoods())
	require.NoError(t, err)
	line := allowance.InnerLine{Name: "middle", From: corner(1, 0), To: corner(1, 9)}
	wish := allowance.MotifWish{Panel: "back", At: corner(12, 20), Or: []shape.Point{corner(1, 1)}, Way: allowance.BothWays, Alike: "backs"}
	flow, err := frontOfChair().raw().Flow(sewnGoods(), []allowance.MotifWish{motif("back", 12, 20), motif("skirt", 0, 0)})
	require.NoError(t, err)
	crossing := allowance.Crossing{Way: allowance.BothWays, Point: allowance.EndPoint, Gap: unit.Inch, Hidden: true}

	ripped := allowance.Ripped{OldEdge: allowance.OldEdge{Allowance: unit.Inch / 2}, Edges: map[string]allowance.OldEdge{"left": {Line: allowance.OldFold}},
		Notches: []allowance.Notch{{Edge: "top", At: unit.Inch}}, Frame: []allowance.FrameMeasure{{Direction: 90 * unit.Degree, Panel: 20 * unit.Inch, Frame: 19 * unit.Inch}},
		Halves: &allowance.OldHalves{Axis: []shape.Point{corner(11, 0), corner(11, 9)}, Take: shape.LeftHalf, Differ: true}, Sigma: unit.Millimetre, Tolerance: unit.Millimetre}
	old, err := ripped.Finished(crowned)
	require.NoError(t, err)

	faults, err := roundtrip.Faults(os.DirFS("."), []any{
		stretch, fitted, edge, edge.Allowance, rect, rectCut, rectCut.Top, rectCut.Top.Margin, panel, panel.Notches[0],
		cut, cut.Edges[0], cut.Notches[0], cut.Grain, allowance.Rules()[0], limits, match, marks[0], bend, cover, cover.Panels[0], cover.Rows[0],
		chair, chair.Seams[0], chair.Seams[0].Sides[0][0], chair.Fastenings[0], chair.Trims[0], chair.Meets[0], chair.Meets[0].Sides[0], crossing, line,
		sewnGoods()["leather"], work, edges, work.Pieces[0], work.Pieces[0].Marks[0], work.Pieces[0].Uses[0], round.Pieces[1].Clips[0], work.Seams[0], work.Seams[0].Notches[0],
		work.Fastenings[0], work.Rows[0], work.Rows[0].Members[0], work.Welts[0], work.Zips[0], backed.Backings[0], work.Sewing[0], work.Fitting[0],
		ripped, ripped.OldEdge, ripped.Frame[0], *ripped.Halves, old, old.Notches[0], old.Frame[0],
		wish, flow, flow.Pieces[0], flow.Pieces[0].Across, flow.Crossings[0], flow.Unmet[0],
	})
	require.NoError(t, err)
	require.Empty(t, faults)
}
