package build

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// Use is how a shop uses a finding, in place of what is usual.
type Use struct {
	Waste *unit.Ratio   `json:"waste,omitzero"`  // of what lies in the piece
	Width unit.Length   `json:"width,omitzero"`  // of the roll of a cloth
	Sizes []unit.Length `json:"sizes,omitempty"` // at hand: legs of staples; the stick of a tack strip
	// Step is what it is sold by, where the price list does not say it.
	Step cost.AnyQuantity `json:"step,omitzero"`
	Pack cost.AnyQuantity `json:"pack,omitzero"` // what it comes in, where the price list does not say it
}

// Sundries is one sum for small findings: they are on the order, and neither
// unpriced nor charged again.
type Sundries struct {
	Share  unit.Ratio `json:"share,omitzero"`  // of the cost of goods and foam; or Amount
	Amount cost.Money `json:"amount,omitzero"` // a fixed sum
	Covers []string   `json:"covers" required:"true" hint:"a list of findings such as \"staple\""`
}

// Has tells whether the sum is for a finding, by its code or the plain one; no sum is
// for none.
func (s *Sundries) Has(code string) bool {
	id, _, _ := strings.Cut(code, ",")
	return s != nil && (slices.Contains(s.Covers, code) || slices.Contains(s.Covers, id))
}
