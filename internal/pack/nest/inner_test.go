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
			for _, e := range []float64{1850, 1950, 2100} { // end to end
				w.put(1, pose{x: math.Round(5000 + e*cs), y: math.Round(5000 + e*sn), a: a, mirrored: !mirrored})
				for i := range 2 {
					assert.InDelta(t, max(0, 2000-e), w.eval(i, w.at[i], math.MaxFloat64)/unit, tol, "%v %v %f", a, mirrored, e)
				}
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
	// What exact tests asked for is kept besides.
	w.extra[1], w.extra[w.n], w.eland[0] = 200, 200, 100
	w.put(0, pose{x: 5000, y: 5000})
	w.put(1, pose{x: 5000, y: 5500})
	for i := range 2 {
		assert.InDelta(t, 100, w.eval(i, w.at[i], math.MaxFloat64)/unit, tol)
	}
	assert.InDelta(t, 100, w.weigh(false)/unit, tol)
	w.put(0, pose{x: 5000, y: 9740})
	w.put(1, pose{x: 5000, y: 3000})
	assert.InDelta(t, 40, w.eval(0, w.at[0], math.MaxFloat64)/unit, tol)
	assert.InDelta(t, 40, w.weigh(false)/unit, tol)
	clear(w.extra)
	clear(w.eland)
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
	place := func(x1, x2 float64) bool {
		w.put(0, pose{x: 8000, y: 5000})
		w.put(1, pose{x: x1, y: 5000})
		w.put(2, pose{x: x2, y: 5000})
		return w.exact()
	}
	assert.True(t, place(1000, 3000))
	assert.False(t, place(1000, 2000), "they touch")
	slack := float32(w.slack)
	assert.Equal(t, []float32{0, 0, 0, 0, 0, 4 * slack, 0, 4 * slack, 0}, w.extra)
	assert.False(t, place(1000, 1999))
	assert.Equal(t, []float32{0, 0, 0, 0, 0, 12 * slack, 0, 12 * slack, 0}, w.extra)
	assert.Equal(t, []float32{0, 0, 0}, w.eland)
	assert.False(t, place(400, 3000), "over the edge")
	assert.Equal(t, []float32{0, 4 * slack, 0}, w.eland)
	assert.False(t, place(400, 3000))
	assert.Equal(t, []float32{0, 12 * slack, 0}, w.eland)
	w.limit[0] = 8499
	assert.False(t, place(1000, 3000), "over the limit")
	assert.Equal(t, []float32{4 * slack, 12 * slack, 0}, w.eland)
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

// What fits exactly is free, on the coarsest grid too, and a unit beside it is not:
// a square in a notch as wide, along it and at its end.
func TestExactFitsAreFree(t *testing.T) {
	part := func(r geom.Ring, a Angle) *shape {
		s := newShape(r, geom.Point{}, a, false)
		s.parts, _ = convexParts(s.ring)
		return s
	}
	for _, n := range []int64{1000, 1047, 535} { // 1047 + 1001 are whole cells
		notched := outline(0, 0, 2000+n, 0, 2000+n, 4000, 1000+n, 4000, 1000+n, 1000, 1000, 1000, 1000, 4000, 0, 4000)
		for _, cells := range []int{8, 12, 32, 48} {
			up := newPairTable(part(notched, 0), part(rect(n, n), 0), 0, cells)
			right := newPairTable(part(notched, 270*Degree), part(rect(n, n), 0), 0, cells)
			for y := int64(1000); y < 4000; y += 31 {
				assert.Zero(t, up.depth(1000, y), "%d %d %d", n, cells, y)
				assert.Zero(t, right.depth(y, 1000), "%d %d %d", n, cells, y)
				for _, beside := range []int64{999, 1001} {
					assert.Positive(t, up.depth(beside, y), "%d %d %d", n, cells, y)
					assert.Positive(t, right.depth(y, beside), "%d %d %d", n, cells, y)
				}
			}
			assert.Positive(t, up.depth(1000, 999))
			assert.Positive(t, right.depth(999, 1000))
		}
	}
}

// Cheaper hides take the place of dearer ones, with the pieces at the like places.
func TestCheaperHides(t *testing.T) {
	square := rect(10000, 10000)
	r, err := newHideRun(context.Background(), HideJob{Pieces: []Piece{{Ring: rect(4900, 4900), Count: 4, Turn: TurnSet(0)}}, Hides: []Hide{
		{Outer: square, Cost: 5}, {Outer: square.Translate(geom.Pt(30000, 5000)), Cost: 3}, {Outer: square, Cost: 4}, {Outer: square, Cost: 9}}})
	require.NoError(t, err)
	require.True(t, r.begin(stage{plan: 60, most: 60}))
	w := r.ws[0]
	places := []pose{{x: 2500, y: 2500}, {x: 7500, y: 2500}, {x: 2500, y: 7500}, {x: 7500, y: 7500}}
	for i, p := range places {
		w.put(i, p)
	}
	r.keep(w)
	assert.Equal(t, []swap{{0, 1}, {0, 2}}, r.swaps(), "dense, but there is no other")
	before := r.work()
	r.cheaperHides(r.bySize(), 1, r.share(1))
	assert.Equal(t, []int{1}, r.used)
	assert.Less(t, r.work()-before, r.budget/20, "they fit at once")
	for i, p := range r.best {
		assert.Equal(t, pose{g: 1, x: places[i].x + 30000, y: places[i].y + 5000}, p)
	}
	assert.Empty(t, r.swaps())
}

// Which hides to try: one less, the largest, if they may hold all pieces; others for
// those in use that cost more, not those that would be full.
func TestHidesToTry(t *testing.T) {
	job := HideJob{Pieces: []Piece{{Ring: rect(2000, 2000), Count: 60, Turn: TurnSet(0)}}}
	for _, side := range []int64{7000, 9000, 10000, 8000} {
		job.Hides = append(job.Hides, Hide{Outer: rect(side, side)})
	}
	begun := func(count int) *hideRun {
		job.Pieces[0].Count = count
		r, err := newHideRun(context.Background(), job)
		require.NoError(t, err)
		require.True(t, r.begin(stage{plan: 60, most: 60}))
		return r
	}
	for count, want := range map[int][]int{61: {1, 2, 3}, 62: nil} { // 244 and 248 of 245
		r := begun(count)
		r.used = []int{0, 1, 2, 3}
		all := r.bySize()
		assert.Equal(t, []int{2, 1, 3, 0}, all)
		got, ok := r.oneLess(all)
		assert.Equal(t, want != nil, ok)
		assert.Equal(t, want, got)
		assert.InDelta(t, float64(count)*4/(100+81), r.fillOf([]int{1, 2}), 1e-9)
		assert.True(t, r.mayHold([]int{0, 1, 2, 3}))
		assert.Equal(t, want != nil, r.mayHold([]int{1, 2, 3}))
	}
	r := begun(30) // 120: 0.78 of 154 at most
	r.cost = []int64{4, 6, 9, 5}
	r.used = []int{1, 2}
	assert.Equal(t, []swap{{1, 3}}, r.swaps(), "100 and 64 would be 0.73 full, the others more")
	r.cost[3] = 6
	assert.Equal(t, []swap{{1, 0}, {2, 0}, {2, 3}}, r.swaps(), "dense ones where there are no others")
	assert.Equal(t, []int{1, 3, 4}, exchanged([]int{1, 2, 4}, 2, 3))
	assert.Equal(t, []int{0, 1}, exchanged([]int{1, 2}, 2, 0))
}

// Every number of a job is taken up to its limit and refused beyond it, each by its name.
func TestLimitsOfAJob(t *testing.T) {
	const most = MaxCoord - 1
	type set func(j *StripJob, v int64)
	for _, c := range []struct {
		field    string
		from, to int64
		set      set
	}{
		{"effort", 0, 1 << 30, func(j *StripJob, v int64) { j.Effort = int(v) }},
		{"workers", 0, 64, func(j *StripJob, v int64) { j.Workers = int(v) }},
		{"gap", 0, MaxCoord/4 - 1, func(j *StripJob, v int64) { j.Gap = v }},
		{"piece 0 (): count", 0, maxPieces, func(j *StripJob, v int64) { j.Pieces, j.Pieces[0].Count = j.Pieces[:1], int(v) }},
		{"piece 1 (): count", 0, maxPieces - 1, func(j *StripJob, v int64) { j.Pieces[1].Count = int(v) }},
		{"piece 0 (): mirror", 0, int64(AlwaysMirrored), func(j *StripJob, v int64) { j.Pieces[0].Mirror = Mirroring(v) }},
		{"piece 0 (): anchor", -most, most, func(j *StripJob, v int64) { j.Pieces[0].Anchor.X = v }},
		{"piece 0 (): anchor", -most, most, func(j *StripJob, v int64) { j.Pieces[0].Anchor.Y = v }},
		{"piece 0 (): phase", 0, most, func(j *StripJob, v int64) { j.Pieces[0].PhaseX.Every = v }},
		{"piece 0 (): phase", -most, most, func(j *StripJob, v int64) { j.Pieces[0].PhaseY.At = v }},
		{"piece 0 (): falls", -most, most, func(j *StripJob, v int64) {
			j.Pieces[0].PhaseX.Every, j.Pieces[0].PhaseY.Every, j.Pieces[0].Falls = 5, 5, []int64{v}
		}},
		{"piece 1 (): ring", -most, most, func(j *StripJob, v int64) { j.Pieces[1].Ring = outline(0, 0, 5, 3, 0, v) }},
		{"piece 1 (): ring", -most, most, func(j *StripJob, v int64) { j.Pieces[1].Ring = outline(0, 0, 3, 5, v, 0) }},
		{"flaw 1", -most, most, func(j *StripJob, v int64) { j.Flaws[1].Min.X, j.Flaws[1].Max.X = v, max(v, 1) }},
		{"flaw 1", -most, 9, func(j *StripJob, v int64) { j.Flaws[1].Min.Y = v }},
		{"flaw 1", 3, most, func(j *StripJob, v int64) { j.Flaws[1].Max.Y = v }},
	} {
		check := func(v int64) error {
			j := StripJob{Pieces: []Piece{{Ring: rect(5, 5)}, {Ring: rect(5, 5)}}, Flaws: []geom.Box{flaw(1, 1, 2, 2), flaw(3, 3, 9, 9)}}
			c.set(&j, v)
			if _, err := j.checked(); err != nil {
				return err
			}
			if _, err := checkedPieces(j.Pieces); err != nil {
				return err
			}
			_, err := checkedFlaws(j.Flaws, 100)
			return err
		}
		for _, v := range []int64{c.from, c.to} {
			assert.NoError(t, check(v), "%s %d", c.field, v)
		}
		for _, v := range []int64{c.from - 1, c.to + 1, math.MinInt64, math.MaxInt64} {
			var in *InputError
			if assert.ErrorAs(t, check(v), &in, "%s %d", c.field, v) {
				assert.Equal(t, c.field, in.Field, "%d", v)
				assert.ErrorIs(t, in, ErrRange)
			}
		}
	}
	for kind, ok := range map[int]bool{-1: false, 0: true, MostKinds - 1: true, MostKinds: false} {
		_, err := newHideRun(context.Background(), HideJob{Pieces: []Piece{{Ring: rect(5, 5)}}, Hides: []Hide{{Outer: rect(9, 9), Zones: []Zone{{kind, rect(3, 3)}}}}})
		assert.Equal(t, ok, err == nil, "zone of kind %d: %v", kind, err)
	}
	for cost, ok := range map[int64]bool{-1: false, 0: true, 1: true} {
		_, err := newHideRun(context.Background(), HideJob{Pieces: []Piece{{Ring: rect(5, 5)}}, Hides: []Hide{{Outer: rect(9, 9), Cost: cost}}})
		assert.Equal(t, ok, err == nil, "cost %d: %v", cost, err)
	}
}

// On goods whose columns fall by 0, 7 and -2 the phase along the roll goes by the column,
// also before the first one.
func TestPhaseOfAColumn(t *testing.T) {
	p := Piece{PhaseX: Phase{Every: 50, At: 3}, PhaseY: Phase{Every: 10, At: 4}, Falls: []int64{0, 7, -2}}
	for y, want := range map[int64]int64{4: 3, 14: 10, 24: 1, 34: 3, -6: 1, -16: 10, -26: 3, -36: 1} {
		assert.Equal(t, Phase{50, want}, p.along(y), "%d", y)
	}
	p.Falls = nil
	assert.Equal(t, p.PhaseX, p.along(24))
}

// The nearest legal place to another, from 0 on.
func TestFitAxisByHand(t *testing.T) {
	for _, c := range []struct {
		v, hi, anchor int64
		ph            Phase
		want          int64
		ok            bool
	}{
		{5, 9, 0, Phase{}, 5, true}, {-5, 9, 0, Phase{}, 0, true}, {15, 9, 0, Phase{}, 9, true}, {0, -1, 0, Phase{}, 0, false}, {0, 0, 7, Phase{}, 0, true},
		{0, 40, 3, Phase{10, 5}, 2, true}, {6, 40, 3, Phase{10, 5}, 2, true}, {7, 40, 3, Phase{10, 5}, 12, true}, {40, 40, 3, Phase{10, 5}, 32, true},
		{99, 42, 3, Phase{10, 5}, 42, true}, {99, 41, 3, Phase{10, 5}, 32, true}, {-99, 40, 3, Phase{10, 5}, 2, true},
		{0, 2, 3, Phase{10, 5}, 2, true}, {0, 1, 3, Phase{10, 5}, 0, false}, {0, 40, 9, Phase{10, 5}, 6, true}, {0, 40, 5, Phase{10, 5}, 0, true},
	} {
		got, ok := fitAxis(c.v, c.hi, c.anchor, c.ph)
		assert.Equal(t, c.ok, ok, "%+v", c)
		assert.Equal(t, c.want, got, "%+v", c)
	}
}

// What sticks out of a hide by one end sticks out by as much as that end does, on each side,
// wherever the hide lies.
func TestEndsThatStickOut(t *testing.T) {
	for _, shift := range []int64{0, -20000, -5000} {
		r, err := newHideRun(context.Background(), HideJob{Hides: []Hide{{Outer: rect(10000, 10000).Translate(geom.Pt(shift, shift))}},
			Pieces: []Piece{{Ring: outline(0, 0, 2400, 0, 2000, 400, 0, 400), Turn: TurnAny(), Mirror: MayMirror}}})
		require.NoError(t, err)
		require.True(t, r.begin(stage{plan: 60, most: 60}))
		w := r.ws[0]
		b := w.bodies[0]
		for _, mirrored := range []bool{false, true} {
			for quarter := range Angle(4) {
				for _, d := range []float64{-100, 60, 150} {
					// The point of 1200 from the middle is beyond the edge by d.
					at := 10000 - 1200 + d
					x, y := at, 5000.0
					for range quarter {
						x, y = 10000-y, x
					}
					a := quarter * 90 * Degree
					if mirrored { // it points the other way
						a = (a + 180*Degree).norm()
					}
					p := pose{x: x + float64(shift), y: y + float64(shift), a: a, mirrored: mirrored}
					for _, besides := range []float32{0, 300} {
						w.eland[0] = besides
						assert.InDelta(t, max(0, d+float64(besides)), w.eval(0, p, math.MaxFloat64)/b.size/b.size, b.f.cell+w.slack, "%d %+v", shift, p)
					}
				}
			}
		}
	}
}

// Outlines of more than fifty convex parts are laid by maps, which know no flaws, and so
// are more outlines than tables can be held for.
func TestBeyondTheTables(t *testing.T) {
	comb := func(teeth int64) geom.Ring {
		r := geom.Ring{geom.Pt(0, 0), geom.Pt(20*teeth, 0)}
		for k := teeth; k > 0; k-- {
			r = append(r, geom.Pt(20*k, 10), geom.Pt(20*k-5, 10), geom.Pt(20*k-10, 40), geom.Pt(20*k-15, 10))
		}
		return append(r, geom.Pt(0, 10)).Tidy()
	}
	for teeth, tables := range map[int64]bool{30: true, 60: false} {
		pieces, err := checkedPieces([]Piece{{Ring: comb(teeth)}})
		require.NoError(t, err)
		_, simple := newCatalogue(context.Background(), pieces, 0)
		assert.Equal(t, tables, simple)
		job := StripJob{Width: 100, Pieces: pieces, Options: Options{Effort: 1}}
		l, err := Strip(context.Background(), job)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, l.Length, 20*teeth)
		job.Flaws = []geom.Box{flaw(0, 0, 9, 9)}
		_, err = Strip(context.Background(), job)
		if tables {
			require.NoError(t, err)
			continue
		}
		var in *InputError
		require.ErrorAs(t, err, &in)
		assert.Equal(t, "flaws", in.Field)
	}
	_, err := Strip(context.Background(), StripJob{Width: 3000, Pieces: circles(200, Turn{}), Flaws: []geom.Box{flaw(0, 0, 9, 9)}, Options: Options{Effort: 1}})
	var in *InputError
	require.ErrorAs(t, err, &in)
	assert.Equal(t, "flaws", in.Field)
	for _, c := range []struct {
		pieces []Piece
		want   bool
	}{
		{[]Piece{{Ring: rect(5, 5)}}, false},
		{[]Piece{{Ring: rect(5, 5)}, {Ring: rect(5, 5), Turn: TurnAny()}}, true},
		{[]Piece{{Ring: make(geom.Ring, 400)}}, false},
		{[]Piece{{Ring: make(geom.Ring, 401)}}, true},
		{make([]Piece, 300), false}, {make([]Piece, 301), true},
		{append(make([]Piece, 298), Piece{Mirror: MayMirror}), false}, {append(make([]Piece, 299), Piece{Mirror: MayMirror}), true},
		{append(make([]Piece, 298), Piece{Turn: TurnSet(0, 90*Degree)}), false}, {append(make([]Piece, 299), Piece{Turn: TurnSet(0, 90*Degree)}), true},
	} {
		assert.Equal(t, c.want, wantsMaps(c.pieces), len(c.pieces))
	}
}

