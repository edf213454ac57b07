package nest

import (
	"math"
)

// turnSep separates pieces that may turn freely, on one or more
// containers of any outline. Overlap is measured by samples (inscribed
// circles and border points) of one outline in the distance map of the
// other; exact whole-number tests have the last word.
type turnSep struct {
	bodies  []*body
	items   []int // body of every single piece
	grounds []*ground
	gap     float64
	slack   float64 // kept on top of gap, against the error of the maps
	n       int

	at     []pose
	world  [][]disc // samples where the piece lies
	trig   []struct{ s, c float64 }
	on     [][]int // pieces on each ground
	active []int   // grounds in use
	wt     []float32
	wland  []float32
	extra  []float32 // added distance per pair that failed the exact test
	eland  []float32
	rng    *rng
	work   int64
	order  []int
	buf    []disc
	limit  []float64 // right edge per ground, at most box.x1
}

// pose is where a piece lies; x and y are whole.
type pose struct {
	g        int // ground, -1 nowhere
	x, y     float64
	a        Angle
	mirrored bool
}

func newTurnSep(bodies []*body, items []int, grounds []*ground, gap int64, r *rng) *turnSep {
	n := len(items)
	s := &turnSep{bodies: bodies, items: items, grounds: grounds, gap: float64(gap), n: n,
		at: make([]pose, n), world: make([][]disc, n), trig: make([]struct{ s, c float64 }, n), on: make([][]int, len(grounds)),
		wt: make([]float32, n*n), wland: make([]float32, n), extra: make([]float32, n*n), eland: make([]float32, n), rng: r,
		limit: make([]float64, len(grounds))}
	span := 0.0
	for i, g := range grounds {
		span = max(span, float64(g.box.y1-g.box.y0))
		s.limit[i] = float64(g.box.x1)
	}
	s.slack = max(span/20000, 2)
	for i := range s.at {
		s.at[i].g = -1
		s.world[i] = make([]disc, len(bodies[items[i]].discs))
	}
	s.calm()
	return s
}

func (s *turnSep) calm() {
	for i := range s.wt {
		s.wt[i] = 1
	}
	for i := range s.wland {
		s.wland[i] = 1
	}
}

func (s *turnSep) put(i int, p pose) {
	if g := s.at[i].g; g >= 0 && g != p.g {
		l := s.on[g]
		for k, j := range l {
			if j == i {
				s.on[g] = append(l[:k], l[k+1:]...)
				break
			}
		}
	}
	if p.g >= 0 && s.at[i].g != p.g {
		// Keep the lists sorted so that sums have a fixed order.
		s.on[p.g] = append(s.on[p.g], i)
		l := s.on[p.g]
		for k := len(l) - 1; k > 0 && l[k-1] > l[k]; k-- {
			l[k-1], l[k] = l[k], l[k-1]
		}
	}
	s.at[i] = p
	if p.g >= 0 {
		s.spread(s.bodies[s.items[i]], p, s.world[i])
		s.trig[i].s, s.trig[i].c = p.a.sincos()
	}
}

// spread writes the samples of a body at a pose.
func (s *turnSep) spread(b *body, p pose, out []disc) {
	sn, cs := p.a.sincos()
	for k, d := range b.discs {
		if p.mirrored {
			d.x = -d.x
		}
		out[k] = disc{p.x + (float64(d.x*cs) - float64(d.y*sn)), p.y + (float64(d.x*sn) + float64(d.y*cs)), d.r}
	}
}

// sunk is the greatest depth of discs in a body at a pose, at least low;
// it stops at the first depth of cut or more.
func sunk(discs []disc, b *body, p pose, sn, cs, low, cut float64) float64 {
	r2 := b.radius
	for k := range discs {
		d := &discs[k]
		dx, dy := d.x-p.x, d.y-p.y
		lim := r2 + d.r - low
		if lim <= 0 || float64(dx*dx)+float64(dy*dy) >= float64(lim*lim) {
			continue
		}
		lx := float64(dx*cs) + float64(dy*sn)
		ly := float64(dy*cs) - float64(dx*sn)
		if p.mirrored {
			lx = -lx
		}
		if v := d.r + b.f.at(lx, ly); v > low {
			low = v
			if low >= cut {
				break
			}
		}
	}
	return low
}

