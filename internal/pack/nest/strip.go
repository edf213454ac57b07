package nest

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/gate"
)

// StripJob asks for the shortest length of a roll that takes every piece.
type StripJob struct {
	Width  int64 // across the roll (y)
	Pieces []Piece
	Flaws  []geom.Box // at most 100
	// Start is a layout to begin with. One that leaves pieces out, breaks a rule or does not fit the pieces as they are
	// taken is not used; nor is any for pieces that turn freely.
	Start []Placement
	Options
}

// StripLayout is a checked layout on a roll; x runs along the roll.
type StripLayout struct {
	Length     int64
	LowerBound int64 // no layout can be shorter
	Placements []Placement
	Area2      int64 // twice the area of all pieces
	Work       int64 // elementary steps done, all workers
	Stopped    bool  // the context ended the search before its budget
}

// Density is the area of the pieces over width times length.
func (l StripLayout) Density(width int64) float64 {
	return float64(l.Area2) / 2 / float64(width) / float64(l.Length)
}

// Strip lays the pieces on a roll of fixed width and shortens the length.
// The layout has been checked by package verify. The same job gives the
// same bytes on every machine, unless ctx ends first: then the best layout
// so far is returned with Stopped set.
func Strip(ctx context.Context, job StripJob) (StripLayout, error) {
	opt, err := job.Options.checked()
	if err != nil {
		return StripLayout{}, err
	}
	if job.Width <= 0 || job.Width >= MaxCoord {
		return StripLayout{}, &InputError{"width", fmt.Sprint(job.Width), "want 1 .. 2^30", ErrRange}
	}
	pieces, err := checkedPieces(job.Pieces)
	if err != nil {
		return StripLayout{}, err
	}
	flaws, err := checkedFlaws(job.Flaws, job.Width)
	if err != nil {
		return StripLayout{}, err
	}
	lays, err := newStripLays(ctx, job.Width, pieces, flaws, opt)
	if err != nil {
		return StripLayout{}, err
	}
	best := StripLayout{}
	for st := range stages(opt.Effort) {
		lay, err := lays.stage(ctx, st, job.Start, best)
		if err != nil {
			return StripLayout{}, err
		}
		lay.Work += best.Work
		lay.LowerBound = max(lay.LowerBound, best.LowerBound)
		if best.Length > 0 && best.Length <= lay.Length {
			lay.Length, lay.Placements = best.Length, best.Placements
		}
		best = lay
		if ctx.Err() != nil || best.Length <= best.LowerBound {
			break
		}
	}
	best.Stopped = best.Stopped && best.Length > best.LowerBound
	if err := checkStrip(job.Width, best.Length, pieces, flaws, best.Placements, opt.Gap); err != nil {
		return StripLayout{}, fmt.Errorf("nest: own layout refused, please report: %w", err)
	}
	return best, nil
}

// stripLays is a job on a strip in the making: what its stages have in common.
type stripLays struct {
	width         int64
	pieces        []Piece
	flaws         []geom.Box
	opt           Options
	cat           *catalogue  // nil where the pieces are beyond the pair tables
	turning       *turningRun // nil before a stage goes by maps
	maxLen, lower int64
	area2         int64
}

// newStripLays checks what can be laid at all.
func newStripLays(ctx context.Context, width int64, pieces []Piece, flaws []geom.Box, opt Options) (*stripLays, error) {
	r := &stripLays{width: width, pieces: pieces, flaws: flaws, opt: opt}
	if wantsMaps(pieces) {
		return r, r.mapped()
	}
	cat, simple := newCatalogue(ctx, withFlaws(pieces, flaws), opt.Gap)
	if !simple {
		return r, r.mapped()
	}
	for _, f := range flaws {
		r.maxLen = max(r.maxLen, f.Max.X+opt.Gap)
	}
	for ki := range cat.kinds[:len(pieces)] {
		if err := r.admit(cat, &cat.kinds[ki]); err != nil {
			return nil, err
		}
	}
	if r.maxLen >= MaxCoord {
		return nil, &InputError{"pieces", fmt.Sprint(r.maxLen), "all pieces in a row, behind the flaws, are longer than 2^30", ErrRange}
	}
	r.lower = max(r.lower, (r.area2+2*width-1)/(2*width))
	r.cat = cat
	return r, nil
}

