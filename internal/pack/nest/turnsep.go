package nest

import (
	"context"
	"math"

	"github.com/coverwright/coverwright/internal/geom"
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
	world  []cloud // samples where the piece lies
	trig   []struct{ s, c float64 }
	on     [][]int // pieces on each ground
	active []int   // grounds in use
	wt     []float32
	wland  []float32
	extra  []float32 // added distance per pair that failed the exact test
	eland  []float32
	rng    *rng
	work   int64
	most   int64 // work after which the search ends, also in the middle of a round
	payers int64 // searches that share the work of the maps
	ctx    context.Context
	order  []int
	try    cloud     // samples of the pose being tried
	near   []nearby  // neighbours of the pose being tried
	limit  []float64 // right edge per ground, at most box.x1
	lands  [][]*land // by ground and class, once asked for
	lastA  Angle
	lastS  float64
	lastC  float64
}

// nearby is a neighbour that may overlap, with a lower bound of the depth.
type nearby struct {
	j   int
	low float64
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
		at: make([]pose, n), world: make([]cloud, n), trig: make([]struct{ s, c float64 }, n), on: make([][]int, len(grounds)),
		wt: make([]float32, n*n), wland: make([]float32, n), extra: make([]float32, n*n), eland: make([]float32, n), rng: r, most: math.MaxInt64, payers: 1, ctx: context.Background(),
		limit: make([]float64, len(grounds)), lands: make([][]*land, len(grounds)), lastC: 1}
	span := 0.0
	for i, g := range grounds {
		span = max(span, float64(g.box.Max.Y-g.box.Min.Y))
		s.limit[i] = float64(g.box.Max.X)
		s.lands[i] = make([]*land, len(g.kinds))
	}
	s.slack = max(span/20000, 2)
	for i := range s.at {
		s.at[i].g = -1
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
		sn, cs := s.sincos(p.a)
		w := &s.world[i]
		w.lay(s.bodies[s.items[i]], p, sn, cs)
		for k := range w.groups {
			w.discsOf(k)
		}
		s.trig[i].s, s.trig[i].c = sn, cs
	}
}

// sincos remembers the last angle: most steps only shift a piece.
func (s *turnSep) sincos(a Angle) (sn, cs float64) {
	if a != s.lastA {
		s.lastA = a
		s.lastS, s.lastC = a.sincos()
	}
	return s.lastS, s.lastC
}

// cloud holds the samples of a body at a pose; those of a group are worked
// out when they are first needed.
type cloud struct {
	b      *body
	p      pose
	sn, cs float64
	discs  []disc
	groups []disc // circles about the groups
	done   []bool
}

// lay moves the cloud to a pose.
func (w *cloud) lay(b *body, p pose, sn, cs float64) {
	w.b, w.p, w.sn, w.cs = b, p, sn, cs
	if cap(w.discs) < len(b.discs) {
		w.discs = make([]disc, len(b.discs))
	}
	if cap(w.groups) < len(b.groups) {
		w.groups, w.done = make([]disc, len(b.groups)), make([]bool, len(b.groups))
	}
	w.discs, w.groups, w.done = w.discs[:len(b.discs)], w.groups[:len(b.groups)], w.done[:len(b.groups)]
	w.discs[0] = w.moved(b.discs[0])
	for k := range b.groups {
		w.groups[k] = w.moved(b.groups[k].round)
		w.done[k] = false
	}
}

func (w *cloud) moved(d disc) disc {
	if w.p.mirrored {
		d.x = -d.x
	}
	return disc{w.p.x + (float64(d.x*w.cs) - float64(d.y*w.sn)), w.p.y + (float64(d.x*w.sn) + float64(d.y*w.cs)), d.r}
}

// discsOf returns the samples of a group.
func (w *cloud) discsOf(k int) []disc {
	g := &w.b.groups[k]
	out := w.discs[g.from:g.to]
	if !w.done[k] {
		w.done[k] = true
		for i, d := range w.b.discs[g.from:g.to] {
			out[i] = w.moved(d)
		}
	}
	return out
}

// depthAt is the depth of a point in the body as it lies.
func (w *cloud) depthAt(x, y float64, safe bool) float64 {
	dx, dy := x-w.p.x, y-w.p.y
	lx := float64(dx*w.cs) + float64(dy*w.sn)
	ly := float64(dy*w.cs) - float64(dx*w.sn)
	if w.p.mirrored {
		lx = -lx
	}
	return w.b.f.look(lx, ly, safe)
}

