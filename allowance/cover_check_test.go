package allowance_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// two gives two panels sewn together along 20 in, all else stapled.
func two() allowance.Cover {
	var b builder
	b.panel("a", 20, 10)
	b.panel("b", 20, 10)
	b.plain("a.right", "b.left")
	for _, e := range []string{"a.top", "a.left", "a.bottom", "b.top", "b.right", "b.bottom"} {
		b.fasten(allowance.StapledFlat, e)
	}
	return b.c
}

func TestCoverFaults(t *testing.T) {
	for name, r := range map[string]struct {
		change func(c *allowance.Cover)
		paths  []string
		words  string
	}{
		"an edge used twice": {func(c *allowance.Cover) { c.Fastenings[0].Side = sides("a.left")[0] },
			[]string{"fastenings[1].side", "panels[0].edges.top"}, "by the fastening of a.left"},
		"parts that overlap": {func(c *allowance.Cover) {
			c.Fastenings[0].Side = sides("a.top to 12 in")[0]
			c.Fastenings = append(c.Fastenings, allowance.Fastening{Side: sides("a.top from 10 in")[0]})
		}, []string{"fastenings[6].side"}, "not used already"},
		"an edge not used": {func(c *allowance.Cover) { c.Fastenings = c.Fastenings[1:] }, []string{"panels[0].edges.top"}, "a seam or a fastening"},
		"a part not used":  {func(c *allowance.Cover) { c.Fastenings[0].Side = sides("a.top from 2 in")[0] }, []string{"panels[0].edges.top"}, "a.top (1)"},
		"a line not used": {func(c *allowance.Cover) {
			c.Panels[0].Lines = []allowance.InnerLine{{Name: "middle", From: corner(10, 0), To: corner(10, 10)}}
		}, []string{"panels[0].lines[0]"}, "a.middle"},
		"its own finish and a seam": {func(c *allowance.Cover) {
			c.Panels[0].Edges = map[string]allowance.Edge{"right": {Finish: allowance.SingleHem}}
		}, []string{"panels[0].edges.right"}, "the seam of a.right with"},
		"a finish all round and relations": {func(c *allowance.Cover) {
			c.Panels[0].AllEdges = allowance.Edge{Finish: allowance.PullOver}
		}, []string{"panels[0].all_edges"}, "every edge"},
		"no such panel": {func(c *allowance.Cover) { c.Seams[0].Sides[1][0].Panel = "c" },
			[]string{"seams[0].sides[1]", "panels[1].edges.left"}, "unknown"},
		"no such edge": {func(c *allowance.Cover) { c.Seams[0].Sides[1][0].Edge = "edge" },
			[]string{"seams[0].sides[1]", "panels[1].edges.left"}, "bottom, right, top, left"},
		"no such hand": {func(c *allowance.Cover) { c.Seams[0].Sides[1][0].Panel = "b left" },
			[]string{"seams[0].sides[1]", "panels[1].edges.left"}, "unknown"},
		"a part out of range": {func(c *allowance.Cover) { c.Fastenings[0].Side = sides("a.top from 2 in to 21 in")[0] },
			[]string{"fastenings[0].side", "panels[0].edges.top"}, "20 in"},
		"not consecutive": {func(c *allowance.Cover) {
			c.Fastenings[0].Side = sides("a.left + a.top")[0]
			c.Fastenings = append(c.Fastenings[:1], c.Fastenings[2:]...)
		}, []string{"fastenings[0].side"}, "anticlockwise"},
		"will not sew": {func(c *allowance.Cover) { c.Panels[1].Outline = sure(shape.Rectangle(20*unit.Inch, 11*unit.Inch)) },
			[]string{"seams[0].sides[1]"}, "11 in to 10 in, 1 in or 10 % of ease: will not sew”: out of range; want at most 10 9/16 in, or at least 10 7/16 in on the other side, or gathers"},
		"leather takes less": {func(c *allowance.Cover) {
			c.Panels[1].Goods = "leather"
			c.Panels[1].Outline = sure(shape.Rectangle(20*unit.Inch, tapeInches(10.25)))
		}, []string{"seams[0].sides[1]"}, "will not sew"},
		"face to back":      {func(c *allowance.Cover) { c.Seams[0].Sides[1][0].Reversed = true }, []string{"seams[0].sides[1]"}, "faces that meet"},
		"no cord":           {func(c *allowance.Cover) { c.Seams[0].Kind, c.Seams[0].Welt = allowance.WeltedJoin, "cloth" }, []string{"seams[0].cord"}, "diameter"},
		"no welt":           {func(c *allowance.Cover) { c.Seams[0].Kind, c.Seams[0].Cord = allowance.WeltedJoin, unit.Inch/4 }, []string{"seams[0].welt"}, "cover the cord"},
		"cord without welt": {func(c *allowance.Cover) { c.Seams[0].Cord = unit.Inch / 4 }, []string{"seams[0].cord"}, "none, or a welt"},
		"a row that misses": {func(c *allowance.Cover) { c.Seams[0].Kind, c.Seams[0].Row = allowance.TopStitchedJoin, 3*unit.Inch/8+1 },
			[]string{"seams[0].row"}, "at most 3/8 in"},
		"one half of a zip": {func(c *allowance.Cover) {
			c.Seams[0].Kind, c.Seams[0].Tape, c.Seams[0].Sides = allowance.ZipJoin, "zip", c.Seams[0].Sides[:1]
			c.Fastenings = append(c.Fastenings, allowance.Fastening{Side: sides("b.left")[0]})
		}, []string{"seams[0].tape"}, "two seams"},
		"one side": {func(c *allowance.Cover) {
			c.Seams[0].Sides = c.Seams[0].Sides[:1]
			c.Fastenings = append(c.Fastenings, allowance.Fastening{Side: sides("b.left")[0]})
		}, []string{"seams[0].sides"}, "2 to 6"},
		"a peak": {func(c *allowance.Cover) {
			// b leans: its two sides stand at 80 degrees on the foot
			c.Panels[1].Outline = sure(sure(shape.Polygon(corner(0, 0), corner(20, 0), corner(20, 9.8481), corner(-1.7365, 9.8481))).Renamed("bottom", "right", "top", "left"))
			c.Panels = append(c.Panels, allowance.CoverPanel{Panel: allowance.Panel{Name: "c", Outline: sure(shape.Rectangle(40*unit.Inch, 5*unit.Inch))}, Goods: "cloth"})
			c.Seams = append(c.Seams, allowance.Seam{Sides: sides("a.bottom + b.bottom", "c.top")})
			c.Fastenings = []allowance.Fastening{{Side: sides("a.top")[0]}, {Side: sides("a.left")[0]}, {Side: sides("b.right")[0]}, {Side: sides("b.top")[0]},
				{Side: sides("c.left + c.bottom + c.right")[0]}}
		}, []string{"seams[1].sides[0]"}, "190 deg together"},
		"an opening of gathers": {func(c *allowance.Cover) {
			c.Seams[0].Kind, c.Seams[0].Fullness, c.Seams[0].Opening = allowance.GatheredJoin, 2, 4*unit.Inch
		}, []string{"seams[0].opening"}, "that the machine closes"},
		"an opening of three": {func(c *allowance.Cover) {
			c.Seams[0].Opening = 4 * unit.Inch
			c.Panels = append(c.Panels, allowance.CoverPanel{Panel: allowance.Panel{Name: "c", Outline: sure(shape.Rectangle(20*unit.Inch, 10*unit.Inch))}, Goods: "cloth"})
			c.Seams[0].Sides = append(c.Seams[0].Sides, sides("c.left")[0])
			c.Fastenings = append(c.Fastenings, allowance.Fastening{Side: sides("c.top")[0]}, allowance.Fastening{Side: sides("c.right")[0]}, allowance.Fastening{Side: sides("c.bottom")[0]})
		}, []string{"seams[0].opening"}, "that the machine closes"},
		"a lap of a welt": {func(c *allowance.Cover) {
			c.Seams[0].Kind, c.Seams[0].Cord, c.Seams[0].Welt, c.Seams[0].Lap = allowance.WeltedJoin, unit.Inch/8, "cloth", unit.Inch
		}, []string{"seams[0].lap"}, "a plain seam of two sides"},
		"a panel within a part": {func(c *allowance.Cover) {
			c.Panels[1].Name = "b.top"
			c.Seams[0].Sides[1][0].Panel = "b"
		}, []string{"seams[0].sides[1]"}, "a panel of it: b.top"},
		"a closed body": {func(c *allowance.Cover) {
			c.Fastenings = nil
			c.Seams = []allowance.Seam{{Sides: sides("a.bottom + a.right + a.top + a.left", "b.left + b.bottom + b.right + b.top")}}
		}, []string{"seams[0].finish"}, "an opening"},
		"hidden by nothing": {func(c *allowance.Cover) { c.Fastenings[2].HiddenBy = []string{"c"} }, []string{"fastenings[2].hidden_by[0]"}, "the name of a panel, its hand"},
		"hidden by itself":  {func(c *allowance.Cover) { c.Fastenings[2].HiddenBy = []string{"a"} }, []string{"fastenings[2].hidden_by"}, "another panel"},
		"hidden in a circle": {func(c *allowance.Cover) {
			c.Fastenings[2].HiddenBy, c.Fastenings[3].HiddenBy = []string{"b"}, []string{"a"}
		}, []string{"fastenings[0]"}, "one after the other"},
		"no rail":           {func(c *allowance.Cover) { c.Fastenings[0].Kind = allowance.TurnedBelow }, []string{"fastenings[0].rail"}, "thickness"},
		"unknown goods":     {func(c *allowance.Cover) { c.Panels[0].Goods = "gold" }, []string{"panels[0].goods"}, "known"},
		"two names alike":   {func(c *allowance.Cover) { c.Panels[1].Name = "a" }, []string{"panels[1].name", "seams[0].sides[1]"}, "no other panel"},
		"a meet of nothing": {func(c *allowance.Cover) { c.Meets = []allowance.Meet{{}} }, []string{"meets[0].sides"}, "2 to 2"},
		"a trim of nothing": {func(c *allowance.Cover) { c.Trims = []allowance.Trim{{Kind: allowance.Nails}} }, []string{"trims[0].length"}, "above zero"},
		"gathers that miss": {func(c *allowance.Cover) {
			c.Seams[0].Kind, c.Seams[0].Fullness = allowance.GatheredJoin, 2
			c.Panels[1].Outline = sure(shape.Rectangle(20*unit.Inch, 19*unit.Inch))
		}, []string{"seams[0].sides[1]"}, "20 in, a fullness of 200 %"},
		"a felled seam of three": {func(c *allowance.Cover) {
			c.Seams[0].Kind = allowance.FelledJoin
			c.Panels = append(c.Panels, allowance.CoverPanel{Panel: allowance.Panel{Name: "c", Outline: sure(shape.Rectangle(20*unit.Inch, 10*unit.Inch))}, Goods: "cloth"})
			c.Seams[0].Sides = append(c.Seams[0].Sides, sides("c.left")[0])
			c.Fastenings = append(c.Fastenings, allowance.Fastening{Side: sides("c.top + c.left")[0]}, allowance.Fastening{Side: sides("c.right")[0]}, allowance.Fastening{Side: sides("c.bottom")[0]})
		}, []string{"seams[0].finish"}, "the only one of more than two sides"},
		"an open seam of three": {func(c *allowance.Cover) {
			c.Seams[0].Open = "open"
			c.Panels = append(c.Panels, allowance.CoverPanel{Panel: allowance.Panel{Name: "c", Outline: sure(shape.Rectangle(20*unit.Inch, 10*unit.Inch))}, Goods: "cloth"})
			c.Seams[0].Sides = append(c.Seams[0].Sides, sides("c.left")[0])
			c.Fastenings = append(c.Fastenings, allowance.Fastening{Side: sides("c.top")[0]}, allowance.Fastening{Side: sides("c.right")[0]}, allowance.Fastening{Side: sides("c.bottom")[0]})
		}, []string{"seams[0].sides"}, "1 to 2"},
		"two lines of a name": {func(c *allowance.Cover) {
			c.Panels[0].Lines = []allowance.InnerLine{{Name: "middle", From: corner(10, 0), To: corner(10, 10)}, {Name: "middle", From: corner(5, 0), To: corner(5, 10)}}
		}, []string{"panels[0].lines[1].name"}, "no edge or other line has"},
		"a line by the name of an edge": {func(c *allowance.Cover) {
			c.Panels[0].Lines = []allowance.InnerLine{{Name: "right", From: corner(10, 0), To: corner(10, 10)}}
		}, []string{"panels[0].lines[0].name"}, "no edge or other line has"},
		"a line of no length": {func(c *allowance.Cover) {
			c.Panels[0].Lines = []allowance.InnerLine{{Name: "middle", From: corner(10, 5), To: corner(10, 5)}}
		}, []string{"panels[0].lines[0].to"}, "above zero"},
		"copies that differ": {func(c *allowance.Cover) { c.Panels[0].Count, c.Panels[1].Count = 2, 3 }, []string{"seams[0].sides[1]"}, "as many copies"},
	} {
		t.Run(name, func(t *testing.T) {
			c := two()
			require.NoError(t, c.Check(sewnGoods()))
			r.change(&c)
			err := c.Check(sewnGoods())
			require.Error(t, err)
			for i, p := range r.paths {
				got := faultPaths(err)
				require.Greater(t, len(got), i, "%v", err)
				assert.Equal(t, p, got[i], "%v", err)
			}
			assert.Contains(t, err.Error(), r.words)
			pathsResolve(t, err)
		})
	}
}

