package layout

import (
	"context"
	"slices"
	"testing"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An armchair as a workshop lists its cuts for 54 in goods (common practice).
// Added up row by row as the list is written it comes to 274 in, and the deck
// of 27 by 27 in is to come from offcuts. The sum holds: a layout needs no
// more, and proves that it cannot be much less, since most of the pieces are
// over half the width and lie alone in their rows. The hope does not: with the
// deck the bound is longer than 274 in, so at these cut sizes no layout has
// room for it.
func TestArmchairListAgainstLayout(t *testing.T) {
	chair := []Box{
		{Name: "inside back", Width: 36 * in, Length: 32 * in, Count: 1},
		{Name: "inside arm", Width: 32 * in, Length: 27 * in, Count: 2},
		{Name: "outside back", Width: 30 * in, Length: 30 * in, Count: 1},
		{Name: "outside arm", Width: 27 * in, Length: 18 * in, Count: 2},
		{Name: "seat edge", Width: 47 * in, Length: 18 * in, Count: 1},
		{Name: "seat cushion", Width: 31 * in, Length: 29 * in, Count: 2},
		{Name: "border and piping", Width: 54 * in, Length: 8 * in, Count: 2},
		{Name: "back cushion", Width: 36 * in, Length: 24 * in, Count: 2},
	}
	roll := material.Roll{Width: 54 * in}
	// The list, one row for each kind of piece, two a row where two fit.
	var onPaper unit.Length
	for _, p := range chair {
		rows := (p.Count + int(roll.Width/p.Width) - 1) / int(roll.Width/p.Width)
		onPaper += unit.Length(rows) * p.Length
	}
	assert.Equal(t, 274*in, onPaper)

	plan, err := Boxes(context.Background(), roll, chair, BoxOptions{Effort: 0.01})
	require.NoError(t, err)
	assert.LessOrEqual(t, plan.Need, onPaper)
	assert.Greater(t, plan.Bound, 250*in)

	withDeck := append(slices.Clone(chair), Box{Name: "deck", Width: 27 * in, Length: 27 * in, Count: 1})
	full, err := Boxes(context.Background(), roll, withDeck, BoxOptions{Effort: 0.01})
	require.NoError(t, err)
	assert.Greater(t, full.Bound, onPaper)
	t.Logf("on paper %v; layout %v, bound %v; with the deck %v, bound %v", onPaper, plan.Need, plan.Bound, full.Need, full.Bound)
}

// Six squares of 24 in: 24 sq ft of panels, 27 sq ft of goods, two yards by
// layout; at 18 sq ft of leather for a yard the rule says 36 sq ft. By the
// half yard a seat, as some count, it would be 3 yd (common practice).
func TestSixSquaresThreeAnswers(t *testing.T) {
	squares := []Box{{Width: 24 * in, Length: 24 * in, Count: 6}}
	plan, err := Boxes(context.Background(), material.Roll{Width: 54 * in}, squares, quick)
	require.NoError(t, err)
	assert.Equal(t, 2*unit.Yard, plan.Need)
	assert.True(t, plan.Proved)
	leather, err := material.LeatherForCloth(plan.Need, 54*in, 0.75)
	require.NoError(t, err)
	assert.Equal(t, 36*unit.SquareFoot, leather)
}
