// Package evaluate holds one evaluator for each quantity of the check table,
// in one file for each package, and puts rows and evaluators together.
package evaluate

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/dev/reference"
)

// packages lists the packages that have check rows, in the order of the
// architecture: what stands on what.
var packages = []struct {
	name       string
	evaluators map[string]reference.Evaluator
}{
	{"unit", both(unitEvaluators, both(sumEvaluators, countEvaluators))},
	{"allowance", both(allowanceEvaluators, both(outlineEvaluators, both(tapeEvaluators, both(eachSeamEvaluators, both(outlineMeasures, photoEvaluators)))))},
	{"material", both(materialEvaluators, both(skinEvaluators, both(goodsEvaluators, planEvaluators)))},
	{"findings", both(findingsEvaluators, stuffingEvaluators)},
	{"thread", both(threadEvaluators, seamEvaluators)},
	{"caution", cautionEvaluators},
	{"foam", both(foamEvaluators, both(seatEvaluators, formEvaluators))},
	{"cost", both(costEvaluators, both(moneyEvaluators, givenEvaluators))},
	{"job", both(jobEvaluators, wholeEvaluators)},
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
