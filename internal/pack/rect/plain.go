package rect

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// plain is the search for jobs without repeat, flaws or groups: boxes on a strip.
type plain struct {
	race[spot]
	width int64
	boxes []box
	fine  bool // sizes are so fine that equal sides are hardly chance
	ws    [workers]*plainWorker
}

// plainWorker alternates between exchanges of priorities (local) and beams (rounds), each with its share of work.
type plainWorker struct {
	known[spot]
	p       *plain
	id      int
	rng     rnd
	units   int64
	limit   int64 // work it may do altogether
	ctx     context.Context
	local   localSearch
	bm      *beam
	size    int  // of the next beam
	round   int  // beams at this size
	full    bool // one of them had to drop partial layouts
	step    int64
	use     tried   // the guide in use
	tried   []tried // those used at this size
	good    []tried // the best of the size before
	share   float64 // share of work for the exchanges
	did     [2]int64
	coarse  *coarse // nil if the boxes are of one scale
	puzzled int64   // part of did[1] spent on clusters
}

func newPlain(width, bound int64, boxes []box, seed uint64) *plain {
	p := &plain{width: width, boxes: boxes}
	p.init(bound, math.MaxInt64)
	p.fine = fineSizes(width, boxes)
	for i := range p.ws {
		w := &plainWorker{p: p, id: i, rng: rnd{seed*workers + uint64(i) + 1}, size: firstSize(len(boxes)), share: localShare(len(boxes))}
		for range 4 {
			w.rng.next()
		}
		w.bm = newBeam(width, boxes, w.rng.next())
		w.local.init(width, boxes, w.rng.next(), i)
		w.best = math.MaxInt64
		p.ws[i] = w
	}
	return p
}

// scale prepares the search from coarse to fine.
func (p *plain) scale(ctx context.Context) {
	for _, w := range p.ws {
		w.coarse = newCoarse(ctx, w)
	}
}

// fineSizes reports whether the sizes are so fine that few of n boxes would share a side by chance.
func fineSizes(width int64, boxes []box) bool {
	g := width
	for _, b := range boxes {
		g = gcd(g, gcd(b.w, b.h))
	}
	n := int64(len(boxes))
	return width/g/20 > n*n
}

// firstSize is the size of the first beams: one of size 1 takes about four n squared units.
func firstSize(n int) int { return max(1, min(8, 1<<25/(4*n*n+1))) }

// localShare is the share of work spent on exchanges: they are strong for few boxes, the beam for many.
func localShare(n int) float64 {
	switch {
	case n <= 32:
		return 0.6
	case n <= 64:
		return 0.4
	case n <= 128:
		return 0.2
	}
	return 0.08
}

// patience is the work on first layouts that is done even when the context has ended: some hundredths of a second.
const patience = 1 << 24

// start lays the boxes by decreasing area, width, height and half perimeter and keeps the best. When the context ends
// during the first of them, the boxes left are laid in rows. It gives the work done, which counts for no effort.
func (p *plain) start(ctx context.Context) (work int64) {
	l := &p.ws[0].local
	f := l.f
	f.limit = totalHeight(p.boxes)
	f.stopped = func() bool { return f.units > patience && ctx.Err() != nil }
	kinds := 4
	if len(p.boxes) > 5000 {
		kinds = 1
	}
	for kind := range kinds {
		l.order(kind)
		_, all := f.run(0, math.Inf(1))
		if !all && p.spots != nil {
			break
		}
		f.rows()
		if h := f.height(); h < p.best {
			p.best, p.spots = h, f.spots()
		}
	}
	work, f.units = f.units, 0
	return work
}

// totalHeight is enough height for any layout.
func totalHeight(boxes []box) int64 {
	var t int64
	for _, b := range boxes {
		h := b.h
		if b.turn {
			h = max(h, b.w)
		}
		t += h
	}
	return t
}

// search works until every worker has done the given units more, the bound is reached, or the context ends.
func (p *plain) search(ctx context.Context, units int64, report func(done float64)) {
	ss := make([]searcher[spot], len(p.ws))
	for i, w := range p.ws {
		ss[i] = w
	}
	p.run(ctx, ss, units, report)
}

func (w *plainWorker) ready(ctx context.Context, limit int64) {
	w.limit, w.ctx = limit, ctx
	w.local.f.stopped = w.stopped
	if w.coarse != nil {
		w.coarse.f.stopped = w.stopped
	}
}

func (w *plainWorker) count(most int64) { w.units = min(w.units, most) }

// stopped reports whether the work is pointless: cancelled, or another worker reached the bound with less work.
func (w *plainWorker) stopped() bool {
	return w.ctx.Err() != nil || w.p.solved(w.now())
}

