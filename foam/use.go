package foam

import (
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
)

// Use is the part of a piece the foam is for. The zero value is none.
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

var useNames = []string{"seat", "back", "arm", "headrest", "bed", "berth", "bench", "booth"}

// Uses lists the uses known.
func Uses() []Use { return []Use{Seat, Back, Arm, Headrest, Bed, Berth, Bench, Booth} }

// Duty is how hard the piece is used. The zero value is none.
type Duty uint8

// The duties known, lightest first.
const (
	LightDuty  Duty = iota + 1 // occasional domestic use, scatter cushions
	NormalDuty                 // domestic use
	HeavyDuty                  // daily family use, office, boat
	SevereDuty                 // contract, public and transport seating
)

var dutyNames = []string{"light", "normal", "heavy", "severe"}

// Duties lists the duties known.
func Duties() []Duty { return []Duty{LightDuty, NormalDuty, HeavyDuty, SevereDuty} }

// Base is what the foam lies on. The zero value is none.
type Base uint8

// The bases known.
const (
	Board   Base = iota + 1 // plywood or another rigid board
	Webbing                 // stretched webbing
	Springs                 // zigzag or coil springs
)

var baseNames = []string{"board", "webbing", "springs"}

// Bases lists the bases known.
func Bases() []Base { return []Base{Board, Webbing, Springs} }

// String gives the name in lower case.
func (u Use) String() string { return nameOf("Use", uint8(u), useNames) }

// String gives the name in lower case.
func (d Duty) String() string { return nameOf("Duty", uint8(d), dutyNames) }

// String gives the name in lower case.
func (b Base) String() string { return nameOf("Base", uint8(b), baseNames) }

// MarshalText writes the name; the zero value is an empty text.
func (u Use) MarshalText() ([]byte, error) { return marshalName("use", uint8(u), useNames) }

// MarshalText writes the name; the zero value is an empty text.
func (d Duty) MarshalText() ([]byte, error) { return marshalName("duty", uint8(d), dutyNames) }

// MarshalText writes the name; the zero value is an empty text.
func (b Base) MarshalText() ([]byte, error) { return marshalName("base", uint8(b), baseNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (u *Use) UnmarshalText(text []byte) error {
	return unmarshalName((*uint8)(u), "use", string(text), useNames)
}

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (d *Duty) UnmarshalText(text []byte) error {
	return unmarshalName((*uint8)(d), "duty", string(text), dutyNames)
}

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (b *Base) UnmarshalText(text []byte) error {
	return unmarshalName((*uint8)(b), "base", string(text), baseNames)
}

func nameOf(kind string, n uint8, names []string) string {
	if n == 0 || int(n) > len(names) {
		return fmt.Sprintf("%s(%d)", kind, n)
	}
	return names[n-1]
}

// checkName refuses a value that is not one of the named constants.
func checkName(field string, n uint8, names []string) error {
	if n == 0 {
		return check.Required(field, "one of "+strings.Join(names, ", "))
	}
	return check.Count(field, int(n), 1, len(names))
}

// marshalName writes a name, and an empty text for the zero value, so that a
// result or a request with a gap can be written too.
func marshalName(field string, n uint8, names []string) ([]byte, error) {
	if n == 0 {
		return []byte{}, nil
	}
	if err := checkName(field, n, names); err != nil {
		return nil, err
	}
	return []byte(names[n-1]), nil
}

func unmarshalName(dst *uint8, field, name string, names []string) error {
	if name == "" {
		*dst = 0
		return nil
	}
	if err := check.OneOf(field, name, names...); err != nil {
		return err
	}
	*dst = uint8(slices.Index(names, name) + 1)
	return nil
}
