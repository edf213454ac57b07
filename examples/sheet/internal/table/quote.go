package table

import (
	"math"

	"github.com/coverwright/coverwright/cost"
)

// parcel is what a quantity without a kind is counted in: a millionth, so that
// 2.25 yards, hours or square feet are whole numbers of it.
const parcel = 1_000_000

// quote makes a quote of one line sold as listed.
func (a *args) quote(amount cost.Money, t cost.Terms) (cost.Quote, error) {
	if a.fault != nil {
		return cost.Quote{}, a.fault
	}
	l, err := cost.LumpSum(cost.Goods, "amount", amount)
	if err != nil {
		return cost.Quote{}, err
	}
	t.Currency = a.currency()
	return cost.NewQuote(t, l)
}

// taxed is a tax on everything.
func (a *args) taxed(key string) cost.Tax {
	r := a.part(key)
	if r == 0 {
		return cost.Tax{}
	}
	return cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: r}}}
}

// less is a discount on everything before tax.
func (a *args) less(key string) []cost.Discount {
	r := a.share(key, 0, 1)
	if r == 0 {
		return nil
	}
	return []cost.Discount{{Name: "discount", Rate: r}}
}

var taxArg = share("tax_rate", "rate of the tax, 0 % to 99 %")

var quoteFunctions = []Function{
	{
		Method: "tax", Group: costGroup, Result: Amount,
		Help:    "Tax on an amount, rounded once.",
		Args:    []Arg{amount("amount", "amount without tax, from 0"), taxArg, word("rounding", modeHelp).or("half-up")},
		Example: []any{123.45, 0.0625},
		Bad:     []Bad{{Value, []any{123.45}}, {Num, []any{123.45, -0.05}}, {Num, []any{123.45, 6.25}}, {Missing, []any{123.45, 0.0625, "fair"}}},
		call: func(a *args) (Result, error) {
			t := a.taxed("tax_rate")
			t.Rounding = a.mode("rounding")
			q, err := a.quote(a.paid("amount"), cost.Terms{Tax: t})
			return money(q.Tax, err)
		},
	},
	{
		Method: "taxInside", Group: costGroup, Result: Amount,
		Help:    "Tax contained in a price: gross x rate / (1 + rate), rounded once.",
		Args:    []Arg{amount("gross", "price with tax, from 0"), taxArg, word("rounding", modeHelp).or("half-up")},
		Example: []any{120.0, "20 %"},
		Bad:     []Bad{{Value, []any{120.0}}, {Num, []any{120.0, -0.2}}, {Num, []any{120.0, 20.0}}, {Missing, []any{120.0, 0.2, "fair"}}},
		call: func(a *args) (Result, error) {
			t := a.taxed("tax_rate")
			t.Inclusive, t.Rounding = true, a.mode("rounding")
			q, err := a.quote(a.paid("gross"), cost.Terms{Tax: t})
			return money(q.Tax, err)
		},
	},
	{
		Method: "discount", Group: costGroup, Result: Amount,
		Help:    "What a discount takes off an amount, rounded half up.",
		Args:    []Arg{amount("amount", "amount before the discount, from 0"), share("discount", "0 % to 100 %")},
		Example: []any{199.99, 0.1},
		Bad:     []Bad{{Value, []any{199.99}}, {Num, []any{199.99, 10.0}}, {Missing, []any{199.99, 0.1, "dollars"}}},
		call: func(a *args) (Result, error) {
			q, err := a.quote(a.paid("amount"), cost.Terms{Discounts: a.less("discount")})
			return money(q.Discount, err)
		},
	},
	{
		Method: "deposit", Group: costGroup, Result: Amount,
		Help:    "Deposit on a total: a share of it, rounded half up, but no less than the material where that is given, and never more than the total. What may be asked in advance can be bound by law.",
		Args:    []Arg{amount("total", "total with tax, from 0"), share("share", "0 % to 100 %"), amount("material", "what the deposit covers at least, from 0, at most the total").or("0")},
		Example: []any{1000.01, 0.5},
		Bad:     []Bad{{Value, []any{1000.0}}, {Num, []any{1000.0, 50.0}}, {Num, []any{1000.0, 0.5, 1200.0}}, {Missing, []any{1000.0, 0.5, 0.0, "dollars"}}},
		call:    func(a *args) (Result, error) { return a.deposit() },
	},
	{
		Method: "priceLine", Group: costGroup, Result: Grid,
		Help: "A full line of a quote in one row: cost, price, discount, tax and total, each rounded once, half up, so that price - discount + tax is the total (an array formula of five cells).",
		Args: []Arg{
			num("quantity", "how much of it, from 0, to a millionth"), amount("unit_cost", "what one costs, from 0"), share("markup", "0 % to 300 % of the cost"),
			share("discount", "0 % to 100 %").or("0"), taxArg.or("0"),
		},
		Example: []any{2.25, 68.0, 0.35, 0.1, 0.0825},
		Bad:     []Bad{{Value, []any{2.25, 68.0}}, {Num, []any{2.25, 68.0, 35.0}}, {Num, []any{-1.0, 68.0, 0.35}}, {Missing, []any{2.25, 68.0, 0.35, 0.1, 0.0825, "dollars"}}},
		call:    func(a *args) (Result, error) { return a.priceLine() },
	},
}