// landDepth is how deep the samples sink into what is blocked.
func (s *turnSep) landDepth(b *body, p pose, sn, cs float64, discs []disc, low, cut float64) float64 {
	g := s.grounds[p.g]
	l := g.land(b.class)
	x0, y0, x1, y1 := float64(g.box.x0), float64(g.box.y0), s.limit[p.g], float64(g.box.y1)
	// Well clear of everything: one look is enough.
	free := max(p.x-x1, x0-p.x, p.y-y1, y0-p.y)
	if l.f != nil {
		free = max(free, l.f.at(p.x, p.y))
	}
	if free+b.radius <= low {
		return low
	}
	for k := range discs {
		d := &discs[k]
		if l.f != nil {
			if v := d.r + l.f.at(d.x, d.y); v > low {
				low = v
				if low >= cut {
					s.work += int64(k) / 4
					return low
				}
			}
		}
		// Beyond the box the map does not answer.
		v := max(d.x-x1, x0-d.x, d.y-y1, y0-d.y)
		if v += d.r; v > low {
			low = v
		}
	}
	s.work += int64(len(discs)) / 4
	for k := range l.features {
		ft := &l.features[k]
		dx, dy, r := ft.x-p.x, ft.y-p.y, ft.radius+b.radius
		if float64(dx*dx)+float64(dy*dy) < float64(r*r) {
			s.work += 2
			if low = sunk(ft.discs, b, p, sn, cs, low, cut); low >= cut {
				return low
			}
		}
	}
	return low
}

// pairDepth is the depth of overlap of piece j with a body at a pose whose
// samples are discs; 0 if they are apart by more than keep.
func (s *turnSep) pairDepth(b *body, p pose, sn, cs float64, discs []disc, j int, keep, cut float64) float64 {
	q := s.at[j]
	o := s.bodies[s.items[j]]
	dx, dy := q.x-p.x, q.y-p.y
	r := b.radius + o.radius + keep
	if float64(dx*dx)+float64(dy*dy) >= float64(r*r) {
		return 0
	}
	// Is the whole of j clear of the body?
	c := &s.world[j][0]
	ex, ey := c.x-p.x, c.y-p.y
	lx := float64(ex*cs) + float64(ey*sn)
	ly := float64(ey*cs) - float64(ex*sn)
	if p.mirrored {
		lx = -lx
	}
	s.work += 2
	if b.f.bound(lx, ly) <= -(o.reach + keep) {
		return 0
	}
	s.work += 8
	low := sunk(s.world[j], b, p, sn, cs, -keep, cut-keep)
	if low+keep >= cut {
		return low + keep
	}
	s.work += 8
	low = sunk(discs, o, q, s.trig[j].s, s.trig[j].c, low, cut-keep)
	return low + keep
}

// eval is the weighted overlap of piece i at a pose.
func (s *turnSep) eval(i int, p pose, bound float64) float64 {
	b := s.bodies[s.items[i]]
	if cap(s.buf) < len(b.discs) {
		s.buf = make([]disc, len(b.discs)*2)
	}
	discs := s.buf[:len(b.discs)]
	s.spread(b, p, discs)
	sn, cs := p.a.sincos()
	s.work += 12
	keep := s.slack + float64(s.eland[i])
	sum := 0.0
	bound /= b.size
	f := float64(float64(s.wland[i]) * b.size)
	if d := s.landDepth(b, p, sn, cs, discs, -keep, bound/f-keep) + keep; d > 0 {
		sum = float64(f * d)
		if sum >= bound {
			return math.MaxFloat64
		}
	}
	s.work += int64(len(s.on[p.g])) / 8
	for _, j := range s.on[p.g] {
		if j == i {
			continue
		}
		at := i*s.n + j
		f := float64(float64(s.wt[at]) * s.bodies[s.items[j]].size)
		d := s.pairDepth(b, p, sn, cs, discs, j, s.gap+s.slack+float64(s.extra[at]), (bound-sum)/f)
		if d > 0 {
			sum += float64(f * d)
			if sum >= bound {
				return math.MaxFloat64
			}
		}
	}
	return sum * b.size
}

type posed struct {
	p    pose
	loss float64
}

// anyAngle draws an allowed orientation.
func (s *turnSep) anyAngle(b *body, p *pose) {
	switch {
	case b.turn.any:
		p.a = Angle(s.rng.between(0, int64(fullTurn)-1))
	default:
		l := b.turn.list()
		p.a = l[s.rng.intn(len(l))]
		if t := int64(b.turn.tol); t > 0 {
			p.a = (p.a + Angle(s.rng.between(-t, t))).norm()
		}
	}
	switch b.mirror {
	case NeverMirrored:
		p.mirrored = false
	case AlwaysMirrored:
		p.mirrored = true
	default:
		p.mirrored = s.rng.next()&1 == 0
	}
}

// bent turns a by d if that is allowed.
func (b *body) bent(a Angle, d Angle) (Angle, bool) {
	n := (a + d).norm()
	if b.turn.any {
		return n, true
	}
	if b.turn.tol == 0 {
		return a, false
	}
	for _, base := range b.turn.list() {
		e := (n - base).norm()
		if min(e, fullTurn-e) <= b.turn.tol {
			return n, true
		}
	}
	return a, false
}

