package allowance_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// across carries the pattern over a meet of lines inside two edges.
func (b *builder) across(way allowance.PatternWay, first string, in float64, second string, inTo float64) *allowance.Crossing {
	m := allowance.Meet{Sides: []allowance.MeetSide{{Side: sides(first)[0], In: tapeInches(in)}, {Side: sides(second)[0], In: tapeInches(inTo)}}}
	m.Pattern.Way = way
	b.c.Meets = append(b.c.Meets, m)
	return &b.c.Meets[len(b.c.Meets)-1].Pattern
}

// raw leaves every edge without a relation as it is cut.
func (b *builder) raw() allowance.Cover {
	for i := range b.c.Panels {
		b.c.Panels[i].AllEdges = allowance.Edge{Finish: allowance.Raw}
	}
	return b.c
}

func on(x, y float64) shape.Point { return shape.Point{X: tapeInches(x), Y: tapeInches(y)} }

func motif(panel string, x, y float64) allowance.MotifWish {
	return allowance.MotifWish{Panel: panel, At: on(x, y), Way: allowance.BothWays}
}

// frontOfChair is the chain of a chair: inside back, cushion top, boxing front,
// border and skirt, finished sizes, 1/2 in of seam all round. The surface of the
// cushion meets the back 9 1/2 in above its seam line, 1/2 in inside its back edge;
// the boxing meets the border 1/2 in below its top.
func frontOfChair() *builder {
	var b builder
	b.panel("back", 25, 31)
	b.panel("cushion", 24, 24)
	b.panel("boxing", 24, 4)
	b.panel("border", 26, 8)
	b.panel("skirt", 26, 8)
	b.plain("cushion.bottom", "boxing.top")
	b.c.Seams[0].Pattern.Way = allowance.BothWays
	b.plain("border.bottom", "skirt.top")
	b.c.Seams[1].Pattern.Way = allowance.BothWays
	b.across(allowance.BothWays, "back.bottom", 9.5, "cushion.top", 0.5)
	b.across(allowance.BothWays, "boxing.bottom", 0, "border.top", 0.5)
	return &b
}

// Down the front of a chair, with a motif 13 x 21 in from the cut corner of the
// back, it lies at 35, 39, 46 1/2 and 54 1/2 in from the cut bottom of what follows:
// derived, the sum of the shifts down the chain. From the seam corner 1/2 in less.
func TestFlowDownAChair(t *testing.T) {
	c := frontOfChair().raw()
	for _, wish := range []allowance.MotifWish{motif("back", 12.5, 20.5), motif("cushion", 12, 34.5), motif("skirt", 13, 54)} {
		f, err := c.Flow(sewnGoods(), []allowance.MotifWish{wish})
		require.NoError(t, err)
		assert.Empty(t, f.Unmet)
		for i, want := range []shape.Point{on(12.5, 20.5), on(12, 34.5), on(12, 38.5), on(13, 46), on(13, 54)} {
			assert.Equal(t, want, f.Pieces[i].Motif, f.Pieces[i])
			assert.Equal(t, allowance.FlowGroup{Number: 1, Placed: true}, f.Pieces[i].Across)
			assert.Equal(t, allowance.FlowGroup{Number: 2, Placed: true}, f.Pieces[i].Along)
		}
		for _, x := range f.Crossings {
			assert.Zero(t, x.Off)
			assert.False(t, x.Turned)
		}
	}
}

// A wish for one direction has the motif where it was asked for in the other too,
// where nothing else says where it lies.
func TestFlowOfAWishOneWay(t *testing.T) {
	c := frontOfChair().raw()
	for _, way := range []allowance.PatternWay{allowance.AcrossOnly, allowance.AlongOnly} {
		wish := motif("boxing", 12, 38.5)
		wish.Way = way
		f, err := c.Flow(sewnGoods(), []allowance.MotifWish{wish})
		require.NoError(t, err)
		for i, want := range []shape.Point{on(12.5, 20.5), on(12, 34.5), on(12, 38.5), on(13, 46), on(13, 54)} {
			assert.Equal(t, want, f.Pieces[i].Motif, "%s %v", way, f.Pieces[i])
		}
	}
}

