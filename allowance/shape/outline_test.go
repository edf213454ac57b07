package shape_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

const (
	in = unit.Inch
	mm = unit.Millimetre
)

func must(o shape.Outline, err error) func(t require.TestingT) shape.Outline {
	return func(t require.TestingT) shape.Outline {
		require.NoError(t, err)
		return o
	}
}

// measured is an outline with what a formula says of it; the sources stand in
// the check table.
type measured struct {
	name            string
	o               func(require.TestingT) shape.Outline
	perimeter, area float64 // inches
	edges           []string
	convex          bool
}

func everyShape() []measured {
	pi := math.Pi
	return []measured{
		{"rectangle", must(shape.Rectangle(20*in, 24*in)), 88, 480, []string{"bottom", "right", "top", "left"}, true},
		{"trapezoid", must(shape.Trapezoid(22*in, 18*in, 20*in, 2*in)), 80.1995024845, 400, []string{"bottom", "right", "top", "left"}, true},
		{"sheared", must(shape.Trapezoid(22*in, 18*in, 20*in, -3*in)), 22 + 18 + math.Hypot(20, 3) + math.Hypot(20, 7), 400, []string{"bottom", "right", "top", "left"}, true},
		{"triangle", must(shape.Triangle(3*in, 4*in, 5*in)), 12, 6, []string{"base", "right", "left"}, true},
		{"hexagon", must(shape.RegularPolygon(6, 10*in)), 60, 259.807621135, nil, true},
		{"octagon", must(shape.RegularPolygon(8, 10*in)), 80, 482.842712475, nil, true},
		{"circle", must(shape.Circle(18 * in)), 56.5486677646, 254.469004941, []string{"rim"}, true},
		{"ellipse", must(shape.Ellipse(24*in, 16*in)), 63.4617583572, 301.592894745, []string{"rim"}, true},
		{"thin ellipse", must(shape.Ellipse(40*in, 4*in)), 81.279483602, 40 * pi, []string{"rim"}, true},
		{"stadium", must(shape.Stadium(48*in, 20*in)), 118.831853072, 874.159265359, []string{"bottom", "right", "top", "left"}, true},
		{"rounded", must(shape.RoundedRectangle(24*in, 20*in, shape.SameRadii(3*in))), 82.8495559215, 472.274333882, nil, true},
		{"rounded once", must(shape.RoundedRectangle(24*in, 20*in, shape.CornerRadii{TopLeft: 4 * in})), 88 - (8-2*pi)*4/4, 480 - (4-pi)*16/4,
			[]string{"bottom", "right", "top", "top left corner", "left"}, true},
		{"rounded out", must(shape.RoundedRectangle(20*in, 20*in, shape.SameRadii(10*in))), 20 * pi, 100 * pi,
			[]string{"bottom right corner", "top right corner", "top left corner", "bottom left corner"}, true},
		{"chord", must(shape.Chord(48*in, 3*in)), 48 + 48.4984478732, 96.2993338203, []string{"chord", "arc"}, true},
		{"chord over half", must(shape.Chord(16*in, 16*in)), 16 + 44.285949, 269.429744, []string{"chord", "arc"}, true},
		{"crowned", must(shape.Crowned(20*in, 24*in, 2*in)), 20 + 48 + 20.5291382244, 480 + 26.878797, []string{"bottom", "right", "top", "left"}, true},
		{"L", must(shape.Polygon(shape.Point{}, shape.Point{X: 4 * in}, shape.Point{X: 4 * in, Y: in}, shape.Point{X: in, Y: in}, shape.Point{X: in, Y: 3 * in}, shape.Point{Y: 3 * in})),
			14, 6, []string{"side 1", "side 2", "side 3", "side 4", "side 5", "side 6"}, false},
	}
}

