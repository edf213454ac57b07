package thread

import (
	"math"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// LineForce is a force along a line in newtons per metre: the strength of a
// seam per length, or of cloth per width. The zero value is none.
//
// Its units: NewtonPerMetre, NewtonPerMillimetre, PoundForcePerInch.
type LineForce float64

// Units of force per length.
const (
	NewtonPerMetre      LineForce = 1
	NewtonPerMillimetre LineForce = 1000
	PoundForcePerInch   LineForce = 4.4482216152605 / 0.0254
)

// LineForceOf gives f spread over l, such as the breaking force of a strip
// over its width. It wraps unit.ErrDivideByZero or unit.ErrNotFinite.
func LineForceOf(f unit.Force, l unit.Length) (LineForce, error) {
	if l == 0 {
		return 0, check.Refuse("length", l.String(), unit.ErrDivideByZero, "a length that is not zero")
	}
	q := LineForce(f.Newtons() / l.Metres())
	return q, q.Check()
}

// Check gives nil for a finite value, else an error that wraps
// unit.ErrNotFinite.
func (f LineForce) Check() error {
	if math.IsNaN(float64(f)) || math.IsInf(float64(f), 0) {
		return check.Refuse("force per length", floatText(float64(f)), unit.ErrNotFinite, "a finite force per length")
	}
	return nil
}

// PoundsForcePerInch gives f in that unit.
func (f LineForce) PoundsForcePerInch() float64 { return float64(f / PoundForcePerInch) }

// NewtonsPerMetre gives f in that unit.
func (f LineForce) NewtonsPerMetre() float64 { return float64(f) }

// Over gives the force that f carries along l.
func (f LineForce) Over(l unit.Length) unit.Force { return unit.Force(float64(f) * l.Metres()) }

// String writes f without loss, in N/m.
func (f LineForce) String() string {
	return strconv.FormatFloat(float64(f), 'g', -1, 64) + " N/m"
}

// MarshalText writes f as String does. It wraps unit.ErrNotFinite.
func (f LineForce) MarshalText() ([]byte, error) {
	if err := f.Check(); err != nil {
		return nil, err
	}
	return []byte(f.String()), nil
}

// UnmarshalText reads a force per length in N/m, N/mm or lbf/in, such as
// "135 lbf/in". It wraps unit.ErrMissingUnit or unit.ErrSyntax.
func (f *LineForce) UnmarshalText(text []byte) error {
	s, one := string(text), NewtonPerMetre
	symbol := " N/m"
	switch {
	case strings.HasSuffix(s, " N/mm"):
		symbol, one = " N/mm", NewtonPerMillimetre
	case strings.HasSuffix(s, " lbf/in"):
		symbol, one = " lbf/in", PoundForcePerInch
	}
	x, err := parseUnit("force per length", s, symbol)
	if err != nil {
		return err
	}
	v := LineForce(x) * one
	if err := v.Check(); err != nil {
		return err
	}
	*f = v
	return nil
}

// parseUnit reads a finite number with its unit behind it.
func parseUnit(field, s, symbol string) (float64, error) {
	number, ok := strings.CutSuffix(s, symbol)
	if !ok {
		return 0, check.Refuse(field, s, unit.ErrMissingUnit, "a number with"+symbol)
	}
	x, err := strconv.ParseFloat(number, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, check.Refuse(field, s, unit.ErrSyntax, "a number with"+symbol)
	}
	return x, nil
}