// sunk is the greatest depth of the samples of o in the body of w, at
// least low; it stops at the first depth of cut or more. The first sample
// of o is not looked at.
func (w *cloud) sunk(o *cloud, low, cut float64, work *int64) float64 {
	r2 := w.b.radius
	*work += int64(len(o.groups)) / 4
	for k := range o.groups {
		g := &o.groups[k]
		dx, dy := g.x-w.p.x, g.y-w.p.y
		lim := r2 + g.r - low
		if lim <= 0 || float64(dx*dx)+float64(dy*dy) >= float64(lim*lim) {
			continue
		}
		*work++
		if w.depthAt(g.x, g.y, true)+g.r <= low {
			continue
		}
		*work += 4
		for _, d := range o.discsOf(k) {
			if v := d.r + w.depthAt(d.x, d.y, false); v > low {
				low = v
				if low >= cut {
					return low
				}
			}
		}
	}
	return low
}

// land is the map of ground g as the class of a body sees it.
func (s *turnSep) land(g, class int) *land {
	l := s.lands[g][class]
	if l == nil {
		l = s.grounds[g].land(class)
		s.lands[g][class] = l
		if !s.grounds[g].again {
			s.work += l.work / s.payers
		}
	}
	return l
}

// poleDepth is how deep the first sample sinks into what is blocked.
func (s *turnSep) poleDepth(w *cloud, l *land) float64 {
	g := s.grounds[w.p.g]
	d := &w.discs[0]
	v := max(d.x-s.limit[w.p.g], float64(g.box.Min.X)-d.x, d.y-float64(g.box.Max.Y), float64(g.box.Min.Y)-d.y)
	if l.f != nil {
		v = max(v, l.f.at(d.x, d.y))
	}
	return v
}

// landDepth is how deep the samples sink into what is blocked, at least
// low; pole is the answer of poleDepth.
func (s *turnSep) landDepth(w *cloud, l *land, pole, low, cut float64) float64 {
	g := s.grounds[w.p.g]
	x0, y0, x1, y1 := float64(g.box.Min.X), float64(g.box.Min.Y), s.limit[w.p.g], float64(g.box.Max.Y)
	if low = max(low, pole+w.discs[0].r); low >= cut {
		return low
	}
	// Well clear of everything: one look is enough.
	if pole+w.b.reach <= low {
		return low
	}
	s.work += int64(len(w.groups)) / 4
	for k := range w.groups {
		if pole+w.b.groups[k].far <= low {
			continue
		}
		c := &w.groups[k]
		v := max(c.x-x1, x0-c.x, c.y-y1, y0-c.y)
		if l.f != nil {
			v = max(v, l.f.at(c.x, c.y))
			s.work++
		}
		if v+c.r <= low {
			continue
		}
		s.work += 4
		for _, d := range w.discsOf(k) {
			// Beyond the box the map does not answer.
			v := max(d.x-x1, x0-d.x, d.y-y1, y0-d.y)
			if l.f != nil {
				v = max(v, l.f.at(d.x, d.y))
			}
			if v += d.r; v > low {
				low = v
				if low >= cut {
					return low
				}
			}
		}
	}
	s.work += int64(len(l.features)+len(l.rim)) / 8
	for k := range l.features {
		if low = w.pierced(&l.features[k], low, cut, &s.work); low >= cut {
			return low
		}
	}
	for k := range l.rim {
		long := &l.rim[k]
		dx, dy, r := long.x-w.p.x, long.y-w.p.y, long.radius+w.b.radius
		if float64(dx*dx)+float64(dy*dy) >= float64(r*r) {
			continue
		}
		for q := range long.parts {
			if low = w.pierced(&long.parts[q], low, cut, &s.work); low >= cut {
				return low
			}
		}
	}
	return low
}

// pierced is how deep a feature sits in the body, at least low.
func (w *cloud) pierced(ft *feature, low, cut float64, work *int64) float64 {
	dx, dy, r := ft.x-w.p.x, ft.y-w.p.y, ft.radius+w.b.radius-low
	if float64(dx*dx)+float64(dy*dy) >= float64(r*r) {
		return low
	}
	*work++
	if w.depthAt(ft.x, ft.y, true)+ft.radius <= low {
		return low
	}
	*work += int64(len(ft.discs)) / 2
	for _, d := range ft.discs {
		if v := d.r + w.depthAt(d.x, d.y, false); v > low {
			if low = v; low >= cut {
				return low
			}
		}
	}
	return low
}

