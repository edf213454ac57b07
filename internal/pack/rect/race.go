package rect

import (
	"context"
	"math"
	"sync"
	"sync/atomic"

	"github.com/coverwright/coverwright/internal/pack/gate"
)

// workers is the number of searches that run side by side, whatever the machine has: the result depends on it.
const workers = 2

// race runs searches side by side. At fixed amounts of work they are told of the best layout that any of them had by
// then; what one finds later, in a step that it had begun before, is told at the next such amount. So no decision looks at
// the work that is left: a race with less work is the beginning of one with more, and never ends with the shorter layout.
type race[S any] struct {
	bound    int64
	best     int64
	spots    []S
	gate     gate.Gate
	limit    int64        // work that each search may do altogether
	end      int64        // work at which they are told next
	slice    int64        // work from one such amount to the next
	solvedAt atomic.Int64 // least work at which a search reached the bound
}

// found is a layout and the work at which a search had it.
type found[S any] struct {
	length, at int64
	spots      []S
}

// known is what a search knows: the least length, its own or one it was told of, and its layouts of which the others were
// not told, each shorter than the one before.
type known[S any] struct {
	best  int64
	finds []found[S]
}

func (k *known[S]) knows() *known[S] { return k }

// searcher is one search of a race.
type searcher[S any] interface {
	knows() *known[S]
	// ready sets the context and the most work for what follows.
	ready(ctx context.Context, limit int64)
	// work goes on until about the given work altogether.
	work(end int64)
	// count takes work beyond the given amount as not done.
	count(most int64)
}

func (r *race[S]) init(bound, worst int64) {
	r.bound, r.best = bound, worst
	r.slice = 1 << 19
	r.end = r.slice
	r.solvedAt.Store(math.MaxInt64)
}

// run works until every search has done the given units more, the bound is reached, or the context ends.
func (r *race[S]) run(ctx context.Context, ss []searcher[S], units int64, report func(done float64)) {
	if r.best <= r.bound {
		return
	}
	from := r.limit
	r.limit += units
	for _, s := range ss {
		s.ready(ctx, r.limit)
	}
	for {
		end := min(r.end, r.limit)
		var wg sync.WaitGroup
		for _, s := range ss {
			k := s.knows()
			k.best = min(k.best, r.best)
			wg.Go(func() { r.gate.Do(func() { s.work(end) }) })
		}
		wg.Wait()
		for _, s := range ss { // how far a search got before it saw that another one was done is chance
			s.count(r.solvedAt.Load())
		}
		if end == r.limit || ctx.Err() != nil { // nothing follows
			r.tell(ss, math.MaxInt64)
		} else {
			r.tell(ss, end)
		}
		if r.best <= r.bound || ctx.Err() != nil {
			return
		}
		if report != nil {
			report(float64(end-from) / float64(units))
		}
		if end == r.limit {
			return
		}
		r.slice = min(r.slice*2, max(1<<25, end/16))
		r.end += r.slice
	}
}

// tell takes over the best layout that a search had by the given work, among equals the one that took less.
func (r *race[S]) tell(ss []searcher[S], end int64) {
	var win found[S]
	for _, s := range ss {
		k := s.knows()
		for i := len(k.finds) - 1; i >= 0; i-- {
			f := k.finds[i]
			if f.at > end {
				continue
			}
			if f.length < r.best && (win.spots == nil || f.length < win.length || f.length == win.length && f.at < win.at) {
				win = f
			}
			k.finds = append(k.finds[:0], k.finds[i+1:]...)
			break
		}
	}
	if win.spots != nil {
		r.best, r.spots = win.length, win.spots
	}
}

// better notes a layout of a search, shorter than all it knew.
func (r *race[S]) better(k *known[S], f found[S]) {
	k.best, k.finds = f.length, append(k.finds, f)
	if f.length > r.bound {
		return
	}
	for {
		old := r.solvedAt.Load()
		if f.at >= old || r.solvedAt.CompareAndSwap(old, f.at) {
			return
		}
	}
}

// solved reports whether work beyond the given amount is pointless: a search reached the bound with less.
func (r *race[S]) solved(at int64) bool { return at > r.solvedAt.Load() }