// mapped refuses what distance maps cannot do.
func (r *stripLays) mapped() error {
	if len(r.flaws) > 0 {
		return &InputError{"flaws", fmt.Sprint(len(r.flaws)), "flaws need fixed angles and plain outlines", ErrRange}
	}
	return nil
}

// admit leaves to a kind the shapes that fit across the roll, and adds it to the
// lengths and the area.
func (r *stripLays) admit(cat *catalogue, k *kind) error {
	p := &r.pieces[k.piece]
	name := fmt.Sprintf("piece %d (%s)", k.piece, p.ID)
	var ok []int
	w, least := int64(0), int64(math.MaxInt64)
	for _, si := range k.shapes {
		s := cat.shapes[si]
		if _, fits := fitAxis(0, r.width-s.h, s.anchor.Y, p.PhaseY); fits {
			ok = append(ok, si)
			w = max(w, s.w)
			for col := range max(int64(len(p.Falls)), 1) {
				at, _ := fitAxis(0, math.MaxInt64/4, s.anchor.X, p.along(p.PhaseY.At+col*p.PhaseY.Every))
				least = min(least, s.w+at)
			}
		}
	}
	if len(ok) == 0 {
		return &InputError{name, fmt.Sprint(p.Ring.Bounds()), "wider than the roll in every allowed position", ErrNoRoom}
	}
	k.shapes = ok
	r.lower = max(r.lower, least)
	r.maxLen += int64(p.Count) * (w + r.opt.Gap + 2*p.PhaseX.Every)
	if r.area2 > math.MaxInt64/4-int64(p.Count)*k.area2 {
		return &InputError{name + ": area", fmt.Sprint(k.area2), "areas add up beyond range", ErrRange}
	}
	r.area2 += int64(p.Count) * k.area2
	return nil
}

// tabled tells whether a stage goes by pair tables.
func (r *stripLays) tabled(ctx context.Context, st stage) bool {
	if r.cat == nil || ctx.Err() != nil {
		return r.cat != nil
	}
	held, paid := r.cat.setGrid(int64(st.plan) * int64(r.opt.Workers) * stripUnit)
	return held && (paid || len(r.flaws) > 0 || slices.ContainsFunc(r.pieces, tied))
}

// tied tells whether a piece lies on a repeat.
func tied(p Piece) bool { return p.PhaseX.Every > 0 || p.PhaseY.Every > 0 }

// stage searches once more, beginning with the first layout of the job if there is
// one, and knowing what the stages before it found.
func (r *stripLays) stage(ctx context.Context, st stage, first []Placement, best StripLayout) (StripLayout, error) {
	if !r.tabled(ctx, st) {
		if err := r.mapped(); err != nil {
			return StripLayout{}, err
		}
		if r.turning == nil {
			var err error
			if r.turning, err = newTurningRun(ctx, r.width, r.pieces, r.opt); err != nil {
				return StripLayout{}, err
			}
		}
		return r.turning.stage(st, best.Placements, st.tell(r.opt, turnUnit, best.Length)), nil
	}
	opt := r.opt
	opt.Seed, opt.Progress = st.seeded(opt.Seed), st.tell(r.opt, stripUnit, best.Length)
	run := &stripRun{cat: r.cat, pieces: withFlaws(r.pieces, r.flaws), flaws: r.flaws, width: r.width, maxLen: r.maxLen, lower: r.lower,
		opt: opt, plan: st, gate: gate.New(opt.AtOnce), lineUnit: lineUnit}
	if ctx.Err() == nil { // else shapes may lack their parts
		run.start, run.before = run.startFrom(first), run.startFrom(best.Placements)
	}
	found, work, stopped := run.search(ctx)
	return StripLayout{Length: found.length, LowerBound: r.lower, Area2: r.area2, Work: work, Stopped: stopped, Placements: run.placements(found)}, nil
}

