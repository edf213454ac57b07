package bound

import (
	"context"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// weighWork is the number of chords weighed by functions for all phases
// together.
const weighWork = 1_500_000

// byWeighedLine is byLine with every chord weighed by a dual feasible function
// f, f(1) = 1:
//
//	m(phi) = ceil(sum over pieces of the weights of their chords / W)
//
// the best f for each phi. Proof: as there, with weights for lengths: those of
// the chords on one line sum to at most 1.
//
// A phase is looked at only if m can reach what is still wanted: f(x) is at most
// 1/floor(1/x), as that many chords of x fit side by side.
func (l *lines) byWeighedLine(ctx context.Context, best Claim) (Claim, bool) {
	plain := best.Length
	best.Method = ByWeighedLine
	w := &weigher{lines: l, work: weighWork}
	if l.job.Repeat.FreeStart {
		best = l.freeLine(ctx, best, l.stretches, counter{
			lines: w.need,
			whole: func(s stretch, lines int64) bool {
				return !l.thinned && w.need(l.common(s), lines).lines >= lines
			},
		})
		return best, best.Length > plain
	}
	type look struct {
		d      load
		to     int64 // end of the stretch, for its lower end
		length int64 // no weighing makes more of it
	}
	var looks []look
	for _, s := range l.stretches {
		high := l.length(need{sample: s.high.sample, lines: ceiling(s.low.most), first: s.low.first})
		looks = append(looks, look{s.low, s.to, high},
			look{s.high, s.to, l.length(need{sample: s.high.sample, lines: ceiling(s.high.most), first: s.high.first})})
	}
	slices.SortStableFunc(looks, func(a, b look) int { return int(min(max(b.length-a.length, -1), 1)) })
	for _, k := range looks {
		if k.length <= best.Length || ctx.Err() != nil {
			break
		}
		n := w.need(k.d, 1)
		best = l.raise(best, n)
		if !k.d.above || l.length(need{sample: sample{k.to, false}, lines: n.lines, first: n.first}) <= best.Length {
			continue
		}
		best = l.raise(best, l.upmost(n, k.to, func(d load) need { return w.need(d, n.lines) }))
	}
	return best, best.Length > plain
}

// ceiling rounds up what floating point has summed: a whole number and a trace
// is the number. It is used only to leave out looks.
func ceiling(x float64) int64 { return int64(math.Ceil(x - 1e-6)) }

// weigher counts its work.
type weigher struct {
	*lines
	work int
	last Weighing // what served last
}

// need is the largest number of lines that a function proves. It stops at what
// no function can exceed, and does not look when that is under the target.
func (w *weigher) need(d load, target int64) need {
	out := w.plain(d)
	most := ceiling(d.most)
	if most < target || most <= out.lines || w.work <= 0 {
		return out
	}
	if d.sizes == nil {
		d = w.load(d.sample, true)
	}
	var sizes []int64
	chords := 1
	for _, o := range d.sizes {
		sizes = append(sizes, o...)
		chords += len(o)
	}
	slices.Sort(sizes)
	fs := weighings(w.width, slices.Compact(sizes), 50)
	if w.last.Of > 0 {
		fs[0] = w.last // instead of Plain, which is known
	}
	for _, f := range fs {
		w.work -= chords
		if n := w.weighed(d, f); n > out.lines {
			out.lines, out.weigh, w.last = n, f, f
			if n >= most {
				break
			}
		}
	}
	return out
}

// weighed is the number of lines that one function proves.
func (w *weigher) weighed(d load, f Weighing) int64 {
	var sum geom.Int128
	next := 0
	for i := range w.items {
		it := &w.items[i]
		least := int64(math.MaxInt64)
		for range it.options {
			v := int64(0)
			for _, x := range d.sizes[next] {
				v += f.at(x)
			}
			next++
			least = min(least, v)
		}
		sum = sum.Add(geom.Mul64(least, int64(it.count)))
	}
	return divide(sum, f.top(), true)
}