func (w *plainWorker) now() int64 {
	n := w.did[0] + w.did[1] + w.local.f.units + w.bm.units
	if c := w.coarse; c != nil {
		n += c.units + c.f.units
	}
	return n
}

// better records a layout.
func (w *plainWorker) better(h int64, spots []spot) {
	w.p.better(&w.known, found[spot]{h, w.now(), spots})
}

// minStep is the least shortening worth trying: 0.005 percent, at least one unit.
func (w *plainWorker) minStep() int64 { return max(1, w.p.bound/20000) }

// work goes on until about the given units altogether, switching between the two methods by their shares.
func (w *plainWorker) work(end int64) {
	end = min(w.limit, end)
	for w.units < end && w.best > w.p.bound && !w.stopped() {
		left := w.limit - w.units
		if c := w.coarse; c != nil && c.due() {
			c.work(min(left, max(1<<18, c.units/16)), left)
		} else if float64(w.did[0]) <= w.share*float64(w.did[0]+w.did[1]) {
			f := w.local.f
			f.units = 0
			w.exchanges(min(left, max(1<<18, (w.did[0]+w.did[1])/16)))
			d := f.units
			f.units = 0
			w.did[0] += d + 1
		} else {
			w.bm.units = 0
			share := puzzleCoarse
			if w.p.fine {
				share = puzzleFine
			}
			if float64(w.puzzled) <= float64(share*float64(w.did[1])) {
				w.puzzle(left)
				w.puzzled += w.bm.units
			} else {
				w.beams(left)
			}
			d := w.bm.units
			w.bm.units = 0
			w.did[1] += d + 1
		}
		w.units = w.now()
	}
}

// beams runs one beam.
func (w *plainWorker) beams(left int64) {
	w.bm.units += int64(1000 + 40*len(w.p.boxes)) // so that beams which end at once cost something too
	gap := w.best - w.p.bound
	if w.step == 0 { // a new guide
		if w.round < len(w.good) {
			w.use = w.good[w.round]
		} else {
			w.use = tried{guide: w.randomGuide(), across: w.rng.intn(2) == 0}
		}
		w.step = gap
	}
	least := max(w.minStep(), gap/16)
	w.step = max(least, min(w.step, (gap+1)/2))
	h := max(w.p.bound, w.best-w.step)
	var spots []spot
	var ok bool
	if w.use.across {
		tb := make([]box, len(w.p.boxes))
		for i, b := range w.p.boxes {
			tb[i] = box{b.h, b.w, b.turn}
		}
		bm := newBeam(h, tb, w.rng.next())
		w.bm.units += int64(200 * len(tb))
		spots, ok = bm.search(w.p.width, w.size, w.use.guide, left, w.stopped)
		w.bm.units += bm.units
		w.bm.full, w.bm.depth = bm.full, bm.depth
		for i := range spots {
			spots[i].x, spots[i].y = spots[i].y, spots[i].x
		}
	} else {
		spots, ok = w.bm.search(h, w.size, w.use.guide, left, w.stopped)
	}
	if ok {
		w.better(heightOf(w.p.boxes, spots), spots)
		return
	}
	w.full = w.full || w.bm.full
	if w.step > least {
		w.step = max(least, w.step/2)
		return
	}
	w.step = 0
	w.use.depth = w.bm.depth
	w.tried = append(w.tried, w.use)
	if w.round++; w.round >= beamsPerSize {
		w.round = 0
		slices.SortStableFunc(w.tried, func(a, b tried) int { return b.depth - a.depth })
		w.good = append(w.good[:0], w.tried[:beamsKept]...)
		w.tried = w.tried[:0]
		if w.full && w.size*2*len(w.p.boxes) <= 4<<20 {
			w.size *= 2
			w.full = false
		}
	}
}

func (w *plainWorker) randomGuide() guide {
	pick := func(a ...float64) float64 { return a[w.rng.intn(len(a))] }
	return guide{
		waste: pick(1, 2, 3, 5), segs: pick(0.03, 0.1, 0.2, 0.4), power: pick(0.5, 0.75, 1),
		tall: pick(0, 0.1, 0.3, 1), noise: pick(0, 0, 0.2), slot: pick(0, 0.3),
	}
}

// tried is a guide, whether the strip is seen from the side, and how many boxes a beam laid by it before it failed.
type tried struct {
	guide  guide
	across bool
	depth  int
}

// beamsPerSize is the number of guides tried before the beam doubles, and beamsKept that of those tried again then.
const (
	beamsPerSize = 10
	beamsKept    = 4
)

func heightOf(boxes []box, spots []spot) int64 {
	var top int64
	for i, s := range spots {
		h := boxes[i].h
		if s.turned {
			h = boxes[i].w
		}
		top = max(top, s.y+h)
	}
	return top
}

