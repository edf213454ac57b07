package stock

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// Supplied is what of some goods need not be bought: stock of the shop, or the customer's
// own.
type Supplied struct {
	Whose Whose `json:"whose"`
	// Supply is whether goods at hand suffice for all that no remnant takes: for the
	// layout and the margin, for the layout alone, or not. Nothing where none of them
	// was to take it.
	Supply material.Supply `json:"supply,omitzero"`
	// Length is the one that Sufficiency is of, by its name: the one that the layout lies
	// on, or that lacks least. No length is of hides.
	Length      string                `json:"length,omitempty"`
	Sufficiency *material.Sufficiency `json:"sufficiency,omitempty"`
	Remnants    []Laid                `json:"remnants,omitempty"` // in use
	// Bring is what a customer is to buy where their own does not suffice, or where it is
	// not said how much they have; BringHides and BringArea are so of hides. The shop buys
	// none of it.
	Bring      *material.Ordered `json:"bring,omitempty"`
	BringHides int               `json:"bring_hides,omitzero"`
	BringArea  unit.Area         `json:"bring_area,omitzero"`
	// Alone is what would be ordered of a roll without goods at hand.
	Alone   *material.Ordered `json:"alone,omitempty"`
	Charged Charged           `json:"charged"`
	Charge  cost.Money        `json:"charge"` // for goods at hand, before markup and tax
	Fee     cost.Money        `json:"fee"`    // for handling, before tax
}

// Laid is a layout of some cuts.
type Laid struct {
	On   string      `json:"on,omitempty"` // the length at hand; none for what is bought, and for hides
	Plan layout.Plan `json:"plan"`
	Cuts []int       `json:"cuts"`          // the cut that each piece of the plan is, among those of its goods
	Left unit.Length `json:"left,omitzero"` // of the length of a remnant, beyond the layout
}

// Suffices tells whether nothing is lacking.
func (s Supplied) Suffices() bool {
	return s.Supply == material.Enough || s.Supply == material.Tight
}
