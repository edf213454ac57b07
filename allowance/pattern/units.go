package pattern

import (
	"strings"

	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// Units says in what units a drawing states its sizes. The zero value is
// inches. Coordinates in files are in millimetres either way.
type Units uint8

// The units of a shop.
const (
	Inches Units = iota // sixteenths of an inch
	Metric              // whole millimetres
)

var unitNames = []string{"inch", "metric"}

// String gives the name: inch or metric.
func (u Units) String() string { return enum.Name(u, "units", unitNames) }

// MarshalText writes the name.
func (u Units) MarshalText() ([]byte, error) { return enum.Text(u, "units", unitNames) }

// UnmarshalText reads a name. The error is a *unit.InputError.
func (u *Units) UnmarshalText(text []byte) error { return enum.Read(u, text, "units", unitNames) }

// Length writes a length in sixteenths of an inch or whole millimetres.
func (u Units) Length(l unit.Length, r unit.Rounding) string {
	if u == Metric {
		return l.Decimal(unit.Millimetre, 0, r)
	}
	return l.Mixed(unit.Inch, unit.Sixteenths, r)
}

// step is what lengths are rounded to.
func (u Units) step() unit.Length {
	if u == Metric {
		return unit.Millimetre
	}
	return unit.Inch / 16
}

// Size writes the size of a piece to be cut, rounded up: "24 1/2 x 30 in".
func (u Units) Size(width, length unit.Length) string {
	w := u.Length(width, unit.Up)
	return strings.TrimSuffix(strings.TrimSuffix(w, " in"), " mm") + " x " + u.Length(length, unit.Up)
}
