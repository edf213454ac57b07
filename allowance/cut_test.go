package allowance_test

import (
	"cmp"
	"encoding/binary"
	"math"
	"runtime/debug"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/generate"
	"github.com/coverwright/coverwright/unit"
)

// These tests make much garbage and keep little: collecting it more seldom takes
// a sixth off their time.
var _ = debug.SetGCPercent(400)

var corners = []shape.Corner{shape.MitredCorner, shape.SquareCorner, shape.ClippedCorner, shape.RoundCorner}

func drawAnyPanel(t *rapid.T) allowance.Panel {
	p := allowance.Panel{Outline: generate.Outline(t), Corner: rapid.SampledFrom(corners).Draw(t, "corner"), Edges: map[string]allowance.Edge{}}
	few := []unit.Length{0, 6 * mm, unit.Inch / 2, unit.Inch, 3 * unit.Inch}
	for _, e := range p.Outline.Edges() {
		p.Edges[e] = allowance.Edge{
			Allowance: allowance.Exactly(rapid.SampledFrom(few).Draw(t, "allowance")),
			Handling:  rapid.SampledFrom(few[:4]).Draw(t, "handling"),
		}
	}
	return p
}

// Laws of every cut: areas in order, edges as long as the seam line, the grain
// arrow upright.
func TestCutLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawAnyPanel(t)
		c, err := p.Cut()
		require.NoError(t, err)
		require.GreaterOrEqual(t, c.TrimArea, c.SeamArea)
		require.GreaterOrEqual(t, c.Area, c.TrimArea)
		require.GreaterOrEqual(t, c.Area, c.FinishedArea)
		var sum unit.Length
		for i, e := range c.Edges {
			require.Equal(t, p.Outline.Edges()[i], e.Name)
			sum += e.Length
		}
		require.InDelta(t, float64(p.Outline.Perimeter()), float64(sum), float64(len(c.Edges)))
		require.Equal(t, sum, c.SewnLength(), "all are plain seams")
		require.Equal(t, c.Grain.Foot.X, c.Grain.Head.X)
		require.Less(t, c.Grain.Foot.Y, c.Grain.Head.Y)
	})
}

// A rectangle given as an outline is cut as RectPanel cuts it.
func TestCutAgreesWithRectPanel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawPanel().Draw(t, "panel")
		r.Across.TakeOut = rapid.SampledFrom([]unit.Ratio{0, 0.025, 0.1}).Draw(t, "across")
		r.Along.Ease = rapid.SampledFrom([]unit.Length{0, 10 * mm}).Draw(t, "along")
		want, err := r.Cut()
		require.NoError(t, err)
		o, err := shape.Rectangle(r.Width, r.Height)
		require.NoError(t, err)
		got, err := allowance.Panel{Outline: o, Across: r.Across, Along: r.Along, Edges: map[string]allowance.Edge{
			"top": r.Top, "right": r.Right, "bottom": r.Bottom, "left": r.Left,
		}}.Cut()
		require.NoError(t, err)
		require.Equal(t, want.Width, got.Width)
		require.Equal(t, want.Height, got.Height)
		require.InDelta(t, float64(want.Area), float64(got.Area), 2)
		require.InDelta(t, float64(want.SeamArea), float64(got.SeamArea), 2)
		require.InDelta(t, float64(want.FinishedArea), float64(got.FinishedArea), 2)
		trim, err := want.TrimWidth.By(want.TrimHeight)
		require.NoError(t, err)
		require.InDelta(t, float64(trim), float64(got.TrimArea), 2)
		require.Equal(t, want.SewnLength(), got.SewnLength())
		for _, f := range allowance.Finishes() {
			require.Equal(t, want.SeamLength(f), got.SeamLength(f))
		}
		require.Len(t, got.CutLine.Outer, len(allowance.Panel{Outline: o}.Outline.Edges()))
	})
}

