package reference

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// Inputs are the inputs of one row. Evaluators read them by name; a name that
// is missing or never read, or a value that does not parse, is an error of
// the row. So an evaluator reads straight through and checks nothing.
type Inputs struct {
	raw   string
	pairs []pair
	err   error
}

type pair struct {
	name, value string
	read        bool
}

// ParseInputs reads "name=value; name=value". Text without any "=" is a
// single value with an empty name.
func ParseInputs(s string) *Inputs {
	in := &Inputs{raw: s}
	if !strings.Contains(s, "=") {
		in.pairs = []pair{{value: strings.TrimSpace(s)}}
		return in
	}
	for _, part := range strings.Split(s, ";") {
		name, value, ok := strings.Cut(part, "=")
		if !ok {
			in.fail(fmt.Errorf("input %q: want name=value", part))
			continue
		}
		in.pairs = append(in.pairs, pair{name: strings.TrimSpace(name), value: strings.TrimSpace(value)})
	}
	return in
}

// Err gives the first error met while reading.
func (in *Inputs) Err() error {
	if in.err != nil {
		return in.err
	}
	for _, p := range in.pairs {
		if !p.read {
			return fmt.Errorf("input %q was never read", p.name)
		}
	}
	return nil
}

func (in *Inputs) fail(err error) {
	if in.err == nil {
		in.err = err
	}
}

// Has tells whether the row gives this input.
func (in *Inputs) Has(name string) bool {
	for _, p := range in.pairs {
		if p.name == name {
			return true
		}
	}
	return false
}

// Text reads an input as it stands.
func (in *Inputs) Text(name string) string {
	for i := range in.pairs {
		if in.pairs[i].name == name {
			in.pairs[i].read = true
			return in.pairs[i].value
		}
	}
	in.fail(fmt.Errorf("input %q is missing from %q", name, in.raw))
	return ""
}

// List reads an input of several values with spaces between.
func (in *Inputs) List(name string) []string { return strings.Fields(in.Text(name)) }

func read[T any](in *Inputs, name string, parse func(string) (T, error)) T {
	v, err := parse(in.Text(name))
	if err != nil {
		in.fail(fmt.Errorf("input %q: %w", name, err))
	}
	return v
}

// Float reads a plain number.
func (in *Inputs) Float(name string) float64 {
	return read(in, name, func(s string) (float64, error) { return strconv.ParseFloat(s, 64) })
}

// Int reads a whole number.
func (in *Inputs) Int(name string) int { return read(in, name, strconv.Atoi) }

// Bool reads true or false.
func (in *Inputs) Bool(name string) bool { return read(in, name, strconv.ParseBool) }

// Length reads a length with its unit.
func (in *Inputs) Length(name string) unit.Length { return read(in, name, unit.ParseLength) }

// Thickness reads a leather thickness.
func (in *Inputs) Thickness(name string) unit.Length { return read(in, name, unit.ParseThickness) }

// Area reads an area with its unit.
func (in *Inputs) Area(name string) unit.Area { return read(in, name, unit.ParseArea) }

// Volume reads a volume with its unit.
func (in *Inputs) Volume(name string) unit.Volume { return read(in, name, unit.ParseVolume) }

// Mass reads a mass with its unit.
func (in *Inputs) Mass(name string) unit.Mass { return read(in, name, unit.ParseMass) }

// Force reads a force with its unit.
func (in *Inputs) Force(name string) unit.Force { return read(in, name, unit.ParseForce) }

// Pressure reads a pressure with its unit.
func (in *Inputs) Pressure(name string) unit.Pressure { return read(in, name, unit.ParsePressure) }

// Density reads a density with its unit.
func (in *Inputs) Density(name string) unit.Density { return read(in, name, unit.ParseDensity) }

// LinearDensity reads a yarn count with its unit.
func (in *Inputs) LinearDensity(name string) unit.LinearDensity {
	return read(in, name, unit.ParseLinearDensity)
}

// Angle reads an angle with its unit.
func (in *Inputs) Angle(name string) unit.Angle { return read(in, name, unit.ParseAngle) }

// Ratio reads a ratio or a percentage.
func (in *Inputs) Ratio(name string) unit.Ratio { return read(in, name, unit.ParseRatio) }

// Duration reads working time with its unit.
func (in *Inputs) Duration(name string) unit.Duration { return read(in, name, unit.ParseDuration) }
