package geom

import "math/bits"

// Int128 is a signed 128-bit integer in two's complement. It holds every
// product of two int64 and sums of such products of coordinates in range.
type Int128 struct {
	Hi int64
	Lo uint64
}

// Mul64 returns the exact product of a and b.
func Mul64(a, b int64) Int128 {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	// The unsigned product counts a negative factor 2^64 too high.
	h := int64(hi)
	if a < 0 {
		h -= b
	}
	if b < 0 {
		h -= a
	}
	return Int128{h, lo}
}

// FromInt64 widens v.
func FromInt64(v int64) Int128 { return Int128{v >> 63, uint64(v)} }

// Add returns a + b; it wraps at 2^127, far outside the package's range.
func (a Int128) Add(b Int128) Int128 {
	lo, c := bits.Add64(a.Lo, b.Lo, 0)
	hi, _ := bits.Add64(uint64(a.Hi), uint64(b.Hi), c)
	return Int128{int64(hi), lo}
}

// Sub returns a - b.
func (a Int128) Sub(b Int128) Int128 {
	lo, c := bits.Sub64(a.Lo, b.Lo, 0)
	hi, _ := bits.Sub64(uint64(a.Hi), uint64(b.Hi), c)
	return Int128{int64(hi), lo}
}

// Neg returns -a.
func (a Int128) Neg() Int128 { return Int128{}.Sub(a) }

// Abs returns the absolute value of a.
func (a Int128) Abs() Int128 {
	if a.Hi < 0 {
		return a.Neg()
	}
	return a
}

// Sign returns -1, 0 or 1.
func (a Int128) Sign() int {
	switch {
	case a.Hi < 0:
		return -1
	case a.Hi == 0 && a.Lo == 0:
		return 0
	}
	return 1
}

// Cmp compares a with b: -1, 0 or 1.
func (a Int128) Cmp(b Int128) int {
	switch {
	case a.Hi < b.Hi:
		return -1
	case a.Hi > b.Hi:
		return 1
	case a.Lo < b.Lo:
		return -1
	case a.Lo > b.Lo:
		return 1
	}
	return 0
}

// IsInt64 reports whether a fits an int64.
func (a Int128) IsInt64() bool { return a.Hi == int64(a.Lo)>>63 }

// Int64 returns the low 64 bits as an int64; see IsInt64.
func (a Int128) Int64() int64 { return int64(a.Lo) }

// Float64 returns a as a float64, with a relative error under 2^-52.
func (a Int128) Float64() float64 {
	if a.Hi < 0 {
		return -a.Neg().Float64()
	}
	return float64(float64(uint64(a.Hi))*(1<<64)) + float64(a.Lo)
}

// mulInt64 returns a*k. The caller knows that the product fits.
func (a Int128) mulInt64(k int64) Int128 {
	neg := false
	if a.Hi < 0 {
		a, neg = a.Neg(), true
	}
	u := uint64(k)
	if k < 0 {
		u, neg = -u, !neg
	}
	hi, lo := bits.Mul64(a.Lo, u)
	r := Int128{int64(hi + uint64(a.Hi)*u), lo}
	if neg {
		return r.Neg()
	}
	return r
}
