package workbook

import (
	"fmt"

	"github.com/coverwright/coverwright/cost"
)

// quoteSheet writes what the customer gets.
func (q *quoting) quoteSheet() {
	s := q.add(quoteSheet)
	o := q.order.Quote
	w := q.work
	s.text(1, "Quote", style{kind: title})
	s.row++
	s.text(1, q.order.Name, style{})
	s.define("job_name", 1)
	s.row++
	if !o.Issued.IsZero() {
		until := "issued " + o.Issued.String()
		if q.spec.Quote.ValidDays > 0 {
			until += ", holds until " + o.ValidUntil.String()
		}
		s.text(1, until, style{kind: note})
		s.row++
	}
	s.row++
	heads := s.row
	s.headings("", ">quantity", "unit", ">"+string(o.Currency))
	for i, l := range o.Lines {
		row := q.first + i
		s.text(1, l.What, style{wrap: true})
		if x := q.amounts[i]; x != nil {
			s.formula(2, w.of(fixed(3, row)), x.quantity, 1e-9*max(1, x.quantity), style{format: "0.00"})
			s.text(3, x.unit, style{gap: true})
		} else {
			s.blank(2, style{})
			s.blank(3, style{})
		}
		s.formula(4, w.of(fixed(amountColumn, row)), figure(l.Amount), q.c.step(), q.money())
		s.row++
	}
	line := func(label, defined, formula string, want float64, st style) {
		s.text(1, label, style{kind: st.kind})
		s.blank(2, style{kind: st.kind})
		s.blank(3, style{kind: st.kind})
		st.format = q.c.format()
		s.formula(4, formula, want, q.c.step(), st)
		if defined != "" {
			s.define(defined, 4)
		}
		s.row++
	}
	line("subtotal", "quote_subtotal", w.of(fixed(amountColumn, q.last+1)), figure(o.Subtotal), style{kind: sum})
	amounts, after := q.byTax()
	taken := "0"
	for k, i := range q.discounts {
		d := q.spec.Quote.Discounts[i]
		base := "SUM(" + w.of(span(amountColumn+1+3*k, q.first, q.last)) + ")"
		formula := q.c.round(fmt.Sprintf("discount_%d*%s", i+1, base))
		if !d.Amount.IsZero() {
			formula = fmt.Sprintf("discount_%d", i+1)
		}
		// The workings need the amount, the quote shows it taken off.
		line("less "+d.Name+", "+on(d.Kinds), fmt.Sprintf("off_%d", i+1), formula, figure(amounts[k].Amount), style{})
		taken += fmt.Sprintf("+off_%d", i+1)
	}
	if len(q.discounts) > 0 {
		line("after discount", "", "quote_subtotal-("+taken+")", figure(o.Taxed), style{kind: sum})
	}
	tax := "0"
	rounding := coins{q.c.digits, o.TaxRounding}
	for k, t := range o.Taxes {
		col := q.taxed + 2 + 2*k
		formula := "SUM(" + w.of(span(col, q.first, q.last)) + ")"
		if o.TaxLevel == cost.PerInvoice {
			formula = rounding.round(formula)
		}
		label := t.Name
		if o.Inclusive {
			label += ", included"
		}
		line(label, fmt.Sprintf("tax_%d", k+1), formula, figure(t.Tax), style{})
		tax += fmt.Sprintf("+tax_%d", k+1)
	}
	left := "quote_net+" + tax
	credit := "0"
	k := 0
	for i, d := range q.spec.Quote.Discounts {
		if !d.AfterTax {
			continue
		}
		formula := q.c.round(fmt.Sprintf("discount_%d*(%s-(%s))", i+1, left, credit))
		if !d.Amount.IsZero() {
			formula = fmt.Sprintf("discount_%d", i+1)
		}
		line("less "+d.Name, fmt.Sprintf("off_%d", i+1), formula, figure(after[k].Amount), style{})
		credit += fmt.Sprintf("+off_%d", i+1)
		k++
	}
	q.behind(taken, tax, credit)
	line("total", "quote_total", left+"-quote_credit", figure(o.Total), style{kind: sum})
	s.row++
	for i, p := range o.Payments {
		label := p.Name
		if p.Due != "" {
			label += ", " + p.Due
		}
		line(label, fmt.Sprintf("due_%d", i+1), q.payments[i], figure(p.Amount), style{})
	}
	if !o.Cash.Payable.IsZero() {
		if rule, ok := cost.CashRuleOf(o.Currency); ok {
			step := figure(rule.Step)
			whole := coins{0, rule.Rounding}
			line("paid in cash", "quote_cash", fmt.Sprintf("%s*%v", whole.whole(fmt.Sprintf("quote_total/%v", step)), step), figure(o.Cash.Payable), style{})
		}
	}
	if o.Class != 0 {
		if a, err := o.Class.Accuracy(); err == nil {
			s.row++
			s.text(1, fmt.Sprintf("What is known now (%s) lets the net price come out between these:", a.Stage), style{kind: note, wrap: true})
			s.row++
			line("at least", "quote_low", q.c.round(fmt.Sprintf("quote_net*%v", 1-float64(a.Low))), figure(o.Low), style{})
			line("at most", "quote_high", q.c.round(fmt.Sprintf("quote_net*%v", 1+float64(a.High))), figure(o.High), style{})
		}
	}
	s.row++
	s.text(1, "Rates, taxes and terms are the shop's own and are to be checked against the law of the place.", style{kind: note})
	s.row++
	s.page(false, q.letter(), heads, 58, 11, 9, 14)
}

// byTax sorts the discounts of the quote into those before and after tax.
func (q *quoting) byTax() (before, after []cost.DiscountAmount) {
	for _, d := range q.order.Quote.Discounts {
		if d.AfterTax {
			after = append(after, d)
		} else {
			before = append(before, d)
		}
	}
	return before, after
}

// behind writes into the workings what the customer need not see.
func (q *quoting) behind(taken, tax, credit string) {
	o, s := q.order.Quote, q.work
	net := "quote_subtotal-(" + taken + ")"
	if o.Inclusive {
		net += "-(" + tax + ")"
	}
	for _, r := range []struct {
		label, name, formula string
		want                 float64
	}{
		{"net of tax", "quote_net", net, figure(o.Net)},
		{"taken off after tax", "quote_credit", credit, figure(o.Credit)},
		{"left for the shop", "profit", "quote_net-cost_total-quote_credit", figure(o.Profit)},
	} {
		s.text(1, r.label, style{})
		s.formula(amountColumn, r.formula, r.want, q.c.step(), q.money())
		s.define(r.name, amountColumn)
		s.row++
	}
	s.text(1, "as a share of the net price", style{})
	s.formula(amountColumn, "IF(quote_net=0,0,profit/quote_net)", float64(o.Margin()), 1e-9, style{format: "0.0%"})
	s.row++
}
