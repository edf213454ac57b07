package nest

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/verify"
)

var (
	ell = outline(0, 0, 2000, 0, 2000, 1000, 1000, 1000, 1000, 2000, 0, 2000)
	you = outline(0, 0, 3000, 0, 3000, 3000, 2000, 3000, 2000, 1000, 1000, 1000, 1000, 3000, 0, 3000)
)

// border is the distance of a place from the border of an outline, by every side.
func border(r geom.Ring, x, y float64) float64 {
	least := math.Inf(1)
	for i, a := range r {
		b := r[(i+1)%len(r)]
		ax, ay, dx, dy := float64(a.X), float64(a.Y), float64(b.X-a.X), float64(b.Y-a.Y)
		t := min(max(((x-ax)*dx+(y-ay)*dy)/(dx*dx+dy*dy), 0), 1)
		least = min(least, math.Hypot(x-ax-t*dx, y-ay-t*dy))
	}
	return least
}

// A map holds its region with a margin, and tells how far a place is from the border:
// at a node exactly, between nodes to a cell; beyond the map never farther than it is.
func TestMapsTellTheDistance(t *testing.T) {
	const margin = 200
	r := rand.New(rand.NewPCG(21, 1))
	for _, ring := range []geom.Ring{rect(3000, 600), ell, you, outline(0, 0, 1700, 300, 2400, 1900, 900, 900, 200, 2200), garment(r, 1)[0].Ring.Tidy()} {
		b := ring.Bounds()
		f := newField(b, margin, 60, ringEdges(ring), func(f *field) []bool { return f.filled(ring) })
		require.Equal(t, [2]float64{float64(b.Min.X - margin), float64(b.Min.Y - margin)}, [2]float64{f.x0, f.y0})
		require.GreaterOrEqual(t, f.x0+float64(f.w-1)*f.cell, float64(b.Max.X+margin)-1e-6)
		require.GreaterOrEqual(t, f.y0+float64(f.h-1)*f.cell, float64(b.Max.Y+margin)-1e-6)
		require.Equal(t, 60, max(f.w, f.h))
		for k, v := range f.v {
			require.InDelta(t, border(ring, f.x0+float64(k%f.w)*f.cell, f.y0+float64(k/f.w)*f.cell), math.Abs(float64(v)), 0.01)
		}
		for range 2000 {
			p := geom.Pt(b.Min.X-600+r.Int64N(b.Width()+1200), b.Min.Y-600+r.Int64N(b.Height()+1200))
			x, y := float64(p.X), float64(p.Y)
			want := border(ring, x, y)
			if ring.Locate(p) != geom.Inside {
				want = -want
			}
			if within := x >= f.x0 && y >= f.y0 && x <= float64(b.Max.X+margin) && y <= float64(b.Max.Y+margin); within {
				require.InDelta(t, want, f.at(x, y), f.cell, "%v", p)
				require.Equal(t, f.at(x, y), f.look(x, y, true))
			} else {
				require.GreaterOrEqual(t, f.look(x, y, true), want-f.cell, "%v", p)
				require.InDelta(t, want, f.at(x, y), 3*f.cell+0.1*math.Abs(want), "%v", p)
			}
		}
	}
}

// A convex outline is one part; an L is two, a U three.
func TestConvexPartsByHand(t *testing.T) {
	for _, c := range []struct {
		ring geom.Ring
		want int
	}{{rect(30, 6), 1}, {outline(0, 0, 4, 0, 6, 3, 2, 7, -1, 3), 1}, {ell, 2}, {you, 3}} {
		for k := range c.ring { // from each corner on
			parts, ok := convexParts(append(c.ring[k:len(c.ring):len(c.ring)], c.ring[:k]...))
			require.True(t, ok)
			require.Len(t, parts, c.want, "%v from %d", c.ring, k)
		}
	}
}

