package photo

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

func (v View) check() error {
	if v.view == nil {
		return check.Required("view", "a view that See made")
	}
	return nil
}

// Point gives the place on the panel that is seen at a pixel. With a thickness it is
// the place on the face, brought back to the plane of the marks along the line of
// sight: with Z the height of the camera and F the place below it
//
//	P = F + (P' - F)(Z - t) / Z
//
// Errors wrap ErrOutside, or ErrBehind for pixels above the horizon of the plane.
func (v View) Point(p Pixel) (shape.Point, error) {
	if err := v.check(); err != nil {
		return shape.Point{}, err
	}
	at, err := v.view.Place("pixel", seen(p))
	if err != nil {
		return shape.Point{}, err
	}
	return point(v.view.Camera().Lower(at, v.thickness())), nil
}

// Pixel gives where a place on the panel is seen, also outside the picture. It
// wraps ErrBehind for what the camera cannot see.
func (v View) Pixel(p shape.Point) (Pixel, error) {
	if err := v.check(); err != nil {
		return Pixel{}, err
	}
	s, err := v.view.Pixel(v.view.Camera().Raise(millimetres(p), v.thickness()))
	if err != nil {
		return Pixel{}, unit.InField("point", err)
	}
	return Pixel{X: shape.Pixels(s.X), Y: shape.Pixels(s.Y)}, nil
}

func (v View) thickness() float64 { return float64(v.options.Thickness) / 1e6 }

// Sigma is the standard deviation of what the marks are off in the picture, and
// how many measures it rests on beyond those needed. With none it is zero and says
// nothing.
func (v View) Sigma() (sigma shape.Pixels, spare int) {
	if v.view == nil {
		return 0, 0
	}
	return shape.Pixels(v.view.Sigma), v.view.Spare
}

// Off lists the marks and pages that were left out.
func (v View) Off() []Off {
	if v.view == nil {
		return nil
	}
	var out []Off
	for _, o := range v.view.Off {
		out = append(out, Off{o.Page, o.Mark, shape.Pixels(o.By)})
	}
	return out
}

// Lens is the k of See: above zero lines bow inwards.
func (v View) Lens() unit.Ratio {
	if v.view == nil {
		return 0
	}
	return unit.Ratio(v.view.Lens())
}

// Camera is where a picture was taken from.
type Camera struct {
	Height unit.Length  `json:"height"` // above the plane of the marks
	Foot   shape.Point  `json:"foot"`   // the place below the camera
	Tilt   unit.Angle   `json:"tilt"`   // from straight down
	Focal  shape.Pixels `json:"focal"`  // focal length
	// Usual says that the focal length, and with it the height, is that of a usual
	// camera: a picture from straight above does not tell it.
	Usual bool `json:"usual,omitzero"`
}

// Camera gives where the picture was taken from. The focal length follows from the
// perspective when the tilt is ten degrees or more; else three quarters of the
// longer side of the picture are taken, which a telephone has (from memory).
func (v View) Camera() Camera {
	if v.view == nil {
		return Camera{}
	}
	c := v.view.Camera()
	return Camera{
		Height: lengthOf(c.Height), Foot: point(c.Foot), Focal: shape.Pixels(c.Focal), Usual: !c.Told,
		Tilt: unit.Angle(geom.Atan2(c.Sine, c.Cosine)) * unit.Radian,
	}
}

// PixelSize is how long a pixel is at a place on the panel, the mean of its sides.
func (v View) PixelSize(at shape.Point) unit.Length {
	if v.view == nil {
		return 0
	}
	return lengthOf(v.view.PixelSize(v.view.Camera().Raise(millimetres(at), v.thickness())))
}

// Spread is the standard deviation of a place in the axes of the first page, in its
// worst direction; false when it cannot be stated. It holds nothing of scale and
// thickness. See View.ErrorOf for that of a shape, which is less.
func (v View) Spread(at shape.Point) (unit.Length, bool) {
	if v.view == nil || !v.view.Known {
		return 0, false
	}
	p := v.view.Camera().Raise(millimetres(at), v.thickness())
	return lengthOf(v.view.SpreadAt(p, float64(v.options.EdgeSpread))), true
}

// Place is where a page lies: it is turned about its own origin, anticlockwise,
// and then moved.
type Place struct {
	Turn unit.Angle  `json:"turn"`
	Move shape.Point `json:"move"`
}

// Page gives where a page lies in the axes of the first; false when there is no
// such page, or when it was left out.
func (v View) Page(page int) (Place, bool) {
	if v.view == nil {
		return Place{}, false
	}
	turn, move, ok := v.view.Page(page)
	if !ok {
		return Place{}, false
	}
	return Place{unit.Angle(turn) * unit.Radian, point(move)}, true
}
