package photo

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/camera"
)

// Error is how far an outline that was taken from a picture may be off; see
// shape.PhotoError.
type Error = shape.PhotoError

// ErrorOf gives the error of an outline that was found with View.Point, as a shape:
// after the best move and turn. With L the outline's largest extent, t the
// thickness, Z the height of the camera
//
//	Picture = 3 σ,  Scale = scale error · L / 2,  Thickness = t L / 20 Z + most of t (F - P)·n / Z
//
// σ is the largest standard deviation of its points. It follows from the spread of
// the marks by the law of propagation, through the whole view, and from that of the
// edge. The spread of the marks is what they are off, not less than 0.05 pixels, and
// more when there are few marks to judge by (Student's distribution). The height
// of the camera is taken to a tenth. The last term is that of edges that look
// towards the foot F of the camera, n their outward normal: what is seen there is the
// lower edge, which the thickness does not move.
func (v View) ErrorOf(o shape.Outline) (Error, error) {
	if err := v.check(); err != nil {
		return Error{}, err
	}
	corners, err := o.Flatten(0)
	if err != nil {
		return Error{}, err
	}
	ring := make([]camera.Point, len(corners))
	for i, p := range corners {
		ring[i] = millimetres(p)
	}
	scale := v.options.ScaleError
	e := Error{Known: v.view.Known, Unmeasured: scale == 0}
	if e.Unmeasured {
		scale = UnmeasuredScale
	}
	b := v.view.Budget(ring, float64(v.options.EdgeSpread), float64(scale), v.thickness())
	e.Picture, e.Scale, e.Thickness, e.Lengths = lengthOf(b.Picture), lengthOf(b.Scale), lengthOf(b.Thickness), scale
	e.Outline = e.Picture + e.Scale + e.Thickness
	return e, nil
}