// inOrder is the same points by place, to compare which there are.
func inOrder(ps []shape.Point) []shape.Point {
	return slices.SortedFunc(slices.Values(ps), func(a, b shape.Point) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
}

// Moving, turning by right angles and mirroring a panel do the same to its
// cut, to the last nanometre.
func TestCutCommutesWithSymmetries(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawAnyPanel(t)
		c, err := p.Cut()
		require.NoError(t, err)
		d := shape.Point{X: drawLength(-mm, mm).Draw(t, "dx"), Y: drawLength(-mm, mm).Draw(t, "dy")}
		for turn := range 4 {
			for _, mirror := range []bool{false, true} {
				q := p
				q.Outline = p.Outline.Turned(turn)
				if mirror {
					q.Outline = q.Outline.Mirrored()
				}
				q.Outline, err = q.Outline.Moved(d)
				require.NoError(t, err)
				got, err := q.Cut()
				require.NoError(t, err)
				image := func(ps []shape.Point) []shape.Point {
					var out []shape.Point
					for _, a := range ps {
						for range turn {
							a = shape.Point{X: -a.Y, Y: a.X}
						}
						if mirror {
							a.X = -a.X
						}
						out = append(out, shape.Point{X: a.X + d.X, Y: a.Y + d.Y})
					}
					return out
				}
				require.Equal(t, inOrder(image(c.SeamLine.Outer)), inOrder(got.SeamLine.Outer))
				require.Equal(t, inOrder(image(c.TrimLine.Outer)), inOrder(got.TrimLine.Outer))
				require.Equal(t, inOrder(image(c.CutLine.Outer)), inOrder(got.CutLine.Outer))
				require.InDelta(t, float64(c.Area), float64(got.Area), 1)
				require.Equal(t, c.SewnLength(), got.SewnLength())
			}
		}
	})
}

// The seam line found from the cut line is the finished outline, to the
// tolerance, whatever the corners: on convex outlines always, and on others
// where the allowance is smaller than every inward curve and gap.
func TestSeamLineRecovered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawAnyPanel(t)
		// Convex to the last nanometre: Outline.Convex overlooks inward bends
		// within its tolerance, and a wide margin closes those.
		chords, err := p.Outline.Flatten(0)
		require.NoError(t, err)
		convex := true
		for i, b := range chords {
			a, c := chords[(i+len(chords)-1)%len(chords)], chords[(i+1)%len(chords)]
			convex = convex && (b.X-a.X)*(c.Y-b.Y) >= (b.Y-a.Y)*(c.X-b.X)
		}
		if !convex {
			p.Edges, p.AllEdges = nil, allowance.Edge{Allowance: allowance.Exactly(2 * mm)}
			if p.Corner != shape.MitredCorner {
				t.Skip("concave outlines with mitres only")
			}
		}
		c, err := p.Cut()
		require.NoError(t, err)
		if len(c.CutLine.Holes) > 0 {
			t.Skip("a gap closed")
		}
		dev, err := p.SeamDeviation()
		require.NoError(t, err)
		if !convex && dev > c.Tolerance {
			t.Skip("a gap narrower than two allowances")
		}
		if dev > c.Tolerance {
			back, _ := p.RecoveredSeamLine()
			t.Logf("seam %v\ncut %v\nback %v", c.SeamLine.Outer, c.CutLine.Outer, back.Outer)
		}
		require.LessOrEqual(t, dev, c.Tolerance)
		seam, err := p.RecoveredSeamLine()
		require.NoError(t, err)
		require.NotEmpty(t, seam.Outer)
	})
}

// Steiner's formula and its mitred form on whole panels; values from the check
// table.
func TestCutOffsetFormulas(t *testing.T) {
	fine := 10 * unit.Micrometre
	round := func(o shape.Outline) allowance.PanelCut {
		c, err := allowance.Panel{Outline: o, Corner: shape.RoundCorner, Tolerance: fine}.Cut()
		require.NoError(t, err)
		return c
	}
	rect := must(shape.Rectangle(20*in, 24*in))(t)
	require.InDelta(t, 524.785398163, round(rect).Area.SquareInches(), 1e-3)
	hex := must(shape.RegularPolygon(6, 10*in))(t)
	require.InDelta(t, 290.593019, round(hex).Area.SquareInches(), 1e-3)
	circle := must(shape.Circle(18 * in))(t)
	require.InDelta(t, 283.528736986, round(circle).Area.SquareInches(), 1e-3)
	ellipse := must(shape.Ellipse(24*in, 16*in))(t)
	require.InDelta(t, 334.109172087, round(ellipse).Area.SquareInches(), 1e-3)
	c, err := allowance.Panel{Outline: rect}.Cut()
	require.NoError(t, err)
	require.Equal(t, 525*unit.SquareInch, c.Area)
	require.Equal(t, 21*in, c.Width)
	require.Equal(t, 25*in, c.Height)
}

