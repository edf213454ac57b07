package geom

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const mm = 1_000_000

// drawConvex draws a convex outline up to 2 m wide.
func drawConvex(t *rapid.T) Ring {
	n := rapid.IntRange(3, 30).Draw(t, "hull points")
	ps := make([]Point, n)
	for i := range ps {
		ps[i] = Point{rapid.Int64Range(-1000*mm, 1000*mm).Draw(t, "x"), rapid.Int64Range(-1000*mm, 1000*mm).Draw(t, "y")}
	}
	// Drop points that make a side under a millimetre: no panel has one.
	h := Hull(ps)
	for i := 0; i < len(h); {
		if Distance(h[i], h[(i+1)%len(h)]) < mm {
			h = append(h[:i:i], h[i+1:]...)
			i = 0
			continue
		}
		i++
	}
	if len(h) < 3 || h.Area() < 100*mm*mm {
		t.Skip("no area")
	}
	return Hull(h)
}

// drawStar draws a simple outline, usually concave, anticlockwise.
func drawStar(t *rapid.T) Ring {
	n := rapid.IntRange(3, 24).Draw(t, "star points")
	r := make(Ring, n)
	for i := range r {
		a := 2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.9).Draw(t, "angle")) / float64(n)
		d := rapid.Float64Range(20*mm, 1000*mm).Draw(t, "radius")
		r[i] = Point{int64(d * math.Cos(a)), int64(d * math.Sin(a))}
	}
	r = r.Clean()
	if _, bad, _ := r.FindSelfIntersection(); bad || len(r) < 3 || r.Orientation() < 0 {
		t.Skip("not simple")
	}
	return r
}

func polygons(os []OffsetPolygon) []Polygon {
	ps := make([]Polygon, len(os))
	for i, o := range os {
		ps[i] = o.Polygon()
	}
	return ps
}

func areaOf(ps []Polygon) float64 {
	var s Int128
	for _, p := range ps {
		s = s.Add(p.TwiceArea())
	}
	return s.Float64() / 2
}

func offsetBy(t require.TestingT, r Ring, d int64, o OffsetOptions) []Polygon {
	out, err := OffsetBy(r, d, o)
	require.NoError(t, err)
	ps := polygons(out)
	requireValid(t, ps)
	return ps
}

// Steiner's formula for a convex outline and round corners:
// area A + P s + pi s^2, perimeter P + 2 pi s.
func TestSteinerFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawConvex(t)
		s := rapid.Int64Range(1, 100*mm).Draw(t, "s")
		tol := rapid.SampledFrom([]int64{1000, 10_000, 100_000}).Draw(t, "tolerance")
		ps := offsetBy(t, r, s, OffsetOptions{Join: Round, Tolerance: tol})
		require.Len(t, ps, 1)
		require.Empty(t, ps[0].Holes)
		fs := float64(s)
		area, per := r.Area()+r.Perimeter()*fs+math.Pi*fs*fs, r.Perimeter()+2*math.Pi*fs
		// Chords lie inside the arc, by no more than the tolerance.
		require.LessOrEqual(t, areaOf(ps), area+2*per)
		// A point narrower than a hair is cut back, which moves a corner by as
		// much.
		require.GreaterOrEqual(t, areaOf(ps), area-2*math.Pi*fs*float64(tol)-(2+hairWidth)*per)
		require.InDelta(t, per, ps[0].Outer.Perimeter(), 8*float64(tol)*math.Pi+100)
	})
}

// With mitred corners: area A + P s + lambda s^2, perimeter P + 2 lambda s,
// lambda = sum of tan(half the turn).
func TestMitredFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawConvex(t)
		s := rapid.Int64Range(1, 50*mm).Draw(t, "s")
		var lambda float64
		for i := range r {
			a, b := r[(i+1)%len(r)].Sub(r[i]), r[(i+2)%len(r)].Sub(r[(i+1)%len(r)])
			turn := math.Atan2(Cross(a, b).Float64(), Dot(a, b).Float64())
			if turn > 3 {
				t.Skip("corner too sharp for the limit")
			}
			lambda += math.Tan(turn / 2)
		}
		ps := offsetBy(t, r, s, OffsetOptions{MitreLimit: 1000})
		require.Len(t, ps, 1)
		fs := float64(s)
		per := r.Perimeter() + 2*lambda*fs
		require.InDelta(t, r.Area()+r.Perimeter()*fs+lambda*fs*fs, areaOf(ps), (2+hairWidth)*per)
		require.InDelta(t, per, ps[0].Outer.Perimeter(), 100*float64(len(r)))
	})
}

