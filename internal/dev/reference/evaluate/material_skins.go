package evaluate

import (
	"context"
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var skinEvaluators = map[string]reference.Evaluator{
	"part_area": func(in *reference.Inputs, u string) (reference.Value, error) {
		p, err := partShare(in.Text("part"))
		if err != nil {
			return reference.Value{}, err
		}
		a, err := p.Of(in.Area("area"))
		return on(p.Basis)(areaIn(a, u, err))
	},
	"part_share": func(in *reference.Inputs, _ string) (reference.Value, error) {
		p, err := partShare(in.Text("part"))
		return reference.Numbers(float64(p.Share)).On(p.Basis), err
	},
	"stretch_across": func(in *reference.Inputs, _ string) (reference.Value, error) {
		a, err := material.StretchAcross(in.Angle("tightness"))
		return reference.Numbers(a.Degrees()), err
	},
	"natural_shape": func(in *reference.Inputs, _ string) (reference.Value, error) {
		k, err := skinKind(in)
		if err != nil {
			return reference.Value{}, err
		}
		o, err := material.NaturalShape(k, in.Area("area"))
		if err != nil {
			return reference.Value{}, err
		}
		w, l := o.Size()
		return reference.Numbers(w.Feet(), l.Feet()), nil
	},
	"usual_area": func(in *reference.Inputs, _ string) (reference.Value, error) {
		k, err := skinKind(in)
		if err != nil {
			return reference.Value{}, err
		}
		r := material.UsualAreas(k)[0]
		return reference.Numbers(r.From.SquareFeet(), r.To.SquareFeet()).On(r.Basis), nil
	},
	"cutting_yield": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var s material.PieceSize
		if err := s.UnmarshalText([]byte(in.Text("size"))); err != nil {
			return reference.Value{}, err
		}
		y := material.Yields(s)[0]
		return reference.Numbers(float64(y.From), float64(y.To)).On(y.Basis), nil
	},
	"cutting_yields": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var s material.PieceSize
		if err := s.UnmarshalText([]byte(in.Text("size"))); err != nil {
			return reference.Value{}, err
		}
		var out []float64
		var bases []cite.Basis
		for _, y := range material.Yields(s) {
			out, bases = append(out, float64(y.From), float64(y.To)), append(bases, y.Basis)
		}
		return reference.Numbers(out...).On(bases...), nil
	},
	"thickness_range": func(in *reference.Inputs, _ string) (reference.Value, error) {
		use := in.Text("use")
		for _, r := range material.UpholsteryThickness() {
			if r.Use == use {
				return reference.Numbers(r.From.Millimetres(), r.To.Millimetres()).On(r.Basis), nil
			}
		}
		return reference.Value{}, fmt.Errorf("no such use: %s", use)
	},
	"forecast_chance": func(in *reference.Inputs, _ string) (reference.Value, error) {
		f, err := forecast(in)
		return reference.Numbers(float64(f.Chance)), err
	},
	"forecast_skins": func(in *reference.Inputs, _ string) (reference.Value, error) {
		f, err := forecast(in)
		return reference.Numbers(float64(f.Skins)), err
	},
	"skin_plan": func(in *reference.Inputs, _ string) (reference.Value, error) {
		skins, err := countedPieces(in.List("skins"))
		if err != nil {
			return reference.Value{}, err
		}
		pieces, err := countedPieces(in.List("panels"))
		if err != nil {
			return reference.Value{}, err
		}
		var on []material.Skin
		for _, s := range skins {
			for range s.Count {
				on = append(on, material.Skin{Outline: s.Outline})
			}
		}
		plan, err := layout.Solve(context.Background(), layout.Job{Hides: &layout.Hides{OnOffer: on}, Pieces: pieces}, layout.Options{Effort: 0.1})
		if err == nil && !plan.Complete() {
			err = fmt.Errorf("%d panels unplaced", len(plan.Unplaced))
		}
		return reference.Numbers(float64(len(plan.Used))), err
	},
	"roll_plan": func(in *reference.Inputs, u string) (reference.Value, error) {
		o, err := shape.Circle(in.Length("diameter"))
		if err != nil {
			return reference.Value{}, err
		}
		plan, err := layout.Solve(context.Background(), layout.Job{Roll: &material.Roll{Width: in.Length("width")},
			Pieces: []layout.Piece{{Outline: o, Count: in.Int("count")}}}, layout.Options{Effort: 0.1})
		if err != nil {
			return reference.Value{}, err
		}
		return lengthIn(plan.Need, u)
	},
}

func partShare(name string) (material.PartShare, error) {
	for _, p := range material.PartShares() {
		if p.Part == name {
			return p, nil
		}
	}
	return material.PartShare{}, fmt.Errorf("no such part: %s", name)
}

func skinKind(in *reference.Inputs) (k material.SkinKind, err error) {
	return k, k.UnmarshalText([]byte(in.Text("kind")))
}

func forecast(in *reference.Inputs) (material.SkinForecast, error) {
	supply := material.SkinSupply{Mean: in.Area("mean"), Spread: in.Area("spread")}
	return material.ForecastSkins(in.Area("net"), supply, material.YieldRange{From: 1, To: 1}, unit.Ratio(in.Float("confidence")))
}