// Two panels that meet round the corner of a third lie flat with three right
// angles between them, where the corner is within 1/8 in of the seam between them.
func TestNoPeakRoundACorner(t *testing.T) {
	for off, ok := range map[unit.Length]bool{0: true, unit.Inch / 8: true, -unit.Inch / 8: true, unit.Inch/8 + 1: false, -unit.Inch/8 - 1: false} {
		err := roundACorner(off).Check(sewnGoods())
		if ok {
			require.NoError(t, err, off)
			continue
		}
		require.ErrorContains(t, err, "together", off)
	}
}

// roundACorner gives the cover with the corner of the third higher than the seam.
func roundACorner(off unit.Length) allowance.Cover {
	var b builder
	b.outline("middle", sure(shape.Rectangle(10*unit.Inch-off, 10*unit.Inch+off)))
	b.outline("right", sure(sure(shape.Polygon(corner(10, 0), corner(20, 0), corner(20, 20), corner(10, 10))).Renamed("bottom", "right", "mitre", "foot")))
	b.outline("upper", sure(sure(shape.Polygon(corner(10, 10), corner(20, 20), corner(0, 20), corner(0, 10))).Renamed("mitre", "top", "left", "foot")))
	b.plain("right.mitre", "upper.mitre")
	b.plain("middle.right + middle.top", "upper.foot + right.foot")
	for _, side := range []string{"middle.left + middle.bottom", "right.bottom + right.right", "upper.top + upper.left"} {
		b.fasten(allowance.StapledFlat, side)
	}
	return b.c
}