func TestOffsetRectangle(t *testing.T) {
	r := Ring{{0, 0}, {200 * mm, 0}, {200 * mm, 100 * mm}, {0, 100 * mm}}
	out, err := Offset(r, []int64{10 * mm, 20 * mm, 30 * mm, 40 * mm}, OffsetOptions{})
	require.NoError(t, err)
	require.Len(t, out, 1)
	require.Equal(t, Ring{{-40 * mm, -10 * mm}, {220 * mm, -10 * mm}, {220 * mm, 130 * mm}, {-40 * mm, 130 * mm}}, out[0].Outer.Ring)
	require.Equal(t, []Origin{{0, false, 10 * mm}, {1, false, 20 * mm}, {2, false, 30 * mm}, {3, false, 40 * mm}}, out[0].Outer.Origin)

	// Inward by 50 the rectangle is gone; by 49 a strip is left.
	require.Empty(t, offsetBy(t, r, -50*mm, OffsetOptions{}))
	in := offsetBy(t, r, -49*mm, OffsetOptions{})
	require.Equal(t, []Polygon{{Outer: Ring{{49 * mm, 49 * mm}, {151 * mm, 49 * mm}, {151 * mm, 51 * mm}, {49 * mm, 51 * mm}}}}, in)

	// One edge at a time.
	out, err = Offset(r, []int64{-10 * mm, 0, 0, 0}, OffsetOptions{})
	require.NoError(t, err)
	require.Equal(t, Ring{{0, 10 * mm}, {200 * mm, 10 * mm}, {200 * mm, 100 * mm}, {0, 100 * mm}}, out[0].Outer.Ring)
}

func TestOffsetJoins(t *testing.T) {
	// A square corner of 100 mm, 10 out: the mitre point is 14.14 from the corner.
	r := Ring{{0, 0}, {100 * mm, 0}, {100 * mm, 100 * mm}, {0, 100 * mm}}
	base := 100*100 + 400*10.0 // square plus strips, in mm2
	for _, c := range []struct {
		name   string
		opt    OffsetOptions
		corner float64 // area of one corner piece in mm2
	}{
		{"mitre", OffsetOptions{}, 100},
		{"bevel", OffsetOptions{Join: Bevel}, 50},
		// The square join touches the circle: 100 less a triangle of height
		// 14.142 - 10 and base twice that.
		{"square", OffsetOptions{Join: Square}, 100 - math.Pow(10*(math.Sqrt2-1), 2)},
		{"mitre limit 1.2", OffsetOptions{MitreLimit: 1.2}, 100 - math.Pow(10*(math.Sqrt2-1.2), 2)},
		{"round", OffsetOptions{Join: Round, Tolerance: 100}, 25 * math.Pi},
	} {
		ps := offsetBy(t, r, 10*mm, c.opt)
		require.InDelta(t, base+4*c.corner, areaOf(ps)/mm/mm, 0.01, c.name)
	}
}

func TestOffsetSteps(t *testing.T) {
	// A straight side in two parts with different distances: a step square to
	// the side at the joint.
	r := Ring{{0, 0}, {50 * mm, 0}, {100 * mm, 0}, {100 * mm, 80 * mm}, {0, 80 * mm}}
	for _, j := range []Join{Mitre, Square, Bevel} {
		out, err := Offset(r, []int64{10 * mm, 30 * mm, 0, 0, 0}, OffsetOptions{Join: j})
		require.NoError(t, err)
		require.Len(t, out, 1)
		require.Equal(t, Ring{{0, -10 * mm}, {50 * mm, -10 * mm}, {50 * mm, -30 * mm}, {100 * mm, -30 * mm}, {100 * mm, 80 * mm}, {0, 80 * mm}}, out[0].Outer.Ring.Clean())
	}
	// A corner too flat for 30 beside 10: the step stands square to the
	// second edge and the first edge's line runs up to it.
	r = Ring{{0, 0}, {50 * mm, 0}, {100 * mm, 5 * mm}, {100 * mm, 80 * mm}, {0, 80 * mm}}
	out, err := Offset(r, []int64{10 * mm, 30 * mm, 0, 0, 0}, OffsetOptions{})
	require.NoError(t, err)
	o := out[0].Outer
	l := math.Hypot(50, 5)
	top := Point{50*mm + int64(math.Round(30*mm*5/l)), -int64(math.Round(30 * mm * 50 / l))}
	foot := Point{50*mm + int64(math.Round(10*mm*5.0/50)), -10 * mm}
	require.Contains(t, o.Ring, top)
	require.Contains(t, o.Ring, foot)
}

