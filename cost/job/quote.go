package job

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// quote prices labour and extras and adds everything up.
func (b *builder) quote() {
	q := b.spec.Quote
	b.fail("quote.markup", check.Ratio("", q.Markup, 0, 100))
	rate, ok := parsePrice[unit.Duration](b, "quote.labour_rate", q.LabourRate)
	if ok {
		for _, l := range b.out.Labour {
			line, err := cost.Item[unit.Duration]{Kind: cost.Labour, What: l.Piece + ": " + l.Task, Quantity: l.Time, Price: rate}.Line()
			if err != nil {
				b.fail("quote.labour_rate", err)
				break
			}
			b.lines = append(b.lines, line)
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
			b.lines = append(b.lines, line)
		}
	}
	terms := cost.Terms{Currency: b.spec.Currency, Rounding: q.Rounding}
	if terms.Rounding == 0 {
		terms.Rounding = cost.HalfUp
	}
	for i, t := range q.Taxes {
		f := at("quote.taxes", i)
		b.name(f+".name", t.Name)
		b.fail(f+".rate", check.Ratio("", t.Rate, 0, 1))
		if len(t.On) == 0 {
			b.fail(f+".on", check.Required("", "at least one kind of line"))
		}
		levy := cost.Levy{Name: t.Name, Rate: t.Rate}
		for _, k := range t.On {
			levy.On = append(levy.On, k.TaxClass())
		}
		terms.Tax.Levies = append(terms.Tax.Levies, levy)
	}
	if q.Deposit != nil {
		b.fail("quote.deposit", check.Ratio("", *q.Deposit, 0, 1))
	}
	if len(b.errs) > 0 {
		return
	}
	var err error
	if b.out.Quote, err = cost.NewQuote(terms, b.lines...); err != nil {
		b.fail("quote", err)
		return
	}
	if q.Deposit == nil {
		return
	}
	p := Payment{}
	if p.Deposit, err = b.out.Quote.Total.Scale(*q.Deposit, terms.Rounding); err == nil {
		p.Balance, err = b.out.Quote.Total.Minus(p.Deposit)
	}
	b.fail("quote.deposit", err)
	b.out.Payment = &p
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
		for _, t := range thread.Cautions() {
			add(Caution{About: "thread and seams", Text: t})
		}
	}
	for _, p := range b.out.Purchases {
		if p.Hides > 0 {
			add(Caution{About: "leather", Text: "The number of hides of " + p.Name +
				" is a rule of thumb. Holes, flaws and the shape of each hide decide; lay the panels out on the hides before cutting."})
		}
	}
	add(Caution{About: "frame", Text: "Check frame, joints, springs and webbing when the old cover is off. " +
		"Repairs that carry weight, and furniture for children, are work for someone licensed to do it where you are."})
}

func (b *builder) foamCautions() []foam.Caution {
	if len(b.out.Foam) == 0 {
		return nil
	}
	return b.out.Foam[0].Selection.Cautions // the same for every block: by jurisdiction
}
