package nest

import (
	"context"
	"math"
	"math/bits"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// sep separates overlapping pieces of fixed orientations on a strip of
// width W (y) and length L (x). Every pair carries a weight that grows as
// long as the pair overlaps (guided local search).
type sep struct {
	c      *catalogue
	pieces []Piece
	n      int // pieces, those that cannot move last
	m      int // pieces that can move: the others are flaws
	W, L   int64
	x, y   []int64 // lower left corners of the boxes
	o      []int   // shape
	at     []spot  // the same, for the inner loop
	tables []lookup
	paid   []bool // by table: its work is counted
	payers int64  // searches that share the work of the tables
	most   int64  // work after which the search ends, also in the middle of a round
	ctx    context.Context
	wt     []float32
	size   []float64
	rng    *rng
	work   int64
	placed []bool
	fine   bool // search to the unit: the layout is close to the bound
	tied   bool // some piece lies on a repeat

	// Slabs of the strip, each with the set of pieces whose box meets it:
	// a query ands the union over x slabs with the union over y slabs.
	heavy  []int32 // pairs i*n+j, i < j, whose weight is above 1
	listed []bool  // by the same index

	words          int
	shiftX, shiftY uint
	slabX, slabY   []uint64
	order          []int
}

const slabs = 64

// newSep starts with no piece on the strip but the flaws, which are the last
// pieces of the catalogue.
func newSep(c *catalogue, pieces []Piece, flaws []geom.Box, width, maxLen int64, r *rng) *sep {
	n := len(c.items)
	s := &sep{c: c, pieces: pieces, n: n, m: n - len(flaws), W: width, L: maxLen, rng: r,
		x: make([]int64, n), y: make([]int64, n), o: make([]int, n),
		wt: make([]float32, n*n), listed: make([]bool, n*n), placed: make([]bool, n), words: (n + 63) / 64,
		size: make([]float64, n), at: make([]spot, n), tables: make([]lookup, len(c.shapes)*len(c.shapes)), paid: make([]bool, len(c.tables)), payers: 1,
		most: math.MaxInt64, ctx: context.Background()}
	s.tied = slices.ContainsFunc(pieces, tied)
	for maxLen>>s.shiftX >= slabs {
		s.shiftX++
	}
	for width>>s.shiftY >= slabs/2 {
		s.shiftY++
	}
	s.slabX = make([]uint64, slabs*s.words)
	s.slabY = make([]uint64, slabs*s.words)
	for i := range n {
		k := &c.kinds[c.items[i]]
		s.o[i] = k.shapes[0]
		s.size[i] = math.Sqrt(math.Sqrt(float64(k.hull2)))
	}
	s.calm()
	for k, f := range flaws {
		s.put(s.m+k, s.o[s.m+k], f.Min.X, f.Min.Y)
	}
	return s
}

// stripExchanges are the tries of an exchange after a relocation; among 1, 2 and 4 on
// smooth outlines and shops' cutting lists the more the better.
const stripExchanges = 4

// over tells that the search has to end.
func (s *sep) over() bool { return s.work >= s.most || s.ctx.Err() != nil }

// calm sets all weights back to 1.
func (s *sep) calm() {
	for i := range s.wt {
		s.wt[i] = 1
	}
	for _, k := range s.heavy {
		s.listed[k] = false
	}
	s.heavy = s.heavy[:0]
}

func slabAt(v int64, shift uint) int {
	k := v >> shift
	if k < 0 {
		return 0
	}
	if k >= slabs {
		return slabs - 1
	}
	return int(k)
}

func (s *sep) mark(i int, on bool) {
	sh := s.c.shapes[s.o[i]]
	word, bit := i>>6, uint64(1)<<(i&63)
	for k, e := slabAt(s.x[i], s.shiftX), slabAt(s.x[i]+sh.w-1, s.shiftX); k <= e; k++ {
		if on {
			s.slabX[k*s.words+word] |= bit
		} else {
			s.slabX[k*s.words+word] &^= bit
		}
	}
	for k, e := slabAt(s.y[i], s.shiftY), slabAt(s.y[i]+sh.h-1, s.shiftY); k <= e; k++ {
		if on {
			s.slabY[k*s.words+word] |= bit
		} else {
			s.slabY[k*s.words+word] &^= bit
		}
	}
}

func (s *sep) put(i, o int, x, y int64) {
	if s.placed[i] {
		s.mark(i, false)
	}
	s.o[i], s.x[i], s.y[i], s.placed[i] = o, x, y, true
	sh := s.c.shapes[o]
	s.at[i] = spot{x, y, x + sh.w, y + sh.h, int64(o)}
	s.mark(i, true)
}

// lift takes piece i off the strip.
func (s *sep) lift(i int) {
	if s.placed[i] {
		s.mark(i, false)
		s.placed[i] = false
	}
}

// spot is where a piece lies: its box and its shape.
type spot struct{ x0, y0, x1, y1, o int64 }

// table is the worker's own copy of the way to a pair table.
func (s *sep) table(a, b int) *lookup {
	l := &s.tables[a*len(s.c.shapes)+b]
	if l.t == nil {
		var k int
		*l, k = s.c.lookup(a, b)
		if !s.paid[k] {
			s.paid[k] = true
			s.work += l.t.work/s.payers + 1
		}
	}
	return l
}

// eval is the weighted overlap of piece i placed there, or anything not
// below bound as soon as the sum reaches bound.
func (s *sep) eval(i int, p lying, bound float64) float64 {
	c, o, x, y := s.c, p.o, p.x, p.y
	sh := c.shapes[o]
	gap := c.gap
	X0, X1, Y0, Y1 := x-gap, x+sh.w+gap, y-gap, y+sh.h+gap
	a0, a1 := slabAt(X0, s.shiftX), slabAt(X1-1, s.shiftX)
	b0, b1 := slabAt(Y0, s.shiftY), slabAt(Y1-1, s.shiftY)
	wt := s.wt[i*s.n : (i+1)*s.n]
	row := s.tables[o*len(c.shapes) : (o+1)*len(c.shapes)]
	bound /= s.size[i]
	sum := 0.0
	work := int64(6)
	for k := range s.words {
		var mx, my uint64
		for q := a0; q <= a1; q++ {
			mx |= s.slabX[q*s.words+k]
		}
		for q := b0; q <= b1; q++ {
			my |= s.slabY[q*s.words+k]
		}
		mx &= my
		for mx != 0 {
			b := bits.TrailingZeros64(mx)
			mx &= mx - 1
			j := k<<6 + b
			sp := &s.at[j]
			if sp.x0 >= X1 || sp.x1 <= X0 || sp.y0 >= Y1 || sp.y1 <= Y0 || j == i {
				continue
			}
			work++
			l := &row[sp.o]
			if l.t == nil {
				s.table(o, int(sp.o))
			}
			ux, uy := int64(l.flip)*(sp.x0-x)+l.px, int64(l.flip)*(sp.y0-y)+l.py
			ix, iy := ux>>l.shift, uy>>l.shift
			if uint64(ix) >= uint64(l.nx) || uint64(iy) >= uint64(l.ny) {
				continue
			}
			cell := l.cells[int(iy)*int(l.nx)+int(ix)]
			if cell == 0 {
				continue
			}
			var d float64
			work++
			if cell&0xffff != 0 {
				d = cell.inside(ux, uy, uint(l.shift))
			} else {
				var looked int64
				d, looked = l.t.border(cell, ux, uy)
				work += 1 + looked/2
			}
			if d > 0 {
				sum += float64(float64(float64(wt[j])*d) * s.size[j])
				if sum >= bound {
					s.work += work
					return math.MaxFloat64
				}
			}
		}
	}
	s.work += work
	return sum * s.size[i]
}

// fit moves (x, y) into the strip and onto the repeat; ok is false if the
// shape cannot lie in the strip at all.
func (s *sep) fit(i, o int, x, y int64) (int64, int64, bool) {
	sh := s.c.shapes[o]
	p := &s.pieces[s.c.kinds[s.c.items[i]].piece]
	y, oky := fitAxis(y, s.W-sh.h, sh.anchor.Y, p.PhaseY)
	x, okx := fitAxis(x, s.L-sh.w, sh.anchor.X, p.along(y+sh.anchor.Y))
	return x, y, okx && oky
}

// fitAxis is the value in 0..hi nearest to v at which v+anchor is in phase.
func fitAxis(v, hi, anchor int64, ph Phase) (int64, bool) {
	if hi < 0 {
		return 0, false
	}
	if ph.Every == 0 {
		return min(max(v, 0), hi), true
	}
	e := ph.Every
	r := (ph.At - anchor) % e // first legal value at or above 0
	if r < 0 {
		r += e
	}
	if r > hi {
		return 0, false
	}
	k := (v - r + e/2) / e
	if v-r+e/2 < 0 {
		k = 0
	}
	k = min(k, (hi-r)/e)
	return r + k*e, true
}

// lying is where a piece lies: its shape and the lower left corner of its box.
type lying struct {
	o    int
	x, y int64
}

// lies and move are those of a mover.
func (s *sep) lies(i int) lying    { return lying{s.o[i], s.x[i], s.y[i]} }
func (s *sep) move(i int, p lying) { s.put(i, p.o, p.x, p.y) }

// turnOf draws a shape of piece i.
func (s *sep) turnOf(i int) (o int, sh *shape) {
	k := &s.c.kinds[s.c.items[i]]
	o = k.shapes[s.rng.intn(len(k.shapes))]
	return o, s.c.shapes[o]
}

// about draws a place whose middle is up to so far from a point.
func (s *sep) about(i, o int, cx, cy, dx, dy int64) (lying, bool) {
	sh := s.c.shapes[o]
	x, y, ok := s.fit(i, o, s.rng.between(cx-dx, cx+dx)-sh.w/2, s.rng.between(cy-dy, cy+dy)-sh.h/2)
	return lying{o, x, y}, ok
}

// middle is that of the box of a place.
func (s *sep) middle(p lying) (x, y int64) {
	sh := s.c.shapes[p.o]
	return p.x + sh.w/2, p.y + sh.h/2
}

func (s *sep) beside(i, _ int) (lying, bool) {
	o, so := s.turnOf(i)
	x, y := s.middle(s.lies(i))
	return s.about(i, o, x, y, so.w/2, so.h/2)
}

// anywhere draws a place on all of the strip, for what is nearly a rectangle on plain
// goods two times of three one against another piece, where it is free more often.
func (s *sep) anywhere(i int) (lying, bool) {
	o, so := s.turnOf(i)
	if so.boxy && !s.tied && s.rng.intn(3) > 0 {
		return s.against(i, o, s.rng.intn(s.n))
	}
	x, y, ok := s.fit(i, o, s.rng.between(0, s.L-so.w), s.rng.between(0, s.W-so.h))
	return lying{o, x, y}, ok
}

// against draws a place where the boxes of piece i and of another touch, with one end of
// both level.
func (s *sep) against(i, o, other int) (lying, bool) {
	if other == i || !s.placed[other] {
		return lying{}, false
	}
	b, sh, r := &s.at[other], s.c.shapes[o], s.rng.next()
	x, y := b.x0, b.y0
	if r&1 != 0 {
		x = b.x1 - sh.w
	}
	if r&2 != 0 {
		y = b.y1 - sh.h
	}
	switch r >> 2 & 3 {
	case 0:
		x = b.x1 + s.c.gap
	case 1:
		x = b.x0 - s.c.gap - sh.w
	case 2:
		y = b.y1 + s.c.gap
	default:
		y = b.y0 - s.c.gap - sh.h
	}
	x, y, ok := s.fit(i, o, x, y)
	return lying{o, x, y}, ok
}

func (s *sep) instead(i int, at lying) (lying, bool) {
	o, _ := s.turnOf(i)
	x, y := s.middle(at)
	d := s.c.kinds[s.c.items[i]].minSide / 6
	return s.about(i, o, x, y, d, d)
}

// partner draws a piece of another kind and of like size to change places with.
func (s *sep) partner(i int) (int, bool) {
	k := s.c.items[i]
	a := float64(s.c.kinds[k].area2)
	for range 6 {
		j := s.rng.intn(s.m)
		if s.c.items[j] == k {
			continue
		}
		if b := float64(s.c.kinds[s.c.items[j]].area2); b >= a*like && b*like <= a {
			return j, true
		}
	}
	return 0, false
}

// step is the length of the steps of a descent.
func (s *sep) step(i int, g grade) int64 {
	side := s.c.kinds[s.c.items[i]].minSide
	switch {
	case g == wideSteps:
		return side / 4
	case g == middleSteps:
		return max(side/50, 1)
	case s.fine:
		return 1
	}
	return max(side/4000, 1)
}

// descend improves c by steps along and across, growing on success and
// halving on failure, until they fall below last.
func (s *sep) descend(i int, c *placed[lying], from, to grade) {
	if c.loss == 0 {
		return
	}
	first, last := s.step(i, from), s.step(i, to)
	p := &s.pieces[s.c.kinds[s.c.items[i]].piece]
	sx, sy := first, first
	for sx >= last || sy >= last {
		dir := s.rng.intn(4)
		var dx, dy [2]int64
		switch dir {
		case 0:
			dx = [2]int64{sx, -sx}
		case 1:
			dy = [2]int64{sy, -sy}
		case 2:
			dx, dy = [2]int64{sx, -sx}, [2]int64{sy, -sy}
		default:
			dx, dy = [2]int64{sx, -sx}, [2]int64{-sy, sy}
		}
		gained := false
		o, bx, by := c.p.o, c.p.x, c.p.y
		for t := range 2 {
			mx, my := dx[t], dy[t]
			if e := p.PhaseX.Every; mx != 0 && abs64(mx) < e {
				mx = e * mx / abs64(mx)
			}
			if e := p.PhaseY.Every; my != 0 && abs64(my) < e {
				my = e * my / abs64(my)
			}
			x, y, ok := s.fit(i, o, bx+mx, by+my)
			if !ok || (x == bx && y == by) {
				continue
			}
			if l := s.eval(i, lying{o, x, y}, c.loss); l < c.loss {
				c.p, c.loss = lying{o, x, y}, l
				gained = true
			}
		}
		if c.loss == 0 {
			return
		}
		if gained {
			if dir != 1 {
				sx += sx / 10
			}
			if dir != 0 {
				sy += sy / 10
			}
		} else {
			if dir != 1 {
				sx /= 2
			}
			if dir != 0 {
				sy /= 2
			}
		}
	}
}

// pairLoss is the unweighted overlap of two pieces.
func (s *sep) pairLoss(i, j int) float64 {
	a, b := &s.at[i], &s.at[j]
	g := s.c.gap
	if b.x0 >= a.x1+g || b.x1+g <= a.x0 || b.y0 >= a.y1+g || b.y1+g <= a.y0 {
		return 0
	}
	s.work++
	l := s.table(int(a.o), int(b.o))
	d := l.t.depthAt(int64(l.flip)*(b.x0-a.x0)+l.px, int64(l.flip)*(b.y0-a.y0)+l.py)
	if d == 0 {
		return 0
	}
	return float64(d*s.size[i]) * s.size[j]
}

// weigh sums the overlaps and raises the weights of overlapping pairs; it
// returns the sum, and in order the pieces that overlap something.
func (s *sep) weigh(raise bool) float64 {
	type hit struct {
		i, j int
		l    float64
	}
	var hits []hit
	sum, worst := 0.0, 0.0
	bad := make([]bool, s.n)
	for i := range s.m {
		a, g := &s.at[i], s.c.gap
		a0, a1 := slabAt(a.x0-g, s.shiftX), slabAt(a.x1+g-1, s.shiftX)
		b0, b1 := slabAt(a.y0-g, s.shiftY), slabAt(a.y1+g-1, s.shiftY)
		for k := i >> 6; k < s.words; k++ {
			var mx, my uint64
			for q := a0; q <= a1; q++ {
				mx |= s.slabX[q*s.words+k]
			}
			for q := b0; q <= b1; q++ {
				my |= s.slabY[q*s.words+k]
			}
			mx &= my
			if k == i>>6 {
				mx &^= 2<<(i&63) - 1 // only those after i
			}
			for ; mx != 0; mx &= mx - 1 {
				j := k<<6 + bits.TrailingZeros64(mx)
				if l := s.pairLoss(i, j); l > 0 {
					hits = append(hits, hit{i, j, l})
					sum += l
					worst = max(worst, l)
					bad[i], bad[j] = true, true
				}
			}
		}
	}
	s.order = s.order[:0]
	for i, b := range bad[:s.m] {
		if b {
			s.order = append(s.order, i)
		}
	}
	if raise {
		kept := s.heavy[:0]
		for _, k := range s.heavy {
			i, j := int(k)/s.n, int(k)%s.n
			w := max(float32(s.wt[k]*0.95), 1)
			s.wt[k], s.wt[j*s.n+i] = w, w
			if s.listed[k] = w > 1; w > 1 {
				kept = append(kept, k)
			}
		}
		s.heavy = kept
		for _, h := range hits {
			if k := h.i*s.n + h.j; !s.listed[k] {
				s.listed[k] = true
				s.heavy = append(s.heavy, int32(k))
			}
			f := float32(1.2+float64(0.8*h.l)/worst) / 0.95
			if w := s.wt[h.i*s.n+h.j]; w < 1e12 {
				s.wt[h.i*s.n+h.j] = float32(w * f)
				s.wt[h.j*s.n+h.i] = float32(w * f)
			}
		}
	}
	return sum
}

type snapshot struct {
	length int64
	loss   float64
	x, y   []int64
	o      []int
}

func (b *snapshot) clone() *snapshot {
	return &snapshot{length: b.length, loss: b.loss, x: slices.Clone(b.x), y: slices.Clone(b.y), o: slices.Clone(b.o)}
}

func (s *sep) save(b *snapshot) {
	b.x = append(b.x[:0], s.x...)
	b.y = append(b.y[:0], s.y...)
	b.o = append(b.o[:0], s.o...)
	b.length = s.L
}

func (s *sep) load(b *snapshot) {
	for i := range s.m {
		s.put(i, b.o[i], b.x[i], b.y[i])
	}
	s.L = b.length
}

// extent is the length in use.
func (s *sep) extent() int64 {
	var e int64
	for i := range s.m {
		e = max(e, s.x[i]+s.c.shapes[s.o[i]].w)
	}
	return e
}

// separate works until nothing overlaps or strikes attempts in a row did
// not help. check is called after every round and stops the search by
// returning false. The best state met is left in place.
func (s *sep) separate(strikes, patience int, ss searchSize, check func() bool) (loss float64, ok bool) {
	loss = s.weigh(false)
	var low snapshot
	s.save(&low)
	lowLoss := loss
	for strike := 0; strike < strikes && lowLoss > 0; {
		from := lowLoss
		for idle := 0; idle < patience; {
			s.rng.shuffle(s.order)
			for _, i := range s.order {
				if s.over() {
					break
				}
				settle(s, i, ss, stripExchanges)
			}
			loss = s.weigh(true)
			if loss < lowLoss {
				if loss < lowLoss*0.98 {
					idle = 0
				}
				lowLoss = loss
				s.save(&low)
				if loss == 0 {
					return 0, true
				}
			} else {
				idle++
			}
			if !check() {
				s.load(&low)
				return lowLoss, false
			}
		}
		if lowLoss < from*0.98 {
			strike = 0
		} else {
			strike++
		}
		s.load(&low)
		s.weigh(false)
	}
	s.load(&low)
	s.weigh(false)
	return lowLoss, lowLoss == 0
}
