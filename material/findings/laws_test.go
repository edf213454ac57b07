package findings_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/unit"
)

func quarters(lo, hi int) *rapid.Generator[unit.Length] {
	return rapid.Map(rapid.IntRange(lo, hi), func(n int) unit.Length { return unit.Length(n) * in / 4 })
}

func buying(t *rapid.T) findings.Buying[unit.Length] {
	b := findings.Buying[unit.Length]{Waste: unit.Ratio(rapid.IntRange(0, 200).Draw(t, "waste")) / 1000, Step: quarters(0, 200).Draw(t, "step")}
	if rapid.Bool().Draw(t, "packed") {
		b.Pack = max(b.Step, in) + quarters(0, 2000).Draw(t, "pack")
	}
	return b
}

// No step is smaller than the one before; packs cover the use, and one fewer
// does not; nothing is rounded further than it must be.
func TestStepsNeverShrink(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := buying(t)
		net, ends := quarters(0, 10_000).Draw(t, "net"), quarters(0, 100).Draw(t, "ends")
		s, err := b.Steps(net, ends)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, s.Gross, s.Net+s.Ends)
		assert.GreaterOrEqual(t, s.Use, s.Gross)
		assert.Less(t, s.Use-s.Gross, max(b.Step, 1))
		if b.Step > 0 {
			assert.Zero(t, s.Use%b.Step)
		}
		if b.Pack > 0 {
			assert.GreaterOrEqual(t, unit.Length(s.Packs)*b.Pack, s.Use)
			assert.Less(t, unit.Length(s.Packs-1)*b.Pack, max(s.Use, 1))
		}
	})
}

// Two pieces of furniture bought as one never take more than each by itself.
func TestOneOrderIsNeverMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := buying(t)
		x, y := quarters(0, 5000).Draw(t, "x"), quarters(0, 5000).Draw(t, "y")
		apart, err := b.Steps(x, 0)
		require.NoError(t, err)
		other, err := b.Steps(y, 0)
		require.NoError(t, err)
		both, err := b.Steps(x+y, 0)
		require.NoError(t, err)
		assert.LessOrEqual(t, both.Use, apart.Use+other.Use)
		assert.LessOrEqual(t, both.Packs, apart.Packs+other.Packs)
		assert.GreaterOrEqual(t, both.Use, max(apart.Use, other.Use))
	})
}

// Strips and gaps fill the opening, and no gap is wider than asked for unless
// the strips already touch.
func TestWebbingLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := findings.Webbing{
			Width: unit.Length(rapid.IntRange(16, 160).Draw(t, "width")) * in / 2,
			Depth: unit.Length(rapid.IntRange(16, 160).Draw(t, "depth")) * in / 2,
			Strip: unit.Length(rapid.IntRange(8, 16).Draw(t, "strip")) * in / 4,
			Gap:   unit.Length(rapid.IntRange(1, 12).Draw(t, "gap")) * in / 4,
		}
		p, err := w.Plan()
		require.NoError(t, err)
		for _, x := range []struct {
			n       int
			gap, of unit.Length
		}{{p.FrontToBack, p.GapAcross, w.Width}, {p.SideToSide, p.GapAlong, w.Depth}} {
			n := unit.Length(x.n)
			assert.LessOrEqual(t, x.of-n*w.Strip-(n+1)*x.gap, n, "filled but for rounding")
			assert.GreaterOrEqual(t, x.gap, unit.Length(0))
			if (n+1)*w.Strip <= x.of {
				assert.LessOrEqual(t, x.gap, w.Gap)
			}
		}
		assert.Equal(t, p.Total, unit.Length(p.FrontToBack)*(w.Depth+6*in)+unit.Length(p.SideToSide)*(w.Width+6*in))
		w.OneWay = true
		one, err := w.Plan()
		require.NoError(t, err)
		assert.Equal(t, p.FrontToBack, one.FrontToBack)
		assert.Zero(t, one.SideToSide)
		assert.LessOrEqual(t, one.Fasteners, p.Fasteners)
	})
}

