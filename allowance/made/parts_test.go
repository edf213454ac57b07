package made_test

import (
	"encoding"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// No way of cutting beats the area bound, and a bigger piece never yields less.
func TestBiasNeverBeatsTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawLength(30*unit.Centimetre, 2*unit.Metre).Draw(t, "width")
		h := drawLength(30*unit.Centimetre, 2*unit.Metre).Draw(t, "height")
		strip := drawLength(2*unit.Centimetre, 10*unit.Centimetre).Draw(t, "strip")
		seam := drawLength(unit.Millimetre, unit.Centimetre).Draw(t, "seam")
		bound, err := made.BiasYieldBound(w, h, strip)
		require.NoError(t, err)

		tube := made.BiasTube{Width: w, Height: h, Strip: strip, Seam: seam}
		y, err := tube.Yield()
		require.NoError(t, err)
		require.LessOrEqual(t, y.Length, bound)
		require.LessOrEqual(t, float64(y.Share), 1.0)
		best, by, err := made.BestBiasTube(tube)
		require.NoError(t, err)
		require.GreaterOrEqual(t, by.Length, y.Length)
		again, err := best.Yield()
		require.NoError(t, err)
		require.Equal(t, by, again)
		tube.Height += unit.Centimetre
		more, err := tube.Yield()
		require.NoError(t, err)
		require.GreaterOrEqual(t, more.Length, y.Length)

		b := made.BiasStrips{Width: w, Height: h, Strip: strip, Seam: seam}
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
		tube, err := made.BiasTubeFor(l, w, strip, seam, 0)
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

		sep, err := made.BiasStripsFor(l, made.BiasStrips{Width: w, Strip: strip, Seam: seam}, 0)
		require.NoError(t, err)
		y, err = sep.Yield()
		require.NoError(t, err)
		require.GreaterOrEqual(t, y.Length, l)
		sep.Height--
		y, err = sep.Yield()
		require.NoError(t, err)
		require.Less(t, y.Length, l)

		sq, err := made.BiasSquareFor(l, strip, seam)
		require.NoError(t, err)
		require.GreaterOrEqual(t, sq.Length, l)
		y, err = made.BiasTube{Width: sq.Side, Height: sq.Side, Strip: strip, Seam: seam}.Yield()
		require.NoError(t, err)
		require.Equal(t, sq.Turns, y.Strips)
		require.InDelta(t, float64(sq.Length), float64(y.Length), float64(4*sq.Turns))

		side, err := made.BiasSquareBound(l, strip, 0)
		require.NoError(t, err)
		require.LessOrEqual(t, side, sq.Side)
		bound, err := made.BiasYieldBound(side, side, strip)
		require.NoError(t, err)
		require.GreaterOrEqual(t, bound+1, l)
	})
}

// The customary chart never beats the area rule and keeps to its factor.
func TestBiasChartLiesUnderTheBound(t *testing.T) {
	factor := made.BiasYieldFactor()
	least, most := factor.Least, factor.Most
	require.True(t, least < factor.Usual && factor.Usual < most)
	n := 0
	for _, goods := range []unit.Length{35, 45, 54, 60} {
		for _, quarters := range []unit.Length{5, 7, 9, 11, 15} {
			got, basis, err := made.BiasChartYield(goods*unit.Inch, quarters*unit.Inch/4)
			require.NoError(t, err)
			assert.Equal(t, cite.CommonPractice, basis.Status)
			bound, err := made.BiasYieldBound(goods*unit.Inch, unit.Yard, quarters*unit.Inch/4)
			require.NoError(t, err)
			share := float64(got) / float64(bound)
			assert.GreaterOrEqual(t, share, float64(least)-0.005)
			assert.LessOrEqual(t, share, float64(most)+0.005)
			n++
		}
	}
	assert.Equal(t, 20, n)
	_, _, err := made.BiasChartYield(54*unit.Inch, 2*unit.Inch)
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, _, err = made.BiasChartYield(50*unit.Inch, 5*unit.Inch/4)
	require.ErrorIs(t, err, unit.ErrUnknown)
}

