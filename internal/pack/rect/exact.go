package rect

import (
	"context"
	"math"
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
	total        wide
	units, stop  int64
	ctx          context.Context
	seen         map[uint64]struct{}
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
		switch {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
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
		e.total.add(b.area)
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
	e.seen = map[uint64]struct{}{}
	e.spots = make([]exactSpot, len(e.boxes))
	if limit > 0 && e.dive(0, []stair{{0, 0}}, wide{}, 0) {
		return e.spots, true
	}
	return nil, !e.cut
}

func (e *exact) dive(done uint32, stairs []stair, placed wide, hash uint64) bool {
	n := len(e.boxes)
	if int(done) == 1<<n-1 {
		return true
	}
	e.units += int64(20 + 10*len(stairs))
	if e.units > e.stop || e.units&1023 < 40 && e.ctx.Err() != nil {
		e.cut = true
		return false
	}
	// corners that nothing fits into are lost
	var lost wide
	usable := make([]bool, len(stairs))
	for s, c := range stairs {
		if c.y >= e.limit || c.x >= e.width {
			continue
		}
	boxes:
		for k := range n {
			if done>>k&1 == 1 {
				continue
			}
			for _, l := range e.boxes[k].lays {
				if c.x+l.w <= e.width && c.y+l.h <= e.limit {
					usable[s] = true
					break boxes
				}
			}
		}
		above := e.limit
		if s > 0 {
			above = min(above, stairs[s-1].y)
		}
		end := e.width
		if s+1 < len(stairs) {
			end = min(end, stairs[s+1].x)
		}
		lost.addMul(end-c.x, c.y)
		if !usable[s] {
			lost.addMul(end-c.x, above-c.y)
		}
	}
	for s, c := range stairs { // columns already up to the limit
		if c.y >= e.limit && c.x < e.width {
			end := e.width
			if s+1 < len(stairs) {
				end = min(end, stairs[s+1].x)
			}
			lost.addMul(end-c.x, e.limit)
		}
	}
	// area of the strip < lost + area still to lay: cut
	need := lost
	for k := range n {
		if done>>k&1 == 0 {
			need.add(e.boxes[k].area)
		}
	}
	if mul(e.width, e.limit).less(need) {
		return false
	}
	h := hash
	for _, c := range stairs {
		h ^= segHash(seg{c.x, c.y, 0})
	}
	if _, ok := e.seen[h]; ok {
		return false
	}
	if len(e.seen) < 1<<20 {
		e.seen[h] = struct{}{}
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
					e.units += 20
					e.spots[k] = exactSpot{x, y, li}
					next := raise(stairs, x, x+l.w, y+l.h)
					p := placed
					p.add(b.area)
					if e.dive(done|1<<k, next, p, hash+b.key) {
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

// raise returns the staircase after everything left of x2 and below top is enclosed.
func raise(stairs []stair, x, x2, top int64) []stair {
	out := make([]stair, 0, len(stairs)+2)
	put := func(s stair) {
		if k := len(out); k > 0 && out[k-1].y == s.y {
			return
		}
		out = append(out, s)
	}
	var tail int64 // height just right of x2
	for i, s := range stairs {
		if s.x <= x2 {
			tail = s.y
		}
		if s.x < x2 {
			put(stair{s.x, max(s.y, top)})
			continue
		}
		if i > 0 && stairs[i-1].x < x2 && s.x > x2 {
			put(stair{x2, tail})
		}
		put(s)
	}
	if last := stairs[len(stairs)-1]; last.x < x2 {
		put(stair{x2, last.y})
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
