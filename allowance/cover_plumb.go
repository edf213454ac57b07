package allowance

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// notPlumb is how far the corners of two plates may be off each other across
// their boxing.
const notPlumb = unit.Inch / 4

// checkPlumb finds plates that twist their boxing: two panels of as many corners
// are sewn to opposite edges of the same strips, and a corner of one does not
// stand over a corner of the other. A plate below is the mirror image of the one
// above; two of one hand do this unless they are symmetric.
func (g *graph) checkPlumb() {
	byNode := map[int][][2]int{} // joint and side of the strips
	for i, j := range g.joints {
		if len(j.sides) != 2 {
			continue
		}
		for k, side := range j.sides {
			if len(g.corners(side)) > 0 {
				continue // a strip is straight, but for its ends where it closes on itself
			}
			for _, s := range side {
				if s.line || len(s.parts) != 1 {
					continue
				}
				byNode[s.node] = append(byNode[s.node], [2]int{i, k})
			}
		}
	}
	done := map[[2]int]bool{}
	for n := range g.nodes {
		for x, a := range byNode[n] {
			for _, b := range byNode[n][x+1:] {
				if pair := [2]int{a[0], b[0]}; a[0] != b[0] && !done[pair] {
					done[pair] = true
					g.plumb(a, b)
				}
			}
		}
	}
}

// plumb compares the plates on two seams of the same strips.
func (g *graph) plumb(a, b [2]int) {
	first, second := g.joints[a[0]], g.joints[b[0]]
	over, under := first.sides[1-a[1]], second.sides[1-b[1]]
	corners, mates := g.ringCorners(over, first.ring), g.ringCorners(under, second.ring)
	if len(corners) == 0 || len(corners) != len(mates) {
		return
	}
	run := g.run(under)
	for _, c := range corners {
		at, ok := g.opposite(first.sides[a[1]], second.sides[b[1]], g.run(over)-c.at)
		if !ok {
			continue
		}
		at = g.run(second.sides[b[1]]) - at
		met := false
		for _, m := range mates {
			d := max(m.at-at, at-m.at)
			if second.ring {
				d = min(d, run-d)
			}
			met = met || d <= notPlumb
		}
		if !met {
			g.faults.add(second.at.Dot("sides").At(1-b[1]), check.Refuse("", firstToLast(g.names(under)), unit.ErrRange,
				"corners that stand over those of "+firstToLast(g.names(over))+": of two plates the lower is the mirror image of the upper"))
			return
		}
	}
}

// firstToLast writes the ends of a list of edges.
func firstToLast(edges []string) string {
	if len(edges) == 1 {
		return edges[0]
	}
	return edges[0] + " to " + edges[len(edges)-1]
}

// opposite takes a place along the edges of strips straight across to the place
// along their other edges.
func (g *graph) opposite(from, to []span, at unit.Length) (unit.Length, bool) {
	for _, s := range from {
		l := g.length(s)
		if at > l {
			at -= l
			continue
		}
		start := unit.Length(0)
		for _, t := range to {
			m := g.length(t)
			d := g.drawn[g.nodes[s.node].panel]
			across := t.node == s.node && d.border == 4 && (s.parts[0]+2)%4 == t.parts[0] // a strip has four edges
			if tol := max(l-m, m-l); across && tol <= notPlumb {
				return start + m - at, true
			}
			start += m
		}
		return 0, false
	}
	return 0, false
}

// ringCorners lists the corners of a side, of a ring also that where it begins.
func (g *graph) ringCorners(side []span, ring bool) []corner {
	out := g.corners(side)
	first, last := side[0], side[len(side)-1]
	if ring && first.node == last.node && !first.line {
		v, _ := g.ends(first)
		if turn := g.drawn[g.nodes[v.node].panel].parts[v.part].corner; turn >= sharpestSmooth || turn <= -sharpestSmooth {
			out = append(out, corner{0, turn})
		}
	}
	return out
}
