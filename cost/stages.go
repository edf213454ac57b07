package cost

import (
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// Stage is one payment towards the total: a deposit, a payment when the frame
// is stripped, the balance. At most one stage has neither share nor amount: it
// takes the balance. Without one, shares and amounts must add up to the total.
type Stage struct {
	// Name is printed, such as "deposit". It is required.
	Name string `json:"name"`
	// Share is a share of the total, from 0 to 100 %.
	Share unit.Ratio `json:"share,omitempty"`
	// Amount is a fixed sum instead of a share.
	Amount Money `json:"amount"`
	// AtLeast raises a share to the subtotal of these kinds: a deposit of
	// 50 %, but no less than the material; never more than the total.
	AtLeast []Kind `json:"at_least,omitempty"`
	// Due says when, such as "with the order" or a date; it is only printed.
	Due string `json:"due,omitempty"`
}

// Payment is a stage with what it comes to. The payments of a quote add up to
// its total.
type Payment struct {
	Name   string     `json:"name"`
	Share  unit.Ratio `json:"share,omitempty"`
	Amount Money      `json:"amount"`
	// Covers are the kinds whose subtotal raised it above its share; none where
	// the share is the larger.
	Covers []Kind `json:"covers,omitempty"`
	Due    string `json:"due,omitempty"`
}

// payments splits the total over the stages by largest remainder.
func (q *Quote) payments() error {
	stages := q.Terms.Stages
	if len(stages) == 0 {
		return nil
	}
	shares := make([]exact.Rat, len(stages))
	covers := make([][]Kind, len(stages))
	left, balance := q.Total.amount, -1
	for i, s := range stages {
		share, raised, isBalance, err := q.stage(s)
		if err != nil {
			return unit.InField(unit.Path("stages").At(i), err)
		}
		if isBalance && balance >= 0 {
			return check.Refuse(unit.Path("stages").At(i), s.Name, unit.ErrRange, "one stage only without share or amount")
		}
		if isBalance {
			balance = i
		}
		if shares[i] = share; raised {
			covers[i] = slices.Clone(s.AtLeast)
		}
		left = left.Sub(share)
	}
	switch {
	case balance >= 0 && left.Sign() < 0:
		return check.Refuse(unit.Path("stages").At(balance), q.Total.String(), unit.ErrRange, "stages that leave a balance of nothing or more")
	case balance >= 0:
		shares[balance] = left
	case left.Sign() != 0:
		return check.Refuse("stages", q.Total.String(), unit.ErrRange, "shares and amounts that add up to the total, or one stage without either for the balance")
	}
	parts := make([]Money, len(stages))
	for i := range parts {
		parts[i] = nothing(q.Currency)
	}
	if !q.Total.IsZero() {
		var err error
		if parts, err = allocate(q.Total, shares); err != nil {
			return unit.InField("stages", err)
		}
	}
	for i, s := range stages {
		q.Payments = append(q.Payments, Payment{Name: s.Name, Share: s.Share, Amount: parts[i], Covers: covers[i], Due: s.Due})
	}
	return nil
}

// stage gives the exact amount of a stage and whether it was raised above its
// share, or tells that it is the balance.
func (q *Quote) stage(s Stage) (amount exact.Rat, raised, balance bool, err error) {
	if s.Name == "" {
		return amount, false, false, check.Refuse("name", "", unit.ErrRequired, "a name such as deposit")
	}
	share, err := ratioBetween("share", s.Share, 0, 1)
	if err != nil {
		return amount, false, false, err
	}
	if !s.Amount.IsZero() {
		if s.Share != 0 || len(s.AtLeast) > 0 {
			return amount, false, false, check.Refuse("amount", s.Amount.String(), unit.ErrRange, "a share or an amount, not both")
		}
		if s.Amount.Sign() < 0 {
			return amount, false, false, check.Refuse("amount", s.Amount.String(), unit.ErrRange, "an amount that is not negative")
		}
		if _, err := common(q.Total, s.Amount); err != nil {
			return amount, false, false, unit.InField("amount", err)
		}
		_, err := s.Amount.Minor()
		return s.Amount.amount, false, false, err
	}
	if s.Share == 0 && len(s.AtLeast) == 0 {
		return amount, false, true, nil
	}
	x := q.Total.amount.Mul(share)
	var least exact.Rat
	for i, k := range s.AtLeast {
		if err := k.check(); err != nil {
			return amount, false, false, unit.InField(unit.Path("at_least").At(i), err)
		}
		least = least.Add(q.SubtotalOf(k).amount)
	}
	if x.Cmp(least) < 0 {
		x, raised = least, true
	}
	if x.Cmp(q.Total.amount) > 0 {
		x = q.Total.amount
	}
	return x, raised, false, nil
}