// Perimeters and areas of every shape, from exact formulas.
func TestOutlineMeasures(t *testing.T) {
	for _, c := range everyShape() {
		t.Run(c.name, func(t *testing.T) {
			o := c.o(t)
			require.InDelta(t, c.perimeter, o.Perimeter().Inches(), 1e-6)
			require.InDelta(t, c.area, o.Area().SquareInches(), 1e-5)
			require.Equal(t, c.convex, o.Convex())
			if c.edges != nil {
				require.Equal(t, c.edges, o.Edges())
			}
			var sum unit.Length
			for _, e := range o.Edges() {
				l, err := o.EdgeLength(e)
				require.NoError(t, err)
				sum += l
			}
			require.InDelta(t, float64(o.Perimeter()), float64(sum), float64(len(o.Edges())))
			if c.name != "L" {
				low, _ := o.Bounds()
				require.Equal(t, shape.Point{}, low)
			}
			w, h := o.Size()
			require.Positive(t, w)
			require.Positive(t, h)
			// Chords hold the tolerance: the area is off by less than the
			// perimeter times it.
			ps, err := o.Flatten(mm / 10)
			require.NoError(t, err)
			require.InDelta(t, o.Area().SquareMillimetres(), must(shape.Polygon(ps...))(t).Area().SquareMillimetres(), o.Perimeter().Millimetres()/10)
			// Turning and mirroring keep every measure.
			for _, v := range []shape.Outline{o.Turned(1), o.Turned(-2), o.Mirrored(), o.Turned(3).Mirrored()} {
				require.Equal(t, o.Perimeter(), v.Perimeter())
				require.InDelta(t, float64(o.Area()), float64(v.Area()), 1)
				require.ElementsMatch(t, o.Edges(), v.Edges())
			}
			require.Equal(t, o.Turned(2).Turned(2).Edges(), o.Edges())
		})
	}
}

func TestOutlineCentroid(t *testing.T) {
	o := must(shape.Rectangle(20*in, 24*in))(t)
	require.Equal(t, shape.Point{X: 10 * in, Y: 12 * in}, o.Centroid())
	// Half a circle: 4 r / (3 pi) above the chord.
	h := must(shape.Chord(20*in, 10*in))(t)
	require.InDelta(t, 40/(3*math.Pi), h.Centroid().Y.Inches(), 1e-7)
	require.InDelta(t, 10, h.Centroid().X.Inches(), 1e-7)
	require.Equal(t, shape.Point{}, shape.Outline{}.Centroid())
}

