package bound

import (
	"cmp"
	"context"
	"math"
	"slices"
	"sort"
)

const (
	mostOnLine = 24      // pieces of lines that are solved exactly
	mostAlone  = 12      // phases tried alone
	mostPhases = 24      // phases tried together
	mostRows   = 64      // repeats of lines that are solved exactly
	mostStarts = 8       // starts of the pattern tried, when it is free
	rowWork    = 1 << 20 // lines looked at for stands of all of them together
)

// byRows solves pattern lines exactly, as far as work allows. Of each piece
// that must meet the lines of some phases it keeps only its chords on them, and
// finds the least length on which they can lie so that
//
//   - each piece takes one of its ways to lie, one of its places across if the
//     pattern binds it there, and some repeat along;
//   - it starts at 0 or above, and its top is counted in the length;
//   - chords on one line do not overlap if both are bound across, and all
//     chords of a line together are no longer than the width.
//
// A layout is such an arrangement, so it is no shorter. With a free start the
// arrangement may be moved down until a piece that counts starts at 0; so the
// starts that bring one of their ways there are all that need be tried. Single
// phases are tried first, then many of them together.
//
// At the height of a corner chords are taken at their limit from one side. If
// the chords fit at lines ever closer to the limit, with the same choices, they
// fit at the limit; so what does not fit there does not fit near it.
func (l *lines) byRows(ctx context.Context, known int64) (Claim, bool) {
	best := Claim{Length: known, Method: ByRows, Piece: -1}
	work := rowWork
	var sets [][]sample
	var all []sample
	for _, d := range l.busiest() {
		all = append(all, d.sample)
		if d.pieces > 1 && d.pieces <= mostOnLine {
			sets = append(sets, []sample{d.sample})
		}
	}
	more := max(0, min(mostPhases-len(all), len(l.stretches)))
	for i := range more {
		if p := l.stretches[i*len(l.stretches)/more].low.sample; !slices.Contains(all, p) {
			all = append(all, p)
		}
	}
	sets = append(sets, all)
	for _, set := range sets {
		if ctx.Err() != nil || work <= 0 {
			break
		}
		if end := l.solve(set, best.Length, &work); end > best.Length {
			best.Length, best.Phase = end, mod(set[0].phase, l.r)
			best.Lines = ceilDiv(end, l.r)
			if !l.job.Repeat.FreeStart {
				best.Lines = l.under(end, set[0])
				best.Line = max(0, l.height(set[0])+(best.Lines-1)*l.r)
			}
		}
	}
	return best, best.Length > known
}

// under is the number of lines of a phase on a roll of a length.
func (l *lines) under(end int64, p sample) int64 {
	n := floorDiv(end-l.height(p), l.r) + 1
	if p.above && mod(end-l.height(p), l.r) == 0 {
		n--
	}
	return max(0, n)
}

// solve is the bound by the lines of some phases together, or known where that
// is no more.
func (l *lines) solve(set []sample, known int64, work *int) int64 {
	starts := []int64{l.start}
	if l.job.Repeat.FreeStart {
		if starts = l.starts(set); len(starts) > mostStarts {
			return known
		}
	}
	least := int64(math.MaxInt64)
	for _, start := range starts {
		at := *l
		at.start = start
		r := at.rows(set, work)
		if r == nil {
			return known
		}
		if least = min(least, r.least(known)); least <= known {
			return known
		}
	}
	if least == math.MaxInt64 {
		return known
	}
	return least
}

// busiest lists phases worth solving: of each range of phases whose lines meet
// the same ways to lie, the one where the chords are longest; those with the
// most pieces that must meet them first.
func (l *lines) busiest() []load {
	var runs []load
	for _, s := range l.stretches {
		for _, d := range [2]load{s.low, s.high} {
			last := len(runs) - 1
			switch {
			case last < 0 || runs[last].meets != d.meets:
				runs = append(runs, d)
			case d.most > runs[last].most || d.most == runs[last].most && d.sum > runs[last].sum:
				runs[last] = d
			}
		}
	}
	slices.SortStableFunc(runs, func(a, b load) int {
		return cmp.Or(cmp.Compare(b.pieces, a.pieces), cmp.Compare(b.sum, a.sum))
	})
	return runs[:min(len(runs), mostAlone)]
}

