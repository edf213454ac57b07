package unit

import (
	"math"
	"math/bits"
)

// wide is a whole number of 128 bits, wide enough for the product of any two
// int64: the exact types multiply first and round once, without the heap.
type wide struct{ hi, lo uint64 }

func product(a, b uint64) wide {
	hi, lo := bits.Mul64(a, b)
	return wide{hi, lo}
}

func (w wide) bits() int {
	if w.hi != 0 {
		return 64 + bits.Len64(w.hi)
	}
	return bits.Len64(w.lo)
}

// up shifts n < 128 bits to the left; the caller knows that nothing falls out.
func (w wide) up(n int) wide {
	if n >= 64 {
		return wide{w.lo << (n - 64), 0}
	}
	return wide{w.hi<<n | w.lo>>(64-n), w.lo << n}
}

func (w wide) div(d uint64) (q wide, rem uint64) {
	rem = w.hi
	if rem >= d {
		q.hi, rem = w.hi/d, w.hi%d
	}
	q.lo, rem = bits.Div64(rem, w.lo, d)
	return q, rem
}

// over gives w / (d·e), rounded: the size of a number whose sign is neg. The
// product d·e is above zero and below 2^127. It is false beyond 64 bits.
func (w wide) over(d, e uint64, neg bool, r Rounding) (q uint64, ok bool) {
	n, first := w.div(d)
	var second uint64
	if e != 1 {
		n, second = n.div(e)
	}
	if n.hi != 0 {
		return 0, false
	}
	rest := product(second, d)
	var carry uint64
	rest.lo, carry = bits.Add64(rest.lo, first, 0)
	rest.hi += carry
	away := rest != wide{}
	switch r {
	case Up:
		away = away && !neg
	case Down:
		away = away && neg
	default:
		twice, all := rest.up(1), product(d, e)
		away = twice.hi > all.hi || twice.hi == all.hi && twice.lo >= all.lo
	}
	if away {
		n.lo++
		return n.lo, n.lo != 0 // 2^64 does not fit
	}
	return n.lo, true
}

// scaled gives w·2^exp / den to the nearest whole number, for w below 2^124
// and den from 1 to 2^54. It is false beyond 64 bits.
func (w wide) scaled(exp int, den uint64) (q uint64, ok bool) {
	switch {
	case w == wide{}:
		return 0, true
	case exp >= 0 && w.bits()+exp > 128:
		return 0, false
	case exp >= 0:
		return w.up(exp).over(den, 1, false, Nearest)
	case bits.Len64(den)-exp > 126: // less than a half
		return 0, true
	}
	low := min(-exp, 63)
	return w.over(den<<(-exp-low), 1<<low, false, Nearest)
}

// float gives w / d to the nearest float64, a tie to the even one.
func (w wide) float(d uint64) float64 {
	if w == (wide{}) {
		return 0
	}
	// Both are shifted up until the quotient has just 64 bits; the last one
	// then also stands for all that is cut off.
	n, low := 128-w.bits(), bits.LeadingZeros64(d)
	w, d = w.up(n), d<<low
	exp, lost := low-n, uint64(0)
	if w.hi >= d {
		lost = w.lo & 1
		w = wide{w.hi >> 1, w.hi<<63 | w.lo>>1}
		exp++
	}
	q, rem := bits.Div64(w.hi, w.lo, d)
	if rem|lost != 0 {
		q |= 1
	}
	return math.Ldexp(float64(q), exp)
}

// binary takes a finite x apart: |x| is m·2^exp, m below 2^53.
func binary(x float64) (m uint64, exp int) {
	f, exp := math.Frexp(math.Abs(x))
	return uint64(f * (1 << 53)), exp - 53
}

// powersOfTen are those that fit 64 bits.
var powersOfTen = func() (p [20]uint64) {
	p[0] = 1
	for i := 1; i < len(p); i++ {
		p[i] = 10 * p[i-1]
	}
	return p
}()
