//go:build long

package job

import (
	"testing"

	"pgregory.net/rapid"
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
