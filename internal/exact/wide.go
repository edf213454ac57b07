package exact

import (
	"math/big"
	"math/bits"
)

// wide is a whole number from 0 to under 2^128.
type wide struct{ hi, lo uint64 }

func narrow(n uint64) wide { return wide{0, n} }

func (a wide) isZero() bool { return a.hi|a.lo == 0 }

func (a wide) isOne() bool { return a.hi == 0 && a.lo == 1 }

func (a wide) cmp(b wide) int {
	switch {
	case a.hi != b.hi && a.hi < b.hi, a.hi == b.hi && a.lo < b.lo:
		return -1
	case a == b:
		return 0
	}
	return 1
}

// add gives a + b and tells whether it fits.
func (a wide) add(b wide) (wide, bool) {
	lo, c := bits.Add64(a.lo, b.lo, 0)
	hi, c := bits.Add64(a.hi, b.hi, c)
	return wide{hi, lo}, c == 0
}

// sub gives a - b for b up to a.
func (a wide) sub(b wide) wide {
	lo, c := bits.Sub64(a.lo, b.lo, 0)
	hi, _ := bits.Sub64(a.hi, b.hi, c)
	return wide{hi, lo}
}

// mul gives a × b and tells whether it fits.
func (a wide) mul(b wide) (wide, bool) {
	if a.hi != 0 && b.hi != 0 {
		return wide{}, false
	}
	hi, lo := bits.Mul64(a.lo, b.lo)
	over1, cross1 := bits.Mul64(a.hi, b.lo)
	over2, cross2 := bits.Mul64(a.lo, b.hi)
	hi, c1 := bits.Add64(hi, cross1, 0)
	hi, c2 := bits.Add64(hi, cross2, 0)
	return wide{hi, lo}, over1|over2|c1|c2 == 0
}

// full gives a × b in 256 bits.
func (a wide) full(b wide) (hi, lo wide) {
	h, l := bits.Mul64(a.lo, b.lo)
	lo = wide{h, l}
	for _, x := range [2][2]uint64{{a.hi, b.lo}, {a.lo, b.hi}} {
		h, l = bits.Mul64(x[0], x[1])
		var c uint64
		lo.hi, c = bits.Add64(lo.hi, l, 0)
		hi.lo, c = bits.Add64(hi.lo, h, c)
		hi.hi += c
	}
	h, l = bits.Mul64(a.hi, b.hi)
	var c uint64
	hi.lo, c = bits.Add64(hi.lo, l, 0)
	hi.hi += h + c
	return hi, lo
}

// divMod gives a / b rounded down and what is left; b is above zero.
func (a wide) divMod(b wide) (q, r wide) {
	if b.hi == 0 {
		var rest uint64
		q.hi, rest = bits.Div64(0, a.hi, b.lo)
		q.lo, rest = bits.Div64(rest, a.lo, b.lo)
		return q, narrow(rest)
	}
	// The quotient fits one word. Dividing by the leading word of b alone gives
	// it or one more: guess one less, then mend.
	n := bits.LeadingZeros64(b.hi)
	top := b.hi<<n | b.lo>>(64-n)
	guess, _ := bits.Div64(a.hi>>1, a.hi<<63|a.lo>>1, top)
	guess >>= 63 - n
	if guess > 0 {
		guess--
	}
	part, _ := b.mul(narrow(guess))
	for r = a.sub(part); r.cmp(b) >= 0; r = r.sub(b) {
		guess++
	}
	return narrow(guess), r
}

// gcd gives the greatest common divisor; of nothing and b it is b.
func gcd(a, b wide) wide {
	for a.hi|b.hi != 0 && !b.isZero() {
		_, r := a.divMod(b)
		a, b = b, r
	}
	if b.isZero() {
		return a
	}
	return narrow(gcd64(a.lo, b.lo))
}

// gcd64 takes factors of two out and subtracts, which is quicker than dividing.
func gcd64(a, b uint64) uint64 {
	if a == 0 || b == 0 {
		return a | b
	}
	twos := bits.TrailingZeros64(a | b)
	a >>= bits.TrailingZeros64(a)
	for b != 0 {
		b >>= bits.TrailingZeros64(b)
		a, b = min(a, b), max(a, b)-min(a, b)
	}
	return a << twos
}

func (a wide) big() *big.Int {
	n := new(big.Int).SetUint64(a.hi)
	return n.Lsh(n, 64).Or(n, new(big.Int).SetUint64(a.lo))
}

// wideOf gives |n| and tells whether it fits.
func wideOf(n *big.Int) (wide, bool) {
	if n.BitLen() > 128 {
		return wide{}, false
	}
	m := new(big.Int).Abs(n)
	lo := new(big.Int).And(m, new(big.Int).SetUint64(1<<64-1))
	return wide{m.Rsh(m, 64).Uint64(), lo.Uint64()}, true
}
