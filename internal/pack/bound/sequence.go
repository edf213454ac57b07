package bound

import (
	"cmp"
	"context"
	"math"
	"slices"
)

const (
	mostUprights  = 40        // lines along the roll
	mostSequences = 2_000_000 // ways to divide pieces over lines, looked at for all starts together
	mostBegun     = 64        // starts of the pattern tried, when it is free
)

// bySequence bounds the length by lines along the roll that every piece crosses,
// wherever across it may lie: c of them, such as one through each column of
// motifs. On such a line the pieces follow one another, b after a no nearer than
//
//	gap(a, b) = mod(beta_b - beta_a - h_a, R)
//
// with beta the phase at which a piece starts and h its length on the line. With
// f(S) the least end of a sequence of the pieces S on one line,
//
//	f(S) = min over b in S of the first end of b after f(S - b)
//	L >= min over all ways to divide the pieces over the lines of max f(S_k)
//
// Proof: a piece lies on one of the lines at least; give it to that. What it
// covers of the line overlaps no other, so the pieces of a line have an order, and
// whatever follows can start no later after a sequence that ends earlier. Pieces
// that may miss all lines are left out. With a free start of the pattern pieces
// that it does not bind are left out too: then some piece can be moved down to
// start at 0, and only the starts that bring one there are tried. q.e.d.
//
// For equal pieces in columns that drop this is their number split over the
// columns, column k from b_k to b_k + (n_k - 1) ceil(h/R) R + h, and exact where
// they are rectangles that fit between two columns. That is called BySplit.
func (s *strip) bySequence(ctx context.Context, known int64) (Claim, bool) {
	best := Claim{Length: known, Method: BySequence, Piece: -1}
	work := mostSequences
	for _, at := range s.uprights() {
		if ctx.Err() != nil {
			break
		}
		rows := s.crossing(at)
		if len(rows) == 0 {
			continue
		}
		if l := s.sequences(rows, len(at), &work); l > best.Length {
			best.Length, best.Method = l, BySequence
			if len(rows) == 1 {
				best.Method = BySplit
			}
		}
	}
	return best, best.Length > known
}

// extent is from where to where across a piece may lie.
type extent struct{ from, to int64 }

// uprights lists sets of lines along the roll, in halves of the unit, where no
// side of a piece lies: the middle of the width, and the fewest that all places of
// the pieces bound across lie on, gathered from the left and from the right.
func (s *strip) uprights() [][]int64 {
	var all, mirrored []extent
	w := s.job.Width
	for _, it := range s.items {
		for _, o := range it.options {
			for _, x := range o.places {
				e := extent{o.shape.box.Min.X + x, o.shape.box.Max.X + x}
				all, mirrored = append(all, e), append(mirrored, extent{w - e.to, w - e.from})
			}
		}
	}
	out := [][]int64{{w | 1}, {w - 1 + w%2}}
	left, right := stabbed(all), stabbed(mirrored)
	for i := range right {
		right[i] = 2*w - right[i]
	}
	slices.Reverse(right)
	for _, lines := range [][]int64{left, right} {
		if len(lines) > 0 && len(lines) <= mostUprights {
			out = append(out, lines)
		}
	}
	return out
}

// stabbed gives lines, in halves of the unit and rising, that every extent lies on.
func stabbed(all []extent) []int64 {
	slices.SortFunc(all, func(a, b extent) int { return cmp.Or(cmp.Compare(a.to, b.to), cmp.Compare(b.from, a.from)) })
	var out []int64
	for len(all) > 0 {
		// The first to end, and all that start before it does, lie on a line
		// through what they have in common.
		from, to := all[0].from, all[0].to
		for _, e := range all {
			if e.from < to {
				from = max(from, e.from)
			}
		}
		at := from + to
		if at%2 == 0 {
			at--
		}
		out = append(out, at)
		all = slices.DeleteFunc(all, func(e extent) bool { return e.from < to })
	}
	return out
}

// row is a piece as it may cross the lines.
type row struct {
	count int
	lined bool
	on    [][]passage // by line
}

// passage is what a piece covers of a line: so long, from so far above its lowest
// point; that lies at base above the motifs of column 0.
type passage struct{ base, under, long int64 }

// crossing gives the pieces that cross one of some lines wherever they may lie.
func (s *strip) crossing(at []int64) []row {
	var out []row
	for _, it := range s.items {
		if it.any != nil || !it.lined && s.job.Repeat.FreeStart && s.job.Repeat.Along > 0 {
			continue
		}
		r := row{count: it.count, lined: it.lined, on: make([][]passage, len(at))}
		all := true
		for _, o := range it.options {
			all = all && s.passages(&r, &o, at)
		}
		if all {
			out = append(out, r)
		}
	}
	return out
}

