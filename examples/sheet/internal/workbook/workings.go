package workbook

import (
	"fmt"
	"slices"
	"strings"

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
	o := q.order.Quote
	s.top("Workings of the quote")
	s.text(1, "For the shop, not for the customer.", style{kind: note})
	s.row++
	q.amounts = q.measure()
	var before []int // discounts before tax, by their place in the job
	for i, d := range q.spec.Quote.Discounts {
		if !d.AfterTax {
			before = append(before, i)
		}
	}
	names := []string{"line", "kind", ">quantity", "unit", ">price", ">cost", ">markup", ">amount"}
	for _, i := range before {
		n := q.spec.Quote.Discounts[i].Name
		names = append(names, ">counts for "+n, ">exact share, minor units", ">off")
	}
	names = append(names, ">after discount")
	for _, t := range q.spec.Quote.Taxes {
		names = append(names, ">taxed: "+t.Name, ">tax before rounding")
	}
	s.headings(names...)
	first := s.row
	last := first + len(o.Lines) - 1
	col := func(c int) string { return span(c, first, last) }
	for i, l := range o.Lines {
		s.text(whatColumn, l.What, style{wrap: true})
		s.text(kindColumn, l.Kind.String(), style{})
		paid, amount := figure(l.Cost), figure(l.Amount)
		uplift, price, quantity := "", "", ""
		switch l.Kind {
		case cost.Goods:
			quantity, price = q.buy[l.ID], name("price_", l.ID)
			if _, ok := q.buy[l.ID]; !ok {
				quantity, price = "", ""
			}
			uplift = "markup"
		case cost.Foam:
			if c, ok := q.foamRow[l.Source]; ok {
				quantity, price, uplift = c.quantity, c.price, "markup"
			}
		case cost.Labour:
			if quantity = q.labourRow[l.Source]; quantity != "" {
				price = "labour_rate"
			}
		}
		n, p := 0.0, 0.0
		x := q.amounts[i]
		if x != nil {
			n, p = x.quantity, x.price
		}
		switch {
		case quantity != "" && x != nil:
			s.formula(3, quantity, n, 1e-9*max(1, n), style{format: twoFormat})
			s.text(4, x.unit, style{gap: true})
			s.formula(5, price, p, 1e-9, style{format: "#,##0.00##"})
			s.native(6, q.c.round(at(3, s.row)+"*"+at(5, s.row)), q.c.near(n*p, paid), paid, q.c.step(), q.money())
		case l.Kind == cost.Contingency && s.row > first:
			s.blank(3, style{})
			s.blank(4, style{})
			s.blank(5, style{})
			s.formula(6, q.c.round("contingency*SUM("+at(amountColumn, first)+":"+at(amountColumn, s.row-1)+")"), paid, q.c.step(), q.money())
			uplift = "0"
		default:
			s.blank(3, style{})
			s.blank(4, style{})
			s.blank(5, style{})
			s.number(6, paid, style{kind: input, format: q.c.format()})
			uplift = "0"
		}
		rate := float64(l.Uplift.Rate())
		switch {
		case l.Uplift.IsMargin():
			// The job file knows no margin on a line; a figure then.
			s.number(7, rate, style{format: percentFormat})
			s.number(amountColumn, amount, q.money())
		case uplift == "markup":
			s.formula(7, "markup", rate, 1e-12, style{format: percentFormat})
			s.native(amountColumn, q.c.round(fmt.Sprintf("%s*%s*(1+%s)", at(3, s.row), at(5, s.row), at(7, s.row))),
				q.c.near(n*p*(1+rate), amount), amount, q.c.step(), q.money())
		default:
			s.number(7, rate, style{format: percentFormat})
			s.formula(amountColumn, at(6, s.row), amount, q.c.step(), q.money())
		}
		c := amountColumn
		left := at(amountColumn, s.row)
		for k, i := range before {
			d := q.spec.Quote.Discounts[i]
			if len(d.Kinds) == 0 || slices.Contains(d.Kinds, l.Kind) {
				s.keep(s.f.SetCellFormula(s.name, at(c+1, s.row), left))
				s.keep(s.f.SetCellStyle(s.name, at(c+1, s.row), at(c+1, s.row), s.style(q.money())))
			} else {
				s.number(c+1, 0, q.money())
			}
			q.derived(c+2, fmt.Sprintf("IF(SUM(%[1]s)=0,0,ROUND(%[2]s*%[3]s*%[4]s/SUM(%[1]s),6))", col(c+1), q.off(k, before), q.c.minor(), at(c+1, s.row)), "0.00####")
			q.derived(c+3, share(at(c+2, s.row), col(c+2), fixed(c+2, first)+":"+at(c+2, s.row), q.off(k, before)+"*"+q.c.minor())+"/"+q.c.minor(), q.c.format())
			left += "-" + at(c+3, s.row)
			c += 3
		}
		c++
		taxed := c
		s.formula(taxed, left, figure(l.Taxed), q.c.step(), q.money())
		gross := "1"
		if o.Inclusive {
			for k := range q.spec.Quote.Taxes {
				gross += "+" + at(taxed+1+2*k, s.row) + "*" + fmt.Sprintf("tax_rate_%d", k+1)
			}
		}
		for k, t := range q.spec.Quote.Taxes {
			on := 0.0
			for _, kind := range t.On {
				if kind.TaxClass() == l.TaxClass {
					on = 1
				}
			}
			s.number(c+1, on, style{kind: input, format: countFormat})
			x := fmt.Sprintf("%s*%s*tax_rate_%d", at(c+1, s.row), at(taxed, s.row), k+1)
			if o.Inclusive {
				x += "/(" + gross + ")"
			}
			if o.TaxLevel == cost.PerLine {
				c0 := coins{q.c.digits, o.TaxRounding}
				x = c0.round(x)
			}
			q.derived(c+2, x, "0.00####")
			c += 2
		}
		s.row++
	}
	q.first, q.last = first, last
	q.discounts, q.taxed = before, amountColumn+1+3*len(before)
	s.text(1, "all lines", style{kind: sum})
	for i := 2; i < q.taxed+1+2*len(q.spec.Quote.Taxes); i++ {
		s.blank(i, style{kind: sum})
	}
	total := func(c int, want float64) {
		s.formula(c, "SUM("+col(c)+")", want, q.c.step(), style{kind: sum, format: q.c.format()})
	}
	total(6, figure(o.Cost))
	total(amountColumn, figure(o.Subtotal))
	total(q.taxed, figure(o.Taxed))
	s.define("cost_total", 6)
	s.row++
	q.shares(s)
}

