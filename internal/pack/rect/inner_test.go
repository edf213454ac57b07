package rect

import (
	"cmp"
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/dissect"
)

func someBoxes(r draws, n int, width, most int64) []box {
	out := make([]box, n)
	for i := range out {
		out[i] = box{r.from(1, min(most, width)), r.from(1, most), r.IntN(2) == 0}
	}
	return out
}

// Decoding goes on from the first step that another priority changes, as if it
// had begun anew; the step before which it goes on lays that box.
func TestDecodingGoesOnAsIfAnew(t *testing.T) {
	changed := 0
	for seed := range 200 {
		r := numbered(7, seed)
		width := r.from(8, 30)
		boxes := someBoxes(r, int(r.from(3, 14)), width, 9)
		f, anew := newFiller(width, boxes), newFiller(width, boxes)
		f.limit = totalHeight(boxes) - r.from(0, 5)*r.from(0, 1)
		f.table = scorings[seed%len(scorings)]
		anew.limit, anew.table = f.limit, f.table
		for i := range boxes {
			f.prio[i] = 2 * r.from(0, 1000)
		}
		f.run(0, math.Inf(1))
		id, p := int32(r.IntN(len(boxes))), 2*r.from(0, 1000)+1
		p = max(p, f.prio[id]+1)
		stop := len(f.steps)
		if at := slices.IndexFunc(f.steps, func(s step) bool { return s.box == id }); at >= 0 {
			stop = at
		}
		keep := f.firstChange(f.steps, id, p, stop)
		require.LessOrEqual(t, keep, stop)
		f.prio[id] = p
		copy(anew.prio, f.prio)
		whole := slices.Clone(f.steps)
		waste, all := f.run(keep, math.Inf(1))
		wantWaste, wantAll := anew.run(0, math.Inf(1))
		require.Equal(t, wantWaste, waste, "job %d", seed)
		require.Equal(t, wantAll, all)
		require.Equal(t, places(anew.steps), places(f.steps), "job %d", seed)
		if keep < stop {
			changed++
			require.Equal(t, id, f.steps[keep].box, "job %d: nothing changed so early", seed)
			require.NotEqual(t, id, whole[keep].box)
		}
	}
	require.Greater(t, changed, 40)
}

// places are what steps did.
func places(steps []step) []step {
	out := slices.Clone(steps)
	for i := range out {
		out[i].key = 0
	}
	return out
}

// How a box fits a gap of 10 between walls of 6 and 4, under room of 9, best first.
func TestFitsByHand(t *testing.T) {
	f := &filler{table: scoring{9, 8, 7, 6, 5, 4, 3, 2, 1}}
	for _, c := range [][3]int64{
		{10, 6, 9}, {10, 4, 8}, {10, 9, 7}, {10, 3, 6}, {10, 5, 5}, {10, 7, 5}, {9, 6, 4}, {9, 4, 3}, {9, 9, 2}, {9, 5, 1}, {3, 2, 1},
	} {
		assert.Equal(t, c[2]<<rankShift, f.score(c[0], c[1], 10, 6, 4, 9), c)
		assert.Equal(t, c[2]<<rankShift, f.score(c[0], c[1], 10, 4, 6, 9), c)
		f.alive = []entry{{w: c[0], h: c[1], prio: 7}}
		s := step{gap: 10, hl: 6, hr: 4}
		assert.Zero(t, f.bestFit(&s, 9), c)
		assert.Equal(t, c[2]<<rankShift+7, s.key, c)
	}
}

// The least are moved to the front, in any order.
func TestSelectKids(t *testing.T) {
	for seed := range 150 {
		r := numbered(8, seed)
		kids := make([]kid, r.from(1, 60))
		for i := range kids {
			kids[i] = kid{cost: float64(r.from(0, 20)), entry: int32(i)}
		}
		costs := func(a []kid) []float64 {
			var out []float64
			for _, k := range a {
				out = append(out, k.cost)
			}
			slices.Sort(out)
			return out
		}
		want := costs(kids)
		k := int(r.from(1, int64(len(kids))))
		selectKids(kids, k)
		require.Equal(t, want[:k], costs(kids[:k]))
		require.Equal(t, want, costs(kids))
		slices.SortFunc(kids, cmpKid)
		require.True(t, slices.IsSortedFunc(kids, func(a, b kid) int { return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(a.entry, b.entry)) }))
	}
	assert.Negative(t, cmpKid(kid{cost: 1, parent: 2, entry: 9}, kid{cost: 1, parent: 3}))
}

// heights of a skyline over each unit of the width.
func heights(sky []seg) []int64 {
	var out []int64
	for _, s := range sky {
		for range s.w {
			out = append(out, s.y)
		}
	}
	return out
}

// A skyline after a box is that of the columns one by one, and its parts are
// joined where they are level.
func TestSkylineAfterABox(t *testing.T) {
	for seed := range 200 {
		r := numbered(9, seed)
		sky := []seg{{0, 0, r.from(4, 12)}}
		for range 8 {
			low := lowest(sky)
			s := sky[low]
			for k, q := range sky {
				require.True(t, q.y > s.y || q.y == s.y && k >= low, "the leftmost of the lowest")
			}
			w, h, right := r.from(1, s.w), r.from(1, 4), r.IntN(2) == 0
			want := heights(sky)
			from := s.x
			if right {
				from += s.w - w
			}
			for x := from; x < from+w; x++ {
				want[x] += h
			}
			sky = laidOn(slices.Clone(sky), low, w, h, right)
			require.Equal(t, want, heights(sky), "%d", seed)
			x := int64(0)
			for i, q := range sky {
				require.Equal(t, x, q.x)
				require.True(t, i == 0 || sky[i-1].y != q.y, "%v is not joined", sky)
				x += q.w
			}
		}
	}
}