// A bottom plate that is not the mirror image of the top twists the boxing.
func TestPlatesOfOneHand(t *testing.T) {
	c := marine()
	require.NoError(t, c.Check(sewnGoods()))
	c.Panels[1].Outline = c.Panels[0].Outline
	bottom := slices.Clone(c.Seams[4].Sides[0]) // the bottom plate goes round as the top does
	for n := range bottom {
		bottom[n].Panel = "bottom plate"
	}
	c.Seams[5].Sides = []allowance.Side{bottom, c.Seams[5].Sides[1]}
	err := c.Check(sewnGoods())
	require.Error(t, err)
	assert.Contains(t, err.Error(), "seams[5].sides[0]: “bottom plate left.back (2) to bottom plate left.back (1)”: out of range; want corners that stand over those of top plate left.back (2) to top plate left.back (1): of two plates the lower is the mirror image of the upper")
	pathsResolve(t, err)

	// Symmetric plates are of either hand.
	require.NoError(t, boxedCushion().Check(sewnGoods()))
}

// Goods that are not known, or without limits, are told once, not again at every
// seam of theirs.
func TestGoodsAreToldOnce(t *testing.T) {
	c := two()
	c.Panels[1].Goods = "gold"
	paths(t, c, "panels[1].goods")
	goods := sewnGoods()
	goods["gold"] = allowance.SewnGoods{}
	assert.Equal(t, []string{"panels[1].goods"}, faultPaths(c.Check(goods)))
}

