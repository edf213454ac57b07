package pattern

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/unit"
)

// length draws a length between two numbers of millimetres.
func length(low, high int) *rapid.Generator[unit.Length] {
	return rapid.Custom(func(t *rapid.T) unit.Length {
		l := unit.Length(rapid.Int64Range(int64(low)*1e6, int64(high)*1e6).Draw(t, "nm"))
		if l.Forgotten() {
			return 0
		}
		return l
	})
}

// star draws a polygon round a middle that does not cross itself.
func star(t *rapid.T) []shape.Point {
	n := rapid.IntRange(3, 24).Draw(t, "corners")
	wide, long := length(10, 900).Draw(t, "wide"), length(10, 900).Draw(t, "long")
	var out []shape.Point
	for i := range n {
		a, r := 2*math.Pi*float64(i)/float64(n), rapid.Float64Range(0.2, 1).Draw(t, "reach")
		out = append(out, shape.Point{X: unit.Length(r * math.Cos(a) * float64(wide)), Y: unit.Length(r * math.Sin(a) * float64(long))})
	}
	return out
}

func outline(t *rapid.T) shape.Outline {
	a, b := length(120, 900).Draw(t, "a"), length(120, 900).Draw(t, "b")
	var o shape.Outline
	var err error
	switch rapid.IntRange(0, 4).Draw(t, "shape") {
	case 0:
		o, err = shape.Rectangle(a, b)
	case 1:
		o, err = shape.Ellipse(a, b)
	case 2:
		o, err = shape.Trapezoid(a, a/2+10*unit.Millimetre, b, length(-100, 100).Draw(t, "shift"))
	case 3:
		o, err = shape.RoundedRectangle(a, b, shape.SameRadii(length(1, 50).Draw(t, "radius")))
	default:
		o, err = shape.Crowned(a, b, length(5, 50).Draw(t, "rise"))
	}
	require.NoError(t, err)
	return o
}

// panels are cut panels with notches, allowances and handling.
func panel(t *rapid.T) allowance.PanelCut {
	p := allowance.Panel{Name: "panel", Outline: outline(t), Edges: map[string]allowance.Edge{}}
	for _, name := range p.Outline.Edges() {
		e := allowance.Edge{Finish: allowance.PlainSeam, Allowance: allowance.Exactly(length(1, 30).Draw(t, "allowance"))}
		if rapid.Bool().Draw(t, "held") {
			e.Handling = length(1, 40).Draw(t, "handling")
		}
		p.Edges[name] = e
	}
	if rapid.Bool().Draw(t, "notched") {
		edge := p.Outline.Edges()[0]
		long, err := p.Outline.EdgeLength(edge)
		require.NoError(t, err)
		p.Notches = []allowance.Notch{{Edge: edge, At: min(length(0, 40).Draw(t, "notch"), long)}}
	}
	p.Corner = rapid.SampledFrom([]shape.Corner{shape.MitredCorner, shape.SquareCorner, shape.ClippedCorner, shape.RoundCorner}).Draw(t, "corner")
	c, err := p.Cut()
	require.NoError(t, err)
	return c
}

func anyPattern(t *rapid.T) Pattern {
	p := Of(panel(t))
	p.Count, p.Pair, p.Goods = rapid.IntRange(0, 40).Draw(t, "count"), rapid.Bool().Draw(t, "pair"), "hide"
	if rapid.Bool().Draw(t, "marked") {
		p.Marks = []shape.Point{p.Grain.Foot}
	}
	return p
}

func roundOf(line []shape.Point) float64 {
	var sum float64
	for i, a := range line {
		b := line[(i+1)%len(line)]
		sum += math.Hypot((b.X - a.X).Millimetres(), (b.Y - a.Y).Millimetres())
	}
	return sum
}

// What is drawn has the area that was worked out: the lines are chords within
// the tolerance of the true curves.
func TestDrawnAreaIsTheCutArea(t *testing.T) { few.Check(t, 15, drawnAreaIsTheCutArea) }

func drawnAreaIsTheCutArea(t *rapid.T) {
	c := panel(t)
	p := Of(c)
	dxf, err := p.DXF(Metric)
	require.NoError(t, err)
	svg, err := p.SVG(Inches)
	require.NoError(t, err)
	for _, lines := range [][]fileLine{readDXF(t, dxf).lines, readSVG(t, svg).lines} {
		area := map[string]float64{}
		for _, l := range lines {
			if l.closed {
				area[strings.ToUpper(l.layer)] += shoelace(l.points)
			}
		}
		slack := 0.01 + roundOf(c.CutLine.Outer)*c.Tolerance.Millimetres()
		assert.InDelta(t, c.Area.SquareMetres()*1e6, area["CUT"], slack)
		assert.InDelta(t, c.SeamArea.SquareMetres()*1e6, area["SEAM"], slack)
		if len(p.Trim.Outer) > 0 {
			assert.InDelta(t, c.TrimArea.SquareMetres()*1e6, area["TRIM"], slack)
		}
		assert.Equal(t, len(p.Trim.Outer) > 0, area["TRIM"] != 0)
	}
}