// somewhere draws a place on ground g whose middle is not blocked.
func (s *turnSep) somewhere(b *body, p *pose) {
	g := s.grounds[p.g]
	l := g.land(b.class)
	x1 := int64(s.limit[p.g])
	for range 6 {
		p.x, p.y = float64(s.rng.between(g.box.x0, x1)), float64(s.rng.between(g.box.y0, g.box.y1))
		if l.f == nil || l.f.at(p.x, p.y) < -b.inner*0.7 {
			return
		}
	}
}

// relocate looks for a better pose of piece i.
func (s *turnSep) relocate(i int, ss searchSize) {
	cur := s.eval(i, s.at[i], math.MaxFloat64)
	if cur == 0 {
		return
	}
	b := s.bodies[s.items[i]]
	var best [4]posed
	nb := 0
	add := func(c posed) {
		if c.loss == math.MaxFloat64 || nb == ss.keep && c.loss >= best[nb-1].loss {
			return
		}
		p := nb
		if nb < ss.keep {
			nb++
		} else {
			p = nb - 1
		}
		for p > 0 && best[p-1].loss > c.loss {
			best[p] = best[p-1]
			p--
		}
		best[p] = c
	}
	limit := func() float64 {
		if nb < ss.keep {
			return math.MaxFloat64
		}
		return best[nb-1].loss
	}
	add(posed{s.at[i], cur})
	for k := range ss.near {
		p := s.at[i]
		d := b.radius * 0.7
		p.x += math.Round((s.rng.float()*2 - 1) * d)
		p.y += math.Round((s.rng.float()*2 - 1) * d)
		if k&1 == 0 {
			s.anyAngle(b, &p)
		} else if a, ok := b.bent(p.a, Angle(s.rng.between(-20*int64(Degree), 20*int64(Degree)))); ok {
			p.a = a
		}
		add(posed{p, s.eval(i, p, limit())})
	}
	for range ss.wide {
		var p pose
		p.g = s.active[s.rng.intn(len(s.active))]
		s.anyAngle(b, &p)
		s.somewhere(b, &p)
		add(posed{p, s.eval(i, p, limit())})
	}
	first := b.inner / 2
	for q := range nb {
		s.descend(i, &best[q], first, max(b.inner/25, 1))
	}
	w := 0
	for q := 1; q < nb; q++ {
		if best[q].loss < best[w].loss {
			w = q
		}
	}
	c := best[w]
	s.descend(i, &c, max(b.inner/25, 1), max(b.inner/800, 1))
	if c.loss <= cur {
		s.put(i, c.p)
	}
}

// descend improves c by steps along, across and around.
func (s *turnSep) descend(i int, c *posed, first, last float64) {
	b := s.bodies[s.items[i]]
	step, spin := first, first
	turns := b.turn.any || b.turn.tol > 0
	dirs := 4
	if turns {
		dirs = 6
	}
	for (step >= last || (turns && spin >= last)) && c.loss > 0 {
		dir := s.rng.intn(dirs)
		gained := false
		base := c.p
		for t := range 2 {
			p := base
			d := step
			if t == 1 {
				d = -d
			}
			switch dir {
			case 0:
				p.x += math.Round(d)
			case 1:
				p.y += math.Round(d)
			case 2:
				p.x += math.Round(d)
				p.y += math.Round(d)
			case 3:
				p.x += math.Round(d)
				p.y -= math.Round(d)
			default:
				arc := spin / b.radius * (180 / math.Pi) * float64(Degree)
				if t == 1 {
					arc = -arc
				}
				var ok bool
				if p.a, ok = b.bent(p.a, Angle(arc)); !ok {
					continue
				}
			}
			if l := s.eval(i, p, c.loss); l < c.loss {
				c.p, c.loss = p, l
				gained = true
			}
		}
		switch {
		case dir >= 4 && gained:
			spin *= 1.1
		case dir >= 4:
			spin *= 0.5
		case gained:
			step *= 1.1
		default:
			step *= 0.5
		}
	}
}