// Of a cover with faults the pattern is not looked at: its faults are told, no others.
func TestFlowOfAFaultyCover(t *testing.T) {
	b := frontOfChair()
	b.c.Panels[1].Goods = "lining" // whose pattern cannot run on
	b.c.Panels[4].Goods = "gold"
	c := b.raw()
	f, err := c.Flow(sewnGoods(), []allowance.MotifWish{motif("bcak", 1, 1)})
	require.Error(t, err)
	assert.Equal(t, c.Check(sewnGoods()).Error(), err.Error())
	assert.Zero(t, f)
}

// What the eye loses in a welt of 1/4 in comes off what follows; a panel that is cut
// 10 % short shows a motif at nine tenths of the height.
func TestFlowGapAndStretch(t *testing.T) {
	b := frontOfChair()
	b.c.Seams[0].Pattern.Gap = unit.Inch / 4
	b.c.Panels[4].Along = allowance.Stretch{TakeOut: 0.1}
	f, err := b.raw().Flow(sewnGoods(), []allowance.MotifWish{motif("back", 12.5, 20.5)})
	require.NoError(t, err)
	assert.Equal(t, on(12, 38.75), f.Pieces[2].Motif, "the boxing starts further on")
	// The top of the skirt is 7.2 in up its seam line, no longer 8.
	assert.Equal(t, on(13, 54.25-0.8), f.Pieces[4].Motif)
}

// Stripes bind across alone, levels along alone; a stripe wished on one panel of a
// chain that runs both ways places the rest too.
func TestFlowOneWay(t *testing.T) {
	var b builder
	b.panel("back", 20, 20)
	b.panel("seat", 20, 20)
	b.panel("side", 20, 20)
	b.panel("apart", 20, 20)
	b.across(allowance.AcrossOnly, "back.bottom", 0, "seat.top", 0)
	b.across(allowance.AlongOnly, "back.right", 0, "side.left", 0)
	stripe := motif("back", 10, 3)
	stripe.Way = allowance.AcrossOnly
	f, err := b.raw().Flow(sewnGoods(), []allowance.MotifWish{stripe})
	require.NoError(t, err)
	back, seat, side, apart := f.Pieces[0], f.Pieces[1], f.Pieces[2], f.Pieces[3]
	assert.True(t, back.Across.Placed && seat.Across.Placed, "the stripe")
	assert.Zero(t, seat.Along)
	assert.Zero(t, side.Across)
	assert.True(t, back.Along.Placed && side.Along.Placed, "the level comes with it")
	assert.Equal(t, on(10, 3).Y, side.Motif.Y)
	assert.Equal(t, allowance.PieceFlow{Name: "apart", Width: 20 * unit.Inch}, apart)

	f, err = b.c.Flow(sewnGoods(), nil)
	require.NoError(t, err)
	assert.Equal(t, allowance.FlowGroup{Number: 1}, f.Pieces[0].Across, "anywhere, but as one")
	assert.Equal(t, f.Pieces[0].Across, f.Pieces[1].Across)
}

// Both hands of a pair: of the right the mirrored points, whether the relation
// names hands or not.
func TestFlowOfPairs(t *testing.T) {
	var b builder
	b.panel("back", 20, 20)
	b.pair("wing", 10, 20, "bottom", "front", "top", "back")
	b.across(allowance.AlongOnly, "wing left.back", 0, "back.right", 0) // the sitter's left is drawn on the right
	b.across(allowance.AlongOnly, "back.left", 0, "wing right.back", 0)
	f, err := b.raw().Flow(sewnGoods(), []allowance.MotifWish{motif("back", 10, 12), {Panel: "wing", At: on(3, 0), Way: allowance.AcrossOnly}})
	require.NoError(t, err)
	assert.Equal(t, on(3, 12), f.Pieces[1].Motif)
	assert.Equal(t, on(7, 12), f.Pieces[2].Motif)
	assert.Equal(t, 2, f.Pieces[1].Wish)

	// From 2 in to 6 in of the front edge of both, the start of each against the other.
	var c builder
	c.pair("arm", 10, 20, "bottom", "front", "top", "back")
	c.pair("post", 4, 20, "bottom", "outer", "top", "inner")
	x := c.across(allowance.BothWays, "arm.front from 2 in to 6 in", 0, "post.inner from 3 in to 7 in", 0)
	x.Point = allowance.StartPoint
	f, err = c.raw().Flow(sewnGoods(), []allowance.MotifWish{motif("arm", 5, 5)})
	require.NoError(t, err)
	// Drawn: 2 in up the right edge of the arm, (10, 2), is on the left edge of the
	// post at 7 in from its start at the top: (0, 13).
	assert.Equal(t, on(-5, 16), f.Pieces[2].Motif, "left")
	assert.Equal(t, on(4+5, 16), f.Pieces[3].Motif, "right")
}