// Inward curves, tighter and wider than the allowance, and a slot that closes.
func TestCutInwardShapes(t *testing.T) {
	pt := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	scoop := func(r unit.Length) shape.Outline {
		o, err := shape.TraceFrom(pt(0, 0)).
			Edge("bottom").Line(pt(10*in, 0)).
			Edge("right").Line(pt(10*in, 8*in)).
			Edge("top").Line(pt(5*in+r, 8*in)).
			Edge("scoop").Arc(pt(5*in-r, 8*in), -r).
			Edge("top, left").Line(pt(0, 8*in)).
			Edge("left").Close()
		require.NoError(t, err)
		return o
	}
	// A scoop of radius 2 with 1/2 in: radius 1 1/2 is left, and the area is
	// that of the mitred rectangle less the smaller scoop and the strip above.
	scooped := allowance.Panel{Outline: scoop(2 * in), Tolerance: 10 * unit.Micrometre}
	wide, err := scooped.Cut()
	require.NoError(t, err)
	// Inside the cut scoop: the half disc of 1 1/2 in and, up to the cut line
	// 1/2 in above, the band between its ends drawn straight up.
	require.InDelta(t, 11*9-math.Pi*1.5*1.5/2-0.5*3, wide.Area.SquareInches(), 2e-3)
	dev, err := scooped.SeamDeviation()
	require.NoError(t, err)
	require.LessOrEqual(t, dev, wide.Tolerance)
	// A scoop of 3/8 in is filled up.
	tight, err := allowance.Panel{Outline: scoop(3 * in / 8)}.Cut()
	require.NoError(t, err)
	require.InDelta(t, 99, tight.Area.SquareInches(), 0.01)
	require.Empty(t, tight.CutLine.Holes)
	// A slot 3/4 in wide with a chamber behind it closes: a hole is left, and
	// the seam line cannot be found again.
	o, err := shape.TraceFrom(pt(0, 0)).Edge("outside").
		Line(pt(10*in, 0)).Line(pt(10*in, 3*in)).Edge("inside").
		Line(pt(8*in, 3*in)).Line(pt(8*in, 2*in)).Line(pt(2*in, 2*in)).Line(pt(2*in, 8*in)).
		Line(pt(8*in, 8*in)).Line(pt(8*in, 3*in+3*in/4)).Line(pt(10*in, 3*in+3*in/4)).
		Edge("back").Line(pt(10*in, 10*in)).Line(pt(0, 10*in)).Close()
	require.NoError(t, err)
	slotted := allowance.Panel{Outline: o}
	slot, err := slotted.Cut()
	require.NoError(t, err)
	require.Len(t, slot.CutLine.Holes, 1)
	_, lost := slotted.RecoveredSeamLine()
	require.ErrorIs(t, lost, unit.ErrRange)
	_, err = slotted.SeamDeviation()
	require.Equal(t, lost, err)
}

// Neighbours with very different margins.
func TestCutUnequalNeighbours(t *testing.T) {
	pt := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	o, err := shape.TraceFrom(pt(0, 0)).
		Edge("seam").Line(pt(5*in, 0)).
		Edge("pull").Line(pt(10*in, 0)).
		Edge("right").Line(pt(10*in, 8*in)).
		Edge("top").Line(pt(0, 8*in)).
		Edge("left").Close()
	require.NoError(t, err)
	p := allowance.Panel{Outline: o, AllEdges: allowance.Edge{Finish: allowance.Fold}, Edges: map[string]allowance.Edge{
		"seam": {}, "pull": {Finish: allowance.PullOver, Allowance: allowance.Exactly(3 * in), Handling: in},
	}}
	c, err := p.Cut()
	require.NoError(t, err)
	require.Equal(t, unit.Area(80)*unit.SquareInch+unit.SquareInch*5/2+20*unit.SquareInch, c.Area)
	require.Equal(t, unit.Area(80)*unit.SquareInch+unit.SquareInch*5/2+15*unit.SquareInch, c.TrimArea)
	require.Contains(t, c.CutLine.Outer, pt(5*in, -in/2), "foot of the step")
	require.Contains(t, c.CutLine.Outer, pt(5*in, -4*in), "head of the step")
	require.Equal(t, 5*in, c.SeamLength(allowance.PullOver))
	require.Equal(t, 5*in, c.SewnLength())
	dev, err := p.SeamDeviation()
	require.NoError(t, err)
	require.LessOrEqual(t, dev, unit.Micrometre)
}

