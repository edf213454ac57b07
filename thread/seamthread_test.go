package thread_test

import (
	"encoding/json"
	"math/rand"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// One thread for a seam, whatever lies in it. The expected figures are common
// practice.
func TestRecommendSeam(t *testing.T) {
	leather := thread.Member{Goods: thread.Leather, Layers: 1, Thickness: 1100 * unit.Micrometre}
	welt := thread.Member{Goods: thread.Leather, Layers: 2, Thickness: 900 * unit.Micrometre}
	lining := thread.Member{Goods: thread.LightWoven, Layers: 1, Thickness: 200 * unit.Micrometre}
	woven := thread.Member{Goods: thread.Woven, Layers: 2, Thickness: unit.Millimetre}
	vinyl := thread.Member{Goods: thread.Vinyl, Layers: 1, Thickness: 1200 * unit.Micrometre}
	foam := thread.Member{Layers: 1, Thickness: 12 * unit.Millimetre, Padding: true}
	for name, c := range map[string]struct {
		need   thread.SeamNeed
		size   thread.Size
		point  thread.NeedlePoint
		stitch unit.Length
		layers int
		reason string
	}{
		"leather, welt, lining": {thread.SeamNeed{Members: []thread.Member{leather, welt, lining}},
			thread.Size92, thread.CutSlanted, 4500 * unit.Micrometre, 4, "the leather decides: usual size for upholstery leather"},
		"the same top-stitched": {thread.SeamNeed{Members: []thread.Member{leather, welt, lining}, Purpose: thread.TopStitch},
			thread.Size138, thread.CutSlanted, 5 * unit.Millimetre, 4, "the leather decides: one step over the seam thread, to be seen"},
		"leather gives the point where cloth decides": {thread.SeamNeed{Members: []thread.Member{{Goods: thread.Canvas, Layers: 2, Thickness: 2 * unit.Millimetre}, leather}},
			thread.Size92, thread.CutSlanted, 4500 * unit.Micrometre, 3, "the canvas decides: usual size for duck"},
		"vinyl and cloth": {thread.SeamNeed{Members: []thread.Member{woven, vinyl}},
			thread.Size69, thread.RoundPoint, 4500 * unit.Micrometre, 3, "the vinyl decides: small holes keep coated goods from tearing along the seam"},
		"cloth takes the shortest stitch": {thread.SeamNeed{Members: []thread.Member{woven, lining}},
			thread.Size69, thread.RoundPoint, 2300 * unit.Micrometre, 3, "the woven cloth decides: usual size for upholstery cloth"},
		"padding is passed and decides nothing": {thread.SeamNeed{Members: []thread.Member{foam, lining, foam, lining, foam}},
			thread.Size46, thread.RoundPoint, 2500 * unit.Micrometre, 5, "light cloth puckers under heavier thread"},
		"over a given seam": {thread.SeamNeed{Members: []thread.Member{vinyl}, Purpose: thread.TopStitch, SeamSize: thread.Size92},
			thread.Size138, thread.CutSlanted, 5 * unit.Millimetre, 1, "one step over the 92 of the seam, to be seen"},
		"as given": {thread.SeamNeed{Members: []thread.Member{lining, leather}, Size: thread.Size69, StitchLength: 6 * unit.Millimetre},
			thread.Size69, thread.CutSlanted, 6 * unit.Millimetre, 2, "size as given; needle for the leather"},
	} {
		t.Run(name, func(t *testing.T) {
			p, err := thread.RecommendSeam(c.need)
			require.NoError(t, err)
			assert.Equal(t, thread.Thread{Fibre: thread.Nylon, Size: c.size}, p.Thread)
			assert.Equal(t, p.Thread, p.Bobbin)
			assert.Equal(t, c.point, p.Point)
			assert.Equal(t, c.stitch, p.StitchLength)
			assert.Equal(t, c.layers, p.Layers)
			assert.Equal(t, c.reason, p.Reason)
			assert.Equal(t, c.need.StitchLength != 0, p.Flags.Has(thread.StitchesTooFar))
		})
	}
}

// A vehicle seat of two vinyl panels, the seam opened and top-stitched at both
// sides over a backing strip, 28 in through the pull: worked by hand, in inches.
func TestThreadOfATopStitchedSeam(t *testing.T) {
	const mil = unit.Inch / 1000
	vinyl := thread.Member{Goods: thread.Vinyl, Layers: 2, Thickness: 45 * mil}
	backing := thread.Member{Goods: thread.LightWoven, Layers: 1, Thickness: 15 * mil}
	six, err := thread.StitchesPerInch(6).StitchLength()
	require.NoError(t, err)
	five, err := thread.StitchesPerInch(5).StitchLength()
	require.NoError(t, err)
	seam, err := thread.RecommendSeam(thread.SeamNeed{Members: []thread.Member{vinyl}, Exposure: thread.InVehicle, Size: thread.Size92, StitchLength: six})
	require.NoError(t, err)
	top, err := thread.RecommendSeam(thread.SeamNeed{Members: []thread.Member{backing, vinyl}, Purpose: thread.TopStitch, Exposure: thread.InVehicle, SeamSize: thread.Size92, StitchLength: five})
	require.NoError(t, err)
	assert.Equal(t, "polyester 92", seam.Thread.String())
	assert.Equal(t, "polyester 138", top.Thread.String())
	assert.Equal(t, thread.Size92, top.BobbinFrom, "one size less on the bobbin will do")
	for _, c := range []struct {
		pick               thread.Recommendation
		thickness          unit.Length
		rows               int
		bare, tails, spare float64
	}{
		{seam, 90 * mil, 1, 86.24, 98.24, 112.976},
		{top, 105 * mil, 2, 170.80, 194.80, 224.02},
	} {
		s := thread.Seam{Length: 28 * unit.Inch, Thickness: c.thickness, Stitch: thread.Lockstitch301, StitchLength: c.pick.StitchLength, Rows: c.rows}
		bare, err := thread.Consume(s)
		require.NoError(t, err)
		assert.InDelta(t, c.bare, bare.Total.Inches(), 1e-5)
		tails, err := thread.Total(thread.Sewing{Seams: []thread.Seam{s}, Tail: 3 * unit.Inch})
		require.NoError(t, err)
		assert.InDelta(t, c.tails, tails.Total.Inches(), 1e-5)
		spare, err := thread.Total(thread.Sewing{Seams: []thread.Seam{s}, Tail: 3 * unit.Inch, Waste: 15 * unit.Percent})
		require.NoError(t, err)
		assert.InDelta(t, c.spare, spare.Total.Inches(), 1e-5)
		assert.Equal(t, spare.Needle, spare.Under, "half each")
	}
}

func drawMember(t *rapid.T, most int) thread.Member {
	m := thread.Member{Layers: rapid.IntRange(1, most).Draw(t, "layers"), Thickness: unit.Length(rapid.Int64Range(0, 3).Draw(t, "thickness")) * unit.Millimetre}
	if m.Padding = rapid.IntRange(0, 5).Draw(t, "padding") == 0; !m.Padding {
		m.Goods = rapid.SampledFrom(thread.AllGoods()).Draw(t, "goods")
	}
	return m
}

func drawSeamNeed(t *rapid.T) thread.SeamNeed {
	n := thread.SeamNeed{
		Members:  rapid.SliceOfN(rapid.Custom(func(t *rapid.T) thread.Member { return drawMember(t, 4) }), 0, 3).Draw(t, "members"),
		Purpose:  rapid.SampledFrom([]thread.Purpose{thread.JoinSeam, thread.TopStitch}).Draw(t, "purpose"),
		Exposure: rapid.SampledFrom(thread.Exposures()).Draw(t, "exposure"),
		Fibre:    thread.Fibre(rapid.Uint8Range(0, 2).Draw(t, "fibre")),
	}
	n.Members = append(n.Members, thread.Member{Goods: rapid.SampledFrom(thread.AllGoods()).Draw(t, "last"), Layers: 1})
	if rapid.Bool().Draw(t, "needle given") {
		n.Needle = rapid.SampledFrom(thread.Needles()).Draw(t, "needle")
	}
	return n
}

// The order in which members are named changes nothing; a further member never
// makes the thread finer, nor takes a cutting point away from leather; no member
// would have got a heavier thread alone; a row of one kind of goods is sewn as
// Recommend says.
func TestSeamLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := drawSeamNeed(t)
		p, err := thread.RecommendSeam(n)
		require.NoError(t, err)

		other := n
		other.Members = slices.Clone(n.Members)
		rand.New(rand.NewSource(rapid.Int64().Draw(t, "shuffle"))).Shuffle(len(other.Members), func(i, j int) {
			other.Members[i], other.Members[j] = other.Members[j], other.Members[i]
		})
		same, err := thread.RecommendSeam(other)
		require.NoError(t, err)
		assert.Equal(t, p, same)

		other.Members = append(other.Members, drawMember(t, 3))
		more, err := thread.RecommendSeam(other)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, more.Thread.Size, p.Thread.Size)
		assert.Greater(t, more.Layers, p.Layers)

		goods := map[thread.Goods]thread.Recommendation{}
		for _, m := range n.Members {
			if m.Padding {
				continue
			}
			a, err := thread.Recommend(thread.Need{Goods: m.Goods, Layers: p.Layers, Purpose: n.Purpose, Exposure: n.Exposure, Fibre: n.Fibre, Needle: n.Needle})
			require.NoError(t, err)
			assert.LessOrEqual(t, a.Best().Thread.Size, p.Thread.Size)
			goods[m.Goods] = a.Best()
		}
		for _, alone := range goods {
			if len(goods) == 1 {
				assert.Equal(t, alone, p)
			}
		}
		_, leather := goods[thread.Leather]
		_, heavy := goods[thread.HeavyLeather]
		if leather || heavy {
			assert.True(t, p.Point.Cutting() && more.Point.Cutting())
		}
		assert.Equal(t, n.Fibre == 0, p.FibreBasis.Status != 0)
	})
}

