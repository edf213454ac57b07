package cost

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Selling is what a price is: MarkedUp, what the shop pays, or AsListed, what
// the customer pays. The zero value is MarkedUp.
type Selling uint8

const (
	// MarkedUp is a price that the shop pays; markup or margin turns it into
	// what the customer pays.
	MarkedUp Selling = iota
	// AsListed is a price that the customer pays. Nothing is added, and what
	// the shop pays is not known: a quote counts neither cost nor profit for
	// it.
	AsListed
)

// String gives the name, "marked up" or "as listed".
func (s Selling) String() string {
	return [...]string{"marked up", "as listed", "unknown way to sell"}[min(s, AsListed+1)]
}

// MarshalText writes the name.
func (s Selling) MarshalText() ([]byte, error) { return []byte(s.String()), s.check() }

// UnmarshalText reads a name as String writes it; empty text is MarkedUp. It
// wraps unit.ErrUnknown.
func (s *Selling) UnmarshalText(text []byte) error {
	switch string(text) {
	case "marked up", "":
		*s = MarkedUp
	case "as listed":
		*s = AsListed
	default:
		return check.Refuse("", string(text), unit.ErrUnknown, "marked up or as listed")
	}
	return nil
}

func (s Selling) check() error {
	if s > AsListed {
		return check.Refuse("", "", unit.ErrUnknown, "marked up or as listed")
	}
	return nil
}