func TestCutFits(t *testing.T) {
	leather, _ := allowance.LeatherStretch()
	o := must(shape.Circle(20 * in))(t)
	c, err := allowance.Panel{Outline: o, Across: leather}.Cut()
	require.NoError(t, err)
	// 2.5 % out of the width only: an ellipse of 19 1/2 by 20.
	require.Equal(t, 19*in+in/2, c.Across.Seam)
	require.Equal(t, 20*in, c.Along.Seam)
	require.InDelta(t, math.Pi*9.75*10, c.SeamArea.SquareInches(), 1e-6)
	require.InDelta(t, math.Pi*100, c.FinishedArea.SquareInches(), 1e-6)
	require.InDelta(t, 20.5, c.Width.Inches(), 0.01)
	e := must(shape.Ellipse(19*in+in/2, 20*in))(t)
	require.InDelta(t, float64(e.Perimeter()), float64(c.Edges[0].Length), 10)
}

// The arrow of the grain of a rectangle lies on its middle, to the nanometre.
func TestGrainInTheMiddle(t *testing.T) {
	for _, w := range []unit.Length{20 * unit.Inch, 10 * unit.Inch} {
		o := sure(shape.Rectangle(w, 10*unit.Inch))
		c, err := allowance.Panel{Name: "a", Outline: o, AllEdges: allowance.Edge{Finish: allowance.Raw}}.Cut()
		require.NoError(t, err)
		require.Equal(t, shape.Point{X: w / 2, Y: 2 * unit.Inch}, c.Grain.Foot)
		require.Equal(t, shape.Point{X: w / 2, Y: 8 * unit.Inch}, c.Grain.Head)
	}
}

func TestCutNotches(t *testing.T) {
	o := must(shape.Stadium(40*in, 20*in))(t)
	half := unit.Length(math.Round(5 * math.Pi * float64(in)))
	c, err := allowance.Panel{Outline: o, Notches: []allowance.Notch{
		{Edge: "bottom", At: 5 * in}, {Edge: "right", At: half}, {Edge: "top", At: 0},
	}}.Cut()
	require.NoError(t, err)
	require.Equal(t, shape.Point{X: 15 * in, Y: 0}, c.Notches[0].Seam)
	require.Equal(t, shape.Point{X: 15 * in, Y: -in / 2}, c.Notches[0].Cut)
	require.InDelta(t, 40, c.Notches[1].Seam.X.Inches(), 1e-7)
	require.InDelta(t, 15, c.Notches[1].Seam.Y.Inches()+5, 1e-7)
	require.InDelta(t, 40.5, c.Notches[1].Cut.X.Inches(), 1e-7)
	require.Equal(t, shape.Point{X: 30 * in, Y: 20 * in}, c.Notches[2].Seam)
	// Along an ellipse the place is found by arc length: a quarter of the rim.
	e := must(shape.Ellipse(24*in, 16*in))(t)
	q, err := allowance.Panel{Outline: e, Notches: []allowance.Notch{{Edge: "rim", At: e.Perimeter() / 4}, {Edge: "rim", At: e.Perimeter() / 8}}}.Cut()
	require.NoError(t, err)
	require.InDelta(t, 24, q.Notches[0].Seam.X.Inches(), 1e-6)
	require.InDelta(t, 8, q.Notches[0].Seam.Y.Inches(), 1e-6)
}