// A DXF file read back gives every line to the nanometre, from its lower left
// corner, closed where it is closed and on the layer of its kind.
func TestDXFGivesTheLinesBack(t *testing.T) { few.Check(t, 25, dxfGivesTheLinesBack) }

func dxfGivesTheLinesBack(t *rapid.T) {
	p := anyPattern(t)
	file, err := p.DXF(rapid.SampledFrom([]Units{Inches, Metric}).Draw(t, "units"))
	require.NoError(t, err)
	d := readDXF(t, file)
	assert.Equal(t, "4 ", d.header["$INSUNITS"], "millimetres")
	assert.Equal(t, "1 ", d.header["$MEASUREMENT"], "metric")
	assert.Equal(t, "AC1009 ", d.header["$ACADVER"])
	assert.Len(t, d.layers, 10, "those of the kinds, of texts, of labels, and 0")
	sameLines(t, p, d.lines, p.Bounds().Low, func(k Kind) string { return strings.ToUpper(k.String()) })
}

// So does an SVG file, from its margin.
func TestSVGGivesTheLinesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPattern(t)
		file, err := p.SVG(Inches)
		require.NoError(t, err)
		f := readSVG(t, file)
		b := p.Bounds()
		assert.True(t, strings.HasSuffix(f.width, "mm") && strings.HasSuffix(f.height, "mm"))
		assert.Equal(t, "CUT", f.groups[0])
		assert.Equal(t, "TEXT", f.groups[len(f.groups)-1])
		sameLines(t, p, f.lines, shape.Point{X: b.Low.X - 5*unit.Millimetre, Y: b.High.Y + 5*unit.Millimetre}, Kind.String)
	})
}

func sameLines(t require.TestingT, p Pattern, got []fileLine, origin shape.Point, layer func(Kind) string) {
	want := p.Lines()
	require.Len(t, got, len(want))
	for i, l := range want {
		require.Equal(t, layer(l.Kind), got[i].layer)
		require.Equal(t, l.Closed, got[i].closed)
		require.Len(t, got[i].points, len(l.Points))
		for k, q := range l.Points {
			x, y := int64(q.X-origin.X), int64(q.Y-origin.Y)
			if at := got[i].points[k]; x != nm(at.x) || y != nm(at.y) {
				require.Fail(t, "moved", "point %d of line %d: %v for %v, %v", k, i, at, x, y)
			}
		}
	}
}

// Mirrored twice, a pattern is what it was; once, it has the same size and area
// and still runs anticlockwise, each edge is where the other hand has it, and
// each notch on it.
func TestMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPattern(t)
		m := p.Mirror()
		require.NoError(t, m.Check())
		assert.Equal(t, p, m.Mirror())
		assert.Equal(t, p.Bounds(), m.Bounds())
		area := func(p Pattern) float64 {
			var l []spot
			for _, q := range p.Cut.Outer {
				l = append(l, spot{q.X.Millimetres(), q.Y.Millimetres()})
			}
			return shoelace(l)
		}
		assert.Positive(t, area(m))
		assert.InDelta(t, area(p), area(m), 1e-6*area(p))
		assert.Equal(t, p.Straight(), m.Straight())
		b := p.Bounds()
		flip := func(q shape.Point) shape.Point { return shape.Point{X: b.Low.X + b.High.X - q.X, Y: q.Y} }
		before, after := p.edgeMiddles(), m.edgeMiddles()
		for i := range before {
			assert.Equal(t, p.Edges[i], m.Edges[len(before)-1-i])
			far := distance(flip(before[i]), after[len(before)-1-i], after[len(before)-1-i])
			assert.Less(t, far, 1e4, "the middle of %s", p.Edges[i].Name)
		}
		for i, n := range m.Notches {
			near := math.Inf(1)
			for k, a := range m.Seam.Outer {
				near = min(near, distance(n.Seam, a, m.Seam.Outer[(k+1)%len(m.Seam.Outer)]))
			}
			assert.Less(t, near, 0.2e6, "a notch lies on the seam line")
			assert.InDelta(t, float64(p.Edges[0].Length), float64(n.At+p.Notches[i].At), 1, "measured from the other end")
		}
	})
}

func anySheet(t *rapid.T) Sheet {
	if rapid.Bool().Draw(t, "usual") {
		return rapid.SampledFrom([]Sheet{A4(), Letter()}).Draw(t, "paper")
	}
	s := Sheet{Margin: length(0, 20).Draw(t, "margin"), Foot: length(0, 15).Draw(t, "foot"), Overlap: length(0, 30).Draw(t, "overlap")}
	s.Width, s.Height = length(110, 900).Draw(t, "width"), length(110, 900).Draw(t, "height")
	s.Every = rapid.Bool().Draw(t, "every")
	require.NoError(t, s.Check())
	return s
}