// What a beam sees of the boxes left: the narrowest and the next one, whether the
// highest has room, whether any fits a gap.
func TestWhatABeamSees(t *testing.T) {
	for seed := range 150 {
		r := numbered(10, seed)
		width := r.from(6, 12)
		boxes := someBoxes(r, int(r.from(1, 70)), width, 9)
		b := newBeam(width, boxes, 1)
		used := make([]uint64, b.words)
		left := map[int32]bool{}
		for i := range boxes {
			left[int32(i)] = r.IntN(6) > 0
		}
		min1, min2, tall := noWall, noWall, int64(0)
		first := int32(-1)
		fits := false
		gap, room := r.from(1, 8), r.from(1, 9)
		for k, e := range b.ents { // narrow ones first
			if !left[e.box] {
				used[k>>6] |= 1 << (k & 63)
				continue
			}
			if first < 0 {
				first, min1 = e.box, e.w
			} else if e.box != first && min2 == noWall {
				min2 = e.w
			}
			fits = fits || e.w <= gap && e.h <= room
			least := int64(math.MaxInt64)
			for _, o := range b.ents {
				if o.box == e.box {
					least = min(least, o.h)
				}
			}
			tall = max(tall, least)
		}
		got1, got2, box := b.narrowest(used)
		require.Equal(t, []int64{min1, min2, int64(first)}, []int64{got1, got2, int64(box)}, "%d", seed)
		require.Equal(t, fits, b.fits(used, gap, room), "%d", seed)
		for v := range int64(10) {
			require.Equal(t, tall <= v, b.tallestFits(used, v), "%d: %d of %d", seed, v, tall)
		}
	}
}

// Staircases against columns one by one.
func TestStaircases(t *testing.T) {
	const width = 12
	columns := func(s []stair) []int64 {
		out := make([]int64, width)
		for x := range out {
			for _, c := range s {
				if c.x <= int64(x) {
					out[x] = c.y
				}
			}
		}
		return out
	}
	draw := func(r draws) []stair {
		s := []stair{{0, 0}}
		for range r.from(0, 4) {
			s = raise(nil, s, r.from(1, width-1), r.from(1, 9))
		}
		return s
	}
	enclosed := 0
	for seed := range 300 {
		r := numbered(11, seed)
		a, b := draw(r), draw(r)
		x2, top := r.from(1, width-1), r.from(1, 9)
		want := columns(a)
		for x := range x2 {
			want[x] = max(want[x], top)
		}
		got := raise(nil, a, x2, top)
		require.Equal(t, want, columns(got), "%v", a)
		for i := range got[1:] {
			require.True(t, got[i].x < got[i+1].x && got[i].y > got[i+1].y, "%v", got)
		}
		over, free := true, wide{}
		ca, cb := columns(a), columns(b)
		for x := range ca {
			over = over && ca[x] >= cb[x]
			free.addMul(1, max(0, 7-ca[x]))
		}
		require.Equal(t, over, encloses(a, b), "%v over %v", a, b)
		require.Equal(t, free, (&exact{width: width, limit: 7}).free(a), "%v", a)
		if over {
			enclosed++
		}
	}
	require.Greater(t, enclosed, 20)
}

// The greatest sums up to a value, in units of a divisor.
func TestGreatestSums(t *testing.T) {
	for seed := range 80 {
		r := numbered(12, seed)
		unit := r.from(1, 3)
		var boxes []exactBox
		for range r.from(1, 5) {
			boxes = append(boxes, exactBox{lays: []lay{{w: unit * r.from(1, 70), h: 1}}})
		}
		limit := r.from(1, 400)
		s := newSides(limit, boxes, func(l lay) int64 { return l.w })
		require.Positive(t, s.unit)
		s.set.word[0] = 1
		sums := map[int64]bool{0: true}
		for _, b := range boxes {
			v := b.lays[0].w
			for q := range mapsCopy(sums) {
				sums[q+v] = true
			}
			s.set.addOne(v / s.unit)
		}
		want := int64(0)
		for v := int64(0); v <= limit; v++ {
			if sums[v] {
				want = v
			}
			require.Equal(t, want, s.below(v), "%d of %d", v, limit)
			require.Equal(t, want, below(s.set.word, v, s.unit), "%d of %d", v, limit)
		}
		require.Zero(t, s.below(-3))
	}
	require.Equal(t, sides{}, newSides(4097, []exactBox{{lays: []lay{{w: 3}, {w: 7}}}}, func(l lay) int64 { return l.w }))
	require.NotNil(t, newSides(4096, []exactBox{{lays: []lay{{w: 3}, {w: 7}}}}, func(l lay) int64 { return l.w }).set)
	require.Equal(t, int64(9), (&sides{}).below(9), "not known: all of it")
}

func mapsCopy(m map[int64]bool) map[int64]bool {
	out := map[int64]bool{}
	for k := range m {
		out[k] = true
	}
	return out
}

