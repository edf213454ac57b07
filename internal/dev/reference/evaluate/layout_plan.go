package evaluate

import (
	"context"
	"errors"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// planEvaluators are those of what a plan of a roll says of itself.
var planEvaluators = map[string]reference.Evaluator{
	"plan_yield": func(in *reference.Inputs, _ string) (reference.Value, error) {
		pieces, err := countedPieces(in.List("pieces"))
		if err != nil {
			return reference.Value{}, err
		}
		l, err := layout.Solve(context.Background(), layout.Job{Roll: &material.Roll{Width: in.Length("width")}, Pieces: pieces}, layout.Options{Effort: 0.01})
		if err != nil {
			return reference.Value{}, err
		}
		net, err := l.Net()
		yield, yieldErr := l.Yield()
		density, densityErr := l.Density()
		all, allErr := layout.NetArea(pieces)
		return reference.Numbers(net.SquareInches(), all.SquareInches(), yield.Percent(), density.Percent(), l.Bound().Length.Inches(), l.Gap().Percent()),
			errors.Join(err, yieldErr, densityErr, allErr)
	},
}

// outlineMeasures are those of plain figures read by their outline.
var outlineMeasures = map[string]reference.Evaluator{
	"rectangle_extent": func(in *reference.Inputs, _ string) (reference.Value, error) {
		o, err := shape.Rectangle(in.Length("w"), in.Length("h"))
		if err != nil {
			return reference.Value{}, err
		}
		l, err := o.Extent(in.Angle("along"))
		return reference.Numbers(l.Inches()), err
	},
	"rectangle_bounds": func(in *reference.Inputs, _ string) (reference.Value, error) {
		o, err := shape.Rectangle(in.Length("w"), in.Length("h"))
		low, high := o.Bounds()
		return reference.Numbers((high.X - low.X).Inches(), (high.Y - low.Y).Inches()), err
	},
	"rectangle_nearest": func(in *reference.Inputs, _ string) (reference.Value, error) {
		o, err := shape.Rectangle(in.Length("w"), in.Length("h"))
		if err != nil {
			return reference.Value{}, err
		}
		low, _ := o.Bounds()
		at, off, err := o.Nearest("bottom", shape.Point{X: low.X + in.Length("x"), Y: low.Y + in.Length("y")})
		span, spanErr := o.EdgeSpan("bottom")
		return reference.Numbers(at.Inches(), off.Inches(), span.Inches()), errors.Join(err, spanErr)
	},
	"rect_sewn": func(in *reference.Inputs, _ string) (reference.Value, error) {
		welt := allowance.Edge{Finish: allowance.WeltedSeam}
		c, err := allowance.RectPanel{Width: in.Length("width"), Height: in.Length("height"), Top: welt, Right: welt, Left: welt,
			Bottom: allowance.Edge{Finish: allowance.TurnedUnder}}.Cut()
		return reference.Numbers(c.SewnLength().Inches(), c.SeamLength(allowance.WeltedSeam).Inches()), err
	},
}

// stuffingEvaluators are those of hair and of flat cloth.
var stuffingEvaluators = map[string]reference.Evaluator{
	"hair": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := findings.Hair{Area: in.Area("area"), Foot: in.Mass("foot"), Old: in.Bool("old")}.Order(findings.Buying[unit.Mass]{Step: unit.Pound})
		return reference.Numbers(s.Net.Pounds(), s.Use.Pounds()), err
	},
	"flat_cloth": func(in *reference.Inputs, _ string) (reference.Value, error) {
		c, err := findings.Sheet{Width: in.Length("width"), Depth: in.Length("depth"), Rail: in.Length("rail"), Turn: in.Length("turn"), Rise: in.Length("rise")}.Cut()
		return reference.Numbers(c.Width.Inches(), c.Depth.Inches()), err
	},
}
