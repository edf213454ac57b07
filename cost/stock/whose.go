package stock

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/enum"
)

// Whose says whose goods are: [Shops] or [Customers]. The zero value is the shop's.
type Whose uint8

const (
	// Shops is goods of the shop.
	Shops Whose = iota
	// Customers is a customer's own: nothing is charged for them, and none are bought.
	Customers
)

var whoseNames = []string{"shop", "customer"}

// String gives the name, such as "customer".
func (w Whose) String() string { return enum.Name(w, "whose", whoseNames) }

// MarshalText writes the name; an unknown one wraps unit.ErrUnknown.
func (w Whose) MarshalText() ([]byte, error) { return enum.Text(w, "whose", whoseNames) }

// UnmarshalText reads what MarshalText writes.
func (w *Whose) UnmarshalText(text []byte) error { return enum.Read(w, text, "whose", whoseNames) }

// Charged is how goods of the shop's stock are charged: [AsIfBought], [AtCost] or
// [NotCharged]. The zero value says nothing of it.
type Charged uint8

const (
	// AsIfBought is at the price of what would be bought without them, with markup.
	AsIfBought Charged = iota + 1
	// AtCost is the same without markup.
	AtCost
	// NotCharged is for goods that were paid before, and for a customer's own.
	NotCharged
)

var chargedNames = []string{"", "price", "cost", "nothing"}

// String gives the name, such as "cost"; "none" for the zero value.
func (c Charged) String() string {
	if c == 0 {
		return "none"
	}
	return enum.Name(c, "charged", chargedNames)
}

// MarshalText writes the name, nothing for the zero value; an unknown one wraps
// unit.ErrUnknown.
func (c Charged) MarshalText() ([]byte, error) { return enum.Text(c, "charged", chargedNames) }

// UnmarshalText reads what MarshalText writes.
func (c *Charged) UnmarshalText(text []byte) error {
	return enum.Read(c, text, "charged", chargedNames)
}

// Uplift is what a shop puts on goods that are charged so: what is usual, or nothing.
func (c Charged) Uplift(usual cost.Uplift) cost.Uplift {
	if c != AsIfBought {
		return cost.Uplift{}
	}
	return usual
}
