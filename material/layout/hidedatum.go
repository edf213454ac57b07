package layout

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// HideDatum are the two lines that a tape starts from on a hide: one along the hide,
// one square to it at the tail. The first is the backbone where that is known, else
// the line that touches the outline at its outermost point on the left; the second
// touches the outline at its outermost point at the tail.
type HideDatum struct {
	// Backbone says that the line along the hide is the backbone. It is only where
	// the hide says where that runs.
	Backbone bool `json:"backbone,omitempty"`
	// Traced says that the outline was measured. Else it is the usual one of the kind,
	// and places on it must be found anew on the hide.
	Traced bool        `json:"traced,omitempty"`
	Line   unit.Length `json:"line"` // X of the line along the hide, in the axes of the hide
	Tail   unit.Length `json:"tail"` // Y of the line at the tail
}

// HideDatum gives the lines that places on a hide of the plan are measured from, by
// its index. It wraps unit.ErrRange for an index that no hide has, or the errors of
// the hide.
func (p Plan) HideDatum(hide int) (HideDatum, error) {
	if err := p.checkHide(hide); err != nil {
		return HideDatum{}, err
	}
	k := p.Hides[hide]
	border, err := k.Shape()
	if err != nil {
		return HideDatum{}, unit.InField(check.At("hides", hide), err)
	}
	low, _ := border.Bounds()
	d := HideDatum{Traced: !k.Outline.IsZero(), Line: low.X, Tail: low.Y}
	if k.Backbone != nil && d.Traced {
		d.Backbone, d.Line = true, *k.Backbone
	}
	return d, nil
}

func (p Plan) checkHide(hide int) error {
	if hide < 0 || hide >= len(p.Hides) {
		return check.Refuse("hide", fmt.Sprint(hide), unit.ErrRange, fmt.Sprintf("the index of one of the %d hides of the plan", len(p.Hides)))
	}
	return nil
}

// HideSpot is a place on a hide as a tape finds it.
type HideSpot struct {
	At       shape.Point `json:"at"`             // in the axes of the hide
	Across   unit.Length `json:"across"`         // from the line along the hide, square to it; never below zero
	Left     bool        `json:"left,omitempty"` // on its left, neck away from the reader and grain side up
	FromTail unit.Length `json:"from_tail"`      // from the line at the tail
}

// Spot measures a place on the hide.
func (d HideDatum) Spot(at shape.Point) HideSpot {
	s := HideSpot{At: at, Across: at.X - d.Line, FromTail: at.Y - d.Tail}
	if s.Across < 0 {
		s.Across, s.Left = -s.Across, true
	}
	return s
}
