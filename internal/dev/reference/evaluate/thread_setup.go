package evaluate

import (
	"errors"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/thread"
)

// setUpEvaluators are those of a row that is sewn with a set-up of the machine.
var setUpEvaluators = map[string]reference.Evaluator{
	// The strength of a seam sewn at another length of stitch, as a share of what
	// was recommended, and 1 where the rules allow that length.
	"set_up": func(in *reference.Inputs, _ string) (reference.Value, error) {
		g, err := goods(in)
		if err != nil {
			return reference.Value{}, err
		}
		a, err := thread.Recommend(thread.Need{Goods: g, Layers: in.Int("layers")})
		if err != nil {
			return reference.Value{}, err
		}
		for i, p := range a.All() {
			if i != 0 {
				break
			}
			s := p.SetUp()
			s.StitchLength = in.Length("stitch")
			sewn, allowed := p.On(s)
			ok := 0.0
			if allowed {
				ok = 1
			}
			return reference.Numbers(p.StitchLength.Millimetres(), float64(sewn.SeamStrength/p.SeamStrength), ok).On(p.Basis), nil
		}
		return reference.Value{}, errors.New("nothing recommended")
	},
}