// Clusters hold every box once, side by side without space, within the strip.
func TestClustersHoldEveryBox(t *testing.T) {
	joined := 0
	for seed := range 100 {
		r := numbered(13, seed)
		width, limit := r.from(10, 30), r.from(10, 30)
		boxes := make([]box, r.from(4, 30))
		for i := range boxes {
			boxes[i] = box{r.from(1, 6), r.from(1, 6), r.IntN(5) == 0}
		}
		most, rare := int(r.from(1, 30)), int(r.from(2, 9))
		all, left := clusters(width, limit, boxes, most, rare, &rnd{uint64(seed)}, func() bool { return false })
		require.LessOrEqual(t, len(all)-len(boxes), most)
		seen := make([]bool, len(boxes))
		for _, id := range left {
			spots := make([]spot, len(boxes))
			for i := range spots {
				spots[i].x = -1
			}
			c := all[id]
			if c.b >= 0 {
				joined++
				require.True(t, c.w <= width && c.h <= limit)
			}
			unfold(all, id, spot{x: 100, y: 200}, spots)
			covered := map[[2]int64]bool{}
			for i, s := range spots {
				if s.x < 0 {
					continue
				}
				require.False(t, seen[i])
				seen[i] = true
				require.True(t, c.b < 0 || !boxes[i].turn, "a box that may turn is not joined")
				for x := s.x; x < s.x+boxes[i].w; x++ {
					for y := s.y; y < s.y+boxes[i].h; y++ {
						require.True(t, x >= 100 && x < 100+c.w && y >= 200 && y < 200+c.h && !covered[[2]int64{x, y}])
						covered[[2]int64{x, y}] = true
					}
				}
			}
			require.Len(t, covered, int(c.w*c.h))
		}
		require.NotContains(t, seen, false)
	}
	require.Greater(t, joined, 60)
}

// Two scales: large boxes hold seven tenths of the area and are a quarter of the
// boxes at most, from 80 boxes on, two large ones at least.
func TestScalesByHand(t *testing.T) {
	mixed := func(large, small int, area int64) []box {
		var out []box
		for i := range large + small {
			b := box{w: 1, h: 10}
			if n := large + small; (i+1)*large/n > i*large/n {
				b.h = area
			}
			out = append(out, b)
		}
		return out
	}
	sized := func(bs []box) (n int) {
		for _, b := range bs {
			if b.h > 10 {
				n++
			}
		}
		return n
	}
	for _, c := range []struct {
		large, small int
		area         int64
		ok           bool
	}{
		{20, 60, 1000, true}, {20, 59, 1000, false}, {2, 78, 1000, true}, {1, 79, 10_000, false},
		{20, 60, 71, true}, {20, 60, 69, false},
	} {
		boxes := mixed(c.large, c.small, c.area)
		require.Equal(t, c.large, sized(boxes), "%+v", c)
		large, small, ok := split(boxes)
		require.Equal(t, c.ok, ok, "%+v", c)
		if ok {
			require.Len(t, large, c.large)
			require.Len(t, small, c.small)
			for _, i := range large {
				require.Equal(t, c.area, boxes[i].h)
			}
		}
	}
}

// Holes cover the free ground below a limit, each unit once where boxes of one
// unit could lie, and nothing else.
func TestHolesCoverTheFreeGround(t *testing.T) {
	for seed := range 60 {
		r := numbered(14, seed)
		width, limit := r.from(5, 14), r.from(5, 14)
		w := newPlain(width, 1, []box{{1, 1, false}, {1, 1, false}}, 1).ws[0]
		w.ready(context.Background(), 1<<40)
		c := &coarse{w: w, f: newFiller(width, []box{{1, 1, false}})}
		taken := map[[2]int64]bool{}
		w.p.boxes = nil
		for i := range r.from(0, 5) {
			s := spot{r.from(0, width-1), r.from(0, limit-1), r.IntN(2) == 0}
			b := box{r.from(1, width-s.x), r.from(1, 4), true}
			at := b
			if s.turned {
				b.w, b.h = b.h, b.w
			}
			w.p.boxes, c.large, c.laid = append(w.p.boxes, b), append(c.large, int32(i)), append(c.laid, s)
			for x := s.x; x < s.x+at.w; x++ {
				for y := s.y; y < s.y+at.h; y++ {
					taken[[2]int64{x, y}] = true
				}
			}
		}
		last := int64(math.MaxInt64)
		for _, h := range c.holes(limit) {
			require.LessOrEqual(t, h.w*h.h, last, "the largest first")
			last = h.w * h.h
			for x := h.x; x < h.x+h.w; x++ {
				for y := h.y; y < h.y+h.h; y++ {
					require.True(t, x >= 0 && x < width && y >= 0 && y < limit && !taken[[2]int64{x, y}], "%d: %v", seed, h)
					taken[[2]int64{x, y}] = true
				}
			}
		}
		for x := range width {
			for y := range limit {
				require.True(t, taken[[2]int64{x, y}], "%d: nothing at %d, %d", seed, x, y)
			}
		}
	}
}

// An exchange is undone by what is said to undo it.
func TestTurnByHand(t *testing.T) {
	a := []int{1, 2, 3, 4, 5}
	turn(a, 1)
	assert.Equal(t, []int{2, 3, 4, 5, 1}, a)
	turn(a, 4)
	assert.Equal(t, []int{1, 2, 3, 4, 5}, a)
	turn(a, 2)
	assert.Equal(t, []int{3, 4, 5, 1, 2}, a)
}