func TestOffsetHoleAndSplit(t *testing.T) {
	// A C-shape whose mouth closes when it grows: a hole is left.
	c := Ring{{0, 0}, {100 * mm, 0}, {100 * mm, 40 * mm}, {90 * mm, 40 * mm}, {90 * mm, 10 * mm}, {10 * mm, 10 * mm}, {10 * mm, 90 * mm}, {90 * mm, 90 * mm}, {90 * mm, 50 * mm}, {100 * mm, 50 * mm}, {100 * mm, 100 * mm}, {0, 100 * mm}}
	ps := offsetBy(t, c, 6*mm, OffsetOptions{})
	require.Len(t, ps, 1)
	require.Len(t, ps[0].Holes, 1)
	require.InDelta(t, 112*112-68*68, areaOf(ps)/mm/mm, 1e-6)
	// A dumb-bell that parts when it shrinks.
	d := Ring{{0, 0}, {30 * mm, 0}, {30 * mm, 10 * mm}, {60 * mm, 10 * mm}, {60 * mm, 0}, {90 * mm, 0}, {90 * mm, 30 * mm}, {60 * mm, 30 * mm}, {60 * mm, 20 * mm}, {30 * mm, 20 * mm}, {30 * mm, 30 * mm}, {0, 30 * mm}}
	ps = offsetBy(t, d, -6*mm, OffsetOptions{})
	require.Len(t, ps, 2)
	require.InDelta(t, 2*18*18, areaOf(ps)/mm/mm, 1e-6)
}

// The definition itself, at random points and for round corners and one
// distance: inside exactly when the distance to the outline says so.
func TestRoundOffsetIsDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawStar(t)
		d := rapid.Int64Range(1*mm, 300*mm).Draw(t, "d")
		if rapid.Bool().Draw(t, "inward") {
			d = -d
		}
		const tol = 10_000
		ps := offsetBy(t, r, d, OffsetOptions{Join: Round, Tolerance: tol})
		for range 50 {
			p := Point{rapid.Int64Range(-1300*mm, 1300*mm).Draw(t, "px"), rapid.Int64Range(-1300*mm, 1300*mm).Draw(t, "py")}
			dist := math.Inf(1)
			for i, a := range r {
				dist = min(dist, segmentDistance(p, a, r[(i+1)%len(r)]))
			}
			if r.Locate(p) == Inside {
				dist = -dist
			}
			if math.Abs(dist-float64(d)) < tol+3 {
				continue
			}
			in := false
			for _, q := range ps {
				in = in || inPolygon(q, p)
			}
			require.Equal(t, dist < float64(d), in, "point %v at %g", p, dist)
		}
	})
}

func inPolygon(q Polygon, p Point) bool {
	if q.Outer.Locate(p) == Outside {
		return false
	}
	for _, h := range q.Holes {
		if h.Locate(p) == Inside {
			return false
		}
	}
	return true
}

func drawDistances(t *rapid.T, n int, sign int64) []int64 {
	ds := make([]int64, n)
	few := []int64{0, 3 * mm, 12_700_000, 40 * mm, 200 * mm}
	for i := range ds {
		ds[i] = sign * rapid.SampledFrom(few).Draw(t, "distance")
	}
	return ds
}

