package allowance_test

import (
	"encoding"
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Equal edges give zero ease and sew flat, whatever the limits.
func TestEqualEdgesSewFlat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLength(unit.Millimetre, 100*unit.Metre).Draw(t, "edge")
		limits, _ := allowance.LeatherLimits()
		m, err := allowance.MatchSeam(l, l, limits)
		require.NoError(t, err)
		require.Zero(t, m.Difference)
		require.Zero(t, m.Ease)
		require.Equal(t, allowance.SewsFlat, m.Verdict)
		marks, err := m.Marks(l/7 + unit.Millimetre)
		require.NoError(t, err)
		for _, k := range marks {
			require.Equal(t, k.First, k.Second)
		}
	})
}

// Swapping the edges changes nothing but the sides, and more ease never gets
// a milder verdict.
func TestMatchSeamIsEvenHanded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawLength(unit.Centimetre, 10*unit.Metre).Draw(t, "a")
		b := drawLength(a, 4*a).Draw(t, "b")
		limits, _ := allowance.ClothLimits()
		m, err := allowance.MatchSeam(a, b, limits)
		require.NoError(t, err)
		n, err := allowance.MatchSeam(b, a, limits)
		require.NoError(t, err)
		require.Equal(t, m.Ease, n.Ease)
		require.Equal(t, m.Verdict, n.Verdict)
		more, err := allowance.MatchSeam(a, b+unit.Centimetre, limits)
		require.NoError(t, err)
		require.GreaterOrEqual(t, more.Verdict, m.Verdict)

		taken, err := m.EasePer(a)
		require.NoError(t, err)
		require.InDelta(t, float64(m.Difference), float64(taken), 1)
	})
}

// Between any two marks the ease is shared in proportion, and outside the
// eased part the seam lies flat.
func TestMarksSpreadTheEase(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawLength(50*unit.Centimetre, 3*unit.Metre).Draw(t, "a")
		b := drawLength(50*unit.Centimetre, 3*unit.Metre).Draw(t, "b")
		limits, _ := allowance.ClothLimits()
		m, err := allowance.MatchSeam(a, b, limits)
		require.NoError(t, err)
		short := min(a, b)
		from := drawLength(unit.Millimetre, short/3).Draw(t, "from")
		to := drawLength(short/2, short-unit.Millimetre).Draw(t, "to")
		spacing := drawLength(unit.Centimetre, unit.Metre).Draw(t, "spacing")
		marks, err := m.MarksBetween(spacing, from, to)
		require.NoError(t, err)
		require.GreaterOrEqual(t, len(marks), 2)

		onShort := func(k allowance.MatchMark) (s, l unit.Length) {
			if a <= b {
				return k.First, k.Second
			}
			return k.Second, k.First
		}
		s0, l0 := onShort(marks[0])
		require.Equal(t, from, s0)
		require.Equal(t, from, l0)
		sn, ln := onShort(marks[len(marks)-1])
		require.Equal(t, to, sn)
		require.Equal(t, to+m.Difference, ln)
		share := float64(m.Difference) / float64(to-from)
		for i := 1; i < len(marks); i++ {
			s, l := onShort(marks[i])
			ps, pl := onShort(marks[i-1])
			require.LessOrEqual(t, s-ps, spacing+1)
			require.InDelta(t, share*float64(s-ps), float64((l-pl)-(s-ps)), 4+2*share)
		}
	})
}

// A bow lies on an arc of the wide panel over the narrow one as chord; a bend
// gives both panels back.
func TestBowAndBendComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		narrow := drawLength(10*unit.Centimetre, 3*unit.Metre).Draw(t, "narrow")
		wide := drawLength(narrow+narrow/1000, 3*narrow).Draw(t, "wide")
		a, err := allowance.BowOf(wide, narrow)
		require.NoError(t, err)
		require.InDelta(t, float64(wide), float64(a.Length), 4)
		require.InDelta(t, float64(narrow), 2*float64(a.Radius)*math.Abs(math.Sin(a.Angle.Radians()/2)), 20+float64(a.Radius)*1e-8)

		r := drawLength(10*unit.Centimetre, 2*unit.Metre).Draw(t, "radius")
		d := drawLength(unit.Centimetre, 20*unit.Centimetre).Draw(t, "apart")
		turn := rapid.Float64Range(0.1, 6.28).Draw(t, "turn")
		inner, outer := unit.Length(float64(r)*turn), unit.Length(float64(r+d)*turn)
		b, err := allowance.BendOf(outer, inner, d)
		require.NoError(t, err)
		require.InEpsilon(t, turn, b.Angle.Radians(), 1e-5)
		require.InEpsilon(t, float64(r), float64(b.Radius), 1e-5)
	})
}

