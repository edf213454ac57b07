package nest

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"sync"

	"github.com/coverwright/coverwright/internal/pack/gate"
)

// HideJob asks for the pieces on as few hides as possible, then on as
// little area (or cost) as possible, then with the waste in one place.
type HideJob struct {
	Hides  []Hide
	Pieces []Piece
	Options
	// Baseline stops after the raster first-fit, the yardstick.
	Baseline bool
}

// HideLayout is a checked layout on hides.
type HideLayout struct {
	Used       []int // indices of the hides in use, ascending
	Placements []Placement
	Unplaced   []Placement // pieces without a place: only Piece and Copy are set
	Least      int         // fewer hides cannot do
	LeastWhy   string      // which bound says so
	NetArea2   int64       // twice the net area (outline less holes) of the hides in use
	Area2      int64       // twice the area of the pieces placed
	Work       int64
	Stopped    bool
}

// Utilisation is the area of the pieces over the net area of the hides in
// use.
func (l HideLayout) Utilisation() float64 {
	if l.NetArea2 == 0 {
		return 0
	}
	return float64(l.Area2) / float64(l.NetArea2)
}

type hideRun struct {
	ctx     context.Context
	opt     Options
	gate    gate.Gate
	pieces  []Piece
	hides   []Hide
	grounds []*ground
	bodies  []*body
	items   []int
	copyOf  []int
	ws      []*turnSep
	cost    []int64
	budget  int64 // work that the stage is planned for
	most    int64 // of which it may use so much
	chunk   int64
	plan    stage
	wants   []need
	best    []pose
	used    []int
	near    []unsolved // by the number of hides
	cut     bool       // the work of the stage is used up to less than a chunk
	strip   bool       // one ground, to be shortened
}

// unsolved is a choice of hides that do not hold all pieces yet, and the least
// overlapping state met on them: what later hunts, also those of later stages, go on
// from.
type unsolved struct {
	on   []int
	at   []pose
	loss float64
}

// Hides lays the pieces on hides. Every returned layout has been checked by
// package verify. The same job gives the same bytes on every machine,
// unless ctx ends first: then the best layout so far is returned with
// Stopped set.
func Hides(ctx context.Context, job HideJob) (HideLayout, error) {
	r, err := newHideRun(ctx, job)
	if err != nil {
		return HideLayout{}, err
	}
	out := HideLayout{}
	tell := r.opt.Progress
	for st := range stages(r.opt.Effort) {
		r.opt.Progress = tell
		r.opt.Progress = st.tell(r.opt, turnUnit, 0)
		if !r.begin(st) {
			break
		}
		out.raise(r.least())
		if st.number == 0 {
			r.first(job.Baseline)
		}
		if !job.Baseline {
			r.improve(out.Least)
		}
		for _, w := range r.ws {
			out.Work += w.work
		}
		if job.Baseline || ctx.Err() != nil {
			break
		}
	}
	r.fillOut(&out)
	out.Stopped = ctx.Err() != nil
	if err := refereed(r.pieces, r.hides, r.opt.Gap, len(out.Unplaced) == 0, out.Placements); err != nil {
		return HideLayout{}, fmt.Errorf("nest: own layout refused, please report: %w", err)
	}
	return out, nil
}

