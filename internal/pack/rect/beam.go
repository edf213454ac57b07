package rect

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// The beam looks for a layout of a fixed height. It builds layouts box by box, always at the lowest gap of the
// skyline, and keeps only the most promising partial layouts of each size. Promising means: little wasted, the
// difficult boxes (large, tall) already placed, and a smooth skyline. Partial layouts with the same boxes placed and
// the same skyline are equal and kept once.

// guide weighs what makes a partial layout promising.
type guide struct {
	waste float64 // per mean box area wasted
	segs  float64 // per part of the skyline
	power float64 // worth of a box: its area to this power ...
	tall  float64 // ... plus its height against the height limit times this
	noise float64 // random share, for variety
	slot  float64 // dread of narrow gaps beside a box
}

type beamNode struct {
	sky    int32 // first part of the skyline in the arena
	segs   int32 // number of parts
	low    int32 // index of the lowest one
	parent int32
	waste  float64
	lost   float64 // that will be wasted at least
	worth  float64
	hash   uint64 // of the boxes placed
}

// kid is a way to extend a partial layout by one box.
type kid struct {
	cost   float64
	worth  float64
	parent int32
	entry  int32 // entry<<1 | right
}

// trail is one step on the way back from a complete layout: the partial layout extended and the kid's entry.
type trail struct{ parent, entry int32 }

type beam struct {
	width, limit int64
	ents         []entry
	twin         []int32  // the other way to lay the same box, or -1
	same         []bool   // entry k equals entry k-1
	zob          []uint64 // random key of each box, by entry
	byTall       []int32  // entries by the least height of their box, high ones first
	minH         []int64  // least height of the box, by entry
	worth        []float64
	n, words     int
	total, mean  float64
	meanW        float64
	units        int64
	depth        int  // boxes that the last search laid before it failed
	full         bool // the last search had more partial layouts than it could keep
	rng          rnd
	g            guide

	cur, nxt   []beamNode
	skyA, skyB []seg
	useA, useB []uint64 // words per node
	kids       []kid
	trails     [][]trail
	seen       hashSet
	end        endgame
	tmp        []seg
}

func newBeam(width int64, boxes []box, seed uint64) *beam {
	b := &beam{width: width, ents: entries(width, boxes), n: len(boxes), rng: rnd{seed}}
	m := len(b.ents)
	b.twin, b.same, b.zob = make([]int32, m), make([]bool, m), make([]uint64, m)
	b.minH, b.worth, b.byTall = make([]int64, m), make([]float64, m), make([]int32, m)
	first := make([]int32, len(boxes))
	for i := range first {
		first[i] = -1
	}
	for i, e := range b.ents {
		b.twin[i], b.minH[i], b.byTall[i] = -1, e.h, int32(i)
		b.zob[i] = b.rng.next()
		if j := first[e.box]; j >= 0 {
			b.twin[i], b.twin[j] = j, int32(i)
			b.minH[i] = min(e.h, b.ents[j].h)
			b.minH[j] = b.minH[i]
			b.zob[i] = b.zob[j]
		} else {
			first[e.box] = int32(i)
		}
		b.same[i] = i > 0 && b.ents[i-1].w == e.w && b.ents[i-1].h == e.h && boxes[b.ents[i-1].box].turn == boxes[e.box].turn
	}
	slices.SortStableFunc(b.byTall, func(x, y int32) int { return cmp.Compare(b.minH[y], b.minH[x]) })
	b.words = (m + 63) / 64
	for _, x := range boxes {
		b.total += float64(float64(x.w) * float64(x.h))
	}
	b.mean = b.total / float64(len(boxes))
	for _, x := range boxes {
		b.meanW += float64(x.w) / float64(len(boxes))
	}
	return b
}

