package bound

import (
	"context"
	"math"
	"slices"
)

// phaseWork is the number of crossings of a way to lie with the lines of a phase
// that are looked at for all phases together, and again inside stretches.
const phaseWork = 300_000

// sample is a pattern line: its height above the motifs of column 0, in [0,
// Along], approached from above or from below. Chords jump where a side of a
// piece lies on the line, so both limits count.
type sample struct {
	phase int64
	above bool
}

// lines is a job on a repeat along the roll, seen line by line.
type lines struct {
	*strip
	r      int64
	items  []item // those bound along the roll
	steady int64  // chords that free pieces have on the lines of every phase
	// cuts are the heights of all corners as phases, in [0, r); next to each
	// other they hold stretches on which all chords run straight, unless there
	// were too many.
	cuts    []int64
	thinned bool
	// stretches lie between neighbouring cuts, the last one round to the first.
	stretches []stretch
	options   int
	seek      int     // crossings that may still be looked at inside stretches
	chords    []chord // room for crossings
	ends      []int
}

// stretch is a range of phases with what its ends load on a line, the lower
// end seen from above and the upper one from below.
type stretch struct {
	from, to  int64
	low, high load
}

// newLines returns nil for a job without pieces bound along the roll.
func newLines(s *strip) *lines {
	l := &lines{strip: s, r: s.job.Repeat.Along, seek: phaseWork}
	var ends []int64
	for _, it := range s.items {
		if !it.lined {
			if l.r > 0 && it.any == nil {
				l.steady += l.always(&it) * int64(it.count)
			}
			continue
		}
		l.items = append(l.items, it)
		l.options += len(it.options)
		for _, o := range it.options {
			for i, y := range o.shape.level {
				l.cuts = append(l.cuts, mod(y+o.base, l.r))
				if i == 0 || i+1 == len(o.shape.level) {
					ends = append(ends, mod(y+o.base, l.r))
				}
			}
		}
	}
	if len(l.items) == 0 {
		return nil
	}
	ends = append(ends, mod(-l.start, l.r)) // where the first line leaves the roll
	l.cuts = append(l.cuts, ends...)
	slices.Sort(l.cuts)
	l.cuts = slices.Compact(l.cuts)
	if room := max(32, phaseWork/(2*l.options)); len(l.cuts) > room {
		l.thinned = true
		slices.Sort(ends)
		ends = slices.Compact(ends)
		kept := thin(ends, room/2)
		kept = append(kept, thin(l.cuts, room/2)...)
		slices.Sort(kept)
		l.cuts = slices.Compact(kept)
	}
	return l
}

// thin keeps at most n of the values, evenly.
func thin(v []int64, n int) []int64 {
	if len(v) <= n {
		return slices.Clone(v)
	}
	out := make([]int64, n)
	for i := range out {
		out[i] = v[i*len(v)/n]
	}
	return out
}

// always is what a piece free along the roll covers at least of the lines of
// any phase, wherever it lies.
func (l *lines) always(it *item) int64 {
	least := int64(math.MaxInt64)
	for _, o := range it.options {
		h := o.shape.box.Height()
		if h < l.r || h > mostRepeats*l.r || len(o.shape.level) == 0 {
			return 0
		}
		for _, y := range o.shape.level {
			for _, above := range [2]bool{false, true} {
				c := l.cross(&o, sample{mod(y+o.base, l.r), above})
				least = min(least, c.total)
			}
		}
	}
	return least
}

// crossing is how an option meets the lines of one phase. It lasts until the
// next one is made.
type crossing struct {
	chords []chord // on all lines, the lowest first
	ends   []int   // where the chords of each line end
	below  int64   // from its lowest point up to the first of these lines
	total  int64   // of all chords
}