// localSearch exchanges priorities of the decoder to get everything under a limit.
type localSearch struct {
	f     *filler
	rng   rnd
	cur   []step
	waste float64
	fails int
	kind  int
	live  bool
}

var scorings = []scoring{
	{8, 7, 6, 5, 4, 3, 3, 2, 1},
	{8, 6, 7, 4, 4, 5, 3, 3, 1},
	{8, 7, 7, 5, 5, 3, 2, 3, 1},
	{8, 7, 6, 4, 3, 5, 2, 2, 1},
}

func (l *localSearch) init(width int64, boxes []box, seed uint64, id int) {
	l.f, l.rng, l.kind = newFiller(width, boxes), rnd{seed}, id
	l.f.table = scorings[0]
}

// order sets the priorities by a sorting rule.
func (l *localSearch) order(kind int) {
	bs := l.f.boxes
	idx := make([]int, len(bs))
	for i := range idx {
		idx[i] = i
	}
	slices.SortStableFunc(idx, func(i, j int) int {
		a, b := bs[i], bs[j]
		aw, ah, bw, bh := a.w, a.h, b.w, b.h
		if a.turn && aw < ah {
			aw, ah = ah, aw
		}
		if b.turn && bw < bh {
			bw, bh = bh, bw
		}
		x, y := float64(aw), float64(bw)
		switch kind % 4 {
		case 0:
			x, y = float64(x*float64(ah)), float64(y*float64(bh))
		case 2:
			x, y = float64(ah), float64(bh)
		case 3:
			x, y = float64(aw+ah), float64(bw+bh)
		}
		return cmp.Compare(y, x)
	})
	for r, i := range idx {
		l.f.prio[i] = int64(len(bs)-r) << 20
	}
}

// exchanges runs the local search for the given units.
func (w *plainWorker) exchanges(units int64) {
	l := &w.local
	f := l.f
	if len(f.boxes) < 2 {
		f.units += units
		return
	}
	for it := 0; f.units < units; it++ {
		if it&63 == 0 && w.stopped() {
			return
		}
		if !l.live {
			l.restart(w.id)
		}
		if l.decode(max(w.best-w.minStep(), w.p.bound)) || l.exchange() {
			w.better(f.height(), f.spots())
			if w.best <= w.p.bound {
				return
			}
		}
	}
}

// restart orders the boxes by the next rule.
func (l *localSearch) restart(id int) {
	f, n := l.f, len(l.f.boxes)
	l.order(l.kind)
	f.table = scorings[(l.kind/8+id)%len(scorings)]
	for range n / 8 * (l.kind / 4) {
		a, b := l.rng.intn(n), l.rng.intn(n)
		f.prio[a], f.prio[b] = f.prio[b], f.prio[a]
	}
	l.kind++
	l.live, l.fails = true, 0
	f.limit = 0
}

// decode lays the boxes anew if the limit is a new one; it reports whether all found room under it.
func (l *localSearch) decode(limit int64) bool {
	f := l.f
	if f.limit == limit {
		return false
	}
	f.limit = limit
	var all bool
	if l.waste, all = f.run(0, math.Inf(1)); all {
		return true
	}
	l.cur = append(l.cur[:0], f.steps...)
	l.fails = 0
	return false
}

// exchange exchanges two priorities and keeps that if no more is wasted; it reports whether all boxes found room.
func (l *localSearch) exchange() bool {
	f := l.f
	n := len(f.boxes)
	if l.fails++; l.fails > 300*n {
		l.live = false
		return false
	}
	a, b := int32(l.rng.intn(n)), int32(l.rng.intn(n))
	if f.prio[a] < f.prio[b] {
		a, b = b, a
	}
	f.units += 4
	if a == b || f.boxes[a] == f.boxes[b] {
		return false
	}
	pa, pb := f.prio[a], f.prio[b]
	first := len(l.cur) // the first step that lays a or b
	for i := range l.cur {
		if id := l.cur[i].box; id == a || id == b {
			first = i
			break
		}
	}
	f.units += int64(first)
	keep := f.firstChange(l.cur, b, pa, first)
	f.prio[a], f.prio[b] = pb, pa
	if keep == len(l.cur) {
		return false
	}
	f.steps = append(f.steps[:0], l.cur[:keep]...)
	waste, all := f.run(keep, l.waste)
	switch {
	case all:
		return true
	case waste <= l.waste:
		if waste < l.waste {
			l.fails = 0
		}
		l.waste = waste
		l.cur = append(l.cur[:0], f.steps...)
	default:
		f.prio[a], f.prio[b] = pa, pb
	}
	return false
}

// Shares of the work on beams that go to clusters.
const (
	puzzleFine   = 0.15
	puzzleCoarse = 0.05
)
