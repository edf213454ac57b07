package material

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

// An armchair as a workshop lists its cuts for 54 in goods (common practice).
// On paper, row by row as the list is written, it comes to 274 in, and the
// deck is hoped for from offcuts. Rows sorted by length do better, because
// short pieces share a row with long ones; a layout better still, and it has
// room for the deck.
func TestArmchairListAgainstLayout(t *testing.T) {
	chair := []Piece{
		{Name: "inside back", Width: 36 * in, Length: 32 * in, Count: 1},
		{Name: "inside arm", Width: 32 * in, Length: 27 * in, Count: 2},
		{Name: "outside back", Width: 30 * in, Length: 30 * in, Count: 1},
		{Name: "outside arm", Width: 27 * in, Length: 18 * in, Count: 2},
		{Name: "seat edge", Width: 47 * in, Length: 18 * in, Count: 1},
		{Name: "seat cushion", Width: 31 * in, Length: 29 * in, Count: 2},
		{Name: "border and piping", Width: 54 * in, Length: 8 * in, Count: 2},
		{Name: "back cushion", Width: 36 * in, Length: 24 * in, Count: 2},
	}
	roll := Roll{Width: 54 * in}
	// The list, one row for each kind of piece, two a row where two fit.
	var onPaper unit.Length
	for _, p := range chair {
		rows := (p.Count + int(roll.Width/p.Width) - 1) / int(roll.Width/p.Width)
		onPaper += unit.Length(rows) * p.Length
	}
	assert.Equal(t, 274*in, onPaper)

	withDeck := append(chair, Piece{Name: "deck", Width: 27 * in, Length: 27 * in, Count: 1})
	rows, err := LayRows(roll, withDeck)
	require.NoError(t, err)
	plan, err := LayOut(context.Background(), roll, withDeck, Options{Effort: 0.01})
	require.NoError(t, err)
	assert.LessOrEqual(t, plan.Need, rows.Need)
	assert.LessOrEqual(t, plan.Bound, plan.Need)
	// The pieces over half the width cannot lie beside each other: no layout
	// is much shorter than the list, and the bound says so.
	assert.Greater(t, plan.Bound, 250*in)
	t.Logf("on paper %v without the deck, rows %v, layout %v with it, bound %v", onPaper, rows.Need, plan.Need, plan.Bound)
}

// Six squares of 24 in: 24 sq ft of panels, 27 sq ft of goods, two yards by
// layout; at 18 sq ft of leather for a yard the rule says 36 sq ft. By the
// half yard a seat, as some count, it would be 3 yd (common practice).
func TestSixSquaresThreeAnswers(t *testing.T) {
	squares := []Piece{{Width: 24 * in, Length: 24 * in, Count: 6}}
	plan, err := LayOut(context.Background(), Roll{Width: 54 * in}, squares, quick)
	require.NoError(t, err)
	assert.Equal(t, 2*unit.Yard, plan.Need)
	assert.True(t, plan.Proved)
	leather, err := LeatherForCloth(plan.Need, 54*in, 0.75)
	require.NoError(t, err)
	assert.Equal(t, 36*unit.SquareFoot, leather)
}