// A strip is cut shorter than the opening and its ends, and stretched by its
// share it spans the opening again.
func TestElasticSpansTheOpening(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := findings.Elastic{Across: quarters(20, 300).Draw(t, "across"), Span: quarters(20, 300).Draw(t, "span"), Strip: 2 * in,
			Stretch: unit.Ratio(rapid.IntRange(1, 50).Draw(t, "stretch")) / 100, Back: rapid.Bool().Draw(t, "back"), Clips: rapid.Bool().Draw(t, "clips")}
		p, err := e.Plan()
		require.NoError(t, err)
		assert.Less(t, p.Relaxed, e.Span)
		stretched, err := p.Relaxed.Scale(1+e.Stretch, unit.Nearest)
		require.NoError(t, err)
		assert.InDelta(t, int64(e.Span), int64(stretched), 1)
	})
}

// Springs stay off the sides, are no further apart than asked for, and an arc is
// longer than the depth it crosses; a wider frame never takes fewer.
func TestZigzagLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		z := findings.Zigzag{Width: quarters(20, 400).Draw(t, "width"), Depth: quarters(40, 120).Draw(t, "depth"), Back: rapid.Bool().Draw(t, "back")}
		p, err := z.Plan()
		require.NoError(t, err)
		most := 5 * in
		if z.Back {
			most = 7 * in
		}
		assert.LessOrEqual(t, p.Spacing, most)
		assert.Less(t, unit.Length(p.Springs-1)*p.Spacing, z.Width)
		assert.Greater(t, p.Arc, z.Depth)
		assert.Less(t, p.Arc, z.Depth*5/4)
		z.Width += quarters(1, 80).Draw(t, "more")
		wide, err := z.Plan()
		require.NoError(t, err)
		assert.GreaterOrEqual(t, wide.Springs, p.Springs)
		assert.Greater(t, wide.TieWire, p.TieWire)
	})
}

// Coils lie inside the margins and do not overlap; the diagonals take more
// twine, and no less than once over every step; a turned frame takes as much.
func TestCoilLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := findings.Coils{Width: quarters(44, 300).Draw(t, "width"), Depth: quarters(44, 300).Draw(t, "depth"), Rail: 2 * in}
		p, err := c.Plan()
		require.NoError(t, err)
		for _, x := range []struct {
			n       int
			gap, of unit.Length
		}{{p.Across, p.GapAcross, c.Width}, {p.Deep, p.GapDeep, c.Depth}} {
			n := unit.Length(x.n)
			used := 6*in + n*5*in + (n-1)*x.gap
			assert.LessOrEqual(t, used, x.of)
			if n > 1 {
				assert.Less(t, x.of-used, n, "filled but for rounding")
			}
		}
		turned, err := findings.Coils{Width: c.Depth, Depth: c.Width}.Plan()
		require.NoError(t, err)
		assert.Equal(t, []any{p.Springs, p.Strands, p.Twine}, []any{turned.Springs, turned.Strands, turned.Twine})
		assert.Equal(t, 4*in, p.Height)
		c.Light, c.Clips = true, true
		light, err := c.Plan()
		require.NoError(t, err)
		assert.Less(t, light.Twine, p.Twine)
		assert.Equal(t, p.Across+p.Deep, light.Strands)
		assert.Zero(t, light.Stitching)
		assert.Equal(t, 4*p.Springs, light.Clips)
	})
}

