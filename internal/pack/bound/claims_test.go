package bound_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/bound"
)

// All that is said of jobs that can be worked by hand, in quarters of an inch:
// every method with its length, the best first, and where its line lies.
func TestClaimsByHand(t *testing.T) {
	backs := func(n int) bound.Piece { return panel(n, 22, 24, 11, 12) }
	gap := func(w int64, n int) bound.StripJob {
		return bound.StripJob{Width: w, Gap: 1, Repeat: bound.Repeat{Along: 7}, Pieces: []bound.Piece{{Count: n, Match: bound.Y, Ways: []bound.Way{{Ring: box(0, 0, 5, 4)}}}}}
	}
	line := func(length int64, m bound.Method, phase, lines, line int64) bound.Claim {
		return bound.Claim{Length: length, Method: m, Piece: -1, Phase: phase, Lines: lines, Line: line}
	}
	says := func(length int64, m bound.Method) bound.Claim {
		return bound.Claim{Length: length, Method: m, Piece: -1}
	}
	longest := func(length int64) bound.Claim { return bound.Claim{Length: length, Method: bound.ByLongest} }
	for _, c := range []struct {
		name string
		job  bound.StripJob
		want []bound.Claim
	}{
		// Each back is half a width by shares of a third: 4 · 24 / 2 = 48 in. Two
		// lie on a line; motifs at 0, so the first row starts at 27 - 12 = 15 in,
		// and the second ends at 15 + 27 + 24 = 66.
		{"four backs, start known", startAt(goods(53, 26.5, 27, 13.25, 0, 0, backs(4)), 0), []bound.Claim{
			line(264, bound.ByLine, 48, 2, 264), says(192, bound.ByChords), says(160, bound.ByArea), longest(156)}},
		// The motif may lie anywhere: 27 + 24 = 51 in.
		{"four backs", goods(53, 26.5, 27, 13.25, 0, 0, backs(4)), []bound.Claim{
			line(204, bound.ByLine, 0, 2, 0), says(192, bound.ByChords), says(160, bound.ByArea), longest(96)}},
		// Only the middle column keeps a back on the goods: 15 + 3 · 27 + 24 = 120 in.
		{"motif at the edge, start known", startAt(goods(53, 26.5, 27, 0, 0, 0, backs(4)), 0), []bound.Claim{
			line(480, bound.ByColumns, 48, 4, 480), line(264, bound.ByLine, 48, 2, 264), says(192, bound.ByChords), says(160, bound.ByArea), longest(156)}},
		{"motif at the edge", goods(53, 26.5, 27, 0, 0, 0, backs(4)), []bound.Claim{
			line(420, bound.ByColumns, 0, 4, 0), line(204, bound.ByLine, 0, 2, 0), says(192, bound.ByChords), says(160, bound.ByArea), longest(96)}},
		// With a gap of 1, 5 and 5 need 11: one to a row, 5 · 7 + 4 = 39.
		{"six in a column", gap(10, 6), []bound.Claim{
			line(39, bound.ByWeighedLine, 3, 6, 38), line(25, bound.ByLine, 4, 4, 25), says(24, bound.ByChords), says(12, bound.ByArea), longest(4)}},
		{"six in two columns", gap(11, 6), []bound.Claim{
			line(18, bound.ByLine, 4, 3, 18), says(12, bound.ByChords), says(11, bound.ByArea), longest(4)}},
		{"seven in two columns", gap(11, 7), []bound.Claim{
			line(25, bound.ByLine, 4, 4, 25), says(14, bound.ByChords), says(13, bound.ByArea), longest(4)}},
	} {
		c.job.Whole = true
		got, err := bound.Strip(context.Background(), c.job)
		require.NoError(t, err, c.name)
		for i := range got {
			got[i].Weigh = bound.Weighing{}
		}
		assert.Equal(t, c.want, got, c.name)
	}
}

// The longest piece is named, the first of equals; at any angle it is as long
// as it is narrow.
func TestLongestPieceIsNamed(t *testing.T) {
	piece := func(w, h int64) bound.Piece { return bound.Piece{Count: 2, Ways: []bound.Way{{Ring: box(0, 0, w, h)}}} }
	turned := piece(3, 30)
	turned.AnyAngle = true
	both := piece(4, 25)
	both.Ways = append(both.Ways, bound.Ways(box(0, 0, 4, 25), geom.Point{}, geom.Rotate90)...)
	for _, c := range []struct {
		pieces []bound.Piece
		piece  int
		length int64
	}{
		{[]bound.Piece{piece(3, 8), piece(5, 9), piece(9, 2)}, 1, 9},
		{[]bound.Piece{piece(3, 9), piece(5, 8)}, 0, 9},
		{[]bound.Piece{piece(9, 2), piece(3, 8), piece(5, 9)}, 2, 9},
		{[]bound.Piece{turned, piece(5, 4)}, 1, 4},
		{[]bound.Piece{turned, piece(5, 2)}, 0, 3},
		{[]bound.Piece{both, piece(5, 5)}, 1, 5},
		{[]bound.Piece{both, piece(5, 3)}, 0, 4},
	} {
		cs, err := bound.Strip(context.Background(), bound.StripJob{Width: 40, Pieces: c.pieces})
		require.NoError(t, err)
		for _, k := range cs {
			if k.Method == bound.ByLongest {
				assert.Equal(t, c.length, k.Length)
				assert.Equal(t, c.piece, k.Piece)
			}
		}
	}
}
