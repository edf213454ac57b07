package evaluate

import (
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// seamEvaluators are those of what a seam takes and holds.
var seamEvaluators = map[string]reference.Evaluator{
	"bobbin_holds": func(in *reference.Inputs, u string) (reference.Value, error) {
		var size thread.Size
		if err := size.UnmarshalText([]byte(in.Text("size"))); err != nil {
			return reference.Value{}, err
		}
		l, err := thread.Bobbin{Outer: in.Length("outer"), Core: in.Length("core"), Width: in.Length("width"), Wound: in.Density("wound")}.Holds(size)
		if err != nil {
			return reference.Value{}, err
		}
		return lengthIn(l, u)
	},
	"loop_factor": func(in *reference.Inputs, _ string) (reference.Value, error) {
		stitch, of := thread.Stitch(in.Int("stitch")), in.Text("thread")
		for _, f := range thread.LoopFactors() {
			if f.Stitch == stitch && f.Thread == of {
				return reference.Numbers(float64(f.Factor)).On(f.Basis), nil
			}
		}
		return reference.Value{}, missing("loop factor")
	},
	"seam_efficiency": func(in *reference.Inputs, _ string) (reference.Value, error) {
		seam, err := thread.LineForceOf(in.Force("seam"), unit.Inch)
		if err != nil {
			return reference.Value{}, err
		}
		goods, err := thread.LineForceOf(in.Force("goods"), unit.Inch)
		if err != nil {
			return reference.Value{}, err
		}
		r, err := thread.SeamEfficiency(seam, goods)
		return reference.Numbers(r.Percent()), err
	},
	"line_force": func(in *reference.Inputs, _ string) (reference.Value, error) {
		f, err := thread.LineForceOf(in.Force("force"), in.Length("width"))
		if err != nil {
			return reference.Value{}, err
		}
		return reference.Numbers(f.NewtonsPerMetre(), f.Over(in.Length("over")).Newtons()), nil
	},
	"stitch_lengths": func(in *reference.Inputs, _ string) (reference.Value, error) {
		short, long, err := thread.StitchRange{From: thread.StitchesPerInch(in.Float("from")), To: thread.StitchesPerInch(in.Float("to"))}.Lengths()
		return reference.Numbers(short.Millimetres(), long.Millimetres()), err
	},
	"stitches_per_inch": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := thread.StitchesPerInchOf(in.Length("stitch"))
		return reference.Numbers(float64(s)), err
	},
	"fahrenheit": func(in *reference.Inputs, _ string) (reference.Value, error) {
		t, err := thread.FahrenheitOf(in.Float("f"))
		return reference.Numbers(t.Celsius()), err
	},
	"back_tack_for": func(in *reference.Inputs, _ string) (reference.Value, error) {
		g, err := goods(in)
		if err != nil {
			return reference.Value{}, err
		}
		l, basis, err := thread.BackTackFor(g)
		return reference.Numbers(l.Millimetres()).On(basis), err
	},
}