// Rows hold every piece: no shorter than the longest or than the area asks for,
// no longer than all pieces one after the other; more cloth never takes less.
func TestClothLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := findings.Cloth{Roll: 40 * in}
		var area, longest, all float64
		add := func() {
			x := findings.ClothPiece{Width: quarters(4, 160).Draw(t, "width"), Length: quarters(4, 400).Draw(t, "length"), Count: rapid.IntRange(1, 4).Draw(t, "count")}
			c.Pieces = append(c.Pieces, x)
			area += float64(x.Count) * x.Width.Inches() * x.Length.Inches()
			longest = max(longest, x.Length.Inches())
			all += float64(x.Count) * x.Length.Inches()
		}
		for range rapid.IntRange(1, 6).Draw(t, "pieces") {
			add()
		}
		p, err := c.Plan()
		require.NoError(t, err)
		assert.GreaterOrEqual(t, p.Length.Inches()*40, area-1e-6)
		assert.GreaterOrEqual(t, p.Length.Inches(), longest)
		assert.LessOrEqual(t, p.Length.Inches(), all)
		assert.Zero(t, p.Turned)
	})
}

// A piece too wide for the roll lies along it.
func TestClothTurns(t *testing.T) {
	p, err := findings.Cloth{Roll: 36 * in, Pieces: []findings.ClothPiece{{Width: 82 * in, Length: 32 * in, Count: 2}}}.Plan()
	require.NoError(t, err)
	assert.Equal(t, findings.ClothPlan{Rows: 2, Length: 164 * in, Turned: 2}, p)
}

// Sticks cover each run, and one fewer does not.
func TestSticksCoverEachRun(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		run, stick := quarters(1, 2000).Draw(t, "run"), quarters(80, 144).Draw(t, "stick")
		n, err := findings.TackStrip{Runs: []unit.Length{run, run}, Stick: stick}.Sticks()
		require.NoError(t, err)
		assert.GreaterOrEqual(t, unit.Length(n)*stick, 2*run)
		assert.Less(t, unit.Length(n/2-1)*stick, run)
	})
}

// Nails stand on the corners and never overlap; spaced, none is further from the
// next than the pitch, unless the heads touch.
func TestNailLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		head := unit.Length(rapid.IntRange(6, 16).Draw(t, "head")) * in / 32
		n := findings.Nails{Head: head,
			Sides:  rapid.SliceOfN(rapid.Map(rapid.IntRange(16, 600), func(k int) unit.Length { return unit.Length(k) * in / 8 }), 1, 6).Draw(t, "sides"),
			Closed: rapid.Bool().Draw(t, "closed")}
		if rapid.Bool().Draw(t, "spaced") {
			n.Pitch = head + unit.Length(rapid.IntRange(0, 40).Draw(t, "more"))*in/32
		}
		if n.Closed { // all round there is room for three nails
			n.Sides = append(n.Sides, 5*in, 5*in)
		}
		p, err := n.Plan()
		require.NoError(t, err)
		count := 0
		var reach unit.Length
		for i, r := range p.Rows {
			if r.Spaces > 0 {
				assert.GreaterOrEqual(t, r.Spacing, head)
			}
			if n.Pitch > 0 && unit.Length(r.Spaces+1)*head <= n.Sides[i] {
				assert.LessOrEqual(t, r.Spacing, n.Pitch)
			}
			count += r.Spaces
			reach += n.Sides[i]
		}
		if !n.Closed {
			count++
		}
		assert.Equal(t, count, p.Nails)
		if n.Pitch == 0 {
			assert.LessOrEqual(t, unit.Length(count)*head, reach, "whole heads lie on the run")
		}
	})
}

func TestStapleLegs(t *testing.T) {
	s := findings.Staples{Edges: []unit.Length{24 * in}, Layers: 3 * unit.Millimetre, Rail: 20 * unit.Millimetre}
	p, err := s.Plan()
	require.NoError(t, err)
	assert.Equal(t, 25, p.Count)
	assert.Equal(t, 3*in/8, p.Leg, "3 mm and 1/4 in need 9.35 mm")
	assert.False(t, p.Through)
	s.Rail = 7 * unit.Millimetre
	p, err = s.Plan()
	require.NoError(t, err)
	assert.True(t, p.Through)
	s.Layers = 40 * unit.Millimetre
	_, err = s.Plan()
	require.ErrorIs(t, err, unit.ErrRange)
}

