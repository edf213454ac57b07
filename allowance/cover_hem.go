package allowance

import (
	"slices"
	"strings"
)

// hem is an edge, or several in a run, sewn to itself.
type hem struct {
	side []span
	rows []CoverRow
}

// hemStep words a hem in the order of sewing.
func (g *graph) hemStep(h hem) SewStep {
	return SewStep{Do: HemEdge, Seam: strings.Join(g.names(h.side), " + ")}
}

// hems gives the edges that are sewn to themselves, fastenings first, then edges
// with a finish of their own, and for each joint the places of those sewn before it.
func (g *graph) hems() ([]hem, map[int][]int) {
	var out []hem
	for _, h := range g.holds {
		f := g.cover.Fastenings[h.fastening]
		if !f.sewn() {
			continue
		}
		of := stack{g.goodsOf(h.side), 2}
		row := g.row(g.spanName(h.side[0]), HemRow, g.through(h.side), 0, of)
		rows := []CoverRow{row}
		if f.Kind == HookAndLoop { // along both edges of the tape
			row = g.row(row.Of, HemRow, row.Length, 1, of)
			rows = []CoverRow{row, row}
		}
		out = append(out, hem{side: h.side, rows: rows})
	}
	for n, of := range g.nodes {
		for i, part := range g.drawn[of.panel].parts {
			at := place{n, i}
			if f := g.edge(at).Finish; len(g.uses[at]) == 0 && f.Sewn() && !f.Seam() {
				layers := 2
				if f == DoubleHem {
					layers = 3
				}
				side := []span{{node: n, parts: []int{i}, ahead: true}}
				out = append(out, hem{side: side, rows: []CoverRow{g.row(g.at(at), HemRow, part.length, 0, stack{g.goodsOf(side), layers})}})
			}
		}
	}
	return out, g.whileFlat(out)
}

// whileFlat gives for each joint the hems that are sewn before it: those of its
// panels, while they are flat. A hem that runs on over a seam, along edges that the
// seam brings together, comes after all.
func (g *graph) whileFlat(hems []hem) map[int][]int {
	ends := map[vertex]bool{}
	for _, h := range hems {
		start, end := g.sideEnds(h.side)
		ends[start], ends[end] = true, true
	}
	runsOn := func(h hem) bool {
		start, end := g.sideEnds(h.side)
		return h.side[0].node != h.side[len(h.side)-1].node || slices.ContainsFunc(slices.Concat(g.glue[start], g.glue[end]), func(o glued) bool { return ends[o.to] })
	}
	byNode := make([][]int, len(g.nodes))
	for k, h := range hems {
		if n := h.side[0].node; !runsOn(h) {
			byNode[n] = append(byNode[n], k)
		}
	}
	before := map[int][]int{}
	for i := range g.joints {
		if g.flat(i) {
			continue
		}
		for _, n := range g.nodesOf(i) {
			before[i] = append(before[i], byNode[n]...)
		}
		slices.Sort(before[i])
	}
	return before
}
