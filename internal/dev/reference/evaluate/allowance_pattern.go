package evaluate

import (
	"errors"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/allowance/shape/photo"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
)

// patternEvaluators are those of what is drawn of a piece and of where it lies on
// paper, and of outlines and pages in a photo.
var patternEvaluators = map[string]reference.Evaluator{
	"pattern_hands": patternHands,
	"pattern_scale": func(in *reference.Inputs, _ string) (reference.Value, error) {
		times := in.Int("times")
		whole, err := pattern.Strip(in.Length("width"), in.Length("length"))
		large, largeErr := pattern.Strip(in.Length("width")*unit.Length(times), in.Length("length")*unit.Length(times))
		if err := errors.Join(err, largeErr); err != nil {
			return reference.Value{}, err
		}
		o := pattern.Picture{Width: 400, Height: 400, Plain: true}
		a, err := o.ScaleOf(whole)
		b, largeErr := o.ScaleOf(large)
		return reference.Numbers(float64(a / b)), errors.Join(err, largeErr)
	},
	"pattern_rule": func(in *reference.Inputs, u string) (reference.Value, error) {
		far, tick, err := pattern.Gap{To: shape.Point{X: in.Length("to")}}.Rule(pattern.Inches)
		return inUnit(u, err, far, tick.X)
	},
	"pattern_on_sheet": func(in *reference.Inputs, u string) (reference.Value, error) {
		p := pattern.Place{Turned: in.Bool("turned"), Shift: shape.Point{X: in.Length("shift_x"), Y: in.Length("shift_y")}}
		q := p.On(shape.Point{X: in.Length("x"), Y: in.Length("y")})
		return inUnit(u, nil, q.X, q.Y)
	},
	"test_square": func(in *reference.Inputs, u string) (reference.Value, error) {
		return lengthIn(pattern.Sheet{Width: in.Length("width"), Height: in.Length("height"), Margin: in.Length("margin"), Foot: in.Length("foot")}.TestSquare(), u)
	},
	"paper_a4": func(in *reference.Inputs, u string) (reference.Value, error) {
		err := noInputs(in)
		s := pattern.A4()
		return inUnit(u, err, s.Width, s.Height)
	},
	"photo_fit": photoFit,
	"photo_marks": func(in *reference.Inputs, _ string) (reference.Value, error) {
		marks, err := page(in, "seen", "at")
		if err != nil {
			return reference.Value{}, err
		}
		v, err := photo.See(4000, 3000, []photo.Page{marks}, photo.Options{})
		sigma, spare := v.Sigma()
		return reference.Numbers(float64(v.Lens()), float64(len(v.Off())), float64(sigma), float64(spare)), err
	},
	"photo_spread": func(in *reference.Inputs, u string) (reference.Value, error) {
		marks, err := page(in, "seen", "at")
		if err != nil {
			return reference.Value{}, err
		}
		v, err := photo.See(4000, 3000, []photo.Page{marks}, photo.Options{Straight: true, MarkSpread: shape.Pixels(in.Float("mark_spread"))})
		if err != nil {
			return reference.Value{}, err
		}
		l, _ := v.Spread(shape.Point{X: in.Length("x"), Y: in.Length("y")})
		return inUnit(u, nil, l)
	},
	"photo_scale_error": func(in *reference.Inputs, u string) (reference.Value, error) {
		marks, err := page(in, "seen", "at")
		if err != nil {
			return reference.Value{}, err
		}
		o, err := shape.Rectangle(in.Length("w"), in.Length("h"))
		if err != nil {
			return reference.Value{}, err
		}
		v, err := photo.See(4000, 3000, []photo.Page{marks}, photo.Options{Straight: true, ScaleError: in.Ratio("scale_error")})
		if err != nil {
			return reference.Value{}, err
		}
		e, err := v.ErrorOf(o)
		return inUnit(u, err, e.Scale, e.Thickness)
	},
	"photo_page": func(in *reference.Inputs, _ string) (reference.Value, error) {
		first, err := page(in, "seen", "at")
		second, secondErr := page(in, "second_seen", "second_at")
		if err := errors.Join(err, secondErr); err != nil {
			return reference.Value{}, err
		}
		v, err := photo.See(4000, 3000, []photo.Page{first, second}, photo.Options{Straight: true})
		p, _ := v.Page(1)
		return reference.Numbers(p.Turn.Degrees(), p.Move.X.Millimetres(), p.Move.Y.Millimetres()), err
	},
}

// patternHands draws a rectangle with raw edges and a nick in its bottom edge, and
// gives its size, where the nick is on the other hand, and the width of the half
// without it.
func patternHands(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := shape.Rectangle(in.Length("width"), in.Length("length"))
	if err != nil {
		return reference.Value{}, err
	}
	p := allowance.CoverPanel{Panel: allowance.Panel{Name: "panel", Outline: o, AllEdges: allowance.Edge{Finish: allowance.Raw}}}
	plain, err := p.Cut()
	if err != nil {
		return reference.Value{}, err
	}
	half, ok := pattern.Of(plain).Half()
	if !ok {
		return reference.Value{}, errors.New("no half")
	}
	p.Notches = []allowance.Notch{{Edge: "bottom", At: in.Length("nick")}}
	whole, err := pattern.OfPiece(allowance.CoverPiece{Name: "panel", Panel: p.Panel})
	if err != nil {
		return reference.Value{}, err
	}
	b := half.Bounds()
	return inUnit(u, nil, whole.Width, whole.Length, whole.Mirror().Notches[0].Cut.X, b.High.X-b.Low.X)
}

// photoFit gives the size and area of the outline through points of the border of a
// rectangle, a step apart.
func photoFit(in *reference.Inputs, _ string) (reference.Value, error) {
	w, h, step := in.Length("width"), in.Length("height"), in.Length("step")
	if step <= 0 {
		return reference.Value{}, missing("a step")
	}
	var border []shape.Point
	for x := unit.Length(0); x < w; x += step {
		border = append(border, shape.Point{X: x})
	}
	for y := unit.Length(0); y < h; y += step {
		border = append(border, shape.Point{X: w, Y: y})
	}
	for x := w; x > 0; x -= step {
		border = append(border, shape.Point{X: x, Y: h})
	}
	for y := h; y > 0; y -= step {
		border = append(border, shape.Point{Y: y})
	}
	o, _, err := photo.Fit(border, photo.FitOptions{})
	if err != nil {
		return reference.Value{}, err
	}
	width, height := o.Size()
	return reference.Numbers(width.Millimetres(), height.Millimetres(), o.Area().SquareMillimetres()), nil
}

// page reads the marks of a page: where they are seen, in pixels, and where they
// are, in millimetres.
func page(in *reference.Inputs, seen, at string) (photo.Page, error) {
	s, err := numbers(in, seen)
	if err != nil {
		return nil, err
	}
	a, err := numbers(in, at)
	if err != nil {
		return nil, err
	}
	var out photo.Page
	for i := 0; i+1 < min(len(s), len(a)); i += 2 {
		x, err := unit.Millimetre.Scale(unit.Ratio(a[i]), unit.Nearest)
		if err != nil {
			return nil, err
		}
		y, err := unit.Millimetre.Scale(unit.Ratio(a[i+1]), unit.Nearest)
		if err != nil {
			return nil, err
		}
		out = append(out, photo.Mark{Seen: photo.Pixel{X: shape.Pixels(s[i]), Y: shape.Pixels(s[i+1])}, At: shape.Point{X: x, Y: y}})
	}
	return out, nil
}