// meeting marks the items that meet some of the lines in every way to lie, and
// counts their pieces.
func (l *lines) meeting(set []sample) (key string, pieces int) {
	b := make([]byte, len(l.items))
	for i := range l.items {
		it := &l.items[i]
		b[i] = 1
		for k := range it.options {
			if !slices.ContainsFunc(set, func(p sample) bool { return l.cross(&it.options[k], p).total > 0 }) {
				b[i] = 0
			}
		}
		if b[i] == 1 {
			pieces += it.count
		}
	}
	return string(b), pieces
}

// starts are the starts of the pattern that let some way to lie of a piece that
// counts start at 0.
func (l *lines) starts(set []sample) []int64 {
	var out []int64
	key, _ := l.meeting(set)
	for i, it := range l.items {
		for _, o := range it.options {
			if key[i] == 1 {
				out = append(out, mod(-o.base-o.shape.box.Min.Y, l.r))
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// stand is a place that a piece may take.
type stand struct {
	top  int64
	cuts []cut
}

// cut is what a stand takes of one line. Lines are numbered by repeat, and in
// it by phase.
type cut struct {
	line   int
	size   int64   // sum of chords
	chords []chord // nil where free across
}

// kind is a piece with its stands, by rising top.
type kind struct {
	stands []stand
	count  int
	least  []int64 // least chords, by phase
}

// rowProblem is a set of pattern lines to be solved.
type rowProblem struct {
	*lines
	set    []sample
	kinds  []kind
	tops   []int64 // all different tops, rising
	work   *int
	used   []int64   // by line
	taken  [][]chord // by line
	left   [][]int64 // chords still to be placed from a kind on, by phase
	free   []int64   // chords that still fit, by phase
	failed bool      // out of work
}

// rows lists the stands of every piece on the lines of some phases. It gives nil
// when there are too many.
func (l *lines) rows(set []sample, work *int) *rowProblem {
	key, pieces := l.meeting(set)
	last := int64(1) // repeats in which every piece has lines of its own
	for i := range l.items {
		if key[i] == 1 {
			tall := int64(0)
			for _, o := range l.items[i].options {
				tall = max(tall, o.shape.box.Height()/l.r+2)
			}
			last += tall * int64(l.items[i].count)
		}
	}
	if last > mostRows || pieces == 0 || pieces > mostOnLine {
		return nil
	}
	r := &rowProblem{lines: l, set: set, work: work, free: make([]int64, len(set)),
		used: make([]int64, (last+1)*int64(len(set))), taken: make([][]chord, (last+1)*int64(len(set)))}
	for i := range l.items {
		if key[i] == 1 {
			r.kinds = append(r.kinds, r.kind(&l.items[i], last))
		}
	}
	slices.Sort(r.tops)
	r.tops = slices.Compact(r.tops)
	slices.SortStableFunc(r.kinds, func(a, b kind) int {
		return cmp.Or(cmp.Compare(len(a.stands), len(b.stands)), slices.Compare(b.least, a.least))
	})
	r.left = make([][]int64, len(r.kinds)+1)
	r.left[len(r.kinds)] = make([]int64, len(set))
	for i := len(r.kinds) - 1; i >= 0; i-- {
		r.left[i] = slices.Clone(r.left[i+1])
		for p, v := range r.kinds[i].least {
			r.left[i][p] += v * int64(r.kinds[i].count)
		}
	}
	return r
}

// kind lists the stands of a piece in the first repeats.
func (r *rowProblem) kind(it *item, repeats int64) kind {
	k := kind{count: it.count, least: make([]int64, len(r.set))}
	for p := range k.least {
		k.least[p] = math.MaxInt64
	}
	for n := range it.options {
		o := &it.options[n]
		b := o.shape.box
		bottom := mod(b.Min.Y+o.base+r.start, r.r) // the lowest it may have
		tall := int64(0)
		var cuts []cut
		for p, sm := range r.set {
			c := r.cross(o, sm)
			k.least[p] = min(k.least[p], c.total)
			row := floorDiv(bottom+c.below-r.height(sm), r.r) // divides evenly
			start := 0
			for y, end := range c.ends {
				q := cut{line: int(row+int64(y))*len(r.set) + p, chords: slices.Clone(c.chords[start:end])}
				start = end
				for _, x := range q.chords {
					q.size += x.r - x.l
				}
				if q.size > 0 {
					cuts = append(cuts, q)
					tall = max(tall, row+int64(y)+1)
				}
			}
		}
		for up := int64(0); up+tall <= repeats; up++ {
			top := bottom + b.Height() + up*r.r
			r.tops = append(r.tops, top)
			if o.places == nil {
				k.stands = append(k.stands, stand{top, moved(cuts, int(up)*len(r.set), nil)})
			}
			for _, x := range o.places {
				k.stands = append(k.stands, stand{top, moved(cuts, int(up)*len(r.set), &x)})
			}
		}
	}
	slices.SortStableFunc(k.stands, func(a, b stand) int { return cmp.Compare(a.top, b.top) })
	return k
}

// moved returns the cuts some lines up, and where across if that is bound.
func moved(cuts []cut, up int, across *int64) []cut {
	out := make([]cut, len(cuts))
	for i, q := range cuts {
		out[i] = cut{line: q.line + up, size: q.size}
		if across == nil {
			continue
		}
		for _, c := range q.chords {
			if c.l < c.r {
				out[i].chords = append(out[i].chords, chord{c.l + *across*sub, c.r + *across*sub})
			}
		}
	}
	return out
}

// least is the least length of an arrangement that is more than known, or known
// when there is one no longer. Only a top can be the length, so tops are tried:
// steps ahead while nothing fits, then halves. Out of work, it is the least
// length not yet ruled out.
func (r *rowProblem) least(known int64) int64 {
	from := sort.Search(len(r.tops), func(i int) bool { return r.tops[i] > known }) - 1 // the last top that does not improve
	if from >= 0 && r.fits(r.tops[from]) {
		return known
	}
	to, step := from+1, 1
	for to < len(r.tops) && !r.fits(r.tops[to]) {
		from, to, step = to, to+step, 2*step
	}
	to = min(to, len(r.tops)-1) // where every piece has lines of its own
	for to-from > 1 {
		mid := from + (to-from)/2
		if r.fits(r.tops[mid]) {
			to = mid
		} else {
			from = mid
		}
	}
	return r.tops[to]
}

// fits reports whether an arrangement ends at a length, or that it has run out
// of work.
func (r *rowProblem) fits(end int64) bool {
	r.failed = false
	clear(r.used)
	for i := range r.taken {
		r.taken[i] = r.taken[i][:0]
	}
	for p, sm := range r.set {
		r.free[p] = r.under(end, sm) * r.width
	}
	return r.place(0, 0, 0, end) || r.failed
}

// place puts copy n of kind k and all that follow on the lines. Copies of one
// kind take their stands in order.
func (r *rowProblem) place(k, n, from int, end int64) bool {
	for k < len(r.kinds) && n == r.kinds[k].count {
		k, n, from = k+1, 0, 0
	}
	if k == len(r.kinds) {
		return true
	}
	q := &r.kinds[k]
	for p, free := range r.free {
		if r.left[k][p]-q.least[p]*int64(n) > free {
			return false
		}
	}
	for i := from; i < len(q.stands) && q.stands[i].top <= end; i++ {
		s := &q.stands[i]
		if *r.work -= 1 + len(s.cuts); *r.work < 0 {
			r.failed = true
			return false
		}
		if !r.open(s) {
			continue
		}
		r.put(s, 1)
		ok := r.place(k, n+1, i, end)
		r.put(s, -1)
		if ok || r.failed {
			return ok
		}
	}
	return false
}

// open reports whether a stand is free.
func (r *rowProblem) open(s *stand) bool {
	for i := range s.cuts {
		q := &s.cuts[i]
		if r.used[q.line]+q.size > r.width {
			return false
		}
		for _, c := range q.chords {
			for _, t := range r.taken[q.line] {
				if c.l < t.r && t.l < c.r {
					return false
				}
			}
		}
	}
	return true
}

// put takes a stand, or with -1 leaves the one that was taken last.
func (r *rowProblem) put(s *stand, sign int64) {
	for _, q := range s.cuts {
		r.used[q.line] += sign * q.size
		r.free[q.line%len(r.set)] -= sign * q.size
		if n := len(r.taken[q.line]); sign > 0 {
			r.taken[q.line] = append(r.taken[q.line], q.chords...)
		} else {
			r.taken[q.line] = r.taken[q.line][:n-len(q.chords)]
		}
	}
}
