package evaluate

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/reference"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

var threadEvaluators = map[string]reference.Evaluator{
	"thread_spec_strength":    threadSpecStrength,
	"thread_spec_yield":       threadSpecYield,
	"thread_finished_count":   threadFinishedCount,
	"thread_count":            threadCount,
	"thread_stitch_length":    threadStitchLength,
	"thread_density":          threadDensity,
	"thread_needles":          threadNeedles,
	"thread_needles_numbered": threadNeedlesNumbered,
	"thread_consumption":      threadConsumption,
}

// missing reports a gap where a row expects a figure.
func missing(what string) error { return fmt.Errorf("%s is a gap", what) }

func threadSpec(in *reference.Inputs) (thread.Specified, error) {
	return thread.SpecFor(in.Text("document"), in.Text("kind"), in.Text("size"))
}

func threadSpecStrength(in *reference.Inputs, _ string) (reference.Value, error) {
	s, err := threadSpec(in)
	if err != nil {
		return reference.Value{}, err
	}
	f, ok := s.MinStrength.Value()
	if !ok {
		return reference.Value{}, missing("strength")
	}
	return reference.Numbers(f.PoundsForce()), nil
}

func threadSpecYield(in *reference.Inputs, _ string) (reference.Value, error) {
	s, err := threadSpec(in)
	if err != nil {
		return reference.Value{}, err
	}
	y, ok := s.MinYield.Value()
	if !ok {
		return reference.Value{}, missing("yield")
	}
	ypp, err := y.YardsPerPound()
	return reference.Numbers(ypp), err
}

func threadFinishedCount(in *reference.Inputs, _ string) (reference.Value, error) {
	s, err := thread.ParseSize(in.Text("size"))
	return reference.Numbers(s.Finished().Tex()), err
}

// threadCount writes a count in another system.
func threadCount(in *reference.Inputs, u string) (reference.Value, error) {
	d := in.LinearDensity("count")
	switch u {
	case "tex":
		return reference.Numbers(d.Tex()), nil
	case "den":
		return reference.Numbers(d.Denier()), nil
	case "dtex":
		return reference.Numbers(d.Decitex()), nil
	case "Ne":
		x, err := d.CottonCount()
		return reference.Numbers(x), err
	case "Nm":
		x, err := d.MetricCount()
		return reference.Numbers(x), err
	case "yd/lb":
		x, err := d.YardsPerPound()
		return reference.Numbers(x), err
	}
	return reference.Value{}, fmt.Errorf("count in %q", u)
}

func threadStitchLength(in *reference.Inputs, _ string) (reference.Value, error) {
	l, err := thread.StitchesPerInch(in.Float("spi")).StitchLength()
	return reference.Numbers(l.Millimetres()), err
}

func goods(in *reference.Inputs) (thread.Goods, error) {
	var g thread.Goods
	err := g.UnmarshalText([]byte(in.Text("goods")))
	return g, err
}

func threadDensity(in *reference.Inputs, _ string) (reference.Value, error) {
	g, err := goods(in)
	if err != nil {
		return reference.Value{}, err
	}
	r, err := thread.DensityFor(g)
	return reference.Numbers(float64(r.From), float64(r.To)), err
}

func threadNeedles(in *reference.Inputs, u string) (reference.Value, error) {
	g, err := goods(in)
	if err != nil {
		return reference.Value{}, err
	}
	s, err := thread.ParseSize(in.Text("size"))
	if err != nil {
		return reference.Value{}, err
	}
	r, err := thread.NeedlesFor(s, g)
	if err != nil {
		return reference.Value{}, err
	}
	if u == "Nm" {
		return reference.Numbers(float64(r.From), float64(r.To)), nil
	}
	from, _ := r.From.Number()
	to, _ := r.To.Number()
	return reference.Numbers(float64(from)/10, float64(to)/10), nil
}

func threadNeedlesNumbered(in *reference.Inputs, _ string) (reference.Value, error) {
	n, err := thread.NeedlesByNumber(in.Int("number"))
	x := make([]float64, len(n))
	for i := range n {
		x[i] = float64(n[i])
	}
	return reference.Numbers(x...), err
}

// threadConsumption gives the total for a seam of one unit length a thousand
// times over, so that rounding to a nanometre does not show.
func threadConsumption(in *reference.Inputs, _ string) (reference.Value, error) {
	l, err := thread.StitchesPerInch(in.Float("spi")).StitchLength()
	if err != nil {
		return reference.Value{}, err
	}
	u, err := thread.Consume(thread.Seam{
		Length:       1000 * unit.Inch,
		Thickness:    in.Length("thickness"),
		Stitch:       thread.Stitch(in.Int("stitch")),
		StitchLength: l,
	})
	return reference.Numbers(u.Total.Inches() / 1000), err
}
