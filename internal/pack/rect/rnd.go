package rect

// rnd is a small seeded generator (SplitMix64): the same seed gives the same numbers on every machine.
type rnd struct{ x uint64 }

func (r *rnd) next() uint64 {
	r.x += 0x9e3779b97f4a7c15
	z := r.x
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// intn returns a number from 0 to n-1; n must be positive.
func (r *rnd) intn(n int) int {
	return int((r.next() >> 32) * uint64(n) >> 32)
}
