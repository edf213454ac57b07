package bound

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/geom"
)

// allWeighings lists every function of a width.
func allWeighings(c int64) []Weighing {
	out := []Weighing{{Plain, 0, c}}
	for k := int64(1); k <= 10; k++ {
		out = append(out, Weighing{Shares, k, c})
	}
	for e := int64(1); e <= c/2; e++ {
		out = append(out, Weighing{Big, e, c}, Weighing{Few, e, c}, Weighing{Steps, e, c})
	}
	return out
}

// Every function of every width to 40 is dual feasible, by full search: the most
// weight that any sizes within the width have is that of the width.
func TestWeighingsAreDualFeasible(t *testing.T) {
	n := 0
	for c := int64(1); c <= 40; c++ {
		for _, f := range allWeighings(c) {
			n++
			best := make([]int64, c+1) // most weight within a size
			for s := int64(1); s <= c; s++ {
				require.GreaterOrEqual(t, f.at(s), f.at(s-1), "%+v rises at %d", f, s)
				for x := int64(1); x <= s; x++ {
					best[s] = max(best[s], best[s-x]+f.at(x))
				}
				if f.Kind != Few {
					require.LessOrEqual(t, best[s], f.at(s), "%+v is superadditive at %d", f, s)
				}
			}
			require.Equal(t, f.top(), f.at(c), "%+v", f)
			require.Equal(t, f.top(), best[c], "%+v", f)
			assert.NotEqual(t, "unknown", f.String())
		}
	}
	assert.Equal(t, 1640, n)
}

// The staircase of a function is the function at every whole size.
func TestStairsAreTheFunction(t *testing.T) {
	for c := int64(1); c <= 40; c++ {
		for _, f := range allWeighings(c) {
			if f.Kind == Plain || f.Kind == Big { // they slope
				continue
			}
			p, next, v := f.stairs(), 0, int64(0)
			for x := int64(0); x <= c; x++ {
				if next < len(p.t) && p.t[next] == x {
					v, next = p.v[next], next+1
				}
				require.Equal(t, f.at(x), v, "%+v at %d", f, x)
			}
		}
	}
}

// The integral over a chord that runs straight is at most the true one and
// nearly as much: compared with f at the middles of many pieces of the height.
func TestIntegralOfAWeighing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Int64Range(1, 300).Draw(t, "c") * 1000
		f := rapid.SampledFrom(allWeighings(40)).Draw(t, "f")
		f.Of = c
		if f.Kind != Shares {
			f.K = f.K * c / 40
		}
		if f.Kind != Shares && f.Kind != Plain && f.K == 0 {
			t.Skip("no threshold")
		}
		a, b := rapid.Int64Range(0, c).Draw(t, "a"), rapid.Int64Range(0, c).Draw(t, "b")
		const h, parts = 1 << 20, 2000
		p := f.stairs()
		got := p.over(h, a, b).Float64()
		low, high := 0.0, 0.0
		for i := range int64(parts) {
			x, y := a+(b-a)*i/parts, a+(b-a)*(i+1)/parts
			low += float64(f.at(min(x, y))) * h / parts
			high += float64(f.at(min(c, max(x, y)+1))) * h / parts
		}
		assert.LessOrEqual(t, got, high*(1+1e-9))
		steps := float64(f.top()) * float64(len(p.t)+3)          // rounding down at each step
		unit := float64(f.top()) * h / float64(max(1, a-b, b-a)) // thresholds are whole
		assert.GreaterOrEqual(t, got, low*(1-1e-9)-steps-unit)
	})
}

// Slabs hold the outline: by length, the chords add up to the area.
func TestSlabsHoldTheArea(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for range 300 {
		ring := Star(r, 3+r.IntN(40), 2000)
		s := newShape(ring, 0)
		p := Weighing{Plain, 0, 4000 * sub}.stairs()
		got := p.outline(s).Float64() / sub / sub * 2
		want := ring.TwiceArea().Float64()
		require.LessOrEqual(t, got, want)
		require.Greater(t, got, want-100*float64(len(ring)))
	}
}

// An outline of more heights than are kept loses little, and never gains.
func TestThinnedOutline(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	ring := Star(r, 3000, 1_000_000)
	for i, q := range ring { // nearly a disc
		l := geom.Hypot(float64(q.X), float64(q.Y))
		ring[i] = geom.Point{X: int64(float64(q.X) / l * 1e6), Y: int64(float64(q.Y) / l * 1e6)}
	}
	s := newShape(ring, 0)
	require.Less(t, len(s.level), mostLevels+2)
	p := Weighing{Plain, 0, 4_000_000 * sub}.stairs()
	got := p.outline(s).Float64() / sub / sub * 2
	assert.Less(t, got, ring.TwiceArea().Float64())
	assert.Greater(t, got, 0.99*ring.TwiceArea().Float64())
	comb := geom.Ring{{X: 0, Y: 0}}
	for i := range int64(5000) {
		comb = append(comb, geom.Point{X: 2 * i, Y: 10_000 + i}, geom.Point{X: 2*i + 1, Y: 1 + i%7})
	}
	comb = append(comb, geom.Point{X: 10_000, Y: 0})
	s = newShape(comb, 0)
	assert.Empty(t, s.slabs, "given up: area and box are left")
	assert.Positive(t, s.area2.Sign())
}

