package unit

import "math"

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
// noise of the float64 and do not count. Any other number of places gives the
// text of String.
func (r Ratio) PercentText(places int, round Rounding) string {
	if places <= maxPlaces-2 {
		if text, ok := floatDecimal(float64(r), 1, 2, places, round, "%"); ok {
			return text
		}
	}
	return r.String()
}

// String writes r for people, to five digits: as a percentage, such as "2.5 %",
// or as a plain number from ten on. MarshalText loses nothing.
func (r Ratio) String() string {
	var buf [32]byte
	if !r.asPercent() {
		return string(appendFigures(buf[:0], float64(r), 0))
	}
	return string(append(appendFigures(buf[:0], float64(r), 2), " %"...))
}

// asPercent tells whether r is written as a percentage.
func (r Ratio) asPercent() bool {
	a := math.Abs(float64(r))
	return a == 0 || a >= 1e-9 && a < 10
}

// AppendText writes r to the end of b without loss: as a percentage, or as a
// plain number where it is very small or from ten on. It wraps ErrNotFinite.
func (r Ratio) AppendText(b []byte) ([]byte, error) {
	if err := r.Check(); err != nil {
		return b, err
	}
	if !r.asPercent() {
		return appendFloat(b, float64(r)), nil
	}
	neg, mant, exp := decimalOf(float64(r), -1)
	return append(appendDecimal(b, neg, mant, exp+2), " %"...), nil
}

// MarshalText writes r without loss, as AppendText does. It wraps ErrNotFinite.
func (r Ratio) MarshalText() ([]byte, error) { return r.AppendText(make([]byte, 0, usual)) }

// UnmarshalText reads r as ParseRatio does.
func (r *Ratio) UnmarshalText(text []byte) error {
	x, err := ParseRatio(string(text))
	if err == nil {
		*r = x
	}
	return err
}
