package evaluate

import (
	"errors"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// seatEvaluators are those of what is recommended for a seat, of foam that is
// tried on a bench, and of foam under load.
var seatEvaluators = map[string]reference.Evaluator{
	"seat_target": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foamSelect(in)
		return reference.Numbers(s.Target.PoundsForce()).On(cite.Practice("default drawn from the figures of the trade")), err
	},
	"support_range": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foamSelect(in)
		return reference.Numbers(float64(s.Support.Low), float64(s.Support.High)).On(cite.Practice("")), err
	},
	"bench_ifd25": func(in *reference.Inputs, _ string) (reference.Value, error) {
		e, err := benchTest(in)
		return reference.Numbers(e.Value.PoundsForce()).On(e.Basis), err
	},
	"bench_ifd25_bars": func(in *reference.Inputs, _ string) (reference.Value, error) {
		e, err := benchTest(in)
		return foamForces(foam.Range[foam.IFD25]{Low: e.Low, High: e.High}).On(cite.Practice("the spread of home-made tests is unsourced")), err
	},
	"ifd25_estimate": func(in *reference.Inputs, _ string) (reference.Value, error) {
		e, err := foam.EstimateIFD25(foam.HardnessA(in.Force("hardness")))
		return reference.Numbers(e.Low.PoundsForce(), e.Value.PoundsForce(), e.High.PoundsForce()).On(e.Basis), err
	},
	"hardness_loss": func(in *reference.Inputs, _ string) (reference.Value, error) {
		r, err := foam.HardnessLoss(in.Force("before"), in.Force("after"))
		return reference.Numbers(r.Percent()), err
	},
	"curve_pressure": func(in *reference.Inputs, _ string) (reference.Value, error) {
		c, err := foamCurve(in)
		if err != nil {
			return reference.Value{}, err
		}
		p, err := c.Pressure(in.Ratio("strain"))
		return reference.Numbers(p.PoundsPerSquareInch()), err
	},
	"curve_energy": func(in *reference.Inputs, _ string) (reference.Value, error) {
		c, err := foamCurve(in)
		if err != nil {
			return reference.Value{}, err
		}
		p, err := c.Energy(in.Ratio("strain"))
		return reference.Numbers(p.PoundsPerSquareInch()), err
	},
	"layer_bottoms": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foamStack(in)
		if err != nil {
			return reference.Value{}, err
		}
		p, err := s.FirstBottoms()
		return reference.Numbers(p.PoundsPerSquareInch()), err
	},
	"layer_load": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foamStack(in)
		if err != nil {
			return reference.Value{}, err
		}
		p, err := s.AtSink(in.Length("sink"))
		return reference.Numbers(p.Pressure.PoundsPerSquareInch()), err
	},
	"layer_equivalent": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foamStack(in)
		if err != nil {
			return reference.Value{}, err
		}
		i, err := s.EquivalentIFD25()
		return reference.Numbers(i.PoundsForce(), s.Thickness().Inches()), err
	},
	"block_face": func(in *reference.Inputs, _ string) (reference.Value, error) {
		a, err := foamBlock(in, "block").Face()
		return reference.Numbers(a.SquareInches()), err
	},
	"below_cover": func(in *reference.Inputs, _ string) (reference.Value, error) {
		stack, err := foamStack(in)
		s, sitErr := foam.Sit(stack, foam.Sitter{Mass: in.Mass("mass"), Share: in.Ratio("share"), Disc: in.Length("disc")})
		if err := errors.Join(err, sitErr); err != nil {
			return reference.Value{}, err
		}
		l, err := s.BelowCover(in.Length("height"))
		return reference.Numbers(l.Inches()), err
	},
	"thickness_sinks": func(in *reference.Inputs, _ string) (reference.Value, error) {
		c, err := foamCurve(in)
		var all []unit.Length
		for _, text := range in.List("thicknesses") {
			l, parseErr := unit.ParseLength(text + " in")
			all, err = append(all, l), errors.Join(err, parseErr)
		}
		if err != nil {
			return reference.Value{}, err
		}
		effects, err := foam.CompareThickness(c, foam.Sitter{Mass: in.Mass("mass"), Share: in.Ratio("share"), Disc: in.Length("disc")}, all...)
		var sinks []float64
		for _, e := range effects {
			sinks = append(sinks, e.Sitting.Sink.Value.Inches())
		}
		return reference.Numbers(sinks...), err
	},
}

// benchTest is a bench test of foam read by its disc, weight, sink and thickness.
func benchTest(in *reference.Inputs) (foam.Estimated[foam.IFD25], error) {
	return foam.IdentifyIFD25(foam.BenchTest{Disc: in.Length("disc"), Weight: in.Mass("weight"), Sink: in.Length("sink"), Thickness: in.Length("thickness")})
}
