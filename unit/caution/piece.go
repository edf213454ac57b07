package caution

import (
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
)

// Use is who or what a piece is for, where that is more than a home. The zero
// value is none.
//
// Its values: Children, Contract, Medical, Ship, Caravan, Motorhome, Motorcycle, Aircraft.
type Use uint8

// The uses known.
const (
	Children   Use = iota + 1 // furniture for children
	Contract                  // for a business, or a seat that the public sits on
	Medical                   // wheelchair, medical and pressure-relief seating
	Ship                      // a ship, or any craft that carries passengers for hire
	Caravan                   // a caravan that is towed or stands
	Motorhome                 // a caravan with an engine, which is a vehicle too
	Motorcycle                // a saddle
	Aircraft                  // anything that flies
)

var useNames = []string{"", "children", "contract", "medical", "ship", "caravan", "motorhome", "motorcycle", "aircraft"}

// Uses lists the uses known.
func Uses() []Use {
	return []Use{Children, Contract, Medical, Ship, Caravan, Motorhome, Motorcycle, Aircraft}
}

// String gives the name in lower case.
func (u Use) String() string { return enum.Name(u, "Use", useNames) }

// MarshalText writes the name, an empty text for the zero value. A value that is
// none of the constants wraps unit.ErrUnknown.
func (u Use) MarshalText() ([]byte, error) { return enum.Text(u, "use", useNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (u *Use) UnmarshalText(text []byte) error { return enum.Read(u, text, "use", useNames) }

// Owner is who has the piece afterwards. The zero value is not said, which brings
// the cautions for either.
//
// Its values: SameOwner, NewOwner.
type Owner uint8

// The owners after the work.
const (
	SameOwner Owner = iota + 1 // who has it now
	NewOwner                   // someone it is sold to
)

var ownerNames = []string{"", "same", "new"}

// String gives the name in lower case.
func (o Owner) String() string { return enum.Name(o, "Owner", ownerNames) }

// MarshalText writes the name, an empty text for the zero value. A value that is
// none of the constants wraps unit.ErrUnknown.
func (o Owner) MarshalText() ([]byte, error) { return enum.Text(o, "owner", ownerNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (o *Owner) UnmarshalText(text []byte) error { return enum.Read(o, text, "owner", ownerNames) }

// Place is where a piece will live, as far as rules ask. The zero value is under a
// roof, in a building.
//
// Its values: UnderRoof, OutOfDoors, OnBoat, InVehicle.
type Place uint8

// The places known.
const (
	UnderRoof Place = iota
	OutOfDoors
	OnBoat
	InVehicle
)

var placeNames = []string{"under a roof", "out of doors", "boat", "vehicle"}

// String gives the name in lower case.
func (p Place) String() string { return enum.Name(p, "Place", placeNames) }

// MarshalText writes the name. A value that is none of the constants wraps
// unit.ErrUnknown.
func (p Place) MarshalText() ([]byte, error) { return enum.Text(p, "place", placeNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (p *Place) UnmarshalText(text []byte) error { return enum.Read(p, text, "place", placeNames) }

// Piece is what is known of a piece of furniture and of the work on it. The zero
// value is a cover in a home that is neither sewn nor filled.
type Piece struct {
	Name     string `json:"name"`
	For      []Use  `json:"for,omitempty"`
	Lives    Place  `json:"lives,omitzero"`
	Owner    Owner  `json:"owner,omitzero"`
	MayBeOld bool   `json:"may_be_old,omitzero"` // made or filled before 1980, or painted
	NewFoam  bool   `json:"new_foam,omitzero"`   // foam is cut for it
	Bed      bool   `json:"bed,omitzero"`        // it is slept on
	Sewn     bool   `json:"sewn,omitzero"`       // something is sewn
	Frame    bool   `json:"frame,omitzero"`      // the cover goes on a frame
	Large    bool   `json:"large,omitzero"`      // an armchair, a sofa or larger
	Springs  bool   `json:"springs,omitzero"`    // it has springs
	Board    bool   `json:"board,omitzero"`      // it has a board that may be new
}

// Check refuses a use, an owner or a place that is none of the constants. It wraps
// unit.ErrUnknown or unit.ErrRequired.
func (p Piece) Check() error {
	for i, u := range p.For {
		if u == 0 {
			return check.Required(check.At("for", i), "what the piece is for")
		}
		if int(u) >= len(useNames) {
			return check.OneOf(check.At("for", i), u.String(), useNames[1:]...)
		}
	}
	if err := enum.Check(p.Lives, "lives", placeNames); err != nil {
		return err
	}
	return enum.Check(p.Owner, "owner", ownerNames)
}

func (p Piece) is(uses ...Use) bool {
	return slices.ContainsFunc(uses, func(u Use) bool { return slices.Contains(p.For, u) })
}

// carried tells whether the piece has the rules of what carries it alone.
func (p Piece) carried() bool {
	return p.Lives == OnBoat || p.Lives == InVehicle || p.is(Ship, Motorcycle, Motorhome, Aircraft)
}

func (p Piece) furniture() bool { return !p.carried() }

func (p Piece) indoors() bool {
	return p.furniture() && p.Lives == UnderRoof && !p.is(Caravan)
}

// vehicle tells whether it is a seat of a car, van, truck, bus or motorhome.
func (p Piece) vehicle() bool {
	return (p.Lives == InVehicle && !p.is(Caravan) || p.is(Motorhome)) && !p.is(Motorcycle, Aircraft, Ship)
}

func (p Piece) boat() bool { return p.Lives == OnBoat && !p.is(Ship, Aircraft) }
