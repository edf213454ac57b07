//go:build long

package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
)

// The laws of TestSolveLaws on three hundred jobs.
func TestSolveLawsInFull(t *testing.T) {
	for k := range 3 { // of a hundred jobs each
		rapid.Check(t, func(t *rapid.T) { solveLaws(t, anyJob(t), k == 0) })
	}
}

func TestMatchPointsLieOnMotifsInFull(t *testing.T) { rapid.Check(t, matchPointsLieOnMotifs) }

func TestPatternRunsOnOverJoinsInFull(t *testing.T) { rapid.Check(t, patternRunsOnOverJoins) }

func TestMoreDefectsNeverTakeFewerSkinsInFull(t *testing.T) { rapid.Check(t, moreDefectsLaw()) }

func TestRectangleLawsInFull(t *testing.T) { rapid.Check(t, rectangleLaws) }

func TestNeverWorseThanRowsInFull(t *testing.T) { rapid.Check(t, neverWorseThanRows) }

func TestOffcutLawsInFull(t *testing.T) { rapid.Check(t, offcutLaws) }

func TestHideDrawingsAreReadableInFull(t *testing.T) { rapid.Check(t, hideDrawingsAreReadable) }

func TestRollDrawingsAreReadableInFull(t *testing.T) { rapid.Check(t, rollDrawingsAreReadable) }

func TestHideSVGIsTrueSizeInFull(t *testing.T) { rapid.Check(t, hideSVGIsTrueSize) }

func TestHidePlacesGiveTheLayoutInFull(t *testing.T) { rapid.Check(t, hidePlacesGiveTheLayout) }

func TestNestRollWingChairsInFull(t *testing.T) { nestOnRolls(t, wingChair(t)) }

func TestPatternedAgainstCompleteSearchInFull(t *testing.T) {
	for range 5 {
		rapid.Check(t, func(t *rapid.T) { againstCompleteSearch(t, 5) })
	}
}

func TestTurnedOnTwoThirdsOfTheRepeat(t *testing.T) { turnedOnThirds(t, 2) }

// settee is a job of many pieces: plates with ears, on the pattern, fronts, borders and backs on it, and strips that are
// not.
func settee(t require.TestingT) []Piece {
	left := polygon(t, inches(0, 0), inches(31, 0), inches(31, 5), inches(26, 5), inches(26, 24), inches(0, 24))
	ps := pieces(
		cloth{name: "back", width: 26 * in, length: 33 * in, count: 3, motif: inches(13, 20)},
		cloth{name: "arm", width: 27 * in, length: 24 * in, count: 2, motif: inches(12, 13)},
		cloth{name: "front", width: 26 * in, length: 6 * in, count: 3, motif: inches(13, 11)},
		cloth{name: "border", width: 26 * in, length: 9 * in, count: 3, motif: inches(13, 18)},
		cloth{name: "skirt", width: 54 * in, length: 9 * in, count: 2, motif: shape.Point{X: 27 * in / 2, Y: 25 * in}},
		cloth{name: "under", width: 26 * in, length: 24 * in, count: 3, free: true},
		cloth{name: "side", width: 21 * in, length: 6 * in, count: 6, free: true},
		cloth{name: "welt", width: 54 * in, length: 2 * in, count: 8, free: true},
	)
	return append(ps, Piece{Name: "plate", Outline: left, Count: 2, Hand: Paired, Phase: OnMotif(inches(13, 6))},
		Piece{Name: "outside arm", Outline: rectOutline(t, 35*in, 20*in), Count: 2, Phase: Phase{Axes: AlongOnly, Spots: []Spot{{Point: inches(17, 11)}}}})
}

// Many pieces on a pattern: a half repeat both ways, on which every layout of the whole one lies, needs no more; nor does
// goods of which the start may be chosen; and outlines need less than their boxes.
func TestManyOnPattern(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Repeat: 27 * in, Across: 27 * in, First: shape.Point{X: 27 * in / 2}}
	known, err := onRoll(roll, settee(t), light)
	require.NoError(t, err)
	roll.UnknownStart = true
	whole, err := onRoll(roll, settee(t), light)
	require.NoError(t, err)
	assert.LessOrEqual(t, whole.Need, known.Need)
	boxes, ok := whole.Found(BoxesSearched)
	require.True(t, ok)
	assert.Less(t, whole.Need, boxes.Length)
	assert.LessOrEqual(t, whole.Need, 300*in, "the level: searched as boxes, and nested from scratch, the same work gave 312")
	roll.Repeat, roll.Across = roll.Repeat/2, roll.Across/2
	half, err := onRoll(roll, settee(t), light)
	require.NoError(t, err)
	assert.LessOrEqual(t, half.Need, whole.Need)
	for _, p := range []Plan{known, whole, half} {
		require.NoError(t, p.Verify())
	}
}
