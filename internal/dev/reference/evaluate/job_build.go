package evaluate

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// buildEvaluators are those of how a piece is built, and of rolls and widths set
// side by side.
var buildEvaluators = map[string]reference.Evaluator{
	"build_loose": func(in *reference.Inputs, _ string) (reference.Value, error) {
		runs, err := lengths(in, "runs")
		needs := build.Loose{HookAndLoop: runs, Snaps: in.Int("snaps"), Drains: in.Int("drains")}.Needs(in.Int("cushions"))
		return netOf(needs, err)
	},
	"build_needs": func(in *reference.Inputs, _ string) (reference.Value, error) {
		feet, glides := in.Int("feet"), in.Int("glides")
		runs, err := lengths(in, "runs")
		needs, questions, specErr := build.Spec{Feet: &feet, Glides: &glides, More: []build.More{{ID: "card strip", Runs: runs}}}.Needs()
		if len(questions) > 0 {
			return reference.Value{}, fmt.Errorf("asks %s", questions[0].Text)
		}
		return netOf(needs, errors.Join(err, specErr))
	},
	"build_run": func(in *reference.Inputs, _ string) (reference.Value, error) {
		runs, err := lengths(in, "runs")
		if err != nil {
			return reference.Value{}, err
		}
		s, err := build.Run(in.Text("finding"), runs).Order(findings.Buying[unit.Length]{})
		return reference.Numbers(s.Net.Inches(), s.Ends.Inches()), err
	},
	"job_rolls":        jobRolls,
	"job_yardage_card": jobYardageCard,
}

// netOf gives the net of every need: lengths in inches, the rest counted.
func netOf(needs []build.Need, err error) (reference.Value, error) {
	var out []float64
	var bases []cite.Basis
	for _, n := range needs {
		bases = append(bases, n.Basis)
		if l, ok := cost.QuantityAs[unit.Length](n.Net); ok {
			out = append(out, l.Inches())
			continue
		}
		c, _ := cost.QuantityAs[cost.Pieces](n.Net)
		out = append(out, float64(c))
	}
	return reference.Numbers(out...).On(bases...), err
}

// jobRolls prices pieces on two widths of one cloth, and gives which is cheaper, the
// first counted 0.
func jobRolls(in *reference.Inputs, _ string) (reference.Value, error) {
	pieces, err := countedPieces(in.List("pieces"))
	if err != nil {
		return reference.Value{}, err
	}
	var offers []job.RollOffer
	for _, n := range []string{"first", "second"} {
		p, err := cost.ParsePrice[unit.Length](in.Text(n + "_price"))
		if err != nil {
			return reference.Value{}, err
		}
		offers = append(offers, job.RollOffer{Roll: material.Roll{Width: in.Length(n)}, Price: p, Margin: &material.WorkingMargin{}})
	}
	rolls, best, err := job.CompareRolls(context.Background(), offers, pieces, layout.Options{Effort: 0.01})
	var out []float64
	for _, r := range rolls {
		out = append(out, r.Ordered.Order.Inches(), amount(r.Cost))
	}
	return reference.Numbers(append(out, float64(best))...), err
}

// jobYardageCard gives the lengths of the card of four panels with a motif each, in
// inches: on 54 and on 48 in, plain and with each of the repeats.
func jobYardageCard(in *reference.Inputs, _ string) (reference.Value, error) {
	s, err := job.ReadSpec(strings.NewReader(fmt.Sprintf(`{"schema": "coverwright/job/1", "name": "panels", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "60.00 USD/yd", "width": "54 in", "repeat": "9 in", "increment": %q, "margin": {}}],
		"pieces": [{"name": "wall", "panels": [{"name": "panel", "goods": "cloth", "count": 4, "width": %q, "length": %q, "motif": "1 in, 1 in", "edges": "raw"}]}],
		"quote": {"labour_rate": "60.00 USD/h"}}`, in.Text("increment"), in.Text("width"), in.Text("length"))))
	if err != nil {
		return reference.Value{}, err
	}
	card, err := job.YardageCard(context.Background(), s, job.Options{Effort: 0.01})
	var out []float64
	for _, c := range card {
		out = append(out, c.Length.Inches())
	}
	return reference.Numbers(out...), err
}
