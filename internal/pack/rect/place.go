package rect

import (
	"cmp"
	"slices"
)

// obstacle is ground a part must not touch, in coordinates that already hold the gap: a part at (x, y) of w by h is
// clear of it if x >= x1, or x+w+gap <= x0, or the same in Y.
type obstacle struct{ x0, y0, x1, y1 int64 }

// placer lays parts one after the other in the lowest legal place, also below parts laid before. It knows the
// repeat, flaws and groups.
type placer struct {
	j          *Job
	parts      []part
	flaws      []obstacle
	clear      int64 // no flaw at or above this level
	obs        []obstacle
	tops       []int64 // scratch
	xs         []int64
	spots      []partSpot
	laid       []int // parts in the order laid
	floor      int64 // everything below is closed
	most       int   // largest number of obstacles kept
	top        int64
	units      int64
	stopped    func() bool // nil: never
	keep       int         // obstacles kept in this layout: most, or few when it must end soon
	members    [][]int     // parts of each group
	groupOrder [][]int     // an order in which the group can be laid within its window on clear ground, if known
	state      []bool
}

// partSpot is where a part lies, and how.
type partSpot struct {
	x, y int64
	lay  int
}

func newPlacer(j *Job, parts []part) *placer {
	p := &placer{j: j, parts: parts, spots: make([]partSpot, len(parts)), state: make([]bool, len(parts)), most: 400}
	if len(parts) > 400 {
		p.most = 96
	}
	for _, f := range j.Flaws {
		if f.Y+f.H <= 0 || f.X+f.W <= 0 || f.X >= j.Width {
			continue
		}
		p.flaws = append(p.flaws, obstacle{f.X + j.Gap, f.Y + j.Gap, f.X + f.W, f.Y + f.H})
		p.clear = max(p.clear, f.Y+f.H)
	}
	slices.SortStableFunc(p.flaws, func(a, b obstacle) int { return cmp.Compare(a.y0, b.y0) })
	p.members = make([][]int, len(j.Groups))
	for i := range parts {
		if g := parts[i].group; g > 0 {
			p.members[g-1] = append(p.members[g-1], i)
		}
	}
	p.groupOrder = make([][]int, len(j.Groups))
	return p
}

func (p *placer) reset() {
	p.obs = append(p.obs[:0], p.flaws...)
	p.laid = p.laid[:0]
	p.floor, p.top, p.keep = 0, 0, p.most
	clear(p.state)
}

// inHaste is how many obstacles are kept when a layout must end soon.
const inHaste = 8

// run lays all parts in the given order; members of a group follow its first one. It gives up when the layout gets
// longer than most or a part cannot be laid. When it is stopped it gives up too, or lays the parts left in haste if
// there is no other one yet (most is maxCoord or one less).
func (p *placer) run(order []int, most int64) bool {
	p.reset()
	for k, i := range order {
		if k&15 == 15 && p.keep > inHaste && p.stopped != nil && p.stopped() {
			if most < maxCoord-1 {
				return false
			}
			p.keep = inHaste
		}
		if p.state[i] {
			continue
		}
		if g := p.parts[i].group; g > 0 {
			if !p.group(g-1, i, order) {
				return false
			}
		} else {
			s, ok := p.lowest(i, p.floor, maxCoord)
			if !ok {
				return false
			}
			p.put(i, s)
		}
		if p.top > most {
			return false
		}
	}
	return true
}

// put lays a part.
func (p *placer) put(i int, s partSpot) {
	l := &p.parts[i].lays[s.lay]
	p.spots[i], p.state[i] = s, true
	p.laid = append(p.laid, i)
	p.top = max(p.top, s.y+l.h)
	p.block(obstacle{s.x, s.y, s.x + l.w + p.j.Gap, s.y + l.h + p.j.Gap})
}

// block adds an obstacle in order of its lower side. When there are too many, the lowest ground is closed.
func (p *placer) block(o obstacle) {
	at, _ := slices.BinarySearchFunc(p.obs, o.y0, func(a obstacle, y int64) int {
		if a.y0 <= y {
			return -1
		}
		return 1
	})
	p.obs = slices.Insert(p.obs, at, o)
	if len(p.obs) <= p.keep+len(p.flaws) {
		return
	}
	p.tops = p.tops[:0]
	for _, q := range p.obs {
		p.tops = append(p.tops, q.y1)
	}
	slices.Sort(p.tops)
	p.floor = max(p.floor, p.tops[len(p.tops)/4])
	p.obs = slices.DeleteFunc(p.obs, func(q obstacle) bool { return q.y1 <= p.floor })
}

// remove takes back the last parts laid, down to a number of them.
func (p *placer) remove(n int) {
	for len(p.laid) > n {
		i := p.laid[len(p.laid)-1]
		p.laid = p.laid[:len(p.laid)-1]
		p.state[i] = false
		s, l := p.spots[i], &p.parts[i].lays[p.spots[i].lay]
		o := obstacle{s.x, s.y, s.x + l.w + p.j.Gap, s.y + l.h + p.j.Gap}
		if at := slices.Index(p.obs, o); at >= 0 {
			p.obs = slices.Delete(p.obs, at, at+1)
		}
	}
	p.top = 0
	for _, i := range p.laid {
		p.top = max(p.top, p.spots[i].y+p.parts[i].lays[p.spots[i].lay].h)
	}
}

