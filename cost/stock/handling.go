package stock

import (
	"fmt"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Handling is the fee for work with a customer's own goods: one of its fields.
type Handling struct {
	// PerLength is a price for the length that the layout takes of a roll; PerArea one for
	// the area of each hide in use.
	PerLength cost.LengthPrice `json:"per_length,omitzero"`
	PerArea   cost.AreaPrice   `json:"per_area,omitzero"` // of hides
	Amount    cost.Money       `json:"amount,omitzero"`   // for the job
	// Share is that of the markup which the same goods would have brought, bought at
	// their price.
	Share *unit.Ratio `json:"share,omitempty"`
}

// Check gives nil for a fee with one of its fields, else an error that names the field
// and wraps unit.ErrRange or unit.ErrRequired.
func (h Handling) Check() error {
	n := 0
	for _, given := range []bool{h.PerLength.Unit() != 0, h.PerArea.Unit() != 0, h.Amount.Currency() != "", h.Share != nil} {
		if given {
			n++
		}
	}
	switch {
	case n == 0:
		return check.Required("amount", "one of per_length, per_area, amount and share")
	case n > 1:
		return check.Refuse("", fmt.Sprint(n), unit.ErrRange, "one of per_length, per_area, amount and share")
	case h.Amount.Sign() < 0:
		return check.Refuse("amount", h.Amount.String(), unit.ErrRange, "zero or more")
	case h.Share != nil:
		return check.Ratio("share", *h.Share, 0, 1)
	}
	return nil
}

// Money lists the amounts in the fee by their fields, none that is not given.
func (h Handling) Money() map[string]cost.Money {
	out := map[string]cost.Money{}
	if h.PerLength.Unit() != 0 {
		out["per_length"] = h.PerLength.Amount()
	}
	if h.PerArea.Unit() != 0 {
		out["per_area"] = h.PerArea.Amount()
	}
	if h.Amount.Currency() != "" {
		out["amount"] = h.Amount
	}
	return out
}

// Owned is a customer's own goods as a fee counts them.
type Owned struct {
	Name   string      `json:"name"`
	Length unit.Length `json:"length,omitzero"` // that the layout takes of a roll
	Area   unit.Area   `json:"area,omitzero"`   // of the hides in use
	// Cost is what they would have cost the shop, and Markup what it would have put on.
	Cost   cost.Money `json:"cost"`
	Markup unit.Ratio `json:"markup"`
}

// Line gives the fee and its line of a quote, of kind cost.OwnMaterial:
//
//	fee = price x length,  price x area,  an amount,  or  share x markup x cost
//
// each product rounded to the currency. Errors are those of Check, and of cost.Price.Of.
func (h Handling) Line(of Owned, round cost.Rounding) (cost.Line, cost.Money, error) {
	if err := h.Check(); err != nil {
		return cost.Line{}, cost.Money{}, err
	}
	what := of.Name + ", the customer's own: handling"
	switch {
	case h.PerLength.Unit() != 0:
		return byQuantity(what, of.Length, h.PerLength, round)
	case h.PerArea.Unit() != 0:
		return byQuantity(what, of.Area, h.PerArea, round)
	}
	fee := h.Amount
	var figures []cost.Figure
	if h.Share != nil {
		earned, err := of.Cost.Scale(of.Markup, round)
		if err != nil {
			return cost.Line{}, fee, err
		}
		if fee, err = earned.Scale(*h.Share, round); err != nil {
			return cost.Line{}, fee, err
		}
		figures = append(figures, cost.Figure{Name: what, Value: fee.String(), Formula: "share x markup x what the goods would have cost",
			Working: fmt.Sprintf("%v x %v x %v", *h.Share, of.Markup, of.Cost), Rule: "each product rounded to the currency", Basis: cite.Basis{Status: cite.Derived}})
	}
	line, err := cost.LumpSum(cost.OwnMaterial, what, fee)
	line.Figures = figures
	return line, fee, err
}

func byQuantity[Q cost.Quantity](what string, q Q, price cost.Price[Q], round cost.Rounding) (cost.Line, cost.Money, error) {
	fee, err := price.Of(q, round)
	if err != nil {
		return cost.Line{}, fee, err
	}
	line, err := cost.Item[Q]{Kind: cost.OwnMaterial, What: what, Quantity: q, Price: price}.Line()
	return line, fee, err
}
