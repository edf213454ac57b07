package unit

import (
	"math"
	"math/big"
	"strings"
)

// Ratio is a number without a unit: a share, a factor, a percentage. 25 % is
// 0.25. The zero value is nothing.
type Ratio float64

// Percent is the unit of a ratio in hundredths: 25*unit.Percent.
const Percent Ratio = 0.01

var ratioMeasure = func() *measure {
	m := newMeasure("ratio", "25 % or 0.25", units(1, 100, "%|percent|per cent|pct"))
	m.bare = true
	return m
}()

// ParseRatio reads a ratio, such as "25 %", "2.5 percent" or "0.25". Errors
// are those of [ParseForce].
func ParseRatio(s string) (Ratio, error) {
	x, err := ratioMeasure.float(s)
	return Ratio(x), err
}

// Check gives nil for a finite value, else an error that wraps ErrNotFinite.
func (r Ratio) Check() error { return finite(float64(r), "ratio") }

// Percent gives r in hundredths.
func (r Ratio) Percent() float64 { return float64(r) * 100 }

// PercentText writes r as a percentage with places digits (0 to 13) after the
// point, such as "33.3 %". Digits beyond the fifteenth significant one are
// noise of the float64 and do not count.
func (r Ratio) PercentText(places int, round Rounding) string {
	if places < 0 || places > maxPlaces-2 || r.Check() != nil {
		return badVerb("Ratio.PercentText")
	}
	q, ok := noiseless(float64(r))
	if !ok { // cannot be: r is finite
		return badVerb("Ratio.PercentText")
	}
	return decimal(q.Mul(q, big.NewRat(100, 1)), places, round) + " %"
}

// String writes r without loss as a percentage, such as "2.5 %".
func (r Ratio) String() string {
	if r.Check() != nil {
		return floatText(float64(r))
	}
	s := floatText(float64(r))
	if strings.ContainsRune(s, 'e') || math.Abs(float64(r)) >= 10 {
		return s
	}
	q, ok := new(big.Rat).SetString(s)
	if !ok {
		return s
	}
	_, frac, _ := strings.Cut(s, ".")
	return trimZeros(decimal(q.Mul(q, big.NewRat(100, 1)), max(len(frac)-2, 0), Nearest)) + " %"
}

// MarshalText writes r without loss, as String does. It wraps ErrNotFinite.
func (r Ratio) MarshalText() ([]byte, error) { return marshalFloat(r.String(), r.Check()) }

// UnmarshalText reads r as ParseRatio does.
func (r *Ratio) UnmarshalText(text []byte) error {
	x, err := ParseRatio(string(text))
	if err == nil {
		*r = x
	}
	return err
}