// Jobs for Stack: on a pattern that may be moved, in angled pieces too.
func stackJob(seed int) *Job {
	r := numbered(15, seed)
	j := &Job{Width: r.from(30, 60), Gap: r.from(0, 1), Repeat: Repeat{PeriodX: r.from(0, 20), PeriodY: r.from(0, 20), OriginX: r.from(0, 20), OriginY: r.from(0, 20)}}
	if j.Repeat.PeriodX > 0 && j.Repeat.PeriodY > 0 && r.IntN(2) == 0 {
		j.Repeat.DropNum, j.Repeat.DropDen = 1, r.from(2, 3)
	}
	for range r.from(0, 2) {
		j.Sets = append(j.Sets, Set{Moves: Axes(r.from(1, 3)), Step: r.from(1, 4)})
	}
	for i := range r.from(5, 14) {
		p := Piece{W: r.from(4, 20), H: r.from(4, 20), Count: int(r.from(1, 3)), Turns: []Turns{Upright, HalfTurn, AnyTurn}[r.IntN(3)], Mirror: i%2 == 0,
			Match: Axes(r.from(0, 3)), Set: int(r.from(0, int64(len(j.Sets)))), Spots: []Spot{{X: r.from(0, 9), Y: r.from(0, 9)}}}
		if seed%2 == 0 && r.IntN(2) == 0 {
			x, y := r.from(1, p.W-1), r.from(1, p.H-1)
			p.Cells = []Cell{{0, 0, p.W, y}, {x, y, p.W - x, p.H - y}}
		}
		j.Pieces = append(j.Pieces, p)
	}
	return j
}

// Plans of Stack are in their order, their sets moved by whole steps, and progress
// only goes on.
func TestPlansOfTheStack(t *testing.T) {
	laid := 0
	for seed := range 40 {
		j := stackJob(seed)
		last := Progress{Length: maxCoord}
		p, err := Stack(context.Background(), j, Options{Effort: 0.0003, Seed: 2, Progress: func(q Progress) {
			require.True(t, q.Done > last.Done && q.Done <= 1 && q.Length <= last.Length, "job %d: %+v after %+v", seed, q, last)
			last = q
		}})
		if err != nil {
			require.ErrorIs(t, err, ErrNoLayout)
			continue
		}
		inOrder(t, j, p)
		if p.Length > p.Bound && len(p.Placed) > 1 { // both workers spend their effort
			require.GreaterOrEqual(t, p.Work, int64(0.0003*2*unitsPerEffort), "job %d", seed)
		}
		for k, m := range p.Moved {
			require.Zero(t, m[0]%j.Sets[k].Step, "job %d", seed)
			require.Zero(t, m[1]%j.Sets[k].Step, "job %d", seed)
		}
		laid++
	}
	require.Greater(t, laid, 30)
}

// A stack that goes on from the order before lays as one that begins anew, with less work.
func TestStackGoesOnAsIfAnew(t *testing.T) {
	laid := 0
	for seed := range 40 {
		j := stackJob(seed)
		if j.Validate() != nil {
			continue
		}
		parts := j.parts(nil)
		c := &climber{s: newStack(j, parts), rng: rnd{uint64(seed)}, best: maxCoord}
		c.begin()
		for range 20 {
			undo := c.exchange()
			before := c.s.units
			ok := c.s.run(c.order, maxCoord)
			more := c.s.units - before
			anew := newStack(j, parts)
			copy(anew.right, c.s.right)
			require.Equal(t, anew.run(c.order, maxCoord), ok)
			require.LessOrEqual(t, more, anew.units+int64(8*len(anew.by))) // and what it takes to take parts back
			if ok {
				require.Equal(t, anew.spots, c.s.spots, "job %d", seed)
				require.Equal(t, anew.sets, c.s.sets, "job %d", seed)
				require.Equal(t, anew.top(), c.s.top())
				laid++
			}
			if c.rng.intn(2) == 0 {
				undo()
			}
		}
	}
	require.Greater(t, laid, 300)
}

// The stack begins with parts bound to the pattern, the largest first, then the others so.
func TestStackBeginsWithTheBound(t *testing.T) {
	j := &Job{Width: 30, Repeat: Repeat{PeriodX: 5, PeriodY: 5}}
	for i, size := range []int64{3, 4, 2, 6, 5, 7, 8, 9} {
		j.Pieces = append(j.Pieces, Piece{W: size, H: 2, Count: 1, Match: []Axes{0, X, Y, X | Y}[i%4]})
	}
	c := &climber{s: newStack(j, j.parts(nil)), rng: rnd{1}, best: maxCoord}
	c.begin()
	assert.Equal(t, []int{7, 6, 5, 3, 1, 2, 4, 0}, c.order)
}

// A beam lays boxes under a limit where they fit, and says so where they do not:
// one too high, more area than there is, or no way to fit them in.
func TestBeamByHand(t *testing.T) {
	never := func() bool { return false }
	g := guide{waste: 2, segs: 0.1, power: 1}
	for _, c := range []struct {
		width, limit int64
		boxes        []box
		ok           bool
	}{
		{10, 9, []box{{3, 9, false}}, true},
		{10, 8, []box{{3, 9, false}}, false},
		{10, 8, []box{{3, 9, true}}, true},
		{10, 5, []box{{10, 2, false}, {4, 3, false}, {6, 3, false}}, true},
		{10, 4, []box{{10, 2, false}, {4, 3, false}, {6, 3, false}}, false},
		{10, 5, []box{{6, 3, false}, {6, 2, false}, {4, 5, false}}, true},
		{10, 5, []box{{6, 3, false}, {6, 3, false}, {1, 1, false}}, false},
		{10, 6, []box{{6, 3, false}, {6, 3, false}, {4, 6, false}}, true},
	} {
		b := newBeam(c.width, c.boxes, 1)
		was := b.rng
		spots, ok := b.search(c.limit, 8, g, 1<<20, never)
		require.Equal(t, c.ok, ok, "%+v", c)
		require.Equal(t, was, b.rng, "without noise nothing is drawn")
		if !ok {
			require.Nil(t, spots)
			continue
		}
		lieApart(t, c.width, c.boxes, spots)
		require.LessOrEqual(t, heightOf(c.boxes, spots), c.limit)
	}
	b := newBeam(10, []box{{6, 3, false}, {6, 3, false}, {4, 6, false}}, 1)
	_, ok := b.search(6, 8, g, 1<<20, func() bool { return true })
	require.False(t, ok, "stopped")
	_, ok = b.search(6, 8, g, -1<<40, never)
	require.False(t, ok, "out of work")
}