func TestPanelRefuses(t *testing.T) {
	o := must(shape.Rectangle(20*in, 20*in))(t)
	for _, c := range []struct {
		p     allowance.Panel
		field string
		want  error
	}{
		{allowance.Panel{}, "outline", unit.ErrRequired},
		{allowance.Panel{Outline: o, Edges: map[string]allowance.Edge{"front": {}}}, "edges", unit.ErrUnknown},
		{allowance.Panel{Outline: o, Edges: map[string]allowance.Edge{"top": {Handling: 3}}}, "edges.top.handling", unit.ErrForgottenUnit},
		{allowance.Panel{Outline: o, AllEdges: allowance.Edge{Allowance: allowance.Exactly(-in)}}, "all_edges.allowance", unit.ErrRange},
		{allowance.Panel{Outline: o, Corner: 7}, "corner", unit.ErrUnknown},
		{allowance.Panel{Outline: o, MitreLimit: 0.5}, "mitre_limit", unit.ErrRange},
		{allowance.Panel{Outline: o, MitreLimit: unit.Ratio(math.NaN())}, "mitre_limit", unit.ErrNotFinite},
		{allowance.Panel{Outline: o, Tolerance: 5}, "tolerance", unit.ErrForgottenUnit},
		{allowance.Panel{Outline: o, Tolerance: in}, "tolerance", unit.ErrRange},
		{allowance.Panel{Outline: o, Across: allowance.Stretch{TakeOut: 0.9}}, "across.take_out", unit.ErrRange},
		{allowance.Panel{Outline: o, Across: allowance.Stretch{Compression: 20 * in}}, "across.compression", unit.ErrRange},
		{allowance.Panel{Outline: o, Notches: []allowance.Notch{{Edge: "x"}}}, "notches[0].edge", unit.ErrUnknown},
		{allowance.Panel{Outline: o, Notches: []allowance.Notch{{Edge: "top", At: 21 * in}}}, "notches[0].at", unit.ErrRange},
	} {
		_, err := c.p.Cut()
		var input *unit.InputError
		require.ErrorAs(t, err, &input, c.field)
		require.ErrorIs(t, err, c.want, c.field)
		require.Equal(t, c.field, string(input.Field))
		if len(c.p.Notches) == 0 { // which leave the seam line where it is
			_, other := c.p.RecoveredSeamLine()
			require.Equal(t, err, other, "the same without them")
		}
	}
	_, err := allowance.Panel{}.RecoveredSeamLine()
	require.Error(t, err)
	_, err = o.Flatten(-mm)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = shape.Outline{}.Flatten(0)
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = o.Moved(shape.Point{X: 49*unit.Metre + 900*mm})
	require.ErrorIs(t, err, unit.ErrRange)
	require.Equal(t, "no outline", shape.Outline{}.String())
	var c shape.Corner
	require.NoError(t, c.UnmarshalText([]byte("round")))
	require.Equal(t, shape.RoundCorner, c)
	require.ErrorIs(t, c.UnmarshalText([]byte("oval")), unit.ErrUnknown)
}

func FuzzCut(f *testing.F) {
	seed := func(corner byte, vs ...int32) {
		b := []byte{corner}
		for _, v := range vs {
			b = binary.LittleEndian.AppendUint32(b, uint32(v))
		}
		f.Add(b)
	}
	seed(0, 0, 0, 10e6, 100e6, 0, 20e6, 100e6, 90e6, 5e6)
	seed(3, 0, 0, 12e6, 100e6, 0, 12e6, 50e6, 50e6, 0, 0, 90e6, 12e6)
	seed(1, 0, 0, 0, 100, 0, 1e6, 100, 100, 0, 0, 100, 12e6)
	seed(2, 0, 0, 1e9, 100e6, 1, 0, 200e6, 0, 1e6, 100e6, -1, 5e6)
	f.Fuzz(func(t *testing.T, b []byte) {
		if len(b) < 1 || len(b) > 1+12*200 {
			return
		}
		corner, b := shape.Corner(b[0]%4), b[1:]
		var ps []shape.Point
		edges := map[string]allowance.Edge{}
		for ; len(b) >= 12; b = b[12:] {
			v := func(k int) unit.Length { return unit.Length(int32(binary.LittleEndian.Uint32(b[4*k:]))) }
			ps = append(ps, shape.Point{X: v(0), Y: v(1)})
			edges["side "+string(rune('0'+len(ps)))] = allowance.Edge{Allowance: allowance.Exactly(v(2))}
		}
		o, err := shape.Polygon(ps...)
		var input *unit.InputError
		if err != nil {
			require.ErrorAs(t, err, &input)
			return
		}
		for name := range edges {
			if _, err := o.EdgeLength(name); err != nil {
				delete(edges, name)
			}
		}
		p := allowance.Panel{Outline: o, Edges: edges, Corner: corner}
		c, err := p.Cut()
		if err != nil {
			require.ErrorAs(t, err, &input)
			return
		}
		rounding, err := o.Perimeter().By(unit.Nanometre) // corners of the cut line lie on whole nanometres
		require.NoError(t, err)
		require.GreaterOrEqual(t, c.Area+rounding, c.SeamArea)
		if _, err := p.SeamDeviation(); err != nil {
			require.ErrorAs(t, err, &input)
		}
	})
}

