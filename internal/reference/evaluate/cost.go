package evaluate

import "github.com/coverwright/coverwright/internal/reference"

var costEvaluators = map[string]reference.Evaluator{}
