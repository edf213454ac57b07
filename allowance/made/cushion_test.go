package made_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// sewnGoods knows every id the tests use: goods that take hardly any ease.
func sewnGoods(ids ...string) map[string]allowance.SewnGoods {
	out := map[string]allowance.SewnGoods{}
	limits, _ := allowance.CoatedWoven.Limits()
	for _, id := range append(ids, "cloth", "lining", "mesh") {
		out[id] = allowance.SewnGoods{Ease: limits}
	}
	return out
}

// tapeInches gives a length of so many inches.
func tapeInches(x float64) unit.Length { return unit.Length(x * float64(unit.Inch)) }

// roll is cloth whose strips lie across, as far as its usable width.
func roll(usable float64) made.Goods {
	return made.Goods{ID: "cloth", Across: tapeInches(usable), Directed: true, Thickness: unit.Millimetre}
}

// worked gives what follows from a part.
func worked(t require.TestingT, p made.Part, err error) allowance.CoverWork {
	require.NoError(t, err)
	w, err := p.Cover.Work(sewnGoods())
	require.NoError(t, err)
	return w
}

// cutOf gives a piece as it is cut.
func cutOf(t require.TestingT, w allowance.CoverWork, name string) allowance.PanelCut {
	for _, p := range w.Pieces {
		if p.Name == name {
			c, err := p.Panel.Cut()
			require.NoError(t, err)
			return c
		}
	}
	require.Fail(t, "no piece", name)
	return allowance.PanelCut{}
}

// A boxed cushion of 22 x 22 x 4 in, welted, with a zip, in goods of 54 and of
// 53 in: worked by hand.
func TestBoxedCushionByHand(t *testing.T) {
	c := made.Cushion{Width: tapeInches(22), Depth: tapeInches(22), Thickness: tapeInches(4), Top: roll(54), Cord: tapeInches(5.0 / 32), Zip: true}
	p, err := c.Make()
	w := worked(t, p, err)
	b := p.Boxing
	require.Equal(t, []unit.Length{tapeInches(35), tapeInches(53), tapeInches(36), tapeInches(13.0 / 2)}, []unit.Length{b.Opening, b.Main, b.Tape, b.Turn})
	require.Equal(t, []allowance.ZipRun{{Of: "zip", On: "zip panel upper", Opening: tapeInches(35), Tape: tapeInches(36)}}, w.Zips)
	require.Len(t, b.Pieces, 1)
	require.Len(t, b.Joins, 2, "no join but at the ends of the zip")
	for name, size := range map[string][2]float64{"top plate": {23, 23}, "bottom plate": {23, 23}, "boxing": {54, 5}, "zip panel upper": {36, 3.25}, "zip panel lower": {36, 3.25}} {
		cut := cutOf(t, w, name)
		require.Equal(t, [2]unit.Length{tapeInches(size[0]), tapeInches(size[1])}, [2]unit.Length{cut.Width, cut.Height}, name)
	}
	require.Equal(t, tapeInches(614), w.Stitched())
	require.Len(t, w.Welts, 2)
	for _, r := range w.Welts {
		require.Equal(t, []unit.Length{tapeInches(88), tapeInches(90)}, []unit.Length{r.CordLength, r.Strip})
	}

	c.Top = roll(53)
	p, err = c.Make()
	require.NoError(t, err)
	require.Equal(t, []unit.Length{tapeInches(52), tapeInches(36), tapeInches(7), tapeInches(37)}, []unit.Length{p.Boxing.Main, p.Boxing.Opening, p.Boxing.Turn, p.Boxing.Tape})

	c.Top, c.Pocket = roll(100), tapeInches(1)
	p, err = c.Make()
	w = worked(t, p, err)
	require.Equal(t, tapeInches(3), p.Boxing.Turn)
	require.Equal(t, tapeInches(65), p.Boxing.Length, "60 + 2 (2 + 1/2)")
	require.Equal(t, tapeInches(65), cutOf(t, w, "boxing").Width)
	for _, r := range w.Rows {
		if r.Length == tapeInches(5) {
			require.Equal(t, 3, r.Layers, "the fold of the pocket is sewn through")
		}
	}
}