// The search from coarse to fine has four fifths of the work while its large boxes
// lie no higher than all boxes do and it gained lately, and a ninth otherwise.
func TestTurnOfTheCoarseSearch(t *testing.T) {
	const lately = 1 << 27
	for _, c := range []struct {
		large, units, gained, others int64
		due                          bool
	}{
		{10, 800, 0, 200, true}, {10, 804, 0, 200, false}, {9, 800, 0, 200, true}, {9, 804, 0, 200, false},
		{11, 25, 0, 200, true}, {11, 26, 0, 200, false},
		{10, lately - 1, 0, lately / 4, true}, {10, lately, 0, lately / 4, false}, {10, lately, 0, lately * 8, true},
		{10, 3*lately - 1, lately, lately, true}, {10, 3 * lately, lately, lately, false},
	} {
		w := &plainWorker{did: [2]int64{c.others / 4, c.others - c.others/4}}
		w.best = 10
		s := &coarse{w: w, sub: &plainWorker{}, units: c.units, gained: c.gained}
		s.sub.best = c.large
		assert.Equal(t, c.due, s.due(), "%+v", c)
	}
}

// Puzzles shorten a layout also where the bound is out of reach.
func TestPuzzlesBelowTheBest(t *testing.T) {
	j := cutJob(t, 60, 60, 20, dissect.Guillotine, 1)
	p := newPlain(j.Width, 1, boxesOf(j), 1)
	w := p.ws[0]
	w.ready(t.Context(), 1<<40)
	w.best = 120
	for range 20 {
		was := w.best
		w.puzzle(1 << 30)
		require.LessOrEqual(t, w.best, was)
	}
	assert.GreaterOrEqual(t, w.best, int64(60))
	assert.Less(t, w.best, int64(120))
}

// A search stops when its context ended, and when another one reached the bound
// with less work.
func TestWhenASearchStops(t *testing.T) {
	ended, cancel := context.WithCancel(t.Context())
	cancel()
	j := &Job{Width: 10, Pieces: []Piece{{W: 3, H: 3, Count: 2}}}
	for _, c := range []struct {
		ctx      context.Context
		units    int64
		solvedAt int64
		stopped  bool
	}{{t.Context(), 50, 50, false}, {t.Context(), 51, 50, true}, {ended, 50, 50, true}, {ended, 51, 50, true}} {
		p := newPlain(j.Width, 1, boxesOf(j), 1)
		p.solvedAt.Store(c.solvedAt)
		w := p.ws[1]
		w.ready(c.ctx, 100)
		w.did[1] = c.units
		assert.Equal(t, c.stopped, w.stopped(), "%+v", c)
		o := newOrdered(j, j.parts(nil), 0, 1, nil)
		o.solvedAt.Store(c.solvedAt)
		v := o.ws[1]
		v.ready(c.ctx, 100)
		v.p.units = c.units
		assert.Equal(t, c.stopped, v.stopped(), "%+v", c)
	}
}

// The exact search meets a state once.
func TestStatesAreMetOnce(t *testing.T) {
	e := &exact{seen: make([]uint64, 8)}
	for _, h := range []uint64{0, 5, 1 << 63} {
		assert.True(t, e.fresh(h))
		assert.False(t, e.fresh(h))
	}
}

// A bound is raised by half of it and a unit at most: two boxes of 6 by 3 stand one
// on the other on goods 10 wide.
func TestRaisedBySquares(t *testing.T) {
	var it item
	it.add(6, 3)
	items := []item{it, it}
	for bound, want := range map[int64]int64{1: 2, 2: 4, 3: 5, 4: 6, 5: 6, 6: 6, 7: 7} {
		assert.Equal(t, want, bySquares(10, bound, items, widthFunctions(10, items)), "%d", bound)
	}
}

// Of the work of a search on few boxes six tenths are exchanges, of more fewer; of
// that on beams a twentieth goes to clusters, of fine sizes three times as much.
func TestSharesOfTheWork(t *testing.T) {
	for _, c := range []struct {
		n       int
		local   float64
		fine    int64 // factor of the sizes
		cluster float64
	}{{32, 0.6, 1, 0.05}, {33, 0.4, 1, 0.05}, {64, 0.4, 1000, 0.15}, {65, 0.2, 1000, 0.15}, {128, 0.2, 1, 0.05}, {129, 0.08, 1, 0.05}} {
		r := numbered(16, c.n)
		boxes := someBoxes(r, c.n, 100, 40)
		for i := range boxes {
			boxes[i].w, boxes[i].h = boxes[i].w*c.fine+r.from(0, c.fine-1), boxes[i].h*c.fine
		}
		p := newPlain(100*c.fine, 1, boxes, 1)
		p.start(t.Context())
		p.search(t.Context(), 6_000_000, nil)
		for _, w := range p.ws {
			did := w.did[0] + w.did[1]
			assert.InDelta(t, c.local, float64(w.did[0])/float64(did), 0.1, "%+v", c)
			assert.InDelta(t, c.cluster, float64(w.puzzled)/float64(w.did[1]), 0.02, "%+v", c)
		}
	}
}

