package allowance_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Numbers that name nothing are refused, every one of them.
func TestNoFinishAfterTheLast(t *testing.T) {
	known := len(allowance.Finishes())
	for i := range 256 {
		f := allowance.Finish(i)
		_, err := f.MarshalText()
		assert.Equal(t, i < known, err == nil, i)
		_, basis := f.Default()
		if i >= known {
			assert.Zero(t, basis, i)
		}
	}
	for i := range 256 {
		k := allowance.FasteningKind(i)
		_, err := k.MarshalText()
		over, hold, _ := k.Default()
		assert.True(t, err == nil || over == 0 && hold == 0, i)
	}
	joins := 0
	for i := range 256 {
		k := allowance.SeamKind(i)
		if _, err := k.MarshalText(); err == nil {
			joins++
			continue
		}
		l, basis := k.Default()
		assert.Zero(t, l, i)
		assert.Zero(t, basis, i)
		iso, federal, basis := k.Designations()
		assert.Empty(t, iso+federal, i)
		assert.Zero(t, basis, i)
	}
	assert.Positive(t, joins)
	for i := range joins { // letters have a basis, and none have none
		iso, federal, basis := allowance.SeamKind(i).Designations()
		assert.Equal(t, iso+federal != "", basis != cite.Basis{}, i)
	}
	iso, federal, basis := allowance.HandJoin.Designations() // has letters in one of the two
	assert.Empty(t, iso)
	assert.NotEmpty(t, federal)
	assert.Equal(t, cite.FromMemory, basis.Status)
}

// A hem is sewn whole, of a seam each of two panels brings half, rounded up; a
// welt takes two layers more, and a raw edge is not sewn.
func TestSewnOfAPanel(t *testing.T) {
	cut := func(finishes ...allowance.Finish) allowance.PanelCut {
		var c allowance.PanelCut
		for i, f := range finishes {
			c.Edges = append(c.Edges, allowance.PanelEdge{CutEdge: allowance.CutEdge{Margin: allowance.Margin{Finish: f}, Length: unit.Length(i+1)*10*unit.Inch + 1}})
		}
		return c
	}
	for _, r := range []struct {
		cut    allowance.PanelCut
		length unit.Length
		layers int
	}{
		{cut(), 0, 0}, {cut(allowance.Raw), 0, 0}, {cut(allowance.PlainSeam), 5*unit.Inch + 1, allowance.SeamLayers},
		{cut(allowance.PlainSeam, allowance.WeltedSeam), 15*unit.Inch + 2, allowance.WeltLayers},
		{cut(allowance.SingleHem, allowance.PlainSeam), 20*unit.Inch + 2, allowance.SeamLayers}, {cut(allowance.WeltedSeam, allowance.PlainSeam), 15*unit.Inch + 2, allowance.WeltLayers},
	} {
		length, layers := r.cut.Sewn()
		assert.Equal(t, r.length, length)
		assert.Equal(t, r.layers, layers)
	}
}

// Of an outline with two upright stretches where its middle is, the arrow of the
// grain takes the longer one, although the shorter lies further from the foot: of
// 12 in from 20 to 32 in a fifth and four fifths.
func TestGrainInTheLongerArm(t *testing.T) {
	o := sure(shape.Polygon(corner(0, 5), corner(20, 5), corner(20, 10), corner(4, 10), corner(4, 20), corner(20, 20), corner(20, 32), corner(0, 32)))
	c, err := allowance.Panel{Name: "arm", Outline: o, AllEdges: allowance.Edge{Finish: allowance.Raw}}.Cut()
	require.NoError(t, err)
	assert.InDelta(t, 22.4, c.Grain.Foot.Y.Inches(), 1e-6)
	assert.InDelta(t, 29.6, c.Grain.Head.Y.Inches(), 1e-6)
	// Between sloping sides too, wherever they lie: of a triangle at its middle.
	for _, x := range []float64{0, 7, -30} {
		o := sure(shape.Polygon(corner(x, 0), corner(x+30, 0), corner(x, 30)))
		c, err := allowance.Panel{Name: "corner", Outline: o, AllEdges: allowance.Edge{Finish: allowance.Raw}}.Cut()
		require.NoError(t, err)
		assert.InDelta(t, x+10, c.Grain.Foot.X.Inches(), 1e-6)
		assert.InDelta(t, 4, c.Grain.Foot.Y.Inches(), 1e-6)
		assert.InDelta(t, 16, c.Grain.Head.Y.Inches(), 1e-6)
	}
}

