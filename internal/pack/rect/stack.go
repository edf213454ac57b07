package rect

import "slices"

// stack lays parts in an order, each at the lowest free place on the pattern, also below parts laid before. Of a part
// with cells only these are in the way, so that parts of angled outline lie one in the other. The motifs of a set
// of pieces that may be moved lie where the first part bound to them comes to lie.
//
// What it laid stays until an order differs, so that orders alike at first are laid in part only. Sizes hold the gap.
type stack struct {
	j       *Job
	parts   []part
	cells   [][][]obstacle // of each way to lie of each part, from its lower left corner
	width   int64
	tallest int64 // of all cells
	right   []bool
	spots   []partSpot
	laid    []int   // parts in the order laid
	tops    []int64 // greatest upper side after each of them
	by      []cell  // laid, by their lower sides
	above   []int64 // upper sides of what is laid, ascending
	sets    []moved
	gone    []bool
	changed []int // parts to be laid anew
	band    []obstacle
	levels  []int64
	units   int64
}

// cell is a rectangle that a part covers.
type cell struct {
	obstacle
	part int
}

// moved is how far the motifs of a set are moved, in the directions that are settled.
type moved struct {
	x, y    int64
	settled Axes
}

func newStack(j *Job, parts []part) *stack {
	n := len(parts)
	s := &stack{j: j, width: j.Width + j.Gap, right: make([]bool, n), spots: make([]partSpot, n), gone: make([]bool, n)}
	for _, p := range parts {
		p.lays = slices.Clone(p.lays)
		var of [][]obstacle
		for k := range p.lays {
			l := &p.lays[k]
			cells := j.Pieces[p.piece].covered(l.turn)
			l.w, l.h = l.w+j.Gap, l.h+j.Gap
			for c := range cells {
				cells[c].x1 += j.Gap
				cells[c].y1 += j.Gap
				s.tallest = max(s.tallest, cells[c].y1-cells[c].y0)
			}
			of = append(of, cells)
		}
		s.parts, s.cells = append(s.parts, p), append(s.cells, of)
	}
	s.sets = make([]moved, len(j.Sets)+1)
	s.restart()
	return s
}

// covered lists the cells of the piece after a turn.
func (p *Piece) covered(t Turns) []obstacle {
	cells := p.Cells
	if len(cells) == 0 {
		cells = []Cell{{0, 0, p.W, p.H}}
	}
	var out []obstacle
	for _, c := range cells {
		ax, ay := p.turned(Spot{X: c.X, Y: c.Y}, t)
		bx, by := p.turned(Spot{X: c.X + c.W, Y: c.Y + c.H}, t)
		out = append(out, obstacle{min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)})
	}
	return out
}

// restart unsettles the sets that may be moved.
func (s *stack) restart() {
	s.sets[0] = moved{settled: X | Y}
	for k, f := range s.j.Sets {
		s.sets[k+1] = moved{settled: (X | Y) &^ f.Moves}
	}
}

// run lays the parts in an order. It gives up when the layout gets longer than most.
func (s *stack) run(order []int, most int64) bool {
	n := 0
	for n < len(s.laid) && s.laid[n] == order[n] && !slices.Contains(s.changed, order[n]) {
		n++
	}
	s.changed = s.changed[:0]
	s.back(n)
	for _, i := range order[n:] {
		at, ok := s.lowest(i, most)
		if !ok {
			return false
		}
		s.put(i, at)
	}
	return true
}

// top is the greatest upper side.
func (s *stack) top() int64 { return s.tops[len(s.tops)-1] }

// back takes back what was laid after the first n parts.
func (s *stack) back(n int) {
	if n == len(s.laid) {
		return
	}
	for _, i := range s.laid[n:] {
		s.gone[i] = true
	}
	s.by = slices.DeleteFunc(s.by, func(c cell) bool { return s.gone[c.part] })
	clear(s.gone)
	s.above = s.above[:0]
	for _, c := range s.by {
		s.above = append(s.above, c.y1)
	}
	slices.Sort(s.above)
	s.units += int64(4 * len(s.by))
	s.laid, s.tops = s.laid[:n], s.tops[:n]
	if len(s.j.Sets) > 0 {
		s.restart()
		for _, i := range s.laid {
			s.settle(i)
		}
	}
}

// put lays a part.
func (s *stack) put(i int, at partSpot) {
	s.spots[i] = at
	for _, c := range s.cells[i][at.lay] {
		o := obstacle{c.x0 + at.x, c.y0 + at.y, c.x1 + at.x, c.y1 + at.y}
		s.by = slices.Insert(s.by, s.index(o.y0), cell{o, i})
		k, _ := slices.BinarySearch(s.above, o.y1)
		s.above = slices.Insert(s.above, k, o.y1)
	}
	top := at.y + s.parts[i].lays[at.lay].h
	if n := len(s.tops); n > 0 {
		top = max(top, s.tops[n-1])
	}
	s.laid, s.tops = append(s.laid, i), append(s.tops, top)
	s.settle(i)
}

// settle fixes the motifs of the set of a part that was laid.
func (s *stack) settle(i int) {
	pt, at := &s.parts[i], s.spots[i]
	set := &s.sets[pt.set]
	fresh := pt.match &^ set.settled
	if fresh == 0 {
		return
	}
	l := &pt.lays[at.lay]
	if fresh&X != 0 {
		set.x = at.x - (s.j.Repeat.OriginX - l.mx)
	}
	set.settled |= fresh
	if fresh&Y != 0 {
		set.y = at.y - s.j.Repeat.residue(at.x-set.x, l, pt.match)
	}
}

