package nest

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// On a strip, too, two pieces change places only where both together overlap less, and
// otherwise lie as before.
func TestExchangeOnAStrip(t *testing.T) {
	pieces, err := checkedPieces(garment(rand.New(rand.NewPCG(4, 4)), 12))
	require.NoError(t, err)
	cat, simple := newCatalogue(context.Background(), pieces, 0)
	require.True(t, simple)
	s := newSep(cat, pieces, nil, 3000, 5000, newRNG(1, 1))
	for i := range s.n {
		p, ok := s.anywhere(i)
		for !ok { // against a piece that does not lie yet
			p, ok = s.anywhere(i)
		}
		s.move(i, p)
	}
	exchanged := 0
	for k := range 300 {
		var before, after snapshot
		s.save(&before)
		exchange(s, k%s.n)
		s.save(&after)
		moved := []int{}
		for i := range s.n {
			if before.o[i] != after.o[i] || before.x[i] != after.x[i] || before.y[i] != after.y[i] {
				moved = append(moved, i)
			}
		}
		require.LessOrEqual(t, len(moved), 2)
		if len(moved) < 2 {
			continue
		}
		exchanged++
		loss := func(b *snapshot) (sum float64) {
			s.load(b)
			for _, i := range moved {
				sum += s.eval(i, s.lies(i), math.MaxFloat64)
			}
			return sum
		}
		require.Less(t, loss(&after), loss(&before))
		s.load(&after)
	}
	assert.Positive(t, exchanged)
}

// A relocation never leaves a piece with more overlap, and says whether some is left.
func TestRelocate(t *testing.T) {
	pieces, err := checkedPieces(garment(rand.New(rand.NewPCG(5, 4)), 12))
	require.NoError(t, err)
	cat, simple := newCatalogue(context.Background(), pieces, 12)
	require.True(t, simple)
	s := newSep(cat, pieces, nil, 3000, 4000, newRNG(1, 2))
	for i := range s.n {
		p, ok := s.anywhere(i)
		for !ok {
			p, ok = s.anywhere(i)
		}
		s.move(i, p)
	}
	for k := range 100 {
		i := k % s.n
		before := s.eval(i, s.lies(i), math.MaxFloat64)
		left := relocate(s, i, exploreSize)
		now := s.eval(i, s.lies(i), math.MaxFloat64)
		require.LessOrEqual(t, now, before)
		require.Equal(t, now > 0, left)
	}
}
