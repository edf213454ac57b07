package bound

import (
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
	slices.SortFunc(arcs, func(a, b arc) int {
		if a.from != b.from {
			return int(min(max(a.from-b.from, -1), 1))
		}
		return int(min(max(a.to-b.to, -1), 1))
	})
	gap, end := int64(0), arcs[0].to
	for _, a := range arcs[1:] {
		gap = max(gap, a.from-end)
		end = max(end, a.to)
	}
	gap = max(gap, arcs[0].from+r-end)
	return max(0, r-gap)
}

// freeLine is the bound by lines for a free start of the pattern, where it
// beats a claim; needs gives the lines of a load, and may stop at a number when
// more cannot be reached. The phases that need the largest number are gathered
// as arcs: whole stretches where what their ends have in common needs it, and
// the reach of those that need it at one end only. Any part of these phases
// would give a bound.
func (l *lines) freeLine(ctx context.Context, best Claim, needs func(load, int64) need) Claim {
	top := need{lines: max(1, best.Lines)}
	found := false
	for _, s := range l.stretches {
		for _, d := range [2]load{s.low, s.high} {
			target := top.lines
			if found {
				target++
			}
			if n := needs(d, target); n.lines >= target {
				top, found = n, true
			}
		}
	}
	if !found {
		return best
	}
	exact := func(d load) need { return needs(d, top.lines) }
	var arcs []arc
	for _, s := range l.stretches {
		if ctx.Err() != nil {
			break
		}
		low, high := exact(s.low), exact(s.high)
		a, b := low.lines >= top.lines, high.lines >= top.lines
		if a && b && !l.thinned && exact(l.common(s)).lines >= top.lines {
			arcs = append(arcs, arc{s.from, s.to})
			continue
		}
		slack := int64(0) // whole layouts reach the next unit
		if l.job.Whole {
			slack = 1
		}
		if a {
			arcs = append(arcs, arc{s.from, min(s.to, l.upmost(low, s.to, exact).phase+slack)})
		}
		if b {
			arcs = append(arcs, arc{max(s.from, l.downmost(high, s.from, exact).phase-slack), s.to})
		}
	}
	if len(arcs) == 0 {
		return best
	}
	if length := (top.lines-1)*l.r + shortestArc(arcs, l.r); length > best.Length {
		best.Length, best.Phase, best.Lines, best.Weigh = length, mod(top.phase, l.r), top.lines, top.weigh
	}
	return best
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
