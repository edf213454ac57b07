package workbook

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/unit"
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
	spread, err := q.spread()
	if q.keep(err); err != nil {
		return
	}
	due := q.levied()
	q.workingsHeadings()
	lines := q.order.Quote.Lines
	q.first, q.last = s.row, s.row+len(lines)-1
	for i, l := range lines {
		s.text(whatColumn, l.What, style{wrap: true})
		s.text(kindColumn, l.Kind.String(), style{})
		q.costing(l, q.amounts[i])
		s.formula(q.taxed, q.lessDiscounts(i, spread), figure(l.Taxed), q.c.step(), q.money())
		q.taxing(i, due)
		q.credited(l)
		s.row++
	}
	q.allLines()
	q.sums()
	q.rates()
}

func (q *quoting) workingsHeadings() {
	names := []string{"line", "kind", ">quantity", "unit", ">price", ">cost", ">markup", ">amount"}
	for _, i := range q.discounts {
		n := q.spec.Quote.Discounts[i].Name
		names = append(names, ">counts for "+n, ">exact share, minor units", ">off")
	}
	names = append(names, ">after discount")
	for _, t := range q.spec.Quote.Taxes {
		names = append(names, ">taxed: "+t.Name, ">tax before rounding", ">exact share of the tax, minor units", ">"+t.Name)
	}
	names = append(names, ">tax of the line")
	if !q.order.Quote.Credit.IsZero() {
		names = append(names, ">exact share off after tax, minor units", ">off after tax")
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
	if g, ok := q.goodsOf(l.Source); ok && x != nil && quantity != "" && l.Kind == cost.Goods && x.unit != pricing(g).text {
		x = &measured{0, pricing(g).amount, pricing(g).text} // all of it is at hand: nothing is bought
	}
	counted := x != nil
	if counted {
		if quantity != "" {
			s.formula(3, quantity, x.quantity, 1e-9*max(1, x.quantity), style{format: twoFormat})
			s.formula(5, price, x.price, 1e-9, style{format: "#,##0.00##"})
		} else { // a finding, or what a customer's own goods are handled for
			q.more(3, l, x.quantity, twoFormat)
			q.priceOf(5, l, x)
		}
		s.text(4, x.unit, style{gap: true})
		s.native(6, q.c.round(at(3, s.row)+"*"+at(5, s.row)), q.c.near(x.quantity*x.price, paid), paid, q.c.step(), q.money())
	} else {
		for c := 3; c <= 5; c++ {
			s.blank(c, style{})
		}
		if share := q.ofGoods(l); share != "" {
			s.formula(6, share, paid, q.c.step(), q.money())
		} else if l.Kind == cost.Contingency && s.row > q.first {
			s.formula(6, q.c.round("contingency*SUM("+at(amountColumn, q.first)+":"+at(amountColumn, s.row-1)+")"), paid, q.c.step(), q.money())
		} else {
			q.figureOf(s, 6, q.extra(l), 1, paid, q.money())
		}
	}
	rate := float64(l.Uplift.Rate())
	switch {
	case l.Uplift.IsMargin():
		// The job file knows no margin on a line; a figure then.
		s.number(7, rate, style{format: percentFormat})
		s.number(amountColumn, amount, q.money())
	case counted && !hourly(l):
		q.figureOf(s, 7, q.markupOf(l), 1, rate, style{format: percentFormat})
		s.native(amountColumn, q.c.round(fmt.Sprintf("%s*%s*(1+%s)", at(3, s.row), at(5, s.row), at(7, s.row))),
			q.c.near(x.quantity*x.price*(1+rate), amount), amount, q.c.step(), q.money())
	default: // a sum that is neither marked up nor counted
		s.number(7, rate, style{format: percentFormat})
		s.native(amountColumn, q.c.round(fmt.Sprintf("%s*(1+%s)", at(6, s.row), at(7, s.row))), q.c.near(paid*(1+rate), amount), amount, q.c.step(), q.money())
	}
}

// counting gives the cell a line's quantity stands in and that of its price;
// no quantity for a line that no other sheet counts.
func (q *quoting) counting(l cost.QuoteLine) (quantity, price string) {
	if hourly(l) {
		return q.labourRow[l.Source], "labour_rate"
	}
	switch l.Kind {
	case cost.Goods:
		return q.buy[l.ID], name("price_", l.ID)
	case cost.Foam:
		c := q.foamRow[l.Source]
		return c.quantity, c.price
	}
	return "", ""
}

// hourly tells whether a line is time, at the bench or around it.
func hourly(l cost.QuoteLine) bool { return unit.Path(l.Source).Under("labour") }

// fromStock gives the goods at hand that a line charges.
func (q *quoting) fromStock(l cost.QuoteLine) (job.GoodsSpec, bool) {
	g, ok := q.goodsOf(l.Source)
	return g, ok && l.Kind == cost.Goods && l.ID == l.Source+" from stock"
}

// asIfBought tells whether goods at hand are charged with the markup of others.
func (q *quoting) asIfBought(id string) bool {
	return slices.ContainsFunc(q.order.Purchases, func(p job.Purchase) bool {
		return p.Goods == id && p.Stock != nil && p.Stock.Charged == stock.AsIfBought
	})
}

// priceOf writes the price of a line that no other sheet counts.
func (q *quoting) priceOf(column int, l cost.QuoteLine, x *measured) {
	st := style{format: "#,##0.00##"}
	if g, ok := q.fromStock(l); ok && pricing(g).text == x.unit {
		q.work.formula(column, name("price_", g.ID), x.price, 1e-9, st)
		return
	}
	if share := q.ofGoods(l); share != "" {
		q.work.formula(column, share, x.price, q.c.step(), st)
		return
	}
	q.figureOf(q.work, column, q.listed(l, x), 1, x.price, st)
}

// ofGoods gives the formula of the sum for small findings, where it is a share of what
// goods and foam cost; they stand above it.
func (q *quoting) ofGoods(l cost.QuoteLine) string {
	small := q.spec.Quote.Sundries
	if l.Kind != cost.Sundries || l.ID != "sundries" || small == nil || !small.Amount.IsZero() || q.work.row == q.first {
		return ""
	}
	kinds, costs := span(kindColumn, q.first, q.work.row-1), span(6, q.first, q.work.row-1)
	return q.c.round(fmt.Sprintf("%v*(SUMIF(%[2]s,\"%[3]s\",%[4]s)+SUMIF(%[2]s,\"%[5]s\",%[4]s))", float64(small.Share), kinds, cost.Goods, costs, cost.Foam))
}

// more writes a quantity that no other sheet counts: after a change, as much more as
// there are more of the pieces of furniture that it is for.
func (q *quoting) more(column int, l cost.QuoteLine, quantity float64, format string) {
	s := q.work
	var sum []string
	all := int64(0)
	for _, x := range l.Shares {
		all += x.Weight
	}
	for _, x := range l.Shares {
		at, i, ok := q.piece(x.Group)
		if !ok || all == 0 {
			sum = append(sum, fmt.Sprint(float64(x.Weight)/float64(max(all, 1))))
			continue
		}
		part := fmt.Sprint(float64(x.Weight) / float64(all))
		if c, ok := q.job.cell(at.Dot("count")); ok {
			part = fmt.Sprintf("%s*IF(ISNUMBER(%[2]s),%[2]s,1)/%[3]d", part, c.ref, max(1, q.spec.Pieces[i].Count))
		}
		sum = append(sum, part)
	}
	if len(sum) == 0 {
		s.number(column, quantity, style{format: format})
		return
	}
	s.formula(column, estimated(fmt.Sprint(quantity), fmt.Sprintf("%v*(%s)", quantity, strings.Join(sum, "+"))), quantity, 1e-9*max(1, quantity), style{format: format})
}

// listed is the place of the price of a line in the price list of the job.
func (q *quoting) listed(l cost.QuoteLine, x *measured) unit.Path {
	for i, e := range q.spec.Prices.Entries() {
		if e.Code == l.ID && e.Price.UnitText() == x.unit && e.Least.IsZero() && e.CutCharge.IsZero() && e.Freight.IsZero() {
			return unit.Path("prices").At(i).Dot("price")
		}
	}
	return ""
}

// extra is the place of a fixed amount of the job.
func (q *quoting) extra(l cost.QuoteLine) unit.Path {
	for i, e := range q.spec.Quote.Extras {
		if l.Kind == e.Kind && l.What == e.Name && l.Cost.String() == e.Amount.String() {
			return unit.Path("quote.extras").At(i).Dot("amount")
		}
	}
	return ""
}

// markupOf is the place of the markup of a line; none where the price list has one of its
// own, and none for what is charged without one.
func (q *quoting) markupOf(l cost.QuoteLine) unit.Path {
	if g, ok := q.fromStock(l); ok && !q.asIfBought(g.ID) || l.Kind == cost.OwnMaterial {
		return ""
	}
	for _, e := range q.spec.Prices.Entries() {
		if e.Code == l.ID && e.Uplift != (cost.Uplift{}) {
			return ""
		}
	}
	if by := q.spec.Quote.MarkupBy; by != nil {
		switch {
		case l.Kind == cost.Goods && by.Goods != nil:
			return "quote.markup_by.goods"
		case l.Kind == cost.Foam && by.Foam != nil:
			return "quote.markup_by.foam"
		case l.Kind != cost.Goods && l.Kind != cost.Foam && by.Sundries != nil:
			return "quote.markup_by.sundries"
		}
	}
	return "quote.markup"
}

// column is the range of one column over all lines.
func (q *quoting) column(c int) string { return span(c, q.first, q.last) }

// taken is what a discount takes off each line.
type taken struct{ base, off []cost.Money }

// spread gives what each discount before tax takes off each line, as the quote has it.
func (q *quoting) spread() ([]taken, error) {
	lines := q.order.Quote.Lines
	left := make([]cost.Money, len(lines))
	for i, l := range lines {
		left[i] = l.Amount
	}
	before, _ := q.byTax()
	out := make([]taken, len(q.discounts))
	for k, i := range q.discounts {
		d := q.order.Quote.Terms.Discounts[i]
		none, err := cost.Zero(q.order.Quote.Currency)
		if err != nil {
			return nil, err
		}
		x := taken{base: make([]cost.Money, len(lines))}
		for j, l := range lines {
			x.base[j] = none
			if falls(d, l.Kind) {
				x.base[j] = left[j]
			}
		}
		if !slices.ContainsFunc(x.base, func(m cost.Money) bool { return !m.IsZero() }) {
			x.off = slices.Clone(x.base) // there is no line that it is off
		} else if x.off, err = cost.AllocateByMoney(before[k].Amount, x.base); err != nil {
			return nil, err
		}
		for j := range lines {
			if left[j], err = left[j].Minus(x.off[j]); err != nil {
				return nil, err
			}
		}
		out[k] = x
	}
	return out, nil
}

// falls tells whether a discount is of lines of a kind.
func falls(d cost.Discount, k cost.Kind) bool {
	return !filling(k) && (len(d.Kinds) == 0 || slices.Contains(d.Kinds, k))
}

// lessDiscounts spreads the discounts before tax over a line, three columns each, and
// gives the formula of what is left of the line's amount.
func (q *quoting) lessDiscounts(line int, spread []taken) string {
	s, l := q.work, q.order.Quote.Lines[line]
	left := at(amountColumn, s.row)
	for k, i := range q.discounts {
		base := amountColumn + 1 + 3*k
		exact, off := base+1, base+2
		x := spread[k]
		whole, part, sum := 0.0, figure(x.base[line]), 0.0
		for j := range x.base {
			whole, sum = whole+figure(x.off[j]), sum+figure(x.base[j])
		}
		if falls(q.order.Quote.Terms.Discounts[i], l.Kind) {
			s.formula(base, left, part, q.c.step(), q.money())
		} else {
			s.number(base, 0, q.money())
		}
		all := fmt.Sprintf("off_%d", i+1)
		if sum == 0 {
			sum = 1 // of nothing, whatever it is divided by
		}
		s.formula(exact, fmt.Sprintf("IF(SUM(%[1]s)=0,0,ROUND(%[2]s*%[3]s*%[4]s/SUM(%[1]s),6))", q.column(base), all, q.c.minor(), at(base, s.row)),
			whole*math.Pow10(q.c.digits)*part/sum, fine, style{format: "0.00####"})
		s.formula(off, share(at(exact, s.row), q.column(exact), fixed(exact, q.first)+":"+at(exact, s.row), all+"*"+q.c.minor())+"/"+q.c.minor(), figure(x.off[line]), q.c.step(), q.money())
		left += "-" + at(off, s.row)
	}
	return left
}

// fine is the step of shares before they are rounded, in minor units.
const fine = 1e-5

// taxColumn is the column that tells whether a tax falls on the lines; the tax of each
// stands beside it.
func (q *quoting) taxColumn(k int) int { return q.taxed + 1 + 4*k }

// lineTax is the column of the tax of each line; beside it stands its share of what is
// off after tax.
func (q *quoting) lineTax() int { return q.taxColumn(len(q.order.Quote.Taxes)) }

// lastColumn is the last one of the workings.
func (q *quoting) lastColumn() int {
	if q.order.Quote.Credit.IsZero() {
		return q.lineTax()
	}
	return q.lineTax() + 2
}

// levied gives what each tax is on each line before the tax of the quote is rounded.
func (q *quoting) levied() [][]float64 {
	o := q.order.Quote
	out := make([][]float64, len(o.Terms.Tax.Levies))
	for k, t := range o.Terms.Tax.Levies {
		out[k] = make([]float64, len(o.Lines))
		for i, l := range o.Lines {
			if !t.Falls(l.TaxClass) {
				continue
			}
			gross := 1.0
			for _, x := range o.Terms.Tax.Levies {
				if o.Inclusive && x.Falls(l.TaxClass) {
					gross += float64(x.Rate)
				}
			}
			out[k][i] = figure(l.Taxed) * float64(t.Rate) / gross
			if o.TaxLevel == cost.PerLine {
				out[k][i] = coins{q.c.digits, o.TaxRounding}.rounded(out[k][i])
			}
		}
	}
	return out
}

// taxing writes four columns for each tax: whether it falls on the line, how much it is,
// and the line's share of what the quote has of it.
func (q *quoting) taxing(line int, due [][]float64) {
	s, o := q.work, q.order.Quote
	levies := o.Terms.Tax.Levies
	gross, sum, sums := "1", "0", 0.0
	if o.Inclusive {
		for k := range levies {
			gross += "+" + at(q.taxColumn(k), s.row) + "*" + fmt.Sprintf("tax_rate_%d", k+1)
		}
	}
	for k, t := range levies {
		flag := q.taxColumn(k)
		on := 0.0
		if t.Falls(o.Lines[line].TaxClass) {
			on = 1
		}
		s.number(flag, on, style{format: countFormat})
		x := fmt.Sprintf("%s*%s*tax_rate_%d", at(flag, s.row), at(q.taxed, s.row), k+1)
		if o.Inclusive {
			x += "/(" + gross + ")"
		}
		step := fine * q.c.step()
		if o.TaxLevel == cost.PerLine {
			x, step = coins{q.c.digits, o.TaxRounding}.round(x), q.c.step()
		}
		s.formula(flag+1, x, due[k][line], step, style{format: "0.00####"})
		exact, cents := shareOf(figure(o.Taxes[k].Tax)*math.Pow10(q.c.digits), due[k], line)
		all, name := q.column(flag+1), fmt.Sprintf("tax_%d", k+1)
		s.formula(flag+2, fmt.Sprintf("IF(SUM(%[1]s)=0,0,ROUND(%[2]s*%[3]s*%[4]s/SUM(%[1]s),6))", all, name, q.c.minor(), at(flag+1, s.row)), exact, fine, style{format: "0.00####"})
		s.formula(flag+3, share(at(flag+2, s.row), q.column(flag+2), fixed(flag+2, q.first)+":"+at(flag+2, s.row), name+"*"+q.c.minor())+"/"+q.c.minor(), cents*q.c.step(), q.c.step(), q.money())
		sum, sums = sum+"+"+at(flag+3, s.row), sums+float64(cents*q.c.step())
	}
	s.formula(q.lineTax(), sum, sums, q.c.step(), q.money())
}

// credited writes the share of a line in what is off after tax.
func (q *quoting) credited(l cost.QuoteLine) {
	s, o, c := q.work, q.order.Quote, q.lineTax()
	if o.Credit.IsZero() {
		return
	}
	weight, all := at(q.taxed, s.row), "SUM("+q.column(q.taxed)+")"
	part, sum := figure(l.Taxed), figure(o.Taxed)
	if !o.Inclusive {
		weight, all = "("+weight+"+"+at(c, s.row)+")", "("+all+"+SUM("+q.column(c)+"))"
		part, sum = part+figure(l.Tax), sum+figure(o.Tax)
	}
	s.formula(c+1, fmt.Sprintf("IF(%[1]s=0,0,ROUND(quote_credit*%[2]s*%[3]s/%[1]s,6))", all, q.c.minor(), weight), figure(o.Credit)*math.Pow10(q.c.digits)*part/sum, fine, style{format: "0.00####"})
	s.formula(c+2, share(at(c+1, s.row), q.column(c+1), fixed(c+1, q.first)+":"+at(c+1, s.row), "quote_credit*"+q.c.minor())+"/"+q.c.minor(), figure(l.Credit), q.c.step(), q.money())
}

// shareOf splits minor units by largest remainder, as the formula of share does, and gives
// one part before and after it is rounded.
func shareOf(whole float64, weights []float64, one int) (exact, part float64) {
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	if sum == 0 {
		return 0, 0
	}
	rest := func(x float64) float64 { return math.Round((x-math.Floor(x))*1e6) / 1e6 }
	exacts := make([]float64, len(weights))
	over := math.Round(whole)
	for i, w := range weights {
		exacts[i] = math.Round(whole*w/sum*1e6) / 1e6
		over -= math.Floor(exacts[i])
	}
	before := 0.0
	for i, x := range exacts {
		if rest(x) > rest(exacts[one]) || i <= one && rest(x) == rest(exacts[one]) {
			before++
		}
	}
	part = math.Floor(exacts[one])
	if before <= over {
		part++
	}
	return exacts[one], part
}

// allLines writes the sums of the lines.
func (q *quoting) allLines() {
	s, o := q.work, q.order.Quote
	s.text(1, "all lines", style{kind: sum})
	for i := 2; i <= q.lastColumn(); i++ {
		s.blank(i, style{kind: sum})
	}
	total := func(c int, want float64) {
		s.formula(c, "SUM("+q.column(c)+")", want, q.c.step(), style{kind: sum, format: q.c.format()})
	}
	total(6, figure(o.Cost))
	total(amountColumn, figure(o.Subtotal))
	total(q.taxed, figure(o.Taxed))
	total(q.lineTax(), figure(o.Tax))
	s.define("cost_total", 6)
	s.row++
}

// shares splits the total over the payments by largest remainder.
func (q *quoting) shares() {
	s, ps := q.work, q.order.Quote.Payments
	if len(ps) == 0 {
		return
	}
	s.row++
	q.section("payments")
	first := s.row
	all := span(6, first, first+len(ps)-1)
	parts := q.due(ps)
	for i, p := range ps {
		s.text(1, p.Name, style{})
		x := parts[i]
		s.formula(6, "ROUND(("+x.formula+")*"+q.c.minor()+",6)", x.gives*math.Pow10(q.c.digits), fine, style{format: "0.00####"})
		s.text(5, "exact, minor units", style{kind: note})
		s.formula(amountColumn, share(at(6, s.row), all, fixed(6, first)+":"+at(6, s.row), "quote_total*"+q.c.minor())+"/"+q.c.minor(), figure(p.Amount), q.c.step(), q.money())
		s.define(fmt.Sprintf("due_%d", i+1), amountColumn)
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
		lump := counted && l.Uplift == cost.Uplift{} && l.ID != "sundries" && (l.Source == l.What || l.Kind == cost.OwnMaterial)
		if !lump && !l.Exact.Price.IsZero() && l.Exact.Fixed.IsZero() {
			out[i] = &measured{float64(l.Exact.Units()), figure(l.Exact.Price.Amount()), l.Exact.Price.UnitText()}
		}
	}
	return out
}

// workingsPage sets the page when all its rows are written.
func (q *quoting) workingsPage() {
	widths := []float64{34, 16, 10, 8, 10, 11, 9, 12}
	for range q.lastColumn() - len(widths) {
		widths = append(widths, 11)
	}
	q.work.page(true, q.letter(), q.first-1, widths...)
}