// cross finds the chords of an option on the lines of a sample.
func (l *lines) cross(o *option, p sample) crossing {
	b := o.shape.box
	c := crossing{chords: l.chords[:0], ends: l.ends[:0], below: mod(p.phase-o.base-b.Min.Y, l.r)}
	if !p.above && c.below == 0 {
		c.below = l.r
	}
	for y := b.Min.Y + c.below; y < b.Max.Y || !p.above && y == b.Max.Y; y += l.r {
		c.chords = o.shape.chords(y, p.above, c.chords)
		c.ends = append(c.ends, len(c.chords))
	}
	for _, q := range c.chords {
		c.total += q.r - q.l
	}
	l.chords, l.ends = c.chords, c.ends
	return c
}

// first is the number of the lowest line that the first row of an option can
// lie on when the roll starts below it: lines are counted from 0 for the
// lowest on the roll.
func (l *lines) first(c *crossing, p sample) int64 {
	if l.job.Repeat.FreeStart {
		return 0
	}
	return max(0, ceilDiv(c.below-l.height(p), l.r))
}

// height is where on the roll the lowest line of a phase lies: in [0, r), or
// (0, r] when approached from below.
func (l *lines) height(p sample) int64 {
	y := mod(l.start+p.phase, l.r)
	if !p.above && y == 0 {
		return l.r
	}
	return y
}

// load is what all pieces put on the lines of one phase.
type load struct {
	sample
	sum   int64   // least chords
	first int64   // the lowest line any of them can lie on
	most  float64 // no weighing makes more of them, in widths
	// pieces must meet the line; meets differs, but for bad luck, where it
	// meets other ways to lie.
	pieces int
	meets  uint64
	sizes  [][]int64 // chords, by option, in the order of the items
}

// load adds up the pieces. With deep it keeps the single chords.
//
// most: floor(c/x) chords of size x lie side by side, so f(x) <= 1/floor(c/x)
// for every dual feasible function f with f(c) = 1.
func (l *lines) load(p sample, deep bool) load {
	out := load{sample: p, sum: l.steady, first: math.MaxInt64}
	if l.steady > 0 {
		out.first = 0
	}
	for i := range l.items {
		it := &l.items[i]
		least, first, most := int64(math.MaxInt64), int64(math.MaxInt64), math.Inf(1)
		for k := range it.options {
			c := l.cross(&it.options[k], p)
			least = min(least, c.total)
			first = min(first, l.first(&c, p))
			out.meets *= 0x100000001b3
			if c.total > 0 {
				out.meets ^= 1
			}
			share := 0.0
			var sizes []int64
			for _, q := range c.chords {
				if q.l < q.r {
					share += 1 / float64(l.width/(q.r-q.l))
				}
				if deep {
					sizes = append(sizes, q.r-q.l)
				}
			}
			most = min(most, share)
			if deep {
				out.sizes = append(out.sizes, sizes)
			}
		}
		out.sum += least * int64(it.count)
		out.most += float64(most * float64(it.count))
		if least > 0 {
			out.pieces += it.count
			out.first = min(out.first, first)
		}
	}
	if out.sum == 0 {
		out.first = 0
	}
	return out
}

// survey loads the ends of all stretches; when the context ends, of some.
func (l *lines) survey(ctx context.Context) {
	for i, a := range l.cuts {
		if ctx.Err() != nil {
			return
		}
		b := l.cuts[0] + l.r
		if i+1 < len(l.cuts) {
			b = l.cuts[i+1]
		}
		l.stretches = append(l.stretches, stretch{a, b, l.load(sample{a, true}, false), l.load(sample{b, false}, false)})
	}
}

// need is a number of lines of one phase that a layout must have, found by
// weighing chords.
type need struct {
	sample
	lines, first int64
	weigh        Weighing
}

// length is the bound by one need, with a known start of the pattern: the
// pieces lie on lines from number first on, and the last of them lies on the
// roll. Approached from above the bound holds just above the line, and whole
// lengths reach the next unit.
func (l *lines) length(n need) int64 {
	if n.lines < 1 {
		return 0
	}
	y := l.height(n.sample) + (n.first+n.lines-1)*l.r
	if n.above && l.job.Whole {
		y++
	}
	return y
}