// withFlaws adds a piece for every flaw.
func withFlaws(pieces []Piece, flaws []geom.Box) []Piece {
	out := slices.Clone(pieces)
	for _, f := range flaws {
		out = append(out, Piece{ID: "flaw", Ring: f.Ring().Translate(geom.Pt(-f.Min.X, -f.Min.Y)), Count: 1})
	}
	return out
}

type stripRun struct {
	cat           *catalogue
	pieces        []Piece // the flaws last
	flaws         []geom.Box
	width, maxLen int64
	lower         int64
	lineUnit      int64
	plan          stage
	gate          gate.Gate
	opt           Options
	start         *snapshot // to begin with, nil for none
	before        *snapshot // what stages before this one found, nil for none
}

// startFrom is a legal layout to begin with, or nil.
func (r *stripRun) startFrom(lay []Placement) *snapshot {
	of := map[[2]int]Placement{} // read by key only
	for _, q := range lay {
		of[[2]int{q.Piece, q.Copy}] = q
	}
	s := newSep(r.cat, r.pieces, r.flaws, r.width, r.maxLen, newRNG(r.opt.Seed, 0))
	for i := range s.m {
		k := &r.cat.kinds[r.cat.items[i]]
		q, ok := of[[2]int{k.piece, r.cat.copyOf[i]}]
		if !ok {
			return nil
		}
		p := &r.pieces[k.piece]
		want := newShape(p.Ring, p.Anchor, q.Angle, q.Mirrored)
		at := slices.IndexFunc(k.shapes, func(o int) bool { // of equal outlines the catalogue has the first angle
			sh := r.cat.shapes[o]
			return slices.Equal(sh.ring.Normal(), want.ring.Normal()) && (p.PhaseX.Every == 0 && p.PhaseY.Every == 0 || sh.anchor == want.anchor)
		})
		if at < 0 {
			return nil
		}
		o, x0, y0 := k.shapes[at], q.At.X-want.shift.X, q.At.Y-want.shift.Y
		x, y, ok := s.fit(i, o, x0, y0)
		if !ok || x != x0 || y != y0 || s.eval(i, lying{o, x, y}, math.SmallestNonzeroFloat64) > 0 {
			return nil
		}
		s.put(i, o, x, y)
	}
	if s.m == 0 {
		return nil
	}
	var b snapshot
	s.L = s.extent()
	s.save(&b)
	return &b
}

func (r *stripRun) placements(b *snapshot) []Placement {
	out := make([]Placement, len(r.cat.items)-len(r.flaws))
	for i := range out {
		k := &r.cat.kinds[r.cat.items[i]]
		s := r.cat.shapes[b.o[i]]
		at := geom.Pt(b.x[i]+s.shift.X, b.y[i]+s.shift.Y)
		out[i] = Placement{Piece: k.piece, Copy: r.cat.copyOf[i], Angle: s.angle, Mirrored: s.mirror, At: at,
			Ring: turned(r.pieces[k.piece].Ring, s.angle, s.mirror).Translate(at)}
	}
	return out
}

// stripWorker is one search. It runs in its own goroutine and meets the
// others at fixed amounts of work.
type stripWorker struct {
	*sep
	run    *stripRun
	best   snapshot
	budget int64
	next   int64 // work at the next meeting
	every  int64
	meet   chan *stripWorker // to the referee
	resume chan meeting
	quit   bool
	first  bool // begins with the start of the job
	alone  bool // goes on with its own line whatever the others have
	behind bool // a shorter layout was adopted at the last meeting
}

type meeting struct {
	best *snapshot // adopt this one, or nil
	quit bool
}

// stripUnit is the work of one unit of effort.
const stripUnit = 1_000_000

const meetings = 32