func newHideRun(ctx context.Context, job HideJob) (*hideRun, error) {
	opt, err := job.Options.checked()
	if err != nil {
		return nil, err
	}
	if len(job.Hides) == 0 {
		return nil, &InputError{"hides", "0", "want at least one", ErrEmpty}
	}
	pieces, err := checkedPieces(job.Pieces)
	if err != nil {
		return nil, err
	}
	for i, p := range pieces {
		if p.PhaseX.Every > 0 || p.PhaseY.Every > 0 {
			return nil, &InputError{fmt.Sprintf("piece %d (%s): phase", i, p.ID), fmt.Sprint(p.PhaseX, p.PhaseY), "a repeat needs a strip", ErrRange}
		}
	}
	r := &hideRun{ctx: ctx, opt: opt, gate: gate.New(opt.AtOnce), pieces: pieces}
	classes := []Kinds{}
	for pi := range pieces {
		b := newBody(pi, &pieces[pi])
		b.class = slices.Index(classes, pieces[pi].Takes)
		if b.class < 0 {
			b.class = len(classes)
			classes = append(classes, pieces[pi].Takes)
		}
		r.bodies = append(r.bodies, b)
		for c := range pieces[pi].Count {
			r.items = append(r.items, len(r.bodies)-1)
			r.copyOf = append(r.copyOf, c)
		}
	}
	anyCost := false
	for i, h := range job.Hides {
		name := fmt.Sprintf("hide %d (%s)", i, h.ID)
		g := &ground{hide: i, kinds: classes}
		if g.outer, err = checkedRing(name+": outer", h.Outer); err != nil {
			return nil, err
		}
		g.box = g.outer.Bounds()
		g.net2 = twiceArea(g.outer)
		for k, hole := range h.Holes {
			ring, err := checkedRing(fmt.Sprintf("%s: hole %d", name, k), hole)
			if err != nil {
				return nil, err
			}
			g.holes = append(g.holes, ring)
			g.net2 -= twiceArea(ring)
		}
		for k, z := range h.Zones {
			ring, err := checkedRing(fmt.Sprintf("%s: zone %d", name, k), z.Ring)
			if err != nil {
				return nil, err
			}
			if z.Kind < 0 || z.Kind >= MostKinds {
				return nil, &InputError{fmt.Sprintf("%s: zone %d: kind", name, k), fmt.Sprint(z.Kind), fmt.Sprintf("want 0 .. %d", MostKinds-1), ErrRange}
			}
			g.zones = append(g.zones, Zone{z.Kind, ring})
		}
		if g.net2 <= 0 {
			return nil, &InputError{name, fmt.Sprint(g.net2), "the holes leave no area", ErrRing}
		}
		if h.Cost < 0 {
			return nil, &InputError{name + ": cost", fmt.Sprint(h.Cost), "want 0 or more", ErrRange}
		}
		anyCost = anyCost || h.Cost > 0
		g.again = i > 0 && g.like(r.grounds[i-1]) // usual hides follow each other
		r.grounds = append(r.grounds, g)
		r.hides = append(r.hides, Hide{ID: h.ID, Outer: g.outer, Holes: g.holes, Zones: g.zones, Cost: h.Cost})
	}
	for i, g := range r.grounds {
		if anyCost {
			r.cost = append(r.cost, job.Hides[i].Cost)
		} else {
			r.cost = append(r.cost, g.net2)
		}
	}
	for range r.items {
		r.best = append(r.best, pose{g: -1})
	}
	r.near = make([]unsolved, len(r.grounds)+1)
	return r, nil
}

// begin makes ready for a stage: the maps, as fine as its work pays for, and the
// searches. It returns false if the context ends before that.
func (r *hideRun) begin(st stage) bool {
	r.plan, r.budget, r.most = st, int64(st.plan)*turnUnit, int64(st.most)*turnUnit
	r.chunk, r.cut, r.ws = r.budget/80+1, false, nil
	n := int64(r.opt.Workers)
	r.layMaps(r.budget * n / 8)
	steps := make([]int64, len(r.bodies))
	most := int(min(max(math.Sqrt(float64(r.budget*n/8)/float64(bodyNodeWork*len(r.bodies))), 80), 400))
	var wg sync.WaitGroup
	for k := range r.opt.Workers {
		wg.Go(func() {
			r.gate.Do(func() {
				for i := k; i < len(r.bodies); i += r.opt.Workers {
					b := r.bodies[i]
					if nodes := min(b.fineness(), most); finer(nodes, b.nodes) && r.ctx.Err() == nil {
						b.nodes = nodes
						steps[i] = b.prepare(nodes)
					}
				}
			})
		})
	}
	wg.Wait()
	if r.ctx.Err() != nil {
		return false
	}
	var sum int64
	for _, s := range steps {
		sum += s
	}
	r.wants = r.needs()
	for k := range r.opt.Workers {
		w := newTurnSep(r.bodies, r.items, r.grounds, r.opt.Gap, newRNG(st.seeded(r.opt.Seed), uint64(k)))
		w.ctx, w.payers, w.work, w.most = r.ctx, n, sum/n, r.most
		w.load(r.best)
		r.ws = append(r.ws, w)
	}
	return true
}

// finer tells whether a map of so many nodes is worth drawing where there is one.
func finer(nodes, old int) bool { return 3*nodes >= 4*old && nodes > old }

// mostLandBytes bounds the memory of the maps of all grounds together.
const mostLandBytes = 64 << 20

