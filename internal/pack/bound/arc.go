package bound

import (
	"cmp"
	"context"
	"slices"
)

// arc is a closed range of phases; to is at least from.
type arc struct{ from, to int64 }

// shortestArc is the length of the shortest arc of the circle of phases that
// holds all the arcs: the circle less the widest gap between them.
func shortestArc(arcs []arc, r int64) int64 {
	if len(arcs) == 0 {
		return 0
	}
	slices.SortFunc(arcs, func(a, b arc) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
	gap, end := int64(0), arcs[0].to
	for _, a := range arcs[1:] {
		gap = max(gap, a.from-end)
		end = max(end, a.to)
	}
	gap = max(gap, arcs[0].from+r-end)
	return max(0, r-gap)
}

// counter is a way to prove a number of lines of one phase, and what it needs
// for a free start.
type counter struct {
	// lines gives the lines of a load. It need not look when it cannot reach a
	// target.
	lines func(d load, target int64) need
	// whole reports whether a number of lines needed at two phases of one
	// stretch is needed at all phases between.
	whole func(s stretch, lines int64) bool
}

// freeLine is the bound by lines for a free start of the pattern, where it
// beats a claim. The phases that need the largest number are gathered as arcs:
// from each end of a stretch that needs it as far as that can be followed. Any
// part of these phases would give a bound.
func (l *lines) freeLine(ctx context.Context, best Claim, stretches []stretch, c counter) Claim {
	top := need{lines: max(1, best.Lines)}
	found := false
	for _, s := range stretches {
		for _, d := range [2]load{s.low, s.high} {
			target := top.lines
			if found {
				target++
			}
			if n := c.lines(d, target); n.lines >= target {
				top, found = n, true
			}
		}
	}
	if !found {
		return best
	}
	exact := func(d load) need { return c.lines(d, top.lines) }
	slack := int64(0) // whole layouts reach the next unit
	if l.job.Whole {
		slack = 1
	}
	var arcs []arc
	for _, s := range stretches {
		if ctx.Err() != nil {
			break
		}
		low, high := exact(s.low), exact(s.high)
		a, b := low.lines >= top.lines, high.lines >= top.lines
		if a && b && c.whole(s, top.lines) {
			arcs = append(arcs, arc{s.from, s.to})
			continue
		}
		if a {
			end := l.upmost(low, s.to, exact)
			arcs = l.follow(arcs, stretch{s.from, min(s.to, end.phase+slack), s.low, l.load(end.sample, true)}, top.lines, c)
		}
		if b {
			end := l.downmost(high, s.from, exact)
			arcs = l.follow(arcs, stretch{max(s.from, end.phase-slack), s.to, l.load(end.sample, true), s.high}, top.lines, c)
		}
	}
	if length := (top.lines-1)*l.r + shortestArc(arcs, l.r); length > best.Length {
		best.Length, best.Phase, best.Lines, best.Weigh = length, mod(top.phase, l.r), top.lines, top.weigh
	}
	return best
}

// follow adds a stretch as an arc, or as its two ends where it is not known to
// need as many lines all along.
func (l *lines) follow(arcs []arc, s stretch, lines int64, c counter) []arc {
	if c.whole(s, lines) {
		return append(arcs, arc{s.from, s.to})
	}
	return append(arcs, arc{s.from, s.from}, arc{s.to, s.to})
}

// common is a load that no phase of a stretch falls short of: every chord as
// short as at its shorter end, and the least sum, as sums bend down only.
func (l *lines) common(s stretch) load {
	low, high := l.load(s.low.sample, true), l.load(s.high.sample, true)
	out := load{sample: s.low.sample, sum: min(low.sum, high.sum), most: min(low.most, high.most)}
	for k, a := range low.sizes {
		b := high.sizes[k] // as many, as no corner lies between
		c := make([]int64, min(len(a), len(b)))
		for i := range c {
			c[i] = min(a[i], b[i])
		}
		out.sizes = append(out.sizes, c)
	}
	return out
}