// Beyond as many obstacles as are kept the lowest quarter of them is closed: of
// nine boxes one on the other, the three below.
func TestPlacerForgetsTheLowest(t *testing.T) {
	j := &Job{Width: 1, Pieces: []Piece{{W: 1, H: 1, Count: 10}}}
	p := newPlacer(j, j.parts(nil))
	p.reset()
	p.keep = 8
	for i := range 9 {
		assert.Zero(t, p.floor, i)
		s, ok := p.lowest(i, 0, maxCoord)
		require.True(t, ok)
		assert.Equal(t, partSpot{y: int64(i)}, s)
		p.put(i, s)
	}
	assert.Equal(t, int64(3), p.floor)
	assert.Len(t, p.obs, 6)
	p.remove(0)
	s, ok := p.lowest(9, 0, maxCoord)
	require.True(t, ok)
	assert.Equal(t, partSpot{y: 3}, s, "what is closed stays so")
}

// Exchanges alone find known optima, from a bound that is met and from one that is not.
func TestExchangesFindKnownOptima(t *testing.T) {
	for _, bound := range []int64{20, 1} {
		p := newPlain(20, bound, boxesOf(&Job{Pieces: pieces(hopperTurton...)}), 1)
		w := p.ws[0]
		w.ready(t.Context(), 1<<40)
		w.best = 40
		w.exchanges(2_000_000)
		assert.Equal(t, int64(20), w.best)
		assert.Equal(t, w.best, heightOf(p.boxes, w.finds[len(w.finds)-1].spots))
	}
}

// So do beams alone, which look for ever less where they fail.
func TestBeamsFindKnownOptima(t *testing.T) {
	for _, bound := range []int64{20, 1} {
		p := newPlain(20, bound, boxesOf(&Job{Pieces: pieces(hopperTurton...)}), 1)
		w := p.ws[1]
		w.ready(t.Context(), 1<<40)
		w.best = 60
		rounds := 0
		for ; w.best > 20 && rounds < 400; rounds++ {
			was, step := w.best, w.step
			w.beams(1 << 30)
			if w.best == was && step > 0 && w.step > 0 {
				require.LessOrEqual(t, w.step, step, "what failed is tried for less")
			}
			require.LessOrEqual(t, len(w.tried), beamsPerSize)
			require.LessOrEqual(t, w.round, beamsPerSize)
		}
		assert.Equal(t, int64(20), w.best)
		last := w.finds[len(w.finds)-1]
		lieApart(t, 20, p.boxes, last.spots)
		assert.Equal(t, int64(20), heightOf(p.boxes, last.spots))
		assert.Less(t, rounds, 400)
	}
}

// Orders to seed the placer with: one of plain boxes, another of sides rounded up to the
// repeat, each of all parts; from below, as they lie.
func TestSeedOrders(t *testing.T) {
	j := &Job{Width: 10, Pieces: []Piece{{W: 10, H: 3, Count: 1}, {W: 4, H: 2, Count: 2}, {W: 9, H: 9, Count: 1}}}
	s := &solver{ctx: t.Context(), j: j}
	for _, c := range []struct {
		match  Axes
		orders int
	}{{0, 1}, {Y, 2}, {X | Y, 2}} {
		j.Pieces[0].Match = c.match
		j.Repeat = Repeat{PeriodX: 3, PeriodY: 4}
		orders, _ := s.seedOrders(j.parts(nil), 1<<16)
		require.Len(t, orders, c.orders)
		for _, o := range orders {
			assert.ElementsMatch(t, []int{0, 1, 2, 3}, o)
			at := slices.Index(o, 1) - slices.Index(o, 2)
			assert.Equal(t, int64(1), int64(at*at), "equal ones lie side by side")
		}
	}
	orders, spent := s.seedOrders(j.parts(nil)[:1], 1<<16)
	assert.Empty(t, orders, "of one part there is one order")
	assert.Zero(t, spent)
}

// Boxes left are laid in rows, the high ones first, each the way in which it is less
// high: 5 by 4, above it 6 by 3, above that 9 by 3 on its side, and at last 2 by 3 with
// 4 by 2 beside it. They begin above what is laid.
func TestRowsByHand(t *testing.T) {
	for _, below := range []int64{0, 5} {
		f := newFiller(10, []box{{6, 3, false}, {5, 4, false}, {4, 2, false}, {3, 9, true}, {2, 3, false}, {10, 5, false}})
		if below > 0 {
			f.steps = []step{{box: 5, pw: 10, ph: 5}}
		}
		for _, e := range f.byWidth {
			if e.box != 5 {
				f.alive = append(f.alive, e)
			}
		}
		f.rows()
		assert.Equal(t, []spot{{0, below + 4, false}, {0, below, false}, {2, below + 10, false}, {0, below + 7, true}, {0, below + 10, false}}, f.spots()[:5])
		assert.Equal(t, below+13, f.height())
		assert.Empty(t, f.alive)
	}
}

// lieApart tells whether boxes lie on a strip and on no other.
func lieApart(t *testing.T, width int64, boxes []box, spots []spot) {
	t.Helper()
	size := func(i int) (int64, int64) {
		if spots[i].turned {
			require.True(t, boxes[i].turn)
			return boxes[i].h, boxes[i].w
		}
		return boxes[i].w, boxes[i].h
	}
	require.Len(t, spots, len(boxes))
	for i, p := range spots {
		w, h := size(i)
		require.True(t, p.x >= 0 && p.x+w <= width && p.y >= 0, "%+v", p)
		for k, q := range spots[:i] {
			v, g := size(k)
			require.True(t, p.x+w <= q.x || q.x+v <= p.x || p.y+h <= q.y || q.y+g <= p.y, "%+v %+v", p, q)
		}
	}
}

