package caution

import "github.com/coverwright/coverwright/internal/enum"

// Jurisdiction is a place with its own rules for upholstery. The zero value is
// none; Everywhere marks cautions that hold in any place.
//
// Its values: Everywhere, UnitedStates, UnitedKingdom, EuropeanUnion.
type Jurisdiction uint8

// The jurisdictions known.
const (
	Everywhere Jurisdiction = iota + 1
	UnitedStates
	UnitedKingdom
	EuropeanUnion
)

var jurisdictionNames = []string{"", "everywhere", "united states", "united kingdom", "european union"}

// String gives the name in lower case.
func (j Jurisdiction) String() string { return enum.Name(j, "Jurisdiction", jurisdictionNames) }

// MarshalText writes the name, an empty text for the zero value. A value that is
// none of the constants wraps unit.ErrUnknown.
func (j Jurisdiction) MarshalText() ([]byte, error) {
	return enum.Text(j, "jurisdiction", jurisdictionNames)
}

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (j *Jurisdiction) UnmarshalText(text []byte) error {
	return enum.Read(j, text, "jurisdiction", jurisdictionNames)
}
