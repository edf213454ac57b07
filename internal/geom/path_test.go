package geom

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const inch = 25_400_000

func ellipsePath(a, b float64) Path {
	var p Path
	for k := range 4 {
		t := float64(k) * math.Pi / 2
		s := EllipticArcTo(Vec{}, Vec{X: a}, Vec{Y: b}, t, t+math.Pi/2)
		p.Segments = append(p.Segments, s)
	}
	return p
}

func circlePath(r int64) Path {
	q := math.Tan(math.Pi / 8)
	ps := []Point{{r, 0}, {0, r}, {-r, 0}, {0, -r}}
	var p Path
	for i, a := range ps {
		p.Segments = append(p.Segments, ArcTo(a, ps[(i+1)%4], q))
	}
	return p
}

// Perimeters of ellipses: the first four printed in an encyclopaedia table of
// exact values ("Perimeter of an ellipse"), the others derived from the
// complete elliptic integral 4 a E(e^2).
func TestEllipsePerimeter(t *testing.T) {
	for _, c := range []struct{ a, b, want, tol float64 }{
		{1.2, 1, 6.925791195, 2e-9},
		{1.5, 1, 7.932719795, 2e-9},
		{2, 1, 9.688448220, 2e-9},
		{3, 1, 13.36489322, 1e-8},
		{5, 1, 21.010044540, 2e-9},
		{9, 7, 50.462024500, 5e-9},
		{12, 8, 63.461758357, 5e-9},
		{20, 2, 81.279483602, 5e-9},
	} {
		p := ellipsePath(c.a*inch, c.b*inch)
		require.True(t, p.Closed())
		require.InDelta(t, c.want, p.Length()/inch, c.tol)
		require.InEpsilon(t, math.Pi*c.a*c.b, p.Area()/inch/inch, 1e-8)
	}
}

func TestCircle(t *testing.T) {
	p := circlePath(9 * inch) // 18 in across
	require.InDelta(t, 56.5486677646, p.Length()/inch, 1e-9)
	require.InDelta(t, 254.469004941, p.Area()/inch/inch, 1e-8)
	require.Equal(t, Box{Point{-9 * inch, -9 * inch}, Point{9 * inch, 9 * inch}}, p.Bounds())
	half := Path{[]Segment{ArcTo(Point{inch, 0}, Point{-inch, 0}, 1), LineTo(Point{-inch, 0}, Point{inch, 0})}}
	require.Equal(t, Box{Point{-inch, 0}, Point{inch, inch}}, half.Bounds())
	require.InEpsilon(t, math.Pi/2, half.Area()/inch/inch, 1e-12)
	x, y, ok := half.Centroid()
	require.True(t, ok)
	require.InDelta(t, 0, x, 1)
	require.InDelta(t, 4/(3*math.Pi)*inch, y, 1)
}

// Arcs from chord and rise: bulge = 2 rise / chord. Derived values.
func TestArcFromChordAndRise(t *testing.T) {
	for _, c := range []struct{ chord, rise, arc, area float64 }{
		{16, 4, 18.54590436, 44.7295218002},
		{48, 3, 48.4984478732, 96.2993338203},
		{20, 2, 20.5291382244, 26.878797},
		{20, 10, 31.415927, 157.079633},
		{16, 16, 44.285949, 269.429744},
	} {
		s := ArcTo(Point{0, 0}, Point{int64(c.chord * inch), 0}, 2*c.rise/c.chord)
		require.InDelta(t, c.arc, s.Length()/inch, 1e-6)
		p := Path{[]Segment{s, LineTo(s.To, s.From)}}
		require.InDelta(t, c.area, p.Area()/inch/inch, 1e-6)
	}
}

func TestGaussRule(t *testing.T) {
	for n := range 16 {
		q := quadrature{f: func(x float64) float64 { return math.Pow(x, float64(n)) }}
		want := 0.0
		if n%2 == 0 {
			want = 2 / float64(n+1)
		}
		require.InDelta(t, want, q.rule(-1, 1), 1e-14, "power %d", n)
	}
}

