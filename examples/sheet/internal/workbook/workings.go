package workbook

import (
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/cost"
)

// Columns of the workings: one row for each line of the quote.
const (
	whatColumn   = 1
	kindColumn   = 2
	amountColumn = 8 // with markup
)

// workings adds the quote up line by line, so that the sheet for the customer
// shows no cost. Discounts are spread over the lines by largest remainder.
func (q *quoting) workings() {
	s := q.add(workingsSheet)
	q.work = s
	s.top("Workings of the quote")
	s.text(1, "For the shop, not for the customer.", style{kind: note})
	s.row++
	q.amounts = q.measure()
	for i, d := range q.spec.Quote.Discounts {
		if !d.AfterTax {
			q.discounts = append(q.discounts, i)
		}
	}
	q.taxed = amountColumn + 1 + 3*len(q.discounts)
	q.workingsHeadings()
	lines := q.order.Quote.Lines
	q.first, q.last = s.row, s.row+len(lines)-1
	for i, l := range lines {
		s.text(whatColumn, l.What, style{wrap: true})
		s.text(kindColumn, l.Kind.String(), style{})
		q.costing(l, q.amounts[i])
		s.formula(q.taxed, q.lessDiscounts(l), figure(l.Taxed), q.c.step(), q.money())
		q.taxing(l)
		s.row++
	}
	q.allLines()
	q.shares(s)
}

func (q *quoting) workingsHeadings() {
	names := []string{"line", "kind", ">quantity", "unit", ">price", ">cost", ">markup", ">amount"}
	for _, i := range q.discounts {
		n := q.spec.Quote.Discounts[i].Name
		names = append(names, ">counts for "+n, ">exact share, minor units", ">off")
	}
	names = append(names, ">after discount")
	for _, t := range q.spec.Quote.Taxes {
		names = append(names, ">taxed: "+t.Name, ">tax before rounding")
	}
	q.work.headings(names...)
}

// costing writes quantity, price, cost, markup and amount of a line. One that
// no other sheet counts is a figure to change.
func (q *quoting) costing(l cost.QuoteLine, x *measured) {
	s := q.work
	paid, amount := figure(l.Cost), figure(l.Amount)
	if filling(l.Kind) || l.Sells == cost.AsListed {
		q.priced(l, amount)
		return
	}
	quantity, price := q.counting(l)
	counted := x != nil
	if counted {
		if quantity != "" {
			s.formula(3, quantity, x.quantity, 1e-9*max(1, x.quantity), style{format: twoFormat})
			s.formula(5, price, x.price, 1e-9, style{format: "#,##0.00##"})
		} else { // a finding, or what a customer's own goods are handled for
			s.number(3, x.quantity, style{kind: input, format: twoFormat})
			s.number(5, x.price, style{kind: input, format: "#,##0.00##"})
		}
		s.text(4, x.unit, style{gap: true})
		s.native(6, q.c.round(at(3, s.row)+"*"+at(5, s.row)), q.c.near(x.quantity*x.price, paid), paid, q.c.step(), q.money())
	} else {
		for c := 3; c <= 5; c++ {
			s.blank(c, style{})
		}
		if l.Kind == cost.Contingency && s.row > q.first {
			s.formula(6, q.c.round("contingency*SUM("+at(amountColumn, q.first)+":"+at(amountColumn, s.row-1)+")"), paid, q.c.step(), q.money())
		} else {
			s.number(6, paid, style{kind: input, format: q.c.format()})
		}
	}
	rate := float64(l.Uplift.Rate())
	switch {
	case l.Uplift.IsMargin():
		// The job file knows no margin on a line; a figure then.
		s.number(7, rate, style{format: percentFormat})
		s.number(amountColumn, amount, q.money())
	case counted && l.Kind != cost.Labour:
		if l.Uplift == cost.Markup(q.spec.Quote.Markup) {
			s.formula(7, "markup", rate, 1e-12, style{format: percentFormat})
		} else {
			s.number(7, rate, style{kind: input, format: percentFormat})
		}
		s.native(amountColumn, q.c.round(fmt.Sprintf("%s*%s*(1+%s)", at(3, s.row), at(5, s.row), at(7, s.row))),
			q.c.near(x.quantity*x.price*(1+rate), amount), amount, q.c.step(), q.money())
	default:
		s.number(7, rate, style{format: percentFormat})
		s.native(amountColumn, q.c.round(fmt.Sprintf("%s*(1+%s)", at(6, s.row), at(7, s.row))), q.c.near(paid*(1+rate), amount), amount, q.c.step(), q.money())
	}
}

// counting gives the cell a line's quantity stands in and that of its price;
// no quantity for a line that no other sheet counts.
func (q *quoting) counting(l cost.QuoteLine) (quantity, price string) {
	switch l.Kind {
	case cost.Goods:
		return q.buy[l.ID], name("price_", l.ID)
	case cost.Foam:
		c := q.foamRow[l.Source]
		return c.quantity, c.price
	case cost.Labour:
		return q.labourRow[l.Source], "labour_rate"
	}
	return "", ""
}

// column is the range of one column over all lines.
func (q *quoting) column(c int) string { return span(c, q.first, q.last) }

