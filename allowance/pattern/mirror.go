package pattern

import (
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
)

// Mirror gives the other hand of the piece: left and right change places within
// the bounds of the cut line, and lines still run anticlockwise. Edges keep
// their names, and notches their places on the cloth. Mirrored twice, a pattern
// is what it was. Letters and what edges are sewn to stay those of the piece: the
// other hand of a pair of a cover has a pattern of its own, see OfPiece.
func (p Pattern) Mirror() Pattern {
	b := p.Bounds()
	flip := func(q shape.Point) shape.Point { return shape.Point{X: b.Low.X + b.High.X - q.X, Y: q.Y} }
	ring := func(l []shape.Point) []shape.Point {
		out := slices.Clone(l)
		if p.folded() { // its ends stay the ends
			for i := range out {
				out[i] = flip(l[len(l)-1-i])
			}
			return out
		}
		for i := range out {
			out[i] = flip(l[(len(l)-i)%len(l)]) // the first point stays the first
		}
		return out
	}
	for _, c := range []*shape.Contour{&p.Cut, &p.Trim, &p.Seam, &p.Finished} {
		holes := slices.Clone(c.Holes)
		for i, h := range holes {
			holes[i] = ring(h)
		}
		*c = shape.Contour{Outer: ring(c.Outer), Holes: holes}
	}
	p.Edges = slices.Clone(p.Edges)
	slices.Reverse(p.Edges)
	p.Notches = slices.Clone(p.Notches)
	for i, n := range p.Notches {
		n.Seam, n.Cut = flip(n.Seam), flip(n.Cut)
		if k := slices.IndexFunc(p.Edges, func(e allowance.PanelEdge) bool { return e.Name == n.Edge }); k >= 0 {
			n.At = p.Edges[k].Length - n.At // from the other end
		}
		p.Notches[i] = n
	}
	p.Marks = slices.Clone(p.Marks)
	for i, q := range p.Marks {
		p.Marks[i] = flip(q)
	}
	if p.Grain != (allowance.GrainArrow{}) {
		p.Grain = allowance.GrainArrow{Foot: flip(p.Grain.Foot), Head: flip(p.Grain.Head)}
	}
	if p.folded() {
		p.Fold.From, p.Fold.To = flip(p.Fold.To), flip(p.Fold.From)
		p.Fold.Edges = slices.Clone(p.Fold.Edges)
		slices.Reverse(p.Fold.Edges)
	}
	p.Mirrored = !p.Mirrored
	return p
}