// What is no length of a part belongs to the name of the edge.
func TestPartsOfNoLength(t *testing.T) {
	for text, want := range map[string]allowance.EdgePart{
		"a.top from 2 in": {Panel: "a", Edge: "top", From: 2 * unit.Inch}, "a.top from 0 in": {Panel: "a", Edge: "top from 0 in"}, "a.top to -1 in": {Panel: "a", Edge: "top to -1 in"},
	} {
		var p allowance.EdgePart
		require.NoError(t, p.UnmarshalText([]byte(text)), text)
		assert.Equal(t, want, p, text)
	}
	for _, text := range []string{"a.top + ", " + a.top", "a.top +  + a.left", "a"} {
		var s allowance.Side
		require.Error(t, s.UnmarshalText([]byte(text)), text)
		assert.Empty(t, s)
	}
}

// Where a seam ends on the other side of one, both sides have a notch: 4 in down
// the one is 6 in up the other.
func TestNotchWhereASeamEnds(t *testing.T) {
	var b builder
	b.panel("a", 20, 10)
	b.panel("b", 20, 4)
	b.panel("c", 20, 6)
	b.plain("b.bottom", "c.top")
	b.plain("a.right", "b.left + c.left")
	for _, e := range []string{"a.top", "a.left", "a.bottom", "b.top", "b.right", "c.right", "c.bottom"} {
		b.fasten(allowance.StapledFlat, e)
	}
	var at [][]unit.Length
	for _, s := range worked(t, b.c).Seams {
		if s.Seam == 1 {
			for _, n := range s.Notches {
				at = append(at, n.At)
			}
		}
	}
	assert.Contains(t, at, []unit.Length{6 * unit.Inch, 4 * unit.Inch})
	assert.NotContains(t, at, []unit.Length{4 * unit.Inch, 6 * unit.Inch})
}

// The hand that is drawn has a notch where it is drawn, the other as far from the
// other end of its edge; of one hand pieces are cut alike with the same marks
// alone.
func TestNotchesOfBothHands(t *testing.T) {
	var b builder
	b.outline("wing", sure(sure(shape.Polygon(corner(0, 0), corner(12, 0), corner(12, 20), corner(3, 20))).Renamed("bottom", "right", "top", "left"))).Pair = true
	b.c.Panels[0].Notches = []allowance.Notch{{Edge: "right", At: 3 * unit.Inch}}
	for _, e := range []string{"wing.bottom", "wing.right", "wing.top", "wing.left"} {
		b.fasten(allowance.StapledFlat, e)
	}
	w := worked(t, b.c)
	require.Len(t, w.Pieces, 2)
	assert.Equal(t, b.c.Panels[0].Outline, w.Pieces[0].Panel.Outline, "the left as it is drawn")
	assert.Equal(t, b.c.Panels[0].Outline.Mirrored(), w.Pieces[1].Panel.Outline)
	at := map[allowance.Hand]unit.Length{}
	for _, p := range w.Pieces {
		require.Len(t, p.Panel.Notches, 1)
		at[p.Hand] = p.Panel.Notches[0].At
	}
	assert.Equal(t, map[allowance.Hand]unit.Length{allowance.LeftHand: 3 * unit.Inch, allowance.RightHand: 17 * unit.Inch}, at)

	p := w.Pieces[0]
	p.Marks = []allowance.PieceMark{{Label: "A1"}}
	for name, r := range map[string]struct {
		spoil func(q *allowance.CoverPiece)
		alike bool
	}{
		"the same":      {func(*allowance.CoverPiece) {}, true},
		"another panel": {func(q *allowance.CoverPiece) { q.Of = "another" }, false},
		"other edges":   {func(q *allowance.CoverPiece) { q.Panel.Edges = map[string]allowance.Edge{} }, false},
		"fewer notches": {func(q *allowance.CoverPiece) { q.Panel.Notches = nil }, false},
		"other marks":   {func(q *allowance.CoverPiece) { q.Marks = []allowance.PieceMark{{Label: "B1"}} }, false},
		"the other hand": {func(q *allowance.CoverPiece) {
			q.Hand, q.Marks = w.Pieces[1].Hand, []allowance.PieceMark{{Label: "B1"}}
		}, true},
	} {
		q := p
		r.spoil(&q)
		assert.Equal(t, r.alike, p.CutLike(q), name)
	}
}

