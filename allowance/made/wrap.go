package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Wrap is one piece that runs over several faces: a loose cover from floor to
// floor, a waterfall cushion, a seat wrapped under. The zero value is refused.
type Wrap struct {
	Faces []unit.Length  `json:"faces"` // finished lengths in order, folds and tucks included
	Start allowance.Edge `json:"start,omitzero"`
	End   allowance.Edge `json:"end,omitzero"`
}

// Cut gives the cut length: the sum of the faces and the margins at both ends.
func (w Wrap) Cut() (unit.Length, error) {
	if len(w.Faces) == 0 {
		return 0, check.Required("faces", "at least one face")
	}
	start, err := w.Start.Resolve()
	if err != nil {
		return 0, unit.InField("start", err)
	}
	end, err := w.End.Resolve()
	if err != nil {
		return 0, unit.InField("end", err)
	}
	sum := start.Total() + end.Total()
	for i, f := range w.Faces {
		if err := check.Positive("", f); err != nil {
			return 0, unit.InField(check.At("faces", i), err)
		}
		if sum, err = sum.Plus(f); err != nil {
			return 0, unit.InField("faces", err)
		}
	}
	return sum, nil
}