// search runs the workers and exchanges their best layouts.
func (r *stripRun) search(ctx context.Context) (best *snapshot, work int64, stopped bool) {
	budget, most := int64(r.plan.plan)*stripUnit, int64(r.plan.most)*stripUnit
	meet := make(chan *stripWorker)
	ws := make([]*stripWorker, r.opt.Workers)
	for i := range ws {
		w := &stripWorker{run: r, first: i == 0, budget: budget, every: budget/meetings + 1, meet: meet, resume: make(chan meeting)}
		w.sep = newSep(r.cat, r.pieces, r.flaws, r.width, r.maxLen, newRNG(r.opt.Seed, uint64(i)))
		w.payers, w.most, w.ctx, w.paid = int64(r.opt.Workers), most, ctx, r.cat.paidBy(i)
		if r.plan.number == 0 {
			w.work = r.cat.setup/w.payers + 1
		}
		w.next = w.every
		ws[i] = w
	}
	for _, w := range ws {
		go w.main()
	}
	for done := 0; done < len(ws); {
		// Every worker reports once per meeting.
		for range ws {
			<-meet
		}
		done = 0
		var top *stripWorker
		for _, w := range ws {
			if w.quit {
				done++
			}
			if w.best.length > 0 && (top == nil || w.best.length < top.best.length) {
				top = w
			}
		}
		if r.opt.Progress != nil {
			p := Progress{Budget: most * int64(len(ws)), Placed: len(r.cat.items) - len(r.flaws)}
			for _, w := range ws {
				p.Work += min(w.work, most)
			}
			p.Length = top.best.length
			r.opt.Progress(p)
		}
		if done > 0 { // work and context end together for all
			done = len(ws)
			best = top.best.clone()
			for _, w := range ws {
				work += w.work
				stopped = stopped || w.work < most
			}
			stopped = stopped && ctx.Err() != nil
		}
		// Every answer is made before the first is given: a worker goes on at
		// once, and its best layout is no longer to be read then.
		answers := make([]meeting, len(ws))
		for i, w := range ws {
			answers[i].quit = done > 0
			if w != top && top.best.length < w.best.length {
				answers[i].best = top.best.clone()
			}
		}
		for i, w := range ws {
			w.resume <- answers[i]
		}
	}
	return best, work, stopped
}

// main builds a first layout, explores, then compresses.
func (w *stripWorker) main() {
	w.run.gate.Enter()
	defer w.run.gate.Leave()
	w.race(w.budget - w.budget/5)
	if b := w.run.before; b != nil && b.length < w.best.length {
		w.best = *b.clone()
	}
	w.compress()
	for !w.quit {
		w.report()
	}
}

// line is one chain of ever shorter layouts.
type line struct {
	best snapshot
	step float64
}

// mostLines is the greatest number of lines a worker starts; lineUnit is the
// work per piece below which a line is not judged.
const (
	mostLines = 16
	lineUnit  = 40_000_000
)

// race starts several lines and, in rounds of equal work, gives up the
// worse half of them; the last one goes on together with the other workers.
// Where a line gets stuck depends more on its start than on its work.
func (w *stripWorker) race(until int64) {
	n := 1
	for n < mostLines && int64(n)*int64(max(w.m, 10))*w.run.lineUnit <= until {
		n *= 2
	}
	rounds := 1
	for k := n; k > 1; k /= 2 {
		rounds++
	}
	lines := make([]*line, n)
	for k := range lines {
		l := &line{step: firstStep}
		if k == 0 && w.first && w.run.start != nil {
			w.load(w.run.start)
			l.best = *w.run.start.clone()
		} else {
			w.construct()
			w.L = w.extent()
			w.save(&l.best)
		}
		lines[k] = l
		if w.over() && w.run.before != nil {
			w.best = *w.run.before.clone() // what is cut off as it is laid says nothing
			return
		}
		w.record(l)
	}
	from := w.work
	for r := 1; r <= rounds; r++ {
		w.alone = r < rounds
		end := from + (until-from)/int64(rounds)*int64(r)
		start := w.work
		for k, l := range lines {
			w.explore(l, start+(end-start)/int64(len(lines))*int64(k+1))
		}
		slices.SortStableFunc(lines, func(a, b *line) int { return cmp.Compare(a.best.length, b.best.length) })
		lines = lines[:(len(lines)+1)/2]
	}
	w.alone = false
}