// closeBy reports whether piece j may lie within keep of the body of w,
// and a depth of overlap that is not more than the true one.
func (s *turnSep) closeBy(w *cloud, j int, keep float64) (low float64, ok bool) {
	o := &s.world[j]
	dx, dy := o.p.x-w.p.x, o.p.y-w.p.y
	r := w.b.radius + o.b.radius + keep
	if float64(dx*dx)+float64(dy*dy) >= float64(r*r) {
		return 0, false
	}
	s.work++
	c := &o.discs[0]
	v := w.depthAt(c.x, c.y, true)
	if v <= -(o.b.reach + keep) {
		return 0, false
	}
	// The map is exact where it is above 0.
	if v > 0 {
		return v + c.r + keep, true
	}
	return max(w.depthAt(c.x, c.y, false)+c.r+keep, 0), true
}

// pairDepth is the depth of overlap of piece j with the body of w, at
// least low, which closeBy returned; 0 if they are apart by more than keep.
func (s *turnSep) pairDepth(w *cloud, j int, low, keep, cut float64) float64 {
	o := &s.world[j]
	low, cut = low-keep, cut-keep
	if low >= cut {
		return low + keep
	}
	c := &w.discs[0]
	v := o.depthAt(c.x, c.y, true)
	if v <= -(w.b.reach + keep) {
		return low + keep
	}
	low = max(low, o.depthAt(c.x, c.y, false)+c.r)
	s.work += 3
	if low >= cut {
		return low + keep
	}
	if low = w.sunk(o, low, cut, &s.work); low < cut {
		low = o.sunk(w, low, cut, &s.work)
	}
	return low + keep
}

// eval is the weighted overlap of piece i at a pose. It gives up with a
// huge number as soon as bound is reached; the first samples of all
// neighbours, which tell most, are looked at before any outline.
func (s *turnSep) eval(i int, p pose, bound float64) float64 {
	b := s.bodies[s.items[i]]
	sn, cs := s.sincos(p.a)
	w := &s.try
	w.lay(b, p, sn, cs)
	s.work += 6
	keep := s.slack + float64(s.eland[i])
	bound /= b.size
	fl := float64(float64(s.wland[i]) * b.size)
	l := s.land(p.g, b.class)
	pole := s.poleDepth(w, l)
	sum := float64(fl * max(pole+b.discs[0].r+keep, 0))
	if sum >= bound {
		return math.MaxFloat64
	}
	s.near = s.near[:0]
	s.work += int64(len(s.on[p.g])) / 8
	for _, j := range s.on[p.g] {
		if j == i {
			continue
		}
		at := i*s.n + j
		low, ok := s.closeBy(w, j, s.gap+s.slack+float64(s.extra[at]))
		if !ok {
			continue
		}
		s.near = append(s.near, nearby{j, low})
		if low > 0 {
			sum += float64(float64(float64(s.wt[at])*s.bodies[s.items[j]].size) * low)
			if sum >= bound {
				return math.MaxFloat64
			}
		}
	}
	old := max(pole+b.discs[0].r+keep, 0)
	if d := s.landDepth(w, l, pole, old-keep, old+(bound-sum)/fl-keep) + keep; d > old {
		sum += float64(fl * (d - old))
		if sum >= bound {
			return math.MaxFloat64
		}
	}
	for _, c := range s.near {
		at := i*s.n + c.j
		f := float64(float64(s.wt[at]) * s.bodies[s.items[c.j]].size)
		d := s.pairDepth(w, c.j, c.low, s.gap+s.slack+float64(s.extra[at]), c.low+(bound-sum)/f)
		if d > c.low {
			sum += float64(f * (d - c.low))
			if sum >= bound {
				return math.MaxFloat64
			}
		}
	}
	return sum * b.size
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
	l := s.land(p.g, b.class)
	x1 := int64(s.limit[p.g])
	for range 6 {
		p.x, p.y = float64(s.rng.between(g.box.Min.X, x1)), float64(s.rng.between(g.box.Min.Y, g.box.Max.Y))
		if l.f == nil || l.f.at(p.x, p.y) < -b.inner*0.7 {
			return
		}
	}
}

// lies, move and lift are those of a mover.
func (s *turnSep) lies(i int) pose    { return s.at[i] }
func (s *turnSep) move(i int, p pose) { s.put(i, p) }
func (s *turnSep) lift(i int)         { s.put(i, pose{g: -1}) }

