package rate

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// BreakEven asks how much must be sold to cover what is fixed.
//
//	contribution = price - variable cost, of one unit
//	break-even   = fixed / contribution
//	for a profit = (fixed + profit) / contribution
//
// Q is what is sold: pieces, or hours at the bench.
type BreakEven[Q cost.Quantity] struct {
	// Fixed is what the period costs whether anything is sold or not.
	Fixed cost.Money `json:"fixed"`
	// Price is what is charged and Variable what it costs to make. Both are
	// required.
	Price    cost.Price[Q] `json:"price"`
	Variable cost.Price[Q] `json:"variable"`
	// Step is the unit that is sold whole, such as 1 piece or an hour. It is
	// required.
	Step Q `json:"step"`
	// Profit is what should be left over.
	Profit cost.Money `json:"profit"`
}

// BreakEvenResult is the answer.
type BreakEvenResult[Q cost.Quantity] struct {
	// Contribution is that of one step, rounded; everything else uses the
	// exact one.
	Contribution cost.Money `json:"contribution"`
	// Quantity is the break-even in whole steps, rounded up.
	Quantity Q `json:"quantity"`
	// Sales is the break-even in money, before Quantity is rounded up.
	Sales cost.Money `json:"sales"`
	// Target is the quantity that leaves the profit, rounded up.
	Target  Q             `json:"target"`
	Figures []cost.Figure `json:"figures"`
}

// Solve gives the break-even. A contribution of nothing or less has none. It
// wraps unit.ErrRequired, unit.ErrRange, cost.ErrCurrency, cost.ErrMode or
// unit.ErrOverflow.
func (b BreakEven[Q]) Solve(mode cost.Rounding) (BreakEvenResult[Q], error) {
	var out BreakEvenResult[Q]
	if b.Step <= 0 {
		return out, check.Refuse("step", b.Step.String(), unit.ErrRange, "above zero, such as 1 piece or 1 h")
	}
	price, err := exactOf(b.Price, b.Step)
	if err != nil {
		return out, unit.InField("price", err)
	}
	variable, err := exactOf(b.Variable, b.Step)
	if err != nil {
		return out, unit.InField("variable", err)
	}
	c := b.Price.Amount().Currency()
	for _, m := range []struct {
		name string
		m    cost.Money
	}{{"variable", b.Variable.Amount()}, {"fixed", b.Fixed}, {"profit", b.Profit}} {
		if _, err := sharedCurrency(b.Price.Amount(), m.m); err != nil {
			return out, unit.InField(m.name, err)
		}
		if m.m.Sign() < 0 {
			return out, check.Refuse(m.name, m.m.String(), unit.ErrRange, "an amount that is not negative")
		}
	}
	contribution := price.Sub(variable)
	if contribution.Sign() <= 0 {
		return out, check.Refuse("price", b.Price.String(), unit.ErrRange, "above the variable cost "+b.Variable.String())
	}
	if out.Contribution, err = roundRat(contribution, c, mode); err != nil {
		return out, err
	}
	steps := ratOf(b.Fixed).Quo(contribution)
	if out.Sales, err = roundRat(steps.Mul(price), c, mode); err != nil {
		return out, err
	}
	if out.Quantity, err = wholeSteps(steps, b.Step); err != nil {
		return out, err
	}
	target := ratOf(b.Fixed).Add(ratOf(b.Profit)).Quo(contribution)
	if out.Target, err = wholeSteps(target, b.Step); err != nil {
		return out, err
	}
	out.Figures = []cost.Figure{
		{Name: "contribution", Value: out.Contribution.String(), Formula: "price - variable cost",
			Working: price.Text(shownPlaces) + " - " + variable.Text(shownPlaces) + " of " + b.Step.String()},
		{Name: "break-even", Value: out.Quantity.String(), Formula: "fixed / contribution",
			Working: b.Fixed.String() + " / " + contribution.Text(shownPlaces) + " = " + steps.Text(shownPlaces), Rule: "up to a whole " + b.Step.String()},
		{Name: "break-even sales", Value: out.Sales.String(), Formula: "break-even before rounding × price",
			Working: steps.Text(shownPlaces) + " × " + price.Text(shownPlaces), Rule: mode.String() + ", once"},
		{Name: "for the profit", Value: out.Target.String(), Formula: "(fixed + profit) / contribution",
			Working: "(" + b.Fixed.String() + " + " + b.Profit.String() + ") / " + contribution.Text(shownPlaces) + " = " + target.Text(shownPlaces),
			Rule:    "up to a whole " + b.Step.String()},
	}
	return out, nil
}

// wholeSteps gives n steps, n rounded up.
func wholeSteps[Q cost.Quantity](n exact.Rat, step Q) (Q, error) {
	total, ok := n.Ceil().Mul(exact.Int(int64(step))).Int64()
	if !ok {
		return 0, check.Refuse("fixed", n.FloatString(0), unit.ErrOverflow, "a break-even that fits the type")
	}
	return Q(total), nil
}

// TargetPrice gives the price of one unit that leaves a profit when a quantity
// is sold, rounded up so that the profit is reached:
//
//	price = variable + (fixed + profit) / quantity
//
// It wraps unit.ErrRequired, unit.ErrRange, cost.ErrCurrency or unit.ErrOverflow.
func TargetPrice[Q cost.Quantity](fixed, profit cost.Money, variable cost.Price[Q], quantity, step Q) (cost.Money, error) {
	if step <= 0 {
		return cost.Money{}, check.Refuse("step", step.String(), unit.ErrRange, "above zero, such as 1 piece or 1 h")
	}
	own, err := exactOf(variable, step)
	if err != nil {
		return cost.Money{}, unit.InField("variable", err)
	}
	whole, err := fixed.Plus(profit)
	if err != nil {
		return cost.Money{}, unit.InField("profit", err)
	}
	c, err := sharedCurrency(variable.Amount(), whole)
	if err != nil {
		return cost.Money{}, unit.InField("fixed", err)
	}
	if whole.Currency() == "" {
		return roundRat(own, c, cost.Up)
	}
	share, err := cost.Per(whole, quantity)
	if err != nil {
		return cost.Money{}, unit.InField("quantity", err)
	}
	x, err := exactOf(share, step)
	if err != nil {
		return cost.Money{}, err
	}
	return roundRat(own.Add(x), c, cost.Up)
}

// MarginOfSafety gives how far sales may fall before nothing is left:
// (sales - break-even) / sales. Below zero the break-even is not reached. It
// wraps cost.ErrCurrency or unit.ErrDivideByZero.
func MarginOfSafety(sales, breakEven cost.Money) (unit.Ratio, error) {
	over, err := sales.Minus(breakEven)
	if err != nil {
		return 0, err
	}
	r, err := over.Per(sales)
	return r, unit.InField("sales", err)
}
