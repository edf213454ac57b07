package cost

import (
	"math"
	"math/big"
	"strconv"

	"github.com/coverwright/coverwright/unit"
)

// Between the inputs and the one rounding of a figure all arithmetic is in
// exact fractions, so no digit is lost on the way.

// An amount has at most mostDigits digits before the point.
const mostDigits = 15

var most = powers[mostDigits] // read only

// ratioPlaces is the digits after the point with which a ratio enters money:
// enough for any percentage, too few for the noise of binary fractions.
const ratioPlaces = 12

// powers are the powers of ten up to 10^15. They are never written to.
var powers = func() (p [mostDigits + 1]*big.Int) {
	p[0] = big.NewInt(1)
	for i := 1; i < len(p); i++ {
		p[i] = new(big.Int).Mul(p[i-1], big.NewInt(10))
	}
	return p
}()

// pow10 gives 10^n for n from 0 to 15, to be read only.
func pow10(n int) *big.Int { return powers[n] }

// scaled gives x × 10^n.
func scaled(x *big.Rat, n int) *big.Rat { return mul(x, new(big.Rat).SetInt(pow10(n))) }

func ratInt(n int64) *big.Rat { return new(big.Rat).SetInt64(n) }

func mul(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }

func add(a, b *big.Rat) *big.Rat { return new(big.Rat).Add(a, b) }

func sub(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }

// quo gives a / b; the caller has made sure that b is not zero.
func quo(a, b *big.Rat) *big.Rat { return new(big.Rat).Quo(a, b) }

// ratio gives r as the decimal fraction it was meant as: 7.5 % is 75/1000,
// not the nearest binary fraction. The largest ratio money accepts is 10^6.
func ratio(field string, r unit.Ratio) (*big.Rat, error) {
	if err := r.Check(); err != nil {
		return nil, unit.InField(field, err)
	}
	if math.Abs(float64(r)) > 1e6 {
		return nil, refuse(field, r.String(), unit.ErrRange, "a ratio up to 1000000")
	}
	x, ok := new(big.Rat).SetString(strconv.FormatFloat(float64(r), 'f', ratioPlaces, 64))
	if !ok {
		return nil, refuse(field, r.String(), unit.ErrNotFinite, "a finite ratio")
	}
	return x, nil
}

// ratioBetween is ratio for values from lo to hi.
func ratioBetween(field string, r, lo, hi unit.Ratio) (*big.Rat, error) {
	x, err := ratio(field, r)
	if err != nil {
		return nil, err
	}
	if r < lo || r > hi {
		return nil, refuse(field, r.String(), unit.ErrRange, "from "+lo.String()+" to "+hi.String())
	}
	return x, nil
}

// clean drops the noise of binary fractions from a ratio that is shown:
// 56.5*unit.Percent is 0.5650000000000001 in binary. What is no number stays,
// to be refused where it is used.
func clean(r unit.Ratio) unit.Ratio {
	if x, err := ratio("", r); err == nil {
		return ratioOf(x)
	}
	return r
}

// ratioOf gives x as a ratio, to float64 precision.
func ratioOf(x *big.Rat) unit.Ratio {
	f, _ := x.Float64()
	return unit.Ratio(f)
}

// text writes an exact fraction with at most places digits, without trailing
// zeros; a value that is not exact so is marked with dots.
func ratText(x *big.Rat, places int) string {
	s := x.FloatString(places)
	if back, ok := new(big.Rat).SetString(s); ok && back.Cmp(x) == 0 {
		return trimPlaces(s, 0)
	}
	n := Down.whole(scaled(x, places))
	return decimalText(n, places) + "…"
}

// decimalText writes n / 10^places.
func decimalText(n *big.Int, places int) string {
	s := new(big.Int).Abs(n).String()
	if places > 0 {
		for len(s) <= places {
			s = "0" + s
		}
		s = s[:len(s)-places] + "." + s[len(s)-places:]
	}
	if n.Sign() < 0 {
		s = "-" + s
	}
	return s
}

// trimPlaces drops zeros after the point, keeping at least keep digits.
func trimPlaces(s string, keep int) string {
	point := -1
	for i := range s {
		if s[i] == '.' {
			point = i
		}
	}
	if point < 0 {
		return s
	}
	end := len(s)
	for end > point+1+keep && s[end-1] == '0' {
		end--
	}
	if end == point+1 {
		end = point
	}
	return s[:end]
}