// beside draws a pose about that of piece i: any angle, or one near by.
func (s *turnSep) beside(i, k int) (pose, bool) {
	b := s.bodies[s.items[i]]
	p := s.at[i]
	d := b.radius * 0.7
	p.x += math.Round((s.rng.float()*2 - 1) * d)
	p.y += math.Round((s.rng.float()*2 - 1) * d)
	if k&1 == 0 {
		s.anyAngle(b, &p)
	} else if a, ok := b.bent(p.a, Angle(s.rng.between(-20*int64(Degree), 20*int64(Degree)))); ok {
		p.a = a
	}
	return p, true
}

// anywhere draws a pose on the grounds in use.
func (s *turnSep) anywhere(i int) (pose, bool) {
	b := s.bodies[s.items[i]]
	p := pose{g: s.active[s.rng.intn(len(s.active))]}
	s.anyAngle(b, &p)
	s.somewhere(b, &p)
	return p, true
}

// instead draws a pose about that of another piece.
func (s *turnSep) instead(i int, at pose) (pose, bool) {
	b := s.bodies[s.items[i]]
	s.anyAngle(b, &at)
	at.x += math.Round((s.rng.float()*2 - 1) * b.inner / 3)
	at.y += math.Round((s.rng.float()*2 - 1) * b.inner / 3)
	return at, true
}

// step is the length of the steps of a descent.
func (b *body) step(g grade) float64 {
	switch g {
	case wideSteps:
		return b.inner / 2
	case middleSteps:
		return max(b.inner/25, 1)
	}
	return max(b.inner/800, 1)
}

// descend improves c by steps along, across and around.
func (s *turnSep) descend(i int, c *placed[pose], from, to grade) {
	b := s.bodies[s.items[i]]
	last := b.step(to)
	step, spin := b.step(from), b.step(from)
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

// partner draws a piece to change places with. Where there is more than one ground
// it lies on another.
func (s *turnSep) partner(i int) (int, bool) {
	a := float64(s.bodies[s.items[i]].area2)
	for range 6 {
		j := s.rng.intn(s.n)
		if s.items[j] == s.items[i] || s.at[j].g < 0 || len(s.active) > 1 && s.at[j].g == s.at[i].g {
			continue
		}
		if b := float64(s.bodies[s.items[j]].area2); b >= a*like && b*like <= a {
			return j, true
		}
	}
	return 0, false
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
		w := &s.world[i]
		keep := s.slack + float64(s.eland[i])
		s.work += 8 + int64(len(s.on[p.g]))/8
		ld := s.land(p.g, b.class)
		if d := s.landDepth(w, ld, s.poleDepth(w, ld), -keep, math.MaxFloat64) + keep; d > 0 {
			l := float64(float64(d*b.size) * b.size)
			hits = append(hits, hit{i, -1, l})
			sum += l
			worst = max(worst, l)
			bad[i] = true
		} else if s.eland[i] > 0 && raise && s.landDepth(w, ld, s.poleDepth(w, ld), -2*keep, -keep)+2*keep <= 0 {
			s.eland[i] = float32(s.eland[i] * 0.8)
		}
		for _, j := range s.on[p.g] {
			if j <= i {
				continue
			}
			keep := s.gap + s.slack + float64(s.extra[i*s.n+j])
			low, ok := s.closeBy(w, j, keep)
			if !ok {
				// Far apart: what an exact test asked for is forgotten.
				if e := s.extra[i*s.n+j]; e > 0 && raise {
					s.extra[i*s.n+j], s.extra[j*s.n+i] = float32(e*0.8), float32(e*0.8)
				}
				continue
			}
			if d := s.pairDepth(w, j, low, keep, math.MaxFloat64); d > 0 {
				l := float64(float64(d*b.size) * s.bodies[s.items[j]].size)
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
	rings := make([]geom.Ring, s.n)
	for i, p := range s.at {
		if p.g < 0 {
			continue
		}
		b := s.bodies[s.items[i]]
		rings[i], _ = b.ringAt(int64(p.x), int64(p.y), p.a, p.mirrored)
		g := s.grounds[p.g]
		r := rings[i].Bounds()
		if !g.takes(rings[i], b.class) || float64(r.Max.X) > s.limit[p.g] || !b.keeps(rings[i], p.a) {
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

// turnExchanges are the tries of an exchange after a relocation.
const turnExchanges = 2

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
			if s.work >= s.most || s.ctx.Err() != nil {
				break
			}
			settle(s, i, ss, turnExchanges)
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