// setWorth gives every box its worth; the mean over boxes is 1.
func (b *beam) setWorth(g guide) {
	sum := 0.0
	for i, e := range b.ents {
		a := float64(float64(e.w)*float64(e.h)) / b.mean
		switch g.power {
		case 1:
		case 0.5:
			a = math.Sqrt(a)
		case 0.75:
			a = math.Sqrt(a) * math.Sqrt(math.Sqrt(a))
		}
		a += float64(g.tall * float64(b.n) * float64(b.minH[i]) / float64(b.limit))
		b.worth[i] = a
		sum += a
	}
	scale := float64(len(b.ents)) / sum
	for i := range b.worth {
		b.worth[i] *= scale
	}
}

func segHash(s seg) uint64 {
	z := uint64(s.x)*0x9e3779b97f4a7c15 ^ (uint64(s.y)+1)*0xc2b2ae3d27d4eb4f
	z = (z ^ z>>29) * 0xbf58476d1ce4e5b9
	return z ^ z>>32
}

func lowest(sky []seg) int {
	low := 0
	for i := 1; i < len(sky); i++ {
		if sky[i].y < sky[low].y {
			low = i
		}
	}
	return low
}

// search tries to place everything under limit, keeping at most size partial layouts. It gives up after maxUnits work
// or when stop says so.
func (b *beam) search(limit int64, size int, g guide, maxUnits int64, stop func() bool) ([]spot, bool) {
	if len(b.byTall) > 0 && b.minH[b.byTall[0]] > limit {
		return nil, false
	}
	b.limit, b.g = limit, g
	budget := float64(float64(b.width)*float64(limit)) - b.total
	budget += float64(1e-9 * b.total) // rounding of the sums
	if budget < 0 {
		return nil, false
	}
	b.setWorth(g)
	b.setEndgame()
	b.full = false
	last := b.units + maxUnits
	b.skyA = append(b.skyA[:0], seg{0, 0, b.width})
	b.useA = append(b.useA[:0], make([]uint64, b.words)...)
	b.cur = append(b.cur[:0], beamNode{segs: 1, parent: -1})
	for len(b.trails) < b.n {
		b.trails = append(b.trails, nil)
	}
	for depth := range b.n {
		b.depth = depth
		if b.units > last || stop() {
			return nil, false
		}
		b.kids = b.kids[:0]
		cut := math.Inf(1)
		for pi := range b.cur {
			if pi&1023 == 1023 && stop() {
				return nil, false
			}
			b.expand(int32(pi), budget, cut)
			if len(b.kids) > 8*size+64 {
				selectKids(b.kids, 2*size+8)
				b.kids = b.kids[:2*size+8]
				cut = 0
				for i, k := range b.kids {
					if i == 0 || k.cost > cut {
						cut = k.cost
					}
				}
			}
		}
		if len(b.kids) == 0 {
			return nil, false
		}
		if len(b.kids) > 2*size+8 {
			selectKids(b.kids, 2*size+8)
			b.kids = b.kids[:2*size+8]
		}
		slices.SortFunc(b.kids, cmpKid)
		b.units += int64(len(b.kids) * 40)
		b.full = b.full || len(b.kids) > size
		b.seen.reset(min(2*size, len(b.kids)))
		b.units += int64(len(b.seen.slot) / 8)
		b.nxt, b.skyB, b.useB = b.nxt[:0], b.skyB[:0], b.useB[:0]
		tr := b.trails[depth][:0]
		for _, k := range b.kids {
			if len(b.nxt) >= size {
				break
			}
			if t, ok := b.grow(k, b.n-depth-1, budget); ok {
				tr = append(tr, t)
			}
		}
		b.trails[depth] = tr
		if len(b.nxt) == 0 {
			return nil, false
		}
		b.cur, b.nxt = b.nxt, b.cur
		b.skyA, b.skyB = b.skyB, b.skyA
		b.useA, b.useB = b.useB, b.useA
	}
	way := make([]int32, b.n)
	at := int32(0)
	for d := b.n - 1; d >= 0; d-- {
		t := b.trails[d][at]
		way[d], at = t.entry, t.parent
	}
	return b.replay(way), true
}

