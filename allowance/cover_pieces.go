package allowance

import (
	"maps"
	"slices"

	"github.com/coverwright/coverwright/unit"
)

// CoverPiece is one piece of goods of a cover, with all that its cut needs.
type CoverPiece struct {
	Name   string `json:"name"` // such as inside arm left
	Of     string `json:"of"`   // the panel of the cover
	Hand   Hand   `json:"hand,omitzero"`
	Number int    `json:"number"`
	Goods  string `json:"goods"`
	// Panel has the edges of its seams and fastenings, divided where one begins,
	// and the notches of the seams; of the right hand it is mirrored. It is
	// ready for Cut.
	Panel Panel `json:"panel"`
	// Marks are the notches of the seams, in the order of Panel.Notches, whose
	// first ones they are.
	Marks []PieceMark `json:"marks,omitempty"`
	Clips []EdgeClips `json:"clips,omitempty"`
	Uses  []EdgeUse   `json:"uses,omitempty"`
}

// PieceMark is the letter of a notch, with the edges that it meets its like on.
type PieceMark struct {
	Label  string   `json:"label"` // such as A2
	Double bool     `json:"double,omitzero"`
	To     []string `json:"to,omitempty"`
}

// CutLike tells whether two pieces of one panel are cut alike: as drawn, with the
// same notches for the same seams, or one the mirror image of the other.
func (p CoverPiece) CutLike(q CoverPiece) bool {
	if p.Of != q.Of || !maps.Equal(p.Panel.Edges, q.Panel.Edges) || len(p.Panel.Notches) != len(q.Panel.Notches) {
		return false
	}
	return p.Hand != q.Hand || slices.EqualFunc(p.Marks, q.Marks, func(a, b PieceMark) bool {
		first, _ := splitLabel(a.Label)
		second, _ := splitLabel(b.Label)
		return first == second && a.Double == b.Double
	})
}

// pieces gives every piece of goods.
func (g *graph) pieces(seams []CoverSeam) ([]CoverPiece, error) {
	out := make([]CoverPiece, len(g.nodes))
	for n, of := range g.nodes {
		p, d := g.cover.Panels[of.panel], g.drawn[of.panel]
		c := CoverPiece{Name: of.name, Of: p.Name, Hand: of.hand, Number: of.number, Goods: p.Goods, Panel: p.Panel}
		c.Panel.Name, c.Panel.Outline, c.Panel.Notches = of.name, d.finished, nil
		if of.hand == RightHand {
			c.Panel.Outline = d.finished.Mirrored()
		}
		c.Panel.Edges = map[string]Edge{}
		for i := range d.border {
			c.Panel.Edges[d.parts[i].name] = g.edge(place{n, i})
		}
		var err error
		if c.Clips, err = g.clips(n); err != nil {
			return nil, err
		}
		out[n] = c
	}
	for i, j := range g.joints {
		for k, side := range j.sides {
			for _, mark := range seams[i].Notches {
				m := PieceMark{Label: mark.Label, Double: mark.Double}
				g.mark(out, side, mark.At[k], m)
				// Where a ring closes, one piece ends and another begins.
				if end := g.run(side); j.ring && side[0].node != side[len(side)-1].node && (mark.At[k] == 0 || mark.At[k] == end) {
					g.mark(out, side, end-mark.At[k], m)
				}
			}
		}
	}
	mates(out)
	for n := range out {
		g.ownNotches(&out[n], n)
	}
	return out, nil
}

// mark puts a notch of a side on the pieces it lies on: two where one ends and
// the next begins.
func (g *graph) mark(out []CoverPiece, side []span, at unit.Length, m PieceMark) {
	from := unit.Length(0)
	for n, s := range side {
		d := g.drawn[g.nodes[s.node].panel]
		goesOn := n+1 < len(side) && side[n+1].node == s.node
		for i, p := range s.parts {
			l := d.parts[p].length
			to := from + l
			last := i == len(s.parts)-1 && !goesOn
			if !s.line && from <= at && (at < to || last && at == to) {
				in := at - from
				if s.back { // it runs clockwise on the piece
					in = to - at
				}
				c := &out[s.node]
				c.Panel.Notches = append(c.Panel.Notches, Notch{Edge: d.parts[p].name, At: in, OneHalf: true})
				c.Marks = append(c.Marks, m)
			}
			from = to
		}
	}
}

// ownNotches adds the notches that the panel has itself.
func (g *graph) ownNotches(c *CoverPiece, n int) {
	of := g.nodes[n]
	d := g.drawn[of.panel]
	for _, mark := range onBothHalves(g.cover.Panels[of.panel].Notches, d.seam) {
		at := mark.At
		parts := d.of[mark.Edge]
		for i, p := range parts {
			if l := d.parts[p].length; at > l && i < len(parts)-1 {
				at -= l
				continue
			}
			if of.hand == RightHand {
				at = d.parts[p].length - at
			}
			c.Panel.Notches = append(c.Panel.Notches, Notch{Edge: d.parts[p].name, At: at, OneHalf: true})
			break
		}
	}
}

// EdgeClips says how a sewn edge that curves is clipped so that it lies flat: an
// inward curve is clipped open, an outward one notched out.
type EdgeClips struct {
	Edge    string      `json:"edge"`
	Seam    unit.Length `json:"seam"`    // length of the seam line
	Cut     unit.Length `json:"cut"`     // length of the trim line along it
	Spacing unit.Length `json:"spacing"` // of the clips along the seam line
	Count   int         `json:"count"`   // of clips between the ends
	Inward  bool        `json:"inward,omitzero"`
}

// clipGap is how far one clip opens, or one notch takes out.
const clipGap = unit.Inch / 8

// clips gives the clips of a piece's sewn curves. Over an edge of seam line a
// that turns by θ, positive outwards, with allowance s and clips that open by g:
//
//	cut = a + s θ,  spacing = g a / (s |θ|)
//
// so that on a circle of radius R the spacing is g R / s.
func (g *graph) clips(n int) ([]EdgeClips, error) {
	d := g.drawn[g.nodes[n].panel]
	var out []EdgeClips
	for i := range d.border {
		used := g.uses[place{n, i}]
		if len(used) == 0 || !used[0].seam {
			continue
		}
		turn := d.parts[i].bend
		if turn > -leastBend && turn < leastBend {
			continue
		}
		m, err := used[0].edge.Resolve()
		if err != nil {
			return nil, err
		}
		a := d.parts[i].length
		more, _ := m.Allowance.Scale(unit.Ratio(turn), unit.Nearest) //nolint:errcheck // an allowance, some times over at most
		c := EdgeClips{Edge: d.parts[i].name, Seam: a, Cut: a + more, Inward: turn < 0}
		open := max(more, -more)
		if open > 0 {
			share, _ := clipGap.Per(open)               //nolint:errcheck // above zero
			c.Spacing, _ = a.Scale(share, unit.Nearest) //nolint:errcheck // an edge, four million times over at most
			const rounding = 100                        // nanometres, of the turn
			c.Count = max(0, int((open-rounding+clipGap-1)/clipGap)-1)
		}
		out = append(out, c)
	}
	return out, nil
}