// The sheets show all of the pattern: whatever the outline and the paper, the
// parts that the sheets answer for and the straight lines left out, put together, are
// the outline, once each.
func TestTilesCoverThePatternOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		line := star(t)
		if rapid.Bool().Draw(t, "straight on") { // a point between two corners
			line = slices.Insert(line, 1, shape.Point{X: (line[0].X + line[1].X) / 2, Y: (line[0].Y + line[1].Y) / 2})
		}
		p := Pattern{Cut: shape.Contour{Outer: line}}
		tiling, err := p.Tile(anySheet(t))
		require.NoError(t, err)
		s := tiling.Sheet
		var area, long float64
		add := func(a, b shape.Point) {
			area += (a.X.Millimetres()*b.Y.Millimetres() - a.Y.Millimetres()*b.X.Millimetres()) / 2
			long += math.Hypot((b.X - a.X).Millimetres(), (b.Y - a.Y).Millimetres())
		}
		for _, g := range tiling.Gaps {
			add(g.From, g.To)
		}
		if s.Every {
			require.Empty(t, tiling.Gaps)
		}
		for i, q := range tiling.Tiles {
			for _, run := range q.Own.clip(Line{Closed: true, Points: line}) {
				n := len(run.Points) - 1
				if run.Closed {
					n++
				}
				for i := range n {
					add(run.Points[i], run.Points[(i+1)%len(run.Points)])
				}
			}
			require.True(t, q.Window.holds([]shape.Point{q.Own.Low, q.Own.High}), "a sheet answers for what it shows")
			require.True(t, q.Own.holds([]shape.Point{q.Cell.Low, q.Cell.High}))
			// All that is drawn lies between the white edges.
			printed := Box{shape.Point{X: s.Margin, Y: s.Margin + s.Foot}, shape.Point{X: s.Width - s.Margin, Y: s.Height - s.Margin}}
			for _, l := range q.Lines(p.Lines()) {
				require.True(t, printed.holds(l.Points))
			}
			for _, r := range tiling.Tiles[:i] {
				require.NotEqual(t, q.Label, r.Label)
				require.False(t, q.Own.overlaps(r.Own), "%s and %s answer for the same", q.Label, r.Label)
			}
		}
		var ring []spot
		for _, a := range line {
			ring = append(ring, spot{a.X.Millimetres(), a.Y.Millimetres()})
		}
		assert.InDelta(t, roundOf(line), long, 1e-3)
		assert.InDelta(t, shoelace(ring), area, 1e-2)
		// Lines keep clear of the window at the outside.
		b, out := p.Bounds(), Box{tiling.Grid.Low, tiling.Grid.High}
		lap := s.Overlap / 2
		assert.GreaterOrEqual(t, b.Low.X-(out.Low.X-lap), inset-1)
		assert.GreaterOrEqual(t, out.High.X+lap-b.High.X, inset-1)
		assert.GreaterOrEqual(t, b.Low.Y-(out.Low.Y-lap), inset-1)
		assert.GreaterOrEqual(t, out.High.Y+lap-b.High.Y, inset-1)
	})
}

func (a Box) overlaps(b Box) bool {
	return a.Low.X < b.High.X && b.Low.X < a.High.X && a.Low.Y < b.High.Y && b.Low.Y < a.High.Y
}

// Where two sheets join, both show the same line, and each names the other.
func TestJoinsHaveTheirLike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Pattern{Cut: shape.Contour{Outer: star(t)}}
		tiling, err := p.Tile(anySheet(t))
		require.NoError(t, err)
		at := map[string]Tile{}
		for _, q := range tiling.Tiles {
			at[q.Label] = q
		}
		for _, q := range tiling.Tiles {
			for _, j := range q.Joins {
				r, there := at[j.Label]
				require.True(t, there, j.Label)
				place := func(t Tile, p shape.Point) shape.Point { return shape.Point{X: p.X - t.Shift.X, Y: p.Y - t.Shift.Y} }
				like := 0
				for _, k := range r.Joins {
					if k.Label == q.Label {
						like++
						assert.Equal(t, place(q, j.From), place(r, k.To))
						assert.Equal(t, place(q, j.To), place(r, k.From))
					}
				}
				assert.Equal(t, 1, like)
			}
		}
	})
}

// A size that is written is never less than the size itself, and less than a
// step more.
func TestTextsAreNeverRoundedDown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, l := length(1, 3000).Draw(t, "width"), length(1, 3000).Draw(t, "length")
		p, err := Strip(w, l)
		require.NoError(t, err)
		for u, step := range []unit.Length{Inches: unit.Inch / 16, Metric: unit.Millimetre} {
			texts := p.Texts(Units(u))
			a, b, found := strings.Cut(texts[len(texts)-1], " x ")
			require.True(t, found, texts)
			if Units(u) == Metric {
				a += " mm"
			} else {
				a += " in"
			}
			for text, size := range map[string]unit.Length{a: w, b: l} {
				got, err := unit.ParseLength(text)
				require.NoError(t, err)
				assert.GreaterOrEqual(t, got, size)
				assert.Less(t, got, size+step)
			}
		}
	})
}