// Where an outline lies on its paper is nothing to the pattern, and a line across
// a panel carries it as an edge there would.
func TestFlowOverALine(t *testing.T) {
	flow := func(second string, spoil func(p *allowance.CoverPanel)) allowance.PieceFlow {
		var b builder
		b.panel("back", 20, 20)
		spoil(b.panel("seat", 20, 20))
		b.across(allowance.BothWays, "back.bottom", 0, second, 0)
		f, err := b.raw().Flow(sewnGoods(), []allowance.MotifWish{motif("back", 7, 3)})
		require.NoError(t, err)
		return f.Pieces[1]
	}
	moved := func(p *allowance.CoverPanel, by shape.Point) {
		p.Outline = sure(p.Outline.Moved(by))
		for i := range p.Lines {
			l := &p.Lines[i]
			l.From, l.To = shape.Point{X: l.From.X + by.X, Y: l.From.Y + by.Y}, shape.Point{X: l.To.X + by.X, Y: l.To.Y + by.Y}
		}
	}
	lined := func(p *allowance.CoverPanel) {
		p.Lines = []allowance.InnerLine{{Name: "rail", From: corner(20, 6), To: corner(0, 6)}}
	}
	edge := flow("seat.top", func(p *allowance.CoverPanel) { p.Outline = sure(shape.Rectangle(20*unit.Inch, 6*unit.Inch)) })
	assert.Equal(t, on(7, 9), edge.Motif)
	assert.Equal(t, edge.Motif, flow("seat.rail", lined).Motif)
	for _, by := range []shape.Point{corner(3, 0), corner(0, 2), corner(5, -7)} {
		assert.Equal(t, edge.Motif, flow("seat.rail", func(p *allowance.CoverPanel) { lined(p); moved(p, by) }).Motif, by)
		assert.Equal(t, on(7, 23), flow("seat.top", func(p *allowance.CoverPanel) { moved(p, by) }).Motif, by)
	}
}

// A side of several goods takes the ease of those that take least, whichever of
// them is named first.
func TestEaseOfSeveralGoods(t *testing.T) {
	check := func(upper, lower string) error {
		var b builder
		b.panel("a", 20, 10)
		b.panel("b", 20, 4.1).Goods = upper
		b.panel("c", 20, 6.15).Goods = lower
		b.plain("b.bottom", "c.top")
		b.plain("a.right", "b.left + c.left")
		for _, e := range []string{"a.top", "a.left", "a.bottom", "b.top", "b.right", "c.right", "c.bottom"} {
			b.fasten(allowance.StapledFlat, e)
		}
		return b.c.Check(sewnGoods())
	}
	require.NoError(t, check("cloth", "cloth"))
	for _, goods := range [][2]string{{"leather", "cloth"}, {"cloth", "leather"}, {"leather", "leather"}} {
		assert.Equal(t, []string{"seams[1].sides[1]"}, faultPaths(check(goods[0], goods[1])), goods)
	}
}

// A strip is half an inch high or more.
func TestPullStripHeights(t *testing.T) {
	for over, ok := range map[unit.Length]bool{unit.Inch / 2: true, unit.Inch/2 - 1: false, allowance.MostAllowance: true} {
		var b builder
		b.panel("back", 24, 20)
		b.fasten(allowance.PushedThrough, "back.bottom").Over = allowance.Exactly(over)
		b.fasten(allowance.StapledFlat, "back.right + back.top + back.left")
		_, err := b.c.WithPullStrip(0, "cloth")
		if ok {
			require.NoError(t, err, over)
			continue
		}
		require.ErrorContains(t, err, "fastenings[0].over", over)
	}
}

