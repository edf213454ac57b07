package rect

import (
	"cmp"
	"slices"
)

// LowerBound is a length no layout of a valid job can stay below. It is the best of several bounds: area over the
// width that can be used at all, the tallest piece, pieces that cannot lie side by side, and dual feasible functions
// of width and height, once for the plain sizes and once for the pieces bound by the repeat with their sizes rounded
// up to where the next such piece could start; and the area with the flaws taken out.
func (j *Job) LowerBound() int64 {
	var items []item
	var loose, area wide
	for i := range j.Pieces {
		p := &j.Pieces[i]
		if p.Split != nil {
			length, cross := p.H, p.W
			if p.Split.Along == X {
				length, cross = p.W, p.H
			}
			length += int64(2*max(0, j.leastSeams(p))) * p.Split.Allowance
			for range p.Count {
				loose.addMul(length, cross)
			}
			continue
		}
		var it item
		for _, l := range j.lays(p, p.W, p.H) {
			it.add(l.w+j.Gap, l.h+j.Gap)
		}
		for range p.Count {
			items = append(items, it)
			area.addMul(p.W, p.H)
		}
	}
	area.add(loose)
	best := stripBound(j.Width+j.Gap, items, loose) - j.Gap
	best = max(best, j.repeatBound(X), j.repeatBound(Y), j.repeatBound(X|Y))
	return max(best, j.flawBound(area))
}

// repeatBound bounds the length by the pieces bound by the repeat in all the given directions. The places of such
// pieces differ by known amounts modulo the period. A piece that starts beyond another one therefore starts at least
// the first possible difference beyond it, so the pieces stay apart when they are enlarged to that difference; only
// the last one may then stick out of the strip.
func (j *Job) repeatBound(axes Axes) int64 {
	var chosen []*Piece
	for i := range j.Pieces {
		if p := &j.Pieces[i]; j.bound(p)&axes == axes {
			chosen = append(chosen, p)
		}
	}
	if len(chosen) == 0 || len(chosen) > 2000 {
		return 0
	}
	r := &j.Repeat
	// residues of the lower left corners that some piece can have
	var rx, ry residues
	for i, p := range chosen {
		for _, l := range j.lays(p, p.W, p.H) {
			if axes&X != 0 {
				rx.add(mod(r.OriginX-l.mx, r.PeriodX), i, p.Count)
			}
			if axes&Y != 0 {
				for _, d := range r.raises() {
					ry.add(mod(r.OriginY+d-l.my, r.PeriodY), i, p.Count)
				}
			}
		}
	}
	if len(rx) > 300 || len(ry) > 300 {
		return 0
	}
	var items []item
	var overX, overY int64
	for i, p := range chosen {
		ways := [2]way{{maxCoord, maxCoord}, {maxCoord, maxCoord}}
		for _, l := range j.lays(p, p.W, p.H) {
			w, h := l.w+j.Gap, l.h+j.Gap
			if axes&X != 0 {
				w = rx.next(w, mod(r.OriginX-l.mx, r.PeriodX), r.PeriodX, i)
			}
			if axes&Y != 0 {
				least := maxCoord
				for _, d := range r.raises() {
					least = min(least, ry.next(h, mod(r.OriginY+d-l.my, r.PeriodY), r.PeriodY, i))
				}
				h = least
			}
			q := &ways[0]
			if l.turn.quarter() {
				q = &ways[1]
			}
			q.w, q.h = min(q.w, w), min(q.h, h)
			overX, overY = max(overX, w-l.w-j.Gap), max(overY, h-l.h-j.Gap)
		}
		var it item
		for _, q := range ways {
			if q.w < maxCoord {
				it.add(q.w, q.h)
			}
		}
		for range p.Count {
			items = append(items, it)
		}
	}
	width, slack := j.Width+j.Gap+overX, j.Gap+overY
	if axes&X != 0 {
		width -= rx.least()
	}
	if axes&Y != 0 {
		slack -= ry.least()
	}
	for i := range items {
		if items[i].least(func(q way) int64 { return q.w }) > width {
			return 0 // no legal column at all; the search will find that out
		}
	}
	return stripBound(width, narrow(items, width), wide{}) - slack
}