func TestMatchRefuses(t *testing.T) {
	const in = unit.Inch
	limits, _ := allowance.ClothLimits()
	_, err := allowance.MatchSeam(20*in, 20*in, allowance.EaseLimits{})
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = allowance.MatchSeam(20*in, 20*in, allowance.EaseLimits{Flat: 0.1, Ease: 0.05, Gather: 1})
	require.ErrorContains(t, err, "limits.ease")
	_, err = allowance.MatchSeam(0, 20*in, limits)
	require.ErrorContains(t, err, "first")
	m, err := allowance.MatchSeam(20*in, 21*in, limits)
	require.NoError(t, err)
	_, err = m.Marks(0)
	require.ErrorContains(t, err, "spacing")
	_, err = m.MarksBetween(in, 10*in, 5*in)
	require.ErrorContains(t, err, "to")
	_, err = m.MarksBetween(in, 0, 30*in)
	require.ErrorContains(t, err, "to")
	_, err = allowance.SeamMatch{}.Marks(in)
	require.Error(t, err)
	_, err = allowance.BowOf(20*in, 20*in)
	require.ErrorContains(t, err, "wide")
	_, err = allowance.BendOf(20*in, 20*in, in)
	require.ErrorContains(t, err, "outer")
	_, err = allowance.BendOf(40*in, 20*in, in)
	require.ErrorContains(t, err, "angle")
	_, err = allowance.BendOf(20*in+1, 20*in, 10*in)
	require.ErrorIs(t, err, unit.ErrRange)
}

// No way of cutting beats the area bound, and a bigger piece never yields less.
func TestBiasNeverBeatsTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawLength(30*unit.Centimetre, 2*unit.Metre).Draw(t, "width")
		h := drawLength(30*unit.Centimetre, 2*unit.Metre).Draw(t, "height")
		strip := drawLength(2*unit.Centimetre, 10*unit.Centimetre).Draw(t, "strip")
		seam := drawLength(unit.Millimetre, unit.Centimetre).Draw(t, "seam")
		bound, err := allowance.BiasYieldBound(w, h, strip)
		require.NoError(t, err)

		tube := allowance.BiasTube{Width: w, Height: h, Strip: strip, Seam: seam}
		y, err := tube.Yield()
		require.NoError(t, err)
		require.LessOrEqual(t, y.Length, bound)
		require.LessOrEqual(t, float64(y.Share), 1.0)
		best, by, err := allowance.BestBiasTube(tube)
		require.NoError(t, err)
		require.GreaterOrEqual(t, by.Length, y.Length)
		again, err := best.Yield()
		require.NoError(t, err)
		require.Equal(t, by, again)
		tube.Height += unit.Centimetre
		more, err := tube.Yield()
		require.NoError(t, err)
		require.GreaterOrEqual(t, more.Length, y.Length)

		b := allowance.BiasStrips{Width: w, Height: h, Strip: strip, Seam: seam}
		s, err := b.Yield()
		require.NoError(t, err)
		require.LessOrEqual(t, s.Length, bound)
		b.Width, b.Height = h, w
		turned, err := b.Yield()
		require.NoError(t, err)
		require.InDelta(t, float64(s.Length), float64(turned.Length), 2, "strips do not care which side is which")
		b.Shortest = 20 * unit.Centimetre
		fewer, err := b.Yield()
		require.NoError(t, err)
		require.LessOrEqual(t, fewer.Strips, s.Strips)
	})
}

