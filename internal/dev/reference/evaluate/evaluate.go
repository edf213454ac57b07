// Package evaluate holds one evaluator for each quantity of the check table,
// in one file for each package, and puts rows and evaluators together.
package evaluate

import (
	"fmt"
	"maps"

	"github.com/coverwright/coverwright/internal/dev/reference"
)

// packages lists the packages that have check rows, in the order of the
// architecture: what stands on what.
var packages = []struct {
	name       string
	evaluators map[string]reference.Evaluator
}{
	{"unit", all(unitEvaluators, sumEvaluators, countEvaluators)},
	{"allowance", all(allowanceEvaluators, outlineEvaluators, tapeEvaluators, eachSeamEvaluators, coverEvaluators, lineEvaluators, patternEvaluators, outlineMeasures, photoEvaluators)},
	{"material", all(materialEvaluators, skinEvaluators, goodsEvaluators, planEvaluators, placeEvaluators)},
	{"findings", all(findingsEvaluators, stuffingEvaluators)},
	{"thread", all(threadEvaluators, seamEvaluators, setUpEvaluators)},
	{"caution", cautionEvaluators},
	{"foam", all(foamEvaluators, seatEvaluators, formEvaluators, foamGoodsEvaluators)},
	{"cost", all(costEvaluators, moneyEvaluators, givenEvaluators, listEvaluators)},
	{"job", all(jobEvaluators, wholeEvaluators, buildEvaluators)},
}

// all puts sets of evaluators together.
func all(sets ...map[string]reference.Evaluator) map[string]reference.Evaluator {
	m := map[string]reference.Evaluator{}
	for _, s := range sets {
		maps.Copy(m, s)
	}
	return m
}

// Suites gives the check tables of all packages.
func Suites() ([]reference.Suite, error) {
	var out []reference.Suite
	for _, p := range packages {
		rows, err := reference.Rows(p.name)
		if err != nil {
			return nil, fmt.Errorf("check table: %w", err)
		}
		out = append(out, reference.Suite{Package: p.name, Rows: rows, Evaluators: p.evaluators, Cells: cells[p.name], Why: whys[p.name]})
	}
	return out, nil
}
