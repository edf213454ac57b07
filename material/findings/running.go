package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Running is a finding that is used by length and joined where it must be. As it
// stands it is edge roll, card strip or flexible toothed strip, butted; [Cord],
// [Gimp] and [HookAndLoop] make others. The zero value is refused.
type Running struct {
	Runs []unit.Length `json:"runs"`          // each run in place; at least one
	Ends unit.Length   `json:"ends,omitzero"` // added to each run, to 1 m; zero for butted strips
}

// Order gives the steps of the running length: net is the sum of the runs, ends
// are those of every run, and b says how it is bought. Short remainders are used
// up. Errors are those of [Buying.Steps], and of fields runs and ends, and may
// wrap unit.ErrRequired.
func (r Running) Order(b Buying[unit.Length]) (Steps[unit.Length], error) {
	if err := each("runs", r.Runs, unit.Millimetre, check.Longest); err != nil {
		return Steps[unit.Length]{}, err
	}
	if err := check.Length("ends", r.Ends, 0, unit.Metre); err != nil {
		return Steps[unit.Length]{}, err
	}
	var net unit.Length
	for _, l := range r.Runs {
		net += l // 10 000 runs of at most 1 km fit
	}
	return b.Steps(net, unit.Length(len(r.Runs))*r.Ends)
}
