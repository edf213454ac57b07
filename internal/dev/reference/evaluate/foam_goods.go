package evaluate

import (
	"context"
	"errors"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/foam/sheet"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit/cite"
)

// foamGoodsEvaluators are those of foam as a merchant lists and sells it: grades,
// shapes out of blocks, blocks out of sheets.
var foamGoodsEvaluators = map[string]reference.Evaluator{
	"grade_pressure": func(in *reference.Inputs, _ string) (reference.Value, error) {
		g := foam.Grade{Name: "grade", Density: in.Density("density"), IFD25: foam.IFD25(in.Force("ifd25"))}
		if in.Has("ifd65") {
			g.IFD65 = foam.IFD65(in.Force("ifd65"))
		}
		c, assumed, err := g.Curve()
		if err != nil {
			return reference.Value{}, err
		}
		p, err := c.Pressure(in.Ratio("strain"))
		v := reference.Numbers(p.PoundsPerSquareInch())
		if assumed {
			v = v.On(cite.Practice("the low end of the usual support factors"))
		}
		return v, err
	},
	"selection_layer": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foamSelect(in)
		if err != nil {
			return reference.Value{}, err
		}
		stack := foam.Stack{s.Layer("top", in.Length("layer"))}
		i, err := stack.EquivalentIFD25()
		p, bottomErr := stack.FirstBottoms()
		return reference.Numbers(i.PoundsForce(), stack.Thickness().Inches(), p.PoundsPerSquareInch()).
			On(cite.Practice("default drawn from the figures of the trade")), errors.Join(err, bottomErr)
	},
	"supply": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foam.SupplyOf(foam.Cylinder{Diameter: in.Length("diameter"), Length: in.Length("length")}, in.Density("density"))
		return reference.Numbers(s.Bought.BoardFeet(), s.Finished.CubicInches(), s.Waste.Percent(), s.Mass.Pounds()), err
	},
	"sheets": func(in *reference.Inputs, _ string) (reference.Value, error) {
		b, s := foamBlock(in, "block"), foamBlock(in, "sheet")
		p, err := sheet.Lay(context.Background(), []sheet.Part{{Name: "seat", Block: b, Count: in.Int("count")}},
			sheet.Rules{Stock: []sheet.Stock{{Name: "sheet", Length: s.Length, Width: s.Width, Thickness: s.Thickness}}})
		sheets := 0
		for _, o := range p.Orders {
			sheets += o.Count
		}
		return reference.Numbers(float64(sheets), p.Bought.BoardFeet(), p.Used.BoardFeet(), p.Waste.Percent()), err
	},
}