// Star draws an outline that is seen whole from the origin, up to size away.
func Star(r *rand.Rand, corners int, size int64) geom.Ring {
	for {
		far := func() int64 { return 1 + r.Int64N(size) }
		out := geom.Ring{{X: far()}, {Y: far()}, {X: -far()}, {Y: -far()}} // no side passes behind the origin
		for len(out) < corners {
			out = append(out, geom.Point{X: r.Int64N(2*size+1) - size, Y: r.Int64N(2*size+1) - size})
		}
		out = around(out)
		if out.Orientation() != 0 {
			return out
		}
	}
}

// around sorts points anticlockwise around the origin and keeps one of each
// direction.
func around(ps geom.Ring) geom.Ring {
	half := func(p geom.Point) int {
		if p.Y > 0 || p.Y == 0 && p.X > 0 {
			return 0
		}
		return 1
	}
	out := geom.Ring{}
	for _, p := range ps {
		if p == (geom.Point{}) {
			continue
		}
		i := 0
		for i < len(out) && (half(out[i]) < half(p) || half(out[i]) == half(p) && geom.Cross(out[i], p).Sign() > 0) {
			i++
		}
		if i < len(out) && half(out[i]) == half(p) && geom.Cross(out[i], p).Sign() == 0 {
			continue
		}
		out = append(out[:i], append(geom.Ring{p}, out[i:]...)...)
	}
	return out
}

// Thresholds stand at the sizes and at what they leave of the width, where they
// are at most half of it, at the half, a third and a quarter; each once, with
// the three families, after the shares. For 30 and 60 of 100: 30; 40 and 41; 50,
// 33 and 34, 26. Where they are more than asked for, some are kept evenly.
func TestWeighingsAtTheSizes(t *testing.T) {
	var want []Weighing
	for k := int64(1); k <= 10; k++ {
		want = append(want, Weighing{Shares, k, 100})
	}
	want = append([]Weighing{{Plain, 0, 100}}, want...)
	for _, e := range []int64{26, 30, 33, 34, 40, 41, 50} {
		want = append(want, Weighing{Big, e, 100}, Weighing{Few, e, 100}, Weighing{Steps, e, 100})
	}
	assert.Equal(t, want, weighings(100, []int64{30, 60}, 200))
	assert.Len(t, weighings(100, []int64{30, 60}, 11+3*5), 11+3*5)
	assert.Len(t, weighings(100, []int64{30, 60}, 1), 11+3*4, "four at least")
	// Sizes as wide as the goods or a 64th of them, and a unit less.
	wide := weighings(6400, []int64{98, 100, 6400}, 200)
	assert.NotContains(t, wide, Weighing{Few, 98, 6400}, "more than 64 steps")
	assert.Contains(t, wide, Weighing{Few, 100, 6400})
	assert.Equal(t, []Weighing{{Plain, 0, 1}, {Shares, 1, 1}}, weighings(1, []int64{1}, 50))
	assert.Equal(t, []Weighing{{Plain, 0, 2}, {Shares, 1, 2}, {Shares, 2, 2}, {Big, 1, 2}, {Few, 1, 2}, {Steps, 1, 2}}, weighings(2, []int64{1, 2}, 50))
}

// Chords that taper count with the weight they have at every height. Two pieces
// 100 high on a width of 100: over half of it all the way up, no two lie side
// by side; from 41 to 61 they are over half of it from a height of 45 on; from
// 34 up to 50 two fit, and three never.
func TestTaperingChords(t *testing.T) {
	trapezoid := func(low, high int64) geom.Ring {
		return geom.Ring{{X: 0, Y: 0}, {X: low, Y: 0}, {X: high, Y: 100}, {X: 0, Y: 100}}
	}
	for _, c := range []struct {
		low, high, want int64
	}{
		{51, 70, 200}, {70, 51, 200}, {51, 51, 200},
		{41, 61, 110},
		{34, 50, 100},
	} {
		ring := trapezoid(c.low, c.high)
		j := StripJob{Width: 100, Pieces: []Piece{{Count: 2, Ways: []Way{{Ring: ring}}}}}
		s, err := newStrip(&j)
		require.NoError(t, err)
		claim, _ := s.byChords(t.Context(), s.byArea().Length)
		assert.GreaterOrEqual(t, claim.Length, c.want-1, "%d to %d", c.low, c.high)
		assert.LessOrEqual(t, claim.Length, c.want, "%d to %d", c.low, c.high)
	}
}