// record keeps the layout of a line if it is the shortest so far.
func (w *stripWorker) record(l *line) {
	if w.best.length == 0 || l.best.length < w.best.length {
		w.best = *l.best.clone()
	}
}

// report meets the other workers; it returns false if the search ends.
func (w *stripWorker) report() bool {
	if w.quit {
		return false
	}
	if w.over() || w.best.length <= w.run.lower {
		w.quit = true
	}
	w.next += w.every
	w.run.gate.Leave() // whoever waits gives way
	w.meet <- w
	m := <-w.resume
	w.run.gate.Enter()
	if m.quit {
		w.quit = true
	}
	if m.best != nil {
		w.best = *m.best
		w.behind = !w.alone
	}
	return !w.quit
}

// check is asked between rounds.
func (w *stripWorker) check() bool {
	if w.quit {
		return false
	}
	if w.work >= w.next || w.over() {
		w.behind = false
		return w.report() && !w.behind
	}
	return true
}

// construct places the pieces one by one, largest first, each as far left
// as a number of tries finds room.
func (w *stripWorker) construct() {
	for i := range w.m {
		w.lift(i)
	}
	order := make([]int, w.m)
	for i := range order {
		order[i] = i
	}
	key := make([]float64, w.m)
	for i := range key {
		key[i] = float64(w.c.kinds[w.c.items[i]].hull2)
		if w.rng != nil {
			key[i] = float64(key[i] * (0.9 + float64(0.2*w.rng.float())))
		}
	}
	slices.SortFunc(order, func(a, b int) int {
		if c := cmp.Compare(key[b], key[a]); c != 0 {
			return c
		}
		return a - b
	})
	w.L = w.run.maxLen
	tries := 200
	if w.m > 100 {
		tries = 20000 / w.m
	}
	var ext int64
	for at, i := range order {
		if w.over() {
			w.shelve(order[at:], ext)
			return
		}
		k := &w.c.kinds[w.c.items[i]]
		best := placed[lying]{loss: math.MaxFloat64}
		for range tries {
			o := k.shapes[w.rng.intn(len(k.shapes))]
			s := w.c.shapes[o]
			hi := max(ext-s.w, 0)
			if best.loss < math.MaxFloat64 {
				hi = min(hi, int64(best.loss)-s.w)
			}
			x, y, ok := w.fit(i, o, w.rng.between(0, hi), w.rng.between(0, w.W-s.h))
			if !ok || w.eval(i, lying{o, x, y}, math.SmallestNonzeroFloat64) > 0 {
				continue
			}
			for step := max(k.minSide/2, 1); step > k.minSide/100; {
				nx, ny, ok := w.fit(i, o, x-step, y)
				if ok && (nx < x) && w.eval(i, lying{o, nx, ny}, math.SmallestNonzeroFloat64) == 0 {
					x = nx
					continue
				}
				step /= 2
			}
			if l := float64(x + s.w); l < best.loss {
				best = placed[lying]{lying{o, x, y}, l}
			}
		}
		if best.loss == math.MaxFloat64 {
			best.p = w.afterAll(i, ext)
		}
		w.move(i, best.p)
		ext = max(ext, best.p.x+w.c.shapes[best.p.o].w)
	}
}

