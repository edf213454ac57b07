package rect

import (
	"context"
	"slices"
)

// ordered is the search for jobs with a repeat, flaws or groups: the placer lays the parts in an order, and the
// order is improved by exchanges.
// Its best is maxCoord until a layout is found.
type ordered struct {
	race[partSpot]
	seeds [][]int // orders worth starting from, besides the sorted ones
	ws    [workers]*orderedWorker
	work  int64 // of the first layouts
}

type orderedWorker struct {
	known[partSpot]
	s      *ordered
	p      *placer
	rng    rnd
	limit  int64
	ctx    context.Context
	order  []int
	curLen int64
	curSum float64
	fails  int
	kind   int
	live   bool
}

func newOrdered(j *Job, parts []part, bound int64, seed uint64, groupOrder [][]int) *ordered {
	s := &ordered{}
	s.init(bound, maxCoord)
	for i := range s.ws {
		w := &orderedWorker{s: s, p: newPlacer(j, parts), rng: rnd{seed*workers + uint64(i) + 1}, kind: i}
		w.best = maxCoord
		if groupOrder != nil {
			w.p.groupOrder = groupOrder
		}
		s.ws[i] = w
	}
	return s
}

// sorted sets the order by a rule: the seeds first, then area, height, width, half perimeter, each plain or with the parts bound by the
// repeat first.
func (w *orderedWorker) sorted(kind int) {
	ps := w.p.parts
	w.order = w.order[:0]
	if seeds := w.s.seeds; kind < len(seeds) {
		w.order = append(w.order, seeds[kind]...)
		return
	}
	kind -= len(w.s.seeds)
	for i := range ps {
		w.order = append(w.order, i)
	}
	key := func(i int) (bool, float64) {
		l := ps[i].lays[0]
		x, y := float64(l.w), float64(l.h)
		v := x
		switch kind % 4 {
		case 0:
			v = x * y
		case 1:
			v = y
		case 3:
			v = x + y
		}
		return kind/4%2 == 1 && ps[i].match != 0, v
	}
	slices.SortStableFunc(w.order, func(a, b int) int {
		ma, va := key(a)
		mb, vb := key(b)
		switch {
		case ma != mb && ma:
			return -1
		case ma != mb:
			return 1
		case va > vb:
			return -1
		case va < vb:
			return 1
		}
		return 0
	})
}

// start tries the seeds and the sorted orders and keeps the best. It stops once a layout is found and the given work
// is done.
func (s *ordered) start(ctx context.Context, units int64) {
	w := s.ws[0]
	w.p.stopped = func() bool { return w.p.units > patience && ctx.Err() != nil }
	for kind := range 8 + len(s.seeds) {
		if kind > 0 && (ctx.Err() != nil || s.best <= s.bound) {
			break
		}
		w.sorted(kind)
		if w.p.run(w.order, s.best-1) {
			s.best, s.spots = w.p.top, slices.Clone(w.p.spots)
		}
		if w.p.units > units && s.best < maxCoord {
			break
		}
	}
	s.work, w.p.units = w.p.units, 0
}

func (s *ordered) search(ctx context.Context, units int64, report func(done float64)) {
	if len(s.ws[0].p.parts) < 2 {
		return
	}
	ss := make([]searcher[partSpot], len(s.ws))
	for i, w := range s.ws {
		ss[i] = w
	}
	s.run(ctx, ss, units, report)
}

// spent is the work of all workers.
func (s *ordered) spent() int64 {
	n := s.work
	for _, w := range s.ws {
		n += w.p.units
	}
	return n
}

func (w *orderedWorker) ready(ctx context.Context, limit int64) {
	w.limit, w.ctx = limit, ctx
	w.p.stopped = w.stopped
}

func (w *orderedWorker) count(most int64) { w.p.units = min(w.p.units, most) }

func (w *orderedWorker) stopped() bool { return w.ctx.Err() != nil || w.s.solved(w.p.units) }

func (w *orderedWorker) better() {
	w.s.better(&w.known, found[partSpot]{w.p.top, w.p.units, slices.Clone(w.p.spots)})
}

// sum is the sum of the upper sides: of layouts equally long the one with the lower sum is easier to shorten.
func (w *orderedWorker) sum() float64 {
	var t float64
	for i, s := range w.p.spots {
		t += float64(s.y + w.p.parts[i].lays[s.lay].h)
	}
	return t
}

func (w *orderedWorker) work(end int64) {
	p := w.p
	end = min(w.limit, end)
	n := len(p.parts)
	for p.units < end && w.best > w.s.bound && !w.stopped() {
		if !w.live {
			w.sorted(w.kind)
			for range n / 6 * (w.kind / (8 + len(w.s.seeds))) {
				a, b := w.rng.intn(n), w.rng.intn(n)
				w.order[a], w.order[b] = w.order[b], w.order[a]
			}
			w.kind++
			w.curLen, w.curSum = maxCoord, 0
			if p.run(w.order, maxCoord) {
				w.curLen, w.curSum = p.top, w.sum()
				if p.top < w.best {
					w.better()
				}
			}
			w.live, w.fails = true, 0
			continue
		}
		if w.fails++; w.fails > 60*n+400 {
			w.live = false
			continue
		}
		// exchange two, move one, or move a short run
		a, b := w.rng.intn(n), w.rng.intn(n)
		p.units += 8
		if a == b {
			continue
		}
		if a > b {
			a, b = b, a
		}
		old := w.rng.intn(4)
		var undo func()
		switch old {
		case 0, 1:
			w.order[a], w.order[b] = w.order[b], w.order[a]
			undo = func() { w.order[a], w.order[b] = w.order[b], w.order[a] }
		case 2:
			turn(w.order[a:b+1], 1)
			undo = func() { turn(w.order[a:b+1], b-a) }
		default:
			turn(w.order[a:b+1], b-a)
			undo = func() { turn(w.order[a:b+1], 1) }
		}
		if !p.run(w.order, w.curLen) {
			undo()
			continue
		}
		sum := w.sum()
		switch {
		case p.top < w.curLen || p.top == w.curLen && (sum <= w.curSum || w.rng.intn(8) == 0):
			if p.top < w.curLen || sum < w.curSum {
				w.fails = max(0, w.fails-n)
			}
			w.curLen, w.curSum = p.top, sum
			if p.top < w.best {
				w.better()
				w.fails = 0
			}
		default:
			undo()
		}
	}
}

// turn rotates a slice to the left by k.
func turn(a []int, k int) {
	slices.Reverse(a[:k])
	slices.Reverse(a[k:])
	slices.Reverse(a)
}