// replay lays the boxes again in the order found and returns their places.
func (b *beam) replay(way []int32) []spot {
	out := make([]spot, b.n)
	b.skyA = append(b.skyA[:0], seg{0, 0, b.width})
	b.useA = append(b.useA[:0], make([]uint64, b.words)...)
	b.cur = append(b.cur[:0], beamNode{segs: 1, parent: -1})
	for d, k := range way {
		e := b.ents[k>>1]
		s := b.skyA[b.cur[0].sky+b.cur[0].low]
		x := s.x
		if k&1 == 1 {
			x += s.w - e.w
		}
		out[e.box] = spot{x, s.y, e.turned}
		b.seen.reset(2)
		b.nxt, b.skyB, b.useB = b.nxt[:0], b.skyB[:0], b.useB[:0]
		b.grow(kid{parent: 0, entry: k}, b.n-d-1, math.Inf(1))
		b.cur, b.nxt = b.nxt, b.cur
		b.skyA, b.skyB = b.skyB, b.skyA
		b.useA, b.useB = b.useB, b.useA
	}
	return out
}

func cmpKid(x, y kid) int {
	switch {
	case x.cost < y.cost:
		return -1
	case x.cost > y.cost:
		return 1
	case x.parent != y.parent:
		return int(x.parent) - int(y.parent)
	}
	return int(x.entry) - int(y.entry)
}

// selectKids moves the k smallest to the front.
func selectKids(a []kid, k int) {
	lo, hi := 0, len(a)-1
	for lo < hi {
		m := lo + (hi-lo)/2
		if cmpKid(a[m], a[lo]) < 0 {
			a[m], a[lo] = a[lo], a[m]
		}
		if cmpKid(a[hi], a[lo]) < 0 {
			a[hi], a[lo] = a[lo], a[hi]
		}
		if cmpKid(a[hi], a[m]) < 0 {
			a[hi], a[m] = a[m], a[hi]
		}
		p := a[m].cost
		i, j := lo, hi
		for i <= j {
			for a[i].cost < p {
				i++
			}
			for a[j].cost > p {
				j--
			}
			if i <= j {
				a[i], a[j] = a[j], a[i]
				i++
				j--
			}
		}
		switch {
		case k-1 <= j:
			hi = j
		case k-1 >= i:
			lo = i
		default:
			return
		}
	}
}

const noWall = int64(1) << 61

// lowGap is the lowest gap of a partial layout, with what it takes to judge a box in it.
type lowGap struct {
	seg
	node        *beamNode
	parent      int32
	room        int64 // up to the limit
	left, right int64 // rise of the walls
	// the width of the narrowest box left, that box, and the width of the next one
	min1, min2 int64
	minBox     int32
	perMean    float64 // cost of an area wasted
	budget     float64 // area that may be wasted
	cut        float64 // cost over which a way is not worth keeping
}

// expand lists the ways to lay a box in the lowest gap of a partial layout.
func (b *beam) expand(pi int32, budget, cut float64) {
	nd := &b.cur[pi]
	sky := b.skyA[nd.sky : nd.sky+nd.segs]
	used := b.useA[int(pi)*b.words : int(pi+1)*b.words]
	low := int(nd.low)
	g := lowGap{seg: sky[low], node: nd, parent: pi, left: noWall, right: noWall,
		perMean: b.g.waste / b.mean, budget: budget, cut: cut}
	g.room = b.limit - g.y
	if low > 0 {
		g.left = sky[low-1].y - g.y
	}
	if low+1 < len(sky) {
		g.right = sky[low+1].y - g.y
	}
	if !b.tallestFits(used, g.room) {
		return
	}
	g.min1, g.min2, g.minBox = b.narrowest(used)
	prev, cnt := -2, 0
	base := float64(g.perMean*(nd.waste+nd.lost)) + float64(b.g.segs*float64(len(sky))) - nd.worth
scan:
	for w := range used {
		for m := ^used[w]; m != 0; m &= m - 1 {
			k := w*64 + bits.TrailingZeros64(m)
			if k >= len(b.ents) {
				break scan
			}
			e := &b.ents[k]
			if e.w > g.w {
				break scan
			}
			cnt++
			twinRun := b.same[k] && prev == k-1
			prev = k
			if twinRun || e.h > g.room {
				continue
			}
			cost := base - b.worth[k]
			if b.g.noise > 0 {
				cost += float64(b.g.noise * float64(b.rng.next()>>40) / (1 << 24))
			}
			if e.w == g.w {
				if e.h == g.left {
					cost -= b.g.segs
				}
				if e.h == g.right {
					cost -= b.g.segs
				}
				b.keepKid(&g, k, 0, cost)
				continue
			}
			b.beside(&g, k, e, cost)
		}
	}
	b.units += int64(cnt*8 + 2*b.words + 40)
}

