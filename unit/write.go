package unit

import (
	"math"
	"strconv"
)

// How the kinds are written. All append to a slice, so that a text costs one
// allocation.

const maxPlaces = 15

// usual is the room for nearly every text.
const usual = 24

// appendPlaces writes mant·10^exp with places digits after the point.
func appendPlaces(b []byte, neg bool, mant uint64, exp, places int, r Rounding) []byte {
	zeros := max(exp+places, 0)
	if exp+places < 0 {
		// From 10^19 on the quotient of any mant is below a half.
		mant, _ = wide{0, mant}.over(powersOfTen[min(-exp-places, 19)], 1, neg, r)
	}
	if mant == 0 {
		zeros = 0
	} else if neg {
		b = append(b, '-')
	}
	var buf [20]byte
	digits := strconv.AppendUint(buf[:0], mant, 10)
	point := len(digits) + zeros - places
	if point <= 0 {
		b = append(b, '0')
	}
	for i := min(point, 0); i < len(digits)+zeros; i++ {
		if i == point {
			b = append(b, '.')
		}
		if i < 0 || i >= len(digits) {
			b = append(b, '0')
		} else {
			b = append(b, digits[i])
		}
	}
	return b
}

// appendDecimal writes mant·10^exp with the digits it has.
func appendDecimal(b []byte, neg bool, mant uint64, exp int) []byte {
	for mant != 0 && mant%10 == 0 {
		mant, exp = mant/10, exp+1
	}
	if mant == 0 {
		exp = 0
	}
	return appendPlaces(b, neg, mant, exp, max(-exp, 0), Nearest)
}

// appendQuotient writes n/u, u > 0, with places digits after the point.
func appendQuotient(b []byte, n, u int64, places int, r Rounding) []byte {
	whole, parts := wholeAndParts(n, u, powersOfTen[places], r)
	if n < 0 && whole|parts != 0 {
		b = append(b, '-')
	}
	b = strconv.AppendUint(b, whole, 10)
	if places == 0 {
		return b
	}
	b = append(b, '.')
	for p := powersOfTen[places] / 10; p > 1 && parts < p; p /= 10 {
		b = append(b, '0')
	}
	return strconv.AppendUint(b, parts, 10)
}

// wholeAndParts gives |n|/u as a whole number and so many parts of one, rounded
// with the sign of n. u and parts are above zero.
func wholeAndParts(n, u int64, parts uint64, r Rounding) (whole, of uint64) {
	d := uint64(u)
	whole, rest := abs(n)/d, abs(n)%d
	of, _ = product(rest, parts).over(d, 1, n < 0, r) // at most parts
	if of == parts {
		return whole + 1, 0
	}
	return whole, of
}

// step is one way to write an exact value: as a decimal of a unit, when it is
// a whole 1/parts of it.
type step struct {
	size   int64
	parts  uint64
	places int
	symbol string
}

// appendLossless writes n in the first unit that holds it exactly. The last
// step must hold every value.
func appendLossless(b []byte, n int64, zero string, steps []step) []byte {
	if n == 0 {
		return append(b, zero...)
	}
	last := steps[len(steps)-1]
	for _, s := range steps {
		if _, rest := product(abs(n), s.parts).div(uint64(s.size)); rest == 0 {
			last = s
			break
		}
	}
	whole, parts := wholeAndParts(n, last.size, powersOfTen[last.places], Nearest)
	if n < 0 {
		b = append(b, '-')
	}
	b = strconv.AppendUint(b, whole, 10)
	if parts != 0 {
		from := len(b)
		b = appendDecimal(b, false, parts, -last.places)
		b = append(b[:from], b[from+1:]...) // without the zero before the point
	}
	return append(append(b, ' '), last.symbol...)
}

// floatText is the shortest text that reads back to the same float64.
func floatText(x float64) string { return string(appendFloat(nil, x)) }

func appendFloat(b []byte, x float64) []byte {
	switch {
	case x == 0: // also when it is minus zero
		return append(b, '0')
	case !ordinary(x):
		return strconv.AppendFloat(b, x, 'e', -1, 64)
	}
	return strconv.AppendFloat(b, x, 'f', -1, 64)
}

// figures is how many digits people are shown of a measured value, where the
// whole part has no more.
const figures = 5

// appendFigures writes x·10^shift to so many digits, for people.
func appendFigures(b []byte, x float64, shift int) []byte {
	if !ordinary(x) {
		return strconv.AppendFloat(b, x, 'g', figures, 64)
	}
	neg, mant, exp := decimalOf(x, 14)
	exp += shift
	if drop := min(15-figures, -exp); drop > 0 {
		mant, exp = (mant+powersOfTen[drop]/2)/powersOfTen[drop], exp+drop
	}
	return appendDecimal(b, neg, mant, exp)
}

// scaleUnit is a unit that people read a measured value in.
type scaleUnit struct {
	size   float64
	symbol string
}

// appendMeasured writes x for people, in the first of units in which it is a
// round number: what was said as 33 lbf is written so, although it is
// 146.791… N. What is round in none is written in the first, and what is very
// large or small in own, the unit that x counts.
func appendMeasured(b []byte, x float64, own string, units []scaleUnit) []byte {
	if !ordinary(x / units[0].size) {
		return append(append(appendFigures(b, x, 0), ' '), own...)
	}
	u := units[0]
	for _, other := range units {
		if round(x / other.size) {
			u = other
			break
		}
	}
	return append(append(appendFigures(b, x/u.size, 0), ' '), u.symbol...)
}

// ordinary tells whether x is written without an exponent.
func ordinary(x float64) bool {
	a := math.Abs(x)
	return a == 0 || a < 1e15 && a >= 1e-9
}

// round tells whether x has few digits, but for the noise of binary fractions.
func round(x float64) bool {
	if !ordinary(x) {
		return false
	}
	const digits = 12
	_, mant, _ := decimalOf(x, digits-1)
	return mant%powersOfTen[digits-figures] == 0
}

// floatDecimal writes x/u with places digits after the point, and false when
// that is no number. The fifteen digits that a float64 always holds count:
// else 1.1 rounded up to tenths would be 1.2, since the nearest float64 lies
// above 1.1.
func floatDecimal(x, u float64, shift, places int, r Rounding, symbol string) (string, bool) {
	q := x / u
	if math.IsNaN(q) || math.IsInf(q, 0) || places < 0 || places > maxPlaces {
		return "", false
	}
	neg, mant, exp := decimalOf(q, 14)
	var buf [40]byte
	b := appendPlaces(buf[:0], neg, mant, exp+shift, places, r)
	return string(append(append(b, ' '), symbol...)), true
}

// appendExact writes x without loss, with the symbol of its unit.
func appendExact(b []byte, x float64, symbol string, err error) ([]byte, error) {
	if err != nil {
		return b, err
	}
	return append(append(appendFloat(b, x), ' '), symbol...), nil
}