// A bar of 3000 by 400 upright, across, and turned between.
func TestLeastAlongByHand(t *testing.T) {
	o := hullExtents(rect(3000, 400), false)
	quarter := math.Pi / 2
	for _, c := range []struct{ from, to, width, want float64 }{
		{0, 0, 400, 3000}, {0, 0, 399, math.Inf(1)}, {0, 0, 5000, 3000},
		{0, quarter, 3001, 400},
		{0, 0.1, 5000, 3000}, {-0.1, 0.1, 5000, 3000},
		{0.05, 0.1, 5000, 3000*math.Cos(0.05) + 400*math.Sin(0.05)},
		{-0.1, 0.1, 400, 3000},
		{quarter - 0.1, quarter + 0.1, 5000, 400},
	} {
		got := o.leastAlong(c.from, c.to, c.width)
		if math.IsInf(c.want, 1) {
			assert.True(t, math.IsInf(got, 1), "%+v: %f", c, got)
		} else {
			assert.InDelta(t, c.want, got, 1e-6, "%+v", c)
		}
	}
}

// How deep two outlines overlap is how far one of them is, at least, from where they
// are apart: to three cells of the table where that is more, and never more than it is.
func TestDepthOfAPair(t *testing.T) {
	const cells, step = 64, 50
	part := func(r geom.Ring) *shape {
		s := newShape(r, geom.Point{}, 0, false)
		s.parts, _ = convexParts(s.ring)
		return s
	}
	for _, c := range [][2]*shape{{part(ell), part(ell)}, {part(you), part(rect(1000, 1500))}, {part(rect(3000, 400)), part(outline(0, 0, 1800, 0, 2000, 900, 1000, 1400, 100, 900))}} {
		a, b := c[0], c[1]
		tab := newPairTable(a, b, 0, cells)
		cell := float64(int64(1) << tab.shift)
		var free []geom.Point
		for x := -b.w - step; x <= a.w+step; x += step {
			for y := -b.h - step; y <= a.h+step; y += step {
				if !verify.Overlap(a.ring, b.ring.Translate(geom.Pt(x, y))) {
					free = append(free, geom.Pt(x, y))
				}
			}
		}
		deep := 0
		r := rand.New(rand.NewPCG(22, 1))
		for range 300 {
			p := geom.Pt(r.Int64N(a.w+b.w)-b.w, r.Int64N(a.h+b.h)-b.h)
			want := math.Inf(1)
			for _, q := range free {
				want = min(want, geom.Distance(p, q))
			}
			got := tab.depth(p.X, p.Y)
			require.LessOrEqual(t, got, want+cell, "%v", p)
			if want > 4*cell {
				deep++
				require.GreaterOrEqual(t, got, want-3*cell, "%v", p)
			}
		}
		require.Positive(t, deep)
	}
}

// With a gap what is farther apart than it by a tenth is free, also at corners.
func TestGapOfAPair(t *testing.T) {
	const gap = 100
	r := rand.New(rand.NewPCG(23, 1))
	blade := outline(0, 0, 2000, 100, 300, 400)
	for _, ring := range []geom.Ring{rect(300, 300), blade} {
		a, b := newShape(ring, geom.Point{}, 0, false), newShape(blade, geom.Point{}, 90*Degree, false)
		a.parts, b.parts = []geom.Ring{a.ring}, []geom.Ring{b.ring}
		tab := newPairTable(a, b, gap, 48)
		free, near := 0, 0
		for range 3000 {
			p := geom.Pt(r.Int64N(a.w+b.w+400)-b.w-200, r.Int64N(a.h+b.h+400)-b.h-200)
			at := b.ring.Translate(p)
			switch apart := !verify.Overlap(a.ring, at); {
			case !apart || verify.Closer(a.ring, at, gap):
				require.Positive(t, tab.depth(p.X, p.Y), "%v", p)
				near++
			case !verify.Closer(a.ring, at, gap+gap/10):
				require.Zero(t, tab.depth(p.X, p.Y), "%v", p)
				free++
			}
		}
		require.Positive(t, min(free, near))
	}
}

// overHides is a run of some pieces on hides of 10000 by 10000, ready to begin.
func overHides(t *testing.T, hides int, pieces ...Piece) *hideRun {
	job := HideJob{Pieces: pieces}
	for range hides {
		job.Hides = append(job.Hides, Hide{Outer: rect(10000, 10000)})
	}
	r, err := newHideRun(context.Background(), job)
	require.NoError(t, err)
	require.True(t, r.begin(stage{plan: 60, most: 60}))
	return r
}

