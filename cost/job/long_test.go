//go:build long

package job

import (
	"testing"

	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost/job/kind"
)

func TestBuildLawsInFull(t *testing.T) { rapid.Check(t, buildLaws) }

func TestStockIsNeverDearerInFull(t *testing.T) { rapid.Check(t, stockLaws(t)) }

func TestBuildScalesInFull(t *testing.T) { rapid.Check(t, buildScales) }

func TestRectangleAsOutlineIsTheSameInFull(t *testing.T) { rapid.Check(t, rectangleAsOutlineIsTheSame) }

func TestPatternOfKindsRunsOnInFull(t *testing.T) { rapid.Check(t, patternOfKindsRunsOn) }

func TestEveryFaultHasAPlaceInFull(t *testing.T) {
	for range 20 {
		rapid.Check(t, everyFaultHasAPlace(t))
	}
}

func TestEveryRelationOfABareKindCounts(t *testing.T) {
	for _, k := range kind.All() {
		relationsOfAKindCount(t, k, k.Groups)
	}
}

func TestYardageCardOfEveryAnatomy(t *testing.T) { yardageCardOf(t, 1) }

func TestShopAndJobAreTheJobInFull(t *testing.T) { rapid.Check(t, shopAndJob(t)) }

func TestUsualJobsAreMeantInFull(t *testing.T) {
	usualJobsAreMeant(t, func(s Spec) Spec { return s })
}