// Both ways: the goods found for a length yield it, and a little less do not.
func TestBiasBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLength(unit.Metre, 50*unit.Metre).Draw(t, "length")
		w := drawLength(50*unit.Centimetre, 2*unit.Metre).Draw(t, "width")
		strip := drawLength(2*unit.Centimetre, 10*unit.Centimetre).Draw(t, "strip")
		seam := drawLength(unit.Millimetre, unit.Centimetre).Draw(t, "seam")
		tube, err := allowance.BiasTubeFor(l, w, strip, seam, 0)
		require.NoError(t, err)
		if tube.Height < 2*seam+2*unit.Millimetre {
			return
		}
		y, err := tube.Yield()
		require.NoError(t, err)
		require.GreaterOrEqual(t, y.Length, l)
		tube.Height -= unit.Micrometre
		y, err = tube.Yield()
		require.NoError(t, err)
		require.Less(t, y.Length, l)

		sep, err := allowance.BiasStripsFor(l, allowance.BiasStrips{Width: w, Strip: strip, Seam: seam}, 0)
		require.NoError(t, err)
		y, err = sep.Yield()
		require.NoError(t, err)
		require.GreaterOrEqual(t, y.Length, l)
		sep.Height--
		y, err = sep.Yield()
		require.NoError(t, err)
		require.Less(t, y.Length, l)

		sq, err := allowance.BiasSquareFor(l, strip, seam)
		require.NoError(t, err)
		require.GreaterOrEqual(t, sq.Length, l)
		y, err = allowance.BiasTube{Width: sq.Side, Height: sq.Side, Strip: strip, Seam: seam}.Yield()
		require.NoError(t, err)
		require.Equal(t, sq.Turns, y.Strips)
		require.InDelta(t, float64(sq.Length), float64(y.Length), float64(4*sq.Turns))

		side, err := allowance.BiasSquareBound(l, strip, 0)
		require.NoError(t, err)
		require.LessOrEqual(t, side, sq.Side)
		bound, err := allowance.BiasYieldBound(side, side, strip)
		require.NoError(t, err)
		require.GreaterOrEqual(t, bound+1, l)
	})
}

// The customary chart never beats the area rule and keeps to its factor.
func TestBiasChartLiesUnderTheBound(t *testing.T) {
	least, usual, most, _ := allowance.BiasYieldFactor()
	require.True(t, least < usual && usual < most)
	n := 0
	for _, goods := range []unit.Length{35, 45, 54, 60} {
		for _, quarters := range []unit.Length{5, 7, 9, 11, 15} {
			got, basis, err := allowance.BiasChartYield(goods*unit.Inch, quarters*unit.Inch/4)
			require.NoError(t, err)
			assert.Equal(t, cite.CommonPractice, basis.Status)
			bound, err := allowance.BiasYieldBound(goods*unit.Inch, unit.Yard, quarters*unit.Inch/4)
			require.NoError(t, err)
			share := float64(got) / float64(bound)
			assert.GreaterOrEqual(t, share, float64(least)-0.005)
			assert.LessOrEqual(t, share, float64(most)+0.005)
			n++
		}
	}
	assert.Equal(t, 20, n)
	_, _, err := allowance.BiasChartYield(54*unit.Inch, 2*unit.Inch)
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, _, err = allowance.BiasChartYield(50*unit.Inch, 5*unit.Inch/4)
	require.ErrorIs(t, err, unit.ErrUnknown)
}

// Channels take more cloth than they cover, and more with more rise; the arc
// and the half ellipse meet at the half circle.
func TestChannels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawLength(unit.Centimetre, 30*unit.Centimetre).Draw(t, "width")
		h := drawLength(w/100+unit.Millimetre, w).Draw(t, "rise")
		for _, p := range []allowance.ChannelProfile{allowance.ArcProfile, allowance.EllipseProfile} {
			l, err := allowance.ChannelCover(p, w, h)
			require.NoError(t, err)
			require.Greater(t, l, w)
			more, err := allowance.ChannelCover(p, w, h+unit.Millimetre)
			require.NoError(t, err)
			require.Greater(t, more, l)
		}
		arc, err := allowance.ChannelCover(allowance.ArcProfile, 2*h, h)
		require.NoError(t, err)
		ell, err := allowance.ChannelCover(allowance.EllipseProfile, 2*h, h)
		require.NoError(t, err)
		require.InDelta(t, float64(arc), float64(ell), 1)

		c := allowance.Channels{
			Width: 50 * w, Height: unit.Metre, Count: rapid.IntRange(1, 40).Draw(t, "count"), Rise: h,
		}
		cut, err := c.Cut()
		require.NoError(t, err)
		n := 0
		var sewn unit.Length // cloth between the outer edges once the seams are sewn
		for _, p := range cut.Pieces {
			n += p.Count
			sewn += unit.Length(p.Count) * p.Width
		}
		require.Equal(t, c.Count, n)
		require.Equal(t, cut.OnePiece, sewn-unit.Length(c.Count-1)*unit.Inch)
		require.Equal(t, c.Count%2 == 0, cut.CentreSeam)
	})
}

