package geom

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawRing draws any closed polygon, crossing itself or not.
func drawRing(t *rapid.T, size int64, maxPoints int, label string) Ring {
	n := rapid.IntRange(3, maxPoints).Draw(t, label+" points")
	r := make(Ring, n)
	for i := range r {
		r[i] = Point{
			rapid.Int64Range(-size, size).Draw(t, label+" x"),
			rapid.Int64Range(-size, size).Draw(t, label+" y"),
		}
	}
	return r
}

// winding is the plain winding number of a ring about p, which must not lie on it.
func winding(r Ring, p Point) int32 {
	var w int32
	for i, a := range r {
		b := r[(i+1)%len(r)]
		switch {
		case a.Y <= p.Y && b.Y > p.Y && Orient(a, b, p) > 0:
			w++
		case b.Y <= p.Y && a.Y > p.Y && Orient(a, b, p) < 0:
			w--
		}
	}
	return w
}

// nearRing reports whether p lies within d of an edge of r.
func nearRing(r Ring, p Point, d float64) bool {
	for i, a := range r {
		if segmentDistance(p, a, r[(i+1)%len(r)]) <= d {
			return true
		}
	}
	return false
}

func allRings(ps []Polygon) []Ring {
	var rs []Ring
	for _, p := range ps {
		rs = append(rs, p.Outer)
		rs = append(rs, p.Holes...)
	}
	return rs
}

// requireValid checks what Polygon promises.
func requireValid(t require.TestingT, ps []Polygon) {
	for _, p := range ps {
		require.Equal(t, 1, p.Outer.Orientation())
		for _, h := range p.Holes {
			require.Equal(t, -1, h.Orientation())
			for _, q := range h {
				require.NotEqual(t, Outside, p.Outer.Locate(q))
			}
		}
	}
	rs := allRings(ps)
	for i, r := range rs {
		c, bad, err := r.FindSelfIntersection()
		require.NoError(t, err)
		require.False(t, bad, "%v in %v", c, r)
		for _, s := range rs[i+1:] {
			for j, a := range r {
				b := r[(j+1)%len(r)]
				for k, c := range s {
					d := s[(k+1)%len(s)]
					_, cross := properCrossing(a, b, c, d)
					require.False(t, cross, "rings cross")
				}
			}
		}
	}
}

func TestResolveKeepsWindingNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.SampledFrom([]int64{3, 10, 100, 1000, 1e9, MaxCoord}).Draw(t, "size")
		var rings []Ring
		for range rapid.IntRange(1, 3).Draw(t, "rings") {
			rings = append(rings, drawRing(t, size, 12, "ring"))
		}
		rule := Rule(rapid.IntRange(0, 3).Draw(t, "rule"))
		ps, err := Resolve(rings, rule)
		require.NoError(t, err)
		requireValid(t, ps)
		// Away from the edges, which move by less than a nanometre, the
		// result covers a point exactly when the rule says so.
		for range 20 {
			p := Point{
				rapid.Int64Range(-size, size).Draw(t, "px"),
				rapid.Int64Range(-size, size).Draw(t, "py"),
			}
			var want int32
			near := false
			for _, r := range rings {
				near = near || nearRing(r, p, 1)
				want += winding(r, p)
			}
			if near {
				continue
			}
			var got int32
			for _, r := range allRings(ps) {
				got += winding(r, p)
			}
			require.Equal(t, rule.inside(want), got == 1, "point %v winding %d", p, want)
			require.Contains(t, []int32{0, 1}, got)
		}
	})
}

func TestResolveSmallGrid(t *testing.T) {
	// Tiny coordinates make nearly every step a special case.
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.Int64Range(1, 4).Draw(t, "size")
		rings := []Ring{drawRing(t, size, 20, "a"), drawRing(t, size, 20, "b")}
		ps, err := Resolve(rings, Rule(rapid.IntRange(0, 3).Draw(t, "rule")))
		require.NoError(t, err)
		requireValid(t, ps)
		again, err := Resolve(allRings(ps), NonZero)
		require.NoError(t, err)
		requireValid(t, again)
		// A second rounding may move an edge again, but by less than a
		// nanometre: points two away from all edges stay where they were.
		for range 5 {
			p := Point{rapid.Int64Range(-size, size).Draw(t, "px"), rapid.Int64Range(-size, size).Draw(t, "py")}
			var was, is int32
			near := false
			for _, r := range allRings(ps) {
				near = near || nearRing(r, p, 1)
				was += winding(r, p)
			}
			for _, r := range allRings(again) {
				is += winding(r, p)
			}
			require.True(t, near || was == is)
		}
	})
}

func big128(v Int128) *big.Int {
	r := new(big.Int).Lsh(big.NewInt(v.Hi), 64)
	return r.Add(r, new(big.Int).SetUint64(v.Lo))
}

func TestInt128(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Int64().Draw(t, "a"), rapid.Int64().Draw(t, "b")
		c, d := rapid.Int64Range(-1<<40, 1<<40).Draw(t, "c"), rapid.Int64Range(-1<<40, 1<<40).Draw(t, "d")
		ab, cd := Mul64(a, b), Mul64(c, d)
		wab, wcd := new(big.Int).Mul(big.NewInt(a), big.NewInt(b)), new(big.Int).Mul(big.NewInt(c), big.NewInt(d))
		require.Zero(t, big128(ab).Cmp(wab))
		require.Zero(t, big128(cd.Sub(ab)).Cmp(new(big.Int).Sub(wcd, wab)))
		require.Zero(t, big128(cd.Add(ab)).Cmp(new(big.Int).Add(wcd, wab)))
		require.Equal(t, wab.Cmp(wcd), ab.Cmp(cd))
		require.Equal(t, wab.Sign(), ab.Sign())
		k := rapid.Int64Range(-1<<40, 1<<40).Draw(t, "k")
		require.Zero(t, big128(cd.mulInt64(k)).Cmp(new(big.Int).Mul(wcd, big.NewInt(k))))
		f, _ := new(big.Float).SetInt(wab).Float64()
		require.InEpsilon(t, 1+math.Abs(f), 1+math.Abs(ab.Float64()), 1e-15)
	})
}

func TestMulDivRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Int64Range(-2*MaxCoord, 2*MaxCoord).Draw(t, "k")
		den := rapid.Int64Range(1, 1<<40).Draw(t, "den")
		num := rapid.Int64Range(0, den).Draw(t, "num")
		if rapid.Bool().Draw(t, "tie") {
			den = 2
			num = rapid.Int64Range(0, 2).Draw(t, "half")
		}
		// floor((2 k num + den) / (2 den)) in big integers
		n := new(big.Int).Mul(big.NewInt(2*k), big.NewInt(num))
		n.Add(n, big.NewInt(den))
		q := new(big.Int).Div(n, big.NewInt(2*den)) // Euclidean is floor for a positive divisor
		require.Equal(t, q.Int64(), mulDivRound(k, FromInt64(num), FromInt64(den)))
	})
}
