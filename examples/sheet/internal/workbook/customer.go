package workbook

import (
	"fmt"

	"github.com/coverwright/coverwright/cost"
)

// quoteSheet writes what the customer gets.
func (q *quoting) quoteSheet() {
	s := q.add(quoteSheet)
	q.quote = s
	o := q.order.Quote
	q.issue()
	heads := s.row
	s.headings("", ">quantity", "unit", ">"+string(o.Currency))
	for i, l := range o.Lines {
		q.quoteLine(l, q.amounts[i], q.first+i)
	}
	q.sumLine("subtotal", "quote_subtotal", q.work.of(fixed(amountColumn, q.last+1)), figure(o.Subtotal), sum)
	before, after := q.byTax()
	taken := q.discountLines(before)
	tax := q.taxLines()
	left := "quote_net+" + tax
	credit := q.creditLines(after, left)
	q.behind(taken, tax, credit)
	q.sumLine("total", "quote_total", left+"-quote_credit", figure(o.Total), sum)
	s.row++
	q.paymentLines()
	q.rangeLines()
	s.row++
	s.text(1, "Rates, taxes and terms are the shop's own and are to be checked against the law of the place.", style{kind: note})
	s.row++
	s.page(false, q.letter(), heads, 58, 11, 9, 14)
}

// issue writes what the quote is for and how long it holds.
func (q *quoting) issue() {
	s, o := q.quote, q.order.Quote
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
}

// quoteLine writes a line of the quote, whose workings stand in a row of
// their own.
func (q *quoting) quoteLine(l cost.QuoteLine, x *measured, row int) {
	s, w := q.quote, q.work
	s.text(1, l.What, style{wrap: true})
	if x != nil {
		s.formula(2, w.of(fixed(3, row)), x.quantity, 1e-9*max(1, x.quantity), style{format: "0.00"})
		s.text(3, x.unit, style{gap: true})
	} else {
		s.blank(2, style{})
		s.blank(3, style{})
	}
	s.formula(4, w.of(fixed(amountColumn, row)), figure(l.Amount), q.c.step(), q.money())
	s.row++
}

// sumLine writes an amount below the lines and may give it a name.
func (q *quoting) sumLine(label, defined, formula string, want float64, kind look) {
	s := q.quote
	s.text(1, label, style{kind: kind})
	s.blank(2, style{kind: kind})
	s.blank(3, style{kind: kind})
	s.formula(4, formula, want, q.c.step(), style{kind: kind, format: q.c.format()})
	if defined != "" {
		s.define(defined, 4)
	}
	s.row++
}

// discountLines writes the discounts before tax and gives the formula of what
// they take off.
func (q *quoting) discountLines(amounts []cost.DiscountAmount) string {
	taken := "0"
	for k, i := range q.discounts {
		base := "SUM(" + q.work.of(span(amountColumn+1+3*k, q.first, q.last)) + ")"
		// The workings need the amount, the quote shows it taken off.
		taken += q.discountLine(i, ", "+on(q.spec.Quote.Discounts[i].Kinds), base, amounts[k])
	}
	if len(q.discounts) > 0 {
		q.sumLine("after discount", "", "quote_subtotal-("+taken+")", figure(q.order.Quote.Taxed), sum)
	}
	return taken
}

// creditLines writes the discounts after tax, each off what the ones before
// it left, and gives the formula of what they take off.
func (q *quoting) creditLines(amounts []cost.DiscountAmount, left string) string {
	credit := "0"
	k := 0
	for i, d := range q.spec.Quote.Discounts {
		if d.AfterTax {
			credit += q.discountLine(i, "", "("+left+"-("+credit+"))", amounts[k])
			k++
		}
	}
	return credit
}