// A thicker pack never takes a shorter leg or fewer staples.
func TestStapleLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		thick := unit.Length(rapid.IntRange(0, 100).Draw(t, "layers")) * unit.Millimetre / 10
		s := findings.Staples{Edges: []unit.Length{unit.Length(rapid.IntRange(1, 400).Draw(t, "edge")) * in / 4}, Layers: thick, Rail: in}
		a, err := s.Plan()
		require.NoError(t, err)
		s.Layers += unit.Millimetre
		b, err := s.Plan()
		require.NoError(t, err)
		assert.LessOrEqual(t, a.Leg, b.Leg)
		assert.Equal(t, a.Count, b.Count)
		assert.GreaterOrEqual(t, a.Leg, a.Least)
	})
}

// Twice the area takes twice the felt and twice the glue, but for rounding; one
// face takes half.
func TestByAreaIsInProportion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		area := unit.Area(rapid.IntRange(1, 20_000).Draw(t, "area")) * unit.SquareInch
		felt := func(a unit.Area, layers int) unit.Mass {
			s, err := findings.Felt{Area: a, Layers: layers}.Order(findings.Buying[unit.Mass]{})
			require.NoError(t, err)
			return s.Net
		}
		assert.InDelta(t, int64(2*felt(area, 1)), int64(felt(2*area, 1)), 1)
		assert.Equal(t, felt(2*area, 1), felt(area, 2))
		hair, err := findings.Hair{Area: area}.Order(findings.Buying[unit.Mass]{})
		require.NoError(t, err)
		old, err := findings.Hair{Area: area, Old: true}.Order(findings.Buying[unit.Mass]{})
		require.NoError(t, err)
		assert.Less(t, old.Net, hair.Net)
		glue := func(faces int) unit.Volume {
			o, err := findings.Glue{Area: area, Faces: faces}.Order(findings.Buying[unit.Volume]{})
			require.NoError(t, err)
			assert.NotEmpty(t, o.Caution)
			return o.Volume.Net
		}
		assert.InDelta(t, int64(2*glue(1)), int64(glue(2)), 1)
	})
}

func TestGlueContainers(t *testing.T) {
	can := findings.Buying[unit.Volume]{Pack: unit.Litre}
	for area, n := range map[unit.Area]int{10 * unit.SquareFoot: 1, 10*unit.SquareFoot + 1: 2} {
		o, err := findings.Glue{Area: area, Covers: 20 * unit.SquareFoot, Container: unit.Litre}.Order(can)
		require.NoError(t, err)
		assert.Equal(t, n, o.Volume.Packs)
	}
	_, err := findings.Glue{Area: unit.SquareFoot, Faces: 3}.Order(can)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = findings.Glue{Area: 5}.Order(can)
	require.ErrorIs(t, err, unit.ErrForgottenUnit)
}

// More buttons, deeper, never take less.
func TestButtonLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := findings.Buttons{Count: rapid.IntRange(1, 500).Draw(t, "count"), Diameter: quarters(2, 8).Draw(t, "diameter"), Through: quarters(1, 40).Draw(t, "through")}
		a, err := b.Order()
		require.NoError(t, err)
		assert.Greater(t, a.Buttons, b.Count, "a spare")
		assert.Equal(t, unit.Length(b.Count)*a.Each, a.Twine)
		b.Count, b.Through = b.Count+1, b.Through+in
		more, err := b.Order()
		require.NoError(t, err)
		assert.GreaterOrEqual(t, more.Buttons, a.Buttons)
		assert.Greater(t, more.Twine, a.Twine)
	})
}

// Every figure lies in its range and says where it comes from; no figure is
// listed twice.
func TestFiguresAreSound(t *testing.T) {
	sound(t, findings.Lengths())
	sound(t, findings.Counts())
	sound(t, findings.Shares())
	sound(t, findings.Areas())
	sound(t, findings.Masses())
	sound(t, findings.Volumes())
}