// index is the place in by of the first cell whose lower side is at y or above.
func (s *stack) index(y int64) int {
	lo, hi := 0, len(s.by)
	for lo < hi {
		if m := (lo + hi) / 2; s.by[m].y0 < y {
			lo = m + 1
		} else {
			hi = m
		}
	}
	return lo
}

// gather lists what lies between two levels.
func (s *stack) gather(y0, y1 int64) {
	s.band = s.band[:0]
	from := s.index(y0 - s.tallest)
	n := from
	for ; n < len(s.by) && s.by[n].y0 < y1; n++ {
		if s.by[n].y1 > y0 {
			s.band = append(s.band, s.by[n].obstacle)
		}
	}
	s.units += int64(n - from + 8)
}

// hole is the first place from x on, to the right up to a last one or to the left, where the cells are clear of
// the band; -1 if there is none.
func (s *stack) hole(x, y, last int64, cells []obstacle, left bool) int64 {
	for again := true; again; {
		again = false
		for _, c := range cells {
			for k := range s.band {
				q := &s.band[k]
				if q.y0 >= y+c.y1 || q.y1 <= y+c.y0 || q.x0 >= x+c.x1 || q.x1 <= x+c.x0 {
					continue
				}
				if again = true; left {
					x = q.x0 - c.x1
				} else {
					x = q.x1 - c.x0
				}
				if x < 0 || x > last {
					return -1
				}
			}
		}
	}
	return x
}

// lowest finds the place of a part whose upper side is lowest; of equal ones the leftmost, or the rightmost of a
// part that keeps to the right.
//
// For a given left side the free places lie between levels, from one at which a cell stands on another or on the end
// of the strip; so the lowest of a residue is at such a level rounded up.
func (s *stack) lowest(i int, most int64) (best partSpot, ok bool) {
	pt := &s.parts[i]
	set := s.sets[pt.set]
	match, fresh := pt.match&set.settled, pt.match&^set.settled
	end, every := most, int64(0) // between the levels that serve
	switch {
	case match&Y != 0:
		every = s.j.Repeat.PeriodY
	case fresh&Y != 0: // it settles its set, on the grid of motifs
		every = s.j.Sets[pt.set-1].Step
	}
	for li := range pt.lays {
		l := &pt.lays[li]
		cells, last := s.cells[i][li], s.width-l.w
		take := func(x, y int64) bool {
			if x < 0 {
				return false
			}
			if top := y + l.h; !ok || top < end || top == end && (x < best.x) != s.right[i] {
				best, ok, end = partSpot{x, y, li}, true, top
			}
			return true
		}
		// rising calls a function with the levels that have a residue.
		rising := func(residue int64, do func(y int64) bool) {
			was := int64(-1)
			s.rests(cells, func(y int64) bool {
				if every > 0 {
					y = ceilTo(y, residue, every)
				}
				if y == was {
					return false
				}
				was = y
				if y+l.h > end {
					return true
				}
				s.gather(y, y+l.h)
				return do(y)
			})
		}
		r := &s.j.Repeat
		switch {
		case match&X != 0 && r.DropNum > 0:
			s.columns(l, set.x, last, func(x int64) bool {
				rising(r.residue(x-set.x, l, match)+set.y, func(y int64) bool { return s.hole(x, y, x, cells, false) == x && take(x, y) })
				return false
			})
		case match&X != 0:
			rising(r.OriginY-l.my+set.y, func(y int64) (laid bool) {
				s.columns(l, set.x, last, func(x int64) bool {
					if s.hole(x, y, x, cells, false) == x {
						laid = take(x, y)
					}
					return laid && !s.right[i]
				})
				return laid
			})
		default:
			rising(r.OriginY-l.my+set.y, func(y int64) bool { return take(s.across(i, l, fresh, y, cells), y) })
		}
	}
	return best, ok
}

// columns calls a function with the left sides of a part about the motifs, until it is done.
func (s *stack) columns(l *lay, moved, last int64, do func(x int64) bool) {
	every := s.j.Repeat.PeriodX
	for x := ceilTo(0, s.j.Repeat.OriginX-l.mx+moved, every); x <= last && !do(x); x += every {
	}
}

// across is a place for a part that no column binds; -1 if there is none. One that settles its set keeps to the
// grid of motifs.
func (s *stack) across(i int, l *lay, fresh Axes, y int64, cells []obstacle) int64 {
	last := s.width - l.w
	switch {
	case fresh&X != 0:
		x := s.hole(0, y, last, cells, false)
		if x < 0 {
			return x
		}
		if x = ceilTo(x, s.j.Repeat.OriginX-l.mx, s.j.Sets[s.parts[i].set-1].Step); x > last || s.hole(x, y, x, cells, false) != x {
			return -1
		}
		return x
	case s.right[i]:
		return s.hole(last, y, last, cells, true)
	}
	return s.hole(0, y, last, cells, false)
}

// rests calls a function with the levels at which a cell stands on another or on the end of the strip, ascending,
// until it is done.
func (s *stack) rests(cells []obstacle, do func(y int64) bool) {
	if do(0) {
		return
	}
	levels := s.above
	if len(cells) > 1 {
		s.levels = s.levels[:0]
		for k, c := range cells {
			if slices.ContainsFunc(cells[:k], func(b obstacle) bool { return b.y0 == c.y0 }) {
				continue
			}
			for _, y := range s.above {
				s.levels = append(s.levels, y-c.y0)
			}
		}
		slices.Sort(s.levels)
		levels = s.levels
		s.units += int64(4 * len(levels))
	}
	was := int64(0)
	for _, y := range levels {
		if y > was && do(y) {
			return
		}
		was = max(was, y)
	}
}
