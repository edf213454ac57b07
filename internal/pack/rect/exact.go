package rect

import (
	"cmp"
	"context"
	"math"
	"math/bits"
	"slices"
)

// exact finds a shortest layout of a few boxes by branch and bound, or proves that there is none below a height.
//
// Boxes are laid at the corners of a staircase: the outline of everything to the left of and below a box laid so far.
// Every layout can be pushed to the left and down, box by box in a suitable order, until each stands in such a corner
// (Martello, Pisinger and Vigo 2000); with a repeat, in the first legal place right of and above the corner. What the
// staircase encloses beyond the boxes is lost, which bounds the search. States met again are cut off.
type exact struct {
	width, limit int64 // all boxes must end at or below limit
	boxes        []exactBox
	units, stop  int64
	ctx          context.Context
	seen         []uint64
	memory       []memory
	high, across sides
	stairs       [maxExact + 1][]stair // scratch by depth
	usable       [maxExact + 1][]bool
	rep          Repeat
	phases       int64 // classes of columns with different drop
	unique       bool  // the first box is the only one of its kind and may be reflected
	spots        []exactSpot
	cut          bool // the budget ran out
}

// exactBox is a box with its ways to be laid; equal boxes share kind.
type exactBox struct {
	lays  []lay
	match Axes
	kind  int
	key   uint64
	area  wide
}

type exactSpot struct {
	x, y int64
	lay  int
}

// stair is a step of the staircase: from x on (up to the next step) it has height y.
type stair struct{ x, y int64 }

// maxExact is the largest number of boxes the exact search is tried on.
const maxExact = 16

// newExact prepares the search. Sizes include the gap, and so does width.
func newExact(ctx context.Context, width int64, parts []part, gap int64, rep Repeat) (*exact, []int) {
	e := &exact{width: width + gap, ctx: ctx, rep: rep, phases: 1}
	order := make([]int, len(parts))
	for i := range order {
		order[i] = i
	}
	area := func(p *part) float64 { return float64(p.lays[0].w) * float64(p.lays[0].h) }
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := area(&parts[a]), area(&parts[b])
		return cmp.Compare(y, x)
	})
	plain := true
	r := rnd{1}
	for _, i := range order {
		p := &parts[i]
		b := exactBox{match: p.match, kind: len(e.boxes)}
		for _, l := range p.lays {
			l.w += gap
			l.h += gap
			b.lays = append(b.lays, l)
		}
		b.area = mul(b.lays[0].w, b.lays[0].h)
		plain = plain && p.match == 0
		for k := range e.boxes {
			if o := &e.boxes[k]; o.match == b.match && slices.Equal(o.lays, b.lays) {
				b.kind, b.key = o.kind, o.key
				break
			}
		}
		if b.key == 0 {
			b.key = r.next()
		}
		e.boxes = append(e.boxes, b)
	}
	if rep.DropNum > 0 {
		e.phases = rep.DropDen
	}
	e.unique = plain
	for k := 1; k < len(e.boxes); k++ {
		if e.boxes[k].kind == 0 {
			e.unique = false
		}
	}
	return e, order
}

// below searches a layout that ends at or below limit. It reports the places (nil if none was found) and whether the
// search was complete.
func (e *exact) below(limit, budget int64) (spots []exactSpot, complete bool) {
	e.limit, e.stop, e.cut = limit, e.units+budget, false
	if e.seen == nil {
		e.seen = make([]uint64, 1<<min(21, 8+len(e.boxes)))
	}
	clear(e.seen)
	e.memory = make([]memory, 1<<len(e.boxes))
	e.spots = make([]exactSpot, len(e.boxes))
	e.high = newSides(limit, e.boxes, func(l lay) int64 { return l.h })
	e.across = newSides(e.width, e.boxes, func(l lay) int64 { return l.w })
	if limit > 0 && e.dive(0, []stair{{0, 0}}, 0) {
		return e.spots, true
	}
	return nil, !e.cut
}