// A row of top-stitching that ends where the boxing is joined waits for the join,
// whichever side the cushion is sewn on at.
func TestTopStitchedCushionSewnOnAtAnySide(t *testing.T) {
	for _, at := range []string{"left", "front", "right"} {
		p, err := made.Cushion{Width: 20 * unit.Inch, Depth: 20 * unit.Inch, Thickness: 4 * unit.Inch, Top: made.Goods{ID: "cloth"}, TopStitch: true, Attached: at}.Make()
		require.NoError(t, err)
		w, err := p.Cover.Work(sewnGoods())
		require.NoError(t, err, at)
		for _, s := range w.Seams {
			require.Equal(t, s.Seam == 0, s.Letter == w.Sewing[0].Seam, "%s: the join is sewn first", at)
		}
	}
}

// A zip panel is made longer rather than a sliver joined on: 22 x 19 x 4 in.
func TestNoSliverOfBoxing(t *testing.T) {
	c := made.Cushion{Width: tapeInches(22), Depth: tapeInches(19), Thickness: tapeInches(4), Top: roll(53.5), Zip: true}
	p, err := c.Make()
	require.NoError(t, err)
	require.Equal(t, []unit.Length{tapeInches(29.5), tapeInches(3.75)}, []unit.Length{p.Boxing.Opening, p.Boxing.Turn})
	require.Equal(t, tapeInches(53.5), p.Boxing.Pieces[0].Cut)
	require.Len(t, p.Boxing.Pieces, 1)
}

// The front of a bench is one piece, joined at its corners; where it is wider than
// the goods it lies along them, or, with a nap, is joined in its middle.
func TestFrontOfABench(t *testing.T) {
	c := made.Cushion{Width: tapeInches(48), Depth: tapeInches(24), Thickness: tapeInches(4), Top: roll(54), Zip: true}
	p, err := c.Make()
	require.NoError(t, err)
	require.Len(t, p.Boxing.Pieces, 3)
	require.Equal(t, "boxing front", p.Boxing.Pieces[1].Name)
	require.Equal(t, tapeInches(49), p.Boxing.Pieces[1].Cut)
	require.Equal(t, "at the corner of left and front", p.Boxing.Joins[1].String())
	require.Equal(t, "at the corner of front and right", p.Boxing.Joins[2].String())
	require.Equal(t, "3 in past the corner of back and left", p.Boxing.Joins[0].String())

	c.Width, c.Top.Directed = tapeInches(60), false
	p, err = c.Make()
	require.NoError(t, err)
	require.True(t, p.Boxing.Along)
	require.Len(t, p.Boxing.Pieces, 1)

	c.Top.Directed = true
	p, err = c.Make()
	require.NoError(t, err)
	require.False(t, p.Boxing.Along)
	require.Len(t, p.Boxing.Pieces, 2)
	require.True(t, p.Boxing.Joins[1].Front)
	require.Equal(t, tapeInches(30), p.Boxing.Joins[1].Beyond, "in the middle")
	require.Equal(t, "30 in past the corner of left and front, in the front", p.Boxing.Joins[1].String())
	c.Width = tapeInches(72)
	p, err = c.Make()
	require.NoError(t, err)
	require.Equal(t, []string{"boxing side 1", "boxing front 1", "boxing front 2", "boxing side 2"},
		[]string{p.Boxing.Pieces[0].Name, p.Boxing.Pieces[1].Name, p.Boxing.Pieces[2].Name, p.Boxing.Pieces[3].Name})
}