// The ways to lay a box in the lowest gap, with what they cost: parts of the skyline,
// less the worth of what is laid, and what is wasted for certain.
func TestWaysToLayByHand(t *testing.T) {
	kids := func(b *beam, budget, cut float64) map[int32]float64 {
		out := map[int32]float64{}
		b.kids = b.kids[:0]
		b.expand(0, budget, cut)
		for _, k := range b.kids {
			out[k.entry] = k.cost
			assert.InDelta(t, b.cur[0].worth+b.worth[k.entry>>1], k.worth, 1e-9)
		}
		return out
	}
	begin := func(width, limit int64, g guide, boxes ...box) *beam {
		b := newBeam(width, boxes, 1)
		b.limit, b.g = limit, g
		b.setWorth(g)
		b.setEndgame()
		b.skyA, b.useA = []seg{{0, 0, width}}, make([]uint64, b.words)
		b.cur = []beamNode{{segs: 1, parent: -1}}
		b.seen.reset(2)
		return b
	}
	on := func(b *beam) { // with the layout grown last
		b.cur, b.nxt = b.nxt, b.cur[:0]
		b.skyA, b.skyB = b.skyB, b.skyA[:0]
		b.useA, b.useB = b.useB, b.useA[:0]
		b.seen.reset(2)
	}
	same := func(want, got map[int32]float64) {
		t.Helper()
		require.Len(t, got, len(want))
		for k, v := range want {
			require.InDelta(t, v, got[k], 1e-9, "%d", k)
		}
	}
	inf := math.Inf(1)
	// Entries, narrow ones first: 4 by 3, 6 by 3, 10 by 2, worth 0.72, 1.08 and 1.2 of the mean area.
	g := guide{waste: 2, segs: 0.1, power: 1}
	b := begin(10, 5, g, box{10, 2, false}, box{4, 3, false}, box{6, 3, false})
	same(map[int32]float64{0: 0.2 - 0.72, 2: 0.2 - 1.08, 4: 0.1 - 1.2}, kids(b, 0, inf))
	same(map[int32]float64{2: 0.2 - 1.08, 4: 0.1 - 1.2}, kids(b, 0, -0.6))
	trail, ok := b.grow(kid{worth: 1.08, entry: 2}, 2, 0)
	require.True(t, ok)
	assert.Equal(t, int32(2), trail.entry)
	_, ok = b.grow(kid{worth: 1.08, entry: 2}, 2, 0)
	assert.False(t, ok, "the same once more")
	assert.Equal(t, []seg{{0, 3, 6}, {6, 0, 4}}, b.skyB)
	on(b)
	same(map[int32]float64{0: 0.2 - 1.08 - 0.72 - 0.1}, kids(b, 0, inf)) // fills the gap, level with its wall
	b.limit = 2
	assert.Empty(t, kids(b, 0, inf), "too high")

	// 7 by 2 leaves 3, where 5 by 4 finds no room: 6 are wasted, worth 24/34 and 40/34 of the other.
	g.slot = 0.3
	b = begin(10, 6, g, box{7, 2, false}, box{5, 4, false})
	mean := 17.0
	wide, narrow := 14/mean, 20/mean
	same(map[int32]float64{0: 0.2 - narrow + 2/mean*5*4, 2: 0.2 - wide + 2/mean*6}, kids(b, 20, inf))
	assert.Len(t, kids(b, 19, inf), 1)
	assert.Empty(t, kids(b, 5, inf))
	_, ok = b.grow(kid{entry: 2}, 1, 5)
	assert.False(t, ok, "too much wasted")
	_, ok = b.grow(kid{entry: 2}, 1, 40)
	require.True(t, ok)
	on(b)
	assert.Equal(t, []seg{{0, 2, 10}}, b.skyA, "the gap is filled up")
	assert.InDelta(t, 6, b.cur[0].waste, 1e-9)

	// 3 by 2 leaves 7, enough for 5 by 4: narrow gaps are dreaded by a mean width of 4 over that and 7.
	b = begin(10, 6, g, box{3, 2, false}, box{5, 4, false})
	same(map[int32]float64{0: 0.2 - 6/13.0 + 0.3*4/11, 2: 0.2 - 20/13.0 + 0.3*4/9}, kids(b, 0, inf))
}

// A box is worth its area to a power, and its height; one on average.
func TestWorthByHand(t *testing.T) {
	for power, want := range map[float64][2]float64{1: {4, 16}, 0.5: {2, 4}, 0.75: {math.Sqrt(8), 8}} {
		b := newBeam(20, []box{{2, 2, false}, {4, 4, false}}, 1)
		b.limit = 8
		for _, tall := range []float64{0, 0.5} {
			b.setWorth(guide{power: power, tall: tall})
			mean := math.Pow(10, power)
			low, high := want[0]/mean+tall*2*2/8, want[1]/mean+tall*2*4/8
			assert.InDelta(t, 2*low/(low+high), b.worth[0], 1e-9)
			assert.InDelta(t, 2*high/(low+high), b.worth[1], 1e-9)
		}
	}
}