// The fibre follows where the piece lives, and nylon is flagged where it is
// wrong, once it is given.
func TestFibreFollowsExposure(t *testing.T) {
	for _, e := range thread.Exposures() {
		t.Run(e.String(), func(t *testing.T) {
			fibre, reason, basis, err := e.Fibre()
			require.NoError(t, err)
			assert.Equal(t, e == thread.Indoors, fibre == thread.Nylon)
			assert.NotZero(t, basis.Status)
			need := thread.SeamNeed{Members: []thread.Member{{Goods: thread.Canvas, Layers: 2}}, Exposure: e}
			p, err := thread.RecommendSeam(need)
			require.NoError(t, err)
			assert.Equal(t, fibre, p.Thread.Fibre)
			assert.Equal(t, reason, p.FibreReason)
			assert.Zero(t, p.Flags)
			need.Fibre = thread.Nylon
			p, err = thread.RecommendSeam(need)
			require.NoError(t, err)
			assert.Equal(t, thread.Nylon, p.Thread.Fibre, "kept")
			assert.Equal(t, fibre != thread.Nylon, p.Flags.Has(thread.NylonInSun) || p.Flags.Has(thread.NylonInDamp), "flagged")
		})
	}
	_, _, _, err := thread.Exposure(6).Fibre()
	assert.ErrorIs(t, err, unit.ErrUnknown)
}

