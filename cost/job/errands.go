package job

import (
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// errandNames are how quotes name tasks around the bench.
var errandNames = map[bench.Task]string{bench.Measure: "measuring on site", bench.Quote: "quoting", bench.Order: "ordering and receiving goods",
	bench.Collect: "collecting", bench.Deliver: "delivering", bench.Set: "setting up"}

// errands gives the lines of tasks around the bench.
func errands(s Spec, t bench.Table) ([]worked, faults) {
	var f faults
	var out []worked
	if len(s.Errands) > maxCount {
		f.add("errands", check.Count("", len(s.Errands), 0, maxCount))
		return nil, f
	}
	var names []string
	for _, e := range bench.Errands() {
		names = append(names, e.String())
	}
	for i, e := range s.Errands {
		at := unit.Path("errands").At(i)
		var own faults
		if !slices.Contains(bench.Errands(), e.Task) {
			own.add(at.Dot("task"), check.OneOf("", e.Task.String(), names...))
		}
		if e.Name != "" {
			own.add(at.Dot("name"), checkName(e.Name))
		}
		own.add(at.Dot("count"), checkCount(e.Count))
		own.add(at.Dot("actual"), checkActual(e.Actual))
		if e.Time != 0 {
			own.add(at.Dot("time"), checkTime(e.Time))
		}
		if f = append(f, own...); len(own) > 0 {
			continue
		}
		est, err := t.Estimate(bench.Build{Tasks: []bench.Task{e.Task}})
		if err != nil {
			f.addAs(at.Dot("task"), err)
			continue
		}
		l := est.Lines[0]
		w := worked{kind: cost.Labour, Bench: Bench{Task: e.Name, Count: copies(e.Count), Each: e.Time, Does: []bench.Task{e.Task}, Range: l.Time, Usual: l.Usual,
			FromTable: e.Time == 0, TaxClass: l.TaxClass, Actual: e.Actual}}
		if e.Task == bench.Collect || e.Task == bench.Deliver {
			w.kind = cost.Delivery
		}
		if w.Task == "" {
			w.Task = errandNames[e.Task]
		}
		if w.FromTable {
			w.Each, w.how = l.Usual, []cost.Figure{fromTable(l)}
		}
		if w.Time, err = w.Each.Times(w.Count); err != nil {
			f.add(at.Dot("count"), err)
			continue
		}
		if w.Time > 0 { // a shop may have it for nothing
			out = append(out, w)
		}
	}
	return out, f
}

// deliveredTwice tells of an extra for delivery beside errands that collect or deliver.
func deliveredTwice(s Spec) []string {
	var out []string
	for _, x := range s.Quote.Extras {
		for _, e := range s.Errands {
			if x.Kind == cost.Delivery && (e.Task == bench.Collect || e.Task == bench.Deliver) {
				out = append(out, "The extra “"+x.Name+"” stands beside errands for "+errandNames[e.Task]+".")
			}
		}
	}
	return out
}

// fromTable says how a line of the usual time came about.
func fromTable(l bench.Line) cost.Figure {
	return cost.Figure{Name: "usual time: " + l.Name(), Value: l.Usual.String(), Formula: "range of the table of times, at a share of it", Working: l.How,
		Rule: "a rule of thumb, from " + l.Time.String() + "; rounded to the minute", Basis: l.Basis}
}