// Of a seam that is faulty itself nothing more is told, of what it would join.
func TestFaultySeamJoinsNothing(t *testing.T) {
	c := two()
	c.Panels[1].Outline = sure(shape.Rectangle(20*unit.Inch, 15*unit.Inch)) // will not sew
	c.Seams[0].Kind = 99
	paths(t, c, "seams[0].finish")
	var b builder
	b.panel("a", 20, 10)
	b.plain("a.bottom + a.right + a.top + a.left", "a.top")
	b.c.Seams[0].Sides[1] = nil
	paths(t, b.c, "seams[0].sides[1]")
}

// The halves of a zip are as long as each other, within what sews; where their goods
// are not known only that is told.
func TestHalvesOfAZip(t *testing.T) {
	zip := func(lower float64, goods string) error {
		var b builder
		b.panel("upper", 20, 5)
		b.panel("lower", lower, 5).Goods = goods
		b.sew(allowance.ZipJoin, "upper.bottom").Tape = "zip"
		b.sew(allowance.ZipJoin, "lower.top").Tape = "zip"
		b.fasten(allowance.StapledFlat, "upper.right + upper.top + upper.left")
		b.fasten(allowance.StapledFlat, "lower.left + lower.bottom + lower.right")
		return b.c.Check(sewnGoods())
	}
	require.NoError(t, zip(20, "cloth"))
	err := zip(25, "cloth")
	assert.Equal(t, []string{"seams[1].sides[0]"}, faultPaths(err))
	require.ErrorContains(t, err, "as long as the other half of the zip, 20 in")
	assert.Equal(t, []string{"panels[1].goods"}, faultPaths(zip(20, "gold")))
}

// Divisions within 1/10 mm of an end of the edge leave nothing over.
func TestDivisionsByTheEnds(t *testing.T) {
	const least = unit.Millimetre / 10
	for _, r := range []struct {
		from, to unit.Length // how far from the ends
		rest     []string
	}{
		{0, 0, nil}, {least - 1, 0, nil}, {0, least - 1, nil}, {least, 0, nil}, {0, least, nil},
		{least + 1, 0, []string{"a.top (1)"}}, {0, least + 1, []string{"a.top (2)"}}, {least + 1, least + 1, []string{"a.top (1)", "a.top (3)"}},
	} {
		c := two()
		c.Fastenings[0].Side[0].From, c.Fastenings[0].Side[0].To = r.from, 20*unit.Inch-r.to
		err := c.Check(sewnGoods())
		if r.rest == nil {
			require.NoError(t, err, r)
			continue
		}
		require.Len(t, faultPaths(err), len(r.rest), r)
		for _, name := range r.rest {
			require.ErrorContains(t, err, name, r)
		}
	}
}

// A part of an edge is 1 mm long or more.
func TestShortestPart(t *testing.T) {
	for long, ok := range map[unit.Length]bool{unit.Millimetre: true, unit.Millimetre - 1: false, -unit.Inch: false} {
		c := two()
		c.Fastenings[0].Side[0].From, c.Fastenings[0].Side[0].To = 5*unit.Inch, 5*unit.Inch+long
		c.Panels[0].Edges = map[string]allowance.Edge{"top": {Finish: allowance.Raw}}
		err := c.Check(sewnGoods())
		if ok {
			assert.NotContains(t, err.Error(), "1 mm long", long)
			continue
		}
		require.ErrorContains(t, err, "fastenings[0].side: “a.top from 5 in to ", long)
		require.ErrorContains(t, err, "a part at least 1 mm long", long)
	}
}

