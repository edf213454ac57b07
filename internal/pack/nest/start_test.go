package nest

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A search that begins with a layout without waste keeps it, which it would not find so soon; with a start that is not one
// it begins as without.
func TestStripStart(t *testing.T) {
	const side = 1 << 14
	job := StripJob{Width: side, Options: Options{Effort: 1, Seed: 5}}
	var exact []Placement
	for i, r := range cut(rand.New(rand.NewPCG(7, 1)), rect(side, side), 12) {
		job.Pieces = append(job.Pieces, Piece{Ring: r})
		exact = append(exact, Placement{Piece: i})
	}
	plain, err := Strip(context.Background(), job)
	require.NoError(t, err)
	require.Greater(t, plain.Length, int64(side))
	job.Start = exact
	from, err := Strip(context.Background(), job)
	require.NoError(t, err)
	assert.Equal(t, int64(side), from.Length)
	moved := append([]Placement(nil), exact...)
	moved[3].At.X += 9
	wrong := append([]Placement(nil), exact...)
	wrong[3].Angle = 90 * Degree
	for name, start := range map[string][]Placement{"a piece left out": exact[1:], "pieces overlap": moved, "a turn that is not allowed": wrong} {
		job.Start = start
		again, err := Strip(context.Background(), job)
		require.NoError(t, err)
		assert.Equal(t, plain, again, name)
	}
}
