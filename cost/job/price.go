package job

import (
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// work gives the lines of the time at the bench and around it, and those of extras.
func work(s Spec, time []worked) ([]cost.Line, faults) {
	var f faults
	var lines []cost.Line
	hourly, how, own := s.hour()
	f = append(f, own...)
	for k, w := range time {
		if len(own) > 0 {
			break // said of the rate
		}
		what := w.Task
		if w.Piece != "" {
			what = w.Piece + ": " + w.Task
		}
		line, err := cost.Item[unit.Duration]{Source: string(unit.Path("labour").At(k)), Kind: w.kind, What: what, Quantity: w.Time, Price: hourly,
			TaxClass: w.TaxClass, Shares: forPiece(w.Piece), Figures: slices.Concat(w.how, how)}.Line()
		if err != nil {
			f.add("quote.labour_rate", err)
			break
		}
		lines = append(lines, line)
	}
	for i, x := range s.Quote.Extras {
		at := unit.Path("quote.extras").At(i)
		name, amount := checkName(x.Name), s.checkCurrency(x.Amount)
		f.add(at.Dot("name"), name)
		f.add(at.Dot("amount"), amount)
		known := s.checkPiece(x.Piece)
		f.add(at.Dot("piece"), known)
		if name != nil || amount != nil || known != nil {
			continue
		}
		line, err := cost.LumpSum(x.Kind, x.Name, x.Amount)
		if f.add(at, err); err == nil {
			line.Shares = forPiece(x.Piece)
			lines = append(lines, line)
		}
	}
	return lines, f
}

// hour gives the rate of an hour at the bench and how it came about.
func (s Spec) hour() (cost.HourPrice, []cost.Figure, faults) {
	var f faults
	q := s.Quote
	given := q.LabourRate.Unit() != 0
	switch {
	case given && q.ShopRate != nil:
		f.misplaced("quote.shop_rate", "labour_rate or shop_rate, not both")
	case given:
		f.add("quote.labour_rate", s.checkCurrency(q.LabourRate.Amount()))
		return q.LabourRate, nil, f
	case q.ShopRate == nil:
		f.add("quote.labour_rate", check.Required("", "a rate such as \"64.55 USD/h\", or shop_rate"))
	default:
		return s.shopRate(*q.ShopRate)
	}
	return cost.HourPrice{}, nil, f
}

func (s Spec) shopRate(r ShopRateSpec) (cost.HourPrice, []cost.Figure, faults) {
	const at = unit.Path("quote.shop_rate")
	var f faults
	f.add(at.Dot("wage"), s.checkCurrency(r.Wage.Amount()))
	sum := rate.ShopRate{Wage: r.Wage, Burden: r.Burden, Overhead: r.Overhead, Hours: r.Hours}
	switch {
	case r.Margin != nil && r.Markup != nil:
		f.misplaced(at.Dot("markup"), "margin or markup, not both")
	case r.Margin != nil:
		sum.Uplift = cost.Margin(*r.Margin)
	case r.Markup != nil:
		sum.Uplift = cost.Markup(*r.Markup)
	}
	if len(f) > 0 {
		return cost.HourPrice{}, nil, f
	}
	res, err := sum.Rate(s.Quote.rounding())
	if err != nil {
		f.add(at, moved(err, func(p unit.Path) unit.Path {
			if p.Under("uplift") { // the job has its fields beside the others
				return after(p, "uplift")
			}
			return p
		}))
		return cost.HourPrice{}, nil, f
	}
	p, err := res.SoldPrice()
	f.add(at, err)
	return p, res.Figures, f
}

func (q QuoteSpec) rounding() cost.Rounding {
	if q.Rounding == 0 {
		return cost.HalfUp
	}
	return q.Rounding
}

// terms reads what the quote stands on beside its lines.
func (s Spec) terms() (cost.Terms, faults) {
	q := s.Quote
	var f faults
	t := cost.Terms{Currency: s.Currency, Rounding: q.rounding(), Contingency: q.Contingency, Issued: q.Issued, ValidDays: q.ValidDays,
		Least: q.Least, Step: q.Step, Groups: s.groups(),
		Tax: cost.Tax{Level: q.TaxLevel, Inclusive: q.PricesIncludeTax}}
	f.add("quote.contingency", check.Ratio("", q.Contingency, 0, 1))
	if err := check.Count("", q.Class, 0, 5); err != nil {
		f.add("quote.class", err)
	} else {
		t.Class = cost.EstimateClass(q.Class)
	}
	if s.rough() {
		t.Class = 5 // whatever else is known
	}
	f.add("quote.valid_days", check.Count("", q.ValidDays, 0, 3660))
	for i, x := range q.Taxes {
		at := unit.Path("quote.taxes").At(i)
		f.add(at.Dot("name"), checkName(x.Name))
		f.add(at.Dot("rate"), check.Ratio("", x.Rate, 0, 1))
		if len(x.On) == 0 {
			f.add(at.Dot("on"), check.Required("", "at least one kind of line"))
		}
		levy := cost.Levy{Name: x.Name, Rate: x.Rate}
		for _, k := range x.On {
			levy.On = append(levy.On, k.TaxClass())
		}
		for k, c := range x.Except {
			if !slices.Contains(labourClasses, c) {
				f.add(at.Dot("except").At(k), check.OneOf("", string(c), string(bench.Fabrication), string(bench.Application)))
			}
		}
		levy.Except = x.Except
		t.Tax.Levies = append(t.Tax.Levies, levy)
	}
	for i, d := range q.Discounts {
		at := unit.Path("quote.discounts").At(i)
		f.add(at.Dot("name"), checkName(d.Name))
		if !d.Amount.IsZero() {
			f.add(at.Dot("amount"), s.checkCurrency(d.Amount))
		}
		t.Discounts = append(t.Discounts, cost.Discount{Name: d.Name, Rate: d.Rate, Amount: d.Amount, Kinds: d.Kinds, AfterTax: d.AfterTax})
	}
	for _, m := range []struct {
		name unit.Path
		of   cost.Money
	}{{"least", q.Least}, {"step", q.Step}} {
		if !m.of.IsZero() {
			f.add(unit.Path("quote").Dot(m.name), s.checkCurrency(m.of))
		}
	}
	stages, own := q.stages()
	t.Stages, f = stages, append(f, own...)
	t.Cash = q.cash(s.Currency, &f)
	return t, f
}

// cash gives the rule that the total is paid by in cash; without a step where
// it is paid to the minor unit, or nobody asked.
func (q QuoteSpec) cash(c cost.Currency, f *faults) cost.CashRule {
	var rule cost.CashRule
	switch {
	case q.CashIn != "":
		var err error
		if rule, err = cost.CashRuleIn(q.CashIn); err == nil && rule.Step.Currency() != c {
			err = check.Refuse("", q.CashIn, cost.ErrCurrency, "a place that pays in "+string(c))
		}
		f.add("quote.cash_in", err)
	case q.Cash:
		rule, _ = cost.CashRuleOf(c)
	}
	return rule
}

// stages gives the payments: a deposit and the balance, or those that are
// listed.
func (q QuoteSpec) stages() ([]cost.Stage, faults) {
	var f faults
	if q.Deposit != nil || len(q.DepositCovers) > 0 {
		deposit := cost.Stage{Name: "deposit", AtLeast: q.DepositCovers, Due: "before work starts"}
		said := unit.Path("quote.deposit_covers")
		if q.Deposit != nil {
			said = "quote.deposit"
			f.add(said, check.Ratio("", *q.Deposit, 0, 1))
			deposit.Share = *q.Deposit
		}
		if len(q.Stages) > 0 {
			f.misplaced(said, "deposit or stages, not both")
		}
		for i, k := range q.DepositCovers {
			if k == 0 {
				f.add(unit.Path("quote.deposit_covers").At(i), check.Required("", "a kind of line, such as goods"))
			}
		}
		return []cost.Stage{deposit, {Name: "balance", Due: "on delivery"}}, f
	}
	var out []cost.Stage
	for i, s := range q.Stages {
		f.add(unit.Path("quote.stages").At(i).Dot("name"), checkName(s.Name))
		out = append(out, cost.Stage{Name: s.Name, Share: s.Share, Due: s.Due})
	}
	return out, f
}