// Two bars of 2000 by 400 that lie along each other, e apart at their middles, overlap
// by 400 - e, however both are turned and mirrored; one whose middle is d from the edge of
// the hide sticks out by 200 - d.
func TestDepthsByHand(t *testing.T) {
	r := overHides(t, 1, Piece{Ring: rect(2000, 400), Count: 2, Turn: TurnAny(), Mirror: MayMirror})
	w := r.ws[0]
	b := w.bodies[0]
	unit := b.size * b.size
	tol := 2*b.f.cell + w.slack
	for _, a := range []Angle{0, 30 * Degree, 90 * Degree, 135 * Degree, 250 * Degree} {
		for _, mirrored := range []bool{false, true} {
			sn, cs := a.sincos()
			for _, e := range []float64{100, 250, 350, 500} {
				w.put(0, pose{x: 5000, y: 5000, a: a, mirrored: mirrored})
				w.put(1, pose{x: math.Round(5000 - e*sn), y: math.Round(5000 + e*cs), a: a, mirrored: !mirrored})
				for i := range 2 {
					assert.InDelta(t, max(0, 400-e), w.eval(i, w.at[i], math.MaxFloat64)/unit, tol, "%v %v %f", a, mirrored, e)
				}
				assert.InDelta(t, max(0, 400-e), w.weigh(false)/unit, tol)
				assert.Equal(t, e < 400, len(w.order) == 2)
			}
		}
	}
	w.put(1, pose{x: 5000, y: 8000})
	for _, d := range []float64{50, 150, 300} {
		for _, p := range []pose{{x: d, y: 5000, a: 90 * Degree}, {x: 10000 - d, y: 5000, a: 270 * Degree}, {x: 5000, y: d}, {x: 5000, y: 10000 - d, a: 180 * Degree}} {
			w.put(0, p)
			assert.InDelta(t, max(0, 200-d), w.eval(0, p, math.MaxFloat64)/unit, tol, "%+v", p)
		}
	}
	w.limit[0] = 7000
	assert.InDelta(t, 100, w.eval(0, pose{x: 6900, y: 5000, a: 90 * Degree}, math.MaxFloat64)/unit, tol, "beyond a limit")
	assert.Equal(t, math.MaxFloat64, w.eval(0, pose{x: 6900, y: 5000, a: 90 * Degree}, 50*unit), "given up")
}

// The weight of a pair that overlaps rises by half where it is the worst, and by a
// tenth and what it is of the worst; what does not overlap fades by a twentieth, to 1. Added
// distance of those far apart fades by a fifth.
func TestWeightsByHand(t *testing.T) {
	r := overHides(t, 1, Piece{Ring: rect(1000, 1000), Count: 4, Turn: TurnSet(0)})
	w := r.ws[0]
	for i, x := range []float64{1000, 1500, 4000, 8000} {
		w.put(i, pose{x: x, y: 5000})
	}
	at := func(i, j int) int { return i*w.n + j }
	w.wt[at(1, 2)], w.wt[at(2, 1)], w.wland[3] = 2, 2, 3
	w.extra[at(0, 3)], w.extra[at(3, 0)] = 10, 10
	w.weigh(false)
	assert.Equal(t, float32(2), w.wt[at(1, 2)])
	w.weigh(true)
	assert.Equal(t, []int{0, 1}, w.order)
	assert.InDelta(t, 1.5/0.95, w.wt[at(0, 1)], 1e-6)
	assert.InDelta(t, 1.5/0.95, w.wt[at(1, 0)], 1e-6)
	assert.InDelta(t, 1.9, w.wt[at(1, 2)], 1e-6)
	assert.InDelta(t, 1.9, w.wt[at(2, 1)], 1e-6)
	assert.InDelta(t, 1, w.wt[at(0, 2)], 1e-6)
	assert.InDelta(t, 2.85, w.wland[3], 1e-6)
	assert.InDelta(t, 1, w.wland[0], 1e-6)
	assert.InDelta(t, 8, w.extra[at(0, 3)], 1e-6)
	assert.InDelta(t, 8, w.extra[at(3, 0)], 1e-6)
	w.weigh(true) // the worst again
	assert.InDelta(t, 1.5/0.95*1.5, w.wt[at(0, 1)], 1e-5)
	// Two that overlap by half of what the worst do.
	w.put(2, pose{x: 7250, y: 5000})
	w.calm()
	w.weigh(true)
	assert.InDelta(t, (1.1+0.4*(250+w.slack)/(500+w.slack))/0.95, w.wt[at(2, 3)], 0.02)
}

