package bound

import (
	"math"
	"math/big"

	"github.com/coverwright/coverwright/internal/geom"
)

// byArea is the area of all pieces over the width:
//
//	L >= sum of areas / W
//
// Proof: the pieces do not overlap and lie on a rectangle of W by L.
func (s *strip) byArea() Claim {
	var sum geom.Int128
	for i := range s.items {
		it := &s.items[i]
		least := it.options[0].shape.area2
		for _, o := range it.options {
			if o.shape.area2.Cmp(least) < 0 {
				least = o.shape.area2
			}
		}
		if it.any != nil {
			least = it.any.area2
		}
		for range it.count {
			sum = sum.Add(least)
		}
	}
	return Claim{Length: divide(sum, 2*s.job.Width, s.job.Whole), Method: ByArea, Piece: -1}
}

// byLongest is the greatest end of a single piece:
//
//	L >= h                             free along the roll
//	L >= h + (start of the first place) bound by the pattern, with a known start
//
// least over the ways in which it may lie and which fit the width. Proof: the
// piece starts at 0 or above, and if bound at one of the places that a repeat
// apart follow the first one at or above 0.
func (s *strip) byLongest() Claim {
	best := Claim{Method: ByLongest, Piece: -1}
	for i := range s.items {
		it := &s.items[i]
		end := int64(math.MaxInt64)
		for _, o := range it.options {
			b := o.shape.box
			e := b.Height()
			if it.lined && !s.job.Repeat.FreeStart {
				e += mod(b.Min.Y+o.base+s.start, s.job.Repeat.Along)
			}
			end = min(end, e)
		}
		if it.any != nil {
			end = leastWidth(it.any.hull)
		}
		if end > best.Length || best.Piece < 0 {
			best.Length, best.Piece = end, it.piece
		}
	}
	return best
}

// leastWidth is the least distance of two parallel lines that hold a convex
// ring, anticlockwise, between them, rounded down. One of the lines lies along
// a side, and the other one through the corner farthest from it, which moves on
// round the ring with the sides. Exact.
func leastWidth(hull geom.Ring) int64 {
	least := big.NewInt(math.MaxInt64)
	far := 1
	for i, a := range hull {
		d := hull[(i+1)%len(hull)].Sub(a)
		height := func(k int) geom.Int128 { return geom.Cross(d, hull[k%len(hull)].Sub(a)) }
		far = max(far, i+1)
		for height(far+1).Cmp(height(far)) > 0 {
			far++
		}
		// floor of height / |d|, as the root of the floor of its square
		h := wide(height(far))
		h.Mul(h, h)
		h.Div(h, wide(geom.Dot(d, d))).Sqrt(h)
		if h.Cmp(least) < 0 {
			least = h
		}
	}
	return least.Int64()
}

// wide widens a number that is not negative.
func wide(a geom.Int128) *big.Int {
	v := new(big.Int).SetUint64(uint64(a.Hi))
	return v.Lsh(v, 64).Add(v, new(big.Int).SetUint64(a.Lo))
}

// margin is taken off every figure that floating point has a part in.
const margin = 1e-9
