package cost

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// Discount is taken off a quote. One given before tax lowers what is taxed,
// and is spread over the lines by largest remainder; one given after tax
// leaves the tax as it is. Whether a discount lowers the taxed amount is a
// question of local law.
type Discount struct {
	// Name is printed. It is required.
	Name string `json:"name"`
	// Rate is the share taken off, from 0 to 100 %. Discounts of the same
	// kind follow each other: each takes its share of what the ones before it
	// have left.
	Rate unit.Ratio `json:"rate,omitempty"`
	// Amount is a sum taken off instead of a rate, at most what is left.
	Amount Money `json:"amount"`
	// Kinds are the lines a discount before tax applies to; empty means all.
	Kinds []Kind `json:"kinds,omitempty"`
	// AfterTax takes it off the total with its tax.
	AfterTax bool `json:"after_tax,omitempty"`
}

// DiscountAmount is what a discount comes to.
type DiscountAmount struct {
	Name     string     `json:"name"`
	Rate     unit.Ratio `json:"rate,omitempty"`
	Base     Money      `json:"base"` // what it was taken from
	Amount   Money      `json:"amount"`
	AfterTax bool       `json:"after_tax"`
}

func (d Discount) check() error {
	if d.Name == "" {
		return check.Refuse("name", "", unit.ErrRequired, "a name such as trade discount")
	}
	if err := check.Ratio("rate", d.Rate, 0, 1); err != nil {
		return err
	}
	if d.Rate != 0 && !d.Amount.IsZero() {
		return check.Refuse("amount", d.Amount.String(), unit.ErrRange, "a rate or an amount, not both")
	}
	if d.Rate == 0 && d.Amount.IsZero() {
		return check.Refuse("rate", "", unit.ErrRequired, "a rate or an amount above zero")
	}
	if d.Amount.Sign() < 0 {
		return check.Refuse("amount", d.Amount.String(), unit.ErrRange, "an amount that is not negative")
	}
	if d.AfterTax && len(d.Kinds) > 0 {
		return check.Refuse("kinds", "", unit.ErrRange, "no kinds for a discount on the total")
	}
	for i, k := range d.Kinds {
		if err := k.check(); err != nil {
			return unit.InField(unit.Path("kinds").At(i), err)
		}
	}
	return nil
}

// of gives what the discount takes off a base.
func (d Discount) of(base Money, mode Rounding) (DiscountAmount, error) {
	out := DiscountAmount{Name: d.Name, Rate: d.Rate, Base: base, AfterTax: d.AfterTax}
	if d.Amount.IsZero() {
		var err error
		out.Amount, err = base.Scale(d.Rate, mode)
		return out, err
	}
	if _, err := d.Amount.Minor(); err != nil {
		return out, err
	}
	c, err := d.Amount.Cmp(base)
	if err != nil {
		return out, err
	}
	if c > 0 {
		return out, check.Refuse("amount", d.Amount.String(), unit.ErrRange, "at most what is left, "+base.String())
	}
	out.Amount = d.Amount
	return out, nil
}

// discount takes the discounts before tax off the lines.
func (q *Quote) discount() error {
	for i, d := range q.Terms.Discounts {
		if d.AfterTax {
			continue
		}
		at := unit.Path("discounts").At(i)
		var err error
		base := nothing(q.Currency)
		weights := make([]exact.Rat, len(q.Lines))
		for k, l := range q.Lines {
			if len(d.Kinds) == 0 || containsKind(d.Kinds, l.Kind) {
				weights[k] = l.Taxed.amount
				if err == nil {
					base, err = base.Plus(l.Taxed)
				}
			}
		}
		if err != nil {
			return unit.InField(at, err)
		}
		amount, err := d.of(base, q.Rounding)
		if err != nil {
			return unit.InField(at, err)
		}
		q.Discounts = append(q.Discounts, amount)
		if amount.Amount.IsZero() {
			continue
		}
		shares, err := allocate(amount.Amount, weights)
		if err != nil {
			return unit.InField(at, err)
		}
		for k := range q.Lines {
			l := &q.Lines[k]
			if l.Discount, err = l.Discount.Plus(shares[k]); err == nil {
				l.Taxed, err = l.Taxed.Minus(shares[k])
			}
			if err != nil {
				return unit.InField(at, err)
			}
		}
	}
	return nil
}

// credit takes the discounts after tax off the total, and spreads them over the
// lines with their tax.
func (q *Quote) credit() error {
	left := q.Total
	for i, d := range q.Terms.Discounts {
		if !d.AfterTax {
			continue
		}
		amount, err := d.of(left, q.Rounding)
		if err == nil {
			left, err = left.Minus(amount.Amount)
		}
		if err == nil {
			q.Credit, err = q.Credit.Plus(amount.Amount)
		}
		if err != nil {
			return unit.InField(unit.Path("discounts").At(i), err)
		}
		q.Discounts = append(q.Discounts, amount)
	}
	q.Total = left
	if q.Credit.IsZero() {
		return nil
	}
	weights := make([]exact.Rat, len(q.Lines))
	for i, l := range q.Lines {
		weights[i] = q.net(l).amount.Add(l.Tax.amount)
	}
	parts, err := allocate(q.Credit, weights)
	for i := range parts {
		q.Lines[i].Credit = parts[i]
	}
	return unit.InField("discounts", err)
}

func containsKind(ks []Kind, k Kind) bool {
	for _, x := range ks {
		if x == k {
			return true
		}
	}
	return false
}