// Unequal distances: every strip is covered (or taken away), and nothing far
// from all edges is.
func TestOffsetCoversStrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawStar(t)
		sg := rapid.SampledFrom([]int64{1, -1}).Draw(t, "sign")
		ds := drawDistances(t, len(r), sg)
		opt := OffsetOptions{Join: Join(rapid.IntRange(0, 3).Draw(t, "join")), MitreLimit: 2}
		out, err := Offset(r, ds, opt)
		require.NoError(t, err)
		ps := polygons(out)
		requireValid(t, ps)
		if sg > 0 {
			require.GreaterOrEqual(t, areaOf(ps), r.Area()-r.Perimeter())
		} else {
			require.LessOrEqual(t, areaOf(ps), r.Area()+r.Perimeter())
		}
		for range 50 {
			p := Point{rapid.Int64Range(-1300*mm, 1300*mm).Draw(t, "px"), rapid.Int64Range(-1300*mm, 1300*mm).Draw(t, "py")}
			inStrip, nearAny, doubt := false, false, nearRing(r, p, 3)
			for i, a := range r {
				b := r[(i+1)%len(r)]
				l := Distance(a, b)
				e := b.Sub(a)
				along := Dot(p.Sub(a), e).Float64() / l
				depth := -Cross(e, p.Sub(a)).Float64() / l * float64(sg)
				d := math.Abs(float64(ds[i]))
				if along > 0 && along < l && depth > 0 && depth < d {
					inStrip = true
				}
				if segmentDistance(p, a, b) <= 4*d+3 {
					nearAny = true
				}
				doubt = doubt || math.Abs(depth-d) < 3 || math.Abs(along) < 3 || math.Abs(along-l) < 3
			}
			if doubt {
				continue
			}
			in := false
			for _, q := range ps {
				in = in || inPolygon(q, p)
			}
			inside := r.Locate(p) == Inside
			if sg > 0 {
				if inside || inStrip {
					require.True(t, in, "point %v is covered", p)
				} else if !nearAny {
					require.False(t, in, "point %v is not reached", p)
				}
			} else {
				if !inside || inStrip {
					require.False(t, in, "point %v is taken away", p)
				} else if !nearAny {
					require.True(t, in, "point %v stays", p)
				}
			}
		}
	})
}

// Moving, turning and mirroring commute with Offset to the last nanometre.
func TestOffsetCommutesWithSymmetries(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var r Ring
		if rapid.Bool().Draw(t, "small") {
			// Small coordinates and 45 degree edges make ties of rounding usual.
			r = drawRing(t, 30, 8, "ring").Clean()
			if _, bad, _ := r.FindSelfIntersection(); bad || len(r) < 3 {
				t.Skip("not simple")
			}
		} else {
			r = drawStar(t)
		}
		sg := rapid.SampledFrom([]int64{1, -1}).Draw(t, "sign")
		ds := make([]int64, len(r))
		smooth := make([]bool, len(r))
		w := r.Bounds().Width() + 1
		for i := range ds {
			ds[i] = sg * rapid.Int64Range(0, w/3).Draw(t, "d")
			smooth[i] = rapid.Bool().Draw(t, "smooth")
		}
		opt := OffsetOptions{Join: Join(rapid.IntRange(0, 3).Draw(t, "join")), Smooth: smooth, Tolerance: 10}
		want, err := Offset(r, ds, opt)
		require.NoError(t, err)
		move := Point{rapid.Int64Range(-mm, mm).Draw(t, "dx"), rapid.Int64Range(-mm, mm).Draw(t, "dy")}
		for tr := Identity; tr <= AntiDiagonal; tr++ {
			n := len(r)
			moved := r.Transform(tr).Translate(move)
			md, ms := make([]int64, n), make([]bool, n)
			for i := range r {
				if tr.Flips() {
					md[(2*n-i-1)%n], ms[(n-i)%n] = ds[i], smooth[i]
				} else {
					md[i], ms[i] = ds[i], smooth[i]
				}
			}
			opt.Smooth = ms
			got, err := Offset(moved, md, opt)
			require.NoError(t, err)
			var a, b []Ring
			for _, p := range want {
				for _, q := range append([]OffsetRing{p.Outer}, p.Holes...) {
					a = append(a, q.Ring.Transform(tr).Translate(move).Normal())
				}
			}
			for _, p := range got {
				for _, q := range append([]OffsetRing{p.Outer}, p.Holes...) {
					b = append(b, q.Ring)
				}
			}
			require.ElementsMatch(t, a, b)
		}
	})
}