// What is pulled over or pushed through can end in a strip, and nothing else; the
// strip is as long as all the edges it is sewn to, up to 50 m.
func TestPullStripKinds(t *testing.T) {
	strip := func(kind allowance.FasteningKind, size float64) (allowance.Cover, error) {
		var b builder
		b.panel("back", size, size)
		f := b.fasten(kind, "back.bottom + back.right")
		f.Over, f.Rail = allowance.Exactly(3*unit.Inch), unit.Inch
		b.fasten(allowance.StapledFlat, "back.top + back.left")
		return b.c.WithPullStrip(0, "lining")
	}
	for k := allowance.PulledOver; k <= allowance.HookAndLoop; k++ {
		c, err := strip(k, 20)
		if k > allowance.PushedThrough {
			require.ErrorContains(t, err, "fastenings[0].finish", k)
			assert.Len(t, c.Panels, 1, k)
			continue
		}
		require.NoError(t, err, k)
		require.Len(t, c.Panels, 2, k)
		w, h := c.Panels[1].Outline.Size()
		assert.Equal(t, [2]unit.Length{40 * unit.Inch, 4 * unit.Inch}, [2]unit.Length{w, h}, k)
	}
	_, err := strip(allowance.PulledOver, 1200)
	require.ErrorContains(t, err, "fastenings[0].side")
	c := two()
	c.Fastenings = append(c.Fastenings[1:3], c.Fastenings[4:]...)
	c.Fastenings = append(c.Fastenings, allowance.Fastening{Side: sides("b.top + a.top")[0]})
	require.NoError(t, c.Check(sewnGoods()))
	_, err = c.WithPullStrip(4, "lining")
	require.ErrorContains(t, err, "edges of one panel")
	for _, fastening := range []int{-1, len(c.Fastenings)} {
		_, err = c.WithPullStrip(fastening, "lining")
		require.ErrorContains(t, err, "fastenings: ")
	}
}

// Gathers take from a tenth to three times more, and limits of ease that
// contradict each other are none.
func TestGathersAndLimits(t *testing.T) {
	for long, ok := range map[float64]bool{10.99: false, 11: true, 12: true, 40: true, 40.01: false} {
		c := two()
		c.Seams[0].Kind = allowance.GatheredJoin
		c.Panels[1].Outline = sure(shape.Rectangle(20*unit.Inch, tapeInches(long)))
		err := c.Check(sewnGoods())
		if ok {
			require.NoError(t, err, long)
			continue
		}
		require.ErrorContains(t, err, "1.1 to 4 times the shorter", long)
	}
	for _, ease := range []allowance.EaseLimits{{}, {Flat: 0.1, Ease: 0.05, Gather: 1}} {
		require.ErrorContains(t, two().Check(map[string]allowance.SewnGoods{"cloth": {Ease: ease}}), "goods with limits of ease")
	}
}

// Of a seam of three sides the match is that of the longest, wherever it stands.
func TestMatchOfThreeSides(t *testing.T) {
	for _, long := range [][2]float64{{10.25, 10.125}, {10.125, 10.25}} {
		var b builder
		b.panel("a", 20, 10)
		b.panel("b", 20, long[0])
		b.panel("c", 20, long[1])
		b.plain("a.right", "b.left", "c.left")
		for _, e := range []string{"a.top", "a.left", "a.bottom", "b.top", "b.right", "b.bottom", "c.top", "c.right", "c.bottom"} {
			b.fasten(allowance.StapledFlat, e)
		}
		w := worked(t, b.c)
		assert.Equal(t, unit.Inch/4, w.Seams[0].Match.Difference)
	}
}

// A welt is as long as the shorter side of its seam, whichever stands first.
func TestWeltOfTheShorterSide(t *testing.T) {
	for _, long := range [][2]float64{{10.25, 10}, {10, 10.25}, {10, 10}} {
		var b builder
		b.panel("a", 20, long[0])
		b.panel("b", 20, long[1])
		b.welted("a.right", "b.left")
		w := worked(t, b.raw()).Welts[0]
		assert.Equal(t, [2]unit.Length{10 * unit.Inch, 10 * unit.Inch}, [2]unit.Length{w.Run, w.CordLength}, long)
	}
}

// What is meant to be fuller is gathered, whatever the goods would take: by the kind
// of its seam or by a fullness, which at 1 means none.
func TestFullSeamsAreGathered(t *testing.T) {
	for _, r := range []struct {
		kind     allowance.SeamKind
		fullness unit.Ratio
		long     float64
		verdict  allowance.Verdict
	}{
		{allowance.GatheredJoin, 0, 15, allowance.Gather}, {allowance.GatheredJoin, 1.5, 15, allowance.Gather}, {allowance.PlainJoin, 1.5, 15, allowance.Gather},
		{allowance.PlainJoin, 1, 10, allowance.SewsFlat}, {allowance.PlainJoin, 0, 10, allowance.SewsFlat},
	} {
		c := two()
		c.Seams[0].Kind, c.Seams[0].Fullness = r.kind, r.fullness
		c.Panels[1].Outline = sure(shape.Rectangle(20*unit.Inch, tapeInches(r.long)))
		w := worked(t, c)
		assert.Equal(t, r.verdict, w.Seams[0].Match.Verdict, r)
		assert.Equal(t, map[bool]int{true: 1, false: -1}[r.verdict == allowance.Gather], w.Seams[0].Eased, r)
	}
}

