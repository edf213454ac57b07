package allowance

import (
	"errors"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// OldHalves says how a panel is made its own mirror image. Where its halves
// differ by more than 2 % of the width, the mean is refused: they may be meant to, or one has
// stretched and the other is the better one. The zero value finds the axis and
// takes the mean.
type OldHalves struct {
	// Axis is two points on the fold, in the axes of what was traced; found when
	// not given.
	Axis []shape.Point `json:"axis,omitempty"`
	// Take is the half that both are made from, seen from the first point of the axis;
	// the mean of the two when not given.
	Take shape.HalfTaken `json:"take,omitzero"`
	// Differ says that the mean is wanted however far the halves differ.
	Differ bool `json:"differ,omitzero"`
}

// ErrHalvesDiffer says that the two halves of a panel are too different for their
// mean.
var ErrHalvesDiffer = errors.New("the halves differ")

// How far each half is from the mean, as shares of the width: up to the first it
// is only said, up to the second with a caution (common practice).
const (
	sayHalves  = 0.5 * unit.Percent
	mostHalves = 2 * unit.Percent
)

// halved makes the outline its own mirror image.
func (r Ripped) halved(out *Recovered, s strained) error {
	if r.Halves == nil {
		return nil
	}
	h := *r.Halves
	var axis [2]shape.Point
	var err error
	switch len(h.Axis) {
	case 0:
		axis[0], axis[1], err = out.Outline.SymmetryAxis()
	case 2:
		for i, p := range h.Axis {
			if axis[i], err = s.about.StrainedPoint(s.direction, s.by, s.other, p); err != nil {
				return unit.InField(unit.Path("halves.axis").At(i), err)
			}
		}
	default:
		err = check.Refuse("axis", "", unit.ErrRange, "two points on the fold, or none")
	}
	if err != nil {
		return unit.InField("halves", err)
	}
	made, err := out.Outline.Halved(axis[0], axis[1], h.Take)
	if err != nil {
		return unit.InField("halves", check.Renamed(err, map[string]string{"low": "axis[0]", "high": "axis[1]", "taken": "take"}))
	}
	if made.Share > mostHalves && h.Take == shape.BothHalves && !h.Differ {
		return check.Refuse("halves", made.Most.String()+" at "+made.Edge, ErrHalvesDiffer,
			"halves within 2 % of the width of their mean, one of them to take, or differ set")
	}
	out.Outline, out.Halves = made.Outline, &made
	return nil
}