func TestOffsetOfOffset(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawStar(t)
		a := rapid.Int64Range(0, 100*mm).Draw(t, "a")
		b := rapid.Int64Range(0, 100*mm).Draw(t, "b")
		opt := OffsetOptions{Join: Join(rapid.IntRange(0, 3).Draw(t, "join"))}
		for _, p := range offsetBy(t, r, a, opt) {
			outer := offsetBy(t, p.Outer, b, opt)
			require.Len(t, outer, 1)
			both, err := Union([]Ring{p.Outer, outer[0].Outer})
			require.NoError(t, err)
			// The union is the outer ring when it contains the inner one.
			require.InDelta(t, outer[0].Outer.Area(), both[0].Outer.Area(), 4*outer[0].Outer.Perimeter())
		}
	})
}

// On convex outlines an inner offset undoes an outer one, whatever the join.
func TestInnerOffsetUndoesOuter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawConvex(t)
		opt := OffsetOptions{Join: Join(rapid.IntRange(0, 3).Draw(t, "join")), MitreLimit: 2}
		ds := make([]int64, len(r))
		d := rapid.Int64Range(10_000, 50*mm).Draw(t, "d")
		each := rapid.Bool().Draw(t, "each its own")
		for i := range ds {
			ds[i] = d
			if each {
				// A margin of micrometres beside one of millimetres leaves steps
				// too short, on the grid, to tell their direction.
				ds[i] = rapid.SampledFrom([]int64{0, mm, 12_700_000, 25_400_000, 48 * mm}).Draw(t, "d")
			}
		}
		out, err := Offset(r, ds, opt)
		require.NoError(t, err)
		require.Len(t, out, 1)
		// Rounding moves each line by up to two nanometres, out and back; where two
		// lines meet at a small angle their crossing moves by all that over its sine.
		sharpest := 1.0
		for i := range r {
			a, b := r[(i+1)%len(r)].Sub(r[i]), r[(i+2)%len(r)].Sub(r[(i+1)%len(r)])
			sharpest = min(sharpest, Cross(a, b).Float64()/Distance(a, Point{})/Distance(b, Point{}))
		}
		in, err := out[0].Outer.Undo(1000)
		if errors.Is(err, ErrRange) && float64(slices.Max(ds))/sharpest > float64(MaxCoord)/3 {
			return // the point of so sharp a corner lies off the grid
		}
		require.NoError(t, err)
		require.Len(t, in, 1)
		dev, err := Hausdorff(r, in[0].Outer.Ring, 10)
		require.NoError(t, err)
		slack := 20 + 8/sharpest
		require.Less(t, dev, slack, "join %d: %v %v\nout %v\nback %v", opt.Join, r, ds, out, in)
	})
}

func TestOffsetRefuses(t *testing.T) {
	r := Ring{{0, 0}, {100 * mm, 0}, {100 * mm, 100 * mm}}
	for _, c := range []struct {
		ring Ring
		dist []int64
		opt  OffsetOptions
		want error
	}{
		{nil, nil, OffsetOptions{}, ErrDegenerate},
		{Ring{{0, 0}, {1, 0}, {2, 0}}, []int64{1, 1, 1}, OffsetOptions{}, ErrDegenerate},
		{r, []int64{1}, OffsetOptions{}, ErrParameter},
		{r, []int64{1, -1, 0}, OffsetOptions{}, ErrParameter},
		{r, []int64{1, 1, 1}, OffsetOptions{MitreLimit: math.NaN()}, ErrParameter},
		{r, []int64{1, 1, 1}, OffsetOptions{MitreLimit: 0.5}, ErrParameter},
		{r, []int64{1, 1, 1}, OffsetOptions{Tolerance: -1}, ErrParameter},
		{r, []int64{1, 1, 1}, OffsetOptions{Join: 9}, ErrParameter},
		{r, []int64{1, 1, 1}, OffsetOptions{Smooth: []bool{true}}, ErrParameter},
		{r, []int64{MaxCoord, 1, 1}, OffsetOptions{}, ErrRange},
		{r, []int64{math.MinInt64, -1, -1}, OffsetOptions{}, ErrRange},
		{Ring{{0, 0}, {2 * MaxCoord, 0}, {0, 1}}, []int64{1, 1, 1}, OffsetOptions{}, ErrRange},
	} {
		_, err := Offset(c.ring, c.dist, c.opt)
		require.ErrorIs(t, err, c.want)
	}
}