func TestOutlineRefuses(t *testing.T) {
	type maker func() (shape.Outline, error)
	pt := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	for _, c := range []struct {
		name  string
		make  maker
		field string
		want  error
	}{
		{"no width", func() (shape.Outline, error) { return shape.Rectangle(0, in) }, "width", unit.ErrRange},
		{"bare number", func() (shape.Outline, error) { return shape.Rectangle(20, in) }, "width", unit.ErrForgottenUnit},
		{"too wide", func() (shape.Outline, error) { return shape.Rectangle(51*unit.Metre, in) }, "width", unit.ErrRange},
		{"negative", func() (shape.Outline, error) { return shape.Trapezoid(in, -in, in, 0) }, "top", unit.ErrRange},
		{"flat triangle", func() (shape.Outline, error) { return shape.Triangle(2*in, in, in) }, "base", unit.ErrRange},
		{"two sides", func() (shape.Outline, error) { return shape.RegularPolygon(2, in) }, "n", unit.ErrRange},
		{"huge polygon", func() (shape.Outline, error) { return shape.RegularPolygon(360, 10*unit.Metre) }, "side_length", unit.ErrRange},
		{"short stadium", func() (shape.Outline, error) { return shape.Stadium(in, 2*in) }, "length", unit.ErrRange},
		{"big radii", func() (shape.Outline, error) {
			return shape.RoundedRectangle(10*in, 10*in, shape.CornerRadii{TopLeft: 6 * in, TopRight: 5 * in})
		}, "radii.top_left", unit.ErrRange},
		{"two corners", func() (shape.Outline, error) { return shape.Polygon(pt(0, 0), pt(in, 0)) }, "corners", unit.ErrRange},
		{"no area", func() (shape.Outline, error) { return shape.Polygon(pt(0, 0), pt(in, 0), pt(2*in, 0)) }, "outline", shape.ErrCrossing},
		{"bow tie", func() (shape.Outline, error) {
			return shape.Polygon(pt(0, 0), pt(2*in, 2*in), pt(2*in, 0), pt(0, 2*in))
		}, "outline", shape.ErrCrossing},
		{"tall rise", func() (shape.Outline, error) { return shape.Crowned(10*in, in, 6*in) }, "rise", unit.ErrRange},
		{"no edge", func() (shape.Outline, error) { return shape.TraceFrom(pt(0, 0)).Line(pt(in, 0)).Close() }, "edges[0].name", unit.ErrRequired},
		{"same name", func() (shape.Outline, error) {
			return shape.TraceFrom(pt(0, 0)).Edge("a").Line(pt(in, 0)).Edge("a").Line(pt(0, in)).Close()
		}, "edges[1].name", unit.ErrRange},
		{"empty name", func() (shape.Outline, error) {
			return shape.TraceFrom(pt(0, 0)).Edge("").Line(pt(in, 0)).Line(pt(0, in)).Close()
		}, "edges[0].name", unit.ErrRequired},
		{"far point", func() (shape.Outline, error) {
			return shape.TraceFrom(pt(0, 0)).Edge("a").Line(pt(unit.Metre*60, 0)).Close()
		}, "outline", unit.ErrRange},
		{"nothing", func() (shape.Outline, error) { return shape.TraceFrom(pt(0, 0)).Close() }, "outline", unit.ErrRange},
		{"no half", func() (shape.Outline, error) { return shape.Half(nil) }, "half", unit.ErrRequired},
		{"half off the line", func() (shape.Outline, error) {
			return shape.Half(shape.TraceFrom(pt(0, 0)).Edge("a").Line(pt(in, in)))
		}, "half", unit.ErrRange},
		{"half across the line", func() (shape.Outline, error) {
			return shape.Half(shape.TraceFrom(pt(0, 0)).Edge("a").Line(pt(in, in)).Line(pt(-in, 2*in)).Line(pt(0, 4*in)))
		}, "outline", shape.ErrCrossing},
		{"one station", func() (shape.Outline, error) {
			return shape.Stations([]shape.Station{{At: 0, Left: in, Right: in}}, false)
		}, "stations", unit.ErrRange},
		{"stations back", func() (shape.Outline, error) {
			return shape.Stations([]shape.Station{{At: in, Left: in, Right: in}, {At: 0, Left: in, Right: in}}, false)
		}, "stations[1].at", unit.ErrRange},
		{"waist of nothing", func() (shape.Outline, error) {
			return shape.Stations([]shape.Station{{0, in, in}, {in, 0, 0}, {2 * in, in, in}}, false)
		}, "stations[1].left", unit.ErrRange},
		{"path syntax", func() (shape.Outline, error) { return shape.Path("M 0 0 L", mm) }, "data", shape.ErrPathSyntax},
		{"path range", func() (shape.Outline, error) { return shape.Path("M 0 0 L 1e9 0 0 1", mm) }, "data", unit.ErrRange},
		{"path none", func() (shape.Outline, error) { return shape.Path("", mm) }, "data", unit.ErrRange},
		{"path two", func() (shape.Outline, error) { return shape.Path("M0 0h9v9zM20 0h9v9z", mm) }, "data", unit.ErrRange},
		{"path unit", func() (shape.Outline, error) { return shape.Path("M0 0h9v9z", 1) }, "user", unit.ErrRange},
		{"path crossing", func() (shape.Outline, error) { return shape.Path("M0 0L20 20L20 0L0 20z", mm) }, "outline", shape.ErrCrossing},
	} {
		_, err := c.make()
		var input *unit.InputError
		require.ErrorAs(t, err, &input, c.name)
		require.ErrorIs(t, err, c.want, c.name)
		require.Equal(t, c.field, string(input.Field), c.name)
		require.NotContains(t, err.Error(), "%!", c.name)
	}
}

func TestCrossingErrorTellsWhere(t *testing.T) {
	_, err := shape.TraceFrom(shape.Point{}).
		Edge("bottom").Line(shape.Point{X: 10 * in}).
		Edge("side").Line(shape.Point{X: 2 * in, Y: 6 * in}).
		Edge("top").Line(shape.Point{X: 8 * in, Y: 6 * in}).
		Edge("back").Close()
	var ce *shape.CrossingError
	require.ErrorAs(t, err, &ce)
	require.Equal(t, "side", ce.First)
	require.Equal(t, "back", ce.Second)
	// x = 10 - 4/3 y and x = 4/3 y meet at x = 5, y = 3.75.
	require.Equal(t, shape.Point{X: 5 * in, Y: 3*in + 3*in/4}, ce.At)
}

