package thread

import (
	"github.com/coverwright/coverwright/internal/check"
)

// Fibre is what a thread is made of. The zero value is none.
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

var fibreNames = names{"nylon", "polyester"}

// Fibres lists the fibres of the size table.
func Fibres() []Fibre { return []Fibre{Nylon, Polyester} }

// String names the fibre.
func (f Fibre) String() string { return fibreNames.text("Fibre", int(f)) }

// MarshalText writes the name. It wraps unit.ErrUnknown for no fibre.
func (f Fibre) MarshalText() ([]byte, error) { return fibreNames.marshal("fibre", int(f)) }

// UnmarshalText reads a name as String writes it. It wraps unit.ErrUnknown.
func (f *Fibre) UnmarshalText(text []byte) error { return fibreNames.unmarshal("fibre", text, f.set) }

func (f *Fibre) set(i int) { *f = Fibre(i) }

func (f Fibre) check(field string) error {
	if f < Nylon || f > Polyester {
		return check.OneOf(field, f.String(), fibreNames...)
	}
	return nil
}
