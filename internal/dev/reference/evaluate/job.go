package evaluate

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var jobEvaluators = map[string]reference.Evaluator{
	"cushion_part":  jobCushionPart,
	"cushion_net":   jobCushionNet,
	"cushion_zip":   jobCushionZip,
	"cushion_cord":  jobCushionCord,
	"cushion_sewn":  jobCushionSewn,
	"cushion_joins": jobCushionJoins,
	"cushion_foam":  jobCushionFoam,
	"cushion_need":  jobCushionNeed,

	"job_finding_steps":  jobFindingSteps,
	"job_finding_charge": jobFindingCharge,
	"job_finding_sum":    jobFindingSum,
}

// jobOf works out a job of one boxed cushion with welt, zip and foam, of cloth with
// a nap.
func jobOf(in *reference.Inputs) (job.WorkOrder, error) {
	s, err := job.ReadSpec(strings.NewReader(fmt.Sprintf(`{"schema": "coverwright/job/1", "name": "bench", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "60.00 USD/yd", "width": %q, "nap": true}],
		"pieces": [{"name": "bench", "cushions": [{"name": "cushion", "width": %q, "depth": %q, "thickness": %q, "top": "cloth", "zip": true, "welt": {"cord": %q},
			"foam": {"use": "bench", "duty": "normal", "base": "board", "price": "3.40 USD/bd ft"}}]}],
		"quote": {"labour_rate": "60.00 USD/h"}}`, in.Text("usable"), in.Text("width"), in.Text("depth"), in.Text("thickness"), in.Text("cord"))))
	if err != nil {
		return job.WorkOrder{}, err
	}
	return job.Build(context.Background(), s, job.Options{Effort: 0.1})
}

// allowances gives what the allowances of all its pieces rest on.
func allowances(o job.WorkOrder) []cite.Basis {
	var out []cite.Basis
	for _, c := range o.Cuts {
		out = append(out, c.Basis...)
	}
	return out
}

// jobCushionPart evaluates the pieces of one name: how many, and their cut size.
func jobCushionPart(in *reference.Inputs, _ string) (reference.Value, error) {
	o, err := jobOf(in)
	if err != nil {
		return reference.Value{}, err
	}
	i := slices.IndexFunc(o.Cuts, func(c job.Cut) bool { return c.Part == "cushion, "+in.Text("part") })
	if i < 0 {
		return reference.Value{}, fmt.Errorf("no part %q", in.Text("part"))
	}
	c := o.Cuts[i]
	return reference.Text(fmt.Sprintf("%d of %s x %s", c.Count, c.Cut.Width, c.Cut.Length)).On(allowances(o)...), nil
}

func jobCushionNet(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := jobOf(in)
	if err != nil {
		return reference.Value{}, err
	}
	return on(allowances(o)...)(areaIn(o.Purchases[0].Net, u, nil))
}

func jobCushionZip(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := jobOf(in)
	if err != nil {
		return reference.Value{}, err
	}
	return on(allowances(o)...)(lengthIn(o.Assembly[0].Work.Zips[0].Tape, u))
}

func jobCushionCord(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := jobOf(in)
	if err != nil {
		return reference.Value{}, err
	}
	var cord unit.Length
	for _, c := range o.Cuts {
		cord += c.Welt
	}
	return lengthIn(cord, u)
}

// jobCushionSewn evaluates all rows of stitching together.
func jobCushionSewn(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := jobOf(in)
	if err != nil {
		return reference.Value{}, err
	}
	var sum unit.Length
	for _, s := range o.Sewing.SetUps {
		sum += s.Length
	}
	return on(allowances(o)...)(lengthIn(sum, u))
}

// jobCushionJoins evaluates the places where the boxing is joined, from the middle
// of the back.
func jobCushionJoins(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := jobOf(in)
	if err != nil {
		return reference.Value{}, err
	}
	var at []unit.Length
	for _, c := range o.Cuts {
		if c.Boxing != nil {
			for _, j := range c.Boxing.Joins {
				at = append(at, j.At)
			}
		}
	}
	return on(allowances(o)...)(inUnit(u, nil, at...))
}

func jobCushionFoam(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := jobOf(in)
	if err != nil {
		return reference.Value{}, err
	}
	v, err := unit.ParseVolume("1 " + u)
	if err != nil {
		return reference.Value{}, err
	}
	return reference.Numbers(float64(o.Foam[0].Volume) / float64(v)), nil
}

// jobCushionNeed evaluates the length of goods that the layout needs.
func jobCushionNeed(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := jobOf(in)
	if err != nil {
		return reference.Value{}, err
	}
	return on(allowances(o)...)(lengthIn(o.Purchases[0].Plan.Need, u))
}