// An edge whose fastening is faulty is not sewn: what hangs on it is no closed body.
func TestFaultyFasteningClosesNothing(t *testing.T) {
	var b builder
	b.panel("a", 20, 10)
	b.panel("b", 20, 10)
	b.plain("a.bottom + a.right + a.top", "b.top + b.left + b.bottom")
	b.fasten(allowance.TurnedBelow, "a.left").Rail = 0
	b.fasten(allowance.TurnedBelow, "b.right").Rail = 0
	paths(t, b.c, "fastenings[0].rail", "fastenings[1].rail")
}

// Seams of which each ends inside the run of the next cannot be sewn one after the
// other: four panels laid round a fifth as the arms of a mill.
func TestSeamsInACircle(t *testing.T) {
	var b builder
	b.panel("middle", 10, 10)
	for _, name := range []string{"a", "b", "c", "d"} {
		b.panel(name, 20, 10)
	}
	b.plain("middle.bottom + b.left", "a.top")
	b.plain("middle.right + c.left", "b.top")
	b.plain("middle.top + d.left", "c.top")
	b.plain("middle.left + a.left", "d.top")
	for _, name := range []string{"a", "b", "c", "d"} {
		b.fasten(allowance.StapledFlat, name+".bottom")
		b.fasten(allowance.StapledFlat, name+".right")
	}
	err := b.c.Check(sewnGoods())
	assert.Equal(t, []string{"seams[0]"}, faultPaths(err))
	assert.ErrorContains(t, err, "seams[0], seams[1], seams[2], seams[3]")
	assert.ErrorContains(t, err, "4 seams that can be sewn one after the other")
}

// Lengths that differ by no more than the tolerance sew flat, whatever the goods
// take: of 36 in that is 1/16 + 1/16 in.
func TestToleranceOfLengths(t *testing.T) {
	for over, verdict := range map[unit.Length]allowance.Verdict{unit.Inch / 8: allowance.SewsFlat, unit.Inch/8 + 1: allowance.EaseIn} {
		c := two()
		c.Panels[0].Outline = sure(shape.Rectangle(20*unit.Inch, 36*unit.Inch))
		c.Panels[1].Outline = sure(shape.Rectangle(20*unit.Inch, 36*unit.Inch+over))
		w, err := c.Work(map[string]allowance.SewnGoods{"cloth": {Ease: allowance.EaseLimits{Ease: 0.1, Gather: 0.2}}})
		require.NoError(t, err)
		assert.Equal(t, verdict, w.Seams[0].Match.Verdict, over)
	}
	for _, l := range []unit.Length{0, -unit.Inch} {
		_, err := allowance.SeamTolerance(l)
		require.ErrorContains(t, err, "shorter")
	}
}

// A cover has up to 4000 seams and fastenings between single pieces: 999 panels with
// four edges and one with as many, and no more.
func TestMostRelations(t *testing.T) {
	for _, more := range []string{"", "last.top from 5 in"} {
		var b builder
		b.panel("leaf", 10, 10).Count = 999
		b.panel("last", 10, 10)
		for _, p := range []string{"leaf", "last"} {
			for _, e := range []string{"bottom", "right", "left", "top to 5 in"} {
				b.fasten(allowance.StapledFlat, p+"."+e, "nobody") // a fault that spares the order of fitting, which takes long
			}
		}
		var want []string
		for i := range 8 {
			want = append(want, fmt.Sprintf("fastenings[%d].hidden_by[0]", i))
		}
		if more != "" {
			b.fasten(allowance.StapledFlat, more)
			want = append(want, "fastenings[8]")
		}
		paths(t, b.raw(), want...)
	}
}

// All faults are told at once.
func TestEveryFaultAtOnce(t *testing.T) {
	c := two()
	c.Seams[0].Kind = allowance.WeltedJoin
	c.Fastenings[2].Kind = allowance.TurnedBelow
	c.Fastenings = c.Fastenings[1:]
	paths(t, c, "seams[0].cord", "fastenings[1].rail", "panels[0].edges.top")
}