// plain is the number of lines that the sum of chords needs.
func (l *lines) plain(d load) need {
	return need{d.sample, ceilDiv(d.sum, l.width), d.first, Weighing{}}
}

// runs joins neighbouring stretches on which the same ways to lie meet the
// lines.
func (l *lines) runs() []stretch {
	var out []stretch
	for _, s := range l.stretches {
		last := len(out) - 1
		if s.low.meets == s.high.meets && last >= 0 && out[last].high.meets == s.low.meets {
			out[last].to, out[last].high = s.to, s.high
			continue
		}
		out = append(out, s)
	}
	return out
}

// byLine bounds the length by the chords on the lines of one phase. Let
// C_i(phi) be all that piece i covers of the lines Y = phi + k R, least over
// the ways in which it may lie (a turn, another match point or another column
// of a drop; every shift of a piece that is free along). With a known start,
// phi the height of the first such line,
//
//	m(phi) = ceil(sum of C_i(phi) / W),   L >= (m(phi) - 1) R + phi      for every phi
//
// and with a free start, M the largest m,
//
//	L >= (M - 1) R + (shortest arc of phases that holds all phi with m(phi) = M)
//
// Proof: pieces do not overlap, so on each line their chords are disjoint parts
// of the width. A piece covers the same of all lines of one phase together,
// whichever repeat it lies in. So at least m of these lines lie on the roll.
// With a known start the m-th is at phi + (m-1) R, or higher when no piece that
// counts can lie on the first ones without hanging over the end of the roll.
// A roll of (M-1) R + s holds M lines of exactly those phases that lie in an
// arc of length s. q.e.d. Nothing is assumed of the outlines.
//
// The sum is straight between two heights of corners, or bent down where the
// least option changes, so each stretch is settled by its ends and, where m
// falls in it, by halving.
func (l *lines) byLine(ctx context.Context) Claim {
	best := Claim{Method: ByLine, Piece: -1}
	if l.job.Repeat.FreeStart {
		return l.freeLine(ctx, best, l.stretches, counter{
			lines: func(d load, _ int64) need { return l.plain(d) },
			whole: func(stretch, int64) bool { return !l.thinned }, // sums bend down only
		})
	}
	for _, s := range l.stretches {
		low, high := l.plain(s.low), l.plain(s.high)
		best = l.raise(best, high)
		if best = l.raise(best, low); low.lines > high.lines && l.length(need{high.sample, low.lines, low.first, low.weigh}) > best.Length {
			best = l.raise(best, l.upmost(low, s.to, func(d load) need { return l.plain(d) }))
		}
	}
	return best
}

// raise returns the better of a claim and what follows from a need.
func (l *lines) raise(best Claim, n need) Claim {
	if v := l.length(n); v > best.Length {
		best.Length, best.Phase, best.Lines, best.Weigh = v, mod(n.phase, l.r), n.lines, n.weigh
		best.Line = l.height(n.sample) + (n.first+n.lines-1)*l.r
	}
	return best
}

// upmost looks for the highest whole phase below end that still needs as many
// lines. Every phase that does is a proof, so halving may miss others.
func (l *lines) upmost(low need, end int64, needs func(load) need) need {
	from, to := low.phase, end
	for ; to-from > 1 && l.seek > 0; l.seek -= l.options {
		mid := from + (to-from)/2
		if n := needs(l.load(sample{mid, true}, true)); n.lines >= low.lines {
			low, from = n, mid
		} else {
			to = mid
		}
	}
	return low
}

// downmost looks for the lowest whole phase above start that still needs as
// many lines.
func (l *lines) downmost(high need, start int64, needs func(load) need) need {
	from, to := start, high.phase
	for ; to-from > 1 && l.seek > 0; l.seek -= l.options {
		mid := from + (to-from)/2
		if n := needs(l.load(sample{mid, false}, true)); n.lines >= high.lines {
			high, to = n, mid
		} else {
			from = mid
		}
	}
	return high
}
