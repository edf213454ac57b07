package evaluate

import (
	"bytes"
	"context"
	"embed"
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/cost/job/supplies"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
)

// Whole jobs worked out by hand, from the sizes to the last payment; each note of
// their rows has one step of it. Prices are invented.
//
//go:embed jobs/*.json
var wholeJobs embed.FS

// wholeEvaluators are those of whole jobs.
var wholeEvaluators = map[string]reference.Evaluator{
	"job_cut": func(in *reference.Inputs, _ string) (reference.Value, error) {
		o, err := wholeOrder(in)
		if err != nil {
			return reference.Value{}, err
		}
		c := o.Cuts[0]
		return reference.Numbers(float64(c.Count), c.Cut.Width.Inches(), c.Cut.Length.Inches()), nil
	},
	"job_buy": func(in *reference.Inputs, _ string) (reference.Value, error) {
		o, err := wholeOrder(in)
		if err != nil {
			return reference.Value{}, err
		}
		p := o.Purchases[0]
		return reference.Numbers(p.Length.Yards(), float64(p.Hides), p.Net.SquareInches()), nil
	},
	"job_cut_area": func(in *reference.Inputs, _ string) (reference.Value, error) {
		o, err := wholeOrder(in)
		if err != nil {
			return reference.Value{}, err
		}
		var sum unit.Area
		for _, c := range o.CutsOf(in.Text("goods")) {
			each, err := c.Cut.Width.By(c.Cut.Length)
			if err != nil {
				return reference.Value{}, err
			}
			sum += each * unit.Area(c.Count)
		}
		return reference.Numbers(sum.SquareInches()), nil
	},
	"job_laid": func(in *reference.Inputs, _ string) (reference.Value, error) {
		o, err := wholeOrder(in)
		if err != nil {
			return reference.Value{}, err
		}
		var laid int
		for _, l := range o.Purchases[0].Layouts() {
			laid += len(l.Plan.Places)
		}
		return reference.Numbers(float64(laid)), nil
	},
	"job_supplies": func(in *reference.Inputs, _ string) (reference.Value, error) {
		o, err := wholeOrder(in)
		if err != nil {
			return reference.Value{}, err
		}
		list, err := supplies.Of(o, supplies.Options{})
		var out []string
		for _, l := range list.Lines() {
			if !l.Unpriced {
				out = append(out, l.Quantity.String())
			}
		}
		return reference.Text(strings.Join(out, ";")), err
	},
	"job_paper": func(in *reference.Inputs, _ string) (reference.Value, error) {
		o, err := wholeOrder(in)
		if err != nil {
			return reference.Value{}, err
		}
		p, err := paper.Of(o, 0, nil)
		out := []float64{amount(p.Net), amount(p.Total)}
		for _, x := range p.Payments {
			out = append(out, amount(x.Amount))
		}
		return reference.Numbers(out...), err
	},
	"job_foam": func(in *reference.Inputs, _ string) (reference.Value, error) {
		o, err := wholeOrder(in)
		if err != nil {
			return reference.Value{}, err
		}
		return reference.Numbers(o.Foam[0].Volume.BoardFeet()), nil
	},
	"job_money": func(in *reference.Inputs, _ string) (reference.Value, error) {
		o, err := wholeOrder(in)
		if err != nil {
			return reference.Value{}, err
		}
		q := o.Quote
		switch of := in.Text("of"); of {
		case "net":
			return moneyValue(q.Net, nil)
		case "tax":
			return moneyValue(q.Tax, nil)
		case "total":
			return moneyValue(q.Total, nil)
		case "cost":
			return moneyValue(q.Cost, nil)
		case "profit":
			return moneyValue(q.Profit, nil)
		case "cash":
			return moneyValue(q.Cash.Payable, nil)
		case "deposit":
			return moneyValue(q.Payments[0].Amount, nil)
		case "balance":
			return moneyValue(q.Payments[1].Amount, nil)
		default:
			k, err := cost.ParseKind(of)
			return moneyValue(q.SubtotalOf(k), err)
		}
	},
}

// wholeOrder works out the job file of a name.
func wholeOrder(in *reference.Inputs) (job.WorkOrder, error) {
	text, err := wholeJobs.ReadFile("jobs/" + in.Text("job") + ".json")
	if err != nil {
		return job.WorkOrder{}, fmt.Errorf("no job: %w", err)
	}
	return job.Read(context.Background(), bytes.NewReader(text), job.Options{Effort: 0.01})
}