// Buttons on the cloth keep the order and the count of those on the face, lie
// inside the net panel, and are spread by the same factor everywhere.
func TestTuftingPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tuft := allowance.Tufting{
			Width:  drawLength(50*unit.Centimetre, 2*unit.Metre).Draw(t, "width"),
			Height: drawLength(50*unit.Centimetre, 2*unit.Metre).Draw(t, "height"),
			Across: rapid.IntRange(1, 8).Draw(t, "across"),
			Down:   rapid.IntRange(1, 8).Draw(t, "down"),
			Depth:  drawLength(unit.Centimetre, 10*unit.Centimetre).Draw(t, "depth"),
			Border: drawLength(unit.Millimetre, 10*unit.Centimetre).Draw(t, "border"),
			Rule:   rapid.SampledFrom(allowance.TuftRules()).Draw(t, "rule"),
		}
		p, err := tuft.Plan()
		require.NoError(t, err)
		require.Equal(t, tuft.Across*(tuft.Down+1)+tuft.Down*(tuft.Across+1), p.Buttons)
		require.Len(t, p.Rows, 2*tuft.Down+1)
		wide := float64(p.NetWidth-2*tuft.Border) / float64(p.FieldWidth)
		require.GreaterOrEqual(t, wide, 1.0-1e-6)
		n := 0
		for i, row := range p.Rows {
			require.Len(t, row.ClothX, len(row.FaceX))
			n += len(row.FaceX)
			require.LessOrEqual(t, row.ClothY, p.NetHeight-tuft.Border)
			if i > 0 {
				require.Greater(t, row.ClothY, p.Rows[i-1].ClothY)
			}
			for k := range row.FaceX {
				got, want := float64(row.ClothX[k]-tuft.Border), wide*float64(row.FaceX[k]-tuft.Border)
				// Both places are rounded, and the spread enlarges the first.
				if math.Abs(got-want) > 1+wide || got < 0 || row.ClothX[k] > p.NetWidth-tuft.Border {
					t.Fatalf("row %d, button %d: %v on the face is %v on the cloth", i, k, row.FaceX[k], row.ClothX[k])
				}
			}
		}
		require.Equal(t, p.Buttons, n)
		require.Equal(t, p.NetWidth+2*unit.Inch, p.CutWidth)
	})
}

// A button that goes no deeper takes no cloth, except by the rule that looks
// at the spacing alone; and deeper never takes less.
func TestTuftRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		face := drawLength(unit.Centimetre, 50*unit.Centimetre).Draw(t, "face")
		depth := drawLength(unit.Millimetre, 10*unit.Centimetre).Draw(t, "depth")
		for _, r := range allowance.TuftRules() {
			flat, err := r.Spacing(face, 0)
			require.NoError(t, err)
			deep, err := r.Spacing(face, depth)
			require.NoError(t, err)
			require.GreaterOrEqual(t, deep, flat)
			if r != allowance.HalfAgain {
				require.Equal(t, face, flat)
			}
		}
		groove, err := allowance.Groove.Spacing(face, depth)
		require.NoError(t, err)
		twice, err := allowance.TwiceDepth.Spacing(face, depth)
		require.NoError(t, err)
		require.LessOrEqual(t, groove, twice, "down and up the V is shorter than straight down, across and up")
	})
}