// Orders to begin with: by area, height, width, half the way round, then the same with
// parts on the pattern first.
func TestOrdersToBeginWith(t *testing.T) {
	j := &Job{Width: 20, Repeat: Repeat{PeriodY: 5}, Pieces: []Piece{{W: 9, H: 2, Count: 1}, {W: 2, H: 8, Count: 1}, {W: 5, H: 5, Count: 1, Match: Y}, {W: 1, H: 1, Count: 1, Match: Y}}}
	o := newOrdered(j, j.parts(nil), 0, 1, nil)
	for seeds := range 2 {
		w := o.ws[0]
		o.seeds = [][]int{{3, 2, 1, 0}}[:seeds]
		for kind, want := range [][]int{{2, 0, 1, 3}, {1, 2, 0, 3}, {0, 2, 1, 3}, {0, 1, 2, 3}, {2, 3, 0, 1}, {2, 3, 1, 0}, {2, 3, 0, 1}, {2, 3, 0, 1}, {2, 0, 1, 3}} {
			w.sorted(kind + seeds)
			assert.Equal(t, want, w.order, "%d", kind)
		}
	}
	o.ws[0].sorted(0)
	assert.Equal(t, o.seeds[0], o.ws[0].order)
	// Of plain boxes the same by priority, lying on their long side where they may.
	var l localSearch
	l.init(20, []box{{9, 2, false}, {2, 8, true}, {5, 5, false}, {1, 1, false}}, 1, 0)
	for kind, want := range [][]int64{{3, 2, 4, 1}, {4, 3, 2, 1}, {3, 2, 4, 1}, {4, 3, 2, 1}, {3, 2, 4, 1}} {
		l.order(kind)
		for i := range want {
			want[i] <<= 20
		}
		assert.Equal(t, want, l.f.prio, "%d", kind)
	}
}

// Small boxes are laid into the holes of the large ones below a limit, and above it where
// they find no room: all of them, each on the strip and on no other.
func TestSmallBoxesInHoles(t *testing.T) {
	j := many(120, AnyTurn)
	p := newPlain(j.Width, 1, boxesOf(j), 1)
	p.start(t.Context())
	p.scale(t.Context())
	for _, w := range p.ws {
		c := w.coarse
		require.NotNil(t, c)
		w.ready(t.Context(), 1<<40)
		for _, limit := range []int64{c.sub.best, c.sub.best + 100, 2 * c.sub.best} {
			for range 4 {
				top := c.under(limit)
				lieApart(t, j.Width, p.boxes, c.spots)
				require.Equal(t, heightOf(p.boxes, c.spots), top)
			}
		}
		w.best = 2 * p.best
		c.fill()
		require.Less(t, w.best, 2*p.best)
		require.GreaterOrEqual(t, w.best, c.sub.best)
		require.LessOrEqual(t, w.best, p.best, "one box after another leaves no less")
		require.Equal(t, w.best, heightOf(p.boxes, w.finds[len(w.finds)-1].spots))
	}
}

// Beams begin with eight partial layouts, or as many as take about 2^25 steps.
func TestFirstBeams(t *testing.T) {
	for n, want := range map[int]int{1: 8, 100: 8, 1023: 8, 1200: 5, 2000: 2, 2900: 1, 10_000: 1} {
		assert.Equal(t, want, firstSize(n), "%d", n)
	}
}

// The largest box may be reflected where it is the only one of its size, and no pattern
// binds any; equal boxes are of one kind.
func TestKindsOfBoxes(t *testing.T) {
	for _, c := range []struct {
		pieces []Piece
		unique bool
		kinds  []int
	}{
		{pieces([2]int64{3, 3}, [2]int64{2, 2}), true, []int{0, 1}},
		{pieces([2]int64{2, 2}, [2]int64{3, 3}, [2]int64{2, 2}), true, []int{0, 1, 1}},
		{pieces([2]int64{3, 3}, [2]int64{3, 3}, [2]int64{2, 2}), false, []int{0, 0, 2}},
		{pieces([2]int64{3, 3}, [2]int64{3, 3}), false, []int{0, 0}},
		{[]Piece{{W: 3, H: 3, Count: 1}, {W: 2, H: 2, Count: 1, Match: Y}}, false, []int{0, 1}},
		{[]Piece{{W: 2, H: 2, Count: 1}, {W: 2, H: 2, Count: 1, Match: Y}}, false, []int{0, 1}},
		{[]Piece{{W: 3, H: 2, Count: 1}, {W: 3, H: 2, Count: 1, Turns: AnyTurn}}, true, []int{0, 1}},
	} {
		j := &Job{Width: 10, Repeat: Repeat{PeriodY: 4}, Pieces: c.pieces}
		e, _ := newExact(t.Context(), j.Width, j.parts(nil), 0, j.Repeat)
		assert.Equal(t, c.unique, e.unique, "%+v", c.pieces)
		for i, b := range e.boxes {
			assert.Equal(t, c.kinds[i], b.kind, "%+v", c.pieces)
		}
	}
}

// Of ways to divide a piece that serve as well alone, the one that lies best with the others
// is taken: 108 by 8 on goods 54 wide beside 18 by 24 in thirds, not in halves.
func TestDivisionThatLiesBest(t *testing.T) {
	j := &Job{Width: 54, Pieces: []Piece{{W: 108, H: 8, Count: 1, Split: &Split{Along: X, Min: 10, MaxSeams: 3}}, {W: 18, H: 24, Count: 1}}}
	p := solve(t, j, 0.01)
	assert.Equal(t, int64(24), p.Length)
	assert.True(t, p.Proved)
	assert.Equal(t, []Seam{{0, 0, 36}, {0, 0, 72}}, p.Seams)
	j.Pieces[1].H = 8
	p = solve(t, j, 0.01)
	assert.Equal(t, int64(24), p.Length, "either way")
	j.Pieces = j.Pieces[:1]
	p = solve(t, j, 0.01)
	assert.Equal(t, []Seam{{0, 0, 54}}, p.Seams, "no more seams than serve")
}