func (e *exact) dive(done uint32, stairs []stair, hash uint64) bool {
	n := len(e.boxes)
	if int(done) == 1<<n-1 {
		return true
	}
	left := n - bits.OnesCount32(done)
	e.units += int64(250 + 100*len(stairs))
	if e.units > e.stop || e.ctx.Err() != nil {
		e.cut = true
		return false
	}
	h := hash
	for _, c := range stairs {
		h ^= segHash(seg{c.x, c.y, 0})
	}
	if !e.fresh(h) || e.dominated(done, stairs) {
		return false
	}
	usable, hopeless := e.judge(done, stairs, e.usable[n-left][:0])
	e.usable[n-left] = usable
	if hopeless {
		return false
	}
	for s := len(stairs) - 1; s >= 0; s-- { // low corners first
		if !usable[s] {
			continue
		}
		c := stairs[s]
		var tried uint32
		for k := range n {
			b := &e.boxes[k]
			if done>>k&1 == 1 || tried>>b.kind&1 == 1 {
				continue
			}
			tried |= 1 << b.kind
			for li, l := range b.lays {
				for ph := range e.phases {
					x, y, ok := e.legal(b, l, c, ph)
					if !ok || x+l.w > e.width || y+l.h > e.limit {
						continue
					}
					if k == 0 && e.unique && (x > e.width-l.w-x || y > e.limit-l.h-y) {
						continue // the mirror image is tried instead
					}
					e.spots[k] = exactSpot{x, y, li}
					next := raise(e.stairs[n-left][:0], stairs, x+l.w, y+l.h)
					e.stairs[n-left] = next
					if e.dive(done|1<<k, next, hash+b.key) {
						return true
					}
					if e.cut {
						return false
					}
				}
			}
		}
	}
	return false
}

// judge says which corners a box left can be laid in, and whether what is left cannot be laid at all: by the area it
// needs, and by what the sums of its sides can cover, by columns and by rows.
func (e *exact) judge(done uint32, stairs []stair, usable []bool) ([]bool, bool) {
	left := e.area(done)
	need := left
	e.reach(done)
	var columns, rows wide // area that can still be covered
	above := e.limit
	for s, c := range stairs {
		ok := false
		end := e.width
		if s+1 < len(stairs) {
			end = min(end, stairs[s+1].x)
		}
		if c.y < e.limit && c.x < e.width {
			ok = e.fitsCorner(done, c)
			columns.addMul(end-c.x, e.high.below(e.limit-c.y))
			rows.addMul(above-c.y, e.across.below(e.width-c.x))
			above = c.y
			if !ok { // the cell of the corner cannot be covered
				top := e.limit
				if s > 0 {
					top = min(top, stairs[s-1].y)
				}
				need.addMul(end-c.x, top-c.y)
			}
		}
		usable = append(usable, ok)
	}
	if rows.less(columns) {
		columns = rows
	}
	return usable, columns.less(left) || e.free(stairs).less(need)
}

// fresh reports whether a state is met for the first time. The memory of states is of fixed size: new states replace
// old ones, so a state may be explored again, which costs time but not correctness.
func (e *exact) fresh(h uint64) bool {
	if h == 0 {
		h = 1
	}
	at := int(h>>40) % (len(e.seen) - 1)
	if e.seen[at] == h || e.seen[at+1] == h {
		return false
	}
	e.seen[at+1], e.seen[at] = e.seen[at], h
	return true
}

// keep is the number of staircases remembered for each set of boxes laid.
const keep = 8

// dominated reports whether a staircase that encloses no more was met with the same boxes laid; otherwise the
// staircase is remembered.
func (e *exact) dominated(done uint32, stairs []stair) bool {
	m := &e.memory[done]
	e.units += int64(10 * len(m.list))
	slot := -1
	for i, t := range m.list {
		if encloses(stairs, t) {
			return true
		}
		if slot < 0 && encloses(t, stairs) {
			slot = i
		}
	}
	if slot < 0 && len(m.list) < keep {
		m.list = append(m.list, nil)
		slot = len(m.list) - 1
	}
	if slot < 0 {
		slot = m.next
		m.next = (m.next + 1) % keep
	}
	m.list[slot] = append(m.list[slot][:0], stairs...)
	return false
}

type memory struct {
	list [][]stair
	next int
}

// encloses reports whether staircase a is nowhere below b.
func encloses(a, b []stair) bool {
	i := 0
	for k, s := range b { // over [s.x, end) b has height s.y; a is lowest at its last step before end
		if k+1 < len(b) {
			end := b[k+1].x
			for i+1 < len(a) && a[i+1].x < end {
				i++
			}
		} else {
			i = len(a) - 1
		}
		if a[i].y < s.y {
			return false
		}
	}
	return true
}

// area of the boxes left.
func (e *exact) area(done uint32) wide {
	var sum wide
	for k := range e.boxes {
		if done>>k&1 == 0 {
			sum.add(e.boxes[k].area)
		}
	}
	return sum
}

// free is the area outside the staircase.
func (e *exact) free(stairs []stair) wide {
	var sum wide
	for s, c := range stairs {
		end := e.width
		if s+1 < len(stairs) {
			end = min(end, stairs[s+1].x)
		}
		if c.x < end && c.y < e.limit {
			sum.addMul(end-c.x, e.limit-c.y)
		}
	}
	return sum
}

