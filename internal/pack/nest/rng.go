package nest

import "math/bits"

// rng is a small generator (split-mix) owned by one worker. It fills two
// cache lines of its own: generators side by side in one line would make the
// workers wait for each other at every draw.
type rng struct {
	s uint64
	_ [15]uint64
}

func newRNG(seed, stream uint64) *rng {
	r := &rng{s: seed*0x9e3779b97f4a7c15 + stream*0xd1342543de82ef95 + 0x632be59bd9b4e019}
	r.next()
	r.next()
	return r
}

func (r *rng) next() uint64 {
	r.s += 0x9e3779b97f4a7c15
	z := r.s
	z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9
	z = (z ^ (z >> 27)) * 0x94d049bb133111eb
	return z ^ (z >> 31)
}

// intn returns 0 .. n-1; n <= 0 gives 0.
func (r *rng) intn(n int) int {
	if n <= 1 {
		return 0
	}
	hi, _ := bits.Mul64(r.next(), uint64(n))
	return int(hi)
}

// between returns lo .. hi inclusive; an empty range gives lo.
func (r *rng) between(lo, hi int64) int64 {
	if hi <= lo {
		return lo
	}
	h, _ := bits.Mul64(r.next(), uint64(hi-lo)+1)
	return lo + int64(h)
}

// float returns a number in [0, 1).
func (r *rng) float() float64 { return float64(r.next()>>11) / (1 << 53) }

func (r *rng) shuffle(v []int) {
	for i := len(v) - 1; i > 0; i-- {
		j := r.intn(i + 1)
		v[i], v[j] = v[j], v[i]
	}
}
