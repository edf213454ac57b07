package cost

import (
	"math/big"

	"github.com/coverwright/coverwright/unit"
)

// BreakEven asks how much must be sold to cover what is fixed.
//
//	contribution = price - variable cost, of one unit
//	break-even   = fixed / contribution
//	for a profit = (fixed + profit) / contribution
//
// Q is what is sold: pieces, or hours at the bench.
type BreakEven[Q Quantity] struct {
	// Fixed is what the period costs whether anything is sold or not.
	Fixed Money
	// Price is what is charged and Variable what it costs to make. Both are
	// required.
	Price, Variable Price[Q]
	// Step is the unit that is sold whole, such as 1 piece or an hour. It is
	// required.
	Step Q
	// Profit is what should be left over.
	Profit Money
}

// BreakEvenResult is the answer.
type BreakEvenResult[Q Quantity] struct {
	// Contribution is that of one step, rounded; everything else uses the
	// exact one.
	Contribution Money `json:"contribution"`
	// Quantity is the break-even in whole steps, rounded up.
	Quantity Q `json:"quantity"`
	// Sales is the break-even in money, before Quantity is rounded up.
	Sales Money `json:"sales"`
	// Target is the quantity that leaves the profit, rounded up.
	Target  Q        `json:"target"`
	Figures []Figure `json:"figures"`
}

// Solve gives the break-even. A contribution of nothing or less has none. It
// wraps unit.ErrRequired, unit.ErrRange, ErrCurrency, ErrMode or
// unit.ErrOverflow.
func (b BreakEven[Q]) Solve(mode Rounding) (BreakEvenResult[Q], error) {
	var out BreakEvenResult[Q]
	if b.Step <= 0 {
		return out, refuse("step", b.Step.String(), unit.ErrRange, "above zero, such as 1 piece or 1 h")
	}
	price, err := b.Price.of(b.Step)
	if err != nil {
		return out, unit.InField("price", err)
	}
	variable, err := b.Variable.of(b.Step)
	if err != nil {
		return out, unit.InField("variable", err)
	}
	c := b.Price.amount.currency
	for _, m := range []struct {
		name string
		m    Money
	}{{"variable", b.Variable.amount}, {"fixed", b.Fixed}, {"profit", b.Profit}} {
		if _, err := common(b.Price.amount, m.m); err != nil {
			return out, unit.InField(m.name, err)
		}
		if m.m.Sign() < 0 {
			return out, refuse(m.name, m.m.String(), unit.ErrRange, "an amount that is not negative")
		}
	}
	contribution := sub(price, variable)
	if contribution.Sign() <= 0 {
		return out, refuse("price", b.Price.String(), unit.ErrRange, "above the variable cost "+b.Variable.String())
	}
	if out.Contribution, err = rounded(contribution, c, mode); err != nil {
		return out, err
	}
	steps := quo(b.Fixed.rat(), contribution)
	if out.Sales, err = rounded(mul(steps, price), c, mode); err != nil {
		return out, err
	}
	if out.Quantity, err = wholeSteps(steps, b.Step); err != nil {
		return out, err
	}
	target := quo(add(b.Fixed.rat(), b.Profit.rat()), contribution)
	if out.Target, err = wholeSteps(target, b.Step); err != nil {
		return out, err
	}
	out.Figures = []Figure{
		{Name: "contribution", Value: out.Contribution.String(), Formula: "price - variable cost",
			Working: ratText(price, workingPlaces) + " - " + ratText(variable, workingPlaces) + " of " + b.Step.String()},
		{Name: "break-even", Value: out.Quantity.String(), Formula: "fixed / contribution",
			Working: b.Fixed.String() + " / " + ratText(contribution, workingPlaces) + " = " + ratText(steps, workingPlaces), Rule: "up to a whole " + b.Step.String()},
		{Name: "break-even sales", Value: out.Sales.String(), Formula: "break-even before rounding × price",
			Working: ratText(steps, workingPlaces) + " × " + ratText(price, workingPlaces), Rule: mode.String() + ", once"},
		{Name: "for the profit", Value: out.Target.String(), Formula: "(fixed + profit) / contribution",
			Working: "(" + b.Fixed.String() + " + " + b.Profit.String() + ") / " + ratText(contribution, workingPlaces) + " = " + ratText(target, workingPlaces),
			Rule:    "up to a whole " + b.Step.String()},
	}
	return out, nil
}

// wholeSteps gives n steps, n rounded up.
func wholeSteps[Q Quantity](n *big.Rat, step Q) (Q, error) {
	total := new(big.Int).Mul(Ceiling.whole(n), big.NewInt(int64(step)))
	if !total.IsInt64() {
		return 0, refuse("fixed", n.FloatString(0), unit.ErrOverflow, "a break-even that fits the type")
	}
	return Q(total.Int64()), nil
}

// TargetPrice gives the price of one unit that leaves a profit when a quantity
// is sold, rounded up so that the profit is reached:
//
//	price = variable + (fixed + profit) / quantity
//
// It wraps unit.ErrRequired, unit.ErrRange, ErrCurrency or unit.ErrOverflow.
func TargetPrice[Q Quantity](fixed, profit Money, variable Price[Q], quantity, step Q) (Money, error) {
	if step <= 0 {
		return Money{}, refuse("step", step.String(), unit.ErrRange, "above zero, such as 1 piece or 1 h")
	}
	cost, err := variable.of(step)
	if err != nil {
		return Money{}, unit.InField("variable", err)
	}
	whole, err := fixed.Plus(profit)
	if err != nil {
		return Money{}, unit.InField("profit", err)
	}
	c, err := common(variable.amount, whole)
	if err != nil {
		return Money{}, unit.InField("fixed", err)
	}
	if whole.currency == "" {
		return rounded(cost, c, Up)
	}
	share, err := Per(whole, quantity)
	if err != nil {
		return Money{}, unit.InField("quantity", err)
	}
	x, err := share.of(step)
	if err != nil {
		return Money{}, err
	}
	return rounded(add(cost, x), c, Up)
}

// MarginOfSafety gives how far sales may fall before nothing is left:
// (sales - break-even) / sales. Below zero the break-even is not reached. It
// wraps ErrCurrency or unit.ErrDivideByZero.
func MarginOfSafety(sales, breakEven Money) (unit.Ratio, error) {
	over, err := sales.Minus(breakEven)
	if err != nil {
		return 0, err
	}
	r, err := over.Per(sales)
	return r, unit.InField("sales", err)
}