// discountLine writes a discount of a fixed amount or of a share of base, and
// gives what it adds to a sum of discounts.
func (q *quoting) discountLine(i int, falls, base string, amount cost.DiscountAmount) string {
	d := q.spec.Quote.Discounts[i]
	formula := fmt.Sprintf("discount_%d", i+1)
	if d.Amount.IsZero() {
		formula = q.c.round(formula + "*" + base)
	}
	off := fmt.Sprintf("off_%d", i+1)
	q.sumLine("less "+d.Name+falls, off, formula, figure(amount.Amount), plain)
	return "+" + off
}

// taxLines writes the taxes and gives the formula of their sum.
func (q *quoting) taxLines() string {
	o := q.order.Quote
	tax := "0"
	for k, t := range o.Taxes {
		formula := "SUM(" + q.work.of(span(q.taxed+2+2*k, q.first, q.last)) + ")"
		if o.TaxLevel == cost.PerInvoice {
			formula = coins{q.c.digits, o.TaxRounding}.round(formula)
		}
		label := t.Name
		if o.Inclusive {
			label += ", included"
		}
		name := fmt.Sprintf("tax_%d", k+1)
		q.sumLine(label, name, formula, figure(t.Tax), plain)
		tax += "+" + name
	}
	return tax
}

// paymentLines writes what falls due, and the total in cash.
func (q *quoting) paymentLines() {
	o := q.order.Quote
	for i, p := range o.Payments {
		label := p.Name
		if p.Due != "" {
			label += ", " + p.Due
		}
		q.sumLine(label, fmt.Sprintf("due_%d", i+1), q.payments[i], figure(p.Amount), plain)
	}
	if rule, ok := cost.CashRuleOf(o.Currency); ok && !o.Cash.Payable.IsZero() {
		step := figure(rule.Step)
		whole := coins{0, rule.Rounding}
		q.sumLine("paid in cash", "quote_cash", fmt.Sprintf("%s*%v", whole.whole(fmt.Sprintf("quote_total/%v", step)), step), figure(o.Cash.Payable), plain)
	}
}

// rangeLines writes between what the net price may come out.
func (q *quoting) rangeLines() {
	o := q.order.Quote
	a, err := o.Class.Accuracy()
	if o.Class == 0 || err != nil {
		return
	}
	s := q.quote
	s.row++
	s.text(1, fmt.Sprintf("What is known now (%s) lets the net price come out between these:", a.Stage), style{kind: note, wrap: true})
	s.row++
	q.sumLine("at least", "quote_low", q.c.round(fmt.Sprintf("quote_net*%v", 1-float64(a.Low))), figure(o.Low), plain)
	q.sumLine("at most", "quote_high", q.c.round(fmt.Sprintf("quote_net*%v", 1+float64(a.High))), figure(o.High), plain)
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
	profit, known := "quote_net-cost_total-quote_credit", "quote_net"
	if !o.CostUnknown.IsZero() {
		s.text(1, "sells as listed, its cost not known", style{})
		s.number(amountColumn, figure(o.CostUnknown), style{kind: input, format: q.c.format()})
		s.define("cost_unknown", amountColumn)
		s.row++
		profit, known = profit+"-cost_unknown", "(quote_net-cost_unknown)"
	}
	for _, r := range []struct {
		label, name, formula string
		want                 float64
	}{
		{"net of tax", "quote_net", net, figure(o.Net)},
		{"taken off after tax", "quote_credit", credit, figure(o.Credit)},
		{"left for the shop", "profit", profit, figure(o.Profit)},
	} {
		s.text(1, r.label, style{})
		s.formula(amountColumn, r.formula, r.want, q.c.step(), q.money())
		s.define(r.name, amountColumn)
		s.row++
	}
	s.text(1, "as a share of the net price", style{})
	if o.Credit.IsZero() || o.CostUnknown.IsZero() {
		s.formula(amountColumn, "IF("+known+"=0,0,profit/"+known+")", float64(o.Margin()), 1e-9, style{format: "0.0%"})
	} else {
		s.number(amountColumn, float64(o.Margin()), style{format: "0.0%"}) // the credit has shares of its own
	}
	s.row++
}