func TestSeamNeedErrors(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*thread.SeamNeed)
		field string
		want  error
	}{
		"no members":         {func(n *thread.SeamNeed) { n.Members = nil }, "number of members", unit.ErrRange},
		"no goods":           {func(n *thread.SeamNeed) { n.Members[1].Goods = 0 }, "members[1].goods", unit.ErrUnknown},
		"unknown goods":      {func(n *thread.SeamNeed) { n.Members[1].Goods = 9 }, "members[1].goods", unit.ErrUnknown},
		"padding with goods": {func(n *thread.SeamNeed) { n.Members[0].Padding = true }, "members[0].goods", unit.ErrRange},
		"padding alone": {func(n *thread.SeamNeed) { n.Members = []thread.Member{{Layers: 1, Padding: true}} },
			"members", unit.ErrRequired},
		"too many at a place":   {func(n *thread.SeamNeed) { n.Layers = 21 }, "layers", unit.ErrRange},
		"no layers":             {func(n *thread.SeamNeed) { n.Members[0].Layers = 0 }, "members[0].layers", unit.ErrRange},
		"too many layers":       {func(n *thread.SeamNeed) { n.Members[0].Layers, n.Members[1].Layers = 11, 10 }, "layers", unit.ErrRange},
		"thickness, no unit":    {func(n *thread.SeamNeed) { n.Members[0].Thickness = 3 }, "members[0].thickness", unit.ErrForgottenUnit},
		"unknown purpose":       {func(n *thread.SeamNeed) { n.Purpose = 7 }, "purpose", unit.ErrUnknown},
		"unknown exposure":      {func(n *thread.SeamNeed) { n.Exposure = 6 }, "exposure", unit.ErrUnknown},
		"seam size of a seam":   {func(n *thread.SeamNeed) { n.SeamSize = thread.Size69 }, "seam_size", unit.ErrRange},
		"unknown seam size":     {func(n *thread.SeamNeed) { n.Purpose, n.SeamSize = thread.TopStitch, 99 }, "seam_size", unit.ErrUnknown},
		"unknown size":          {func(n *thread.SeamNeed) { n.Size = 99 }, "size", unit.ErrUnknown},
		"unknown fibre":         {func(n *thread.SeamNeed) { n.Fibre = 99 }, "fibre", unit.ErrUnknown},
		"unknown needle":        {func(n *thread.SeamNeed) { n.Needle = 61 }, "needle", unit.ErrUnknown},
		"stitches of an inch 2": {func(n *thread.SeamNeed) { n.StitchLength = 2 * unit.Inch }, "stitch_length", unit.ErrRange},
	} {
		t.Run(name, func(t *testing.T) {
			n := thread.SeamNeed{Members: []thread.Member{{Goods: thread.Leather, Layers: 1}, {Goods: thread.Woven, Layers: 1}}}
			c.spoil(&n)
			p, err := thread.RecommendSeam(n)
			assert.Zero(t, p)
			assertField(t, err, c.field, c.want)
		})
	}
}

