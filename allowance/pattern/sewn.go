package pattern

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// EdgeUse is what becomes of an edge of a piece of a cover.
type EdgeUse struct {
	Edge   string `json:"edge"`
	Finish string `json:"finish"`           // of the seam or fastening
	Letter string `json:"letter,omitempty"` // of the seam
	// To are the edges that it is sewn to, HiddenBy the pieces that hide it.
	To       []string `json:"to,omitempty"`
	HiddenBy []string `json:"hidden_by,omitempty"`
}

// NotchLetter is the letter of a notch, with the edges that it meets its like on.
type NotchLetter struct {
	Label  string   `json:"label"` // such as A2
	Double bool     `json:"double,omitzero"`
	To     []string `json:"to,omitempty"`
}

// OfPiece draws up a piece of a cover by its index in w, with its hand, the letters
// of its notches, and for each edge its seam with what it is sewn to, or its
// fastening with what hides it. The cover is that of w. Errors are those of
// [allowance.Panel.Cut], at the field of the piece, and work that is not that of
// the cover.
func OfPiece(c allowance.Cover, w allowance.CoverWork, piece int) (Pattern, error) {
	if err := check.Count("piece", piece, 0, len(w.Pieces)-1); err != nil {
		return Pattern{}, err
	}
	of := w.Pieces[piece]
	cut, err := of.Panel.Cut()
	if err != nil {
		return Pattern{}, unit.InField(check.At("work.pieces", piece), err)
	}
	p := Of(cut)
	p.Name, p.Goods, p.Hand = of.Name, of.Goods, of.Hand
	if err := check.Count(check.At("work.pieces", piece)+".marks", len(of.Marks), 0, len(p.Notches)); err != nil {
		return Pattern{}, err
	}
	for i, m := range of.Marks {
		p.Letters = append(p.Letters, NotchLetter{m.Label, m.Double, matesOf(w, piece, i)})
	}
	p.Uses, err = usesOf(c, w, of.Name)
	return p, err
}

// usesOf lists what becomes of the edges of a piece.
func usesOf(c allowance.Cover, w allowance.CoverWork, piece string) ([]EdgeUse, error) {
	var out []EdgeUse
	for i, j := range w.Seams {
		if err := check.Count(check.At("work.seams", i)+".seam", j.Seam, 0, len(c.Seams)-1); err != nil {
			return nil, err
		}
		for k, side := range j.Sides {
			for _, e := range side {
				name, edge := splitEdge(e)
				if name != piece {
					continue
				}
				u := EdgeUse{Edge: edge, Finish: c.Seams[j.Seam].Kind.String(), Letter: j.Letter}
				for m, other := range j.Sides {
					if m != k {
						u.To = append(u.To, other...)
					}
				}
				out = append(out, u)
			}
		}
	}
	for i, f := range w.Fastenings {
		if err := check.Count(check.At("work.fastenings", i)+".fastening", f.Fastening, 0, len(c.Fastenings)-1); err != nil {
			return nil, err
		}
		for _, e := range f.Side {
			if name, edge := splitEdge(e); name == piece {
				out = append(out, EdgeUse{Edge: edge, Finish: c.Fastenings[f.Fastening].Kind.String(), HiddenBy: slices.Clone(f.HiddenBy)})
			}
		}
	}
	return out, nil
}

// matesOf finds the edges on which a notch has its like.
func matesOf(w allowance.CoverWork, piece, mark int) []string {
	var out []string
	label := w.Pieces[piece].Marks[mark].Label
	for i, p := range w.Pieces {
		for k, m := range p.Marks {
			if m.Label != label || i == piece && k == mark || k >= len(p.Panel.Notches) {
				continue
			}
			if e := p.Name + "." + p.Panel.Notches[k].Edge; !slices.Contains(out, e) {
				out = append(out, e)
			}
		}
	}
	return out
}

// use finds what becomes of an edge.
func (p Pattern) use(edge string) EdgeUse {
	for _, u := range p.Uses {
		if u.Edge == edge {
			return u
		}
	}
	return EdgeUse{Edge: edge}
}

// named names edges: panels with their edges, a panel of several edges once.
func named(edges []string) string {
	var out []string
	last := ""
	for _, e := range edges {
		piece, edge := splitEdge(e)
		_, piece = splitEdge(piece) // without the prefix of a nested cover
		if piece == last {
			out[len(out)-1] += " + " + edge
			continue
		}
		last = piece
		out = append(out, piece+" "+edge)
	}
	return strings.Join(out, ", ")
}

// texts says what becomes of the edge, from all there is to say to its name.
func (u EdgeUse) texts(e allowance.PanelEdge) []string {
	if u.Finish == "" {
		return []string{u.Edge + ": " + e.Finish.String(), u.Edge}
	}
	full := u.Edge + ": " + u.Finish
	if u.Letter != "" {
		full += " " + u.Letter
	}
	var out []string
	if to := named(u.To); to != "" {
		out = append(out, full+", to "+to)
	}
	if len(u.HiddenBy) > 0 {
		out = append(out, full+", hidden by "+strings.Join(u.HiddenBy, ", "))
	}
	out = append(out, full)
	if u.Letter != "" {
		out = append(out, u.Edge+": "+u.Letter)
	}
	return append(out, u.Edge)
}