// Hands, numbers and copies stand for what they say.
func TestHandsAndNumbers(t *testing.T) {
	var b builder
	b.pair("arm", 20, 10)
	b.panel("leaf", 10, 10).Count = 2
	c := allowance.Cover{Panels: b.c.Panels}
	c.Panels[0].AllEdges = allowance.Edge{Finish: allowance.SingleHem}
	c.Panels[1].AllEdges = allowance.Edge{Finish: allowance.SingleHem}
	c.Panels[0].Count = 2
	c.Fastenings = []allowance.Fastening{
		{Side: sides("arm.top")[0]}, {Side: sides("arm left.right")[0]}, {Side: sides("arm right 2.right")[0]}, {Side: sides("leaf 2.top")[0]},
	}
	w := worked(t, c)
	var names, held []string
	for _, p := range w.Pieces {
		names = append(names, p.Name)
	}
	for _, f := range w.Fastenings {
		held = append(held, f.Side...)
	}
	assert.Equal(t, []string{"arm left 1", "arm left 2", "arm right 1", "arm right 2", "leaf 1", "leaf 2"}, names)
	assert.Equal(t, []string{"arm left 1.top", "arm left 2.top", "arm right 1.top", "arm right 2.top", "arm left 1.right", "arm left 2.right", "arm right 2.right", "leaf 2.top"}, held)
}

// A panel that hides an edge is that of the same hand, unless one is named; of a pair
// without neighbours of its own hand both hide it.
func TestHiddenByTheSameHand(t *testing.T) {
	var b builder
	b.pair("inside", 20, 10)
	b.pair("outside", 20, 10)
	b.panel("back", 20, 10)
	b.fasten(allowance.StapledFlat, "inside.top", "outside")
	b.fasten(allowance.StapledFlat, "inside left.right", "outside")
	b.fasten(allowance.StapledFlat, "inside right.right", "outside")
	b.fasten(allowance.StapledFlat, "inside.bottom", "outside left")
	b.fasten(allowance.StapledFlat, "inside.left", "back")
	b.fasten(allowance.StapledFlat, "back.top", "outside")
	b.fasten(allowance.StapledFlat, "back.bottom", "outside right")
	var got []string
	for i := range b.c.Panels {
		b.c.Panels[i].AllEdges = allowance.Edge{Finish: allowance.Raw}
	}
	b.c.Panels[0].AllEdges = allowance.Edge{}
	for _, f := range worked(t, b.c).Fastenings {
		got = append(got, f.Side[0]+": "+strings.Join(f.HiddenBy, ", "))
	}
	assert.Equal(t, []string{
		"inside left.top: outside left", "inside right.top: outside right", "inside left.right: outside left", "inside right.right: outside right",
		"inside left.bottom: outside left", "inside right.bottom: outside left", "inside left.left: back", "inside right.left: back",
		"back.top: outside left, outside right", "back.bottom: outside right",
	}, got)
}

func TestEdgePartText(t *testing.T) {
	for text, want := range map[string]allowance.EdgePart{
		"deck.front":                             {Panel: "deck", Edge: "front"},
		"seat cushion 2.top plate.back reversed": {Panel: "seat cushion 2.top plate", Edge: "back", Reversed: true},
		"inside arm left.top from 2 in to 14 in": {Panel: "inside arm left", Edge: "top", From: 2 * unit.Inch, To: 14 * unit.Inch},
		"a.side mirrored from 3 in":              {Panel: "a", Edge: "side mirrored", From: 3 * unit.Inch},
		"a.line from front to back to 5 in":      {Panel: "a", Edge: "line from front to back", To: 5 * unit.Inch},
	} {
		var got allowance.EdgePart
		require.NoError(t, got.UnmarshalText([]byte(text)))
		assert.Equal(t, want, got)
		assert.Equal(t, text, got.String())
	}
	side := sides("a.b")[0]
	require.NoError(t, side.UnmarshalText(nil), "a side of no parts is empty text")
	assert.Empty(t, side)
	for _, text := range []string{"deck", ".front", "deck.", " deck.front", "a.b from -2 in "} {
		var got allowance.EdgePart
		err := got.UnmarshalText([]byte(text))
		var in *unit.InputError
		assert.ErrorAs(t, err, &in, text)
	}
}

// What would read back as something else, or not at all, is not written.
func TestEdgePartsThatAreNoText(t *testing.T) {
	for name, p := range map[string]allowance.EdgePart{
		"no edge": {Panel: "deck"}, "no panel": {Edge: "front"}, "a dot in the edge": {Panel: "deck", Edge: "front.left"},
		"a word in the edge": {Panel: "deck", Edge: "front reversed"}, "before the start": {Panel: "deck", Edge: "front", From: -unit.Inch},
	} {
		text, err := p.MarshalText()
		assert.Empty(t, text, name)
		var in *unit.InputError
		require.ErrorAs(t, err, &in, name)
		assert.Equal(t, unit.Path("edge"), in.Field, name)
		_, err = allowance.Side{{Panel: "a", Edge: "b"}, p}.MarshalText()
		require.ErrorAs(t, err, &in, name)
	}
	text, err := allowance.EdgePart{}.MarshalText()
	require.NoError(t, err)
	assert.Empty(t, text)
	_, err = allowance.Side{{Panel: "a", Edge: "b + c.d"}}.MarshalText()
	require.Error(t, err, "it would read back as two parts")
}

