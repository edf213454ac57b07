package bound

import (
	"context"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// chordWork is the number of slabs times functions that byChords looks at.
const chordWork = 400_000

// byChords adds up the chords of all pieces through a dual feasible function:
//
//	L >= sum over pieces of the integral of f(chord(y)/W) dy
//
// each chord of a line by itself, f(1) = 1; least over the ways to lie. Proof:
// on every line across a layout the chords are disjoint parts of the width, so
// their weights sum to at most 1; integrate over the lines from 0 to L, and
// change the order of sum and integral. A shift along the roll does not change
// the integral of a piece. It holds for any outline. f(x) = x is the area.
func (s *strip) byChords(ctx context.Context, area int64) (Claim, bool) {
	var sizes []int64
	slabs := 0
	for i := range s.items {
		for _, o := range s.items[i].once() {
			slabs += len(o.slabs)
			for _, q := range o.slabs {
				sizes = append(sizes, q.r0-q.l0, q.r1-q.l1, (q.r0-q.l0+q.r1-q.l1)/2)
			}
		}
	}
	slices.Sort(sizes)
	sizes = slices.Compact(sizes)
	best := Claim{Length: area, Method: ByChords, Piece: -1}
	found := false
	for _, w := range weighings(s.width, sizes, min(max(24, chordWork/max(1, slabs)), 120)) {
		if ctx.Err() != nil {
			break
		}
		if l := s.integral(w); l > best.Length {
			best.Length, best.Weigh, found = l, w, true
		}
	}
	return best, found
}

// once lists the different outlines of the options.
func (it *item) once() []*shape {
	var out []*shape
	for _, o := range it.options {
		if len(out) == 0 || out[len(out)-1] != o.shape { // the classes of columns of one way stand together
			out = append(out, o.shape)
		}
	}
	return out
}

// integral is the bound by one function.
func (s *strip) integral(w Weighing) int64 {
	p := w.stairs()
	var sum geom.Int128
	for i := range s.items {
		it := &s.items[i]
		var least geom.Int128
		for k, o := range it.once() {
			if v := p.outline(o); k == 0 || v.Cmp(least) < 0 {
				least = v
			}
		}
		sum = sum.Add(times(least, it.count))
	}
	return divide(sum, w.top()*sub, s.job.Whole)
}

// outline is the integral of the weights of one outline, heights in 1/sub.
func (p *profile) outline(o *shape) geom.Int128 {
	var sum geom.Int128
	for j := 0; j+1 < len(o.level); j++ {
		h := (o.level[j+1] - o.level[j]) * sub
		for _, q := range o.slabs[o.first[j]:o.first[j+1]] {
			sum = sum.Add(p.over(h, q.r0-q.l0, q.r1-q.l1))
		}
	}
	return sum
}

// times returns a n; it fits for sums within the limits of a job.
func times(a geom.Int128, n int) geom.Int128 {
	var sum geom.Int128
	for ; n > 0; n >>= 1 {
		if n&1 == 1 {
			sum = sum.Add(a)
		}
		a = a.Add(a)
	}
	return sum
}