// Channels take more cloth than they cover, and more with more rise; the arc
// and the half ellipse meet at the half circle.
func TestChannels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawLength(unit.Centimetre, 30*unit.Centimetre).Draw(t, "width")
		h := drawLength(w/100+unit.Millimetre, w).Draw(t, "rise")
		for _, p := range []made.ChannelProfile{made.ArcProfile, made.EllipseProfile} {
			l, err := made.ChannelCover(p, w, h)
			require.NoError(t, err)
			require.Greater(t, l, w)
			more, err := made.ChannelCover(p, w, h+unit.Millimetre)
			require.NoError(t, err)
			require.Greater(t, more, l)
		}
		arc, err := made.ChannelCover(made.ArcProfile, 2*h, h)
		require.NoError(t, err)
		ell, err := made.ChannelCover(made.EllipseProfile, 2*h, h)
		require.NoError(t, err)
		require.InDelta(t, float64(arc), float64(ell), 1)

		c := made.Channels{
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
		tuft := made.Tufting{
			Width:  drawLength(50*unit.Centimetre, 2*unit.Metre).Draw(t, "width"),
			Height: drawLength(50*unit.Centimetre, 2*unit.Metre).Draw(t, "height"),
			Across: rapid.IntRange(1, 8).Draw(t, "across"),
			Down:   rapid.IntRange(1, 8).Draw(t, "down"),
			Depth:  drawLength(unit.Centimetre, 10*unit.Centimetre).Draw(t, "depth"),
			Border: drawLength(unit.Millimetre, 10*unit.Centimetre).Draw(t, "border"),
			Rule:   rapid.SampledFrom(made.TuftRules()).Draw(t, "rule"),
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
			// Rows lie evenly on the face, from one end of the field to the other.
			even := float64(p.FieldHeight) * float64(i) / float64(2*tuft.Down)
			require.InDelta(t, even, float64(row.FaceY-tuft.Border), 1)
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
		for _, r := range made.TuftRules() {
			flat, err := r.Spacing(face, 0)
			require.NoError(t, err)
			deep, err := r.Spacing(face, depth)
			require.NoError(t, err)
			require.GreaterOrEqual(t, deep, flat)
			if r != made.HalfAgain {
				require.Equal(t, face, flat)
			}
		}
		groove, err := made.Groove.Spacing(face, depth)
		require.NoError(t, err)
		twice, err := made.TwiceDepth.Spacing(face, depth)
		require.NoError(t, err)
		require.LessOrEqual(t, groove, twice, "down and up the V is shorter than straight down, across and up")
	})
}

func TestTuftingRefuses(t *testing.T) {
	ok := made.Tufting{Width: 30 * unit.Inch, Height: 20 * unit.Inch, Across: 4, Down: 3, Rule: made.TwiceDepth}
	for field, change := range map[string]func(*made.Tufting){
		"width":  func(x *made.Tufting) { x.Width = 0 },
		"height": func(x *made.Tufting) { x.Height = 3 },
		"border": func(x *made.Tufting) { x.Border = 10 * unit.Inch },
		"across": func(x *made.Tufting) { x.Across = 0 },
		"down":   func(x *made.Tufting) { x.Down = 201 },
		"depth":  func(x *made.Tufting) { x.Depth = -unit.Inch },
		"rule":   func(x *made.Tufting) { x.Rule = 0 },
		"tack":   func(x *made.Tufting) { x.Tack = allowance.Exactly(-unit.Inch) },
	} {
		x := ok
		change(&x)
		_, err := x.Plan()
		var in *unit.InputError
		require.ErrorAs(t, err, &in, field)
		assert.Equal(t, field, string(in.Field))
	}
	_, err := made.TuftRule(9).MarshalText()
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, err = made.TuftEdge(20*unit.Inch, 3*unit.Inch, 8)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = made.BiscuitCover(0, 5, unit.Inch, 0)
	require.ErrorContains(t, err, "across")
}

// Every fold of depth u takes 2 u of cloth, and the two ways to the ratio agree.
func TestPleats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 200).Draw(t, "count")
		p := drawLength(unit.Millimetre, 10*unit.Centimetre).Draw(t, "spacing")
		u := drawLength(unit.Millimetre, 4*p).Draw(t, "underfold") // 9 times the cloth
		knife, err := made.Pleats{Finished: p * unit.Length(n), Count: n, Underfold: u}.Cloth()
		require.NoError(t, err)
		require.Equal(t, unit.Length(n)*(p+2*u), knife.Cloth)
		ratio, err := made.KnifePleatRatio(u, p)
		require.NoError(t, err)
		require.InEpsilon(t, float64(ratio), float64(knife.Ratio), 1e-12)

		// box pleats of face f with gaps g, folded under half the face each side
		f := 2 * drawLength(unit.Millimetre, 10*unit.Centimetre).Draw(t, "half face")
		g := drawLength(unit.Millimetre, 10*unit.Centimetre).Draw(t, "gap")
		box, err := made.Pleats{Kind: made.BoxPleat, Finished: (f + g) * unit.Length(n), Count: n, Underfold: f / 2}.Cloth()
		require.NoError(t, err)
		boxRatio, err := made.BoxPleatRatio(f, g)
		require.NoError(t, err)
		require.InEpsilon(t, float64(boxRatio), float64(box.Ratio), 1e-12)
		require.False(t, box.Meets)
		inverted, err := made.Pleats{Kind: made.InvertedPleat, Finished: (f + g) * unit.Length(n), Count: n, Underfold: f / 2}.Cloth()
		require.NoError(t, err)
		require.Equal(t, box, inverted, "the same cloth, turned round")
	})
	_, err := made.Pleats{Finished: unit.Yard, Count: 3, Underfold: unit.Inch, Double: true}.Cloth()
	require.ErrorContains(t, err, "double")
	_, err = made.Pleats{Kind: made.BoxPleat, Finished: 50 * unit.Inch, Count: 1000, Underfold: unit.Inch}.Cloth()
	require.ErrorContains(t, err, "underfold")
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = made.Pleats{Kind: 7, Finished: unit.Yard, Count: 3, Underfold: unit.Inch}.Cloth()
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, err = made.FullnessNamed("none")
	require.ErrorIs(t, err, unit.ErrUnknown)
}