// Of two sides that are as much longer than the third the first is eased.
func TestEasedOfTwoAlike(t *testing.T) {
	for short := range 3 {
		var b builder
		for i, name := range []string{"a", "b", "c"} {
			b.panel(name, 20, map[bool]float64{true: 10, false: 10.25}[i == short])
		}
		b.plain("a.right", "b.left", "c.left")
		for _, e := range []string{"a.top", "a.left", "a.bottom", "b.top", "b.right", "b.bottom", "c.top", "c.right", "c.bottom"} {
			b.fasten(allowance.StapledFlat, e)
		}
		assert.Equal(t, []int{1, 0, 0}[short], worked(t, b.c).Seams[0].Eased)
	}
}

// Ease goes where the longer edge bulges, at whichever end that is, and nowhere
// else. Of 20 in straight and 20.4 in of a bulge on 40 in, notches stand 5 in apart
// on both sides where the edge is straight; on the bulge 4 in apart, less than 1 in
// from its ends without ease and between with 18.4 in on 18 (derived).
func TestEaseAtOneEnd(t *testing.T) {
	const turn, long = 40 * math.Pi / 180, 20.4
	r := long / turn
	x, y, rise := r*math.Sin(turn), r*(1-math.Cos(turn)), tapeInches(r*(1-math.Cos(turn/2)))
	ahead := sure(shape.TraceFrom(shape.Point{}).Edge("straight").Line(corner(20, 0)).Edge("bulge").Arc(corner(20+x, y), rise).
		Edge("top").Line(corner(20+x, 30)).Line(corner(0, 30)).Edge("left").Close())
	short := []float64{0, 5, 10, 15, 20, 24, 28, 32, 36, 40}
	eased := []float64{0, 5, 10, 15, 20, 21 + 3*18.4/18, 21 + 7*18.4/18, 21 + 11*18.4/18, 21 + 15*18.4/18, 40.4}
	for _, mirrored := range []bool{false, true} {
		for _, first := range []bool{false, true} {
			o, side := ahead, "round.straight + round.bulge"
			if mirrored {
				o, side = ahead.Mirrored(), "round.bulge + round.straight"
			}
			var b builder
			b.outline("round", o)
			b.panel("facing", 40, 5)
			if first {
				b.plain(side, "facing.top")
			} else {
				b.plain("facing.top", side)
			}
			for _, side := range []string{"facing.left", "facing.bottom", "facing.right", "round.top", "round.left"} {
				b.fasten(allowance.StapledFlat, side)
			}
			var onFacing, onRound []float64
			for _, n := range worked(t, b.c).Seams[0].Notches {
				at, to := n.At[0], n.At[1]
				if first {
					at, to = to, at
				}
				if mirrored { // the straight stretch stands at the end of the one and at the start of the other
					onFacing, onRound = append(onFacing, at.Inches()), append(onRound, 40.4-to.Inches())
				} else {
					onFacing, onRound = append(onFacing, 40-at.Inches()), append(onRound, to.Inches())
				}
			}
			slices.Sort(onFacing)
			slices.Sort(onRound)
			assert.InDeltaSlice(t, short, onFacing, 1e-5, "%t %t", mirrored, first)
			assert.InDeltaSlice(t, eased, onRound, 1e-5, "%t %t", mirrored, first)
		}
	}
}

