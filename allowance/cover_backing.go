package allowance

import "github.com/coverwright/coverwright/unit"

// backingOver is what a backing strip lies beyond each allowance, from memory.
const backingOver = unit.Inch / 8

// Backing is the strip under the rows of a double top-stitched seam. With s the
// allowance of the seam it is as long as the row and
//
//	2 (s + 1/8 in)
//
// wide, to lie beyond both allowances.
type Backing struct {
	Of     string      `json:"of"` // the letter of the seam
	Goods  string      `json:"goods"`
	Length unit.Length `json:"length"`
	Width  unit.Length `json:"width"`
}

// backings gives the strips under all seams that have them.
func (g *graph) backings(labels []string) []Backing {
	var out []Backing
	for i, j := range g.joints {
		s := g.cover.Seams[j.seam]
		if s.Backing == "" {
			continue
		}
		m, err := s.edge().Resolve()
		if err != nil {
			continue // found by Check
		}
		out = append(out, Backing{Of: labels[i], Goods: s.Backing, Length: j.sewn, Width: 2 * (m.Allowance + backingOver)})
	}
	return out
}