func sound[Q findings.Quantity | unit.Ratio](t *testing.T, fs []findings.Figure[Q]) {
	seen := map[string]bool{}
	for _, f := range fs {
		name := f.Of + ", " + f.What
		assert.False(t, seen[name], name)
		seen[name] = true
		assert.NotZero(t, f.Basis.Status, name)
		assert.LessOrEqual(t, f.From, f.To, name)
		if f.Usual != 0 {
			assert.True(t, f.From <= f.Usual && f.Usual <= f.To, name)
		}
	}
	if len(fs) > 0 { // the tables are the caller's own
		fs[0].Of = "changed"
	}
	assert.NotEqual(t, "changed", findings.Lengths()[0].Of)
	assert.NotEqual(t, "changed", findings.Volumes()[0].Of)
}

// Longer tacks have greater numbers, and fewer go to a pound.
func TestTackSizes(t *testing.T) {
	sizes := findings.TackSizes()
	for i := 1; i < len(sizes); i++ {
		assert.Greater(t, sizes[i].Length, sizes[i-1].Length)
		assert.Less(t, sizes[i].Pound, sizes[i-1].Pound)
	}
}

// What holds water never goes aboard; every build has some finding that is usual.
func TestBuilds(t *testing.T) {
	usual := map[findings.Build]bool{}
	var never []string
	for _, b := range findings.Builds() {
		usual[b.Build] = usual[b.Build] || b.Place == findings.Usual
		if b.Place == findings.Never {
			never = append(never, b.Build.String()+": "+b.Findings)
		}
	}
	assert.Len(t, usual, int(findings.Boat))
	for b, has := range usual {
		assert.True(t, has, b)
	}
	assert.Equal(t, []string{"boat: cotton felt", "boat: dust cover"}, never)
	for _, p := range []findings.Place{findings.Sometimes, findings.Usual, findings.Never} {
		text, err := p.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, p.String(), string(text))
	}
}

// Whatever is asked, steps only grow, packs cover, and nothing panics.
func FuzzSteps(f *testing.F) {
	f.Add(int64(10*in), int64(in), 0.05, int64(yd/4), int64(72*yd))
	f.Add(int64(math.MaxInt64), int64(1), 1.0, int64(1), int64(1))
	f.Add(int64(0), int64(0), math.NaN(), int64(-1), int64(0))
	f.Fuzz(func(t *testing.T, net, ends int64, waste float64, step, pack int64) {
		b := findings.Buying[unit.Length]{Waste: unit.Ratio(waste), Step: unit.Length(step), Pack: unit.Length(pack)}
		s, err := b.Steps(unit.Length(net), unit.Length(ends))
		if err != nil {
			return
		}
		if s.Gross < s.Net || s.Gross-s.Net < s.Ends || s.Use < s.Gross || s.Packs < 0 {
			t.Fatalf("%+v", s)
		}
		if pack > 0 && (s.Use > 0) != (s.Packs > 0) {
			t.Fatalf("%+v", s)
		}
		if max(int64(s.Use), step, pack) > math.MaxInt {
			return // more than can be counted here
		}
		if _, err := (findings.Buying[int]{Waste: b.Waste, Step: int(step), Pack: int(pack)}).Steps(int(net), int(ends)); err != nil {
			t.Fatalf("counts are refused where lengths are not: %v", err)
		}
	})
}

