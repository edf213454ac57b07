package layout

import (
	"context"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Every exported struct type goes through JSON, empty and with values that real
// calls take or make. Options hold a function and are no values.
func TestEveryTypeIsJSON(t *testing.T) {
	ctx := context.Background()
	roll := material.Roll{Name: "plain", Width: 54 * in, Increment: unit.Yard / 8}
	ps := pieces(cloth{name: "seat", width: 24 * in, length: 22 * in, count: 2, turn: HalfTurn, shade: 1},
		cloth{name: "band", width: 70 * in, length: 5 * in, count: 1, turn: HalfTurn, join: &Piecing{AlongWidth: true, Allowance: in / 2, Least: 6 * in, Most: 2}})
	job := Job{Roll: &roll, Shades: []Shade{{Window: 60 * in}}, Pieces: ps}
	boxes, err := Solve(ctx, job, quick)
	require.NoError(t, err)
	require.NotEmpty(t, boxes.Joins)
	offcuts, err := boxes.RollOffcuts(2*in, 3*in)
	require.NoError(t, err)
	require.NotEmpty(t, offcuts)
	job.Pieces = ps[:1]
	both, err := CompareRailroad(ctx, job, quick)
	require.NoError(t, err)
	o, err := shape.Circle(17 * in)
	round := cutOf(t, o, err)
	p, err := PieceOf(round, 2)
	require.NoError(t, err)
	p.Hand, p.Turn, p.Phase = Paired, HalfTurn, Phase{Axes: AcrossOnly, Spots: []Spot{{Point: inches(1, 2)}}}
	rolled, err := onRoll(roll, []Piece{p}, quick)
	require.NoError(t, err)
	p.Grain, p.Hand, p.Stretch = EitherWay(10*unit.Degree), EitherHand, &StretchWish{Tolerance: 30 * unit.Degree}
	hides, err := UsualHides(material.Side, 22*unit.SquareFoot, 1)
	require.NoError(t, err)
	plan := onHides(t, hides, []Piece{p}, light)
	require.NotEmpty(t, plan.Offcuts)
	compared, err := CompareBuying(plan, material.WasteFactor{Waste: 0.3}, material.SkinSupply{Mean: 22 * unit.SquareFoot}, material.YieldRange{From: 0.6, To: 0.7}, 0.9)
	require.NoError(t, err)
	roll.Repeat = 27 * in
	repeating, err := onRoll(roll, []Piece{pieces(cloth{width: 30 * in, length: 20 * in, count: 2})[0]}, quick)
	require.NoError(t, err)
	matching, err := CompareMatching(ctx, repeating, quick)
	require.NoError(t, err)
	drawn, err := plan.Draw(Picture{Title: "side"})
	require.NoError(t, err)
	datum, err := plan.HideDatum(0)
	require.NoError(t, err)
	places, err := plan.HidePlaces(0)
	require.NoError(t, err)
	mark := HideMark{Letter: "a", Kind: material.Brand, Severity: material.DeepMark, Middle: datum.Spot(inches(1, 2)), Over: []Copy{{1, 2}}}
	phase := Phase{Spots: []Spot{{Point: inches(1, 2), Degrees: []int{0, 180}}}, Common: 1}
	faults, err := roundtrip.Faults(os.DirFS("."), []any{
		ps[0], ps[1], *ps[1].Join, boxes, boxes.Places[0], boxes.Joins[0], job.Shades[0], offcuts[0], both, Progress{Done: 0.5, Need: in},
		rolled, rolled.Places[1], rolled.Claims[0], p, p.Grain, *p.Stretch, plan, plan.Places[0], Copy{Piece: 1, Copy: 2}, plan.Offcuts[0], plan.Areas,
		compared, compared.Thumb, matching, matching.Plain, matching.Wishes[0], phase, phase.Spots[0], job, *plan.Job.Hides, drawn[0], Label{Number: "1", Name: "seat"}, Picture{Title: "side", Width: 700},
		HideDatum{Backbone: true, Traced: true, Line: in, Tail: 2 * in}, places[0], places[0].Points[0], mark, mark.Middle,
	}, "Options")
	require.NoError(t, err)
	require.Empty(t, faults)
}
