package allowance_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
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
	}
	assert.Positive(t, joins)
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
	b.panel("wing", 12, 20).Pair = true
	b.c.Panels[0].Notches = []allowance.Notch{{Edge: "right", At: 3 * unit.Inch}}
	for _, e := range []string{"wing.bottom", "wing.right", "wing.top", "wing.left"} {
		b.fasten(allowance.StapledFlat, e)
	}
	w := worked(t, b.c)
	require.Len(t, w.Pieces, 2)
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

// Gathers take from a tenth to three times more, and limits of ease that
// contradict each other are none.
func TestGathersAndLimits(t *testing.T) {
	for long, ok := range map[float64]bool{10.5: false, 12: true, 39: true, 41: false} {
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
		"halves alike":     {allowance.Recovered{Halves: &shape.Halves{Share: 0.004}}, false},
		"halves apart":     {allowance.Recovered{Halves: &shape.Halves{Share: 0.006}}, true},
		"a sharp corner":   {allowance.Recovered{Corners: make([]shape.CornerCut, 1)}, false},
		"a rounded corner": {allowance.Recovered{Corners: []shape.CornerCut{{Off: 1}}}, true},
	} {
		assert.Equal(t, r.look, r.got.Caution(), name)
	}
}
