package job

import (
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// bench prices labour and extras, and reads the terms of the quote.
func (b *builder) bench() {
	q := b.spec.Quote
	b.fail("quote.markup", check.Ratio("", q.Markup, 0, 100))
	rate, figures, ok := b.hourPrice()
	if ok {
		for i, l := range b.out.Labour {
			line, err := cost.Item[unit.Duration]{Source: string(at("labour", i)), Kind: cost.Labour, What: l.Piece + ": " + l.Task, Quantity: l.Time, Price: rate,
				Figures: append(l.figures, figures...)}.Line()
			if err != nil {
				b.fail("quote.labour_rate", err)
				break
			}
			b.work = append(b.work, line)
		}
	}
	for i, x := range q.Extras {
		f := at("quote.extras", i)
		b.name(f+".name", x.Name)
		if !b.currency(f+".amount", x.Amount) {
			continue
		}
		line, err := cost.LumpSum(x.Kind, x.Name, x.Amount)
		b.fail(f, err)
		if err == nil {
			b.work = append(b.work, line)
		}
	}
	b.terms()
}

// hourPrice gives the rate of an hour at the bench and how it came about.
func (b *builder) hourPrice() (cost.HourPrice, []cost.Figure, bool) {
	q := b.spec.Quote
	switch {
	case q.LabourRate != "" && q.ShopRate != nil:
		b.fail("quote.shop_rate", check.Refuse("", "", ErrMisplaced, "labour_rate or shop_rate, not both"))
	case q.LabourRate != "":
		p, ok := parsePrice[unit.Duration](b, "quote.labour_rate", q.LabourRate, "a rate such as \"64.55 USD/h\"")
		return p, nil, ok
	case q.ShopRate == nil:
		b.fail("quote.labour_rate", check.Required("", "a rate such as \"64.55 USD/h\", or shop_rate"))
	default:
		return b.shopRate(*q.ShopRate)
	}
	return cost.HourPrice{}, nil, false
}

func (b *builder) shopRate(s ShopRateSpec) (cost.HourPrice, []cost.Figure, bool) {
	const field = "quote.shop_rate"
	wage, ok := parsePrice[unit.Duration](b, field+".wage", s.Wage, "an hourly wage such as \"20.00 USD/h\"")
	if !ok {
		return cost.HourPrice{}, nil, false
	}
	r := rate.ShopRate{Wage: wage, Burden: s.Burden, Overhead: s.Overhead, Hours: s.Hours}
	switch {
	case s.Margin != nil && s.Markup != nil:
		b.fail(field+".markup", check.Refuse("", "", ErrMisplaced, "margin or markup, not both"))
		return cost.HourPrice{}, nil, false
	case s.Margin != nil:
		r.Uplift = cost.Margin(*s.Margin)
	case s.Markup != nil:
		r.Uplift = cost.Markup(*s.Markup)
	}
	res, err := r.Rate(b.rounding())
	if err != nil {
		b.fail(field, err)
		return cost.HourPrice{}, nil, false
	}
	p, err := res.SoldPrice()
	b.fail(field, err)
	return p, res.Figures, err == nil
}

func (b *builder) rounding() cost.Rounding {
	if b.spec.Quote.Rounding == 0 {
		return cost.HalfUp
	}
	return b.spec.Quote.Rounding
}

// terms reads what the quote stands on beside its lines.
func (b *builder) terms() {
	q := b.spec.Quote
	t := cost.Terms{Currency: b.spec.Currency, Rounding: b.rounding(), Contingency: q.Contingency, Issued: q.Issued, ValidDays: q.ValidDays,
		Tax: cost.Tax{Level: q.TaxLevel, Inclusive: q.PricesIncludeTax}}
	b.fail("quote.contingency", check.Ratio("", q.Contingency, 0, 1))
	if b.fail("quote.class", check.Count("", q.Class, 0, 5)); q.Class > 0 && q.Class <= 5 {
		t.Class = cost.EstimateClass(q.Class)
	}
	b.fail("quote.valid_days", check.Count("", q.ValidDays, 0, 3660))
	for i, x := range q.Taxes {
		f := at("quote.taxes", i)
		b.name(f+".name", x.Name)
		b.fail(f+".rate", check.Ratio("", x.Rate, 0, 1))
		if len(x.On) == 0 {
			b.fail(f+".on", check.Required("", "at least one kind of line"))
		}
		levy := cost.Levy{Name: x.Name, Rate: x.Rate}
		for _, k := range x.On {
			levy.On = append(levy.On, k.TaxClass())
		}
		t.Tax.Levies = append(t.Tax.Levies, levy)
	}
	for i, d := range q.Discounts {
		f := at("quote.discounts", i)
		b.name(f+".name", d.Name)
		if !d.Amount.IsZero() && !b.currency(f+".amount", d.Amount) {
			continue
		}
		t.Discounts = append(t.Discounts, cost.Discount{Name: d.Name, Rate: d.Rate, Amount: d.Amount, Kinds: d.Kinds, AfterTax: d.AfterTax})
	}
	switch {
	case q.Deposit != nil && len(q.Stages) > 0:
		b.fail("quote.deposit", check.Refuse("", q.Deposit.String(), ErrMisplaced, "deposit or stages, not both"))
	case q.Deposit != nil:
		if err := check.Ratio("", *q.Deposit, 0, 1); err != nil {
			b.fail("quote.deposit", err)
			break
		}
		t.Stages = []cost.Stage{{Name: "deposit", Share: *q.Deposit, Due: "before work starts"}, {Name: "balance", Due: "on delivery"}}
	}
	for i, s := range q.Stages {
		b.name(fmt.Sprintf("quote.stages[%d].name", i), s.Name)
		t.Stages = append(t.Stages, cost.Stage{Name: s.Name, Share: s.Share, Due: s.Due})
	}
	if q.Cash {
		if rule, ok := cost.CashRuleOf(b.spec.Currency); ok {
			t.Cash = rule
		}
	}
	b.onTerms = t
}

// cautions puts on the order what can hurt someone.
func (b *builder) cautions() {
	add := func(c Caution) { b.out.Cautions = append(b.out.Cautions, c) }
	if len(b.out.Foam) > 0 {
		add(Caution{About: "rules and certificates", Text: foam.Deference})
		for _, c := range b.foamCautions() {
			basis := c.Basis
			rule := c.Rule
			if c.Edition != "" {
				rule += ", " + c.Edition
			}
			if c.From != "" {
				rule += ", from " + c.From
			}
			add(Caution{About: c.Hazard.String() + ", " + c.Jurisdiction.String(), Text: c.Text, Rule: rule, Basis: &basis})
		}
	}
	if len(b.out.Sewing) > 0 {
		for _, t := range thread.Warnings() {
			add(Caution{About: "thread and seams", Text: t})
		}
	}
	for _, p := range b.out.Purchases {
		if text := p.leatherCaution(); text != "" {
			add(Caution{About: "leather", Text: text})
		}
	}
	add(Caution{About: "frame", Text: "Check frame, joints, springs and webbing when the old cover is off. " +
		"Repairs that carry weight, and furniture for children, are work for someone licensed to do it where you are."})
}

// leatherCaution says how far the number of hides can be trusted.
func (p Purchase) leatherCaution() string {
	const look = " Holes, flaws and the shape of each hide decide; lay the panels out on the hides before cutting."
	switch {
	case p.Hides == 0:
		return ""
	case p.Answers[len(p.Answers)-1].Kind != cite.Layout:
		return "The number of hides of " + p.Name + " is a rule of thumb." + look
	case slices.ContainsFunc(p.Skins.Skins, func(s material.Skin) bool { return s.Outline.IsZero() }):
		return "The layout of " + p.Name + " is on hides of a usual shape without flaws." + look
	}
	return "The layout of " + p.Name + " knows only what was measured: look every hide over again on both sides before cutting."
}

func (b *builder) foamCautions() []foam.Caution {
	if len(b.out.Foam) == 0 {
		return nil
	}
	return b.out.Foam[0].Selection.Cautions // the same for every block: by jurisdiction
}