// Whatever the sizes, no plan panics or is negative.
func FuzzPlans(f *testing.F) {
	f.Add(int64(22*in), int64(20*in), int64(5*in), int64(2*in), 3)
	f.Add(int64(-1), int64(math.MaxInt64), int64(0), int64(math.MinInt64), -1)
	f.Add(int64(10*unit.Metre), int64(10*unit.Metre), int64(10*unit.Millimetre), int64(unit.Millimetre), math.MaxInt)
	f.Fuzz(func(t *testing.T, a, b, c, d int64, n int) {
		w, x, y, z := unit.Length(a), unit.Length(b), unit.Length(c), unit.Length(d)
		var out []unit.Length
		web, _ := findings.Webbing{Width: w, Depth: x, Strip: y, Gap: z, Fasteners: n}.Plan()
		elastic, _ := findings.Elastic{Across: w, Span: x, Strip: y, Gap: z}.Plan()
		zigzag, _ := findings.Zigzag{Width: w, Depth: x, Pitch: y, Rise: z, Nails: n}.Plan()
		coils, _ := findings.Coils{Width: w, Depth: x, Coil: y, Gap: z, Margin: z}.Plan()
		cloth, _ := findings.Cloth{Roll: w, Pieces: []findings.ClothPiece{{Width: x, Length: y, Count: n}, {Width: z, Length: y}}}.Plan()
		sheet, _ := findings.Sheet{Width: w, Depth: x, Turn: y, Rise: z, Rail: z}.Cut()
		nails, _ := findings.Nails{Sides: []unit.Length{w, x}, Head: y, Pitch: z, Closed: n%2 == 0}.Plan()
		staples, _ := findings.Staples{Edges: []unit.Length{w, x}, Pitch: y, Rail: z}.Plan()
		buttons, _ := findings.Buttons{Count: n, Diameter: w, Through: x}.Order()
		snaps, _ := findings.Snaps{Edges: []unit.Length{w, x}, Pitch: y}.Order()
		sticks, _ := findings.TackStrip{Runs: []unit.Length{w, x}, Stick: y}.Sticks()
		zips, _ := findings.Zips{Openings: []unit.Length{w, x}, Ends: y, Sliders: n}.Order(findings.Buying[unit.Length]{Step: z})
		out = append(out, web.Total, web.GapAcross, web.GapAlong, elastic.Total, elastic.Gap, zigzag.Total, zigzag.Spacing, zigzag.TieWire, coils.Twine, coils.GapAcross, coils.GapDeep,
			coils.Stitching, cloth.Length, sheet.Width, sheet.Depth, staples.Leg, buttons.Twine, buttons.Disc, zips.Chain.Use)
		for _, k := range []int{web.Fasteners, elastic.Fasteners, zigzag.Nails, coils.Tacks, cloth.Rows, nails.Nails, staples.Count, buttons.Buttons, snaps.Parts, sticks, zips.Sliders} {
			out = append(out, unit.Length(k))
		}
		for i, l := range out {
			if l < 0 {
				t.Fatalf("result %d is negative: %v", i, l)
			}
		}
	})
}

func BenchmarkCoils(b *testing.B) {
	for b.Loop() {
		if _, err := (findings.Coils{Width: 72 * in, Depth: 24 * in}).Plan(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCloth(b *testing.B) {
	c := findings.Cloth{Roll: 40 * in, Pieces: []findings.ClothPiece{{Width: 16 * in, Length: 24 * in, Count: 60}, {Width: 26 * in, Length: 24 * in, Count: 20}}}
	for b.Loop() {
		if _, err := c.Plan(); err != nil {
			b.Fatal(err)
		}
	}
}

// The legs that are sold: from short to long, each the one that is taken where it just
// reaches, and nobody who asks for them can change them.
func TestStapleLegsSold(t *testing.T) {
	legs := findings.StapleLegs()
	require.True(t, slices.IsSorted(legs))
	assert.Equal(t, []unit.Length{in / 4, 5 * in / 16, 3 * in / 8, in / 2, 9 * in / 16, 5 * in / 8, 3 * in / 4}, legs)
	for i, leg := range legs {
		s := findings.Staples{Edges: []unit.Length{12 * in}, Layers: leg - in/8, Bite: in / 8, Rail: in}
		p, err := s.Plan()
		require.NoError(t, err)
		assert.Equal(t, leg, p.Leg)
		s.Layers++
		p, err = s.Plan()
		if i == len(legs)-1 {
			require.ErrorIs(t, err, unit.ErrRange)
			continue
		}
		require.NoError(t, err)
		assert.Equal(t, legs[i+1], p.Leg)
	}
	legs[0] = 0
	assert.Equal(t, in/4, findings.StapleLegs()[0])
}
