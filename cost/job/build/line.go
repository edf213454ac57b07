package build

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Line is a line of an order for what goes in beside cover, foam and work. Net, Ends and
// Gross are what all pieces take together; Use is rounded once.
type Line struct {
	ID string `json:"id"` // with its variant, such as "cord, 5/32 in"
	// Name, Supplier, Least and Freight are those of the price list, where it has the
	// finding: what it is called, who sells it, the least that is sold and what is paid
	// once an order.
	Name     string           `json:"name,omitempty"`
	Supplier string           `json:"supplier,omitempty"`
	Least    cost.AnyQuantity `json:"least,omitzero"`
	Freight  cost.Money       `json:"freight,omitzero"`
	Net      cost.AnyQuantity `json:"net"`
	// Ends is what ends and joins take, Gross both with waste.
	Ends  cost.AnyQuantity `json:"ends,omitzero"`
	Waste unit.Ratio       `json:"waste,omitzero"`
	Gross cost.AnyQuantity `json:"gross"`
	// Use is Gross rounded up to what it is sold by, in the unit of its price.
	Use  cost.AnyQuantity `json:"use"`
	Step cost.AnyQuantity `json:"step,omitzero"`
	// Packs to order where none is on the shelf.
	Pack  cost.AnyQuantity `json:"pack,omitzero"`
	Packs int              `json:"packs,omitempty"`
	How   string           `json:"how"` // it came about
	// Pieces have the net share of each piece of furniture.
	Pieces []Share    `json:"pieces"`
	Basis  cite.Basis `json:"basis"`
	// Paid is how: priced, in sundries, or unpriced.
	Paid Paid `json:"paid"`
	// Entry is the code in the price list, Charge what the use comes to before
	// markup; of what is not priced neither.
	Entry  string        `json:"entry,omitempty"`
	Price  cost.AnyPrice `json:"price,omitzero"`
	Charge cost.Money    `json:"charge,omitzero"`
}

// What names the finding: as the price list does, or by its id.
func (l Line) What() string {
	if l.Name != "" {
		return l.Name
	}
	return l.ID
}

// SoldBy gives a unit of what the finding is sold by, as AnyQuantity.Shop takes it: that
// of its price, or what is usual for its steps in a system of units.
func (l Line) SoldBy(s unit.System) cost.AnyQuantity {
	if per := l.Price.Unit(); !per.IsZero() {
		return per
	}
	if step, ok := cost.QuantityAs[unit.Length](l.Step); ok && s == unit.Inches && step != 0 && step%unit.Foot == 0 && step%unit.Yard != 0 {
		return cost.AnyOf(unit.Foot)
	}
	for _, q := range []struct{ inches, metric cost.AnyQuantity }{
		{cost.AnyOf(unit.Yard), cost.AnyOf(unit.Metre)}, {cost.AnyOf(unit.SquareYard), cost.AnyOf(unit.SquareMetre)},
		{cost.AnyOf(unit.USGallon), cost.AnyOf(unit.Litre)}, {cost.AnyOf(unit.Pound), cost.AnyOf(unit.Kilogram)},
	} {
		if l.Step.Like(q.inches) {
			if s == unit.Metric {
				return q.metric
			}
			return q.inches
		}
	}
	return cost.AnyQuantity{}
}

// Share is what one piece of furniture, or all alike, takes of a finding.
type Share struct {
	Piece string           `json:"piece"`
	Net   cost.AnyQuantity `json:"net"`
}

// Paid is how a finding is paid: Priced, InSundries or Unpriced.
type Paid string

// How findings are paid.
const (
	Priced     Paid = "priced"
	InSundries Paid = "in sundries" // by the one sum for small ones
	Unpriced   Paid = "unpriced"    // not on the quote
)

// UnmarshalText reads how a finding is paid. It wraps unit.ErrUnknown.
func (p *Paid) UnmarshalText(text []byte) error {
	s := Paid(text)
	switch s {
	case Priced, InSundries, Unpriced, "":
		*p = s
		return nil
	}
	return check.OneOf("", string(text), string(Priced), string(InSundries), string(Unpriced))
}
