package unit

import "fmt"

// System is what lengths and areas are written in: [Inches] (inches and square
// feet) or [Metric] (millimetres and square metres). The zero value is Inches.
type System uint8

const (
	// Inches writes inches, feet and yards.
	Inches System = iota
	// Metric writes millimetres and metres.
	Metric
)

var systemNames = [...]string{"inch", "metric"}

// String gives "inch" or "metric".
func (s System) String() string {
	if int(s) >= len(systemNames) {
		return fmt.Sprintf("System(%d)", uint8(s))
	}
	return systemNames[s]
}

// Check gives nil for one of the two systems, else an error that wraps
// ErrUnknown.
func (s System) Check() error {
	if int(s) >= len(systemNames) {
		return &InputError{Field: "system", Value: s.String(), Err: ErrUnknown, Want: "one of inch, metric"}
	}
	return nil
}

// MarshalText writes the name, or the error of Check.
func (s System) MarshalText() ([]byte, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	return []byte(systemNames[s]), nil
}

// UnmarshalText reads "inch" or "metric"; anything else wraps ErrUnknown.
func (s *System) UnmarshalText(text []byte) error {
	for i, name := range systemNames {
		if name == string(text) {
			*s = System(i)
			return nil
		}
	}
	return &InputError{Field: "system", Value: string(text), Err: ErrUnknown, Want: "one of inch, metric"}
}