func TestTuftingRefuses(t *testing.T) {
	ok := allowance.Tufting{Width: 30 * unit.Inch, Height: 20 * unit.Inch, Across: 4, Down: 3, Rule: allowance.TwiceDepth}
	for field, change := range map[string]func(*allowance.Tufting){
		"width":  func(x *allowance.Tufting) { x.Width = 0 },
		"height": func(x *allowance.Tufting) { x.Height = 3 },
		"border": func(x *allowance.Tufting) { x.Border = 10 * unit.Inch },
		"across": func(x *allowance.Tufting) { x.Across = 0 },
		"down":   func(x *allowance.Tufting) { x.Down = 201 },
		"depth":  func(x *allowance.Tufting) { x.Depth = -unit.Inch },
		"rule":   func(x *allowance.Tufting) { x.Rule = 0 },
		"tack":   func(x *allowance.Tufting) { x.Tack = allowance.Exactly(-unit.Inch) },
	} {
		x := ok
		change(&x)
		_, err := x.Plan()
		var in *unit.InputError
		require.ErrorAs(t, err, &in, field)
		assert.Equal(t, field, string(in.Field))
	}
	_, err := allowance.TuftRule(0).MarshalText()
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, err = allowance.TuftEdge(20*unit.Inch, 3*unit.Inch, 8)
	require.ErrorIs(t, err, unit.ErrRange)
	_, _, _, err = allowance.BiscuitCover(0, 5, unit.Inch, 0)
	require.ErrorContains(t, err, "across")
}

// Every fold of depth u takes 2 u of cloth, and the two ways to the ratio agree.
func TestPleats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 200).Draw(t, "count")
		p := drawLength(unit.Millimetre, 10*unit.Centimetre).Draw(t, "spacing")
		u := drawLength(unit.Millimetre, 10*unit.Centimetre).Draw(t, "underfold")
		knife, err := allowance.Pleats{Finished: p * unit.Length(n), Count: n, Underfold: u}.Cloth()
		require.NoError(t, err)
		require.Equal(t, unit.Length(n)*(p+2*u), knife.Cloth)
		ratio, err := allowance.KnifePleatRatio(u, p)
		require.NoError(t, err)
		require.InEpsilon(t, float64(ratio), float64(knife.Ratio), 1e-12)

		// box pleats of face f with gaps g, folded under half the face each side
		f := 2 * drawLength(unit.Millimetre, 10*unit.Centimetre).Draw(t, "half face")
		g := drawLength(unit.Millimetre, 10*unit.Centimetre).Draw(t, "gap")
		box, err := allowance.Pleats{Kind: allowance.BoxPleat, Finished: (f + g) * unit.Length(n), Count: n, Underfold: f / 2}.Cloth()
		require.NoError(t, err)
		boxRatio, err := allowance.BoxPleatRatio(f, g)
		require.NoError(t, err)
		require.InEpsilon(t, float64(boxRatio), float64(box.Ratio), 1e-12)
		require.False(t, box.Meets)
		inverted, err := allowance.Pleats{Kind: allowance.InvertedPleat, Finished: (f + g) * unit.Length(n), Count: n, Underfold: f / 2}.Cloth()
		require.NoError(t, err)
		require.Equal(t, box, inverted, "the same cloth, turned round")
	})
	_, err := allowance.Pleats{Finished: unit.Yard, Count: 3, Underfold: unit.Inch, Double: true}.Cloth()
	require.ErrorContains(t, err, "double")
	_, err = allowance.Pleats{Kind: 7, Finished: unit.Yard, Count: 3, Underfold: unit.Inch}.Cloth()
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, err = allowance.FullnessNamed("none")
	require.ErrorIs(t, err, unit.ErrUnknown)
}

