package rect

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// A job of few large boxes among many small ones is laid from coarse to fine: the search lays the large boxes alone, which
// is a small job, and every better layout of them has its holes filled with the small boxes. A box after another
// from below, as the other searches lay them, leaves the large ones where the small ones happen to end.

// coarse is the search of one worker for layouts from coarse to fine.
type coarse struct {
	w            *plainWorker
	large, small []int32 // boxes, large ones first
	sub          *plainWorker
	f            *filler
	laid         []spot // the best layout of the large boxes
	spots        []spot // of all boxes
	filled       int64  // height of the last layout of the large boxes whose holes were filled
	units        int64  // of sub and f
	refilled     int64  // those of f
	gained       int64  // units at the last gain
}

// hole is a free rectangle of a layout.
type hole struct{ x, y, w, h int64 }

// Large boxes have at least a share of the area, and are at most one box of a few. A job of fewer boxes is searched as it is.
const (
	coarseArea = 0.7
	coarsePart = 4
	coarseFrom = 80
)

// split divides boxes into large and small ones where their areas differ most. It reports false if too many would be large.
func split(boxes []box) (large, small []int32, ok bool) {
	order := make([]int32, len(boxes))
	area := make([]float64, len(boxes))
	total := 0.0
	for i, b := range boxes {
		order[i], area[i] = int32(i), float64(float64(b.w)*float64(b.h))
		total += area[i]
	}
	slices.SortStableFunc(order, func(a, b int32) int { return cmp.Compare(area[b], area[a]) })
	sum, most, at := 0.0, 0.0, 0
	for k := 1; k <= len(boxes)/coarsePart; k++ {
		sum += area[order[k-1]]
		if step := area[order[k-1]] / area[order[k]]; sum >= float64(coarseArea*total) && step > most {
			most, at = step, k
		}
	}
	if at < 2 || len(boxes) < coarseFrom {
		return nil, nil, false
	}
	return order[:at], order[at:], true
}

// newCoarse prepares the search; nil if the boxes are of one scale.
func newCoarse(ctx context.Context, w *plainWorker) *coarse {
	large, small, ok := split(w.p.boxes)
	if !ok {
		return nil
	}
	c := &coarse{w: w, large: large, small: small, filled: math.MaxInt64, spots: make([]spot, len(w.p.boxes))}
	pick := func(ids []int32) []box {
		out := make([]box, len(ids))
		for k, i := range ids {
			out[k] = w.p.boxes[i]
		}
		return out
	}
	p := newPlain(w.p.width, w.p.bound, pick(large), w.rng.next())
	p.start(ctx)
	c.sub = p.ws[w.id]
	c.sub.best, c.laid = p.best, p.spots
	c.f = newFiller(w.p.width, pick(small))
	return c
}

// due reports whether it is the turn of this search. It has four fifths of the work as long as it gains by it, and a
// ninth otherwise.
func (c *coarse) due() bool {
	others := c.w.did[0] + c.w.did[1]
	if c.sub.best <= c.w.best && c.units-c.gained < max(1<<27, 2*c.gained) {
		return c.units/4 <= others
	}
	return c.units*8 <= others
}

// work searches for about the given units, and for most at the utmost.
func (c *coarse) work(units, most int64) {
	sub := c.sub
	sub.ctx, sub.limit = c.w.ctx, sub.units+most
	before := sub.units
	if sub.best > c.w.p.bound {
		sub.work(sub.units + units)
		c.units += sub.units - before
		if n := len(sub.finds); n > 0 {
			c.laid, sub.finds = sub.finds[n-1].spots, nil
		}
	}
	if sub.best < c.w.best && c.refilled*3 < c.units {
		if sub.best < c.filled {
			c.filled, c.gained = sub.best, c.units
		}
		c.fill()
		c.f.units /= 2 // many boxes at a time go faster
		c.refilled += c.f.units
		c.units += c.f.units
		c.f.units = 0
	}
	c.units += 1000
}

// fill lays the small boxes into the holes of the large ones, a few times in other orders, and below a higher limit
// where they find no room.
func (c *coarse) fill() {
	w := c.w
	low, high := max(c.sub.best, w.p.bound), w.best
	for try := range 12 {
		if low >= high || w.stopped() || w.now() >= w.limit {
			return
		}
		limit := low
		if try >= 3 {
			limit = low + (high-low)/2
		}
		if top := c.under(limit); top < w.best {
			w.better(top, slices.Clone(c.spots))
			c.gained = c.units
			high = top
		} else if try >= 3 {
			low = limit + 1
		}
	}
}

