package evaluate

import (
	"errors"
	"fmt"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
)

// sumEvaluators are those of the arithmetic of sizes and weights.
var sumEvaluators = map[string]reference.Evaluator{
	"sums": func(in *reference.Inputs, u string) (reference.Value, error) {
		switch kind := in.Text("of"); kind {
		case "lengths":
			return lengthSums.do(in, u)
		case "areas":
			return areaSums.do(in, u)
		case "volumes":
			return volumeSums.do(in, u)
		case "masses":
			return massSums.do(in, u)
		case "durations":
			return durationSums.do(in, u)
		default:
			return reference.Value{}, fmt.Errorf("no sums of %q", kind)
		}
	},
	"length_by_length": func(in *reference.Inputs, u string) (reference.Value, error) {
		a, err := in.Length("a").By(in.Length("b"))
		return areaIn(a, u, err)
	},
	"area_deep": func(in *reference.Inputs, u string) (reference.Value, error) {
		v, err := in.Area("area").Deep(in.Length("thick"))
		return read(v, u, unit.ParseVolume, err)
	},
	"area_over": func(in *reference.Inputs, u string) (reference.Value, error) {
		l, err := in.Area("area").Over(in.Length("wide"), unit.Up)
		return read(l, u, unit.ParseLength, err)
	},
	"weight_of_mass": func(in *reference.Inputs, u string) (reference.Value, error) {
		return read(in.Mass("mass").Weight(), u, unit.ParseForce, nil)
	},
	"mass_of_volume": func(in *reference.Inputs, u string) (reference.Value, error) {
		m, err := in.Density("density").Mass(in.Volume("volume"))
		return read(m, u, unit.ParseMass, err)
	},
	"mass_of_thread": func(in *reference.Inputs, u string) (reference.Value, error) {
		m, err := in.LinearDensity("count").Mass(in.Length("length"))
		return read(m, u, unit.ParseMass, err)
	},
	"mass_of_cloth": func(in *reference.Inputs, u string) (reference.Value, error) {
		d, err := unit.ParseAreaDensity(in.Text("cloth"))
		if err != nil {
			return reference.Value{}, err
		}
		m, err := d.Mass(in.Area("area"))
		return read(m, u, unit.ParseMass, err)
	},
}

// sums is the arithmetic of one kind of quantity.
type sums[Q ~int64] struct {
	parse       func(string) (Q, error)
	plus, minus func(Q, Q) (Q, error)
	times       func(Q, int) (Q, error)
	scale       func(Q, unit.Ratio, unit.Rounding) (Q, error)
	round       func(Q, Q, unit.Rounding) (Q, error)
	part        func(Q, int, int, unit.Rounding) (Q, error)
	per         func(Q, Q) (unit.Ratio, error)
	fits        func(Q, Q) (int, Q, error)
	all         func(...Q) (Q, error)
}

var (
	lengthSums = sums[unit.Length]{unit.ParseLength, unit.Length.Plus, unit.Length.Minus, unit.Length.Times, unit.Length.Scale, unit.Length.RoundTo,
		unit.Length.MulDiv, unit.Length.Per, unit.Length.Fits, unit.SumLengths}
	areaSums = sums[unit.Area]{unit.ParseArea, unit.Area.Plus, unit.Area.Minus, unit.Area.Times, unit.Area.Scale, unit.Area.RoundTo,
		unit.Area.MulDiv, unit.Area.Per, unit.Area.Fits, unit.SumAreas}
	volumeSums = sums[unit.Volume]{unit.ParseVolume, unit.Volume.Plus, unit.Volume.Minus, unit.Volume.Times, unit.Volume.Scale, unit.Volume.RoundTo,
		unit.Volume.MulDiv, unit.Volume.Per, unit.Volume.Fits, unit.SumVolumes}
	massSums = sums[unit.Mass]{unit.ParseMass, unit.Mass.Plus, unit.Mass.Minus, unit.Mass.Times, unit.Mass.Scale, unit.Mass.RoundTo,
		unit.Mass.MulDiv, unit.Mass.Per, unit.Mass.Fits, unit.SumMasses}
	durationSums = sums[unit.Duration]{parse: unit.ParseDuration, plus: unit.Duration.Plus, times: unit.Duration.Times, scale: unit.Duration.Scale, round: unit.Duration.RoundTo}
)

// do works out what a row asks for of a and b, n, share, step or part.
func (s sums[Q]) do(in *reference.Inputs, u string) (reference.Value, error) {
	a, err := s.parse(in.Text("a"))
	if err != nil {
		return reference.Value{}, err
	}
	second := func(name string) Q {
		b, parseErr := s.parse(in.Text(name))
		if parseErr != nil {
			err = parseErr
		}
		return b
	}
	var q Q
	switch {
	case in.Has("plus"):
		q, err = s.plus(a, second("plus"))
	case in.Has("minus"):
		q, err = s.minus(a, second("minus"))
	case in.Has("times"):
		q, err = s.times(a, in.Int("times"))
	case in.Has("scale"):
		q, err = s.scale(a, in.Ratio("scale"), unit.Nearest)
	case in.Has("up_to"):
		q, err = s.round(a, second("up_to"), unit.Up)
	case in.Has("thirds"):
		q, err = s.part(a, in.Int("thirds"), 3, unit.Up)
	case in.Has("and"):
		q, err = s.all(a, second("and"), second("and_too"))
	case in.Has("per"):
		r, perErr := s.per(a, second("per"))
		return reference.Numbers(float64(r)), perErr
	default:
		n, rest, fitErr := s.fits(a, second("fits"))
		x, countErr := count(rest, u, s.parse)
		return reference.Numbers(float64(n), x), errors.Join(err, fitErr, countErr)
	}
	return read(q, u, s.parse, err)
}

// read is q in the unit a row asks for.
func read[Q ~int64 | ~float64](q Q, u string, parse func(string) (Q, error), err error) (reference.Value, error) {
	x, countErr := count(q, u, parse)
	return reference.Numbers(x), errors.Join(err, countErr)
}

// count divides q by a thousandth of a thousand units, since an ounce alone is no
// whole number of quanta.
func count[Q ~int64 | ~float64](q Q, u string, parse func(string) (Q, error)) (float64, error) {
	many, err := parse("1e3 " + u)
	return float64(q) / (float64(many) / 1e3), err
}