// The pieces of a skirt, sewn, come to the base times the fullness.
func TestSkirtsComeRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := allowance.GatheredSkirt{
			Base:     drawLength(unit.Metre, 5*unit.Metre).Draw(t, "base"),
			Drop:     drawLength(10*unit.Centimetre, 40*unit.Centimetre).Draw(t, "drop"),
			Fullness: unit.Ratio(rapid.Float64Range(1, 4).Draw(t, "fullness")),
			Longest:  drawLength(50*unit.Centimetre, 2*unit.Metre).Draw(t, "longest"),
			Bottom:   allowance.Edge{Finish: allowance.DoubleHem},
		}
		c, err := g.Cut()
		require.NoError(t, err)
		var sewn unit.Length
		n := 0
		for _, p := range c.Pieces {
			require.LessOrEqual(t, p.Length, g.Longest)
			require.Equal(t, g.Drop+2*unit.Inch, p.Width)
			sewn += unit.Length(p.Count) * (p.Length - unit.Inch)
			n += p.Count
		}
		require.Equal(t, c.Sewn, sewn)
		require.Equal(t, c.Joins, n)
		require.InDelta(t, float64(g.Base)*float64(g.Fullness), float64(sewn), 1)
	})
	_, err := allowance.GatheredSkirt{Base: unit.Yard, Drop: unit.Foot}.Cut()
	require.ErrorContains(t, err, "fullness")
	_, err = allowance.PleatedSkirt{Drop: unit.Foot}.Cut()
	require.ErrorContains(t, err, "pleats.finished")
	_, err = allowance.KickPleatSkirt{Drop: unit.Foot}.Cut()
	require.ErrorContains(t, err, "sides")
	_, err = allowance.KickPleatSkirt{Drop: unit.Foot, Sides: []unit.Length{unit.Foot, 0}}.Cut()
	require.ErrorContains(t, err, "sides[1]")
	_, err = allowance.Wrap{}.Cut()
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = allowance.Wrap{Faces: []unit.Length{unit.Foot, -unit.Foot}}.Cut()
	require.ErrorContains(t, err, "faces[1]")
}

// Whatever the fit, plates and boxing meet at the stitch line; the snug fit
// cuts to the filling, the neutral fit finishes at it.
func TestCushionsMeetAtTheStitchLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawLength(5*unit.Millimetre, 2*unit.Centimetre).Draw(t, "seam")
		b := allowance.BoxedCushion{
			Width:     drawLength(50*unit.Centimetre, 2*unit.Metre).Draw(t, "width"),
			Depth:     drawLength(50*unit.Centimetre, unit.Metre).Draw(t, "depth"),
			Thickness: drawLength(5*unit.Centimetre, 20*unit.Centimetre).Draw(t, "thickness"),
			Seam:      allowance.Exactly(s), Zip: rapid.Bool().Draw(t, "zip"), Welted: true,
			Fit: rapid.SampledFrom([]allowance.CushionFit{allowance.NeutralFit, allowance.SnugFit}).Draw(t, "fit"),
		}
		c, err := b.Cut()
		require.NoError(t, err)
		sewn := c.Boxing.Length - 2*s
		if b.Zip {
			sewn += c.Boxing.ZipLength - 2*s
		}
		require.Equal(t, c.Perimeter, sewn)
		require.Equal(t, c.Perimeter, 2*(c.Plate.SeamWidth+c.Plate.SeamHeight))
		require.Equal(t, []unit.Length{c.Perimeter, c.Perimeter}, c.Welt)
		grow := 2 * s
		if b.Fit == allowance.SnugFit {
			grow = 0
		}
		require.Equal(t, b.Width+grow, c.Plate.Width)
		require.Equal(t, b.Depth+grow, c.Plate.Height)
		require.Equal(t, b.Thickness+grow, c.Boxing.Width)

		// a T without ears is the plain cushion
		plain, err := allowance.TCushion{
			Width: b.Width, Depth: b.Depth, Thickness: b.Thickness, EarDepth: b.Depth / 2, Fit: b.Fit, Seam: b.Seam, Welted: true, Zip: b.Zip,
		}.Cut()
		require.NoError(t, err)
		require.Equal(t, c.Plate.Width, plain.Width)
		require.Equal(t, c.Perimeter, plain.Perimeter)
		require.InDelta(t, float64(c.Plate.Area), float64(plain.PlateArea), 3)
		require.Equal(t, c.Boxing, plain.Boxing)

		// ears leave the perimeter and take away their notches
		ear := drawLength(unit.Centimetre, 10*unit.Centimetre).Draw(t, "ear")
		withEars, err := allowance.TCushion{
			Width: b.Width, Depth: b.Depth, Thickness: b.Thickness, EarDepth: b.Depth / 2, LeftEar: ear, RightEar: ear, Fit: b.Fit, Seam: b.Seam,
		}.Cut()
		require.NoError(t, err)
		require.Equal(t, c.Perimeter, withEars.Perimeter)
		notch, err := (2 * ear).By(b.Depth - b.Depth/2)
		require.NoError(t, err)
		require.InDelta(t, float64(c.Plate.Area-notch), float64(withEars.PlateArea), 4)
	})
}