// The end of an opening is marked on both sides, by the ease up to it: of 20 in
// straight and 20.4 in of a bulge on 40 in, which is eased from 1 in on of the bulge to
// 1 in before its end (derived).
func TestOpeningWhereEaseIsWorkedIn(t *testing.T) {
	const turn, long = 40 * math.Pi / 180, 20.4
	r := long / turn
	x, y, rise := r*math.Sin(turn), r*(1-math.Cos(turn)), tapeInches(r*(1-math.Cos(turn/2)))
	for open, onFacing := range map[float64]float64{5: 35, 30.2: 10, 40: 0.4} {
		var b builder
		b.outline("round", sure(shape.TraceFrom(shape.Point{}).Edge("straight").Line(corner(20, 0)).Edge("bulge").Arc(corner(20+x, y), rise).
			Edge("top").Line(corner(20+x, 30)).Line(corner(0, 30)).Edge("left").Close()))
		b.panel("facing", 40, 5)
		b.sew(allowance.PlainJoin, "round.straight + round.bulge", "facing.top").Opening = tapeInches(open)
		found := false
		for _, n := range worked(t, b.raw()).Seams[0].Notches {
			if n.At[0] == tapeInches(open) {
				found = true
				assert.InDelta(t, onFacing, n.At[1].Inches(), 1e-5, open)
			}
		}
		assert.True(t, found, open)
	}
}

// A ring without a corner has a notch at each quarter and between them what is
// needed, also before its start: 36 in round in eight parts of 4 1/2 in.
func TestNotchesRoundARing(t *testing.T) {
	o := sure(shape.Circle(36 * unit.Inch / 3))
	round := sure(o.EdgeLength(o.Edges()[0]))
	var b builder
	b.outline("plate", o)
	b.outline("boxing", sure(shape.Rectangle(round, 4*unit.Inch)))
	b.plain("boxing.right", "boxing.left")
	b.plain("plate."+o.Edges()[0], "boxing.bottom")
	b.fasten(allowance.StapledFlat, "boxing.top")
	for _, s := range worked(t, b.c).Seams {
		if s.Seam != 1 {
			continue
		}
		require.True(t, s.Ring)
		require.Len(t, s.Notches, 8)
		for i, n := range s.Notches {
			assert.InDelta(t, round.Inches()*float64(i)/8, n.At[0].Inches(), 1e-6)
		}
	}
}

// Corners are marked once, and no quarters beside them: of a plate of 20 by 10 in a
// boxing has a mark every 5 in.
func TestNotchesOfARingWithCorners(t *testing.T) {
	var b builder
	b.panel("plate", 20, 10)
	b.panel("boxing", 60, 4)
	b.plain("boxing.right", "boxing.left")
	b.plain("plate.bottom + plate.right + plate.top + plate.left", "boxing.bottom")
	b.fasten(allowance.StapledFlat, "boxing.top")
	for _, s := range worked(t, b.c).Seams {
		if s.Seam == 1 {
			require.True(t, s.Ring)
			require.Len(t, s.Notches, 12)
			for i, n := range s.Notches {
				assert.Equal(t, unit.Length(i)*5*unit.Inch, n.At[0])
			}
		}
	}
}

// More pieces than are worked are told alone, before anything is done with them.
func TestTooManyPieces(t *testing.T) {
	var b builder
	for _, name := range []string{"a", "b", "c", "d"} {
		b.panel(name, 20, 10).Count = 999
	}
	b.plain("a.top", "d.nowhere")
	paths(t, b.c, "panels[2].count")
}

// On a panel that lies with its back up the edge runs clockwise: the end of an
// opening 3 in from the start of the one side is 3 in from the start of the other too.
func TestNotchOfABackUp(t *testing.T) {
	c := two()
	c.Panels[1].Goods = "lining"
	c.Seams[0].Sides[1][0].Reversed = true
	c.Seams[0].Opening = 3 * unit.Inch
	for _, p := range worked(t, c).Pieces {
		var at []unit.Length
		for _, n := range p.Panel.Notches {
			at = append(at, n.At)
		}
		assert.Contains(t, at, 3*unit.Inch, p.Name)
		assert.NotContains(t, at, 7*unit.Inch, p.Name)
	}
}

// Plates of different numbers of corners do not twist their boxing: a round one under
// a square one, either way up.
func TestRoundUnderSquare(t *testing.T) {
	o := sure(shape.Circle(18 * unit.Inch))
	round := sure(o.EdgeLength(o.Edges()[0]))
	circle := "round." + o.Edges()[0]
	const square = "square.bottom + square.right + square.top + square.left"
	for _, plates := range [][2]string{{square, circle}, {circle, square}} {
		var b builder
		b.outline("square", sure(shape.Rectangle(round/4, round/4)))
		b.outline("round", o)
		b.outline("boxing", sure(shape.Rectangle(round, 4*unit.Inch)))
		b.plain("boxing.right", "boxing.left")
		b.plain(plates[0], "boxing.top")
		b.sew(allowance.PlainJoin, plates[1], "boxing.bottom").Opening = 8 * unit.Inch
		require.NoError(t, b.c.Check(sewnGoods()))
	}
}