// ell is the plate of a cockpit cushion, from above with the front below; its
// hull side is the left.
func ell(t require.TestingT) shape.Outline {
	at := func(x, y float64) shape.Point { return shape.Point{X: tapeInches(x), Y: tapeInches(y)} }
	o, err := shape.Polygon(at(0, 0), at(60, 0), at(60, 22), at(24, 22), at(24, 44), at(0, 44))
	require.NoError(t, err)
	o, err = o.Renamed("front", "end", "inner", "well", "top", "hull")
	require.NoError(t, err)
	return o
}

// An L cushion is cut as one of its outline and one of its mirror image, whatever
// its lower plate is of; worked by hand.
func TestEllCushionHasBothHands(t *testing.T) {
	o := ell(t)
	c := made.Cushion{Outline: o, Back: "hull", Thickness: tapeInches(4), Top: roll(54), Zip: true}
	c.Top.Directed = false
	p, err := c.Make()
	w := worked(t, p, err)
	for name, want := range map[string]shape.Outline{"top plate": o, "bottom plate": o.Mirrored()} {
		cut := cutOf(t, w, name)
		require.Equal(t, unit.Area(1953)*unit.SquareInch, cut.Area, name)
		got := w.Pieces[map[string]int{"top plate": 0, "bottom plate": 1}[name]].Panel.Outline
		low, _ := want.Bounds()
		at, _ := got.Bounds()
		moved, err := got.Moved(shape.Point{X: low.X - at.X, Y: low.Y - at.Y})
		require.NoError(t, err)
		require.Equal(t, want.Centroid(), moved.Centroid(), name)
	}
	b := p.Boxing
	require.Equal(t, []unit.Length{tapeInches(50), tapeInches(158)}, []unit.Length{b.Opening, b.Main})
	require.True(t, b.Along)
	require.Len(t, b.Pieces, 1, "along the roll in one piece")
	require.Equal(t, []unit.Length{tapeInches(159), tapeInches(5)}, []unit.Length{b.Pieces[0].Cut, b.Width})
	c.Top = roll(54)
	p, err = c.Make()
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(p.Boxing.Pieces), 3)

	// The port one is the mirror image of the starboard one, piece for piece.
	mirrored := c
	mirrored.Outline = o.Mirrored()
	port, err := mirrored.Make()
	other := worked(t, port, err)
	require.Equal(t, cutOf(t, other, "bottom plate").Area, cutOf(t, w, "top plate").Area)
}

// A plate that is the same left to right is one hand.
func TestSymmetricPlateIsOneHand(t *testing.T) {
	p, err := made.Cushion{Width: tapeInches(28), Depth: tapeInches(24), LeftEar: tapeInches(3), RightEar: tapeInches(3), EarDepth: tapeInches(6),
		Thickness: tapeInches(5), Top: roll(54), Zip: true}.Make()
	w := worked(t, p, err)
	require.Equal(t, p.Cover.Panels[0].Outline, p.Cover.Panels[1].Outline)
	require.Equal(t, unit.Area(617)*unit.SquareInch, cutOf(t, w, "top plate").Area)
	p, err = made.Cushion{Width: tapeInches(28), Depth: tapeInches(24), LeftEar: tapeInches(3), EarDepth: tapeInches(6),
		Thickness: tapeInches(5), Top: roll(54), Zip: true}.Make()
	worked(t, p, err)
	require.NotEqual(t, p.Cover.Panels[0].Outline, p.Cover.Panels[1].Outline)
	on, _, err := p.Cover.Panels[0].Outline.Mark("right ear", 0, 0)
	require.NoError(t, err)
	require.Equal(t, tapeInches(28), on.X, "the sitter's left ear lies at the right, the front below")
}

