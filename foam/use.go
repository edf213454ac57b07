package foam

import (
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
)

// Use is the part of a piece the foam is for. The zero value is none.
//
// Its values: Seat, Back, Arm, Headrest, Bed, Berth, Bench, Booth.
type Use uint8

// The uses known.
const (
	Seat     Use = iota + 1 // a seat cushion or seat pad, drop-in seats included
	Back                    // a back cushion or a padded back
	Arm                     // inside arms and wraps
	Headrest                // a headrest or neck roll
	Bed                     // a mattress core or day bed
	Berth                   // a boat or caravan berth, sat on and slept on
	Bench                   // a bench or window-seat cushion
	Booth                   // fixed public seating: booths and banquettes
)

var useNames = []string{"", "seat", "back", "arm", "headrest", "bed", "berth", "bench", "booth"}

// Uses lists the uses known.
func Uses() []Use { return []Use{Seat, Back, Arm, Headrest, Bed, Berth, Bench, Booth} }

// Carries tells whether a sitter counts for the use: on seats, benches, booths and
// berths. What is leant or lain on has none: the share of the weight and the disc
// that stand for a sitter are those of a seat.
func (u Use) Carries() bool { return (satOn | one(Berth)).has(uint8(u)) }

// Duty is how hard the piece is used. The zero value is none.
//
// Its values: LightDuty, NormalDuty, HeavyDuty, SevereDuty.
type Duty uint8

// The duties known, lightest first.
const (
	LightDuty  Duty = iota + 1 // occasional domestic use, scatter cushions
	NormalDuty                 // domestic use
	HeavyDuty                  // daily family use, office, boat
	SevereDuty                 // contract, public and transport seating
)

var dutyNames = []string{"", "light", "normal", "heavy", "severe"}

// Duties lists the duties known.
func Duties() []Duty { return []Duty{LightDuty, NormalDuty, HeavyDuty, SevereDuty} }

// Base is what the foam lies on. The zero value is none.
//
// Its values: Board, Webbing, Springs.
type Base uint8

// The bases known.
const (
	Board   Base = iota + 1 // plywood or another rigid board
	Webbing                 // stretched webbing
	Springs                 // zigzag or coil springs
)

var baseNames = []string{"", "board", "webbing", "springs"}

// Bases lists the bases known.
func Bases() []Base { return []Base{Board, Webbing, Springs} }

// String gives the name in lower case.
func (u Use) String() string { return enum.Name(u, "Use", useNames) }

// String gives the name in lower case.
func (d Duty) String() string { return enum.Name(d, "Duty", dutyNames) }

// String gives the name in lower case.
func (b Base) String() string { return enum.Name(b, "Base", baseNames) }

// MarshalText writes the name, an empty text for the zero value. A value that is
// none of the constants wraps unit.ErrUnknown.
func (u Use) MarshalText() ([]byte, error) { return enum.Text(u, "use", useNames) }

// MarshalText writes the name, an empty text for the zero value. A value that is
// none of the constants wraps unit.ErrUnknown.
func (d Duty) MarshalText() ([]byte, error) { return enum.Text(d, "duty", dutyNames) }

// MarshalText writes the name, an empty text for the zero value. A value that is
// none of the constants wraps unit.ErrUnknown.
func (b Base) MarshalText() ([]byte, error) { return enum.Text(b, "base", baseNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (u *Use) UnmarshalText(text []byte) error {
	return enum.Read(u, text, "use", useNames)
}

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (d *Duty) UnmarshalText(text []byte) error {
	return enum.Read(d, text, "duty", dutyNames)
}

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (b *Base) UnmarshalText(text []byte) error {
	return enum.Read(b, text, "base", baseNames)
}

// given refuses the zero value of a set of names, and a number outside it with
// unit.ErrUnknown.
func given[E ~uint8](field string, e E, names []string) error {
	if e == 0 {
		return check.Required(field, "one of "+strings.Join(names[1:], ", "))
	}
	return enum.Check(e, field, names)
}
