package pattern

import (
	"slices"
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

// edgeTexts says what becomes of the i-th edge, from all there is to say to its
// name. Of a half it says that of both edges, where they are two.
func (p Pattern) edgeTexts(i int) []string {
	e := p.Edges[i]
	own := tails(p.use(e.Name), e)
	other := ""
	if p.folded() {
		other = p.Fold.Edges[i]
	}
	if other == "" || other == e.Name {
		for k, t := range own {
			own[k] = e.Name + t
		}
		return own
	}
	like := tails(p.use(other), e)
	var out []string
	for k := range min(len(own), len(like)) {
		if own[k] == like[k] {
			out = append(out, e.Name+", other half "+other+own[k])
		} else {
			out = append(out, e.Name+own[k]+otherHalf+other+like[k])
		}
	}
	return out
}

// otherHalf stands between what is said of the two halves of a piece.
const otherHalf = "; other half "

// tails says what becomes of an edge, without its name, from all there is to say to
// nothing.
func tails(u allowance.EdgeUse, e allowance.PanelEdge) []string {
	if u.Finish == "" {
		return []string{": " + e.Finish.String(), ""}
	}
	full := ": " + u.Finish
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
		out = append(out, ": "+u.Letter)
	}
	return append(out, "")
}

// notchTexts says what the i-th notch meets, from all there is to say to its letter;
// of a half that of both notches, where they are two.
func (p Pattern) notchTexts(i int) []string {
	own := p.Letters[i]
	like := own
	if p.folded() {
		like = p.Fold.Letters[i]
	}
	say := func(m allowance.PieceMark, all bool) string {
		s := m.Label
		if m.Double && own.Double != like.Double {
			s += " double"
		}
		if to := named(m.To); all && to != "" {
			s += ", to " + to
		}
		return s
	}
	texts := []string{say(own, true), say(own, false)}
	if like.Label != own.Label {
		for k, all := range []bool{true, false} {
			texts[k] += otherHalf + say(like, all)
		}
	}
	return slices.Compact(texts)
}
