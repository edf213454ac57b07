//go:build long

package layout

import (
	"testing"

	"pgregory.net/rapid"
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

func TestNestRollWingChairsInFull(t *testing.T) { nestOnRolls(t, wingChair(t)) }

func TestPatternedAgainstCompleteSearchInFull(t *testing.T) {
	for range 5 {
		rapid.Check(t, func(t *rapid.T) { againstCompleteSearch(t, 5) })
	}
}
