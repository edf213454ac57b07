package camera

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestHomographyOfFourPoints(t *testing.T) {
	for _, r := range []struct {
		name     string
		at, seen []Point
		h        matrix3
		tol      float64
		from, to Point
	}{
		{"H1", []Point{{129, 72}, {302, 76}, {90, 185}, {326, 193}}, []Point{{0, 0}, {400, 0}, {0, 400}, {400, 400}},
			matrix3{{3.04026872, 1.04929628, -467.743998}, {-.144134582, 6.23382067, -430.241727}, {2.63620673e-5, 4.17694527e-3, 1}}, 1e-6, Point{200, 120}, Point{176.717071, 191.827889}},
		{"H2", []Point{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, []Point{{0, 0}, {4, 0}, {3, 2}, {1, 2}},
			matrix3{{4, 2, 0}, {0, 4, 0}, {0, 1, 1}}, 1e-9, Point{.5, .5}, Point{2, 4. / 3}},
		{"H3", []Point{{0, 0}, {20, 0}, {20, 10}, {0, 10}}, []Point{{100, 100}, {900, 200}, {800, 600}, {200, 500}},
			matrix3{{182. / 5, 82. / 5, 100}, {21. / 5, 56, 100}, {-1. / 250, 4. / 125, 1}}, 1e-9, Point{10, 5}, Point{975. / 2, 5275. / 14}},
	} {
		h, ok := direct(r.at, r.seen)
		require.True(t, ok, r.name)
		for i := range 3 {
			for j := range 3 {
				assert.InDelta(t, r.h[i][j], h[i][j]/h[2][2], r.tol*math.Max(1, math.Abs(r.h[i][j])), r.name)
			}
		}
		p, _ := h.point(r.from)
		assert.InDelta(t, r.to.X, p.X, 1e-6, r.name)
		assert.InDelta(t, r.to.Y, p.Y, 1e-6, r.name)
	}
}

func up(ps ...Point) []Point {
	for i := range ps {
		ps[i].Y = -ps[i].Y
	}
	return ps
}

func TestLeastSquares(t *testing.T) {
	at := up([]Point{{-300, -262}, {0, -262}, {300, -262}, {322, 0}, {300, 262}, {0, 262}, {-300, 262}, {-322, 0}}...)
	seen := []Point{{964.6, 716.5}, {1999.9, 717.1}, {3035.9, 716.8}, {2965.6, 1499.7}, {2795.9, 2102.1}, {1999.8, 2101.8}, {1204.6, 2101.5}, {1033.7, 1500.3}}
	marks := make([]Mark, 8)
	for i := range at {
		marks[i] = Mark{seen[i], at[i]}
	}
	h, _ := direct(at, seen)
	sse := 0.0
	for i := range at {
		p, _ := h.point(at[i])
		sse += p.Sub(seen[i]).Dot(p.Sub(seen[i]))
	}
	assert.InDelta(t, 1.06590931, sse, 1e-6)
	v, err := See(4000, 3000, [][]Mark{marks}, Options{NoLens: true})
	require.NoError(t, err)
	assert.InDelta(t, math.Sqrt(1.05274579/8), v.Sigma, 1e-7)
	p, err := v.Place("", Point{2500, 1800})
	require.NoError(t, err)
	assert.InDelta(t, 176.909368, p.X, 1e-5)
	assert.InDelta(t, -122.532508, p.Y, 1e-5)
	// Along the axes .0679 and .0801 mm; the worst direction lies a little aside.
	worst := v.SpreadAt(p, 0) * v.Sigma / v.spread
	assert.GreaterOrEqual(t, worst, .0800)
	assert.LessOrEqual(t, worst, .0820)
}

// A camera of 3000 pixels, 1000 mm from the place it looks at, tilted by 30 deg, with
// a lens of k = -0.02: what it sees, and how it is found again.
func TestCameraAndLens(t *testing.T) {
	h := matrix3{{3, 1, 2000}, {0, 3.348076211353316, 1500}, {0, .0005, 1}}
	var marks []Mark
	for _, p := range []Point{{-300, -262}, {0, -262}, {300, -262}, {322, 0}, {300, 262}, {0, 262}, {-300, 262}, {-322, 0}} {
		q, _ := h.point(p)
		d := q.Sub(Point{2000, 1500})
		r := d.Norm() / 2500
		marks = append(marks, Mark{Point{2000, 1500}.Add(d.Scale(1 - .02*r*r)), Point{p.X, -p.Y}})
	}
	v, err := See(4000, 3000, [][]Mark{marks}, Options{})
	require.NoError(t, err)
	// The lens is held to zero a little: by a spread of 0.05 px of 8 marks.
	assert.InDelta(t, -.02, v.Lens(), 1e-5)
	c := v.Camera()
	assert.InDelta(t, 3000, c.Focal, .01)
	assert.InDelta(t, 866.025404, c.Height, .003)
	assert.InDelta(t, .5, c.Sine, 1e-6)
	for _, r := range []struct{ at, seen Point }{
		{Point{-300, 200}, Point{1004.266667, 925.113092}},
		{Point{300, -200}, Point{2815.844929, 1971.028289}},
		{Point{100, -50}, Point{2292.587653, 1626.694170}},
	} {
		q, err := v.Pixel(r.at)
		require.NoError(t, err)
		assert.InDelta(t, r.seen.X, q.X, 1e-3)
		assert.InDelta(t, r.seen.Y, q.Y, 1e-3)
		back, err := v.Place("", q)
		require.NoError(t, err)
		assert.InDelta(t, r.at.X, back.X, 1e-9)
		assert.InDelta(t, r.at.Y, back.Y, 1e-9)
	}
}

// The spread that is predicted for a place is that of many trials: of its worst
// direction, and of a whole outline after the best move and turn.
func TestPredictedSpread(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	h := matrix3{{3, 1, 2000}, {0, 3.348076211353316, 1500}, {0, .0005, 1}}
	places := []Point{{-300, -262}, {0, -262}, {300, -262}, {322, 0}, {300, 262}, {0, 262}, {-300, 262}, {-322, 0}}
	lensed := func(p Point, k float64) Point {
		q, _ := h.point(Point{p.X, -p.Y})
		d := q.Sub(Point{2000, 1500})
		r := d.Norm() / 2500
		return Point{2000, 1500}.Add(d.Scale(1 + k*r*r))
	}
	outline := []Point{{-290, -190}, {300, -190}, {290, 180}, {0, 220}, {-290, 180}, {0, 0}}
	const trials, sigma = 600, .08
	var sxx, syy, sxy [6]float64
	var view *View
	for range trials {
		var marks []Mark
		for _, p := range places {
			marks = append(marks, Mark{lensed(p, .02).Add(Point{sigma * rng.NormFloat64(), sigma * rng.NormFloat64()}), p})
		}
		v, err := See(4000, 3000, [][]Mark{marks}, Options{Spread: 1e-9})
		require.NoError(t, err)
		for i, p := range outline {
			at, err := v.Place("", lensed(p, .02))
			require.NoError(t, err)
			e := at.Sub(p)
			sxx[i], syy[i], sxy[i] = sxx[i]+e.X*e.X/trials, syy[i]+e.Y*e.Y/trials, sxy[i]+e.X*e.Y/trials
		}
		view = v
	}
	for i, p := range outline {
		truth := math.Sqrt((sxx[i]+syy[i])/2 + math.Sqrt((sxx[i]-syy[i])*(sxx[i]-syy[i])/4+sxy[i]*sxy[i]))
		predicted := view.SpreadAt(p, 0) * sigma / view.spread
		assert.InDelta(t, 1, predicted/truth, .1, "%v: predicted %v, was %v", p, predicted, truth)
	}
	assert.Less(t, view.SpreadOf(outline, 0), view.SpreadAt(outline[0], 0), "a move and a turn are no error of a shape")
	edge := view.SpreadAt(outline[5], 3)
	assert.InDelta(t, 3*view.PixelSize(outline[5]), edge, .25*edge)
}

// The table of Student's distribution holds 95 % of it, by sums over its density.
func TestStudent(t *testing.T) {
	for _, n := range []int{1, 2, 3, 5, 10, 20, 40} {
		density := func(x float64) float64 { return math.Pow(1+x*x/float64(n), -float64(n+1)/2) }
		const steps = 20_000
		inside, all := 0.0, 0.0
		for i := range steps { // x = tan a brings the tails in
			a := (float64(i) + .5) / steps * math.Pi / 2
			x := math.Tan(a)
			w := density(x) * (1 + x*x)
			if all += w; x < student(n) {
				inside += w
			}
		}
		assert.InDelta(t, .95, inside/all, 5e-4, "%d", n)
	}
}
