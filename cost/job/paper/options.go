package paper

import (
	"maps"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// Option is another way to do the job, with its price.
type Option struct {
	Name    string   `json:"name"`
	Changes []string `json:"changes"` // what is other than in the job
	// Total is with tax, Difference = Total - that of the job.
	Total      cost.Money `json:"total"`
	Difference cost.Money `json:"difference"`
	Range      *Range     `json:"range,omitempty"` // of an estimate
	Covers     []Cover    `json:"covers,omitempty"`
}

// choices fills in the options, which are for a customer who has not decided.
func (p *Paper) choices(o job.WorkOrder) error {
	if p.Kind != Estimate && p.Kind != Quotation {
		return nil
	}
	for i, x := range o.Options {
		own := Option{Name: x.Name, Changes: changes(o, x), Total: x.Quote.Total}
		var err error
		if own.Difference, err = x.Quote.Total.Minus(o.Quote.Total); err == nil && p.Kind == Estimate {
			own.Range, err = rangeOf(x.Quote, x.Quote.Total)
		}
		if err != nil {
			return unit.InField(unit.Path("options").At(i), err)
		}
		put := map[string]bool{}
		for _, g := range x.Goods {
			put[g.With] = true
		}
		own.Covers = coversOf(slices.DeleteFunc(slices.Clone(x.Purchases), func(b job.Purchase) bool { return !put[b.Goods] }), x.Cuts, nil)
		p.Options = append(p.Options, own)
	}
	return nil
}

// changes says in words what an option has in the place of what.
func changes(o job.WorkOrder, x job.OptionPrice) []string {
	var out names
	as, with := calls(o.Purchases), calls(x.Purchases)
	for _, g := range x.Goods {
		out.add(with[g.With] + " in place of " + as[g.Goods])
	}
	for _, b := range x.Foam {
		out.add("another filling: " + b.Part)
	}
	for _, code := range slices.Sorted(maps.Keys(x.Findings)) {
		out.add(called(x.Quote, x.Findings[code]) + " in place of " + called(o.Quote, code))
	}
	for _, b := range x.Labour {
		out.add("done otherwise: " + strings.TrimPrefix(b.Piece+", ", ", ") + b.Task)
	}
	return out
}

// called names a finding as the quote does; what is not on it by its kind.
func called(q cost.Quote, code string) string {
	if l, listed := q.Line(code); listed {
		return l.What
	}
	id, _, _ := strings.Cut(code, ",")
	if s, known := freshly[id]; known {
		return s
	}
	return "another finding"
}

// calls gives the names of goods by their ids.
func calls(list []job.Purchase) map[string]string {
	out := map[string]string{}
	for _, p := range list {
		out[p.Goods] = p.Name
	}
	return out
}