// deposit has the material as lines of their own, since a stage knows kinds of
// lines and no sums.
func (a *args) deposit() (Result, error) {
	total, least, part := a.paid("total"), a.paid("material"), a.share("share", 0, 1)
	if a.fault != nil {
		return Result{}, a.fault
	}
	rest, err := total.Minus(least)
	if err == nil && rest.Sign() < 0 {
		a.fail(Num, "material", "at most the total is wanted")
		return Result{}, a.fault
	}
	if err != nil || part == 0 && least.IsZero() {
		return number(0), err
	}
	goods, err := cost.LumpSum(cost.Goods, "material", least)
	if err != nil {
		return Result{}, err
	}
	work, err := cost.LumpSum(cost.Labour, "the rest", rest)
	if err != nil {
		return Result{}, err
	}
	stage := cost.Stage{Name: "deposit", Share: part, AtLeast: []cost.Kind{cost.Goods}}
	if part == 0 {
		stage = cost.Stage{Name: "deposit", Amount: least}
	}
	q, err := cost.NewQuote(cost.Terms{Currency: a.currency(), Stages: []cost.Stage{stage, {Name: "balance"}}}, goods, work)
	if err != nil {
		return Result{}, err
	}
	return money(q.Payments[0].Amount, nil)
}

func (a *args) priceLine() (Result, error) {
	x := a.number("quantity")
	n := math.Round(x * parcel)
	if x < 0 || x > 1e9 || math.Abs(x-n/parcel) > 1e-9*max(1, x) {
		a.fail(Num, "quantity", "from 0 to a thousand million, to six decimals, is wanted")
	}
	terms := cost.Terms{Currency: a.currency(), Discounts: a.less("discount"), Tax: a.taxed("tax_rate")}
	item := cost.Item[cost.Pieces]{Kind: cost.Goods, What: "line", Quantity: cost.Pieces(n), Uplift: cost.Markup(a.markup("markup"))}
	one := a.paid("unit_cost")
	if a.fault != nil {
		return Result{}, a.fault
	}
	var err error
	if item.Price, err = cost.Per(one, cost.Pieces(parcel)); err != nil {
		return Result{}, err
	}
	line, err := item.Line()
	if err != nil {
		return Result{}, err
	}
	q, err := cost.NewQuote(terms, line)
	if err != nil {
		return Result{}, err
	}
	out := make([]any, 0, 5)
	for _, m := range []cost.Money{q.Cost, q.Subtotal, q.Discount, q.Tax, q.Total} {
		y, err := majorUnits(m, nil)
		if err != nil {
			return Result{}, err
		}
		out = append(out, y)
	}
	return grid([][]any{out}), nil
}
