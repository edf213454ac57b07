package pattern

import (
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// OfPiece draws up a piece of a cover, with its hand, the letters of its notches,
// and for each edge its seam with what it is sewn to, or its fastening with what
// hides it. Errors are those of [allowance.Panel.Cut], and more marks than notches.
func OfPiece(of allowance.CoverPiece) (Pattern, error) {
	cut, err := of.Panel.Cut()
	if err != nil {
		return Pattern{}, unit.InField("panel", err)
	}
	p := Of(cut)
	p.Name, p.Goods, p.Hand, p.Letters, p.Uses = of.Name, of.Goods, of.Hand, of.Marks, of.Uses
	return p, check.Count("marks", len(of.Marks), 0, len(p.Notches))
}

// use finds what becomes of an edge.
func (p Pattern) use(edge string) allowance.EdgeUse {
	for _, u := range p.Uses {
		if u.Edge == edge {
			return u
		}
	}
	return allowance.EdgeUse{Edge: edge}
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
func textsOf(u allowance.EdgeUse, e allowance.PanelEdge) []string {
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