// The pieces of a skirt, sewn, come to the base times the fullness.
func TestSkirtsComeRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := made.GatheredSkirt{
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
	_, err := made.GatheredSkirt{Base: unit.Yard, Drop: unit.Foot}.Cut()
	require.ErrorContains(t, err, "fullness")
	_, err = made.PleatedSkirt{Drop: unit.Foot}.Cut()
	require.ErrorContains(t, err, "pleats.finished")
	_, err = made.KickPleatSkirt{Drop: unit.Foot}.Cut()
	require.ErrorContains(t, err, "sides")
	_, err = made.KickPleatSkirt{Drop: unit.Foot, Sides: []unit.Length{unit.Foot, 0}}.Cut()
	require.ErrorContains(t, err, "sides[1]")
	_, err = made.Wrap{}.Cut()
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = made.Wrap{Faces: []unit.Length{unit.Foot, -unit.Foot}}.Cut()
	require.ErrorContains(t, err, "faces[1]")
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
		{made.StraightJoin, func(b []byte) (name, error) { var v made.Join; err := v.UnmarshalText(b); return v, err }},
		{made.DiagonalJoin, func(b []byte) (name, error) { var v made.Join; err := v.UnmarshalText(b); return v, err }},
		{allowance.WillNotSew, func(b []byte) (name, error) { var v allowance.Verdict; err := v.UnmarshalText(b); return v, err }},
		{made.InvertedPleat, func(b []byte) (name, error) { var v made.PleatKind; err := v.UnmarshalText(b); return v, err }},
		{made.EllipseProfile, func(b []byte) (name, error) { var v made.ChannelProfile; err := v.UnmarshalText(b); return v, err }},
		{made.SnugFit, func(b []byte) (name, error) { var v made.CushionFit; err := v.UnmarshalText(b); return v, err }},
		{made.ChordForm, func(b []byte) (name, error) { var v made.GoreForm; err := v.UnmarshalText(b); return v, err }},
		{made.HalfAgain, func(b []byte) (name, error) { var v made.TuftRule; err := v.UnmarshalText(b); return v, err }},
		{made.Groove, func(b []byte) (name, error) { var v made.TuftRule; err := v.UnmarshalText(b); return v, err }},
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
		made.Join(9), allowance.Verdict(9), made.PleatKind(9), made.ChannelProfile(9),
		made.CushionFit(9), made.GoreForm(9), made.TuftRule(9),
	} {
		_, err := bad.MarshalText()
		require.ErrorIs(t, err, unit.ErrUnknown)
	}
}

// The returns of a kick pleat are in the units of its sides: 11 cm, or 4 1/2 in.
func TestKickPleatInTheUnitsOfItsSides(t *testing.T) {
	for _, x := range []struct{ side, panel, underlay unit.Length }{
		{26 * unit.Inch, 35 * unit.Inch, 9 * unit.Inch},
		{60 * unit.Centimetre, 82 * unit.Centimetre, 22 * unit.Centimetre},
	} {
		s := made.Skirt{Kind: made.KickPleats, Sides: []unit.Length{x.side, x.side}, Drop: 6 * unit.Inch, Bottom: allowance.Edge{Finish: allowance.DoubleHem}}
		c, err := s.Cover(made.Goods{ID: "cloth"})
		require.NoError(t, err)
		var sizes []unit.Length
		for _, p := range c.Panels {
			w, _ := p.Outline.Size()
			sizes = append(sizes, w)
		}
		require.Equal(t, []unit.Length{x.underlay, x.panel, x.panel}, sizes)
	}
}