// A ring closes only by chance: four strips 24, 22, 24 and 22 in long round a
// cushion come 92 in further. The join that is not seen gives way; the wish that
// comes too late says by how much.
func TestFlowOfARing(t *testing.T) {
	var b builder
	long := []float64{24, 22, 24, 22}
	for i, l := range long {
		b.panel(fmt.Sprintf("side %c", 'a'+i), l, 4)
	}
	for i := range long {
		x := b.across(allowance.BothWays, fmt.Sprintf("side %c.right", 'a'+i), 0, fmt.Sprintf("side %c.left", 'a'+(i+1)%4), 0)
		x.Hidden = i == 1
	}
	f, err := b.raw().Flow(sewnGoods(), []allowance.MotifWish{motif("side a", 12, 2), motif("side c", 11, 2)})
	require.NoError(t, err)
	for i, x := range f.Crossings {
		assert.Equal(t, i == 1, x.Off != shape.Point{}, "only what is hidden is off")
	}
	// Side b follows from a, c from d, d from a: from b on to c they are off by all
	// the way round.
	assert.Equal(t, on(-12, 2), f.Pieces[1].Motif)
	assert.Equal(t, on(12+22, 2), f.Pieces[3].Motif)
	assert.Equal(t, on(58, 2), f.Pieces[2].Motif)
	assert.Equal(t, on(92, 0), f.Crossings[1].Off)
	assert.Equal(t, []allowance.UnmetWish{{Wish: 1, Piece: 2, Off: on(58-11, 0)}}, f.Unmet)
}

// Wishes that are alike show one part of the pattern, whichever.
func TestFlowAlike(t *testing.T) {
	var b builder
	b.panel("seat", 20, 20).Count = 3
	b.panel("back", 18, 20)
	wishes := []allowance.MotifWish{motif("seat", 10, 10), motif("back", 9, 12)}
	for i := range wishes {
		wishes[i].Alike = "centres"
	}
	f, err := b.raw().Flow(sewnGoods(), wishes)
	require.NoError(t, err)
	for _, p := range f.Pieces {
		assert.Equal(t, allowance.FlowGroup{Number: 1}, p.Across)
		assert.Equal(t, allowance.FlowGroup{Number: 2}, p.Along)
	}
	assert.Equal(t, on(1, -2), shape.Point{X: f.Pieces[0].Motif.X - f.Pieces[3].Motif.X, Y: f.Pieces[0].Motif.Y - f.Pieces[3].Motif.Y})
	wishes = append(wishes, motif("back", 9, 9))
	f, err = b.c.Flow(sewnGoods(), wishes)
	require.NoError(t, err)
	assert.Equal(t, on(10, 7), f.Pieces[1].Motif, "and a motif on one of them places all")
	assert.True(t, f.Pieces[0].Along.Placed)
}

// A mitre agrees at its point alone.
func TestFlowTurned(t *testing.T) {
	var b builder
	b.panel("top", 20, 20)
	b.panel("side", 20, 5)
	b.across(allowance.BothWays, "top.right", 0, "side.top", 0)
	f, err := b.raw().Flow(sewnGoods(), nil)
	require.NoError(t, err)
	assert.True(t, f.Crossings[0].Turned)
	assert.Equal(t, on(20, 10), f.Crossings[0].FromAt)
	assert.Equal(t, on(10, 5), f.Crossings[0].ToAt)
}

