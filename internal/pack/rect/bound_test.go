package rect

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/dev/dissect"
)

// The defining property: sizes that fit side by side still fit after the mapping.
func TestDualFeasible(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Int64Range(1, 60).Draw(t, "c")
		var xs []int64
		for left := c; left > 0 && len(xs) < 12; {
			x := rapid.Int64Range(1, left).Draw(t, "x")
			xs = append(xs, x)
			left -= x
		}
		for _, f := range dffs(c, xs, 200) {
			var sum int64
			for _, x := range xs {
				sum += f.at(x)
			}
			require.LessOrEqual(t, sum, f.top(), "%+v %v", f, xs)
		}
	})
}

// On a dissection every bound must stay at or below the known optimum, also with turning.
func TestBoundBelowOptimum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Int64Range(10, 300).Draw(t, "w"), rapid.Int64Range(10, 300).Draw(t, "h")
		rs, err := dissect.Cut(w, h, rapid.IntRange(1, 20).Draw(t, "n"), dissect.Style(rapid.IntRange(0, 2).Draw(t, "style")), rapid.Uint64().Draw(t, "seed"))
		if err != nil {
			return
		}
		j := &Job{Width: w}
		for _, r := range rs {
			j.Pieces = append(j.Pieces, Piece{W: r.W, H: r.H, Count: 1, Turns: rapid.SampledFrom([]Turns{Upright, AnyTurn}).Draw(t, "turns")})
		}
		require.Equal(t, h, j.LowerBound())
		// shrunken pieces fit as well, so the optimum is at most h
		for i := range j.Pieces {
			p := &j.Pieces[i]
			p.W, p.H = max(1, p.W-rapid.Int64Range(0, 3).Draw(t, "dw")), max(1, p.H-rapid.Int64Range(0, 3).Draw(t, "dh"))
		}
		require.LessOrEqual(t, j.LowerBound(), h)
	})
}

func TestBoundBeatsArea(t *testing.T) {
	for _, c := range []struct {
		name        string
		job         Job
		area, bound int64
	}{
		{"wide pieces stack, one fits beside none", Job{Width: 250, Pieces: pieces(beasley...)}, 655, 1016},
		{"three to a row leave room", Job{Width: 100, Pieces: []Piece{{W: 30, H: 10, Count: 9}}}, 27, 30},
		{"two to a row", Job{Width: 54, Pieces: []Piece{{W: 24, H: 24, Count: 6}}}, 64, 72},
		{"tall pieces side by side", Job{Width: 10, Pieces: []Piece{{W: 4, H: 10, Count: 3}}}, 12, 20},
		{"rounded to the repeat", Job{Width: 54, Repeat: Repeat{PeriodY: 27}, Pieces: []Piece{{W: 27, H: 30, Count: 6, Match: Y}}}, 90, 138},
		{"columns of the repeat", Job{Width: 54, Repeat: Repeat{PeriodX: 27}, Pieces: []Piece{{W: 28, H: 10, Count: 4, Match: X}}}, 21, 40},
		{"a band of flaws", Job{Width: 10, Flaws: []Flaw{{0, 3, 10, 2}}, Pieces: []Piece{{W: 10, H: 3, Count: 2}}}, 6, 8},
		{"gaps between pieces", Job{Width: 21, Gap: 1, Pieces: []Piece{{W: 10, H: 10, Count: 4}}}, 20, 21},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.NoError(t, c.job.Validate())
			var sum wide
			for _, p := range c.job.Pieces {
				for range p.Count {
					sum.addMul(p.W, p.H)
				}
			}
			assert.Equal(t, c.area, sum.ceilDiv(c.job.Width), "area")
			assert.GreaterOrEqual(t, c.job.LowerBound(), c.bound)
			p := solve(t, &c.job, 0.02)
			assert.Equal(t, max(c.bound, p.Length), p.Length)
		})
	}
}

func TestWide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(what string) int64 { return rapid.Int64Range(0, 1<<60-1).Draw(t, what) }
		var s wide
		want := new(big.Int)
		for range rapid.IntRange(1, 8).Draw(t, "terms") {
			a, b := n("a"), n("b")
			s.addMul(a, b)
			want.Add(want, new(big.Int).Mul(big.NewInt(a), big.NewInt(b)))
		}
		d := n("d") + 1
		q, r := new(big.Int).QuoRem(want, big.NewInt(d), new(big.Int))
		if r.Sign() > 0 {
			q.Add(q, big.NewInt(1))
		}
		if most := big.NewInt(1 << 62); q.Cmp(most) > 0 {
			q = most
		}
		require.Equal(t, q.Int64(), s.ceilDiv(d))
	})
}