// Any ring, crossing itself or not, and any distances of one sign: an answer
// with valid rings or an error of the package, in bounded time.
func FuzzOffset(f *testing.F) {
	f.Add([]byte{0, 0, 0, 5, 100, 0, 5, 100, 100, 9, 0, 100, 0}, false)
	f.Add([]byte{3, 0, 0, 5, 100, 3, 5, 10, 100, 90, 60, 50, 20, 200, 200, 40}, true)
	f.Add([]byte{1, 0, 0, 5, 100, 0, 5, 0, 100, 9, 100, 100, 0}, true)
	f.Fuzz(func(t *testing.T, b []byte, inward bool) {
		if len(b) < 1 || len(b) > 1+3*100 {
			return
		}
		opt := OffsetOptions{Join: Join(b[0] % 4), MitreLimit: 1 + float64(b[0]/4)}
		var r Ring
		var ds []int64
		for b = b[1:]; len(b) >= 3; b = b[3:] {
			r = append(r, Point{int64(b[0]) * mm, int64(b[1]) * mm})
			d := int64(b[2]) * mm / 4
			if inward {
				d = -d
			}
			ds = append(ds, d)
		}
		out, err := Offset(r, ds, opt)
		if err != nil {
			require.ErrorIs(t, err, ErrDegenerate)
			return
		}
		requireValid(t, polygons(out))
	})
}

// curvedPanel is a closed smooth outline of n points, concave in places.
func curvedPanel(n int) Ring {
	r := make(Ring, n)
	for i := range r {
		a := 2 * math.Pi * float64(i) / float64(n)
		d := 400*mm + 40*mm*math.Cos(3*a)
		r[i] = Point{int64(d * math.Cos(a)), int64(d * math.Sin(a))}
	}
	return r
}

func BenchmarkOffset(b *testing.B) {
	for _, c := range []struct {
		name string
		n    int
		d    int64
	}{{"200out", 200, 12_700_000}, {"200in", 200, -12_700_000}, {"1000out", 1000, 12_700_000}, {"10000out", 10000, 12_700_000}} {
		b.Run(c.name, func(b *testing.B) {
			r := curvedPanel(c.n)
			for b.Loop() {
				if _, err := OffsetBy(r, c.d, OffsetOptions{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// Curves tighter than the offset: fans of strips that all overlap.
func TestOffsetOfTightCurves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(20, 150).Draw(t, "points")
		waves := rapid.IntRange(1, 6).Draw(t, "waves")
		swing := rapid.Float64Range(0, 0.6).Draw(t, "swing")
		r := make(Ring, n)
		for i := range r {
			a := 2 * math.Pi * float64(i) / float64(n)
			d := 100 * mm * (1 + swing*math.Cos(float64(waves)*a))
			r[i] = Point{int64(d * math.Cos(a)), int64(d * math.Sin(a))}
		}
		d := rapid.Int64Range(-120*mm, 120*mm).Draw(t, "d")
		const tol = 10_000
		ps := offsetBy(t, r, d, OffsetOptions{Join: Round, Tolerance: tol})
		for range 20 {
			p := Point{rapid.Int64Range(-300*mm, 300*mm).Draw(t, "px"), rapid.Int64Range(-300*mm, 300*mm).Draw(t, "py")}
			dist := math.Inf(1)
			for i, a := range r {
				dist = min(dist, segmentDistance(p, a, r[(i+1)%len(r)]))
			}
			if r.Locate(p) == Inside {
				dist = -dist
			}
			if math.Abs(dist-float64(d)) < tol+20 {
				continue
			}
			in := false
			for _, q := range ps {
				in = in || inPolygon(q, p)
			}
			require.Equal(t, dist < float64(d), in, "point %v at %g", p, dist)
		}
	})
}

// A disc that vanishes, at every fineness.
func TestOffsetVanishingDisc(t *testing.T) {
	for _, n := range []int{5, 6, 7, 40, 1000} {
		r := make(Ring, n)
		for i := range r {
			a := 2 * math.Pi * float64(i) / float64(n)
			r[i] = Point{int64(10 * mm * math.Cos(a)), int64(10 * mm * math.Sin(a))}
		}
		for _, d := range []int64{10 * mm, 12 * mm, 19 * mm, 50 * mm} {
			require.Empty(t, offsetBy(t, r, -d, OffsetOptions{}), "%d points, %d", n, d)
		}
		require.Len(t, offsetBy(t, r, -5*mm, OffsetOptions{}), 1)
	}
}
