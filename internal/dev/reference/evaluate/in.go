package evaluate

import (
	"strconv"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// in divides q by one of the unit a row asks for.
func in[Q ~int64 | ~float64](q Q, u string, parse func(string) (Q, error), err error) (reference.Value, error) {
	if err != nil {
		return reference.Value{}, err
	}
	one, err := parse("1 " + u)
	if err != nil {
		return reference.Value{}, err
	}
	return reference.Numbers(float64(q) / float64(one)), nil
}

// on hands on, with a value and its error, what the API says of its footing.
func on(bases ...cite.Basis) func(reference.Value, error) (reference.Value, error) {
	return func(v reference.Value, err error) (reference.Value, error) { return v.On(bases...), err }
}

func lengthIn(l unit.Length, u string) (reference.Value, error) {
	return in(l, u, unit.ParseLength, nil)
}

func areaIn(a unit.Area, u string, err error) (reference.Value, error) {
	return in(a, u, unit.ParseArea, err)
}

// numbers reads a list of plain numbers.
func numbers(in *reference.Inputs, name string) ([]float64, error) {
	var out []float64
	for _, text := range in.List(name) {
		x, err := strconv.ParseFloat(text, 64)
		if err != nil {
			return nil, err
		}
		out = append(out, x)
	}
	return out, nil
}