// passages adds how an option crosses the lines, and reports whether it cannot miss
// them.
func (s *strip) passages(r *row, o *option, at []int64) bool {
	b := o.shape.box
	add := func(k int, x int64) bool { // x in halves, from the axes of the outline
		lo, hi := o.shape.along(x, s.job.Gap)
		if lo < hi {
			r.on[k] = append(r.on[k], passage{o.base + b.Min.Y, lo - b.Min.Y, hi - lo})
		}
		return lo < hi
	}
	if o.places == nil {
		// Free across: a rectangle wider than every space between the lines.
		last := int64(0)
		for _, x := range append(slices.Clone(at), 2*s.job.Width) {
			if 2*b.Width() <= x-last {
				return false
			}
			last = x
		}
		if !o.shape.upright() {
			return false
		}
		for k := range at {
			r.on[k] = append(r.on[k], passage{o.base + b.Min.Y, 0, b.Height()})
		}
		return true
	}
	for _, x := range o.places {
		hit := false
		for k, line := range at {
			hit = add(k, line-2*x) || hit
		}
		if !hit {
			return false
		}
	}
	return true
}

// upright reports whether an outline is a rectangle.
func (s *shape) upright() bool {
	return len(s.level) == 2 && len(s.slabs) == 1 && s.slabs[0] == s.slabs[0].upright()
}

// along is the longest run of slabs through which a line along the roll goes, x in
// halves of the unit: what an outline covers of the line at least. Slabs reach
// further to the right by the gap.
func (s *shape) along(x, gap int64) (from, to int64) {
	at := x * (sub / 2)
	start, open := int64(0), false
	for j := 0; j+1 < len(s.level); j++ {
		inside := slices.ContainsFunc(s.slabs[s.first[j]:s.first[j+1]], func(q slab) bool {
			u := q.upright()
			return u.l0 < at && at < u.r0-gap*sub
		})
		if inside && !open {
			start = s.level[j]
		}
		if open = inside; open && s.level[j+1]-start > to-from {
			from, to = start, s.level[j+1]
		}
	}
	return from, to
}

// sequences is the least length on which the pieces follow one another on so many
// lines, 0 where that is too much work: then the shortest pieces are left out.
func (s *strip) sequences(rows []row, lines int, work *int) int64 {
	longest := func(r row) int64 {
		v := int64(0)
		for _, on := range r.on {
			for _, p := range on {
				v = max(v, p.long)
			}
		}
		return v
	}
	slices.SortStableFunc(rows, func(a, b row) int { return cmp.Compare(longest(b), longest(a)) })
	starts := []int64{s.start}
	if s.job.Repeat.FreeStart && s.job.Repeat.Along > 0 {
		starts = nil
		for _, r := range rows {
			for _, on := range r.on {
				for _, p := range on {
					starts = append(starts, mod(-p.base, s.job.Repeat.Along))
				}
			}
		}
		slices.Sort(starts)
		if starts = slices.Compact(starts); len(starts) > mostBegun {
			return 0
		}
	}
	budget := *work / (2 * len(starts))
	cost, kept := lines, 0
	for _, r := range rows {
		c := r.count
		if cost > budget/((c+1)*(c+2)/2) {
			break
		}
		cost, kept = cost*((c+1)*(c+2)/2), kept+1
	}
	if kept == 0 {
		return 0
	}
	least := int64(math.MaxInt64)
	for _, start := range starts {
		*work -= cost
		least = min(least, s.sequence(rows[:kept], lines, start))
	}
	return least
}

// sequence is the same for one start of the pattern. A set of pieces is a number
// with a digit for each row: how many of it.
func (s *strip) sequence(rows []row, lines int, start int64) int64 {
	size := make([]int, len(rows)+1) // worth of a digit
	size[0] = 1
	for i, r := range rows {
		size[i+1] = size[i] * (r.count + 1)
	}
	sets := size[len(rows)]
	digit := func(set, i int) int { return set / size[i] % (rows[i].count + 1) }
	const never = math.MaxInt64
	all := make([]int64, sets) // least length on the lines so far
	for set := 1; set < sets; set++ {
		all[set] = never
	}
	one := make([]int64, sets)
	for k := range lines {
		for set := 1; set < sets; set++ {
			one[set] = never
			for i := range rows {
				if digit(set, i) > 0 && one[set-size[i]] < never {
					one[set] = min(one[set], s.after(&rows[i], k, one[set-size[i]], set != size[i], start))
				}
			}
		}
		for set := sets - 1; set > 0; set-- {
			best := all[set]
			// Parts of the set go on this line.
			parts(rows, size, digit, set, 0, 0, func(part int) {
				best = min(best, max(one[part], all[set-part]))
			})
			all[set] = best
		}
	}
	return all[sets-1]
}

// parts calls a function with every part of a set of pieces.
func parts(rows []row, size []int, digit func(set, i int) int, set, i, part int, do func(part int)) {
	if i == len(rows) {
		do(part)
		return
	}
	for n := range digit(set, i) + 1 {
		parts(rows, size, digit, set, i+1, part+n*size[i], do)
	}
}

// after is the first end of a piece on a line that follows what ends at a height.
func (s *strip) after(r *row, line int, end int64, some bool, start int64) int64 {
	if some {
		end += s.job.Gap
	}
	best := int64(math.MaxInt64)
	for _, p := range r.on[line] {
		from := max(end, p.under) // its lowest point is at 0 or above
		if r.lined {
			lowest := mod(p.base+start, s.job.Repeat.Along) + p.under
			from = lowest + max(0, ceilDiv(end-lowest, s.job.Repeat.Along))*s.job.Repeat.Along
		}
		best = min(best, from+p.long)
	}
	return best
}