// A notch on an edge that is divided lies on the part where it is.
func TestNotchOnADividedEdge(t *testing.T) {
	var b builder
	b.panel("a", 20, 10)
	b.c.Panels[0].Notches = []allowance.Notch{{Edge: "right", At: 7 * unit.Inch}, {Edge: "right", At: 2 * unit.Inch}}
	b.panel("b", 20, 4)
	b.panel("c", 20, 6)
	b.plain("b.bottom", "c.top")
	b.plain("a.right from 6 in", "b.left")
	b.plain("a.right to 6 in", "c.left")
	for _, e := range []string{"a.top", "a.left", "a.bottom", "b.top", "b.right", "c.right", "c.bottom"} {
		b.fasten(allowance.StapledFlat, e)
	}
	var at []unit.Length
	for _, n := range worked(t, b.c).Pieces[0].Panel.Notches {
		if n.OneHalf {
			at = append(at, n.At)
		}
	}
	assert.Contains(t, at, unit.Inch)
	assert.Contains(t, at, 2*unit.Inch)
	assert.NotContains(t, at, 7*unit.Inch)
	parts := map[string]int{}
	for _, u := range worked(t, b.c).Pieces[0].Uses {
		parts[u.Part]++
	}
	assert.Equal(t, map[string]int{"": 3, "right to 6 in": 1, "right from 6 in": 1}, parts)
}

// A notch beyond the end of its edge is not lost: the cut refuses it.
func TestNotchBeyondItsEdge(t *testing.T) {
	c := two()
	c.Panels[0].Notches = []allowance.Notch{{Edge: "right", At: 11 * unit.Inch}}
	w, err := c.Work(sewnGoods())
	if err == nil {
		_, err = w.Pieces[0].Panel.Cut()
	}
	require.ErrorContains(t, err, "at")
}

// Seams that end on the two sides of one within 1/8 in of each other have one notch
// there, and two beyond.
func TestNotchesThatAreOne(t *testing.T) {
	for off, notches := range map[unit.Length]int{0: 1, unit.Inch / 8: 1, unit.Inch/8 + 1: 2, -unit.Inch / 8: 1, -unit.Inch/8 - 1: 2} {
		var b builder
		b.panel("a", 20, 6)
		b.panel("b", 20, 6)
		b.outline("c", sure(shape.Rectangle(20*unit.Inch, 6*unit.Inch-off)))
		b.outline("d", sure(shape.Rectangle(20*unit.Inch, 6*unit.Inch+off)))
		b.plain("a.bottom", "b.top")
		b.plain("c.bottom", "d.top")
		b.plain("b.right + a.right", "c.left + d.left")
		for _, s := range worked(t, b.raw()).Seams {
			if s.Seam == 2 {
				require.Len(t, s.Notches, 2+notches, off)
				assert.Equal(t, 6*unit.Inch, s.Notches[map[bool]int{true: 2, false: 1}[off < -unit.Inch/8]].At[0], off)
			}
		}
	}
}

// A run whose notches look the same from both ends, within 1/4 in, has one doubled: of
// 20 in with a junction 1/8 in off its middle, which seen from the other end is 1/4 in off.
func TestRunsThatLookTheSame(t *testing.T) {
	for off, alike := range map[unit.Length]bool{0: true, unit.Inch / 8: true, -unit.Inch / 8: true, unit.Inch/8 + 1: false, -unit.Inch/8 - 1: false, unit.Inch: false} {
		var b builder
		b.outline("a", sure(shape.Rectangle(20*unit.Inch, 10*unit.Inch-off)))
		b.outline("b", sure(shape.Rectangle(20*unit.Inch, 10*unit.Inch+off)))
		b.panel("c", 20, 20)
		b.plain("a.bottom", "b.top")
		b.plain("b.right + a.right", "c.left")
		for _, s := range worked(t, b.raw()).Seams {
			if s.Seam == 1 {
				require.Len(t, s.Notches, 5, off)
				for i, n := range s.Notches {
					assert.Equal(t, alike && i == 1, n.Double, "%s %d", off, i)
				}
			}
		}
	}
}