// afterAll is the first place found behind the pieces, which end at ext, that
// is clear of the flaws.
func (w *stripWorker) afterAll(i int, ext int64) lying {
	k := &w.c.kinds[w.c.items[i]]
	starts := []int64{ext}
	for _, f := range w.run.flaws {
		if f.Max.X > ext {
			starts = append(starts, f.Max.X)
		}
	}
	slices.Sort(starts)
	var c lying
	for q, start := range starts {
		if w.c.gap > 0 && start > 0 {
			start += w.c.gap
		}
		for try := range 10 {
			o := k.shapes[w.rng.intn(len(k.shapes))]
			var y int64
			if try > 0 {
				y = w.rng.between(0, w.W-w.c.shapes[o].h)
			}
			x, y, ok := w.fit(i, o, start+w.pieces[k.piece].PhaseX.Every, y)
			c = lying{o, x, y}
			if q == len(starts)-1 || ok && w.eval(i, lying{o, x, y}, math.SmallestNonzeroFloat64) == 0 {
				return c
			}
		}
	}
	return c
}

// shelve puts pieces, for which there is no work left, behind the others and all
// flaws: beside each other across the roll where their boxes allow.
func (w *stripWorker) shelve(rest []int, ext int64) {
	for _, f := range w.run.flaws {
		ext = max(ext, f.Max.X)
	}
	if ext > 0 {
		ext += w.c.gap
	}
	from, y := ext, int64(0) // where the shelf begins, and where its next piece does
	for _, i := range rest {
		k := &w.c.kinds[w.c.items[i]]
		p := &w.pieces[k.piece]
		o := k.shapes[0]
		s := w.c.shapes[o]
		free := p.PhaseX.Every == 0 && p.PhaseY.Every == 0
		if y > 0 && (!free || y+s.h > w.W) {
			from, y = ext, 0
		}
		if !free {
			x, y, _ := w.fit(i, o, from+p.PhaseX.Every, 0)
			w.put(i, o, x, y)
			ext = x + s.w + w.c.gap
			from = ext
			continue
		}
		w.put(i, o, from, y)
		y += s.h + w.c.gap
		ext = max(ext, from+s.w+w.c.gap)
	}
}

// squeeze sets the length and pushes pieces that stick out back inside,
// in another orientation if the present one has become too long.
func (w *stripWorker) squeeze(length int64) {
	w.L = length
	w.work += int64(w.m)
	for i := range w.m {
		w.pull(i, w.x[i])
	}
}

// pull moves piece i to x, or as near as the strip allows.
func (w *stripWorker) pull(i int, to int64) {
	if x, y, ok := w.fit(i, w.o[i], to, w.y[i]); ok {
		w.put(i, w.o[i], x, y)
		return
	}
	k := &w.c.kinds[w.c.items[i]]
	p := &w.pieces[k.piece]
	for _, o := range k.shapes {
		// Where the repeat falls, the next columns begin elsewhere.
		for col := range int64(max(len(p.Falls), 1)) {
			for _, y := range []int64{w.y[i] + col*p.PhaseY.Every, w.y[i] - col*p.PhaseY.Every} {
				if x, y, ok := w.fit(i, o, to, y); ok {
					w.put(i, o, x, y)
					return
				}
			}
		}
	}
}

var (
	exploreSize  = searchSize{near: 18, wide: 35, keep: 3}
	compressSize = searchSize{near: 10, wide: 3, keep: 2}
)

const (
	firstStep = 0.02
	lastStep  = 0.001
)

// shorter is a length less by the share f.
func (w *stripWorker) shorter(l int64, f float64) int64 {
	d := max(int64(float64(l)*f), 1)
	return max(l-d, w.run.lower)
}