// weigh sums the overlaps; with raise it raises the weights of overlapping
// pairs and lets the others fade.
func (s *turnSep) weigh(raise bool) float64 {
	type hit struct {
		i, j int // j < 0: the ground
		l    float64
	}
	var hits []hit
	sum, worst := 0.0, 0.0
	bad := make([]bool, s.n)
	for i := range s.n {
		p := s.at[i]
		if p.g < 0 {
			continue
		}
		b := s.bodies[s.items[i]]
		sn, cs := p.a.sincos()
		keep := s.slack + float64(s.eland[i])
		s.work += 8 + int64(len(s.on[p.g]))/8
		if d := s.landDepth(b, p, sn, cs, s.world[i], -keep, math.MaxFloat64) + keep; d > 0 {
			l := float64(d*b.size) * b.size
			hits = append(hits, hit{i, -1, l})
			sum += l
			worst = max(worst, l)
			bad[i] = true
		}
		for _, j := range s.on[p.g] {
			if j <= i {
				continue
			}
			if d := s.pairDepth(b, p, sn, cs, s.world[i], j, s.gap+s.slack+float64(s.extra[i*s.n+j]), math.MaxFloat64); d > 0 {
				l := float64(d*b.size) * s.bodies[s.items[j]].size
				hits = append(hits, hit{i, j, l})
				sum += l
				worst = max(worst, l)
				bad[i], bad[j] = true, true
			}
		}
	}
	s.order = s.order[:0]
	for i, b := range bad {
		if b {
			s.order = append(s.order, i)
		}
	}
	if raise {
		for k := range s.wt {
			s.wt[k] = max(float32(s.wt[k]*0.95), 1)
		}
		for k := range s.wland {
			s.wland[k] = max(float32(s.wland[k]*0.95), 1)
		}
		for _, h := range hits {
			f := float32(1.1+float64(0.4*h.l)/worst) / 0.95
			if h.j < 0 {
				s.wland[h.i] = min(float32(s.wland[h.i]*f), 1e12)
				continue
			}
			w := min(float32(s.wt[h.i*s.n+h.j]*f), 1e12)
			s.wt[h.i*s.n+h.j], s.wt[h.j*s.n+h.i] = w, w
		}
	}
	return sum
}

// exact tests the state in whole numbers. Pairs that fail get a little
// more distance; it reports whether all is well.
func (s *turnSep) exact() bool {
	ok := true
	rings := make([]Ring, s.n)
	for i, p := range s.at {
		if p.g < 0 {
			continue
		}
		b := s.bodies[s.items[i]]
		rings[i], _ = b.ringAt(int64(p.x), int64(p.y), p.a, p.mirrored)
		g := s.grounds[p.g]
		r := rings[i].box()
		if !g.takes(rings[i], b.class) || float64(r.x1) > s.limit[p.g] {
			s.eland[i] = 2*s.eland[i] + float32(4*s.slack)
			ok = false
		}
	}
	for g := range s.on {
		for k, i := range s.on[g] {
			for _, j := range s.on[g][k+1:] {
				if touches(rings[i], rings[j], int64(s.gap)) {
					s.extra[i*s.n+j] = 2*s.extra[i*s.n+j] + float32(4*s.slack)
					s.extra[j*s.n+i] = s.extra[i*s.n+j]
					ok = false
				}
			}
		}
	}
	s.work += int64(s.n * 50)
	return ok
}

func (s *turnSep) save() []pose { return append([]pose(nil), s.at...) }

func (s *turnSep) load(p []pose) {
	for i := range p {
		s.put(i, p[i])
	}
}

// separation is a search for a layout without overlap that can be stopped
// and taken up again.
type separation struct {
	*turnSep
	low     []pose
	lowLoss float64
	idle    int
	strikes int
	from    float64
	top     []pose // the best state before any shake
	topLoss float64
}

func (s *turnSep) begin() *separation {
	s.calm()
	clear(s.extra)
	clear(s.eland)
	l := s.weigh(false)
	return &separation{turnSep: s, low: s.save(), lowLoss: l, from: l, topLoss: math.MaxFloat64}
}

// run goes on until the layout is good or the work reaches until. shake is
// called when the search is stuck.
func (r *separation) run(until int64, patience int, ss searchSize, stop func() bool, shake func()) bool {
	s := r.turnSep
	for s.work < until && !stop() {
		if r.lowLoss == 0 || len(s.order) == 0 {
			if s.exact() {
				return true
			}
			r.lowLoss = s.weigh(false)
			r.low = s.save()
		}
		s.rng.shuffle(s.order)
		for _, i := range s.order {
			s.relocate(i, ss)
		}
		loss := s.weigh(true)
		if loss < r.lowLoss {
			if loss < r.lowLoss*0.98 {
				r.idle = 0
			}
			r.lowLoss = loss
			r.low = s.save()
		} else {
			r.idle++
		}
		if r.idle > patience {
			r.idle = 0
			if r.lowLoss < r.from*0.98 {
				r.strikes = 0
			} else {
				r.strikes++
			}
			r.from = r.lowLoss
			s.load(r.low)
			if r.strikes >= 3 {
				r.strikes = 0
				// Half of the time start again from the best state met.
				if r.lowLoss < r.topLoss {
					r.top, r.topLoss = r.low, r.lowLoss
				} else if s.rng.next()&1 == 0 {
					s.load(r.top)
				}
				shake()
				s.calm()
				r.lowLoss = s.weigh(false)
				r.from = r.lowLoss
				r.low = s.save()
			} else {
				s.weigh(false)
			}
		}
	}
	return false
}
