package allowance

import (
	"slices"

	"github.com/coverwright/coverwright/unit"
)

// ownKinds says how an edge is held that has a finish of its own in place of a
// fastening, as those of made-up parts have.
var ownKinds = map[Finish]FasteningKind{PullOver: PulledOver, Raw: StapledFlat, TurnedUnder: FoldedIn}

// ownFits lists the steps for edges that are held by a finish of their own, those of
// one piece that are held alike in one step. What is turned in, in sight, comes when
// all else is on the frame.
func (g *graph) ownFits(bodyOf []int) []fit {
	var out []fit
	for n, of := range g.nodes {
		from := len(out)
		for i := range g.drawn[of.panel].border {
			at := place{n, i}
			m, err := g.edge(at).Resolve()
			kind, held := ownKinds[g.edge(at).Finish]
			if len(g.uses[at]) > 0 || err != nil || !held || m.Total() == 0 {
				continue
			}
			k := slices.IndexFunc(out[from:], func(f fit) bool { return f.How == kind.String() })
			if k < 0 {
				k = len(out) - from
				f := fit{FitStep: FitStep{How: kind.String()}, at: unit.Path("panels").At(of.panel), nodes: []int{n}, body: bodyOf[n], rank: fasteningKinds[kind].first, own: true}
				if kind == FoldedIn {
					f.body = len(g.nodes) + 1
				}
				out = append(out, f)
			}
			out[from+k].What = append(out[from+k].What, g.at(at))
		}
	}
	return out
}

// insideFirst puts what is held by a finish of its own, and hides nothing, before the
// panels that hide others: they cover its raw edges. A lining that is stapled flat comes
// before what is pulled over it.
func insideFirst(steps []fit, hiders []int) {
	hides := func(n int) bool { return slices.Contains(hiders, n) }
	for i, own := range steps {
		if !own.own || own.How == FoldedIn.String() || slices.ContainsFunc(own.nodes, hides) {
			continue
		}
		for k := range steps {
			over := own.How == StapledFlat.String() && steps[k].own && steps[k].body == own.body && steps[k].How == PulledOver.String() && steps[k].nodes[0] != own.nodes[0]
			if over || slices.ContainsFunc(steps[k].nodes, hides) {
				steps[k].after = append(steps[k].after, i)
			}
		}
	}
}
