package evaluate

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// goodsEvaluators are those of patterns on rolls and of hides by the usual loss.
var goodsEvaluators = map[string]reference.Evaluator{
	"sold_area": func(in *reference.Inputs, u string) (reference.Value, error) {
		o, err := shape.Rectangle(in.Length("width"), in.Length("height"))
		s := material.Skin{Outline: o}
		if in.Has("marked") {
			s.Area = in.Area("marked")
		}
		return areaIn(s.SoldArea(), u, err)
	},
	"stock_part": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s := material.Stock{Roll: material.Roll{Width: in.Length("width"), Repeat: in.Length("repeat"), First: shape.Point{Y: in.Length("first")}}, Length: in.Length("length")}
		p, err := s.Part(in.Length("x"), in.Length("y"), in.Length("part_width"), in.Length("part_length"))
		return reference.Numbers(p.Roll.Width.Inches(), p.Length.Inches(), p.Roll.First.Y.Inches()), err
	},
	"pattern_extra": func(in *reference.Inputs, _ string) (reference.Value, error) {
		e, err := material.ExtraForPattern(in.Length("width"), in.Length("vertical"), in.Length("horizontal"))
		return reference.Numbers(e.Share.Percent()).On(e.Basis), err
	},
	"whole_hides": func(in *reference.Inputs, _ string) (reference.Value, error) {
		w := material.WholeHideWaste()
		e, err := material.HidesToBuy(in.Area("net"), material.Hide{Area: in.Area("hide")}, w)
		return reference.Numbers(e.Gross.SquareFeet(), float64(e.Hides)).On(w.Basis), err
	},
	"motif_rise": func(in *reference.Inputs, _ string) (reference.Value, error) {
		r, err := patternRoll(in)
		return reference.Numbers(r.Motifs().Rise(in.Int("column")).Inches()), err
	},
	"motif_columns": func(in *reference.Inputs, _ string) (reference.Value, error) {
		r, err := patternRoll(in)
		r.Across, r.AcrossLevel = 0, in.Length("level")
		return reference.Numbers(r.Columns().Inches()), err
	},
	"motif_after": func(in *reference.Inputs, _ string) (reference.Value, error) {
		r, err := patternRoll(in)
		p := r.Motifs().After(in.Length("x"), in.Length("y"))
		return reference.Numbers(p.X.Inches(), p.Y.Inches()), err
	},
	"motif_apart": func(in *reference.Inputs, _ string) (reference.Value, error) {
		r, err := patternRoll(in)
		p := r.Motifs().Apart(shape.Point{X: in.Length("x"), Y: in.Length("y")})
		return reference.Numbers(p.X.Inches(), p.Y.Inches()), err
	},
	"usable_width": func(in *reference.Inputs, _ string) (reference.Value, error) {
		r := material.Roll{Width: in.Length("width"), Selvage: in.Length("selvage")}
		return reference.Numbers(r.Usable().Inches(), material.Flaw{X: in.Length("flaw")}.Across(r).Inches()), nil
	},
	"mean_skin": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var s material.SkinSupply
		for _, text := range in.List("sample") {
			a, err := unit.ParseArea(text + " sq ft")
			if err != nil {
				return reference.Value{}, err
			}
			s.Sample = append(s.Sample, a)
		}
		return reference.Numbers(s.MeanArea().SquareFeet()), nil
	},
}

// patternRoll is goods of 54 in with a repeat each way and a drop such as 1/2.
func patternRoll(in *reference.Inputs) (material.Roll, error) {
	r := material.Roll{Width: 54 * unit.Inch, Repeat: in.Length("repeat"), Across: in.Length("across")}
	return r, r.Drop.UnmarshalText([]byte(in.Text("drop")))
}
