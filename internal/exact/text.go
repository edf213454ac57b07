package exact

import (
	"bytes"
	"math/big"
	"strconv"
)

// RatioPlaces is the digits after the point with which a float enters: enough
// for any percentage, too few for the noise of binary fractions.
const RatioPlaces = 12

// OfFloat gives f as the decimal fraction it was meant as, to 12 places: 7.5 %
// is 75/1000, not the nearest binary fraction. It tells whether f is one: from
// -10^6 to 10^6.
func OfFloat(f float64) (Rat, bool) {
	if !(f >= -1e6 && f <= 1e6) {
		return Rat{}, false
	}
	var buf [32]byte
	s := strconv.AppendFloat(buf[:0], f, 'f', RatioPlaces, 64)
	n := int64(0)
	for _, c := range s {
		if c >= '0' && c <= '9' {
			n = 10*n + int64(c-'0') // at most 10^18
		}
	}
	if s[0] == '-' {
		n = -n
	}
	return New(n, 1_000_000_000_000), true
}

// FloatString writes x with places digits after the point, a tie away from
// zero.
func (x Rat) FloatString(places int) string {
	var buf [48]byte
	return string(x.Append(buf[:0], places))
}

// Append appends what FloatString writes.
func (x Rat) Append(buf []byte, places int) []byte {
	n, fits := x.num, x.big == nil
	for i := 0; i < places && fits; i++ {
		n, fits = n.mul(narrow(10))
	}
	if !fits {
		return append(buf, x.Big().FloatString(places)...)
	}
	d := x.denom()
	q, r := n.divMod(d)
	if !r.isZero() && r.cmp(d.sub(r)) >= 0 {
		q, _ = q.add(narrow(1)) // r is not zero, so d is above 1 and q far from full
	}
	if x.neg {
		buf = append(buf, '-')
	}
	var digits [40]byte
	at := len(digits)
	for w := 0; w <= places || !q.isZero(); w++ {
		if w == places && places > 0 {
			at--
			digits[at] = '.'
		}
		var c wide
		q, c = q.divMod(narrow(10))
		at--
		digits[at] = '0' + byte(c.lo)
	}
	return append(buf, digits[at:]...)
}

// Text writes x with at most places digits, without trailing zeros; a value
// that is not exact so is cut off and marked with dots.
func (x Rat) Text(places int) string {
	s := x.FloatString(places)
	if back, ok := new(big.Rat).SetString(s); ok && back.Cmp(x.Big()) == 0 {
		return TrimZeros(s)
	}
	tens := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
	scale := Of(new(big.Rat).SetInt(tens))
	cut, _, _ := x.Mul(scale).Trunc()
	return cut.Quo(scale).FloatString(places) + "…"
}

// TrimZeros drops the zeros at the end of a decimal fraction, and a point that
// ends it.
func TrimZeros(s string) string { return string(TrimZeroBytes([]byte(s))) }

// TrimZeroBytes is TrimZeros within s.
func TrimZeroBytes(s []byte) []byte {
	if !bytes.Contains(s, []byte(".")) {
		return s
	}
	return bytes.TrimSuffix(bytes.TrimRight(s, "0"), []byte("."))
}

// Places gives the digits after the point that write x without loss, at most
// most.
func (x Rat) Places(most int) int {
	for p := range most {
		if x.IsInt() {
			return p
		}
		x = x.Mul(Int(10))
	}
	return most
}
