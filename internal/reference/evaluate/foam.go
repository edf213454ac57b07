package evaluate

import "github.com/coverwright/coverwright/internal/reference"

var foamEvaluators = map[string]reference.Evaluator{}