// layMaps says how fine the maps of the grounds are, for an amount of work. They are
// drawn when they are first asked for, once for grounds that follow each other and
// are alike.
func (r *hideRun) layMaps(work int64) {
	lands := 0
	for _, g := range r.grounds {
		if !g.again {
			lands += len(g.kinds)
		}
	}
	nodes := int(min(max(math.Sqrt(float64(work)/float64(nodeWork*lands)), 160), math.Sqrt(mostLandBytes/4/float64(lands)), 360))
	if !finer(nodes, r.grounds[0].nodes) {
		return
	}
	for i, g := range r.grounds {
		g.nodes, g.lands, g.once = nodes, make([]*land, len(g.kinds)), make([]sync.Once, len(g.kinds))
		if g.again {
			g.lands, g.once = r.grounds[i-1].lands, r.grounds[i-1].once
		}
	}
}

// raise takes over a better bound.
func (l *HideLayout) raise(least int, why string) {
	if least > l.Least {
		l.Least, l.LeastWhy = least, why
	}
}

// turnUnit is the work of one unit of effort where pieces turn freely: a step costs
// more than one of the pair tables.
const turnUnit = 400_000

// bySize lists the hides, largest net area first.
func (r *hideRun) bySize() []int {
	out := make([]int, len(r.grounds))
	for i := range out {
		out[i] = i
	}
	slices.SortFunc(out, func(a, b int) int {
		if c := cmp.Compare(r.grounds[b].net2, r.grounds[a].net2); c != 0 {
			return c
		}
		return a - b
	})
	return out
}

// first fills the hides by raster first-fit.
func (r *hideRun) first(fine bool) {
	w := r.ws[0]
	cells, turns := 180, 8
	if fine {
		cells, turns = 400, 8
	}
	newRasterFit(r.ctx, w, cells, turns).fill(r.bySize())
	r.keep(w)
	for _, o := range r.ws[1:] {
		o.load(r.best)
	}
}

// keep takes over a layout without overlap.
func (r *hideRun) keep(w *turnSep) {
	r.best = w.save()
	r.used = usedOf(r.best)
	clear(r.near[min(len(r.used)+1, len(r.near)):])
}

func usedOf(p []pose) []int {
	var used []int
	for _, q := range p {
		if q.g >= 0 && !slices.Contains(used, q.g) {
			used = append(used, q.g)
		}
	}
	slices.Sort(used)
	return used
}

func (r *hideRun) work() int64 {
	var m int64
	for _, w := range r.ws {
		m = max(m, w.work)
	}
	return m
}

func (r *hideRun) report() {
	if r.opt.Progress == nil {
		return
	}
	placed := 0
	for _, p := range r.best {
		if p.g >= 0 {
			placed++
		}
	}
	r.opt.Progress(Progress{Work: min(r.work(), r.most) * int64(len(r.ws)), Budget: r.most * int64(len(r.ws)), Hides: len(r.used), Placed: placed})
}

// hunt runs one search per worker from the state start leaves it in, chunk
// by chunk, until one succeeds or the work reaches until. The first
// success becomes the best layout, of several the better. A chunk that the effort does
// not pay for is not begun, so that more effort goes on from what less would give.
func (r *hideRun) hunt(until int64, start func(k int, w *turnSep) bool) bool {
	seps, size := make([]*separation, len(r.ws)), hideSize
	if r.strip {
		size = rollSize
	}
	started := false
	for k, w := range r.ws {
		if start(k, w) {
			seps[k] = w.begin()
			started = true
		}
	}
	if !started {
		return false
	}
	stop := func() bool { return r.ctx.Err() != nil }
	level := r.work()
	for _, w := range r.ws {
		w.work = level
	}
	for chunks := 1; level < until && !stop(); chunks++ {
		next := min(level+r.chunk, until)
		if r.cut = next > r.most; r.cut {
			return false
		}
		done := make([]bool, len(r.ws))
		var wg sync.WaitGroup
		for k, sp := range seps {
			if sp == nil {
				continue
			}
			wg.Go(func() {
				r.gate.Do(func() { done[k] = sp.run(next, 60, size, stop, func() { r.shake(sp.turnSep) }) })
			})
		}
		wg.Wait()
		level = r.work()
		win := -1
		for k := range seps {
			if done[k] && (win < 0 || r.better(r.ws[k].at, r.ws[win].at)) {
				win = k
			}
		}
		if win >= 0 {
			r.keep(r.ws[win])
			r.report()
			return true
		}
		if chunks&(chunks-1) == 0 || level >= until || stop() {
			r.prune(seps)
		}
		r.report()
		for _, w := range r.ws {
			w.work = level
		}
	}
	for _, sp := range seps {
		if sp != nil {
			r.note(sp.active, sp.low, sp.lowLoss)
			r.note(sp.active, sp.top, sp.topLoss)
		}
	}
	return false
}