// Body and end of a bolster have the same stitch line; so have the main piece
// and the side of a waterfall cushion.
func TestBolsterAndWaterfallMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := allowance.Bolster{
			Length:   drawLength(10*unit.Centimetre, 2*unit.Metre).Draw(t, "length"),
			Diameter: drawLength(10*unit.Centimetre, unit.Metre).Draw(t, "diameter"),
			Smaller:  drawLength(unit.Millimetre, 5*unit.Centimetre).Draw(t, "smaller"),
		}
		c, err := b.Cut()
		require.NoError(t, err)
		end, err := allowance.CircleCircumference(c.End - unit.Inch)
		require.NoError(t, err)
		require.Equal(t, end, c.BodyGirth-unit.Inch)

		w := allowance.WaterfallCushion{
			Width:     drawLength(10*unit.Centimetre, 2*unit.Metre).Draw(t, "width"),
			Depth:     drawLength(30*unit.Centimetre, unit.Metre).Draw(t, "depth"),
			Thickness: drawLength(unit.Centimetre, 20*unit.Centimetre).Draw(t, "thickness"),
		}
		square, err := w.Cut()
		require.NoError(t, err)
		require.Equal(t, 2*w.Depth+w.Thickness, square.SideSeam)
		w.Round = true
		round, err := w.Cut()
		require.NoError(t, err)
		// the half stadium: two straights and half a circle
		half, err := allowance.StadiumPerimeter(w.Thickness/2, 2*w.Depth-w.Thickness)
		require.NoError(t, err)
		require.InDelta(t, float64(half)/2, float64(round.SideSeam), 4)
		require.Less(t, round.Wrap, square.Wrap, "rounding the nose saves cloth")
	})
}

func TestCushionsRefuse(t *testing.T) {
	const in = unit.Inch
	for want, f := range map[string]func() error{
		"width": func() error { _, err := allowance.KnifeEdgeCushion{Height: in}.Cut(); return err },
		"finish": func() error {
			_, err := allowance.KnifeEdgeCushion{Width: in, Height: in, Finish: allowance.Raw}.Cut()
			return err
		},
		"fit": func() error { _, err := allowance.KnifeEdgeCushion{Width: in, Height: in, Fit: 9}.Cut(); return err },
		"height": func() error {
			_, err := allowance.KnifeEdgeCushion{Width: 9 * in, Height: in, Fit: allowance.SnugFit}.Cut()
			return err
		},
		"thickness": func() error { _, err := allowance.BoxedCushion{Width: in, Depth: in}.Cut(); return err },
		"boxing.zip": func() error {
			_, err := allowance.BoxedCushion{Width: in, Depth: in, Thickness: in, Zip: true}.Cut()
			return err
		},
		"diameter": func() error { _, err := allowance.RoundCushion{}.Cut(); return err },
		"ear_depth": func() error {
			_, err := allowance.TCushion{Width: 9 * in, Depth: 9 * in, Thickness: in}.Cut()
			return err
		},
		"depth":   func() error { _, err := allowance.WaterfallCushion{Width: in, Thickness: in}.Cut(); return err },
		"smaller": func() error { _, err := allowance.Bolster{Length: in, Diameter: in, Smaller: in}.Cut(); return err },
		"seam": func() error {
			_, err := allowance.Bolster{Length: in, Diameter: in, Seam: allowance.Exactly(-in)}.Cut()
			return err
		},
		"count":     func() error { _, err := allowance.Channels{Width: in, Height: in, Rise: in}.Cut(); return err },
		"strip":     func() error { _, err := allowance.BiasTube{Width: 9 * in, Height: 9 * in}.Yield(); return err },
		"corners":   func() error { _, err := allowance.CornerPleatLength(in, -1, in); return err },
		"profile":   func() error { _, err := allowance.ChannelCover(9, in, in); return err },
		"larger":    func() error { _, err := allowance.PatchLap(0, 0); return err },
		"fold":      func() error { _, err := allowance.PatchLap(in, in); return err },
		"single":    func() error { _, _, err := allowance.DoubleWeltWidth(0); return err },
		"cord":      func() error { _, _, err := allowance.WeltWidthByMultiple(0); return err },
		"girth":     func() error { _, err := allowance.WeltWidthByGirth(0, in); return err },
		"goods":     func() error { _, _, err := allowance.StripsAcrossFor(in, 0, in); return err },
		"length":    func() error { _, err := allowance.BiasSquareFor(0, in, 0); return err },
		"underfold": func() error { _, err := allowance.KnifePleatRatio(0, in); return err },
		"face":      func() error { _, err := allowance.BoxPleatRatio(0, in); return err },
		"piece":     func() error { _, err := allowance.CornerPleatLength(in, 1, -in); return err },
		"longest": func() error {
			_, err := allowance.GatheredSkirt{Base: 90 * in, Drop: in, Fullness: 2, Longest: in}.Cut()
			return err
		},
		"base": func() error { _, err := allowance.GatheredSkirt{Drop: in, Fullness: 2}.Cut(); return err },
		"top.finish": func() error {
			_, err := allowance.GatheredSkirt{Base: in, Drop: in, Fullness: 2, Top: allowance.Edge{Finish: 99}}.Cut()
			return err
		},
		"start.hand": func() error {
			_, err := allowance.Wrap{Faces: []unit.Length{in}, Start: allowance.Edge{Handling: -in}}.Cut()
			return err
		},
		"shape.large": func() error { _, err := allowance.TubBand{}.Cut(); return err },
	} {
		t.Run(want, func(t *testing.T) {
			err := f()
			var e *unit.InputError
			require.True(t, errors.As(err, &e), "%v", err)
			assert.Contains(t, e.Field, want)
		})
	}
}

