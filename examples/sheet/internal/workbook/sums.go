package workbook

import (
	"fmt"

	"github.com/coverwright/coverwright/cost"
)

// sums adds the lines up: discounts, taxes, total and payments, each under a name that
// the sheet for the customer goes by.
func (q *quoting) sums() {
	s, o := q.work, q.order.Quote
	s.row++
	q.section("the quote")
	q.sumLine("all lines", "quote_subtotal", fixed(amountColumn, q.last+1), figure(o.Subtotal))
	before, after := q.byTax()
	taken := q.discountLines(before)
	q.taxLines()
	net := "quote_subtotal-(" + taken + ")"
	if o.Inclusive {
		net += "-quote_tax"
	}
	q.sumLine("net of tax", "quote_net", net, figure(o.Net))
	credit := q.creditLines(after, "quote_net+quote_tax")
	q.sumLine("taken off after tax", "quote_credit", credit, figure(o.Credit))
	q.sumLine("total", "quote_total", "quote_net+quote_tax-quote_credit", figure(o.Total))
	q.left()
	q.shares()
}

// section writes a heading over the sums.
func (q *quoting) section(name string) {
	s := q.work
	s.text(1, name, style{kind: heading})
	for i := 2; i <= amountColumn; i++ {
		s.blank(i, style{kind: heading})
	}
	s.row++
}

// sumLine writes a sum and gives it a name.
func (q *quoting) sumLine(label, defined, formula string, want float64) {
	s := q.work
	s.text(1, label, style{})
	s.formula(amountColumn, formula, want, q.c.step(), q.money())
	s.define(defined, amountColumn)
	s.row++
}

// discountLines writes the discounts before tax and gives the formula of what
// they take off.
func (q *quoting) discountLines(amounts []cost.DiscountAmount) string {
	taken := "0"
	for k, i := range q.discounts {
		base := "SUM(" + q.column(amountColumn+1+3*k) + ")"
		taken += q.discountLine(i, ", "+on(q.spec.Quote.Discounts[i].Kinds), base, amounts[k])
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
	q.refused = append(q.refused, fmt.Sprintf("(%s>%s+%v)", off, base, q.c.step()/2))
	q.sumLine("less "+d.Name+falls, off, formula, figure(amount.Amount))
	return "+" + off
}

// taxLines writes the taxes and their sum.
func (q *quoting) taxLines() {
	o := q.order.Quote
	tax := "0"
	for k, t := range o.Taxes {
		formula := "SUM(" + q.column(q.taxColumn(k)+1) + ")"
		if o.TaxLevel == cost.PerInvoice {
			formula = coins{q.c.digits, o.TaxRounding}.round(formula)
		}
		label := t.Name
		if o.Inclusive {
			label += ", included"
		}
		name := fmt.Sprintf("tax_%d", k+1)
		q.sumLine(label, name, formula, figure(t.Tax))
		tax += "+" + name
	}
	q.sumLine("all taxes", "quote_tax", tax, figure(o.Tax))
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

// left writes what is left for the shop.
func (q *quoting) left() {
	o, s := q.order.Quote, q.work
	profit, known := "quote_net-cost_total-quote_credit", "quote_net"
	if o.Inclusive {
		q.taxWithinCost()
		profit += "+cost_tax"
	}
	if !o.CostUnknown.IsZero() {
		s.text(1, "sells as listed, its cost not known", style{})
		s.number(amountColumn, figure(o.CostUnknown), q.money())
		s.define("cost_unknown", amountColumn)
		s.row++
		profit, known = profit+"-cost_unknown", "(quote_net-cost_unknown)"
	}
	q.sumLine("left for the shop", "profit", profit, figure(o.Profit))
	s.text(1, "as a share of the net price", style{})
	if o.Credit.IsZero() || o.CostUnknown.IsZero() {
		s.formula(amountColumn, "IF("+known+"=0,0,profit/"+known+")", float64(o.Margin()), 1e-9, style{format: "0.0%"})
	} else {
		s.number(amountColumn, float64(o.Margin()), style{format: "0.0%"}) // the credit has shares of its own
	}
	s.row++
}

// taxWithinCost writes what of the cost is tax: of a price that contains it, cost × R /
// (1 + R), rounded line by line. Of the ways to round only the usual one works on a
// whole column; under another the figure stands as it was.
func (q *quoting) taxWithinCost() {
	s, o := q.work, q.order.Quote
	s.text(1, "tax within the cost", style{})
	if o.Rounding == cost.HalfUp {
		rates := "0"
		for k := range o.Terms.Tax.Levies {
			rates += fmt.Sprintf("+%s*tax_rate_%d", q.column(q.taxColumn(k)), k+1)
		}
		s.formula(amountColumn, fmt.Sprintf("SUMPRODUCT(ROUND(ROUND(%[1]s*(%[2]s)/(1+%[2]s),%[3]d),%[4]d))", q.column(6), rates, q.c.digits+6, q.c.digits), figure(o.CostTax), q.c.step(), q.money())
	} else {
		s.number(amountColumn, figure(o.CostTax), q.money())
	}
	s.define("cost_tax", amountColumn)
	s.row++
}