func TestFlowFaults(t *testing.T) {
	for name, c := range map[string]struct {
		do    func(*builder)
		wish  allowance.MotifWish
		field string
	}{
		"two goods":     {do: func(b *builder) { b.c.Panels[1].Goods = "lining" }, field: "seams[0].pattern.way"},
		"back up":       {do: func(b *builder) { b.c.Meets[0].Sides[0].Side[0].Reversed = true }, field: "meets[0].sides[0]"},
		"no such panel": {wish: motif("bcak", 1, 1), field: "wishes[0].panel"},
		"no way":        {wish: allowance.MotifWish{Panel: "back"}, field: "wishes[0].way"},
		"two points":    {wish: allowance.MotifWish{Panel: "back", Way: allowance.BothWays, Or: []shape.Point{on(1, 1)}}, field: "wishes[0].or"},
		"far":           {wish: motif("back", 3000, 1), field: "wishes[0].at"},
	} {
		b := frontOfChair()
		if c.do != nil {
			c.do(b)
		}
		var wishes []allowance.MotifWish
		if c.wish.Panel != "" {
			wishes = append(wishes, c.wish)
		}
		_, err := b.raw().Flow(sewnGoods(), wishes)
		require.Error(t, err, name)
		assert.Contains(t, err.Error(), c.field, name)
	}
}

// A choice of points is refused of a panel that the pattern runs into or out of, and
// of no other.
func TestChoiceOfPointsOffTheRun(t *testing.T) {
	var b builder
	for _, name := range []string{"top", "side", "back"} {
		b.panel(name, 20, 20)
	}
	b.across(allowance.BothWays, "top.right", 0, "side.top", 0)
	for panel, ok := range map[string]bool{"top": false, "side": false, "back": true} {
		w := motif(panel, 7, 3)
		w.Or = []shape.Point{on(1, 1)}
		_, err := b.raw().Flow(sewnGoods(), []allowance.MotifWish{w})
		if ok {
			require.NoError(t, err)
			continue
		}
		require.ErrorContains(t, err, "wishes[0].or", panel)
	}
}

// Of any chain of panels, wherever the motif is wished: both sides of every
// crossing show the pattern alike at its point; the wish is met; asking at another
// panel of the chain for what it got changes nothing; and moving the wish moves all
// alike.
func TestFlowLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b builder
		n := rapid.IntRange(2, 6).Draw(t, "panels")
		size := func() float64 { return float64(rapid.IntRange(16, 320).Draw(t, "size")) / 8 }
		for i := range n {
			p := b.panel(fmt.Sprintf("p%d", i), size(), size())
			p.Pair = rapid.IntRange(0, 3).Draw(t, "pair") == 0
			p.Along.TakeOut = unit.Ratio(rapid.IntRange(0, 10).Draw(t, "stretch")) / 100
		}
		edges := []string{"bottom", "right", "top", "left"}
		for i := 1; i < n; i++ {
			from := rapid.IntRange(0, i-1).Draw(t, "to")
			way := allowance.PatternWay(rapid.IntRange(1, 3).Draw(t, "way"))
			name := func(i int) string {
				if b.c.Panels[i].Pair {
					return fmt.Sprintf("p%d %s", i, rapid.SampledFrom([]string{"left", "right"}).Draw(t, "hand"))
				}
				return fmt.Sprintf("p%d", i)
			}
			x := b.across(way, name(from)+"."+rapid.SampledFrom(edges).Draw(t, "edge"), size()/8, name(i)+"."+rapid.SampledFrom(edges).Draw(t, "edge"), size()/8)
			x.Point = allowance.CrossingPoint(rapid.IntRange(0, 2).Draw(t, "point"))
		}
		c := b.raw()
		wish := motif("p0", size(), size())
		if c.Panels[0].Pair {
			wish.Panel += " left"
		}
		f, err := c.Flow(sewnGoods(), []allowance.MotifWish{wish})
		require.NoError(t, err)
		require.Empty(t, f.Unmet)
		for _, x := range f.Crossings {
			p, q := f.Pieces[x.From], f.Pieces[x.To]
			if x.Way != allowance.AlongOnly {
				require.Equal(t, p.Motif.X-x.FromAt.X, q.Motif.X-x.ToAt.X)
				require.Equal(t, p.Across, q.Across)
			}
			if x.Way != allowance.AcrossOnly {
				require.Equal(t, p.Motif.Y-x.FromAt.Y, q.Motif.Y-x.ToAt.Y)
				require.Equal(t, p.Along, q.Along)
			}
			require.Zero(t, x.Off)
		}
		moved := wish
		moved.At.X += unit.Inch
		g, err := c.Flow(sewnGoods(), []allowance.MotifWish{moved})
		require.NoError(t, err)
		for i, p := range f.Pieces {
			if p.Across.Placed {
				require.Equal(t, p.Motif.X+unit.Inch, g.Pieces[i].Motif.X)
			} else {
				require.Equal(t, p.Motif.X, g.Pieces[i].Motif.X)
			}
			require.Equal(t, p.Motif.Y, g.Pieces[i].Motif.Y)
		}
		// Ask the last panel for what it got, where the fit changes nothing.
		last := n - 1
		if i := slices.IndexFunc(f.Pieces, func(p allowance.PieceFlow) bool { return p.Wish == 0 }); i >= 0 && c.Panels[last].Along.TakeOut == 0 && !c.Panels[last].Pair {
			at := len(f.Pieces) - 1
			if f.Pieces[at].Across.Placed && f.Pieces[at].Along.Placed {
				h, err := c.Flow(sewnGoods(), []allowance.MotifWish{{Panel: c.Panels[last].Name, At: f.Pieces[at].Motif, Way: allowance.BothWays}})
				require.NoError(t, err)
				for i := range f.Pieces {
					require.Equal(t, f.Pieces[i].Motif, h.Pieces[i].Motif)
				}
			}
		}
	})
}