// A recommendation and what it was asked for go through JSON.
func TestSeamNeedJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := drawSeamNeed(t)
		data, err := json.Marshal(n)
		require.NoError(t, err)
		var back thread.SeamNeed
		require.NoError(t, json.Unmarshal(data, &back), "%s", data)
		assert.Equal(t, n, back)
		p, err := thread.RecommendSeam(n)
		require.NoError(t, err)
		data, err = json.Marshal(p)
		require.NoError(t, err)
		var again thread.Recommendation
		require.NoError(t, json.Unmarshal(data, &again), "%s", data)
		assert.Equal(t, p, again)
	})
}

// A side that changes its goods on the way: the layers are those at one place.
func TestSeamOfChangingGoods(t *testing.T) {
	n := thread.SeamNeed{Members: []thread.Member{{Goods: thread.Leather, Layers: 2}, {Goods: thread.Vinyl, Layers: 2}, {Goods: thread.Woven, Layers: 2}}, Layers: 4}
	p, err := thread.RecommendSeam(n)
	require.NoError(t, err)
	assert.Equal(t, 4, p.Layers)
	assert.Equal(t, thread.Needle(120), p.Needle, "not that of many layers")
}

// A seam of two cloths takes the stitches of both: 6 to 8 per inch and 10 to 12, or 5 to
// 7; one that keeps its holes has its own, whatever is sewn to it.
func TestStitchesOfTwoCloths(t *testing.T) {
	for _, c := range []struct {
		goods    [2]thread.Goods
		from, to thread.StitchesPerInch
	}{
		{[2]thread.Goods{thread.Woven, thread.LightWoven}, 6, 12},
		{[2]thread.Goods{thread.Woven, thread.Canvas}, 5, 8},
		{[2]thread.Goods{thread.Woven, thread.Woven}, 6, 8},
		{[2]thread.Goods{thread.LightWoven, thread.HeavyLeather}, 4, 5},
	} {
		p, err := thread.RecommendSeam(thread.SeamNeed{Members: []thread.Member{{Goods: c.goods[0], Layers: 1}, {Goods: c.goods[1], Layers: 1}}})
		require.NoError(t, err)
		assert.Equal(t, c.from, p.Density.From, c.goods)
		assert.Equal(t, c.to, p.Density.To, c.goods)
	}
}

