package rect

import (
	"context"
	"slices"
	"sync"
	"sync/atomic"

	"github.com/coverwright/coverwright/internal/pack/gate"
)

// ordered is the search for jobs with a repeat, flaws or groups: the placer lays the parts in an order, and the
// order is improved by exchanges.
type ordered struct {
	bound    int64
	seeds    [][]int // orders worth starting from, besides the sorted ones
	best     int64   // maxCoord until a layout is found
	spots    []partSpot
	ws       [workers]*orderedWorker
	gate     gate.Gate
	solvedAt atomic.Int64
	work     int64 // of all workers, in searches that ended
}

type orderedWorker struct {
	s      *ordered
	id     int
	p      *placer
	rng    rnd
	best   int64
	spots  []partSpot
	found  int64
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
	s := &ordered{bound: bound, best: maxCoord}
	s.solvedAt.Store(maxCoord)
	for i := range s.ws {
		w := &orderedWorker{s: s, id: i, p: newPlacer(j, parts), rng: rnd{seed*workers + uint64(i) + 1}, kind: i}
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
	s.work += w.p.units
}

func (s *ordered) search(ctx context.Context, units int64, report func(done float64)) {
	if s.best <= s.bound || len(s.ws[0].p.parts) < 2 {
		return
	}
	for _, w := range s.ws {
		w.limit, w.ctx = units, ctx
		w.p.units, w.p.stopped = 0, w.stopped
	}
	s.solvedAt.Store(maxCoord)
	defer func() {
		for _, w := range s.ws {
			s.work += w.p.units
		}
	}()
	for slice := int64(1 << 20); ; slice = min(slice*2, max(1<<25, units/24)) {
		var wg sync.WaitGroup
		running := false
		for _, w := range s.ws {
			if w.p.units >= w.limit {
				continue
			}
			running = true
			w.best, w.found = s.best, 0
			wg.Go(func() { s.gate.Do(func() { w.work(slice) }) })
		}
		wg.Wait()
		if !running {
			return
		}
		for _, w := range s.ws { // how far a worker got before it saw that another one was done is chance
			w.p.units = min(w.p.units, s.solvedAt.Load())
		}
		win := -1
		for i, w := range s.ws {
			if w.found == 0 || w.best >= s.best {
				continue
			}
			if win < 0 || w.best < s.ws[win].best || w.best == s.ws[win].best && w.found < s.ws[win].found {
				win = i
			}
		}
		if win >= 0 {
			s.best, s.spots = s.ws[win].best, s.ws[win].spots
		}
		if s.best <= s.bound || ctx.Err() != nil {
			return
		}
		if report != nil {
			report(min(1, float64(s.ws[0].p.units)/float64(units)))
		}
	}
}

func (w *orderedWorker) stopped() bool {
	return w.ctx.Err() != nil || w.p.units > w.s.solvedAt.Load()
}

func (w *orderedWorker) better() {
	w.best, w.spots, w.found = w.p.top, slices.Clone(w.p.spots), max(1, w.p.units)
	if w.best > w.s.bound {
		return
	}
	for {
		old := w.s.solvedAt.Load()
		if w.found >= old || w.s.solvedAt.CompareAndSwap(old, w.found) {
			return
		}
	}
}

// sum is the sum of the upper sides: of layouts equally long the one with the lower sum is easier to shorten.
func (w *orderedWorker) sum() float64 {
	var t float64
	for i, s := range w.p.spots {
		t += float64(s.y + w.p.parts[i].lays[s.lay].h)
	}
	return t
}

func (w *orderedWorker) work(units int64) {
	p := w.p
	end := min(w.limit, p.units+units)
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
