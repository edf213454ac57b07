package cost

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// Between the inputs and the one rounding of a figure all arithmetic is in
// exact fractions, so no digit is lost on the way.

// powers are the powers of ten up to 10^15. They are never written to.
var powers = func() (p [mostDigits + 1]int64) {
	p[0] = 1
	for i := 1; i < len(p); i++ {
		p[i] = 10 * p[i-1]
	}
	return p
}()

// scaled gives x × 10^n for n from 0 to 15.
func scaled(x exact.Rat, n int) exact.Rat { return x.Mul(exact.Int(powers[n])) }

// ratio gives r as the decimal fraction it was meant as: 7.5 % is 75/1000,
// not the nearest binary fraction. The largest ratio money accepts is 10^6.
func ratio[F ~string](field F, r unit.Ratio) (exact.Rat, error) {
	if err := r.Check(); err != nil {
		return exact.Rat{}, unit.InField(field, err)
	}
	x, ok := exact.OfFloat(float64(r))
	if !ok {
		return exact.Rat{}, check.Refuse(field, r.String(), unit.ErrRange, "a ratio up to 1000000")
	}
	return x, nil
}

// ratioBetween is ratio for values from lo to hi.
func ratioBetween[F ~string](field F, r, lo, hi unit.Ratio) (exact.Rat, error) {
	x, err := ratio(field, r)
	if err != nil {
		return exact.Rat{}, err
	}
	if r < lo || r > hi {
		return exact.Rat{}, check.Refuse(field, r.String(), unit.ErrRange, "from "+percent(lo)+" to "+percent(hi))
	}
	return x, nil
}

// clean drops the noise of binary fractions from a ratio that is shown:
// 56.5*unit.Percent is 0.5650000000000001 in binary. What is no number stays,
// to be refused where it is used.
func clean(r unit.Ratio) unit.Ratio {
	if x, err := ratio("", r); err == nil {
		return unit.Ratio(x.Float64())
	}
	return r
}

// percent writes a ratio with its per cent sign, however large it is.
func percent(r unit.Ratio) string {
	x, err := ratio("", r)
	if err != nil {
		return r.String()
	}
	return x.Mul(exact.Int(100)).Text(ratioPlaces) + " %"
}

// ratioPlaces is the digits of a ratio in hundredths.
const ratioPlaces = exact.RatioPlaces - 2
