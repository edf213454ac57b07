package evaluate

import "github.com/coverwright/coverwright/internal/reference"

var materialEvaluators = map[string]reference.Evaluator{}
