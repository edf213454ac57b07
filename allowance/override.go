package allowance

import (
	"github.com/coverwright/coverwright/unit"
)

// Override is a length set by hand in place of a default. The zero value sets
// nothing, so that zero itself can be set: Exactly(0) is an override. Two
// overrides are equal under == when they say the same.
type Override struct {
	length unit.Length
	set    bool
}

// Exactly sets a length by hand.
func Exactly(l unit.Length) Override { return Override{length: l, set: true} }

// Get gives the length set by hand, and whether one was set.
func (o Override) Get() (unit.Length, bool) { return o.length, o.set }

// IsZero tells whether nothing is set; encoding/json asks it for omitzero.
func (o Override) IsZero() bool { return o == Override{} }

// String writes the length, or "default".
func (o Override) String() string {
	if !o.set {
		return "default"
	}
	return o.length.String()
}

// MarshalText writes the override as String does.
func (o Override) MarshalText() ([]byte, error) { return []byte(o.String()), nil }

// UnmarshalText reads a length as unit.ParseLength does; "default" and empty
// text set nothing. It accepts what String writes.
func (o *Override) UnmarshalText(text []byte) error {
	if s := string(text); s == "" || s == "default" {
		*o = Override{}
		return nil
	}
	l, err := unit.ParseLength(string(text))
	if err == nil {
		*o = Exactly(l)
	}
	return err
}
