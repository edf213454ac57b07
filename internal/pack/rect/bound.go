package rect

import (
	"cmp"
	"slices"
)

// way is a size in which a box may be laid.
type way struct{ w, h int64 }

// item is a box as the bound sees it: one or two ways to lay it.
type item struct {
	ways [2]way
	n    int // number of ways
}

func (it *item) add(w, h int64) {
	for i := range it.n {
		if it.ways[i] == (way{w, h}) {
			return
		}
	}
	it.ways[it.n] = way{w, h}
	it.n++
}

// least is the least value of f over the ways to lay the box.
func (it *item) least(f func(way) int64) int64 {
	v := f(it.ways[0])
	if it.n == 2 {
		v = min(v, f(it.ways[1]))
	}
	return v
}

// stripBound is a lower bound for the height of a layout of the items on a strip. loose is area that must be laid as
// well but whose shape is open (joined pieces).
func stripBound(width int64, items []item, loose wide) int64 {
	best := int64(0)
	if len(items) > 0 {
		best = tallest(items)
		best = max(best, stacked(width, items))
	}
	w := width
	if loose == (wide{}) {
		w = reachable(width, items, func(q way) int64 { return q.w })
	}
	fs := widthFunctions(w, items)
	for _, f := range fs {
		best = max(best, f.height(items, loose))
	}
	if loose == (wide{}) {
		best = bySquares(w, best, items, fs)
		best = achievable(best, items)
	}
	return best
}

// tallest is the greatest least height of an item.
func tallest(items []item) int64 {
	var t int64
	for i := range items {
		t = max(t, items[i].least(func(q way) int64 { return q.h }))
	}
	return t
}

// stacked bounds the height by boxes wider than half the strip, which must stack, and by one further box that fits
// beside only some of them.
func stacked(width int64, items []item) int64 {
	type wideBox struct{ w, h int64 } // narrowest and lowest way
	var ws []wideBox
	var all int64
	for i := range items {
		it := &items[i]
		w := it.least(func(q way) int64 { return q.w })
		if w > width-w {
			h := it.least(func(q way) int64 { return q.h })
			ws = append(ws, wideBox{w, h})
			all += h
		}
	}
	slices.SortFunc(ws, func(a, b wideBox) int { return cmp.Compare(a.w, b.w) })
	under := make([]int64, len(ws)+1) // height of the narrowest i
	for i, q := range ws {
		under[i+1] = under[i] + q.h
	}
	best := all
	for i := range items {
		it := &items[i]
		if w := it.least(func(q way) int64 { return q.w }); w > width-w {
			continue
		}
		v := it.least(func(q way) int64 {
			beside, _ := slices.BinarySearchFunc(ws, width-q.w+1, func(a wideBox, t int64) int { return cmp.Compare(a.w, t) })
			return q.h + all - under[beside]
		})
		best = max(best, v)
	}
	return best
}

// reachable is the greatest sum of sides of different items up to limit. Where the exact sum is too costly it falls
// back to the greatest multiple of the common divisor.
func reachable(limit int64, items []item, side func(way) int64) int64 {
	var g int64
	for i := range items {
		for k := range items[i].n {
			g = gcd(g, side(items[i].ways[k]))
		}
	}
	if g == 0 {
		return limit
	}
	c := limit / g
	if c > 1<<20 || c/64*int64(len(items)) > 1<<24 {
		return c * g
	}
	set := newSums(c)
	for i := range items {
		if items[i].n == 2 {
			set.addEither(side(items[i].ways[0])/g, side(items[i].ways[1])/g)
		} else {
			set.addOne(side(items[i].ways[0]) / g)
		}
		if set.has(c) {
			return c * g
		}
	}
	return set.last() * g
}