// The letters of seams that a pattern crosses are those of the work.
func TestFlowLetters(t *testing.T) {
	c := frontOfChair().raw()
	f, err := c.Flow(sewnGoods(), nil)
	require.NoError(t, err)
	w, err := c.Work(sewnGoods())
	require.NoError(t, err)
	var seams, flows []string
	for _, s := range w.Seams {
		seams = append(seams, s.Letter+" "+strings.Join(s.Sides[0], " + "))
	}
	for _, x := range f.Crossings {
		if x.Seam != "" {
			flows = append(flows, x.Seam+" "+strings.Join(x.FromEdge, " + "))
		}
	}
	assert.ElementsMatch(t, seams, flows)
}

// Where a side starts and ends, in inches from the lower left corner of its piece:
// anticlockwise on the piece as it is cut, so that the right hand, which is the
// mirror image, runs the other way than as drawn. What lies inside an edge lies
// square to it. Where the outline lies on its paper is nothing to it (derived).
func TestFlowPoints(t *testing.T) {
	for _, r := range []struct {
		side       string
		in         float64
		first      allowance.CrossingPoint // of the first side; the second has the other end
		at, second [2]float64
	}{
		{"a.bottom", 0, allowance.StartPoint, [2]float64{0, 0}, [2]float64{20, 0}},
		{"a.bottom", 0, allowance.EndPoint, [2]float64{20, 0}, [2]float64{0, 0}},
		{"a.right", 3, allowance.StartPoint, [2]float64{17, 0}, [2]float64{17, 10}},
		{"a.right", 3, allowance.MiddlePoint, [2]float64{17, 5}, [2]float64{17, 5}},
		{"a.left", 2, allowance.EndPoint, [2]float64{2, 0}, [2]float64{2, 10}},
		{"a.top", 4, allowance.StartPoint, [2]float64{20, 6}, [2]float64{0, 6}},
		{"a.bottom from 4 in to 9 in", 1, allowance.StartPoint, [2]float64{4, 1}, [2]float64{9, 1}},
		{"a.bottom + a.right", 0, allowance.MiddlePoint, [2]float64{15, 0}, [2]float64{15, 0}},
		{"a.bottom + a.right", 0, allowance.EndPoint, [2]float64{20, 10}, [2]float64{0, 0}},
		{"a.upright", 0, allowance.StartPoint, [2]float64{6, 0}, [2]float64{6, 10}},
		{"a.upright", 2, allowance.MiddlePoint, [2]float64{4, 5}, [2]float64{4, 5}},
		{"a.sloping", 0, allowance.EndPoint, [2]float64{6, 8}, [2]float64{0, 0}},
		{"a.sloping", 2.5, allowance.MiddlePoint, [2]float64{1, 5.5}, [2]float64{1, 5.5}},
		{"arm left.right", 3, allowance.StartPoint, [2]float64{17, 0}, [2]float64{17, 10}},
		{"arm right.right", 3, allowance.StartPoint, [2]float64{3, 10}, [2]float64{3, 0}},
		{"arm right.top", 1, allowance.EndPoint, [2]float64{0, 9}, [2]float64{20, 9}},
	} {
		for _, by := range []shape.Point{{}, corner(3, 0), corner(5, -7)} {
			var b builder
			a := b.panel("a", 20, 10)
			a.Lines = []allowance.InnerLine{{Name: "upright", From: corner(6, 0), To: corner(6, 10)}, {Name: "sloping", From: corner(0, 0), To: corner(6, 8)}}
			for i, l := range a.Lines {
				a.Lines[i].From, a.Lines[i].To = shape.Point{X: l.From.X + by.X, Y: l.From.Y + by.Y}, shape.Point{X: l.To.X + by.X, Y: l.To.Y + by.Y}
			}
			b.pair("arm", 20, 10)
			for i := range b.c.Panels {
				b.c.Panels[i].Outline = sure(b.c.Panels[i].Outline.Moved(by))
			}
			b.panel("other", 20, 10)
			b.across(allowance.BothWays, r.side, r.in, "other.top", 0).Point = r.first
			b.across(allowance.BothWays, "other.top", 0, r.side, r.in).Point = r.first
			f, err := b.raw().Flow(sewnGoods(), nil)
			require.NoError(t, err)
			require.Len(t, f.Crossings, 2)
			for i, got := range []shape.Point{f.Crossings[0].FromAt, f.Crossings[1].ToAt} {
				want := [][2]float64{r.at, r.second}[i]
				assert.InDelta(t, want[0], got.X.Inches(), 1e-6, "%v %d", r, i)
				assert.InDelta(t, want[1], got.Y.Inches(), 1e-6, "%v %d", r, i)
			}
		}
	}
}