// lessDiscounts spreads the discounts before tax, three columns each, and
// gives the formula of what is left of the line's amount.
func (q *quoting) lessDiscounts(l cost.QuoteLine) string {
	s := q.work
	left := at(amountColumn, s.row)
	for k, i := range q.discounts {
		base := amountColumn + 1 + 3*k
		exact, off := base+1, base+2
		d := q.spec.Quote.Discounts[i]
		if len(d.Kinds) == 0 && !filling(l.Kind) || slices.Contains(d.Kinds, l.Kind) {
			q.derived(base, left, q.c.format())
		} else {
			s.number(base, 0, q.money())
		}
		all := fmt.Sprintf("off_%d", i+1)
		q.derived(exact, fmt.Sprintf("IF(SUM(%[1]s)=0,0,ROUND(%[2]s*%[3]s*%[4]s/SUM(%[1]s),6))", q.column(base), all, q.c.minor(), at(base, s.row)), "0.00####")
		q.derived(off, share(at(exact, s.row), q.column(exact), fixed(exact, q.first)+":"+at(exact, s.row), all+"*"+q.c.minor())+"/"+q.c.minor(), q.c.format())
		left += "-" + at(off, s.row)
	}
	return left
}

// taxing writes two columns for each tax: whether it falls on the line, and
// how much it is.
func (q *quoting) taxing(l cost.QuoteLine) {
	s, o := q.work, q.order.Quote
	flag := func(k int) int { return q.taxed + 1 + 2*k }
	gross := "1"
	if o.Inclusive {
		for k := range q.spec.Quote.Taxes {
			gross += "+" + at(flag(k), s.row) + "*" + fmt.Sprintf("tax_rate_%d", k+1)
		}
	}
	for k, t := range o.Terms.Tax.Levies {
		on := 0.0
		if slices.Contains(t.On, l.TaxClass) && !slices.Contains(t.Except, l.TaxClass) {
			on = 1
		}
		s.number(flag(k), on, style{kind: input, format: countFormat})
		x := fmt.Sprintf("%s*%s*tax_rate_%d", at(flag(k), s.row), at(q.taxed, s.row), k+1)
		if o.Inclusive {
			x += "/(" + gross + ")"
		}
		if o.TaxLevel == cost.PerLine {
			x = coins{q.c.digits, o.TaxRounding}.round(x)
		}
		q.derived(flag(k)+1, x, "0.00####")
	}
}

// allLines writes the sums of the lines.
func (q *quoting) allLines() {
	s, o := q.work, q.order.Quote
	s.text(1, "all lines", style{kind: sum})
	for i := 2; i < q.taxed+1+2*len(q.spec.Quote.Taxes); i++ {
		s.blank(i, style{kind: sum})
	}
	total := func(c int, want float64) {
		s.formula(c, "SUM("+q.column(c)+")", want, q.c.step(), style{kind: sum, format: q.c.format()})
	}
	total(6, figure(o.Cost))
	total(amountColumn, figure(o.Subtotal))
	total(q.taxed, figure(o.Taxed))
	s.define("cost_total", 6)
	s.row++
}

// derived writes a formula whose figure is not in the work order.
func (q *quoting) derived(column int, formula, format string) {
	s := q.work
	c := at(column, s.row)
	s.keep(s.f.SetCellFormula(s.name, c, formula))
	s.keep(s.f.SetCellStyle(s.name, c, c, s.style(style{format: format})))
}

// shares splits the total over the payments by largest remainder.
func (q *quoting) shares(s *sheet) {
	ps := q.order.Quote.Payments
	if len(ps) == 0 {
		return
	}
	s.row++
	s.text(1, "payments", style{kind: heading})
	for i := 2; i <= amountColumn; i++ {
		s.blank(i, style{kind: heading})
	}
	s.row++
	first := s.row
	all := span(6, first, first+len(ps)-1)
	parts := q.due(ps)
	for i, p := range ps {
		s.text(1, p.Name, style{})
		x := parts[i]
		q.derived(6, "ROUND(("+x+")*"+q.c.minor()+",6)", "0.00####")
		s.text(5, "exact, minor units", style{kind: note})
		s.formula(amountColumn, share(at(6, s.row), all, fixed(6, first)+":"+at(6, s.row), "quote_total*"+q.c.minor())+"/"+q.c.minor(), figure(p.Amount), q.c.step(), q.money())
		q.payments = append(q.payments, s.of(fixed(amountColumn, s.row)))
		s.row++
	}
}

// measured is what a line of the quote counts: so much at a price.
type measured struct {
	quantity, price float64
	unit            string
}

// measure gives the quantity of each line in the unit of its price; nil for a lump
// sum, for what is paid once beside its price, and for contingency.
func (q *quoting) measure() []*measured {
	out := make([]*measured, len(q.order.Quote.Lines))
	for i, l := range q.order.Quote.Lines {
		_, counted := cost.QuantityAs[cost.Pieces](l.Exact.Quantity)
		lump := counted && l.Uplift == cost.Uplift{}
		if !lump && !l.Exact.Price.IsZero() && l.Exact.Fixed.IsZero() {
			out[i] = &measured{float64(l.Exact.Units()), figure(l.Exact.Price.Amount()), l.Exact.Price.UnitText()}
		}
	}
	return out
}

// workingsPage sets the page when all its rows are written.
func (q *quoting) workingsPage() {
	widths := []float64{34, 16, 10, 8, 10, 11, 9, 12}
	for range q.taxed + 2*len(q.spec.Quote.Taxes) - len(widths) {
		widths = append(widths, 11)
	}
	q.work.page(true, q.letter(), q.first-1, widths...)
}