// note keeps, of the choices of as many hides that would be better than the best layout,
// the least overlapping state.
func (r *hideRun) note(on []int, at []pose, loss float64) {
	if r.strip || at == nil || !r.wanted(on) {
		return
	}
	if n := &r.near[len(on)]; !r.wanted(n.on) || loss < n.loss {
		*n = unsolved{on, at, loss}
	}
}

// wanted tells whether a layout on some hides would be better than the best one.
func (r *hideRun) wanted(on []int) bool {
	return len(on) > 0 && (!r.complete() || len(on) < len(r.used) || len(on) == len(r.used) && r.costOf(on) < r.costOf(r.used))
}

// goOn loads the least overlapping state met on as many hides as are wanted, if there is one.
func (r *hideRun) goOn(w *turnSep, hides int) bool {
	n := &r.near[hides]
	if !r.wanted(n.on) {
		return false
	}
	r.onto(w, n.on)
	w.load(n.at)
	return true
}

// onto makes some hides those in use, in full.
func (r *hideRun) onto(w *turnSep, active []int) {
	w.active = slices.Clone(active)
	for g := range w.limit {
		w.limit[g] = float64(w.grounds[g].box.Max.X)
	}
}

// better tells whether of two layouts without overlap the first is to be kept: on fewer
// hides, then cheaper ones, then, on a strip, shorter.
func (r *hideRun) better(a, b []pose) bool {
	if na, nb := len(usedOf(a)), len(usedOf(b)); na != nb {
		return na < nb
	}
	if ca, cb := r.costOf(usedOf(a)), r.costOf(usedOf(b)); ca != cb {
		return ca < cb
	}
	return r.strip && r.lengthOf(a) < r.lengthOf(b)
}

// On hides a place is looked for wider than on a strip and fewer are improved: looking
// takes a tenth of the work, improving more than half.
var (
	hideSize = searchSize{near: 24, wide: 64, keep: 2}
	rollSize = searchSize{near: 16, wide: 32, keep: 3}
)

// costOf is what some hides cost together.
func (r *hideRun) costOf(hides []int) (c int64) {
	for _, g := range hides {
		c += r.cost[g]
	}
	return c
}

// shake exchanges two pieces of different hides, or throws one anywhere.
func (r *hideRun) shake(w *turnSep) {
	for range 3 {
		i, j := w.rng.intn(w.n), w.rng.intn(w.n)
		p, q := w.at[i], w.at[j]
		if p.g < 0 || q.g < 0 {
			continue
		}
		bi, bj := w.bodies[w.items[i]], w.bodies[w.items[j]]
		if bi == bj || p.g == q.g {
			w.throw(i)
			continue
		}
		p.g, p.x, p.y, q.g, q.x, q.y = q.g, q.x, q.y, p.g, p.x, p.y
		w.put(i, p)
		w.put(j, q)
	}
}

// throw puts a piece anywhere on the active grounds.
func (w *turnSep) throw(i int) {
	b := w.bodies[w.items[i]]
	p := pose{g: w.active[w.rng.intn(len(w.active))]}
	w.anyAngle(b, &p)
	w.somewhere(b, &p)
	w.put(i, p)
}

// retarget loads the best layout and throws every piece that lies on none
// of the active grounds onto them.
func (r *hideRun) retarget(w *turnSep, active []int) {
	r.onto(w, active)
	w.load(r.best)
	for i := range w.at {
		if !slices.Contains(active, w.at[i].g) {
			w.throw(i)
		}
	}
}

// dense is a share of the net area that whole panels hardly ever fill on a
// hide: layouts that would need more get little or no time.
const dense = 0.78

// fillOf is the share of the net area of hides the pieces would fill.
func (r *hideRun) fillOf(hides []int) float64 {
	var need, have float64
	for _, i := range r.items {
		need += float64(r.bodies[i].area2)
	}
	for _, g := range hides {
		have += float64(r.grounds[g].net2)
	}
	return need / have
}

// exchanged is the sorted list with one hide for another.
func exchanged(used []int, out, in int) []int {
	target := []int{in}
	for _, g := range used {
		if g != out {
			target = append(target, g)
		}
	}
	slices.Sort(target)
	return target
}