// wavy gives a closed panel of n straight edges round a curved, partly concave
// border.
func wavy(b *testing.B, n int) shape.Outline {
	ps := make([]shape.Point, n)
	for i := range ps {
		a := 2 * math.Pi * float64(i) / float64(n)
		r := 400e6 + 40e6*math.Cos(3*a)
		ps[i] = shape.Point{X: unit.Length(r * math.Cos(a)), Y: unit.Length(r * math.Sin(a))}
	}
	o, err := shape.Polygon(ps...)
	if err != nil {
		b.Fatal(err)
	}
	return o
}

func benchmarkCut(b *testing.B, n int) {
	p := allowance.Panel{Outline: wavy(b, n)}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := p.Cut(); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/vertex")
}

func BenchmarkCut200(b *testing.B) { benchmarkCut(b, 200) }

func BenchmarkCut1000(b *testing.B) { benchmarkCut(b, 1000) }

func BenchmarkCut3000(b *testing.B) { benchmarkCut(b, 3000) }

func BenchmarkCut10000(b *testing.B) { benchmarkCut(b, 10000) }

// BenchmarkCutCurves is an ellipse, some 200 chords at this tolerance.
func BenchmarkCutCurves(b *testing.B) {
	o, err := shape.Ellipse(900*mm, 500*mm)
	if err != nil {
		b.Fatal(err)
	}
	p := allowance.Panel{Outline: o, Tolerance: 60 * unit.Micrometre}
	c, err := p.Cut()
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := p.Cut(); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(c.SeamLine.Outer)), "chords")
}

// Sizes come from the extremes of the curves, not from the chords that are
// drawn for them.
func TestCutOfCurvesIsTheExactSum(t *testing.T) {
	const half = in / 2
	cut := func(o shape.Outline, err error) allowance.PanelCut {
		require.NoError(t, err)
		c, err := allowance.Panel{Outline: o, AllEdges: allowance.Edge{Allowance: allowance.Exactly(half)}}.Cut()
		require.NoError(t, err)
		for _, p := range c.CutLine.Outer { // the drawn line keeps inside the size
			low, _ := o.Bounds()
			require.True(t, p.X >= low.X-half && p.X <= low.X-half+c.Width, p)
			require.True(t, p.Y >= low.Y-half && p.Y <= low.Y-half+c.Height, p)
		}
		return c
	}
	c := cut(shape.Circle(17 * in))
	require.Equal(t, [2]unit.Length{18 * in, 18 * in}, [2]unit.Length{c.Width, c.Height})
	require.Equal(t, [2]unit.Length{18 * in, 18 * in}, [2]unit.Length{c.TrimWidth, c.TrimHeight})
	c = cut(shape.Ellipse(23*in, 11*in))
	require.Equal(t, [2]unit.Length{24 * in, 12 * in}, [2]unit.Length{c.Width, c.Height})
	c = cut(shape.Stadium(30*in, 12*in))
	require.Equal(t, [2]unit.Length{31 * in, 13 * in}, [2]unit.Length{c.Width, c.Height})
	c = cut(shape.RoundedRectangle(30*in, 12*in, shape.SameRadii(2*in)))
	require.Equal(t, [2]unit.Length{31 * in, 13 * in}, [2]unit.Length{c.Width, c.Height})
	c = cut(shape.Crowned(22*in, 24*in, 3*in/2))
	require.Equal(t, [2]unit.Length{23 * in, 25*in + 3*in/2}, [2]unit.Length{c.Width, c.Height})
}
