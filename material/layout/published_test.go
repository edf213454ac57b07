package layout

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// An armchair as a workshop lists its cuts for 54 in goods (common practice).
// Added up row by row as the list is written it comes to 274 in, and the deck
// of 27 by 27 in is to come from offcuts. The sum holds: a layout needs no
// more, and proves that it cannot be much less, since most of the pieces are
// over half the width and lie alone in their rows. The hope does not: with the
// deck the bound is longer than 274 in, so at these cut sizes no layout has
// room for it.
func TestArmchairListAgainstLayout(t *testing.T) {
	chair := []cloth{
		{name: "inside back", width: 36 * in, length: 32 * in, count: 1},
		{name: "inside arm", width: 32 * in, length: 27 * in, count: 2},
		{name: "outside back", width: 30 * in, length: 30 * in, count: 1},
		{name: "outside arm", width: 27 * in, length: 18 * in, count: 2},
		{name: "seat edge", width: 47 * in, length: 18 * in, count: 1},
		{name: "seat cushion", width: 31 * in, length: 29 * in, count: 2},
		{name: "border and piping", width: 54 * in, length: 8 * in, count: 2},
		{name: "back cushion", width: 36 * in, length: 24 * in, count: 2},
	}
	roll := material.Roll{Width: 54 * in}
	// The list, one row for each kind of piece, two a row where two fit.
	var onPaper unit.Length
	for _, p := range chair {
		rows := (p.count + int(roll.Width/p.width) - 1) / int(roll.Width/p.width)
		onPaper += unit.Length(rows) * p.length
	}
	assert.Equal(t, 274*in, onPaper)

	plan, err := onRoll(roll, pieces(chair...), Options{Effort: 0.01})
	require.NoError(t, err)
	assert.LessOrEqual(t, plan.Need, onPaper)
	assert.Greater(t, plan.Bound().Length, 250*in)

	withDeck := append(slices.Clone(chair), cloth{name: "deck", width: 27 * in, length: 27 * in, count: 1})
	full, err := onRoll(roll, pieces(withDeck...), Options{Effort: 0.01})
	require.NoError(t, err)
	assert.Greater(t, full.Bound().Length, onPaper)
	t.Logf("on paper %v; layout %v, bound %v; with the deck %v, bound %v", onPaper, plan.Need, plan.Bound().Length, full.Need, full.Bound().Length)
}

// Six squares of 24 in: 24 sq ft of panels, 27 sq ft of goods, two yards by
// layout; at 18 sq ft of leather for a yard the rule says 36 sq ft. By the
// half yard a seat, as some count, it would be 3 yd (common practice).
func TestSixSquaresThreeAnswers(t *testing.T) {
	squares := []cloth{{width: 24 * in, length: 24 * in, count: 6}}
	plan, err := onRoll(material.Roll{Width: 54 * in}, pieces(squares...), quick)
	require.NoError(t, err)
	assert.Equal(t, 2*unit.Yard, plan.Need)
	assert.True(t, plan.Proved)
	leather, err := material.LeatherForCloth(plan.Need, 54*in, 0.75)
	require.NoError(t, err)
	assert.Equal(t, 36*unit.SquareFoot, leather)
}