// explore shortens the strip by steps; where a length is not reached it
// tries again, half of the time after a shake of the layout.
func (w *stripWorker) explore(l *line, until int64) {
	var pool []snapshot
	fresh := true
	for w.work < until && !w.quit && w.ctx.Err() == nil {
		if !w.alone && w.best.length < l.best.length {
			l.best = *w.best.clone()
			fresh, pool = true, pool[:0]
		}
		if l.best.length <= w.run.lower {
			w.report()
			return
		}
		w.calm()
		w.fine = l.best.length-w.run.lower < w.run.lower/1000
		if fresh {
			w.load(&l.best)
		}
		w.squeeze(w.shorter(l.best.length, l.step))
		loss, ok := w.separate(3, 100, exploreSize, func() bool { return w.check() && w.work < until })
		switch {
		case w.behind:
			w.behind = false // taken up above
		case !ok && w.work >= until:
			return
		case ok && w.extent() > w.L:
			return // a piece fits in no orientation: cannot be shorter
		case ok:
			w.L = w.extent()
			w.save(&l.best)
			w.record(l)
			fresh, pool = true, pool[:0]
		case l.step > lastStep:
			l.step, fresh = max(l.step/2, lastStep), true
		default:
			var s snapshot
			w.save(&s)
			s.loss = loss
			at, _ := slices.BinarySearchFunc(pool, loss, func(p snapshot, l float64) int { return cmp.Compare(p.loss, l) })
			pool = slices.Insert(pool, at, s)
			if len(pool) > 12 {
				pool = pool[:12]
			}
			if fresh = w.rng.next()&1 == 0; fresh {
				continue
			}
			// Better layouts are picked more often.
			u := w.rng.float()
			pick := int(float64(float64(u*u) * float64(len(pool))))
			w.load(&pool[pick])
			w.shake()
		}
	}
}

// shake exchanges two large pieces of different outline, with what
// lies in the way of each following.
func (w *stripWorker) shake() {
	order := make([]int, w.m)
	for i := range order {
		order[i] = i
	}
	area := func(i int) int64 { return w.c.kinds[w.c.items[i]].hull2 }
	slices.SortFunc(order, func(a, b int) int {
		if c := cmp.Compare(area(b), area(a)); c != 0 {
			return c
		}
		return a - b
	})
	// Large: the first pieces that make up three quarters of the area.
	var sum, part float64
	for _, i := range order {
		sum += float64(area(i))
	}
	m := 0
	for m < w.m && (part < 0.75*sum || m < 2) {
		part += float64(area(order[m]))
		m++
	}
	m = min(max(m, 2), w.m)
	for t := range 20 {
		a, b := order[w.rng.intn(m)], order[w.rng.intn(m)]
		if w.c.items[a] == w.c.items[b] && t < 15 || a == b {
			continue
		}
		sa, sb := w.c.shapes[w.o[a]], w.c.shapes[w.o[b]]
		ax, ay := w.x[a]+sa.w/2, w.y[a]+sa.h/2
		bx, by := w.x[b]+sb.w/2, w.y[b]+sb.h/2
		x1, y1, ok1 := w.fit(a, w.o[a], bx-sa.w/2, by-sa.h/2)
		x2, y2, ok2 := w.fit(b, w.o[b], ax-sb.w/2, ay-sb.h/2)
		if !ok1 || !ok2 {
			continue
		}
		// Small pieces covered by the larger one go to the other place.
		w.put(a, w.o[a], x1, y1)
		w.put(b, w.o[b], x2, y2)
		return
	}
}

// compress shortens the best layout by ever smaller amounts, each time
// closing it up at a random place.
func (w *stripWorker) compress() {
	from := w.work
	for !w.over() && !w.quit && w.best.length > w.run.lower {
		left := float64(w.budget-w.work) / float64(max(w.budget-from, 1))
		step := 0.00001 + float64(0.0005*left)
		w.load(&w.best)
		w.calm()
		w.fine = w.best.length-w.run.lower < w.run.lower/1000
		target := w.shorter(w.best.length, step)
		d := w.best.length - target
		cut := w.rng.between(0, w.L)
		w.L = target
		for i := range w.m {
			s := w.c.shapes[w.o[i]]
			x := w.x[i]
			if x+s.w/2 > cut {
				x -= d
			}
			w.pull(i, x)
		}
		w.work += int64(w.m)
		if _, ok := w.separate(1, 60, compressSize, w.check); ok && !w.behind && w.extent() <= target {
			w.L = w.extent()
			w.save(&w.best)
		}
		w.behind = false
		if !w.check() && w.quit {
			return
		}
		w.behind = false
	}
}