// achievable raises a bound to the next height that some boxes stacked without space can reach: the highest box of a
// shortest layout can be taken to stand on such a stack.
func achievable(bound int64, items []item) int64 {
	var g int64
	for i := range items {
		for k := range items[i].n {
			g = gcd(g, items[i].ways[k].h)
		}
	}
	if g == 0 {
		return bound
	}
	c := (bound + g - 1) / g
	most := c + c/8 + 64
	if most > 1<<20 || most/64*int64(len(items)) > 1<<24 {
		return c * g
	}
	set := newSums(most)
	for i := range items {
		if items[i].n == 2 {
			set.addEither(items[i].ways[0].h/g, items[i].ways[1].h/g)
		} else {
			set.addOne(items[i].ways[0].h / g)
		}
		if set.has(c) {
			return c * g
		}
	}
	for ; c <= most; c++ {
		if set.has(c) {
			return c * g
		}
	}
	return c * g
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// sums is the set of sums of chosen numbers up to a limit.
type sums struct {
	limit int64
	word  []uint64
	old   []uint64
}

func newSums(limit int64) *sums {
	s := &sums{limit: limit, word: make([]uint64, limit/64+1)}
	s.word[0] = 1
	return s
}

// shifted ors src moved up by v into dst.
func shifted(dst, src []uint64, v int64) {
	if v>>6 >= int64(len(dst)) {
		return
	}
	q, r := int(v>>6), uint(v&63)
	for i := len(dst) - 1; i >= q; i-- {
		x := src[i-q] << r
		if r > 0 && i-q > 0 {
			x |= src[i-q-1] >> (64 - r)
		}
		dst[i] |= x
	}
}

func (s *sums) addOne(v int64) {
	s.old = append(s.old[:0], s.word...)
	shifted(s.word, s.old, v)
}

func (s *sums) addEither(a, b int64) {
	s.old = append(s.old[:0], s.word...)
	shifted(s.word, s.old, a)
	shifted(s.word, s.old, b)
}

func (s *sums) has(v int64) bool { return v <= s.limit && s.word[v>>6]>>(v&63)&1 == 1 }

func (s *sums) last() int64 {
	for v := s.limit; v > 0; v-- {
		if v&63 == 63 && s.word[v>>6] == 0 {
			v -= 63
			continue
		}
		if s.has(v) {
			return v
		}
	}
	return 0
}

// widthFunctions chooses dual feasible functions for the widths, fewer for large jobs.
func widthFunctions(width int64, items []item) []dff {
	var ws []int64
	for i := range items {
		for k := range items[i].n {
			ws = append(ws, items[i].ways[k].w)
		}
	}
	slices.Sort(ws)
	ws = slices.Compact(ws)
	return dffs(width, ws, max(8, min(200, 2_000_000/max(1, len(items)))))
}

// height is the bound by one function of the width. Open area counts only for the plain function.
func (f dff) height(items []item, loose wide) int64 {
	var sum wide
	for i := range items {
		it := &items[i]
		a := mul(f.at(it.ways[0].w), it.ways[0].h)
		if it.n == 2 {
			if b := mul(f.at(it.ways[1].w), it.ways[1].h); b.less(a) {
				a = b
			}
		}
		sum.add(a)
	}
	if f.kind == dffPlain {
		sum.add(loose)
	}
	return sum.ceilDiv(f.top())
}

func mul(a, b int64) wide {
	var s wide
	s.addMul(a, b)
	return s
}

// bySquares raises a bound with functions of both sides at once: a height is impossible if the mapped areas exceed
// the mapped strip.
func bySquares(width, bound int64, items []item, fs []dff) int64 {
	if width >= 1<<50 || bound >= 1<<50 || len(items) > 1000 {
		return bound
	}
	most := max(6, min(24, 40_000/(len(items)*8)))
	if len(fs) > most {
		step := (len(fs) + most - 1) / most
		var few []dff
		for i := 0; i < len(fs); i += step {
			few = append(few, fs[i])
		}
		fs = few
	}
	mapped := make([][][2]int64, len(fs)) // widths by function, box and way
	for n, f := range fs {
		mapped[n] = mappedSides(f, width, items, func(q way) int64 { return q.w })
	}
	var hs []int64
	for i := range items {
		for k := range items[i].n {
			hs = append(hs, items[i].ways[k].h)
		}
	}
	slices.Sort(hs)
	hs = slices.Compact(hs)
	impossible := func(h int64) bool {
		for _, g := range dffs(h, hs, most) {
			heights := mappedSides(g, h, items, func(q way) int64 { return q.h })
			for n, f := range fs {
				sum, ok := leastArea(mapped[n], heights)
				if !ok || mul(f.top(), g.top()).less(sum) {
					return true
				}
			}
		}
		return false
	}
	lo, hi := bound, bound+bound/2+1 // lo may be possible, below it nothing is
	if !impossible(lo) {
		return lo
	}
	for lo < hi {
		m := lo + (hi-lo)/2
		if impossible(m) {
			lo = m + 1
		} else {
			hi = m
		}
	}
	return lo
}

// mappedSides maps a side of every box in each of its ways; -1 stands for a way that
// there is not, or that is longer than the strip.
func mappedSides(f dff, limit int64, items []item, side func(way) int64) [][2]int64 {
	out := make([][2]int64, len(items))
	for i := range items {
		out[i] = [2]int64{-1, -1}
		for k := range items[i].n {
			if v := side(items[i].ways[k]); v <= limit {
				out[i][k] = f.at(v)
			}
		}
	}
	return out
}

// leastArea adds up the least mapped area of every box, if each has a way.
func leastArea(widths, heights [][2]int64) (wide, bool) {
	var sum wide
	for i, w := range widths {
		h := heights[i]
		first, second := w[0] >= 0 && h[0] >= 0, w[1] >= 0 && h[1] >= 0
		switch {
		case first && second:
			a, b := mul(w[0], h[0]), mul(w[1], h[1])
			if b.less(a) {
				a = b
			}
			sum.add(a)
		case first:
			sum.addMul(w[0], h[0])
		case second:
			sum.addMul(w[1], h[1])
		default:
			return wide{}, false
		}
	}
	return sum, true
}