// A bolster of 7 x 20 in and a round cushion of 18 x 3 in, worked by hand.
func TestBolsterAndRoundByHand(t *testing.T) {
	p, err := made.Cushion{Kind: made.Bolster, Width: tapeInches(20), Depth: tapeInches(7), Top: roll(54), Cord: tapeInches(0.125), Zip: true, Fit: made.NeutralFit}.Make()
	w := worked(t, p, err)
	body := cutOf(t, w, "body")
	require.Equal(t, tapeInches(21), body.Width)
	require.InDelta(t, 22.991, body.Height.Inches(), 0.0005)
	require.Equal(t, tapeInches(8), cutOf(t, w, "end 1").Width)
	require.Equal(t, tapeInches(17), w.Zips[0].Opening)
	var plain unit.Length
	for _, s := range w.Seams {
		if p.Cover.Seams[s.Seam].Kind == allowance.PlainJoin {
			plain += s.Match.First
		}
	}
	require.Equal(t, tapeInches(3), plain, "beside the zip")
	for _, r := range w.Welts {
		require.InDelta(t, 23.991, r.Strip.Inches(), 0.0005)
		require.InDelta(t, 21.991, r.CordLength.Inches(), 0.0005)
	}

	p, err = made.Cushion{Kind: made.Round, Width: tapeInches(18), Thickness: tapeInches(3), Top: roll(54), Zip: true}.Make()
	worked(t, p, err)
	require.InDelta(t, 56.549, (p.Boxing.Main + p.Boxing.Opening).Inches(), 0.0005)
	require.InDelta(t, 28.274, p.Boxing.Opening.Inches(), 0.0005)
	require.GreaterOrEqual(t, p.Boxing.Opening, tapeInches(21))
}

// A knife edge opens over its back less 3 in.
func TestKnifeEdgeZip(t *testing.T) {
	p, err := made.Cushion{Kind: made.KnifeEdge, Width: tapeInches(18), Depth: tapeInches(18), Top: roll(54), Zip: true}.Make()
	w := worked(t, p, err)
	require.Equal(t, tapeInches(15), w.Zips[0].Opening)
	require.Equal(t, []unit.Length{tapeInches(19), tapeInches(19)}, []unit.Length{cutOf(t, w, "top plate").Width, cutOf(t, w, "top plate").Height})
}

// The wrap of a waterfall cushion is as long as its side is round.
func TestWaterfallByHand(t *testing.T) {
	c := made.Cushion{Kind: made.Waterfall, Width: tapeInches(20), Depth: tapeInches(18), Thickness: tapeInches(4), Top: roll(54), Zip: true}
	p, err := c.Make()
	w := worked(t, p, err)
	require.Equal(t, []unit.Length{tapeInches(21), tapeInches(41)}, []unit.Length{cutOf(t, w, "wrap").Width, cutOf(t, w, "wrap").Height})
	require.Equal(t, tapeInches(20), w.Zips[0].Opening)
	c.RoundFront = true
	p, err = c.Make()
	w = worked(t, p, err)
	require.InDelta(t, 39.2832, cutOf(t, w, "wrap").Height.Inches(), 0.0001)
	require.True(t, p.Core.RoundFront)
}