// fitsCorner reports whether any box left fits above and right of a corner.
func (e *exact) fitsCorner(done uint32, c stair) bool {
	for k := range e.boxes {
		if done>>k&1 == 1 {
			continue
		}
		for i := range e.boxes[k].lays {
			if l := &e.boxes[k].lays[i]; c.x+l.w <= e.width && c.y+l.h <= e.limit {
				return true
			}
		}
	}
	return false
}

// sides knows which sums of sides of the boxes left can be reached, if the numbers are small enough.
type sides struct {
	unit int64 // common divisor; 0 if the sums are not known
	set  *sums
}

// maxSums is the largest set of sums kept, in units of the common divisor.
const maxSums = 4096

func newSides(limit int64, boxes []exactBox, side func(lay) int64) sides {
	var g int64
	for i := range boxes {
		for _, l := range boxes[i].lays {
			g = gcd(g, side(l))
		}
	}
	if g == 0 || limit/g > maxSums {
		return sides{}
	}
	return sides{g, newSums(limit / g)}
}

// below is the greatest reachable sum up to v.
func (s *sides) below(v int64) int64 {
	if s.unit == 0 || v <= 0 {
		return max(0, v)
	}
	q := min(v/s.unit, s.set.limit)
	w := int(q >> 6)
	m := s.set.word[w] << (63 - uint(q&63)) >> (63 - uint(q&63))
	for m == 0 {
		w--
		m = s.set.word[w]
	}
	return int64(w<<6+63-bits.LeadingZeros64(m)) * s.unit
}

// reach fills the sums of sides of the boxes left.
func (e *exact) reach(done uint32) {
	for _, s := range []*sides{&e.high, &e.across} {
		if s.unit == 0 {
			continue
		}
		clear(s.set.word)
		s.set.word[0] = 1
		for k := range e.boxes {
			if done>>k&1 == 1 {
				continue
			}
			s.set.old = append(s.set.old[:0], s.set.word...)
			for i := range e.boxes[k].lays {
				l := &e.boxes[k].lays[i]
				v := l.h
				if s == &e.across {
					v = l.w
				}
				shifted(s.set.word, s.set.old, v/s.unit)
			}
			e.units += 2 * int64(len(s.set.word))
		}
	}
}

// legal is the first place right of and above a corner that the repeat allows, in columns of drop class ph.
func (e *exact) legal(b *exactBox, l lay, c stair, ph int64) (x, y int64, ok bool) {
	x, y = c.x, c.y
	if b.match == 0 {
		return x, y, ph == 0
	}
	r := &e.rep
	if b.match&X != 0 {
		if e.phases > 1 && b.match&Y != 0 {
			x = ceilTo(x, r.OriginX+ph*r.PeriodX-l.mx, r.PeriodX*e.phases)
		} else if ph > 0 {
			return 0, 0, false
		} else {
			x = ceilTo(x, r.OriginX-l.mx, r.PeriodX)
		}
	}
	if b.match&Y != 0 {
		if b.match&X == 0 && ph > 0 {
			return 0, 0, false
		}
		y = ceilTo(y, r.OriginY+r.raise(ph)-l.my, r.PeriodY)
	}
	return x, y, true
}

// raise appends to out the staircase after everything left of x2 and below top is enclosed.
func raise(out, stairs []stair, x2, top int64) []stair {
	put := func(s stair) {
		if k := len(out); k > 0 && out[k-1].y == s.y {
			return
		}
		out = append(out, s)
	}
	for i, s := range stairs {
		if s.x >= x2 {
			put(s)
			continue
		}
		put(stair{s.x, max(s.y, top)})
		if i+1 == len(stairs) || stairs[i+1].x > x2 {
			put(stair{x2, s.y})
		}
	}
	return out
}

// shortest lowers a height known to be possible as far as it can. It returns the best places found (nil if none is
// better), their height and whether nothing lower exists.
func (e *exact) shortest(from, bound, budget int64) (spots []exactSpot, height int64, proved bool) {
	height = from
	for height > bound {
		got, complete := e.below(height-1, budget)
		if got == nil {
			return spots, height, complete
		}
		spots = slices.Clone(got)
		height = math.MinInt64
		for k, s := range got {
			height = max(height, s.y+e.boxes[k].lays[s.lay].h)
		}
		if budget = e.stop - e.units; budget <= 0 {
			return spots, height, height <= bound
		}
	}
	return spots, height, true
}
