package made_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
)

// Every exported struct type goes through JSON, empty and with values that real
// calls take or make.
func TestEveryTypeIsJSON(t *testing.T) {
	const in = unit.Inch
	var typical []any
	add := func(err error, vs ...any) {
		require.NoError(t, err)
		typical = append(typical, vs...)
	}
	cloth := made.Goods{ID: "cloth", Across: 54 * in, Along: 300 * in, Directed: true, Thickness: unit.Millimetre}
	cushion := made.Cushion{Width: 22 * in, Depth: 20 * in, Thickness: 4 * in, LeftEar: 3 * in, EarDepth: 6 * in, Zip: true, Pocket: in, Cord: in / 8, Top: cloth}
	part, err := cushion.Make()
	add(err, cushion, part, *part.Boxing, part.Boxing.Pieces[0], part.Boxing.Joins[0], part.Core)
	boxing := made.Boxing{Perimeter: 84 * in, Depth: 4 * in, Corners: []made.RingCorner{{Name: "back and left", At: 11 * in}}}
	add(nil, boxing, boxing.Corners[0])
	ottoman := made.Ottoman{Width: 22 * in, Depth: 20 * in, Height: 8 * in, Top: cloth, Under: cloth}
	pouf, err := ottoman.Make()
	add(err, ottoman, pouf, made.DropInSeat{Front: 20 * in, Depth: 18 * in, Foam: 2 * in, Frame: in, Top: cloth})
	pieces := part.Boxing.Strips()
	add(nil, pieces[0])
	welt := made.WeltRun{Runs: []unit.Length{84 * in}, Width: 3 * in / 2, Join: made.StraightJoin, Ends: allowance.Exactly(0)}
	weltCut, err := welt.Cut()
	add(err, welt, weltCut, made.WeltStrip{Cord: 5 * in / 32})
	tube := made.BiasTube{Width: 27 * in, Height: 36 * in, Strip: 3 * in / 2, Seam: in / 2}
	yield, err := tube.Yield()
	add(err, tube, yield, made.BiasYieldFactor())
	square, err := made.BiasSquareFor(400*in, 3*in/2, in/2)
	add(err, square)
	strips, err := made.BiasStripsFor(400*in, made.BiasStrips{Width: 54 * in, Strip: 3 * in / 2, Seam: in / 2}, in)
	add(err, strips)
	across, _, err := made.StripsAcrossFor(400*in, 54*in, 3*in/2)
	add(err, across)
	channels := made.Channels{Width: 24 * in, Height: 20 * in, Count: 6, Rise: in, Profile: made.EllipseProfile}
	channelsCut, err := channels.Cut()
	add(err, channels, channelsCut)
	tufting := made.Tufting{Width: 30 * in, Height: 20 * in, Across: 4, Down: 3, Depth: in, Rule: made.TwiceDepth, Tack: allowance.Exactly(0)}
	tufted, err := tufting.Plan()
	add(err, tufting, tufted, tufted.Rows[0])
	covers, err := made.CompareTuftRules(8*in, 5*in, 2*in)
	add(err, covers[0])
	biscuit, err := made.BiscuitCover(10, 10, 3*in, in)
	add(err, biscuit)
	gathered := made.GatheredSkirt{Base: 80 * in, Drop: 12 * in, Fullness: 2, Bottom: allowance.Edge{Finish: allowance.DoubleHem}}
	skirt, err := gathered.Cut()
	add(err, gathered, skirt, made.PleatedSkirt{Drop: in}, made.KickPleatSkirt{Drop: in, Sides: []unit.Length{in}}, made.Fullnesses()[0])
	pleats := made.Pleats{Kind: made.BoxPleat, Finished: 48 * in, Count: 12, Underfold: 2 * in}
	pleated, err := pleats.Cloth()
	add(err, pleats, pleated)
	dome := made.Dome{Radius: 9 * in, Gores: 8, Form: made.ChordForm, Rim: -30 * unit.Degree}
	gore, err := dome.Gore()
	add(err, dome, gore, gore.Stations[0])
	cone := made.ConeFrustum{Large: 15 * in, Small: 12 * in, Height: 20 * in, Wrap: 200 * unit.Degree}
	sector, err := cone.Develop()
	add(err, cone, sector)
	band := made.TubBand{Shape: cone, Ends: allowance.Edge{Finish: allowance.TurnedUnder}}
	bandCut, err := band.Cut()
	add(err, band, bandCut)
	add(nil, made.Wrap{Faces: []unit.Length{in}, End: allowance.Edge{Finish: allowance.Raw}})

	add(nil, cloth, made.Skirt{Sides: []unit.Length{20 * in}, Drop: 9 * in}, made.Welt{Cord: 5 * in / 32, Runs: []unit.Length{84 * in}})

	faults, err := roundtrip.Faults(os.DirFS("."), typical)
	require.NoError(t, err)
	require.Empty(t, faults)
}