// keepKid notes a way to lay entry k on the left (side 0) or right of the gap.
func (b *beam) keepKid(g *lowGap, k, side int, cost float64) {
	if cost <= g.cut {
		b.kids = append(b.kids, kid{cost, g.node.worth + b.worth[k], g.parent, int32(k<<1 | side)})
	}
}

// tallestFits reports whether the tallest box left fits under the limit.
func (b *beam) tallestFits(used []uint64, room int64) bool {
	for _, k := range b.byTall {
		if used[k>>6]>>(k&63)&1 == 0 {
			return b.minH[k] <= room
		}
	}
	return true
}

// narrowest finds the narrowest box left, and the width of the next one.
func (b *beam) narrowest(used []uint64) (min1, min2 int64, minBox int32) {
	min1, min2, minBox = noWall, noWall, -1
	for w := range used {
		for m := ^used[w]; m != 0; m &= m - 1 {
			k := w*64 + bits.TrailingZeros64(m)
			if k >= len(b.ents) {
				return min1, min2, minBox
			}
			if e := &b.ents[k]; minBox < 0 {
				min1, minBox = e.w, e.box
			} else if e.box != minBox {
				return min1, e.w, minBox
			}
		}
	}
	return min1, min2, minBox
}

// beside is the way to lay an entry that is narrower than the gap: beside the higher wall. In a layout without waste some
// box stands there, so nothing is missed, and half as many ways leave room for twice as many layouts.
func (b *beam) beside(g *lowGap, k int, e *entry, cost float64) {
	res := g.w - e.w
	mw := g.min1
	if e.box == g.minBox {
		mw = g.min2
	}
	side, near, far := 0, g.left, g.right
	if g.right > g.left {
		side, near, far = 1, far, near
	}
	if e.h != near {
		cost += b.g.segs
	}
	if res < mw {
		lost := float64(float64(min(e.h, far, g.room)) * float64(res))
		if g.node.waste+lost > g.budget {
			return
		}
		cost += float64(g.perMean * lost)
	}
	if b.g.slot > 0 && res >= mw {
		cost += float64(b.g.slot * b.meanW / (b.meanW + float64(res)))
	}
	b.keepKid(g, k, side, cost)
}

