package evaluate

import (
	"bytes"
	"context"
	"embed"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Job files of furniture worked out by hand. Their prices are invented.
//
//go:embed findings/*.json
var findingJobs embed.FS

// findingOrder works out the job file of a name.
func findingOrder(in *reference.Inputs) (job.WorkOrder, error) {
	text, err := findingJobs.ReadFile("findings/" + in.Text("job") + ".json")
	if err != nil {
		return job.WorkOrder{}, err
	}
	return job.Read(context.Background(), bytes.NewReader(text), job.Options{Effort: 0.001})
}

// findingLine finds a line of it.
func findingLine(in *reference.Inputs) (build.Line, error) {
	o, err := findingOrder(in)
	if err != nil {
		return build.Line{}, err
	}
	i := slices.IndexFunc(o.Findings, func(l build.Line) bool { return l.ID == in.Text("finding") })
	if i < 0 {
		return build.Line{}, fmt.Errorf("no finding %q", in.Text("finding"))
	}
	return o.Findings[i], nil
}

// jobFindingSteps evaluates net with its ends, gross and use of a finding.
func jobFindingSteps(in *reference.Inputs, u string) (reference.Value, error) {
	l, err := findingLine(in)
	if err != nil {
		return reference.Value{}, err
	}
	var out []float64
	for _, q := range []cost.AnyQuantity{l.Net, l.Ends, l.Gross, l.Use} {
		x, err := inAny(q, u)
		if err != nil {
			return reference.Value{}, err
		}
		out = append(out, x)
	}
	return reference.Numbers(out...).On(l.Basis), nil
}

// inAny divides a quantity of any kind by one of the unit.
func inAny(q cost.AnyQuantity, u string) (float64, error) {
	var one cost.AnyQuantity
	if err := one.UnmarshalText([]byte("1 " + u)); err != nil {
		return 0, err
	}
	if l, ok := cost.QuantityAs[unit.Length](q); ok {
		per, _ := cost.QuantityAs[unit.Length](one)
		return float64(l) / float64(per), nil
	}
	if m, ok := cost.QuantityAs[unit.Mass](q); ok {
		per, _ := cost.QuantityAs[unit.Mass](one)
		return float64(m) / float64(per), nil
	}
	if v, ok := cost.QuantityAs[unit.Volume](q); ok {
		per, _ := cost.QuantityAs[unit.Volume](one)
		return float64(v) / float64(per), nil
	}
	n, _ := cost.QuantityAs[cost.Pieces](q)
	return float64(n), nil
}

// jobFindingCharge evaluates what a finding is charged, before markup.
func jobFindingCharge(in *reference.Inputs, _ string) (reference.Value, error) {
	l, err := findingLine(in)
	if err != nil {
		return reference.Value{}, err
	}
	if l.Paid != build.Priced {
		return reference.Text(string(l.Paid)).On(l.Basis), nil
	}
	return reference.Text(l.Charge.String()).On(l.Basis), nil
}

// jobFindingSum evaluates what all findings are charged together, and how many have
// no price.
func jobFindingSum(in *reference.Inputs, _ string) (reference.Value, error) {
	o, err := findingOrder(in)
	if err != nil {
		return reference.Value{}, err
	}
	var all []cost.Money
	var bases []cite.Basis
	for _, l := range o.Findings {
		all, bases = append(all, l.Charge), append(bases, l.Basis)
	}
	sum, err := cost.Sum(all...)
	return reference.Text(fmt.Sprintf("%s, %d unpriced", sum, o.Unpriced)).On(bases...), err
}
