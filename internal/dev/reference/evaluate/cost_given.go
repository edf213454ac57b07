package evaluate

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
)

// givenEvaluators are those of what is taken off a price, of one of several, and
// of the fee for goods that are the customer's own.
var givenEvaluators = map[string]reference.Evaluator{
	"discount": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var f first
		d := cost.Discount{Name: "discount"}
		if in.Has("rate") {
			d.Rate = in.Ratio("rate")
		} else {
			d.Amount = f.money(in.Text("amount") + " USD")
		}
		q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Discounts: []cost.Discount{d}}, lumps(in, "price", cost.USD, &f)...)
		f.note(err)
		return reference.Numbers(amount(q.Discount), amount(q.Total)), f.err
	},
	"group_each": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var f first
		lines := lumps(in, "lines", cost.USD, &f)
		for i := range lines {
			lines[i].Shares = []cost.Share{{Group: "chairs", Weight: 1}}
		}
		q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Groups: []cost.GroupCount{{Name: "chairs", Items: in.Int("items")}}}, lines...)
		f.note(err)
		if f.err != nil {
			return reference.Value{}, f.err
		}
		each, err := q.Groups[0].Each(cost.HalfUp)
		return reference.Numbers(amount(each)), err
	},
	"owned_fee": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var f first
		var h stock.Handling
		of := stock.Owned{Name: "goods"}
		var err error
		switch {
		case in.Has("per_length"):
			h.PerLength, err = cost.ParsePrice[unit.Length](in.Text("per_length"))
			of.Length = in.Length("length")
		case in.Has("per_area"):
			h.PerArea, err = cost.ParsePrice[unit.Area](in.Text("per_area"))
			of.Area = in.Area("area")
		default:
			share := in.Ratio("share")
			h.Share, of.Markup, of.Cost = &share, in.Ratio("markup"), f.money(in.Text("cost"))
		}
		f.note(err)
		_, fee, err := h.Line(of, cost.HalfUp)
		f.note(err)
		return reference.Numbers(amount(fee)), f.err
	},
}
