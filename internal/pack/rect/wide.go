package rect

import "math/bits"

// wide is an unsigned 128-bit sum of products. Sides are below 2^60, so sums of areas stay below 2^120.
type wide struct{ hi, lo uint64 }

// addMul adds a*b; both must not be negative.
func (s *wide) addMul(a, b int64) {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	var c uint64
	s.lo, c = bits.Add64(s.lo, lo, 0)
	s.hi, _ = bits.Add64(s.hi, hi, c)
}

func (s *wide) add(t wide) {
	var c uint64
	s.lo, c = bits.Add64(s.lo, t.lo, 0)
	s.hi, _ = bits.Add64(s.hi, t.hi, c)
}

func (s wide) less(t wide) bool { return s.hi < t.hi || s.hi == t.hi && s.lo < t.lo }

// ceilDiv is s/d rounded up, at most 2^62; d must be positive.
func (s wide) ceilDiv(d int64) int64 {
	const most = int64(1) << 62
	if s.hi >= uint64(d) {
		return most
	}
	q, r := bits.Div64(s.hi, s.lo, uint64(d))
	if r > 0 {
		q++
	}
	if q > uint64(most) {
		return most
	}
	return int64(q)
}
