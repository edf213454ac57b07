package evaluate

import "github.com/coverwright/coverwright/internal/reference"

var threadEvaluators = map[string]reference.Evaluator{}
