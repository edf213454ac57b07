package evaluate

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
)

var unitEvaluators = map[string]reference.Evaluator{
	"convert_length":         convert(unit.ParseLength),
	"convert_area":           convert(unit.ParseArea),
	"convert_volume":         convert(unit.ParseVolume),
	"convert_mass":           convert(unit.ParseMass),
	"convert_force":          convert(unit.ParseForce),
	"convert_pressure":       convert(unit.ParsePressure),
	"convert_density":        convert(unit.ParseDensity),
	"convert_linear_density": convert(unit.ParseLinearDensity),
	"convert_area_density":   convert(unit.ParseAreaDensity),
}

// convert evaluates "1 in -> mm": it reads the quantity, then divides by one
// of the target unit. Both are read a thousand times over, since an ounce or
// a grain alone is not a whole number of quanta.
func convert[Q ~int64 | ~float64](parse func(string) (Q, error)) reference.Evaluator {
	return func(in *reference.Inputs, _ string) (reference.Value, error) {
		from, to, ok := strings.Cut(in.Text(""), "->")
		if !ok {
			return reference.Value{}, fmt.Errorf("want \"1 in -> mm\"")
		}
		count, name, _ := strings.Cut(strings.TrimSpace(from), " ")
		q, err := parse(count + "e3 " + name)
		if err != nil {
			return reference.Value{}, err
		}
		one, err := parse("1e3 " + strings.TrimSpace(to))
		if err != nil {
			return reference.Value{}, err
		}
		return reference.Numbers(float64(q) / float64(one)), nil
	}
}
