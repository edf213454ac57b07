package table

import (
	"context"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

const costGroup = "Money and time"

const modeHelp = "half-up, half-even, half-down, up, down, ceiling or floor"

// mostMarkup and mostShare are the largest shares that can be meant. A whole
// share of a price leaves nothing of it.
const (
	mostMarkup unit.Ratio = 3
	mostShare  unit.Ratio = 0.99
)

// mode reads a rounding mode; half-up when it is left out.
func (a *args) mode(name string) cost.Rounding {
	r := cost.HalfUp
	a.into(name, &r)
	return r
}

func (a *args) markup(key string) unit.Ratio { return a.share(key, 0, mostMarkup) }
func (a *args) part(key string) unit.Ratio   { return a.share(key, 0, mostShare) }

var (
	costArg  = amount("cost", "what it costs, from 0")
	priceArg = amount("price", "what it is sold for, from 0")
)

var moneyFunctions = []Function{
	{
		Method: "markupPrice", Group: costGroup, Result: Amount,
		Help:    "Price for a cost with a markup on the cost, rounded half up.",
		Args:    []Arg{costArg, share("markup", "0 % to 300 % of the cost")},
		Example: []any{100.0, 0.25},
		Bad:     []Bad{{Value, []any{100.0}}, {Num, []any{100.0, 25.0}}, {Num, []any{100.005, 0.25}}, {Missing, []any{100.0, 0.25, "dollars"}}},
		call: func(a *args) (Result, error) {
			return money(cost.Markup(a.markup("markup")).Price(a.paid("cost"), cost.HalfUp))
		},
	},
	{
		Method: "marginPrice", Group: costGroup, Result: Amount,
		Help:    "Price for a cost that leaves a margin of the price, rounded half up.",
		Args:    []Arg{costArg, share("margin", "0 % to 99 % of the price")},
		Example: []any{100.0, "20 %"},
		Bad:     []Bad{{Value, []any{100.0}}, {Num, []any{100.0, 20.0}}, {Num, []any{-100.0, 0.2}}, {Missing, []any{100.0, 0.2, "dollars"}}},
		call: func(a *args) (Result, error) {
			return money(cost.Margin(a.part("margin")).Price(a.paid("cost"), cost.HalfUp))
		},
	},
	{
		Method: "marginOf", Group: costGroup, Result: Share,
		Help:    "Share of the price that is not cost: (price - cost) / price. Under zero where it is sold at a loss.",
		Args:    []Arg{costArg, priceArg},
		Example: []any{80.0, 100.0},
		Bad:     []Bad{{Value, []any{80.0}}, {Num, []any{80.0, -0.05}}, {DivideByZero, []any{80.0, 0.0}}, {Missing, []any{80.0, 100.0, "dollars"}}},
		call: func(a *args) (Result, error) {
			r, err := cost.MarginOf(a.paid("cost"), a.paid("price"))
			return number(float64(r)), err
		},
	},
	{
		Method: "markupOf", Group: costGroup, Result: Share,
		Help:    "What a price adds to the cost: (price - cost) / cost. Under zero where it is sold at a loss.",
		Args:    []Arg{costArg, priceArg},
		Example: []any{80.0, 100.0},
		Bad:     []Bad{{Value, []any{80.0}}, {Num, []any{-80.0, 100.0}}, {DivideByZero, []any{0.0, 100.0}}, {Missing, []any{80.0, 100.0, "dollars"}}},
		call: func(a *args) (Result, error) {
			r, err := cost.MarkupOf(a.paid("cost"), a.paid("price"))
			return number(float64(r)), err
		},
	},
	{
		Method: "markupToMargin", Group: costGroup, Result: Share,
		Help:    "The margin that a markup leaves: m / (1 + m).",
		Args:    []Arg{share("markup", "0 % to 300 %")},
		Example: []any{"25 %"},
		Bad:     []Bad{{Value, []any{"25"}}, {Num, []any{25.0}}, {Num, []any{-0.25}}},
		call: func(a *args) (Result, error) {
			r, err := cost.MarginOfMarkup(a.markup("markup"))
			return number(float64(r)), err
		},
	},
	{
		Method: "marginToMarkup", Group: costGroup, Result: Share,
		Help:    "The markup that leaves a margin: g / (1 - g).",
		Args:    []Arg{share("margin", "0 % to 99 %")},
		Example: []any{0.2},
		Bad:     []Bad{{Value, []any{"a fifth"}}, {Num, []any{20.0}}},
		call: func(a *args) (Result, error) {
			r, err := cost.MarkupOfMargin(a.part("margin"))
			return number(float64(r)), err
		},
	},
	{
		Method: "shopRate", Group: costGroup, Result: Amount,
		Help: "Price of an hour at the bench: wage with its burden, a share of the overhead, and a margin. Each part is rounded half up.",
		Args: []Arg{
			amount("wage", "hourly wage"), share("burden", "on top of the wage, 0 % to 300 %"), amount("overhead", "overhead of a year"),
			num("sold_hours", "hours of a year that can be sold, all workers"), share("margin", "margin of the rate that is charged"),
		},
		Example: []any{20.0, 0.565, 175000.0, 8604.0, 0.2},
		Bad:     []Bad{{Value, []any{20.0, 0.565, 175000.0, 8604.0}}, {Num, []any{20.0, 0.565, 175000.0, 0.0, 0.2}}, {Num, []any{20.0, 56.5, 175000.0, 8604.0, 0.2}}, {Missing, []any{20.0, 0.565, 175000.0, 8604.0, 0.2, "dollars"}}},
		call: func(a *args) (Result, error) {
			wage, err := cost.Per(a.paid("wage"), unit.Hour)
			if a.fault != nil || err != nil {
				return Result{}, err
			}
			r, err := rate.ShopRate{Wage: wage, Burden: a.share("burden", 0, 3), Overhead: a.paid("overhead"), Hours: a.hours("sold_hours"),
				Uplift: cost.Margin(a.part("margin"))}.Rate(cost.HalfUp)
			return money(r.Sold, err)
		},
	},
	{
		Method: "labourPrice", Group: costGroup, Result: Amount,
		Help:    "Price of time at a rate, rounded half up.",
		Args:    []Arg{num("time_hours", "time; a thousandth of a second is the least step"), amount("rate", "rate of an hour")},
		Example: []any{9.5, 64.55},
		Bad:     []Bad{{Value, []any{9.5}}, {Num, []any{-1.0, 64.55}}, {Missing, []any{9.5, 64.55, "dollars"}}},
		call: func(a *args) (Result, error) {
			p, err := cost.Per(a.paid("rate"), unit.Hour)
			if a.fault != nil || err != nil {
				return Result{}, err
			}
			return money(p.Of(a.hours("time_hours"), cost.HalfUp))
		},
	},
	{
		Method: "learningHours", Group: costGroup, Result: Number, Unit: "h",
		Help:    "Time of several pieces alike when each doubling of their number leaves a share of the time of one (unit model).",
		Args:    []Arg{num("first_hours", "time of the first piece"), num("count", "pieces, 1 or more"), share("rate", "50 % to 100 %; take it from your own bench")},
		Example: []any{1.0, 6.0, 0.95},
		Bad:     []Bad{{Value, []any{1.0, 6.0}}, {Num, []any{1.0, 6.0, 0.4}}, {Num, []any{1.0, 6.0, 95.0}}},
		call: func(a *args) (Result, error) {
			n := a.count("count")
			if n > 1_000_000 {
				a.fail(Num, "count", "a million pieces at most")
			}
			r := a.share("rate", 0.5, 1)
			if a.fault != nil {
				return Result{}, a.fault
			}
			d, err := rate.Learning{Model: rate.UnitModel, Rate: r}.Total(a.hours("first_hours"), n)
			return number(d.Hours()), err
		},
	},
	{
		Method: "roundAmount", Group: costGroup, Result: Amount,
		Help:    "Rounds an amount to a step, such as 0.05.",
		Args:    []Arg{amount("amount", "the amount"), amount("step", "the step, above zero"), word("rounding", modeHelp).or("half-up")},
		Example: []any{19.98, 0.05},
		Bad:     []Bad{{Value, []any{19.98}}, {Num, []any{19.98, 0.0}}, {Missing, []any{19.98, 0.05, "fair"}}},
		call: func(a *args) (Result, error) {
			return money(a.amount("amount").RoundTo(a.paid("step"), a.mode("rounding")))
		},
	},
	{
		Method: "allocate", Group: costGroup, Result: Column,
		Help:    "Splits an amount over weights so that the parts add up to it to the last minor unit: one part below the other (an array formula).",
		Args:    []Arg{amount("whole", "amount to split"), rows("weights", "numbers from 0, such as the amounts of lines, or minutes")},
		Example: []any{100.0, [][]any{{1.0}, {1.0}, {1.0}}},
		Bad:     []Bad{{Value, []any{100.0, [][]any{{"one"}}}}, {Num, []any{100.0, [][]any{{0.0}}}}, {Missing, []any{100.0, [][]any{{1.0}}, "dollars"}}},
		call: func(a *args) (Result, error) {
			g := a.grid("weights", 1)
			w := make([]unit.Ratio, len(g))
			for i, r := range g {
				x, _ := r[0].(float64) //nolint:errcheck // no text stands there
				w[i] = unit.Ratio(x)
			}
			whole := a.amount("whole")
			if a.fault != nil {
				return Result{}, a.fault
			}
			return moneyColumn(cost.AllocateByShare(whole, w))
		},
	},
	{
		Method: "split", Group: costGroup, Result: Column,
		Help:    "Splits an amount into equal parts that add up to it, the larger ones first (an array formula).",
		Args:    []Arg{amount("whole", "amount to split"), num("count", "parts, 1 to 2000")},
		Example: []any{100.01, 2.0},
		Bad:     []Bad{{Value, []any{100.01}}, {Num, []any{100.01, 0.0}}, {Missing, []any{100.01, 2.0, "dollars"}}},
		call: func(a *args) (Result, error) {
			n, whole := a.count("count"), a.amount("whole")
			if n > MostRows {
				a.fail(Num, "count", "2000 parts at most")
			}
			if a.fault != nil {
				return Result{}, a.fault
			}
			return moneyColumn(cost.Split(whole, n))
		},
	},
	{
		Method: "goodsCost", Group: costGroup, Result: Amount,
		Help: "What a list of pieces costs cut from a roll: laid out by a short search, ordered to the seller's step and priced.",
		Args: []Arg{
			cutRows, num("roll_width_in", "width of the goods"), amount("price_per_yd", "price of one yard or metre of the goods, as named"), num("repeat_in", "vertical repeat").or("plain goods"),
			num("step_yd", "step the seller cuts to").or("none"),
		},
		Example: []any{[][]any{{26.0, 31.0, 2.0}, {14.0, 22.0, 4.0}}, 54.0, 68.0, 27.0, 0.25},
		Bad:     []Bad{{Value, []any{[][]any{{26.0, 31.0, 2.0}}, 54.0}}, {Num, []any{[][]any{{60.0, 31.0, 2.0}}, 54.0, 68.0}}, {Missing, []any{[][]any{{26.0, 31.0, 2.0}}, 54.0, 68.0, 27.0, 0.25, "dollars"}}},
		call: func(a *args) (Result, error) {
			roll := material.Roll{Width: a.length("roll_width_in"), Repeat: a.length("repeat_in"), Increment: a.length("step_yd")}
			pieces := a.pieces("pieces_in", mostOnRoll)
			price, err := a.perLength("price_per_yd")
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
			return money(got[best].Cost, nil)
		},
	},
}

// perLength reads the price of a yard, or of a metre where the argument is
// named for it.
func (a *args) perLength(key string) (cost.LengthPrice, error) {
	_, arg := a.at(key)
	if arg.ending() == "m" {
		return cost.Per(a.paid(key), unit.Metre)
	}
	return cost.Per(a.paid(key), unit.Yard)
}