// grow makes the partial layout of a kid, after which some boxes are left, and fills up the gaps nothing fits into. It
// reports false when the layout is a duplicate or cannot be completed.
func (b *beam) grow(k kid, left int, budget float64) (trail, bool) {
	p := &b.cur[k.parent]
	id, right := k.entry>>1, k.entry&1 == 1
	e := &b.ents[id]
	b.tmp = laidOn(append(b.tmp[:0], b.skyA[p.sky:p.sky+p.segs]...), int(p.low), e.w, e.h, right)
	sky := b.tmp
	off := len(b.useB)
	b.useB = append(b.useB, b.useA[int(k.parent)*b.words:int(k.parent+1)*b.words]...)
	used := b.useB[off:]
	used[id>>6] |= 1 << (id & 63)
	if t := b.twin[id]; t >= 0 {
		used[t>>6] |= 1 << (t & 63)
	}
	waste, low := p.waste, lowest(sky)
	b.units += int64(len(sky)*6 + 4*b.words + 40)
	for left > 0 {
		g := sky[low]
		room := b.limit - g.y
		if room <= 0 {
			b.useB = b.useB[:off]
			return trail{}, false
		}
		if b.fits(used, g.w, room) {
			break
		}
		lo := room
		if low > 0 {
			lo = min(lo, sky[low-1].y-g.y)
		}
		if low+1 < len(sky) {
			lo = min(lo, sky[low+1].y-g.y)
		}
		waste += float64(float64(lo) * float64(g.w))
		if waste > budget {
			b.useB = b.useB[:off]
			return trail{}, false
		}
		sky[low].y += lo
		sky = mergeAt(sky, low)
		low = lowest(sky)
	}
	hash := p.hash + b.zob[id]
	h := hash
	for _, q := range sky {
		h ^= segHash(q)
	}
	if !b.seen.add(h) {
		b.useB = b.useB[:off]
		return trail{}, false
	}
	lost := 0.0
	if left > 0 && left <= endgameFrom && b.end.unit[0] > 0 {
		if lost = b.lost(used, sky); waste+lost > budget {
			b.useB = b.useB[:off]
			return trail{}, false
		}
	}
	b.nxt = append(b.nxt, beamNode{
		sky: int32(len(b.skyB)), segs: int32(len(sky)), low: int32(low), parent: k.parent,
		waste: waste, lost: lost, worth: k.worth, hash: hash,
	})
	b.skyB = append(b.skyB, sky...)
	return trail{k.parent, k.entry}, true
}

// fits reports whether any box left goes into a gap.
func (b *beam) fits(used []uint64, gap, room int64) bool {
	for w := range used {
		for m := ^used[w]; m != 0; m &= m - 1 {
			k := w*64 + bits.TrailingZeros64(m)
			if k >= len(b.ents) || b.ents[k].w > gap {
				return false
			}
			if b.ents[k].h <= room {
				return true
			}
		}
	}
	return false
}

// laidOn is the skyline after a piece of w by h is laid on part i, at its left or its right end.
func laidOn(sky []seg, i int, w, h int64, right bool) []seg {
	s := sky[i]
	switch {
	case w == s.w:
		sky[i].y += h
		return mergeAt(sky, i)
	case !right:
		sky[i].x += w
		sky[i].w -= w
		if i > 0 && sky[i-1].y == s.y+h {
			sky[i-1].w += w
			return sky
		}
		return slices.Insert(sky, i, seg{s.x, s.y + h, w})
	}
	sky[i].w -= w
	if i+1 < len(sky) && sky[i+1].y == s.y+h {
		sky[i+1].x -= w
		sky[i+1].w += w
		return sky
	}
	return slices.Insert(sky, i+1, seg{s.x + s.w - w, s.y + h, w})
}

// mergeAt joins part i of a skyline with neighbours of the same level.
func mergeAt(sky []seg, i int) []seg {
	if i+1 < len(sky) && sky[i+1].y == sky[i].y {
		sky[i].w += sky[i+1].w
		sky = slices.Delete(sky, i+1, i+2)
	}
	if i > 0 && sky[i-1].y == sky[i].y {
		sky[i-1].w += sky[i].w
		sky = slices.Delete(sky, i, i+1)
	}
	return sky
}

// hashSet is a set of 64-bit hashes that is emptied often.
type hashSet struct {
	slot []uint64
	mask uint64
}

func (s *hashSet) reset(n int) {
	size := 64
	for size < 2*n {
		size *= 2
	}
	if cap(s.slot) < size {
		s.slot = make([]uint64, size)
	}
	s.slot, s.mask = s.slot[:size], uint64(size-1)
	clear(s.slot)
}

// add reports whether h was new.
func (s *hashSet) add(h uint64) bool {
	if h == 0 {
		h = 1
	}
	for i := h & s.mask; ; i = (i + 1) & s.mask {
		switch s.slot[i] {
		case 0:
			s.slot[i] = h
			return true
		case h:
			return false
		}
	}
}
