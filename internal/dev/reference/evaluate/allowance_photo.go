package evaluate

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/allowance/shape/photo"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
)

// photoEvaluators are those of places in a picture of 4000 by 3000 pixels, by where the
// corners of a rectangle of 200 by 150 mm about its middle are seen.
var photoEvaluators = map[string]reference.Evaluator{
	"photo_pixel": func(in *reference.Inputs, _ string) (reference.Value, error) {
		v, err := pictured(in)
		if err != nil {
			return reference.Value{}, err
		}
		p, err := v.Pixel(shape.Point{X: in.Length("x"), Y: in.Length("y")})
		return reference.Numbers(float64(p.X), float64(p.Y)), err
	},
	"photo_point": func(in *reference.Inputs, _ string) (reference.Value, error) {
		v, err := pictured(in)
		if err != nil {
			return reference.Value{}, err
		}
		p, err := v.Point(photo.Pixel{X: shape.Pixels(in.Float("u")), Y: shape.Pixels(in.Float("v"))})
		return reference.Numbers(p.X.Millimetres(), p.Y.Millimetres()), err
	},
	"photo_pixel_size": func(in *reference.Inputs, u string) (reference.Value, error) {
		v, err := pictured(in)
		return inUnit(u, err, v.PixelSize(shape.Point{X: in.Length("x"), Y: in.Length("y")}))
	},
	"photo_camera": func(in *reference.Inputs, u string) (reference.Value, error) {
		v, err := pictured(in)
		return inUnit(u, err, v.Camera().Height)
	},
}

func pictured(in *reference.Inputs) (photo.View, error) {
	at, err := numbers(in, "seen")
	if err != nil {
		return photo.View{}, err
	}
	const x, y = 100 * unit.Millimetre, 75 * unit.Millimetre
	var page photo.Page
	for i, corner := range []shape.Point{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}} {
		if 2*i+1 >= len(at) {
			return photo.View{}, missing("a corner")
		}
		page = append(page, photo.Mark{Seen: photo.Pixel{X: shape.Pixels(at[2*i]), Y: shape.Pixels(at[2*i+1])}, At: corner})
	}
	return photo.See(4000, 3000, []photo.Page{page}, photo.Options{Straight: true})
}