// Where whole numbers refuse a state, the pair gets a distance, or the piece one from the
// edge: four times the slack, then that and twice what it had.
func TestRefusedPairsGetADistance(t *testing.T) {
	r := overHides(t, 1, Piece{Ring: rect(1000, 1000), Count: 3, Turn: TurnSet(0)})
	w := r.ws[0]
	place := func(x0, x1 float64) bool {
		w.put(0, pose{x: x0, y: 5000})
		w.put(1, pose{x: x1, y: 5000})
		w.put(2, pose{x: 8000, y: 5000})
		return w.exact()
	}
	assert.True(t, place(1000, 3000))
	assert.False(t, place(1000, 2000), "they touch")
	slack := float32(w.slack)
	assert.Equal(t, []float32{0, 4 * slack, 0, 4 * slack, 0, 0, 0, 0, 0}, w.extra)
	assert.False(t, place(1000, 1999))
	assert.Equal(t, 12*slack, w.extra[1])
	assert.Equal(t, 12*slack, w.extra[w.n])
	assert.Equal(t, []float32{0, 0, 0}, w.eland)
	assert.False(t, place(400, 3000), "over the edge")
	assert.Equal(t, []float32{4 * slack, 0, 0}, w.eland)
	assert.False(t, place(400, 3000))
	assert.Equal(t, []float32{12 * slack, 0, 0}, w.eland)
	w.limit[0] = 8499
	assert.False(t, place(1000, 3000), "over the limit")
	assert.Equal(t, []float32{12 * slack, 0, 4 * slack}, w.eland)
	w.limit[0] = 8500
	assert.True(t, place(1000, 3000))
}

// Choices of hides that would be better than what there is: any while pieces are left
// over, then fewer ones, or as many that are cheaper.
func TestWantedHides(t *testing.T) {
	r := overHides(t, 4, Piece{Ring: rect(4000, 4000), Count: 2, Turn: TurnSet(0)})
	r.cost = []int64{5, 7, 5, 4}
	w := r.ws[0]
	w.put(0, pose{g: 0, x: 2500, y: 2500})
	r.keep(w)
	assert.False(t, r.wanted(nil))
	assert.True(t, r.wanted([]int{0, 1, 2, 3}), "a piece is left over")
	w.put(1, pose{g: 1, x: 2500, y: 2500})
	r.keep(w)
	for _, c := range []struct {
		on   []int
		want bool
	}{{nil, false}, {[]int{1}, true}, {[]int{0, 1}, false}, {[]int{0, 2}, true}, {[]int{1, 2}, false}, {[]int{0, 3}, true}, {[]int{1, 3}, true}, {[]int{0, 2, 3}, false}} {
		assert.Equal(t, c.want, r.wanted(c.on), "%v", c.on)
	}
	onto := func(a, b int) []pose { return []pose{{g: a, x: 2500, y: 2500}, {g: b, x: 7500, y: 7500}} }
	for _, c := range []struct {
		a, b []pose
		want bool
	}{
		{onto(0, 0), onto(0, 1), true}, {onto(0, 1), onto(0, 0), false}, {onto(0, 2), onto(0, 1), true}, {onto(0, 1), onto(0, 2), false},
		{onto(0, 2), onto(2, 0), false}, {onto(1, 1), onto(3, 3), false}, {onto(3, 3), onto(1, 1), true},
	} {
		assert.Equal(t, c.want, r.better(c.a, c.b), "%v %v", c.a, c.b)
	}
}
