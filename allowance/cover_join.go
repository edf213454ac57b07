package allowance

import (
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// vertex is where a part of the border of a piece begins anticlockwise as drawn,
// or an end of an inner line: its part and 1 for the far end.
type vertex struct{ node, part, end int }

// glued is a vertex that a seam brings to another.
type glued struct {
	to    vertex
	joint int
}

// ends gives where a span begins and ends in the direction of its side.
func (g *graph) ends(s span) (start, end vertex) {
	first, last := s.parts[0], s.parts[len(s.parts)-1]
	if s.line {
		start, end = vertex{s.node, first, 0}, vertex{s.node, first, 1}
		if !s.ahead {
			start, end = end, start
		}
		return start, end
	}
	border := g.drawn[g.nodes[s.node].panel].border
	if s.ahead {
		return vertex{s.node, first, 0}, vertex{s.node, (last + 1) % border, 0}
	}
	return vertex{s.node, (first + 1) % border, 0}, vertex{s.node, last, 0}
}

// sideEnds gives where a side begins and ends.
func (g *graph) sideEnds(side []span) (start, end vertex) {
	start, _ = g.ends(side[0])
	_, end = g.ends(side[len(side)-1])
	return start, end
}

// join finds what seams bring together, and holds every side to be one run.
func (g *graph) join() {
	tapes := map[string]int{}
	for i, j := range g.joints {
		for _, mate := range j.sides[1:] { // all others run against the first
			g.paste(i, j.sides[0], mate)
		}
		if tape := g.cover.Seams[j.seam].Tape; tape != "" {
			if other, ok := tapes[tape+j.label]; ok {
				g.paste(i, g.joints[other].sides[0], j.sides[0])
			}
			tapes[tape+j.label] = i
		}
	}
	g.around = make([][]next, len(g.joints))
	for i := range g.joints {
		j := &g.joints[i]
		j.ring = true
		for k, side := range j.sides {
			g.around[i] = append(g.around[i], next{k, g.whole(side, i)})
			start, end := g.sideEnds(side)
			by, ok := g.together(end, start, i)
			j.ring = j.ring && ok
			g.around[i] = append(g.around[i], next{k, by})
		}
		j.sewn = g.sewn(*j)
	}
	for _, h := range g.holds {
		g.whole(h.side, -1)
	}
}

// paste notes that the start of each of two sides meets the end of the other.
func (g *graph) paste(joint int, a, b []span) {
	as, ae := g.sideEnds(a)
	bs, be := g.sideEnds(b)
	for _, pair := range [2][2]vertex{{as, be}, {ae, bs}} {
		g.glue[pair[0]] = append(g.glue[pair[0]], glued{pair[1], joint})
		g.glue[pair[1]] = append(g.glue[pair[1]], glued{pair[0], joint})
	}
}

// whole holds the parts of a side to follow each other, and gives the joints
// that bring them together.
func (g *graph) whole(side []span, joint int) []int {
	var by []int
	for i := 1; i < len(side); i++ {
		_, end := g.ends(side[i-1])
		start, _ := g.ends(side[i])
		joints, ok := g.together(end, start, joint)
		if !ok {
			g.faults.add(side[i].at, check.Refuse("", g.spanName(side[i]), unit.ErrRange,
				"an edge that begins where "+g.spanName(side[i-1])+" ends, on its panel or by another seam; sides run anticlockwise"))
		}
		by = append(by, joints...)
	}
	return by
}

// together tells whether seams, leaving one out, bring two vertices to one
// place, and the fewest that do.
func (g *graph) together(a, b vertex, except int) ([]int, bool) {
	if a == b {
		return nil, true
	}
	type step struct {
		at   vertex
		from int
		by   int
	}
	seen := map[vertex]bool{a: true}
	steps := []step{{a, -1, -1}}
	for i := 0; i < len(steps); i++ {
		for _, e := range g.glue[steps[i].at] {
			if e.joint == except || seen[e.to] {
				continue
			}
			seen[e.to] = true
			steps = append(steps, step{e.to, i, e.joint})
			if e.to != b {
				continue
			}
			var by []int
			for k := len(steps) - 1; k > 0; k = steps[k].from {
				by = append(by, steps[k].by)
			}
			slices.Reverse(by)
			return by, true
		}
	}
	return nil, false
}

// spanName names a span for people.
func (g *graph) spanName(s span) string {
	return g.at(place{s.node, s.parts[0]})
}