// group lays all members of a group within its window, the given one first.
func (p *placer) group(g, first int, order []int) bool {
	window := p.j.Groups[g].Window
	before := len(p.laid)
	var seq []int
	if len(p.members[g]) == 1 {
		seq = p.members[g]
	} else {
		seq = append(seq, first)
		for _, i := range order {
			if p.parts[i].group == g+1 && i != first {
				seq = append(seq, i)
			}
		}
	}
	from := p.floor
	base := max(p.clear, p.top+p.j.Gap, p.floor)
	for range 40 {
		next, ok := p.within(seq, from, window)
		if ok {
			return true
		}
		p.remove(before)
		if next <= from || from >= base {
			break
		}
		from = min(next, base)
	}
	// on clear ground, in the order known to work
	if o := p.groupOrder[g]; o != nil {
		seq = o
	}
	from = max(p.clear, p.top+p.j.Gap, p.floor)
	if py := p.j.Repeat.PeriodY; py > 0 {
		from = ceilTo(from, 0, py)
	}
	if _, ok := p.within(seq, from, window); ok {
		return true
	}
	p.remove(before)
	return false
}

// within lays parts at or above a level and within a window. If one goes too high, it reports the level from which
// that part would have been near enough.
func (p *placer) within(seq []int, from, window int64) (next int64, ok bool) {
	lo, hi := maxCoord, int64(0)
	for k, i := range seq {
		at, end := from, maxCoord
		if k > 0 {
			at, end = max(from, hi-window), lo+window
		}
		s, found := p.lowest(i, at, maxCoord)
		if !found {
			return 0, false
		}
		h := p.parts[i].lays[s.lay].h
		if s.y+h > end || max(hi, s.y+h)-min(lo, s.y) > window {
			return s.y + h - window, false
		}
		p.put(i, s)
		lo, hi = min(lo, s.y), max(hi, s.y+h)
	}
	return 0, true
}

// lowest finds the legal place of a part whose upper side is lowest, at or above a level; of equal ones the leftmost.
func (p *placer) lowest(i int, from, end int64) (best partSpot, ok bool) {
	j, pt := p.j, &p.parts[i]
	from = max(from, p.floor)
	bestTop := end
	if j.MaxLength > 0 {
		bestTop = min(bestTop, j.MaxLength+1)
	}
	for li := range pt.lays {
		l := &pt.lays[li]
		p.places(l, pt.match)
		for _, x := range p.xs {
			y := from
			ry, bound := int64(0), pt.match&Y != 0
			if bound {
				ry = j.Repeat.residue(x, l, pt.match)
				y = ceilTo(y, ry, j.Repeat.PeriodY)
			}
			xe, he := x+l.w+j.Gap, l.h+j.Gap
			n := 0
			for k := range p.obs {
				o := &p.obs[k]
				n++
				if o.y0 >= y+he || y+l.h >= bestTop {
					break
				}
				if x >= o.x1 || xe <= o.x0 || o.y1 <= y {
					continue
				}
				y = o.y1
				if bound {
					y = ceilTo(y, ry, j.Repeat.PeriodY)
				}
			}
			p.units += int64(2*n + 12)
			if top := y + l.h; top < bestTop {
				bestTop, best, ok = top, partSpot{x, y, li}, true
			}
		}
	}
	return best, ok
}

// residue is what y must be modulo the period for a part whose left side is at x.
func (r *Repeat) residue(x int64, l *lay, match Axes) int64 {
	y := r.OriginY - l.my
	if r.DropNum > 0 && match&X != 0 {
		col := (x + l.mx - r.OriginX) / r.PeriodX // whole: x is legal
		c := col % r.DropDen
		if c < 0 {
			c += r.DropDen
		}
		y += r.raise(c)
	}
	return y
}

// places lists the left sides worth trying for a part, ascending: against an edge or an obstacle, or the next legal
// column.
func (p *placer) places(l *lay, match Axes) {
	j := p.j
	last := j.Width - l.w
	p.xs = p.xs[:0]
	if match&X != 0 {
		px := j.Repeat.PeriodX
		first := ceilTo(0, j.Repeat.OriginX-l.mx, px)
		if first > last {
			return
		}
		if (last-first)/px < 64 {
			for x := first; x <= last; x += px {
				p.xs = append(p.xs, x)
			}
			p.units += int64(4 * len(p.xs))
			return
		}
		legal := func(x int64) {
			x = ceilTo(x, first, px)
			for range max(1, j.Repeat.DropDen) {
				if x >= 0 && x <= last {
					p.xs = append(p.xs, x)
				}
				x += px
			}
		}
		legal(0)
		for k := range p.obs {
			legal(p.obs[k].x1)
		}
	} else {
		p.xs = append(p.xs, 0)
		if last > 0 {
			p.xs = append(p.xs, last)
		}
		for k := range p.obs {
			o := &p.obs[k]
			if o.x1 > 0 && o.x1 <= last {
				p.xs = append(p.xs, o.x1)
			}
			if x := o.x0 - j.Gap - l.w; x > 0 && x < last {
				p.xs = append(p.xs, x)
			}
		}
	}
	slices.Sort(p.xs)
	p.xs = slices.Compact(p.xs)
	p.units += int64(20 * len(p.xs))
}
