package job

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// Edge is an edge of a panel as [allowance.Edge] writes it: the finish, then its
// allowance when one is set by hand, then "+" and the handling margin: "plain
// seam", "plain seam 3/8 in", "pull-over 2 in + 1 in".
type Edge struct{ allowance.Edge }

// Thickness is a length that may also be written in leather ounces.
type Thickness unit.Length

// UnmarshalText reads a thickness as unit.ParseThickness does.
func (t *Thickness) UnmarshalText(text []byte) error {
	l, err := unit.ParseThickness(string(text))
	if err == nil {
		*t = Thickness(l)
	}
	return err
}

// MarshalText writes the thickness as a length.
func (t Thickness) MarshalText() ([]byte, error) { return unit.Length(t).MarshalText() }