func TestTrig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-200, 200).Draw(t, "x")
		s, c := sincos(x)
		require.InDelta(t, math.Sin(x), s, 4e-15)
		require.InDelta(t, math.Cos(x), c, 4e-15)
		y := rapid.Float64Range(-1e10, 1e10).Draw(t, "y")
		if y != 0 { // no signed zero here
			require.InDelta(t, math.Atan2(y, x), atan2(y, x), 1e-15)
		}
	})
	for k := range 16 {
		s, c := sincos(float64(k) * math.Pi / 8)
		require.InDelta(t, math.Sin(float64(k)*math.Pi/8), s, 3e-16)
		require.InDelta(t, math.Cos(float64(k)*math.Pi/8), c, 3e-16)
	}
}

// The length of a parabola from its closed form.
func TestQuadraticLength(t *testing.T) {
	// y = x^2 / (2 p) from 0 to x: with u = x / p,
	// L = p/2 (u sqrt(1 + u^2) + asinh u).
	x, p := 300.0*mm, 100.0*mm
	u := x / p
	want := p / 2 * (u*math.Sqrt(1+u*u) + math.Asinh(u))
	s := QuadraticTo(Point{0, 0}, Point{150 * mm, 0}, Point{300 * mm, 450 * mm})
	require.InEpsilon(t, want, s.Length(), 1e-9)
	// A quadratic written as a cubic is the same curve.
	c := CubicTo(s.From, Point{100 * mm, 0}, Point{200 * mm, 150 * mm}, s.To)
	require.InEpsilon(t, want, c.Length(), 1e-9)
	require.InEpsilon(t, s.green(), c.green(), 1e-12)
	// A cubic with a cusp: x = 3t - 6t^2 + 4t^3, y = 3t(1-t), scaled; compared
	// with a sum of very many chords.
	k := CubicTo(Point{0, 0}, Point{1000 * mm, 1000 * mm}, Point{0, 1000 * mm}, Point{1000 * mm, 0})
	sum, last := 0.0, Vec{}
	for i := 1; i <= 200000; i++ {
		v := k.offsetAt(float64(i) / 200000)
		sum += v.sub(last).length()
		last = v
	}
	require.InEpsilon(t, sum, k.Length(), 1e-9)
}

func drawSegment(t *rapid.T) Segment {
	pt := func(l string) Point {
		return Point{rapid.Int64Range(-1000*mm, 1000*mm).Draw(t, l), rapid.Int64Range(-1000*mm, 1000*mm).Draw(t, l)}
	}
	a, b := pt("from"), pt("to")
	switch rapid.IntRange(0, 4).Draw(t, "kind") {
	case 1:
		if a == b {
			t.Skip("no chord")
		}
		return ArcTo(a, b, rapid.Float64Range(-4, 4).Draw(t, "bulge"))
	case 2:
		s := EllipticArcTo(pt("centre").vec(), pt("u").vec(), pt("v").vec(), rapid.Float64Range(-3, 3).Draw(t, "t0"), rapid.Float64Range(-3, 3).Draw(t, "t1"))
		return s
	case 3:
		return QuadraticTo(a, pt("c"), b)
	case 4:
		return CubicTo(a, pt("c1"), pt("c2"), b)
	}
	return LineTo(a, b)
}