// under fills the holes below a limit; what finds no room there is laid above it. It returns the height
// reached, or maxCoord when it was stopped.
func (c *coarse) under(limit int64) int64 {
	f, w := c.f, c.w
	l := localSearch{f: f}
	l.order(w.rng.intn(4))
	f.table = scorings[w.rng.intn(len(scorings))]
	f.alive = f.alive[:0]
	for _, e := range f.byWidth {
		e.prio = f.prio[e.box]
		f.alive = append(f.alive, e)
	}
	holes := c.holes(limit)
	if w.rng.intn(2) == 0 {
		slices.SortStableFunc(holes, func(a, b hole) int { return cmp.Compare(min(a.w, a.h), min(b.w, b.h)) })
	}
	var top int64
	for k, i := range c.large {
		s := c.laid[k]
		c.spots[i] = s
		top = max(top, s.y+c.boxHeight(i, s))
	}
	for _, h := range append(holes, hole{0, limit, w.p.width, maxCoord}) {
		f.sky, f.limit, f.steps = append(f.sky[:0], seg{0, 0, h.w}), h.h, f.steps[:0]
		f.decode(0, math.Inf(1))
		for _, s := range f.steps {
			if s.box >= 0 {
				c.spots[c.small[s.box]] = spot{h.x + s.px, h.y + s.y, s.turned}
				top = max(top, h.y+s.y+s.ph)
			}
		}
		if len(f.alive) == 0 {
			return top
		}
	}
	return maxCoord // stopped
}

func (c *coarse) boxHeight(i int32, s spot) int64 {
	b := &c.w.p.boxes[i]
	if s.turned {
		return b.w
	}
	return b.h
}

// holes divides the free ground below a limit into rectangles, the largest one first.
func (c *coarse) holes(limit int64) []hole {
	free := []hole{{0, 0, c.w.p.width, limit}}
	for k, i := range c.large {
		if c.w.stopped() {
			return nil
		}
		b, s := c.w.p.boxes[i], c.laid[k]
		if s.turned {
			b.w, b.h = b.h, b.w
		}
		free = c.without(free, hole{s.x, s.y, b.w, b.h})
	}
	least := int64(math.MaxInt64)
	for _, e := range c.f.byWidth {
		least = min(least, e.w, e.h)
	}
	var out []hole
	for len(free) > 0 && !c.w.stopped() {
		best := 0
		for k, h := range free {
			if float64(h.w)*float64(h.h) > float64(free[best].w)*float64(free[best].h) {
				best = k
			}
		}
		h := free[best]
		if h.w < least || h.h < least {
			free = slices.Delete(free, best, best+1)
			continue
		}
		out = append(out, h)
		free = c.without(free, h)
	}
	return out
}

// without takes a rectangle out of free ground, which is given by all its greatest rectangles.
func (c *coarse) without(free []hole, b hole) []hole {
	var cut []hole
	keep := free[:0]
	for _, h := range free {
		if b.x >= h.x+h.w || h.x >= b.x+b.w || b.y >= h.y+h.h || h.y >= b.y+b.h {
			keep = append(keep, h)
			continue
		}
		for _, q := range []hole{
			{h.x, h.y, b.x - h.x, h.h}, {b.x + b.w, h.y, h.x + h.w - b.x - b.w, h.h},
			{h.x, h.y, h.w, b.y - h.y}, {h.x, b.y + b.h, h.w, h.y + h.h - b.y - b.h},
		} {
			if q.w > 0 && q.h > 0 {
				cut = append(cut, q)
			}
		}
	}
	c.f.units += int64(4*len(free) + 8*len(cut)*len(cut))
	inside := func(a, b hole) bool {
		return a.x >= b.x && a.y >= b.y && a.x+a.w <= b.x+b.w && a.y+a.h <= b.y+b.h
	}
	whole := len(keep)
	for i, q := range cut {
		if slices.ContainsFunc(keep[:whole], func(h hole) bool { return inside(q, h) }) {
			continue
		}
		within := false
		for k, h := range cut {
			within = within || k != i && inside(q, h) && (q != h || k < i)
		}
		if !within {
			keep = append(keep, q)
		}
	}
	c.f.units += int64(4 * len(cut) * whole)
	return keep
}