// A row of pieces to be turned is shorter than 2^30 with its margins.
func TestLongestRow(t *testing.T) {
	for length, ok := range map[int64]bool{MaxCoord - 17: true, MaxCoord - 16: false} {
		opt, err := Options{}.checked()
		require.NoError(t, err)
		pieces, err := checkedPieces([]Piece{{Ring: rect(length, 500)}})
		require.NoError(t, err)
		_, err = newTurningRun(context.Background(), 1000, pieces, opt)
		var in *InputError
		if assert.Equal(t, ok, err == nil, "%d: %v", length, err); !ok {
			require.ErrorAs(t, err, &in)
			assert.Equal(t, "pieces", in.Field)
		}
	}
}

// onStrip is a search on a strip with some pieces.
func onStrip(t *testing.T, width, length int64, pieces ...Piece) *sep {
	pieces, err := checkedPieces(pieces)
	require.NoError(t, err)
	cat, simple := newCatalogue(context.Background(), pieces, 0)
	require.True(t, simple)
	return newSep(cat, pieces, nil, width, length, newRNG(1, 1))
}

// A shake lets two pieces change places, middle on middle.
func TestShakeOnAStrip(t *testing.T) {
	w := &stripWorker{sep: onStrip(t, 1000, 5000, Piece{Ring: rect(1000, 600)}, Piece{Ring: rect(400, 400)})}
	w.put(0, w.o[0], 0, 0)
	w.put(1, w.o[1], 3000, 100)
	w.shake()
	assert.Equal(t, []int64{2700, 300}, w.x)
	assert.Equal(t, []int64{0, 100}, w.y)
}

// On a repeat a piece moves by one of it at least, along and across.
func TestDescentOnARepeat(t *testing.T) {
	for _, along := range []bool{true, false} {
		repeat, w, l := Phase{Every: 100}, int64(200), int64(2000)
		p := Piece{Ring: rect(200, 200), Count: 4, PhaseX: repeat}
		if !along {
			p.PhaseX, p.PhaseY, w, l = Phase{}, repeat, l, w
		}
		s := onStrip(t, w, l, p)
		for i, at := range []int64{0, 900, 800, 1800} { // both ends are taken
			if along {
				s.put(i, s.o[i], at, 0)
			} else {
				s.put(i, s.o[i], 0, at)
			}
		}
		c := placed[lying]{p: s.lies(1)}
		c.loss = s.eval(1, c.p, math.MaxFloat64)
		require.Positive(t, c.loss)
		s.descend(1, &c, wideSteps, middleSteps)
		assert.Zero(t, c.loss)
		assert.Equal(t, int64(1000), max(c.p.x, c.p.y))
		assert.Zero(t, min(c.p.x, c.p.y))
	}
}