// Flattening keeps its promise: no curve point is further from the chords than
// the tolerance, no chord point further from the curve.
func TestFlattenTolerance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSegment(t)
		tol := rapid.SampledFrom([]int64{1000, 100_000, mm}).Draw(t, "tolerance")
		reach := rapid.SampledFrom([]int64{0, 12_700_000}).Draw(t, "reach")
		pts, err := s.Flatten(FlattenOptions{tol, reach})
		require.NoError(t, err)
		require.Equal(t, s.To, pts[len(pts)-1])
		chain := append(Ring{s.From}, pts...)
		edges := make([]edge, len(pts))
		for i := range pts {
			edges[i] = edge{chain[i], chain[i+1]}
		}
		work := treeWork
		tree := newBoxTree(edges, &work)
		const n = 500
		for i := 0; i <= n; i++ {
			v := s.offsetAt(float64(i) / n)
			d := tree.nearest(v.X+float64(s.From.X), v.Y+float64(s.From.Y)).d
			require.LessOrEqual(t, d, float64(tol), "point %d of %v", i, s)
		}
		// The total length of the chords can only be shorter.
		var l float64
		for _, e := range edges {
			l += Distance(e.a, e.b)
		}
		require.LessOrEqual(t, l, s.Length()*(1+1e-9)+2*float64(len(edges)))
	})
}

func TestSegmentLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSegment(t)
		l := s.Length()
		require.InDelta(t, l, s.Reverse().Length(), 1e-9*l+1e-6)
		require.InDelta(t, s.green(), -s.Reverse().green()+0, 1e-9*math.Abs(s.green())+float64(4e9*8))
		require.Equal(t, s, s.Reverse().Reverse())
		d := Point{rapid.Int64Range(-1e9, 1e9).Draw(t, "dx"), rapid.Int64Range(-1e9, 1e9).Draw(t, "dy")}
		opt := FlattenOptions{Tolerance: 100_000}
		pts, err := s.Flatten(opt)
		require.NoError(t, err)
		b := s.Bounds()
		for _, p := range pts {
			require.True(t, p.X >= b.Min.X-1 && p.X <= b.Max.X+1 && p.Y >= b.Min.Y-1 && p.Y <= b.Max.Y+1)
		}
		rev, err := s.Reverse().Flatten(opt)
		require.NoError(t, err)
		chain := append([]Point{s.From}, pts...)
		slices.Reverse(chain)
		require.Equal(t, chain[1:], rev, "reversing changes no point")
		for tr := Identity; tr <= AntiDiagonal; tr++ {
			m := s.Transform(tr).Translate(d)
			require.Equal(t, l, m.Length(), "length is untouched")
			moved, err := m.Flatten(opt)
			require.NoError(t, err)
			want := make([]Point, len(pts))
			for i, p := range pts {
				want[i] = tr.Apply(p).Add(d)
			}
			require.Equal(t, want, moved, "flattening commutes exactly")
		}
	})
}

// The area of a curved path is that of its fine chords.
func TestPathArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var p Path
		first := drawSegment(t)
		p.Segments = []Segment{first, LineTo(first.To, first.From)}
		r, seg, err := p.Flatten(FlattenOptions{Tolerance: 1000})
		require.NoError(t, err)
		require.Len(t, seg, len(r))
		require.InDelta(t, r.Area(), p.Area(), 1.1e3*p.Length()+1)
		if x, y, ok := p.Centroid(); ok && math.Abs(p.Area()) > 0.01*p.Length()*p.Length()+mm*mm {
			rx, ry, _ := r.Centroid()
			require.InDelta(t, rx, x, 1e5)
			require.InDelta(t, ry, y, 1e5)
		}
	})
}

func TestPathCheck(t *testing.T) {
	require.ErrorIs(t, Path{[]Segment{LineTo(Point{}, Point{2 * MaxCoord, 0})}}.Check(), ErrRange)
	require.ErrorIs(t, Path{[]Segment{LineTo(Point{}, Point{1, 0}), LineTo(Point{2, 0}, Point{})}}.Check(), ErrParameter)
	require.ErrorIs(t, Path{[]Segment{{Kind: 9}}}.Check(), ErrParameter)
	require.ErrorIs(t, Path{[]Segment{ArcTo(Point{}, Point{1, 0}, math.NaN())}}.Check(), ErrParameter)
	_, err := LineTo(Point{}, Point{1, 1}).Flatten(FlattenOptions{Tolerance: 5})
	require.ErrorIs(t, err, ErrParameter)
}
