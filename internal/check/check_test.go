package check_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

func TestChecks(t *testing.T) {
	const lo, hi = unit.Inch, 10 * unit.Inch
	own := errors.New("own")
	for _, r := range []struct {
		name string
		got  error
		is   error // nil: accepted
		text string
	}{
		{"length low edge", check.Length("w", lo, lo, hi), nil, ""},
		{"length high edge", check.Length("w", hi, lo, hi), nil, ""},
		{"length below", check.Length("w", lo-unit.Mil, lo, hi), unit.ErrRange, "w: “25.3746 mm”: out of range; want from 1 in to 10 in"},
		{"length above", check.Length("w", hi+1, lo, hi), unit.ErrRange, "w: “254.000001 mm”: out of range; want from 1 in to 10 in"},
		{"length forgotten", check.Length("w", 22, lo, hi), unit.ErrForgottenUnit, "w: “22”: unit forgotten; want a length with its unit, such as 22*unit.Inch"},
		{"length forgotten, negative", check.Length("w", -22, lo, hi), unit.ErrForgottenUnit, ""},
		{"length edge of type", check.Length("w", math.MinInt64, lo, hi), unit.ErrRange, ""},
		{"positive", check.Positive("w", unit.Mil), nil, ""},
		{"positive longest", check.Positive("w", check.Longest), nil, ""},
		{"positive zero", check.Positive("w", 0), unit.ErrRange, "w: “0 in”: out of range; want a length above zero"},
		{"positive negative", check.Positive("w", -unit.Inch), unit.ErrRange, "w: “-1 in”: out of range; want a length above zero"},
		{"positive forgotten", check.Positive("w", 3), unit.ErrForgottenUnit, ""},
		{"positive absurd", check.Positive("w", check.Longest+1), unit.ErrRange, ""},
		{"not negative zero", check.NotNegative("w", 0), nil, ""},
		{"not negative below", check.NotNegative("w", -unit.Inch), unit.ErrRange, ""},
		{"count", check.Count("n", 3, 1, 3), nil, ""},
		{"count below", check.Count("n", 0, 1, 3), unit.ErrRange, "n: “0”: out of range; want a whole number from 1 to 3"},
		{"count above", check.Count("n", 4, 1, 3), unit.ErrRange, ""},
		{"ratio", check.Ratio("r", 0.5, 0, 1), nil, ""},
		{"ratio above", check.Ratio("r", 1.01, 0, 1), unit.ErrRange, "r: “101 %”: out of range; want from 0 % to 100 %"},
		{"ratio just above", check.Ratio("r", 1.0000001, 0, 1), unit.ErrRange, "r: “100.00001 %”: out of range; want from 0 % to 100 %"},
		{"between just above", check.Between("f", 30.00001*unit.Newton, 0, 30), unit.ErrRange, "f: “30.00001 N”: out of range; want from 0 N to 30 N"},
		{"above nothing", check.Above("f", unit.Force(0), 30), unit.ErrRange, "f: “0 N”: out of range; want above zero, at most 30 N"},
		{"ratio below", check.Ratio("r", -0.01, 0, 1), unit.ErrRange, ""},
		{"ratio NaN", check.Ratio("r", unit.Ratio(math.NaN()), 0, 1), unit.ErrNotFinite, "r: “NaN”: not a finite number; want a finite ratio"},
		{"ratio infinite", check.Ratio("r", unit.Ratio(math.Inf(1)), 0, 1), unit.ErrNotFinite, ""},
		{"between", check.Between("f", 3*unit.Newton, 0, 3), nil, ""},
		{"between above", check.Between("f", 4*unit.Newton, 0, 3), unit.ErrRange, "f: “4 N”: out of range; want from 0 N to 3 N"},
		{"between NaN", check.Between("f", unit.Force(math.NaN()), 0, 3), unit.ErrNotFinite, ""},
		{"between infinite", check.Between("f", unit.Force(math.Inf(-1)), 0, 3), unit.ErrRange, ""},
		{"between area", check.Between("a", unit.SquareFoot, 0, unit.SquareYard), nil, ""},
		{"between area forgotten", check.Between("a", unit.Area(67), 0, unit.SquareYard), unit.ErrForgottenUnit, "a: “67”: unit forgotten; want an area with its unit, such as 48*unit.SquareFoot"},
		{"between volume forgotten", check.Between("v", unit.Volume(-16), 0, unit.CubicFoot), unit.ErrForgottenUnit, "v: “-16”: unit forgotten; want a volume with its unit, such as 16*unit.BoardFoot"},
		{"between mass forgotten", check.Between("m", unit.Mass(80), 0, unit.Tonne), unit.ErrForgottenUnit, "m: “80”: unit forgotten; want a mass with its unit, such as 3*unit.Pound"},
		{"between time forgotten", check.Between("d", unit.Duration(8), 0, unit.Hour), unit.ErrForgottenUnit, "d: “8”: unit forgotten; want a time with its unit, such as 2*unit.Hour"},
		{"between coordinate", check.Between("x", unit.Length(-22), -unit.Inch, unit.Inch), nil, ""},
		{"between area zero", check.Between("a", unit.Area(0), 0, unit.SquareYard), nil, ""},
		{"above area forgotten", check.Above("a", unit.Area(67), unit.SquareYard), unit.ErrForgottenUnit, ""},
		{"above", check.Above("f", unit.Newton, 3), nil, ""},
		{"above zero", check.Above("f", unit.Force(0), 3), unit.ErrRange, "f: “0 N”: out of range; want above zero, at most 3 N"},
		{"above too much", check.Above("f", unit.Force(4), 3), unit.ErrRange, ""},
		{"above NaN", check.Above("f", unit.Force(math.NaN()), 3), unit.ErrNotFinite, ""},
		{"one of", check.OneOf("k", "b", "a", "b"), nil, ""},
		{"none of", check.OneOf("k", "c", "a", "b"), unit.ErrUnknown, "k: “c”: unknown; want one of a, b"},
		{"none at all", check.OneOf("k", ""), unit.ErrUnknown, "k: unknown; want none"},
		{"required", check.Required("k", "a width"), unit.ErrRequired, "k: required; want a width"},
		{"refuse", check.Refuse("k", "v", own, "w"), own, "k: “v”: own; want w"},
	} {
		if r.is == nil {
			assert.NoError(t, r.got, r.name)
			continue
		}
		assert.ErrorIs(t, r.got, r.is, r.name)
		var in *unit.InputError
		require.ErrorAs(t, r.got, &in, r.name)
		assert.NotEmpty(t, in.Field, r.name)
		if r.text != "" {
			assert.EqualError(t, r.got, r.text, r.name)
		}
	}
}
