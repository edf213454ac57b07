package made_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// rowsOf adds up the rows of stitching by their kind.
func rowsOf(w allowance.CoverWork) map[allowance.RowKind]unit.Length {
	out := map[allowance.RowKind]unit.Length{}
	for _, r := range w.Rows {
		out[r.Kind] += r.Length
	}
	return out
}

// A boxed cushion of 22 x 22 x 4 in in goods of 54 in, row by row: the zip is 36 in
// twice, the ring joined twice over 5 in, the welt made over 88 + 2 in twice, put on
// over 88 in twice, and closed over 88 in twice.
func TestRowsOfBoxedCushionByHand(t *testing.T) {
	p, err := made.Cushion{Width: tapeInches(22), Depth: tapeInches(22), Thickness: tapeInches(4), Top: roll(54), Cord: tapeInches(5.0 / 32), Zip: true}.Make()
	w := worked(t, p, err)
	require.Equal(t, map[allowance.RowKind]unit.Length{
		allowance.ZipRow: tapeInches(72), allowance.SeamRow: tapeInches(10 + 176), allowance.MakingRow: tapeInches(180), allowance.PuttingRow: tapeInches(176),
	}, rowsOf(w))
	var area unit.Area
	for _, x := range w.Pieces {
		c, err := x.Panel.Cut()
		require.NoError(t, err)
		area += c.Area
	}
	require.Equal(t, unit.Area(1058+270+234)*unit.SquareInch, area, "plates, boxing, zip panels")
}

// A pair of L cushions of 60 x 44 in by hand: the girth is that of the box round it, the
// cut one 4 in more. Port and starboard are cut as the drawn outline above and its
// mirror image below, and the other way about, so that of face and of mesh each there is
// one of either hand. Across goods of 54 in the front of 57 in is joined.
func TestPairOfEllsByHand(t *testing.T) {
	o := ell(t)
	c := made.Cushion{Outline: o, Back: "hull", Thickness: tapeInches(4), Top: roll(54), Bottom: made.Goods{ID: "mesh"}, Zip: true, Pair: true}
	p, err := c.Make()
	w := worked(t, p, err)
	lies := func(x shape.Outline, like shape.Outline) bool {
		a, _ := x.Bounds()
		b, _ := like.Bounds()
		moved, err := x.Moved(shape.Point{X: b.X - a.X, Y: b.Y - a.Y})
		require.NoError(t, err)
		return moved.Centroid() == like.Centroid()
	}
	hands := map[string][2]int{}
	for _, x := range w.Pieces {
		if x.Of != "top plate" && x.Of != "bottom plate" {
			continue
		}
		n := hands[x.Goods]
		if lies(x.Panel.Outline, o) {
			n[0]++
		}
		if lies(x.Panel.Outline, o.Mirrored()) {
			n[1]++
		}
		hands[x.Goods] = n
		cut, err := x.Panel.Cut()
		require.NoError(t, err)
		require.Equal(t, unit.Area(1953)*unit.SquareInch, cut.Area, x.Name)
		var girth float64
		for i, a := range cut.CutLine.Outer {
			b := cut.CutLine.Outer[(i+1)%len(cut.CutLine.Outer)]
			girth += math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
		}
		require.InDelta(t, 212, girth/float64(unit.Inch), 1e-6, x.Name)
	}
	require.Equal(t, map[string][2]int{"cloth": {1, 1}, "mesh": {1, 1}}, hands)
	b := p.Boxing
	require.Equal(t, []unit.Length{tapeInches(50), tapeInches(158), tapeInches(208)}, []unit.Length{b.Opening, b.Main, b.Opening + b.Main})
	require.GreaterOrEqual(t, len(b.Pieces), 3)
	for _, x := range b.Pieces {
		require.LessOrEqual(t, x.Cut, tapeInches(54))
	}
	require.True(t, b.Joins[1].Front, "57 in of front in strips of 53")
}

// A bolster of 7 x 20 in, row by row: 3 in of body seam beside the zip, whose rows are 17
// in each, and two ends round 7 π in, their welt 2 in more. The boxing of a round cushion
// of 18 x 3 in is what the zip, half the girth, leaves of 18 π.
func TestRowsOfBolsterByHand(t *testing.T) {
	p, err := made.Cushion{Kind: made.Bolster, Width: tapeInches(20), Depth: tapeInches(7), Top: roll(54), Cord: tapeInches(0.125), Zip: true, Fit: made.NeutralFit}.Make()
	w := worked(t, p, err)
	rows := rowsOf(w)
	require.Equal(t, tapeInches(34), rows[allowance.ZipRow])
	require.InDelta(t, 2*21.991149, rows[allowance.PuttingRow].Inches(), 1e-5)
	require.InDelta(t, 2*23.991149, rows[allowance.MakingRow].Inches(), 1e-5)
	require.InDelta(t, 3+2*21.991149, rows[allowance.SeamRow].Inches(), 1.01, "the ends of the body seam are sewn over their allowances")

	p, err = made.Cushion{Kind: made.Round, Width: tapeInches(18), Thickness: tapeInches(3), Top: roll(54), Zip: true}.Make()
	require.NoError(t, err)
	require.InDelta(t, 28.2743, p.Boxing.Main.Inches(), 0.001)
}
