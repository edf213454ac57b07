package job

import (
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/unit"
)

// CutMotif is where a motif falls on pieces of a cut, as the layout has them.
type CutMotif struct {
	Count int `json:"count"` // of the pieces
	// At is the motif nearest to the middle, from the lower left corner of the box
	// round the cut line, of the drawn hand; of the other it is the mirrored point.
	At shape.Point `json:"at"`
	// Way is how the pattern binds the piece; in the other direction At has the
	// middle.
	Way allowance.PatternWay `json:"way"`
}

// land notes on every cut where the motifs of its goods fall.
func (o *WorkOrder) land() {
	for _, p := range o.Purchases {
		var cuts []*Cut
		for i := range o.Cuts {
			if o.Cuts[i].Goods == p.Goods {
				cuts = append(cuts, &o.Cuts[i])
			}
		}
		for _, l := range p.Layouts() {
			land(l, cuts)
		}
	}
}

// land notes on the cuts of some goods where motifs fall on them.
func land(l stock.Laid, cuts []*Cut) {
	for _, q := range l.Plan.Places {
		at, way := l.Plan.MotifOn(q)
		if way == allowance.NoPattern {
			continue
		}
		low, _ := l.Plan.Job.Pieces[q.Piece].Outline.Bounds()
		at = shape.Point{X: at.X - low.X, Y: at.Y - low.Y}
		c := cuts[l.Cuts[q.Piece]]
		k := slices.IndexFunc(c.Motifs, func(m CutMotif) bool {
			return max(m.At.X-at.X, at.X-m.At.X, m.At.Y-at.Y, at.Y-m.At.Y) < 10*unit.Micrometre // places are rounded
		})
		if k < 0 {
			k = len(c.Motifs)
			c.Motifs = append(c.Motifs, CutMotif{At: at, Way: way})
		}
		c.Motifs[k].Count++
	}
}