// derived writes a formula whose figure is not in the work order.
func (q *quoting) derived(column int, formula, format string) {
	s := q.work
	c := at(column, s.row)
	s.keep(s.f.SetCellFormula(s.name, c, formula))
	s.keep(s.f.SetCellStyle(s.name, c, c, s.style(style{format: format})))
}

// off names the amount of a discount before tax.
func (q *quoting) off(k int, before []int) string { return fmt.Sprintf("off_%d", before[k]+1) }

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
	var others []string
	for i, p := range ps {
		if p.Share > 0 {
			others = append(others, fmt.Sprintf("payment_%d", i+1))
		}
	}
	rest := "quote_total"
	if len(others) > 0 {
		rest = "quote_total*(1-(" + strings.Join(others, "+") + "))"
	}
	for i, p := range ps {
		s.text(1, p.Name, style{})
		x := rest
		if p.Share > 0 {
			x = fmt.Sprintf("quote_total*payment_%d", i+1)
		}
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

// measure gives the quantity of each line in the unit of its price; nil for
// what is counted, such as a lump sum, and for contingency.
func (q *quoting) measure() []*measured {
	out := make([]*measured, len(q.order.Quote.Lines))
	for i, l := range q.order.Quote.Lines {
		if _, counted := cost.QuantityAs[cost.Pieces](l.Exact.Quantity); !counted && !l.Exact.Price.IsZero() {
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