// A row can be sewn as another is where the ranges allow it, and then has
// nothing against it that it had not before; its own set-up always does.
func TestOn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func() thread.Recommendation {
			p, err := thread.RecommendSeam(drawSeamNeed(t))
			require.NoError(t, err)
			return p
		}
		p, o := draw(), draw()
		same, ok := p.On(p.SetUp())
		require.True(t, ok)
		assert.Equal(t, p, same)
		if as, ok := p.On(o.SetUp()); ok {
			assert.Equal(t, o.SetUp(), as.SetUp())
			assert.Equal(t, p.Thread, as.Thread)
			assert.True(t, !p.Point.Cutting() || as.Point.Cutting() || p.RoundWillDo)
		} else {
			assert.NotEqual(t, p.SetUp(), o.SetUp())
			assert.Equal(t, p, as)
		}
	})
	vinyl, err := thread.RecommendSeam(thread.SeamNeed{Members: []thread.Member{{Goods: thread.Vinyl, Layers: 2}}})
	require.NoError(t, err)
	mixed, err := thread.RecommendSeam(thread.SeamNeed{Members: []thread.Member{{Goods: thread.Vinyl, Layers: 1}, {Goods: thread.LightWoven, Layers: 4}}})
	require.NoError(t, err)
	_, ok := vinyl.On(mixed.SetUp())
	assert.True(t, ok, "a round point and the coarse needle will do")
	_, ok = mixed.On(vinyl.SetUp())
	assert.False(t, ok, "a cutting point cuts the cloth")

	// 4 to 5 per inch are 5.08 mm to 6.35 mm; a length off by the nanometre that
	// it was rounded by is one of them.
	heavy, err := thread.RecommendSeam(thread.SeamNeed{Members: []thread.Member{{Goods: thread.HeavyLeather, Layers: 2}}})
	require.NoError(t, err)
	for l, want := range map[unit.Length]bool{5_079_998: false, 5_079_999: true, 6_350_001: true, 6_350_002: false, 0: false} {
		s := heavy.SetUp()
		s.StitchLength = l
		_, ok = heavy.On(s)
		assert.Equal(t, want, ok, l)
	}
}

// Changes along an order lie between one less than the set-ups and one less
// than the rows; sorted, they are the least.
func TestCountSetUps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sizes := rapid.SliceOfN(rapid.SampledFrom(thread.Sizes()[:5]), 0, 12).Draw(t, "sizes")
		order := func() (out []thread.SetUp) {
			for _, s := range sizes {
				out = append(out, thread.SetUp{Thread: thread.Thread{Fibre: thread.Nylon, Size: s}})
			}
			return out
		}
		n := thread.CountSetUps(order())
		assert.GreaterOrEqual(t, n.Changes, n.Least)
		assert.LessOrEqual(t, n.Changes, max(len(sizes)-1, 0))
		assert.Equal(t, n.Changes >= 3, n.SecondMachine())
		slices.Sort(sizes)
		sorted := thread.CountSetUps(order())
		assert.Equal(t, sorted.Least, sorted.Changes)
		assert.Equal(t, n.Least, sorted.Least)
		assert.Equal(t, n.SetUps, sorted.SetUps)
	})
}

func TestNextSize(t *testing.T) {
	assert.Equal(t, thread.Size138, thread.Size92.Next())
	assert.Equal(t, thread.Size554, thread.Size554.Next())
	assert.Zero(t, thread.Size(0).Next())
	assert.Zero(t, thread.Size(12).Next())
}