// The corners of one plate stand over those of the other within 1/4 in along their
// boxing.
func TestPlatesOffPlumb(t *testing.T) {
	for off, ok := range map[unit.Length]bool{0: true, unit.Inch / 4: true, unit.Inch/4 + 1: false, 2 * unit.Inch: false} {
		var b builder
		b.panel("over", 10, 10)
		b.panel("under", 10, 10)
		b.panel("boxing", 40, 4)
		b.plain("boxing.right", "boxing.left")
		b.plain("over.bottom + over.right + over.top + over.left", "boxing.top")
		s := b.sew(allowance.PlainJoin, "under.bottom + under.right + under.top + under.left", "boxing.bottom")
		if off != 0 {
			s.Sides[0] = append(s.Sides[0], allowance.EdgePart{Panel: "under", Edge: "bottom", To: off})
			s.Sides[0][0].From = off
		}
		s.Opening = 8 * unit.Inch
		err := b.c.Check(sewnGoods())
		if ok {
			require.NoError(t, err, off)
			continue
		}
		assert.ErrorContains(t, err, "corners that stand over those of", off)
	}
}

// Across a strip whose edges differ by more than 1/4 in no corner has one that it stands
// over.
func TestPlatesOnASlopingStrip(t *testing.T) {
	for wider, ok := range map[float64]bool{0: false, 2: true} {
		var b builder
		b.panel("over", 10+wider/4, 10+wider/4)
		b.panel("under", 10, 10)
		b.outline("boxing", sure(sure(shape.Polygon(corner(0, 0), corner(40, 0), corner(40+wider/2, 4), corner(-wider/2, 4))).Renamed("bottom", "right", "top", "left")))
		b.plain("boxing.right", "boxing.left")
		b.plain("over.bottom + over.right + over.top + over.left", "boxing.top")
		s := b.sew(allowance.PlainJoin, "under.bottom from 3 in + under.right + under.top + under.left + under.bottom to 3 in", "boxing.bottom")
		s.Opening = 8 * unit.Inch
		err := b.c.Check(sewnGoods())
		if ok {
			require.NoError(t, err)
			continue
		}
		require.ErrorContains(t, err, "corners that stand over those of")
	}
}

// A seam that ends on a run is sewn before it, also where a hand closes what the machine
// leaves open of the run.
func TestStemBeforeARunWithAnOpening(t *testing.T) {
	var b builder
	b.panel("a", 20, 10)
	b.panel("b", 20, 10)
	b.panel("c", 20, 20)
	b.sew(allowance.PlainJoin, "b.right + a.right", "c.left").Opening = 5 * unit.Inch
	b.plain("a.bottom", "b.top")
	w := worked(t, b.raw())
	letters := map[int]string{}
	for _, s := range w.Seams {
		letters[s.Seam] = s.Letter
	}
	var order []string
	for _, s := range w.Sewing {
		if s.Do == allowance.SewSeam {
			order = append(order, s.Seam)
		}
	}
	assert.Equal(t, []string{letters[1], letters[0]}, order)
}

// A seam with few notches has none that is doubled.
func TestFewNotchesAreSingle(t *testing.T) {
	for _, s := range worked(t, two()).Seams {
		assert.Less(t, len(s.Notches), 4)
		assert.NotEmpty(t, s.Notches)
		for _, n := range s.Notches {
			assert.False(t, n.Double)
		}
	}
}

// What was done to a panel is to be looked at where halves differ by more than
// half a per cent, a corner was rounded or one points in.
func TestWhatIsToBeLookedAt(t *testing.T) {
	for name, r := range map[string]struct {
		got  allowance.Recovered
		look bool
	}{
		"nothing":          {allowance.Recovered{}, false},
		"halves alike":     {allowance.Recovered{Halves: &shape.Halves{Share: 0.005}}, false},
		"halves apart":     {allowance.Recovered{Halves: &shape.Halves{Share: 0.006}}, true},
		"a sharp corner":   {allowance.Recovered{Corners: make([]shape.CornerCut, 1)}, false},
		"a rounded corner": {allowance.Recovered{Corners: []shape.CornerCut{{Off: 1}}}, true},
	} {
		assert.Equal(t, r.look, r.got.Caution(), name)
	}
}