// A crossing of a path is where its data has it: y down.
func TestCrossingOfAPath(t *testing.T) {
	_, err := shape.Path("M 1 2 H 11 L 3 8 H 9 Z", unit.Inch)
	var ce *shape.CrossingError
	require.ErrorAs(t, err, &ce)
	require.Equal(t, "side 2", ce.First)
	require.Equal(t, "side 4", ce.Second)
	require.Equal(t, shape.Point{X: 6 * in, Y: 5*in + 3*in/4}, ce.At)
	require.ErrorContains(t, err, "(6 in, 5 3/4 in)")
}

func TestHalfOutline(t *testing.T) {
	pt := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	// Right half of a crowned back: bottom and top go on across the middle.
	half := shape.TraceFrom(pt(10*in, 0)).
		Edge("bottom").Line(pt(20*in, 0)).
		Edge("side").Line(pt(18*in, 20*in)).
		Edge("top").Cubic(pt(18*in, 23*in), pt(14*in, 24*in), pt(10*in, 24*in))
	o := must(shape.Half(half))(t)
	require.Equal(t, []string{"bottom", "side", "top", "side mirrored"}, o.Edges())
	require.Equal(t, o.Perimeter(), o.Mirrored().Perimeter())
	bottom, err := o.EdgeLength("bottom")
	require.NoError(t, err)
	require.Equal(t, 20*in, bottom)
	require.Equal(t, 10*in, o.Centroid().X)
	// The left half, traced the other way, gives the same shape.
	left := shape.TraceFrom(pt(10*in, 0)).
		Edge("bottom").Line(pt(0, 0)).
		Edge("side").Line(pt(2*in, 20*in)).
		Edge("top").Cubic(pt(2*in, 23*in), pt(6*in, 24*in), pt(10*in, 24*in))
	l := must(shape.Half(left))(t)
	require.Equal(t, o.Area(), l.Area())
	// A pointed top stays two edges.
	heart := shape.TraceFrom(pt(0, 0)).Edge("lobe").Line(pt(5*in, 5*in)).Line(pt(0, 8*in))
	h := must(shape.Half(heart))(t)
	require.Equal(t, []string{"lobe", "lobe mirrored"}, h.Edges())
	// A circle from its half is one edge.
	c := must(shape.Half(shape.TraceFrom(pt(0, 0)).Edge("rim").Arc(pt(0, 10*in), 5*in)))(t)
	require.Equal(t, []string{"rim"}, c.Edges())
	require.InDelta(t, 10*math.Pi, c.Perimeter().Inches(), 1e-8)
}

func TestStationOutline(t *testing.T) {
	ss := []shape.Station{
		shape.CentredStation(0, 18*in),
		shape.CentredStation(6*in, 20*in),
		shape.CentredStation(12*in, 19*in),
		shape.CentredStation(20*in, 12*in),
	}
	straight := must(shape.Stations(ss, false))(t)
	require.Equal(t, []string{"bottom", "right", "top", "left"}, straight.Edges())
	require.Equal(t, unit.Area(19*6+19.5*6+15.5*8)*unit.SquareInch, straight.Area())
	smooth := must(shape.Stations(ss, true))(t)
	require.Greater(t, smooth.Perimeter(), straight.Perimeter())
	w, h := smooth.Size()
	require.Equal(t, 20*in, w, "a curve stays within the widest station")
	require.Equal(t, 20*in, h)
	// Pointed ends have no edge.
	leaf := must(shape.Stations([]shape.Station{{0, 0, 0}, {5 * in, 2 * in, 3 * in}, {10 * in, 0, 0}}, true))(t)
	require.Equal(t, []string{"right", "left"}, leaf.Edges())
}