// oneLess lists one hide less than are in use, the largest there are: they leave
// most room. Where these cannot hold all pieces it takes, one by one, others
// instead; false if none of those can.
func (r *hideRun) oneLess(all []int) ([]int, bool) {
	n := len(r.used) - 1
	target := slices.Clone(all[:n])
	for k := n; ; k++ {
		if s := slices.Sorted(slices.Values(target)); r.mayHold(s) {
			return s, true
		}
		if k >= len(all) || n == 0 {
			return nil, false
		}
		target = append(slices.Clone(all[:n-1]), all[k])
	}
}

// fewer tries to do with the target hides alone.
func (r *hideRun) fewer(target []int, until int64) bool {
	again := slices.Equal(r.near[len(target)].on, target)
	if !again {
		r.near[len(target)] = unsolved{}
	}
	return r.hunt(until, func(_ int, w *turnSep) bool {
		if !again || !r.goOn(w, len(target)) {
			r.retarget(w, target)
		}
		return true
	})
}

// The shares of the work of a stage after which one hide less and cheaper hides have
// had their time; what is left then gathers the waste.
const (
	fewerShare   = 0.85
	cheaperShare = 0.92
)

func (r *hideRun) improve(least int) {
	all := r.bySize()
	if !r.complete() {
		// The raster left pieces over: all hides, all pieces, separate. Without
		// a place for each there is nothing else to do.
		if !r.fewer(all, r.budget) {
			return
		}
	}
	r.fewerHides(all, least, r.share(fewerShare))
	r.cheaperHides(all, least, r.share(cheaperShare))
	r.gather()
	// Nothing left to gather: what few hides can hold is seldom all, but may be.
	for r.left(r.budget) && len(r.used) > least {
		target, ok := r.oneLess(all)
		if !ok || !r.fewer(target, r.budget) {
			return
		}
	}
}

// complete tells whether every piece has a place.
func (r *hideRun) complete() bool {
	return !slices.ContainsFunc(r.best, func(p pose) bool { return p.g < 0 })
}

// share is a part of the work planned for the stage.
func (r *hideRun) share(part float64) int64 { return int64(part * float64(r.budget)) }

// left tells whether there is work left until mark.
func (r *hideRun) left(mark int64) bool {
	return !r.cut && r.work() < min(mark, r.most) && r.ctx.Err() == nil
}

// fewerHides takes one hide away as often as it can.
func (r *hideRun) fewerHides(all []int, least int, mark int64) {
	for len(r.used) > least && r.left(mark) {
		target, ok := r.oneLess(all)
		if !ok {
			return
		}
		until := mark
		if r.fillOf(target) > dense {
			until = min(mark, r.work()+r.budget/8)
		}
		if !r.fewer(target, until) {
			return
		}
	}
}

// swap is a hide in use to exchange for another.
type swap struct{ out, in int }

// swaps lists the exchanges that make the layout cheaper and may be possible; where
// none would be less than dense, the dense ones.
func (r *hideRun) swaps() (list []swap) {
	var hard []swap
	for _, o := range r.used {
		for in := range r.grounds {
			if slices.Contains(r.used, in) || r.cost[in] >= r.cost[o] {
				continue
			}
			switch target := exchanged(r.used, o, in); {
			case !r.mayHold(target):
			case r.fillOf(target) <= dense:
				list = append(list, swap{o, in})
			default:
				hard = append(hard, swap{o, in})
			}
		}
	}
	if len(list) == 0 {
		return hard
	}
	return list
}

// cheaperHides exchanges hides in use for cheaper ones; where there is nothing to
// exchange, one hide less has the time. Each search draws an exchange of its own one time
// of four, and else goes on with the one that is nearest to a layout.
func (r *hideRun) cheaperHides(all []int, least int, mark int64) {
	var list []swap
	for try, fresh := 0, true; r.left(mark); try++ {
		if fresh {
			list = r.swaps()
		}
		if len(list) == 0 {
			if len(r.used) > least {
				if target, ok := r.oneLess(all); ok && r.fillOf(target) <= dense && r.fewer(target, mark) {
					continue
				}
			}
			return
		}
		fresh = r.hunt(min(r.work()+r.budget/25, mark), func(k int, w *turnSep) bool {
			if (try+k)%4 > 0 && r.goOn(w, len(r.used)) {
				return true
			}
			s := list[w.rng.intn(len(list))]
			r.onto(w, exchanged(r.used, s.out, s.in))
			w.load(r.best)
			// Pieces of the old hide go to the like place of the new one.
			a, b := w.grounds[s.out].box, w.grounds[s.in].box
			for i, p := range r.best {
				if p.g == s.out {
					p.g = s.in
					p.x = math.Round(float64(b.Min.X) + float64((p.x-float64(a.Min.X))*(float64(b.Max.X-b.Min.X)/float64(a.Max.X-a.Min.X))))
					p.y = math.Round(float64(b.Min.Y) + float64((p.y-float64(a.Min.Y))*(float64(b.Max.Y-b.Min.Y)/float64(a.Max.Y-a.Min.Y))))
					w.put(i, p)
				}
			}
			return true
		})
	}
}

