package unit

import (
	"math"
	"strconv"
)

// The arithmetic shared by the exact types.

func overflow(op string) error {
	return &InputError{Value: op, Err: ErrOverflow, Want: "a result that fits 63 bits"}
}

func addInt(a, b int64, what string) (int64, error) {
	s := a + b
	if (a^s)&(b^s) < 0 { // a sign that neither has
		return 0, overflow(what)
	}
	return s, nil
}

func subInt(a, b int64, what string) (int64, error) {
	d := a - b
	if (a^b)&(a^d) < 0 { // not the sign of a, and b has the other
		return 0, overflow(what)
	}
	return d, nil
}

// abs gives |a| without overflow at the most negative value.
func abs(a int64) uint64 {
	if a < 0 {
		return -uint64(a)
	}
	return uint64(a)
}

// mulDiv gives a·num/den, rounded once.
func mulDiv(a, num, den int64, r Rounding, what string) (int64, error) {
	if den == 0 {
		return 0, &InputError{Value: what, Err: ErrDivideByZero, Want: "a divisor that is not zero"}
	}
	neg := (a < 0) != (num < 0) != (den < 0)
	q, ok := product(abs(a), abs(num)).over(abs(den), 1, neg, r)
	return signed(q, ok, neg, what)
}

// signed gives the number of size q; ok tells that q is not too large already.
func signed(q uint64, ok, neg bool, what string) (int64, error) {
	switch {
	case !ok:
	case q <= math.MaxInt64 && neg:
		return -int64(q), nil
	case q <= math.MaxInt64:
		return int64(q), nil
	case neg && q == 1<<63:
		return math.MinInt64, nil
	}
	return 0, overflow(what)
}

// roundStep rounds a to a multiple of step, step > 0.
func roundStep(a, step int64, r Rounding, what string) (int64, error) {
	q, _ := wide{0, abs(a)}.over(uint64(step), 1, a < 0, r)
	return signed(q*uint64(step), true, a < 0, what) // |a| and a step stay below 2^64
}

// ofFloat gives v·num/den, rounded to the nearest whole number. Both are above
// zero, den at most 2^54.
func ofFloat(v float64, num, den int64, what string) (int64, error) {
	if err := finite(v, what); err != nil {
		return 0, err
	}
	m, exp := binary(v)
	q, ok := product(m, uint64(num)).scaled(exp, uint64(den))
	return signed(q, ok, v < 0, what)
}

// scale gives a·r, with r as the decimal it was written as: 1.1 is 11/10, so
// that rounding up does not go one step too far for the sake of the last bit
// of a float64.
func scale(a int64, r Ratio, round Rounding, what string) (int64, error) {
	if err := r.Check(); err != nil {
		return 0, err
	}
	minus, mant, exp := decimalOf(float64(r), -1)
	neg := (a < 0) != minus
	w := product(abs(a), mant) // below 10^37
	if w == (wide{}) {
		return 0, nil
	}
	if exp > 0 {
		p := product(w.lo, powersOfTen[min(exp, 19)])
		return signed(p.lo, w.hi == 0 && p.hi == 0, neg, what) // 10^19 is too much itself
	}
	// Divisors from 10^38 on leave less than a half of any such product.
	low := min(-exp, 19)
	q, ok := w.over(powersOfTen[low], powersOfTen[min(-exp-low, 19)], neg, round)
	return signed(q, ok, neg, what)
}

func quotient(a, b int64) (Ratio, error) {
	if b == 0 {
		return 0, &InputError{Err: ErrDivideByZero, Want: "a divisor that is not zero"}
	}
	return Ratio(floatQuotient(a, 1, b)), nil
}

// floatQuotient gives a·num/b to the nearest float64; num is above zero and b
// is not zero.
func floatQuotient(a, num, b int64) float64 {
	x := product(abs(a), uint64(num)).float(abs(b))
	if (a < 0) != (b < 0) && a != 0 {
		return -x
	}
	return x
}

func fits(a, b int64, kind string) (int, int64, error) {
	switch {
	case b == 0:
		return 0, 0, &InputError{Err: ErrDivideByZero, Want: "more than no " + kind}
	case a < 0 || b < 0:
		return 0, 0, &InputError{Err: ErrRange, Want: "no negative " + kind}
	case a/b > math.MaxInt: // where int has 32 bits
		return 0, 0, overflow(kind + " / " + kind)
	}
	return int(a / b), a % b, nil
}

// decimalOf takes a finite x apart: |x| is mant·10^exp, mant below 10^18. It
// has places digits after the first, at most 17, or, when places is negative,
// as few as tell x from its neighbours.
func decimalOf(x float64, places int) (neg bool, mant uint64, exp int) {
	var buf [32]byte
	s := strconv.AppendFloat(buf[:0], x, 'e', places, 64)
	after, point := 0, false
	for i, c := range s {
		switch {
		case c == '-':
			neg = true
		case c == '.':
			point = true
		case c == 'e':
			exp, _ = strconv.Atoi(string(s[i+1:])) //nolint:errcheck // strconv wrote it
			return neg, mant, exp - after
		default:
			mant = 10*mant + uint64(c-'0')
			if point {
				after++
			}
		}
	}
	return neg, mant, exp
}