// One take-up: the cover has the finished size and the core one take-up more, in
// every kind; what is given for the core is the core's.
func TestFitSqueezesOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCushion(t)
		p, err := c.Make()
		if err != nil || !c.Outline.IsZero() {
			return
		}
		k, _ := c.Fit.TakeUp()
		require.Equal(t, k, p.Core.TakeUp)
		w, d := p.Cover.Panels[0].Outline.Size()
		switch {
		case c.Kind == made.Waterfall, c.BackThickness != 0:
			d = p.Core.Depth - k
		case c.Rise != 0: // the plate is bowed
			w, d = p.Core.Width-k, p.Core.Depth-k
		case c.GatheredEnds: // the body goes on to the middle of each end
			d = p.Core.Depth - k
			w -= d
		case c.Kind == made.Bolster:
			d, _ = p.Cover.Panels[1].Outline.Size()
		}
		require.InDelta(t, float64(w+k), float64(p.Core.Width), 4, "B - C = k")
		require.InDelta(t, float64(d+k), float64(p.Core.Depth), 4)
		require.Equal(t, c.Thickness, p.Core.Thickness)
		given, printed := c.Width, w
		if c.CoreGiven {
			given, printed = c.Width, p.Core.Width
		}
		require.InDelta(t, float64(given), float64(printed), 4, "printed = C")
	})
	// The figures of one cushion, whichever way it is told.
	for _, x := range []struct {
		fit     made.CushionFit
		takeUp  allowance.Override
		core    bool
		printed [3]float64 // finished, plate cut, core
	}{
		{made.NeutralFit, allowance.Override{}, false, [3]float64{22, 23, 22}},
		{made.SnugFit, allowance.Override{}, false, [3]float64{22, 23, 22.5}},
		{made.SnugFit, allowance.Exactly(unit.Inch), true, [3]float64{21, 22, 22}},
		{made.FirmFit, allowance.Override{}, false, [3]float64{22, 23, 22.25}},
		{made.WrappedFit, allowance.Override{}, false, [3]float64{22, 23, 22}},
	} {
		p, err := made.Cushion{Width: tapeInches(22), Depth: tapeInches(22), Thickness: tapeInches(4), Top: roll(54), Fit: x.fit, TakeUp: x.takeUp, CoreGiven: x.core}.Make()
		w := worked(t, p, err)
		finished, _ := p.Cover.Panels[0].Outline.Size()
		require.Equal(t, []unit.Length{tapeInches(x.printed[0]), tapeInches(x.printed[1]), tapeInches(x.printed[2])},
			[]unit.Length{finished, cutOf(t, w, "top plate").Width, p.Core.Width}, "%v", x)
	}
	// The core of an L is the true L, moved out all round.
	p, err := made.Cushion{Outline: ell(t), Back: "hull", Thickness: tapeInches(4), Top: roll(54)}.Make()
	require.NoError(t, err)
	require.Equal(t, []unit.Length{tapeInches(60.5), tapeInches(44.5)}, []unit.Length{p.Core.Width, p.Core.Depth})
	require.Equal(t, unit.Area(1848+52)*unit.SquareInch+unit.SquareInch/4, p.Core.Outline.Area())
}

// A wedge, 4 in at the front and 1 in at the back of 4 in: a triangle of 3, 4, 5.
func TestWedgeByHand(t *testing.T) {
	c := made.Cushion{Width: tapeInches(20), Depth: tapeInches(4), Thickness: tapeInches(4), BackThickness: tapeInches(1), Top: roll(54), Zip: true}
	p, err := c.Make()
	w := worked(t, p, err)
	require.Equal(t, tapeInches(6), cutOf(t, w, "top plate").Height, "it slopes over 5 in")
	require.Equal(t, tapeInches(5), cutOf(t, w, "bottom plate").Height)
	require.Equal(t, unit.Area(10)*unit.SquareInch, w.Pieces[3].Panel.Outline.Area(), "4 x (4 + 1) / 2")
	require.Equal(t, tapeInches(20), w.Zips[0].Opening)
	require.Equal(t, tapeInches(1), p.Core.BackThickness)
	c.Top = roll(20)
	_, err = c.Make()
	require.ErrorContains(t, err, "21 in")
}

// A pair of cushions is two of each plate, every one with its mirror image.
func TestPairOfCushions(t *testing.T) {
	p, err := made.Cushion{Outline: ell(t), Back: "hull", Thickness: tapeInches(4), Top: roll(54), Zip: true, Pair: true}.Make()
	w := worked(t, p, err)
	require.Equal(t, cutOf(t, w, "top plate left").Area, cutOf(t, w, "bottom plate right").Area)
	low, high := w.Pieces[0].Panel.Outline.Bounds()
	require.Equal(t, []unit.Length{tapeInches(60), tapeInches(44)}, []unit.Length{high.X - low.X, high.Y - low.Y})
	require.Len(t, w.Zips, 2)
}