// Every set of names reads back what it writes and refuses the rest.
func TestNames(t *testing.T) {
	type name interface {
		fmt.Stringer
		encoding.TextMarshaler
	}
	for _, c := range []struct {
		member name
		read   func([]byte) (name, error)
	}{
		{allowance.StraightJoin, func(b []byte) (name, error) { var v allowance.Join; err := v.UnmarshalText(b); return v, err }},
		{allowance.DiagonalJoin, func(b []byte) (name, error) { var v allowance.Join; err := v.UnmarshalText(b); return v, err }},
		{allowance.WillNotSew, func(b []byte) (name, error) { var v allowance.Verdict; err := v.UnmarshalText(b); return v, err }},
		{allowance.InvertedPleat, func(b []byte) (name, error) { var v allowance.PleatKind; err := v.UnmarshalText(b); return v, err }},
		{allowance.EllipseProfile, func(b []byte) (name, error) { var v allowance.ChannelProfile; err := v.UnmarshalText(b); return v, err }},
		{allowance.SnugFit, func(b []byte) (name, error) { var v allowance.CushionFit; err := v.UnmarshalText(b); return v, err }},
		{allowance.ChordForm, func(b []byte) (name, error) { var v allowance.GoreForm; err := v.UnmarshalText(b); return v, err }},
		{allowance.HalfAgain, func(b []byte) (name, error) { var v allowance.TuftRule; err := v.UnmarshalText(b); return v, err }},
		{allowance.Groove, func(b []byte) (name, error) { var v allowance.TuftRule; err := v.UnmarshalText(b); return v, err }},
	} {
		text, err := c.member.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, c.member.String(), string(text))
		back, err := c.read(text)
		require.NoError(t, err)
		assert.Equal(t, c.member, back)
		_, err = c.read([]byte("nothing of the sort"))
		require.ErrorIs(t, err, unit.ErrUnknown)
	}
	for _, bad := range []name{
		allowance.Join(9), allowance.Verdict(9), allowance.PleatKind(9), allowance.ChannelProfile(9),
		allowance.CushionFit(9), allowance.GoreForm(9), allowance.TuftRule(9),
	} {
		_, err := bad.MarshalText()
		require.ErrorIs(t, err, unit.ErrUnknown)
	}
}
