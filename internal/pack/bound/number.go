package bound

import (
	"math/bits"

	"github.com/coverwright/coverwright/internal/geom"
)

// mulDiv returns the quotient and the rest of a b / c for a, b >= 0, c > 0;
// the quotient must fit 64 bits.
func mulDiv(a, b, c int64) (q, r int64) {
	if a|b < 1<<31 {
		p := a * b
		return p / c, p % c
	}
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	u, v := bits.Div64(hi, lo, uint64(c))
	return int64(u), int64(v)
}

// between returns v0 + (v1-v0) num/den rounded down, for 0 <= num <= den, and
// the same rounded up.
func between(v0, v1, num, den int64) (down, up int64) {
	if v1 >= v0 {
		q, r := mulDiv(v1-v0, num, den)
		if r == 0 {
			return v0 + q, v0 + q
		}
		return v0 + q, v0 + q + 1
	}
	q, r := mulDiv(v0-v1, num, den)
	if r == 0 {
		return v0 - q, v0 - q
	}
	return v0 - q - 1, v0 - q
}

// divide returns a / d for a >= 0 and d > 0, rounded down or up. It keeps to
// the largest int64 where the quotient is larger.
func divide(a geom.Int128, d int64, up bool) int64 {
	if uint64(a.Hi) >= uint64(d) {
		return 1<<63 - 1
	}
	q, r := bits.Div64(uint64(a.Hi), a.Lo, uint64(d))
	if up && r > 0 {
		q++
	}
	return int64(min(q, 1<<63-1))
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

func ceilDiv(a, b int64) int64 { return -floorDiv(-a, b) }

func mod(a, b int64) int64 { return a - floorDiv(a, b)*b }
