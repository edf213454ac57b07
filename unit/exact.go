package unit

import (
	"math"
	"math/big"
	"math/bits"
	"strconv"
)

// The arithmetic shared by the exact types.

func overflow(op string) error {
	return &InputError{Value: op, Err: ErrOverflow, Want: "a result that fits 63 bits"}
}

func addInt(a, b int64, what string) (int64, error) {
	s := a + b
	if (a > 0 && b > 0 && s < 0) || (a < 0 && b < 0 && s >= 0) {
		return 0, overflow(what)
	}
	return s, nil
}

func subInt(a, b int64, what string) (int64, error) {
	d := a - b
	if (a >= 0 && b < 0 && d < 0) || (a < 0 && b > 0 && d >= 0) {
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

// mulDiv gives a*b/div to the nearest whole number, through a 128-bit product.
// div > 0.
func mulDiv(a, b, div int64, what string) (int64, error) {
	neg := (a < 0) != (b < 0)
	hi, lo := bits.Mul64(abs(a), abs(b))
	d := uint64(div)
	if hi >= d {
		return 0, overflow(what)
	}
	q, rem := bits.Div64(hi, lo, d)
	if rem != 0 && rem >= d-rem {
		if q++; q == 0 { // 2^64 does not fit
			return 0, overflow(what)
		}
	}
	return signed(q, neg, what)
}

func signed(q uint64, neg bool, what string) (int64, error) {
	switch {
	case !neg && q <= math.MaxInt64:
		return int64(q), nil
	case neg && q <= math.MaxInt64:
		return -int64(q), nil
	case neg && q == 1<<63:
		return math.MinInt64, nil
	}
	return 0, overflow(what)
}

// floorDiv gives floor(a/b), b > 0.
func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

// roundStep rounds a to a multiple of step, step > 0.
func roundStep(a, step int64, r Rounding, what string) (int64, error) {
	q := floorDiv(a, step)
	rem := uint64(a) - uint64(q)*uint64(step) // 0 <= rem < step
	up := false
	switch r {
	case Up:
		up = rem != 0
	case Down:
	default:
		half := uint64(step) - rem
		up = rem > half || rem == half && a >= 0
	}
	if up {
		q++
	}
	hi, lo := bits.Mul64(abs(q), uint64(step))
	if hi != 0 {
		return 0, overflow(what)
	}
	return signed(lo, q < 0, what)
}

// ofFloat gives v*quanta rounded to the nearest whole number.
func ofFloat(v float64, quanta *big.Rat, what string) (int64, error) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, &InputError{Value: strconv.FormatFloat(v, 'g', -1, 64), Err: ErrNotFinite, Want: "a finite " + what}
	}
	x := new(big.Rat).SetFloat64(v)
	return toInt(x.Mul(x, quanta), Nearest, what)
}

// toInt rounds x to a whole number that fits an int64.
func toInt(x *big.Rat, r Rounding, what string) (int64, error) {
	n := roundRat(x, r)
	if !n.IsInt64() {
		return 0, overflow(what)
	}
	return n.Int64(), nil
}

// decimal writes x with the given number of places after the point.
func decimal(x *big.Rat, places int, r Rounding) string {
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
	n := roundRat(new(big.Rat).Mul(x, new(big.Rat).SetInt(scale)), r)
	neg := n.Sign() < 0
	s := new(big.Int).Abs(n).String()
	if places > 0 {
		for len(s) <= places {
			s = "0" + s
		}
		s = s[:len(s)-places] + "." + s[len(s)-places:]
	}
	if neg {
		s = "-" + s
	}
	return s
}

// trimZeros drops the zeros a lossless decimal does not need.
func trimZeros(s string) string {
	i := len(s)
	for j := range len(s) {
		if s[j] == '.' {
			for i > j+1 && s[i-1] == '0' {
				i--
			}
			if i == j+1 {
				i = j
			}
			break
		}
	}
	return s[:i]
}

const maxPlaces = 15

// badVerb marks an impossible format in the text itself, as package fmt does.
func badVerb(what string) string { return "%!(" + what + ")" }

// mulDivSigned is mulDiv for a divisor of any sign.
func mulDivSigned(a, num, den int64, r Rounding, what string) (int64, error) {
	if den == 0 {
		return 0, &InputError{Value: what, Err: ErrDivideByZero, Want: "a divisor that is not zero"}
	}
	x := new(big.Rat).SetFrac(new(big.Int).Mul(big.NewInt(a), big.NewInt(num)), big.NewInt(den))
	return toInt(x, r, what)
}

// scale gives a×r, with r as the decimal it was written as: 1.1 is 11/10, so
// that rounding up does not go one step too far for the sake of the last bit
// of a float64.
func scale(a int64, r Ratio, round Rounding, what string) (int64, error) {
	if err := r.Check(); err != nil {
		return 0, err
	}
	x, ok := new(big.Rat).SetString(floatText(float64(r)))
	if !ok { // cannot be: r is finite
		return 0, overflow(what)
	}
	return toInt(x.Mul(x, new(big.Rat).SetInt64(a)), round, what)
}

func quotient(a, b int64) (Ratio, error) {
	if b == 0 {
		return 0, &InputError{Err: ErrDivideByZero, Want: "a divisor that is not zero"}
	}
	f, _ := big.NewRat(a, b).Float64()
	return Ratio(f), nil
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

// step is one way to write an exact value: as a decimal of a unit, when it is
// a whole 1/parts of it.
type step struct {
	size   int64
	parts  int64
	places int
	symbol string
}

// lossless writes n in the first unit that holds it exactly. The last step
// must hold every value.
func lossless(n int64, zero string, steps []step) string {
	if n == 0 {
		return zero
	}
	for _, s := range steps {
		x := big.NewRat(n, s.size)
		if new(big.Rat).Mul(x, new(big.Rat).SetInt64(s.parts)).IsInt() {
			return trimZeros(decimal(x, s.places, Nearest)) + " " + s.symbol
		}
	}
	return badVerb("lossless")
}
