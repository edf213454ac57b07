package material

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Nails are decorative nails along the edges of a piece. The zero value is
// refused.
type Nails struct {
	Sides []unit.Length `json:"sides"` // from corner to corner
	Head  unit.Length   `json:"head"`  // diameter of the head
	// Pitch is the wanted distance from nail to nail; zero sets them head to
	// head.
	Pitch unit.Length `json:"pitch,omitzero"`
	// Closed says that the sides run all round, so that the last corner is
	// the first.
	Closed bool `json:"closed,omitempty"`
}

// NailRow is one side with its true spacing.
type NailRow struct {
	Spaces  int         `json:"spaces"`  // from corner nail to corner nail
	Spacing unit.Length `json:"spacing"` // true distance, the last fraction of a nanometre left out
}

// NailPlan is the number of nails with the spacing of each side.
type NailPlan struct {
	Rows  []NailRow `json:"rows"`
	Nails int       `json:"nails"`
}

// Plan sets a nail on every corner and spaces the others evenly. For a side S,
// pitch p and head h:
//
//	spaces = S / p to the nearest whole number, at least 1, at most S / h
//	spacing = S / spaces
//
// so that the heads of a side never overlap. Errors name the field and wrap
// unit.ErrRequired, unit.ErrRange or unit.ErrForgottenUnit.
func (n Nails) Plan() (NailPlan, error) {
	if len(n.Sides) == 0 {
		return NailPlan{}, check.Required("sides", "at least one side")
	}
	if err := check.Count("sides", len(n.Sides), 1, mostRuns); err != nil {
		return NailPlan{}, err
	}
	if err := check.Length("head", n.Head, unit.Millimetre, 100*unit.Millimetre); err != nil {
		return NailPlan{}, err
	}
	pitch := n.Pitch
	if pitch == 0 {
		pitch = n.Head
	}
	if err := check.Length("pitch", pitch, n.Head, unit.Metre); err != nil {
		return NailPlan{}, err
	}
	var p NailPlan
	for i, s := range n.Sides {
		if err := check.Length(fmt.Sprintf("sides[%d]", i), s, n.Head, 100*unit.Metre); err != nil {
			return NailPlan{}, err
		}
		spaces := min(max(1, (s+pitch/2)/pitch), s/n.Head)
		p.Rows = append(p.Rows, NailRow{int(spaces), s / spaces})
		p.Nails += int(spaces)
	}
	if !n.Closed {
		p.Nails++
	}
	return p, nil
}
