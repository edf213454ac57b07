package material

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Defect is a mark on a skin: an outline, or a round place At with a diameter.
type Defect struct {
	Kind     DefectKind    `json:"kind,omitzero"`
	Severity Severity      `json:"severity,omitzero"` // zero takes the usual severity of the kind
	Outline  shape.Outline `json:"outline,omitzero"`
	// At is the middle of a round mark, without Outline. The origin counts as not
	// given; draw a mark that lies just there as an outline.
	At     shape.Point `json:"at,omitzero"`
	Across unit.Length `json:"across,omitzero"` // its diameter, from 1 mm to 1 m
	Note   string      `json:"note,omitempty"`
}

// Weight gives the severity that counts: the stated one, or the usual one.
func (d Defect) Weight() Severity {
	if d.Severity == NoMark {
		return d.Kind.UsualSeverity()
	}
	return d.Severity
}

// Border gives the outline of the mark. Errors name the field and wrap
// unit.ErrRange, unit.ErrForgottenUnit or unit.ErrRequired.
func (d Defect) Border() (shape.Outline, error) {
	if !d.Outline.IsZero() {
		return d.Outline, nil
	}
	if d.Across == 0 {
		return shape.Outline{}, check.Required("outline", "an outline, or at and across of a round mark")
	}
	if err := check.Length("across", d.Across, unit.Millimetre, unit.Metre); err != nil {
		return shape.Outline{}, err
	}
	if d.At == (shape.Point{}) {
		return shape.Outline{}, check.Required("at", "the middle of the mark, in the axes of the skin")
	}
	o, err := shape.Circle(d.Across)
	if err != nil {
		return shape.Outline{}, unit.InField("across", err)
	}
	// A circle stands on its lowest point; put its middle on At.
	low, high := o.Bounds()
	o, err = o.Moved(shape.Point{X: d.At.X - (low.X+high.X)/2, Y: d.At.Y - (low.Y+high.Y)/2})
	return o, unit.InField("at", check.Inner(err, "outline"))
}