// pathsResolve holds every fault to a path that leads to a field of a cover.
func pathsResolve(t require.TestingT, err error) {
	many, ok := err.(interface{ Unwrap() []error })
	require.True(t, ok)
	for _, e := range many.Unwrap() {
		var in *unit.InputError
		require.True(t, errors.As(e, &in), "%v", e)
		require.NotEmpty(t, in.Field, "%v", e)
		at := reflect.TypeFor[allowance.Cover]()
		for rest := in.Field; rest != ""; {
			name, _, indexed, after := rest.Head()
			rest = after
			if name != "" {
				if at.Kind() == reflect.Map { // the rest is a key: it may hold dots
					at, rest = at.Elem(), ""
					continue
				}
				if at == reflect.TypeFor[allowance.Edge]() && slices.Contains([]string{"finish", "allowance", "handling"}, name) {
					continue // parts of its text
				}
				f, ok := field(at, name)
				require.True(t, ok, "%s: %s has no %s", in.Field, at, name)
				at = f
			}
			if indexed {
				require.Equal(t, reflect.Slice, at.Kind(), "%s: %s is no list", in.Field, at)
				at = at.Elem()
			}
		}
	}
}

// field finds a field by its name in JSON.
func field(t reflect.Type, name string) (reflect.Type, bool) {
	if t.Kind() != reflect.Struct {
		return nil, false
	}
	for i := range t.NumField() {
		f := t.Field(i)
		tag, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if tag == name {
			return f.Type, true
		}
		if f.Anonymous && tag == "" {
			if in, ok := field(f.Type, name); ok {
				return in, true
			}
		}
	}
	return nil, false
}

// FuzzCover makes covers of bytes: panels of a few shapes and relations between
// any of their edges. Nothing panics, every fault has a path, and what has none
// can be cut.
func FuzzCover(f *testing.F) {
	f.Add([]byte{2, 0, 1, 3, 0, 0, 1, 1, 0, 3})
	f.Add([]byte("a cover of any kind, drawn from what a hand might write 0123456789"))
	f.Add([]byte{3, 7, 9, 11, 9, 2, 2, 1, 0, 0, 0, 1, 1, 2, 2, 5, 1, 0, 0, 1, 3, 4, 0, 2, 1, 1, 2, 3, 0, 1, 0, 0, 0, 2, 3, 1})
	f.Fuzz(func(t *testing.T, data []byte) {
		c := coverOf(data)
		w, err := c.Work(sewnGoods())
		if err != nil {
			pathsResolve(t, err)
			return
		}
		for _, p := range w.Pieces {
			if _, err := p.Panel.Cut(); err != nil && !errors.As(err, new(*unit.InputError)) {
				t.Fatal(err)
			}
		}
		if _, err := json.Marshal(w); err != nil {
			t.Fatal(err)
		}
	})
}

// coverOf reads a cover from bytes.
func coverOf(data []byte) allowance.Cover {
	next := func(n int) int {
		if len(data) == 0 {
			return 0
		}
		b := data[0]
		data = data[1:]
		return int(b) % n
	}
	if next(2) == 0 {
		return spoilt(anatomies[next(len(anatomies))].cover(), next)
	}
	var b builder
	n := next(5)
	for i := range n + 1 {
		w, h := float64(4+next(4)*4), float64(4+next(3)*4)
		var p *allowance.CoverPanel
		switch name := "p" + strconv.Itoa(i); next(4) {
		case 0:
			p = b.outline(name, sure(sure(shape.Crowned(tapeInches(w), tapeInches(h), unit.Inch)).Renamed("bottom", "right", "top", "left")))
		default:
			p = b.panel(name, w, h)
		}
		p.Pair, p.Count = next(3) == 0, next(3)
		p.Goods = []string{"cloth", "leather", "lining", "gold"}[next(4)]
		if next(3) == 0 {
			p.AllEdges = allowance.Edge{Finish: allowance.Finish(next(12))}
		}
		if next(4) == 0 {
			p.Lines = []allowance.InnerLine{{Name: "line", From: corner(1, 1), To: corner(float64(next(4)), 3)}}
		}
	}
	part := func() allowance.EdgePart {
		p := allowance.EdgePart{Panel: "p" + strconv.Itoa(next(n+2)), Edge: []string{"bottom", "right", "top", "left", "line"}[next(5)]}
		p.Panel += []string{"", "", " left", " right", " 1", " 2"}[next(6)]
		if next(4) == 0 {
			p.From, p.To = tapeInches(float64(next(6))), tapeInches(float64(next(12)))
		}
		p.Reversed = next(8) == 0
		return p
	}
	side := func() allowance.Side {
		s := allowance.Side{part()}
		for next(3) == 0 && len(s) < 5 {
			s = append(s, part())
		}
		return s
	}
	for len(data) > 0 && len(b.c.Seams)+len(b.c.Fastenings) < 200 {
		switch next(5) {
		case 0, 1:
			s := allowance.Seam{Kind: allowance.SeamKind(next(9))}
			for range next(4) {
				s.Sides = append(s.Sides, side())
			}
			if next(2) == 0 {
				s.Cord, s.Welt = unit.Inch/4, "cloth"
			}
			s.Row, s.Fullness = tapeInches(float64(next(4))/8), unit.Ratio(next(3))
			if next(4) == 0 {
				s.Tape = "zip"
			}
			b.c.Seams = append(b.c.Seams, s)
		case 2, 3:
			b.c.Fastenings = append(b.c.Fastenings, allowance.Fastening{Side: side(), Kind: allowance.FasteningKind(next(10)), Rail: unit.Inch, HiddenBy: []string{"p" + strconv.Itoa(next(n+1))}})
		default:
			b.c.Meets = append(b.c.Meets, allowance.Meet{Sides: []allowance.MeetSide{{Side: side()}, {Side: side(), In: tapeInches(float64(next(3)))}}})
			b.trim("t", float64(next(5)), "p"+strconv.Itoa(next(n+1)))
		}
	}
	return b.c
}

