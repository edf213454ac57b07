package thread

import (
	"github.com/coverwright/coverwright/internal/enum"
)

// Fibre is what a thread is made of. The zero value is none.
//
// Its values: Nylon, Polyester.
type Fibre uint8

// The fibres of bonded upholstery thread.
const (
	// Nylon is high-tenacity continuous-filament polyamide: stronger and
	// harder wearing than polyester, quickly harmed by sunlight.
	Nylon Fibre = iota + 1
	// Polyester is high-tenacity continuous-filament polyester: the choice
	// out of doors and behind glass.
	Polyester
)

var fibreNames = []string{"", "nylon", "polyester"}

// Fibres lists the fibres of the size table.
func Fibres() []Fibre { return []Fibre{Nylon, Polyester} }

// String names the fibre.
func (f Fibre) String() string { return enum.Name(f, "Fibre", fibreNames) }

// MarshalText writes the name, an empty text for no fibre. It wraps unit.ErrUnknown.
func (f Fibre) MarshalText() ([]byte, error) { return enum.Text(f, "fibre", fibreNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (f *Fibre) UnmarshalText(text []byte) error { return enum.Read(f, text, "fibre", fibreNames) }

func (f Fibre) check(field string) error {
	return given(f, field, fibreNames)
}
