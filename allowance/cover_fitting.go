package allowance

import (
	"math"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// FitStep is one step of the order of fitting on the frame: a fastening, a trim,
// or a seam that is closed by hand there.
type FitStep struct {
	What []string `json:"what"`         // the edges, or the name of the trim
	How  string   `json:"how"`          // the finish of the fastening or the kind of trim
	To   string   `json:"to,omitempty"` // of the frame
	Why  string   `json:"why,omitempty"`
}

// fit is a step before it is put in order.
type fit struct {
	FitStep
	at    unit.Path
	nodes []int
	body  int
	rank  int
	// out is the direction square out from its side, as its panel is drawn.
	out   [2]float64
	own   bool // by a finish of its own
	after []int
	why   string
}

// opposite tells whether two sides lie across a panel from each other.
func (f fit) opposite(o fit) bool {
	return math.Abs(turned(f.out[0], f.out[1], o.out[0], o.out[1])) > 3*math.Pi/4
}

// fitting puts fastenings and trims in order. Every edge that a panel hides comes
// before that panel, welt before the panel that meets it; gimp and nails come
// after what they cover. Else: what is sewn together is fitted together, in the
// order of the panels; of one panel the blind edge first, then what is pulled,
// pushed through, stapled flat, what is turned in, and what is closed by hand, each
// time first the edge across from the one at which the panel was begun.
// Edges with a finish of their own come before the panels that hide others, and at
// the end where they are turned in, in sight. What is sewn to itself is no step. An
// order that runs in a circle is a fault.
func (g *graph) fitting() ([]FitStep, error) {
	steps := g.fits()
	byNode := make([][]int, len(g.nodes))
	for i, s := range steps {
		for _, n := range s.nodes {
			byNode[n] = append(byNode[n], i)
		}
	}
	var hiders []int
	hides := func(i int, nodes []int) error {
		hiders = append(hiders, nodes...)
		for _, n := range nodes {
			if slices.Contains(steps[i].nodes, n) {
				return check.Refuse(steps[i].at.Dot("hidden_by"), g.nodes[n].name, unit.ErrRange, "another panel than the one that is hidden")
			}
			for _, k := range byNode[n] {
				steps[k].after = append(steps[k].after, i)
				steps[k].why = g.nodes[n].name + " hides " + strings.Join(steps[i].What, ", ")
			}
		}
		return nil
	}
	k := 0
	for _, h := range g.holds {
		if g.cover.Fastenings[h.fastening].sewn() {
			continue
		}
		if err := hides(k, h.hidden); err != nil {
			return nil, err
		}
		k++
	}
	k = len(steps) - len(g.trims)
	for _, t := range g.trims {
		if err := hides(k, t.hidden); err != nil {
			return nil, err
		}
		for _, n := range t.covers {
			for _, before := range byNode[n] {
				steps[k].after = append(steps[k].after, before)
				steps[k].why = "it covers the edge of " + g.nodes[n].name
			}
		}
		k++
	}
	insideFirst(steps, hiders)
	return orderFits(steps)
}

// lastRank comes after every fastening of a panel.
const lastRank = 9

// onFrame tells whether a joint is closed by hand on the frame: a panel of it is
// fastened.
func (g *graph) onFrame(i int) bool {
	j := g.joints[i]
	if g.cover.Seams[j.seam].Kind != HandJoin {
		return false
	}
	nodes := g.nodesOf(i)
	for _, h := range g.holds {
		for _, s := range h.side {
			if !g.cover.Fastenings[h.fastening].sewn() && slices.Contains(nodes, s.node) {
				return true
			}
		}
	}
	return false
}

// fits lists the steps of fitting: fastenings, seams closed by hand, then trims.
func (g *graph) fits() []fit {
	bodyOf := make([]int, len(g.nodes))
	for i, b := range g.bodies() {
		for _, n := range b.nodes {
			bodyOf[n] = i
		}
	}
	var out []fit
	for _, h := range g.holds {
		f := g.cover.Fastenings[h.fastening]
		if f.sewn() {
			continue
		}
		s := fit{FitStep: FitStep{What: g.names(h.side), How: f.Kind.String(), To: f.To}, at: h.at, rank: fasteningKinds[f.Kind].first, body: bodyOf[h.side[0].node]}
		for _, sp := range h.side {
			if !slices.Contains(s.nodes, sp.node) {
				s.nodes = append(s.nodes, sp.node)
			}
		}
		if d := g.drawn[g.nodes[s.nodes[0]].panel]; len(h.side) == 1 && !h.side[0].line {
			middle := h.side[0].parts[len(h.side[0].parts)/2]
			s.out[0], s.out[1] = d.outward(middle, d.parts[middle].length/2)
		}
		out = append(out, s)
	}
	for i, j := range g.joints {
		if !g.onFrame(i) {
			continue
		}
		s := fit{FitStep: FitStep{How: CloseByHand.String()}, at: j.at, nodes: g.nodesOf(i), rank: lastRank, body: bodyOf[j.sides[0][0].node]}
		for _, side := range j.sides {
			s.What = append(s.What, g.names(side)...)
		}
		slices.Sort(s.nodes)
		slices.Reverse(s.nodes) // the outer panel is the later one
		out = append(out, s)
	}
	out = append(out, g.ownFits(bodyOf)...)
	for i, t := range g.trims { // just before what hides it, or after what it covers
		trim := g.cover.Trims[t.trim]
		s := fit{FitStep: FitStep{What: []string{trim.Name}, How: trim.Kind.String()}, at: unit.Path("trims").At(i), body: len(g.nodes)}
		switch {
		case len(t.hidden) > 0:
			s.body = bodyOf[t.hidden[0]]
		case len(t.covers) > 0:
			s.body = bodyOf[t.covers[len(t.covers)-1]]
		}
		out = append(out, s)
	}
	return out
}

// orderFits sorts the steps.
func orderFits(steps []fit) ([]FitStep, error) {
	done := make([]bool, len(steps))
	ready := func(i int) bool {
		return !done[i] && !slices.ContainsFunc(steps[i].after, func(k int) bool { return !done[k] })
	}
	// Of those that are ready: the body and panel at hand, then by body, panel,
	// rank, what lies across from where the panel was begun, and place.
	body, panel, begun := -1, -1, fit{}
	key := func(f fit) [4]int {
		k := [4]int{f.body, first(f.nodes), f.rank, 1}
		if f.body == body {
			k[0] = -2
		}
		if first(f.nodes) == panel {
			k[1] = -2
			if f.opposite(begun) {
				k[3] = 0
			}
		}
		return k
	}
	less := func(a, b fit) bool {
		ka, kb := key(a), key(b)
		return slices.Compare(ka[:], kb[:]) < 0
	}
	var out []FitStep
	for len(out) < len(steps) {
		best := -1
		for i := range steps {
			if ready(i) && (best < 0 || less(steps[i], steps[best])) {
				best = i
			}
		}
		if best < 0 {
			var names []string
			at := unit.Path("")
			for i, s := range steps {
				if !done[i] {
					if at == "" {
						at = s.at
					}
					names = append(names, strings.Join(s.What, " and "))
				}
			}
			return nil, check.Refuse(at, strings.Join(names, ", "), unit.ErrRange, "edges that can be fitted one after the other, none hidden by what it hides")
		}
		done[best] = true
		if n := first(steps[best].nodes); n != panel {
			begun = steps[best]
		}
		body, panel = steps[best].body, first(steps[best].nodes)
		s := steps[best].FitStep
		s.Why = steps[best].why
		out = append(out, s)
	}
	return out, nil
}

func first(nodes []int) int {
	if len(nodes) == 0 {
		return -1
	}
	return nodes[0]
}