// spoilt changes a few things of a cover that works.
func spoilt(c allowance.Cover, next func(int) int) allowance.Cover {
	for range next(4) {
		i := next(200)
		switch next(7) {
		case 0:
			if len(c.Seams) > 0 {
				c.Seams = slices.Delete(c.Seams, i%len(c.Seams), i%len(c.Seams)+1)
			}
		case 1:
			if len(c.Seams) > 0 {
				c.Seams[i%len(c.Seams)].Kind = allowance.SeamKind(next(9))
			}
		case 2:
			if len(c.Seams) > 1 {
				k := next(len(c.Seams))
				a, b := &c.Seams[i%len(c.Seams)], &c.Seams[k]
				a.Sides[0], b.Sides[0] = b.Sides[0], a.Sides[0]
			}
		case 3:
			if len(c.Fastenings) > 0 {
				f := &c.Fastenings[i%len(c.Fastenings)]
				f.Kind, f.HiddenBy = allowance.FasteningKind(next(10)), []string{c.Panels[next(len(c.Panels))].Name}
			}
		case 4:
			p := &c.Panels[i%len(c.Panels)]
			p.Pair, p.Count = next(2) == 0, next(3)
		case 5:
			p := &c.Panels[i%len(c.Panels)]
			w, h := p.Outline.Size()
			if o, err := p.Outline.Scaled(w+unit.Length(next(8))*unit.Inch/4, h); err == nil {
				p.Outline = o
			}
		default:
			if len(c.Seams) > 0 {
				s := &c.Seams[i%len(c.Seams)]
				k := next(len(s.Sides))
				slices.Reverse(s.Sides[k])
				s.Sides[k][0].From = tapeInches(float64(next(5)))
			}
		}
	}
	return c
}

// What an edge part is read from, it is written as again.
func FuzzEdgePart(f *testing.F) {
	f.Add("seat cushion 2.top plate.back from 3 in to 19 in reversed")
	f.Add("a.b to 4 mm")
	f.Add("a.b from from 2 in to to 3 in")
	f.Fuzz(func(t *testing.T, text string) {
		var p, back allowance.EdgePart
		if err := p.UnmarshalText([]byte(text)); err != nil {
			if !errors.As(err, new(*unit.InputError)) {
				t.Fatal(err)
			}
			return
		}
		written, err := p.MarshalText()
		if err != nil {
			return // a name that reads as something else
		}
		if err := back.UnmarshalText(written); err != nil || back != p {
			t.Fatalf("%q is %+v, written as %q, read as %+v, %v", text, p, written, back, err)
		}
	})
}

// What is asked of the pattern at a seam or a meet is checked.
func TestCrossings(t *testing.T) {
	for field, x := range map[string]allowance.Crossing{
		"":                       {Way: allowance.BothWays, Point: allowance.EndPoint, Gap: unit.Inch, Hidden: true},
		"meets[0].pattern.gap":   {Way: allowance.AlongOnly, Gap: -1 * unit.Inch},
		"meets[0].pattern.way":   {Hidden: true},
		"meets[0].pattern.point": {Way: allowance.AlongOnly, Point: allowance.EndPoint + 1},
	} {
		c := dropIn()
		c.Meets = []allowance.Meet{{Sides: []allowance.MeetSide{{Side: sides("seat.top")[0]}, {Side: sides("seat.bottom")[0]}}}}
		c.Meets[0].Pattern = x
		if err := c.Check(sewnGoods()); field == "" {
			assert.NoError(t, err)
		} else {
			assert.Equal(t, []string{field}, faultPaths(err), field)
		}
	}
}

// An inner line is sewn to as a whole: neither of its ends can be left out.
func TestPartOfAnInnerLine(t *testing.T) {
	for _, part := range []string{" from 2 in", " to 8 in", " from 2 in to 8 in"} {
		var b builder
		b.panel("seat", 20, 20).Lines = []allowance.InnerLine{{Name: "middle", From: corner(0, 10), To: corner(20, 10)}}
		b.panel("flap", 20, 5)
		b.plain("seat.middle"+part, "flap.top")
		assert.ErrorContains(t, b.c.Check(sewnGoods()), "the whole of an inner line", part)
	}
}
