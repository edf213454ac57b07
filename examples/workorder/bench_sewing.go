package main

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
)

// seamView is a seam of panels whose edges are not joined to others by name.
type seamView struct{ Number, Part, Edges, Finish, Allowance, Length, Count, Goods string }

// viewSewing shows how the machine is set up, and the seams that no map shows.
func (s *sheet) viewSewing(v *benchCopy, o job.WorkOrder, cuts []drawnCut) {
	for _, x := range o.Sewing.SetUps {
		w := s.setUp(x)
		w.Rows = alikeRows(w.Rows)
		v.SetUps = append(v.SetUps, w)
	}
	if len(v.SetUps) > 0 {
		v.Fibres, v.Threads = s.fibres(o.Sewing), s.threads(o.Sewing)
	}
	type seam struct {
		view           seamView // without number, part and count
		numbers        []int
		names          []string
		counts         map[string]int
		count, element int
	}
	var seams []seam
	for _, p := range cuts {
		if p.cut.Assembly != 0 {
			continue // its seams stand with how it goes together
		}
		groups := s.edgeGroups(p)
		for _, g := range groups {
			if !g.edge.Finish.Sewn() {
				continue
			}
			view := seamView{Edges: strings.Join(g.parts, ", "), Finish: g.edge.Finish.String(), Allowance: s.nb(g.edge.Allowance), Length: s.nb(g.long), Goods: goodsName(o.Purchases, p.cut.Goods)}
			if len(groups) == 1 {
				view.Edges = "all round"
			}
			k := slices.IndexFunc(seams, func(x seam) bool { return x.view == view && cuts[x.element].Pair == p.Pair })
			if k < 0 {
				k = len(seams)
				seams = append(seams, seam{view: view, counts: map[string]int{}, element: p.number - 1})
			}
			x := &seams[k]
			if x.counts[p.name()] == 0 {
				x.names = append(x.names, p.name())
			}
			x.counts[p.name()] += p.cut.Count
			x.numbers, x.count = append(x.numbers, p.number), x.count+p.cut.Count
		}
	}
	for _, x := range seams {
		x.view.Number, x.view.Part, x.view.Count = runs(x.numbers), each(x.names, x.counts), hands(x.count, cuts[x.element].Pair)
		v.Seams = append(v.Seams, x.view)
	}
}

// alikeRows puts pieces together whose rows are the same.
func alikeRows(rows []string) []string {
	var texts []string
	names := map[string][]string{}
	for _, r := range rows {
		name, text, _ := strings.Cut(r, ": ")
		if names[text] == nil {
			texts = append(texts, text)
		}
		names[text] = append(names[text], name)
	}
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = together(names[t]) + ": " + t
	}
	return out
}
