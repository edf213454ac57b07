package allowance

import (
	"slices"

	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// EdgeUse is what becomes of an edge, or of an inner line, of a piece of a cover.
type EdgeUse struct {
	Edge string `json:"edge"`
	// Part says in words which part of an edge it is, such as "front from 3 in to
	// 57 in"; empty for a whole one.
	Part   string `json:"part,omitempty"`
	Finish string `json:"finish"`           // of the seam or fastening
	Letter string `json:"letter,omitempty"` // of the seam
	// To are the edges that it is sewn to, On what of the frame it is fastened to,
	// HiddenBy the pieces that hide it.
	To       []string `json:"to,omitempty"`
	On       string   `json:"on,omitempty"`
	HiddenBy []string `json:"hidden_by,omitempty"`
	// Basis founds the allowance; empty where it was given.
	Basis cite.Basis `json:"basis,omitzero"`
}

// tellUses gives every piece what becomes of its edges, in their order.
func (g *graph) tellUses(w *CoverWork) {
	at := map[place]EdgeUse{}
	note := func(side []span, u EdgeUse) {
		for _, s := range side {
			for _, p := range s.parts {
				at[place{s.node, p}] = u
			}
		}
	}
	for i, j := range g.joints {
		of := g.cover.Seams[j.seam]
		for k, side := range j.sides {
			u := EdgeUse{Finish: of.Kind.String(), Letter: w.Seams[i].Letter}
			if of.Allowance.IsZero() {
				_, u.Basis = of.Kind.Default()
			}
			for m, other := range w.Seams[i].Sides {
				if m != k {
					u.To = append(u.To, other...)
				}
			}
			note(side, u)
		}
	}
	for i, h := range g.holds {
		of := g.cover.Fastenings[h.fastening]
		u := EdgeUse{Finish: of.Kind.String(), On: of.To, HiddenBy: w.Fastenings[i].HiddenBy}
		u.Basis = of.taken()
		note(h.side, u)
	}
	for n := range w.Pieces {
		for i, part := range g.drawn[g.nodes[n].panel].parts {
			if u, ok := at[place{n, i}]; ok {
				u.Edge = part.name
				if part.name != part.edge {
					whole, _ := g.cover.Panels[g.nodes[n].panel].Outline.EdgeLength(part.edge) //nolint:errcheck // an edge of its own
					u.Part = partText(part, whole)
				}
				w.Pieces[n].Uses = append(w.Pieces[n].Uses, u)
			}
		}
	}
}

// partText words a part of an edge by the finished lengths where it begins and
// ends.
func partText(p drawnPart, whole unit.Length) string {
	s := p.edge
	if p.from != 0 {
		s += " from " + p.from.String()
	}
	if p.to != whole {
		s += " to " + p.to.String()
	}
	return s
}

// mates gives every mark the edges that it meets its like on.
func mates(pieces []CoverPiece) {
	on := map[string][]string{}
	for _, p := range pieces {
		for i, m := range p.Marks {
			if e := p.Name + "." + p.Panel.Notches[i].Edge; !slices.Contains(on[m.Label], e) {
				on[m.Label] = append(on[m.Label], e)
			}
		}
	}
	for _, p := range pieces {
		for i := range p.Marks {
			own := p.Name + "." + p.Panel.Notches[i].Edge
			for _, e := range on[p.Marks[i].Label] {
				if e != own {
					p.Marks[i].To = append(p.Marks[i].To, e)
				}
			}
		}
	}
}