// The way out of a line of a panel is to the right of it: of one that rises 8 in on
// 6 in it is 0.8 across and 0.6 down (derived).
func TestFlowOutOfALine(t *testing.T) {
	var b builder
	b.panel("a", 20, 10).Lines = []allowance.InnerLine{{Name: "sloping", From: corner(2, 1), To: corner(8, 9)}}
	b.panel("other", 20, 10)
	b.across(allowance.BothWays, "a.sloping", 0, "other.top", 0)
	f, err := b.raw().Flow(sewnGoods(), nil)
	require.NoError(t, err)
	assert.InDelta(t, 0.8, f.Crossings[0].FromOut.X.Metres(), 1e-8)
	assert.InDelta(t, -0.6, f.Crossings[0].FromOut.Y.Metres(), 1e-8)
}

// Edges within 3 degrees of facing each other are in line, in whichever direction
// the pattern runs on; others are turned.
func TestFlowInLine(t *testing.T) {
	for way, edges := range map[allowance.PatternWay][2]string{allowance.AcrossOnly: {"a.right", "b.left"}, allowance.AlongOnly: {"a.top", "b.bottom"}} {
		for degrees, turned := range map[float64]bool{0: false, 2: false, -2: false, 4: true, -4: true} {
			var b builder
			b.panel("a", 20, 20)
			off := 20 * math.Tan(degrees*math.Pi/180)
			b.outline("b", sure(sure(shape.Polygon(corner(0, 0), corner(20, off), corner(20, 20), corner(off, 20))).Renamed("bottom", "right", "top", "left")))
			b.across(way, edges[0], 0, edges[1], 0)
			f, err := b.raw().Flow(sewnGoods(), nil)
			require.NoError(t, err)
			assert.Equal(t, turned, f.Crossings[0].Turned, "%s by %v degrees", way, degrees)
		}
		var b builder // a mitre is turned for either
		b.panel("a", 20, 20)
		b.panel("b", 20, 20)
		b.across(way, "a.right", 0, "b.top", 0)
		f, err := b.raw().Flow(sewnGoods(), nil)
		require.NoError(t, err)
		assert.True(t, f.Crossings[0].Turned, way)
	}
}

// A wish has up to 63 other points.
func TestFlowOtherPoints(t *testing.T) {
	for n, ok := range map[int]bool{63: true, 64: false} {
		var b builder
		b.panel("seat", 20, 20)
		wish := motif("seat", 10, 10)
		for i := range n {
			wish.Or = append(wish.Or, on(10, float64(i)/8))
		}
		_, err := b.raw().Flow(sewnGoods(), []allowance.MotifWish{wish})
		if ok {
			require.NoError(t, err, n)
			continue
		}
		require.ErrorContains(t, err, "wishes[0].or", n)
	}
}
