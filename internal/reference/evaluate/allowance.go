package evaluate

import "github.com/coverwright/coverwright/internal/reference"

var allowanceEvaluators = map[string]reference.Evaluator{}
