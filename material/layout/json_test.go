package layout

import (
	"context"
	"os"
	"testing"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/stretchr/testify/require"
)

// Every exported struct type goes through JSON, empty and with values that real
// calls take or make. Options hold a function and are no values.
func TestEveryTypeIsJSON(t *testing.T) {
	ctx := context.Background()
	roll := material.Roll{Name: "plain", Width: 54 * in, Increment: unit.Yard / 8}
	pieces := []Box{{Name: "seat", Width: 24 * in, Length: 22 * in, Count: 2, Turn: HalfTurn, Shade: 1},
		{Name: "band", Width: 70 * in, Length: 5 * in, Count: 1, Turn: Railroad, Join: &Piecing{AlongWidth: true, Allowance: in / 2, Least: 6 * in, Most: 2}}}
	boxes, err := Boxes(ctx, roll, pieces, BoxOptions{Effort: 0.001, Shades: []Shade{{Window: 60 * in}}})
	require.NoError(t, err)
	require.NotEmpty(t, boxes.Seams)
	offcuts, err := boxes.Offcuts(2*in, 3*in)
	require.NoError(t, err)
	require.NotEmpty(t, offcuts)
	both, err := CompareRailroad(ctx, roll, pieces[:1:1], BoxOptions{Effort: 0.001, Shades: []Shade{{Window: 60 * in}}})
	require.NoError(t, err)
	o, err := shape.Circle(17 * in)
	round := cutOf(t, o, err)
	panel, err := RollPanelOf(round, 2)
	require.NoError(t, err)
	panel.Paired, panel.Turn = true, HalfTurn
	rolled, err := NestRoll(ctx, roll, []RollPanel{panel}, NestOptions{Effort: 0.02})
	require.NoError(t, err)
	skin, err := SkinPanelOf(round, 2)
	require.NoError(t, err)
	skin.Grain, skin.Hand, skin.Stretch = EitherWay(10*unit.Degree), EitherHand, &StretchWish{Tolerance: 30 * unit.Degree}
	hides, err := NominalSkins(material.Side, 22*unit.SquareFoot, 1)
	require.NoError(t, err)
	plan, err := NestSkins(ctx, hides, []SkinPanel{skin}, NestOptions{Effort: 0.02})
	require.NoError(t, err)
	require.NotEmpty(t, plan.Placements)
	require.NotEmpty(t, plan.Offcuts)
	compared, err := CompareBuying(plan, material.WasteFactor{Waste: 0.3}, material.SkinSupply{Mean: 22 * unit.SquareFoot}, material.YieldRange{From: 0.6, To: 0.7}, 0.9)
	require.NoError(t, err)
	faults, err := roundtrip.Faults(os.DirFS("."), []any{
		pieces[0], pieces[1], *pieces[1].Join, boxes, boxes.Placements[0], boxes.Seams[0], boxes.Shades[0], offcuts[0], both, BoxProgress{Done: 0.5, Need: in},
		panel, rolled, rolled.Placements[1], skin, skin.Grain, *skin.Stretch, plan, plan.Placements[0], SkinCopy{Panel: 1, Copy: 2}, plan.Offcuts[0],
		compared, compared.Thumb, NestProgress{Placed: 3},
	}, "BoxOptions", "NestOptions")
	require.NoError(t, err)
	require.Empty(t, faults)
}