// narrow drops ways wider than the strip.
func narrow(items []item, width int64) []item {
	for i := range items {
		it := &items[i]
		if it.n == 2 && it.ways[1].w > width {
			it.n = 1
		}
		if it.n == 2 && it.ways[0].w > width {
			it.ways[0], it.n = it.ways[1], 1
		}
	}
	return items
}

// raises lists the drops of the classes of columns.
func (r *Repeat) raises() []int64 {
	if r.DropNum == 0 {
		return []int64{0}
	}
	out := make([]int64, r.DropDen)
	for c := range out {
		out[c] = r.raise(int64(c))
	}
	return out
}

func mod(v, m int64) int64 {
	if v %= m; v < 0 {
		v += m
	}
	return v
}

// residue is a place modulo the period, and which piece can have it: one, or others too.
type residue struct {
	v     int64
	owner int // -1: more than one piece, or several copies
}

type residues []residue

func (rs *residues) add(v int64, owner, count int) {
	if count > 1 {
		owner = -1
	}
	at, found := slices.BinarySearchFunc(*rs, v, func(a residue, v int64) int { return cmp.Compare(a.v, v) })
	switch {
	case !found:
		*rs = slices.Insert(*rs, at, residue{v, owner})
	case (*rs)[at].owner != owner:
		(*rs)[at].owner = -1
	}
}

// next is the least difference of at least d from a place with residue v to a place of another copy. Without any
// other copy it is d itself.
func (rs residues) next(d, v, period int64, self int) int64 {
	best := maxCoord
	for _, r := range rs {
		if r.owner != self {
			best = min(best, ceilTo(d, r.v-v, period))
		}
	}
	if best == maxCoord {
		return d
	}
	return best
}

// least is the smallest place at or above 0.
func (rs residues) least() int64 { return rs[0].v }

// flawBound is the least length whose area without flaws holds the pieces.
func (j *Job) flawBound(area wide) int64 {
	if len(j.Flaws) == 0 || len(j.Flaws) > 500 {
		return 0
	}
	levels := []int64{0}
	for _, f := range j.Flaws {
		for _, y := range []int64{f.Y, f.Y + f.H} {
			if y > 0 {
				levels = append(levels, y)
			}
		}
	}
	slices.Sort(levels)
	levels = slices.Compact(levels)
	var have wide
	for i, y := range levels {
		free := j.Width - j.covered(y)
		if i+1 == len(levels) {
			return y + less(area, have).ceilDiv(j.Width)
		}
		with := have
		with.addMul(free, levels[i+1]-y)
		if !with.less(area) {
			if free == 0 {
				return y
			}
			return y + less(area, have).ceilDiv(free)
		}
		have = with
	}
	return 0
}

// less is a-b, or 0 if that is negative.
func less(a, b wide) wide {
	if a.less(b) {
		return wide{}
	}
	hi := a.hi - b.hi
	if a.lo < b.lo {
		hi--
	}
	return wide{hi, a.lo - b.lo}
}

// covered is the width taken by flaws just above a level.
func (j *Job) covered(y int64) int64 {
	var at []way // left and right ends
	for _, f := range j.Flaws {
		if f.Y <= y && y < f.Y+f.H {
			if l, r := max(0, f.X), min(j.Width, f.X+f.W); l < r {
				at = append(at, way{l, r})
			}
		}
	}
	slices.SortFunc(at, func(a, b way) int { return cmp.Compare(a.w, b.w) })
	var sum, end int64
	for _, q := range at {
		if q.h > end {
			sum += q.h - max(end, q.w)
			end = q.h
		}
	}
	return sum
}

// looseBound bounds the length of pieces that cover no more than their cells, wherever the motifs are moved: by area,
// and by the longest piece.
func (j *Job) looseBound() int64 {
	var best int64
	var area wide
	for i := range j.Pieces {
		p := &j.Pieces[i]
		least := maxCoord
		for _, l := range j.lays(p, p.W, p.H) {
			least = min(least, l.h)
		}
		best = max(best, least)
		for _, c := range p.covered(Upright) {
			for range p.Count {
				area.addMul(c.x1-c.x0, c.y1-c.y0)
			}
		}
	}
	return max(best, area.ceilDiv(j.Width))
}
