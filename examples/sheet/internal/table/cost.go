package table

import (
	"context"
	"math"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

const costGroup = "Money and time"

const modeHelp = "half-up, half-even, half-down, up, down, ceiling or floor"

func cents(m cost.Money, err error) (Result, error) {
	if err != nil {
		return Result{}, err
	}
	n, err := m.Minor()
	if err == nil && (n > 1<<53 || n < -1<<53) {
		err = check.Refuse("", m.String(), unit.ErrOverflow, "under 2^53 cents")
	}
	return number(float64(n)), err
}

func centsColumn(ms []cost.Money, err error) (Result, error) {
	out := make([]float64, len(ms))
	for i, m := range ms {
		r, e := cents(m, err)
		if e != nil {
			return Result{}, e
		}
		out[i] = r.Number
	}
	return column(out), err
}

// mode reads a rounding mode; half-up when it is left out.
func (a *args) mode(name string) cost.Rounding {
	r := cost.HalfUp
	a.into(name, &r)
	return r
}

// wholeShares gives weights that are whole numbers of at most 2^53.
func (a *args) weights(name string) []int64 {
	g := a.grid(name, 1)
	out := make([]int64, len(g))
	for i, r := range g {
		if r[0] != math.Trunc(r[0]) || math.Abs(r[0]) >= 1<<53 {
			a.fail(Num, name, "whole numbers are wanted, such as cents or minutes")
			return nil
		}
		out[i] = int64(r[0])
	}
	return out
}

var costFunctions = []Function{
	{
		Method: "markupCents", Group: costGroup, Result: Number, Unit: "cents",
		Help:    "Price for a cost with a markup on the cost, rounded half up.",
		Args:    []Arg{num("cost_cents", "cost in whole cents"), num("markup_percent", "0 to 10000")},
		Example: []any{10000.0, 25.0},
		Bad:     []Bad{{Value, []any{10000.0}}, {Num, []any{100.5, 25.0}}},
		call: func(a *args) (Result, error) {
			return cents(cost.Markup(a.percent("markup_percent")).Price(a.cents("cost_cents"), cost.HalfUp))
		},
	},
	{
		Method: "marginCents", Group: costGroup, Result: Number, Unit: "cents",
		Help:    "Price for a cost that leaves a margin of the price, rounded half up.",
		Args:    []Arg{num("cost_cents", "cost in whole cents"), num("margin_percent", "0 to 99")},
		Example: []any{10000.0, 20.0},
		Bad:     []Bad{{Value, []any{10000.0}}, {Num, []any{10000.0, 100.0}}},
		call: func(a *args) (Result, error) {
			return cents(cost.Margin(a.percent("margin_percent")).Price(a.cents("cost_cents"), cost.HalfUp))
		},
	},
	{
		Method: "marginPercent", Group: costGroup, Result: Number, Unit: "%",
		Help:    "Share of the price that is not cost: (price - cost) / price.",
		Args:    []Arg{num("cost_cents", "cost in whole cents"), num("price_cents", "price in whole cents")},
		Example: []any{8000.0, 10000.0},
		Bad:     []Bad{{Value, []any{8000.0}}, {Num, []any{80.25, 100.0}}, {DivideByZero, []any{8000.0, 0.0}}},
		call: func(a *args) (Result, error) {
			r, err := cost.MarginOf(a.cents("cost_cents"), a.cents("price_cents"))
			return number(r.Percent()), err
		},
	},
	{
		Method: "markupPercent", Group: costGroup, Result: Number, Unit: "%",
		Help:    "What a price adds to the cost: (price - cost) / cost.",
		Args:    []Arg{num("cost_cents", "cost in whole cents"), num("price_cents", "price in whole cents")},
		Example: []any{8000.0, 10000.0},
		Bad:     []Bad{{Value, []any{8000.0}}, {Num, []any{80.25, 100.0}}, {DivideByZero, []any{0.0, 10000.0}}},
		call: func(a *args) (Result, error) {
			r, err := cost.MarkupOf(a.cents("cost_cents"), a.cents("price_cents"))
			return number(r.Percent()), err
		},
	},
	{
		Method: "markupToMarginPercent", Group: costGroup, Result: Number, Unit: "%",
		Help:    "The margin that a markup leaves: m / (1 + m).",
		Args:    []Arg{num("markup_percent", "above -100")},
		Example: []any{25.0},
		Bad:     []Bad{{Value, []any{"25 %"}}, {Num, []any{-100.0}}},
		call: func(a *args) (Result, error) {
			r, err := cost.MarginOfMarkup(a.percent("markup_percent"))
			return number(r.Percent()), err
		},
	},
	{
		Method: "marginToMarkupPercent", Group: costGroup, Result: Number, Unit: "%",
		Help:    "The markup that leaves a margin: g / (1 - g).",
		Args:    []Arg{num("margin_percent", "under 100")},
		Example: []any{20.0},
		Bad:     []Bad{{Value, []any{"20 %"}}, {Num, []any{100.0}}},
		call: func(a *args) (Result, error) {
			r, err := cost.MarkupOfMargin(a.percent("margin_percent"))
			return number(r.Percent()), err
		},
	},
	{
		Method: "shopRateCents", Group: costGroup, Result: Number, Unit: "cents per hour",
		Help: "Price of an hour at the bench: wage with its burden, a share of the overhead, and a margin. Each part is rounded half up.",
		Args: []Arg{
			num("wage_cents", "hourly wage"), num("burden_percent", "on top of the wage, 0 to 300"), num("overhead_cents", "overhead of a year"),
			num("hours", "hours of a year that can be sold, all workers"), num("margin_percent", "margin of the rate that is charged"),
		},
		Example: []any{2000.0, 56.5, 17500000.0, 8604.0, 20.0},
		Bad:     []Bad{{Value, []any{2000.0, 56.5, 17500000.0, 8604.0}}, {Num, []any{2000.0, 56.5, 17500000.0, 0.0, 20.0}}},
		call: func(a *args) (Result, error) {
			wage, err := cost.Per(a.cents("wage_cents"), unit.Hour)
			if a.fault != nil || err != nil {
				return Result{}, err
			}
			r, err := rate.ShopRate{Wage: wage, Burden: a.percent("burden_percent"), Overhead: a.cents("overhead_cents"), Hours: a.hours("hours"),
				Uplift: cost.Margin(a.percent("margin_percent"))}.Rate(cost.HalfUp)
			return cents(r.Sold, err)
		},
	},
	{
		Method: "labourCents", Group: costGroup, Result: Number, Unit: "cents",
		Help:    "Price of time at a rate, rounded half up.",
		Args:    []Arg{num("hours", "time; a thousandth of a second is the least step"), num("rate_cents", "rate of an hour")},
		Example: []any{9.5, 6455.0},
		Bad:     []Bad{{Value, []any{9.5}}, {Num, []any{-1.0, 6455.0}}},
		call: func(a *args) (Result, error) {
			p, err := cost.Per(a.cents("rate_cents"), unit.Hour)
			if a.fault != nil || err != nil {
				return Result{}, err
			}
			return cents(p.Of(a.hours("hours"), cost.HalfUp))
		},
	},
	{
		Method: "learningHours", Group: costGroup, Result: Number, Unit: "h",
		Help:    "Time of several pieces alike when each doubling of their number leaves a share of the time of one (unit model).",
		Args:    []Arg{num("first_hours", "time of the first piece"), num("count", "pieces, 1 or more"), num("rate_percent", "50 to 100; take it from your own bench")},
		Example: []any{1.0, 6.0, 95.0},
		Bad:     []Bad{{Value, []any{1.0, 6.0}}, {Num, []any{1.0, 6.0, 40.0}}},
		call: func(a *args) (Result, error) {
			n := a.count("count")
			if n > 1_000_000 {
				a.fail(Num, "count", "a million pieces at most")
			}
			if a.fault != nil {
				return Result{}, a.fault
			}
			d, err := rate.Learning{Model: rate.UnitModel, Rate: a.percent("rate_percent")}.Total(a.hours("first_hours"), n)
			return number(d.Hours()), err
		},
	},
	{
		Method: "taxCents", Group: costGroup, Result: Number, Unit: "cents",
		Help:    "Tax on an amount, rounded once.",
		Args:    []Arg{num("amount_cents", "amount without tax"), num("rate_percent", "rate of the tax"), wordOr("rounding", modeHelp, "half-up")},
		Example: []any{12345.0, 6.25},
		Bad:     []Bad{{Value, []any{12345.0}}, {Num, []any{12345.5, 6.25}}, {Missing, []any{12345.0, 6.25, "fair"}}},
		call: func(a *args) (Result, error) {
			return cents(a.cents("amount_cents").Scale(a.percent("rate_percent"), a.mode("rounding")))
		},
	},
	{
		Method: "taxInsideCents", Group: costGroup, Result: Number, Unit: "cents",
		Help:    "Tax contained in a price: gross x rate / (1 + rate), rounded once. The rate counts to a hundredth of a percent.",
		Args:    []Arg{num("gross_cents", "price with tax"), num("rate_percent", "rate of the tax, from 0"), wordOr("rounding", modeHelp, "half-up")},
		Example: []any{12000.0, 20.0},
		Bad:     []Bad{{Value, []any{12000.0}}, {Num, []any{12000.0, -20.0}}, {Missing, []any{12000.0, 20.0, "fair"}}},
		call: func(a *args) (Result, error) {
			hundredths := math.Round(a.number("rate_percent") * 100)
			if hundredths < 0 || hundredths > 1e6 || math.Abs(hundredths-a.number("rate_percent")*100) > 1e-6 {
				a.fail(Num, "rate_percent", "0 to 10000 in steps of a hundredth")
			}
			if a.fault != nil {
				return Result{}, a.fault
			}
			return cents(a.cents("gross_cents").MulDiv(int64(hundredths), 10_000+int64(hundredths), a.mode("rounding")))
		},
	},
	{
		Method: "roundCents", Group: costGroup, Result: Number, Unit: "cents",
		Help:    "Rounds an amount to a step, such as 5 cents.",
		Args:    []Arg{num("amount_cents", "amount in whole cents"), num("step_cents", "the step, above zero"), wordOr("rounding", modeHelp, "half-up")},
		Example: []any{1998.0, 5.0},
		Bad:     []Bad{{Value, []any{1998.0}}, {Num, []any{1998.0, 0.0}}, {Missing, []any{1998.0, 5.0, "fair"}}},
		call: func(a *args) (Result, error) {
			return cents(a.cents("amount_cents").RoundTo(a.cents("step_cents"), a.mode("rounding")))
		},
	},
	{
		Method: "allocateCents", Group: costGroup, Result: Column, Unit: "cents",
		Help:    "Splits an amount over weights so that the parts add up to it: one part below the other (an array formula).",
		Args:    []Arg{num("whole_cents", "amount to split"), rows("weights", "whole numbers, such as cents or minutes")},
		Example: []any{10000.0, [][]any{{1.0}, {1.0}, {1.0}}},
		Bad:     []Bad{{Value, []any{10000.0, [][]any{{"one"}}}}, {Num, []any{10000.0, [][]any{{0.0}}}}},
		call: func(a *args) (Result, error) {
			w := a.weights("weights")
			if a.fault != nil {
				return Result{}, a.fault
			}
			return centsColumn(cost.Allocate(a.cents("whole_cents"), w))
		},
	},
	{
		Method: "splitCents", Group: costGroup, Result: Column, Unit: "cents",
		Help:    "Splits an amount into equal parts that add up to it, the larger ones first (an array formula).",
		Args:    []Arg{num("whole_cents", "amount to split"), num("count", "parts, 1 to 2000")},
		Example: []any{10001.0, 2.0},
		Bad:     []Bad{{Value, []any{10001.0}}, {Num, []any{10001.0, 0.0}}},
		call: func(a *args) (Result, error) {
			n := a.count("count")
			if n > MostRows {
				a.fail(Num, "count", "2000 parts at most")
			}
			if a.fault != nil {
				return Result{}, a.fault
			}
			return centsColumn(cost.Split(a.cents("whole_cents"), n))
		},
	},
	{
		Method: "goodsCents", Group: costGroup, Result: Number, Unit: "cents",
		Help: "What a list of pieces costs cut from a roll: laid out by a short search, ordered to the seller's step and priced.",
		Args: []Arg{
			rows("pieces", cutsHelp), num("roll_width_in", "width of the goods"), num("price_cents", "price of a yard"), numOr("repeat_in", "vertical repeat", "plain goods"),
			numOr("step_yd", "step the seller cuts to", "none"),
		},
		Example: []any{[][]any{{26.0, 31.0, 2.0}, {14.0, 22.0, 4.0}}, 54.0, 6800.0, 27.0, 0.25},
		Bad:     []Bad{{Value, []any{[][]any{{26.0, 31.0, 2.0}}, 54.0}}, {Num, []any{[][]any{{60.0, 31.0, 2.0}}, 54.0, 6800.0}}},
		call: func(a *args) (Result, error) {
			roll := material.Roll{Width: a.inches("roll_width_in"), Repeat: a.inches("repeat_in"), Increment: a.length("step_yd", unit.Yard)}
			pieces, most := a.pieces("pieces")
			price, err := cost.Per(a.cents("price_cents"), unit.Yard)
			if most > 200 {
				a.fail(Num, "pieces", "200 pieces at most: use a work order")
			}
			if a.fault != nil || err != nil {
				return Result{}, err
			}
			got, best, err := job.CompareRolls(context.Background(), []job.RollOffer{{Roll: roll, Price: price}}, pieces, layout.Options{Effort: 0.001})
			if err == nil && best < 0 {
				err = layout.ErrTooWide
			}
			if err != nil {
				return Result{}, err
			}
			return cents(got[best].Cost, nil)
		},
	},
}