// Smoothed edges are monotone cubics by Fritsch and Butland (1984): at a station
// between steps h of slopes a and b the slope is (w + v)/(w/a + v/b), w = 2 h2 + h1
// and v = h2 + 2 h1, nothing where the slopes differ in sign; at an end that of the
// parabola through three points, at most three times that of its step. Under a step
// from x0 to x1 of slopes m0 and m1 lies h (x0 + x1)/2 + h² (m0 - m1)/12, by hand.
func TestStationsByHand(t *testing.T) {
	for _, x := range []struct {
		at, half []unit.Length // in
		slopes   []float64
	}{
		// Slopes of the steps 2, 4, 1: (4 2 - 4)/3, 9/(5/2 + 4/4), 9/(4/4 + 5/1) and (4 1 - 4)/3.
		{[]unit.Length{0, 1, 3, 4}, []unit.Length{2, 4, 12, 13}, []float64{4. / 3, 18. / 7, 3. / 2, 0}},
		// 1 and -9: the parabola begins with 6, more than three times 1, and ends with -14.
		{[]unit.Length{0, 1, 2}, []unit.Length{10, 11, 2}, []float64{3, 0, -14}},
		// 4, 1 and 2 over steps of 1, 3 and 2: (5 4 - 1)/4, 12/(7/4 + 5/1), 15/(7/1 + 8/2) and (7 2 - 2 1)/5.
		{[]unit.Length{0, 1, 4, 6}, []unit.Length{1, 5, 8, 12}, []float64{19. / 4, 16. / 9, 15. / 11, 12. / 5}},
	} {
		var ss []shape.Station
		area := 0.0
		for i := range x.at {
			ss = append(ss, shape.CentredStation(x.at[i]*in, 2*x.half[i]*in))
			if i > 0 {
				h := float64(x.at[i] - x.at[i-1])
				area += float64(h*float64(x.half[i-1]+x.half[i])) + float64(h*h*(x.slopes[i-1]-x.slopes[i]))/6
			}
		}
		o := must(shape.Stations(ss, true))(t)
		require.InDelta(t, area, o.Area().SquareInches(), 2e-6*area)
	}
}

// Smoothing keeps between the measured widths, passes through them, and leaves
// widths on a straight line straight.
func TestStationsSmoothly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(t, "n")
		var ss []shape.Station
		along := unit.Length(0)
		for range n {
			ss = append(ss, shape.Station{At: along,
				Left:  drawLength(mm, 300*mm).Draw(t, "left"),
				Right: drawLength(mm, 300*mm).Draw(t, "right")})
			along += drawLength(mm, 200*mm).Draw(t, "step")
		}
		o, err := shape.Stations(ss, true)
		require.NoError(t, err)
		ps, err := o.Flatten(20 * unit.Micrometre)
		require.NoError(t, err)
		for _, s := range ss {
			require.Contains(t, ps, shape.Point{X: s.Right, Y: s.At})
			require.Contains(t, ps, shape.Point{X: -s.Left, Y: s.At})
		}
		for _, p := range ps {
			for i := 1; i < n; i++ {
				a, b := ss[i-1], ss[i]
				if p.Y < a.At || p.Y > b.At {
					continue
				}
				if p.X >= 0 {
					require.True(t, p.X >= min(a.Right, b.Right)-1 && p.X <= max(a.Right, b.Right)+1)
				} else {
					require.True(t, -p.X >= min(a.Left, b.Left)-1 && -p.X <= max(a.Left, b.Left)+1)
				}
				break
			}
		}
	})
}

func TestPathOutline(t *testing.T) {
	// y points down in a drawing: the top of the drawing is the top of the panel.
	o := must(shape.Path("M100 200 h200 v-150 a100 50 0 0 0 -200 0 z", mm))(t)
	require.Equal(t, []string{"side 1", "side 2", "side 3", "side 4"}, o.Edges())
	w, h := o.Size()
	require.Equal(t, 200*mm, w)
	require.Equal(t, 200*mm, h)
	require.InDelta(t, 200*150+math.Pi*100*50/2, o.Area().SquareMillimetres(), 1e-3)
	low, _ := o.Bounds()
	require.Equal(t, shape.Point{}, low)
	r := must(o.Renamed("bottom", "right", "top", "left"))(t)
	l, err := r.EdgeLength("bottom")
	require.NoError(t, err)
	require.Equal(t, 200*mm, l)
	j := must(r.Joined("rest", "top", "bottom"))(t)
	require.ElementsMatch(t, []string{"rest", "right"}, j.Edges())
	require.Equal(t, r.Perimeter(), j.Perimeter())
	_, err = r.Joined("x", "top", "nowhere")
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, err = r.Renamed("a", "b")
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = r.EdgeLength("nowhere")
	require.ErrorIs(t, err, unit.ErrUnknown)
}