// gather pushes the pieces of the least filled hide to the left, so that
// its waste is in one place.
func (r *hideRun) gather() {
	step, ok := 0.06, true
	for r.left(r.budget) && step > 0.004 {
		fill := make([]int64, len(r.grounds))
		for i, p := range r.best {
			fill[p.g] += r.bodies[r.items[i]].area2
		}
		last := r.used[0]
		for _, g := range r.used {
			if float64(fill[g])*float64(r.grounds[last].net2) < float64(fill[last])*float64(r.grounds[g].net2) {
				last = g
			}
		}
		g := r.grounds[last]
		right := float64(g.box.Min.X)
		for i, p := range r.best {
			if p.g == last {
				ring, _ := r.bodies[r.items[i]].ringAt(int64(p.x), int64(p.y), p.a, p.mirrored)
				right = max(right, float64(ring.Bounds().Max.X))
			}
		}
		limit := math.Round(right - float64(step*float64(g.box.Max.X-g.box.Min.X)))
		if limit <= float64(g.box.Min.X) {
			return
		}
		ok = r.hunt(r.work()+r.budget/40, func(k int, w *turnSep) bool {
			if ok || k&1 == 0 { // the others loosen what was too tight
				r.retarget(w, r.used)
			}
			w.limit[last] = limit
			return true
		})
		if !ok {
			step /= 2
		}
	}
}

// prune takes, where not all pieces have found room yet, the state met in which most
// of them lie clear of each other, if that is more than lie so already.
func (r *hideRun) prune(seps []*separation) {
	if r.complete() {
		return
	}
	placed := func(p []pose) (n int) {
		for _, q := range p {
			if q.g >= 0 {
				n++
			}
		}
		return n
	}
	for _, sp := range seps {
		if sp == nil {
			continue
		}
		for _, state := range [][]pose{sp.low, sp.top} {
			if state == nil {
				continue
			}
			if p := r.clear(state); placed(p) > placed(r.best) {
				r.best, r.used = p, usedOf(p)
			}
		}
	}
}

// clear keeps of a state the pieces, largest first, that collide with none kept
// before.
func (r *hideRun) clear(state []pose) []pose {
	base := newRasterFit(r.ctx, r.ws[0], 180, 8)
	area := func(i int) int64 { return r.bodies[r.items[i]].area2 }
	out := make([]pose, len(state))
	order := make([]int, len(state))
	for i := range order {
		order[i], out[i] = i, pose{g: -1}
	}
	slices.SortFunc(order, func(a, b int) int {
		if c := cmp.Compare(area(b), area(a)); c != 0 {
			return c
		}
		return a - b
	})
	for _, i := range order {
		if p := state[i]; p.g >= 0 && base.legal(i, p) {
			out[i] = p
			ring, _ := r.bodies[r.items[i]].ringAt(int64(p.x), int64(p.y), p.a, p.mirrored)
			base.rings[p.g] = append(base.rings[p.g], ring)
		}
	}
	return out
}

func (r *hideRun) fillOut(out *HideLayout) {
	out.Used = r.used
	for _, g := range r.used {
		out.NetArea2 += r.grounds[g].net2
	}
	for i, p := range r.best {
		b := r.bodies[r.items[i]]
		if p.g < 0 {
			out.Unplaced = append(out.Unplaced, Placement{Piece: b.piece, Copy: r.copyOf[i], Hide: -1})
			continue
		}
		ring, at := b.ringAt(int64(p.x), int64(p.y), p.a, p.mirrored)
		out.Placements = append(out.Placements, Placement{Piece: b.piece, Copy: r.copyOf[i], Hide: p.g, Angle: p.a, Mirrored: p.mirrored, At: at, Ring: ring})
		out.Area2 += b.area2
	}
}
