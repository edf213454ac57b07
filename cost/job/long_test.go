//go:build long

package job

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/material/layout"
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

// Nothing of a job as shops have it is asked about, and its order reads back.
func TestUsualJobsAreMeant(t *testing.T) {
	files, err := filepath.Glob("testdata/anatomy/*.json")
	require.NoError(t, err)
	require.Len(t, files, 12)
	for _, name := range append(files, "../../examples/workorder/larkfield.json", "../../examples/workorder/sofa.json", "testdata/larkfield-second.json", "testdata/larkfield-plain.json") {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		s, err := beneath(t, name).ReadSpec(strings.NewReader(string(text)))
		require.NoError(t, err, name)
		o, err := Build(t.Context(), s, Options{Effort: 0.0001, NoMatching: true})
		require.NoError(t, err, name)
		assert.Empty(t, meant(o), name)
		reread(t, o)
	}
}

// Every kind is worked out to its layouts and its quote, small and large, in every sort
// of goods; what is larger than any hide is refused as such.
func TestEveryKindIsBuiltInFull(t *testing.T) {
	t.Parallel()
	for _, k := range kind.All() {
		for sort, goods := range threeGoods {
			for size, measures := range sizesOf(k) {
				_, err := Build(context.Background(), pieceOf(t, k, goods, measures), Options{Effort: 0.0001})
				if sort == "leather" && size == "most" && errors.Is(err, layout.ErrNoLayout) {
					continue
				}
				if err != nil {
					t.Errorf("%s, %s, %s: %v", k.Name, sort, size, err)
				}
			}
		}
	}
}
