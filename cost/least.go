package cost

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// fillUp puts what the price lacks of the least that is charged, and of the
// next step, into the quote as lines of their own.
func (q *Quote) fillUp() error {
	t := q.Terms
	for _, m := range []struct {
		field unit.Path
		of    Money
	}{{"least", t.Least}, {"step", t.Step}} {
		if err := q.checkFill(m.of); err != nil {
			return unit.InField(m.field, err)
		}
	}
	price, err := q.sum(func(l QuoteLine) Money { return l.Taxed })
	if err != nil {
		return err
	}
	if lacks := less(t.Least, price); lacks.Sign() > 0 {
		if err := q.fill(MinimumCharge, lacks, "up to "+t.Least.String()); err != nil {
			return err
		}
		price = t.Least
	}
	if t.Step.IsZero() {
		return nil
	}
	next, err := price.RoundTo(t.Step, Ceiling)
	if err != nil {
		return unit.InField("step", err)
	}
	if lacks := less(next, price); lacks.Sign() > 0 {
		return q.fill(RoundingUp, lacks, "to "+next.String())
	}
	return nil
}

// checkFill accepts nothing, or a sum of the quote's currency in whole minor
// units.
func (q *Quote) checkFill(m Money) error {
	switch {
	case m.IsZero():
		return nil
	case m.Sign() < 0:
		return check.Refuse("", m.String(), unit.ErrRange, "an amount that is not negative")
	case m.currency != q.Currency:
		return &MismatchError{q.Currency, m.currency}
	}
	_, err := m.Minor()
	return fieldOnly("", err)
}

// fill adds a line that costs the shop nothing.
func (q *Quote) fill(k Kind, amount Money, text string) error {
	var err error
	zero := nothing(q.Currency)
	q.Lines = append(q.Lines, QuoteLine{ID: k.String(), Source: k.String(), Kind: k, What: k.String(), TaxClass: k.TaxClass(), Quantity: text,
		Cost: zero, Amount: amount, Discount: zero, Credit: zero, Taxed: amount})
	for i, s := range q.Subtotals {
		if s.Kind == k { // a line of the caller's own
			q.Subtotals[i].Amount, err = s.Amount.Plus(amount)
			if err != nil {
				return err
			}
			q.Subtotal, err = q.Subtotal.Plus(amount)
			return err
		}
	}
	q.Subtotals = append(q.Subtotals, KindSubtotal{k, amount})
	q.Subtotal, err = q.Subtotal.Plus(amount)
	return err
}

// fillFigure explains a line that fills up.
func (q Quote) fillFigure(l QuoteLine) Figure {
	f := Figure{Name: l.ID + ": amount", Value: l.Amount.String()}
	said := "without tax"
	if q.Inclusive {
		said = "with tax"
	}
	whole := q.Terms.Least
	f.Formula = "least that is charged - price " + said
	if l.Kind == RoundingUp {
		whole = q.Taxed
		f.Formula = "next step of " + q.Terms.Step.String() + " - price " + said
	}
	f.Working = whole.Amount() + " - " + less(whole, l.Amount).Amount()
	f.Rule = "the price as it is said, after discounts before tax"
	return f
}
