package layout

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// cutOutline gives the cut line as an outline. Chords may end short of the
// extreme of a curve: they are stretched to it, by the tolerance of the cut at
// most, and put on whole micrometres, which are on the grid of plans.
func cutOutline(cut allowance.PanelCut) (shape.Outline, error) {
	o, err := shape.Polygon(cut.CutLine.Outer...)
	if err != nil {
		return shape.Outline{}, err
	}
	if w, h := o.Size(); w == cut.Width && h == cut.Height {
		return o, nil
	}
	if o, err = o.Scaled(cut.Width, cut.Height); err != nil {
		return shape.Outline{}, err
	}
	low, _ := o.Bounds()
	return o.Moved(shape.Point{X: toMicrometre(low.X) - low.X, Y: toMicrometre(low.Y) - low.Y})
}

func toMicrometre(l unit.Length) unit.Length { // of lengths within 50 m
	return unit.Length(nearest(int64(l), int64(unit.Micrometre))) * unit.Micrometre
}
