package workbook

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/job/paper"
)

// Columns of the sheet for the customer.
const (
	howColumn  = 2 // rates, counts
	eachColumn = 3 // the price of one, what a tax is of
	sumColumn  = 4
)

// customerSheet is the sheet that the customer gets.
type customerSheet struct {
	*sheet
	q *quoting
	p paper.Paper
}

// titles are the headings of the papers.
var titles = map[paper.Kind]string{paper.Estimate: "Estimate", paper.Quotation: "Quotation", paper.WorkOrder: "Work order", paper.Invoice: "Invoice"}

// customers writes the paper of the customer. Its amounts follow from the workings; it
// says nothing of how they came about.
func (q *quoting) customers(p paper.Paper, out *book) {
	s := customerSheet{newSheet(out, quoteSheet), q, p}
	s.letterhead()
	s.addressed()
	if !out.still {
		s.stale()
	}
	s.prices()
	s.settled()
	s.payments()
	s.pieces()
	s.covers()
	s.options()
	s.told()
	s.signed()
	s.page(false, q.letter(), 0, 46, 11, 15, 16)
	s.foot(strings.ReplaceAll(joined(" · ", titles[p.Kind], p.Number, p.Name), "&", "&&"))
}

// joined puts texts side by side, as far as there are any.
func joined(by string, texts ...string) string {
	return strings.Join(slices.DeleteFunc(texts, func(s string) bool { return s == "" }), by)
}

// capital begins a text with a capital.
func capital(s string) string {
	r := []rune(s)
	if len(r) == 0 {
		return s
	}
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// dayText writes a day for people everywhere; nothing for none.
func dayText(d cost.Date) string {
	t, err := time.Parse(time.DateOnly, d.String())
	if d.IsZero() || err != nil {
		return ""
	}
	return t.Format("2 January 2006")
}

// line writes a text over all columns.
func (s customerSheet) line(text string, kind look) {
	if text == "" {
		return
	}
	s.across(1, sumColumn, text, style{kind: kind, wrap: true})
	s.row++
}

// heading begins a part of the paper.
func (s customerSheet) heading(texts ...string) {
	s.row++
	for i, text := range texts {
		s.text(i+1, text, style{kind: heading, right: i > 0})
	}
	for i := len(texts); i < sumColumn; i++ {
		s.blank(i+1, style{kind: heading})
	}
	s.row++
}

// letterhead writes who sends the paper.
func (s customerSheet) letterhead() {
	shop := s.p.Shop
	if shop == nil {
		return
	}
	s.text(1, shop.Name, style{kind: title})
	s.row++
	s.line(strings.Join(shop.Address, ", "), note)
	s.line(joined(" · ", shop.Phone, shop.Mail), note)
	if shop.TaxNumber != "" {
		s.line("Tax number "+shop.TaxNumber, note)
	}
	s.row++
}

// addressed writes what the paper is, for whom and of when.
func (s customerSheet) addressed() {
	p := s.p
	s.text(1, titles[p.Kind], style{kind: title})
	s.row++
	var to, facts []string
	if c := p.Customer; c != nil {
		to = append(append(to, c.Name), c.Address...)
	}
	put := func(name, text string) {
		if text != "" {
			facts = append(facts, name+"  "+text)
		}
	}
	put("Invoice", p.Invoice)
	put("Job", p.Number)
	put("Date", dayText(p.Issued))
	put("Valid until", dayText(p.Valid))
	put("Pay by", dayText(p.PayBy))
	if p.Kind != paper.Invoice {
		put("Ready by", dayText(p.Ready))
	}
	why := ""
	if r := p.Revision; r != nil && p.Kind != paper.Invoice {
		put("Revision", r.Letter)
		if r.Why != "" {
			why = "Revised: " + strings.TrimSuffix(r.Why, ".") + "."
		}
	}
	for i := range max(len(to), len(facts)) {
		if i < len(to) {
			s.text(1, to[i], style{wrap: true})
		}
		if i < len(facts) {
			s.across(howColumn, sumColumn, facts[i], style{right: true})
		}
		s.row++
	}
	s.row++
	s.across(1, sumColumn, capital(p.Name), style{kind: strong, wrap: true})
	s.define("job_name", 1)
	s.row++
	s.line(p.Says, plain)
	s.line(why, plain)
}

// stale says so where figures were changed so that what stands below is not so any more:
// amounts follow, the prices of options and the quantities of covers do not.
func (s customerSheet) stale() {
	q := s.q
	var changed, what []string
	if len(s.p.Options) > 0 {
		changed, what = append(changed, q.differs("quote_total", figure(q.order.Quote.Total), q.c.step()/2)), append(what, "prices of options")
	}
	if len(q.quantities) > 0 {
		what = append(what, "quantities of covers")
	}
	for _, x := range q.quantities {
		changed = append(changed, q.differs(x.formula, x.gives, 1e-6))
	}
	other := `""`
	if len(changed) > 0 {
		other = fmt.Sprintf(`IF(OR(%s),"Figures were changed after this was made, and the %s below do not follow. Bring the file up to date before you hand it over.","")`,
			strings.Join(changed, ","), strings.Join(what, " and "))
	}
	s.across(1, sumColumn, "", style{kind: alert, wrap: true})
	s.words(1, `IF(out_of_date=1,"`+outOfDateText+`",`+other+`)`)
	s.keep(s.f.SetRowHeight(s.name, s.row, 28))
	s.row++
}

// differs gives the condition that a figure is not what it was.
func (q *quoting) differs(formula string, was, step float64) string {
	return fmt.Sprintf("ABS(%s-%v)>%v", formula, was, step)
}

// prices writes what the price is of, taxes and total.
func (s customerSheet) prices() {
	p, q := s.p, s.q
	currency := string(p.Total.Currency())
	amounts := "in " + currency + ", tax included"
	switch {
	case len(p.Taxes) == 0:
		amounts = "in " + currency
	case p.Tax == account.Below:
		amounts = "in " + currency + ", without tax"
	}
	counted, each := "", ""
	if slices.ContainsFunc(p.Items, func(x paper.Item) bool { return x.Count > 1 }) {
		counted, each = "count", "each"
	}
	s.heading("Price "+amounts, counted, each, "amount")
	for _, x := range p.Items {
		s.text(1, capital(x.What), style{wrap: true})
		s.formula(sumColumn, q.piecemeal.of(x.Group), figure(x.Amount), q.c.step(), q.money())
		if x.Count > 1 {
			s.number(howColumn, float64(x.Count), style{format: countFormat})
			s.formula(eachColumn, q.c.round(at(sumColumn, s.row)+"/"+at(howColumn, s.row)), figure(x.Each), q.c.step(), q.money())
			s.about()
		}
		s.row++
	}
	if p.Tax == account.Below && len(p.Taxes) > 0 {
		s.sum("Without tax", "quote_net", p.Net, strong)
		s.taxes(p.Taxes, "")
		s.discounts(true, "less ")
	}
	s.sum("Total", "quote_total", p.Total, sum)
	if !s.still {
		s.row--
		s.words(1, `IF(out_of_date=1,"Total, an estimate","Total")`)
		s.row++
	}
	if p.Tax == account.Within && !s.changed() {
		s.taxes(p.Taxes, "of which ")
	}
	if p.Range != nil {
		s.outcome()
	}
	s.given()
}

// about says of the price of one that it is rounded, where so many do not come to the
// amount.
func (s customerSheet) about() {
	s.lookWhere(at(eachColumn, s.row), fmt.Sprintf("ABS(%s*%s-%s)>%v", fixed(howColumn, s.row), fixed(eachColumn, s.row), fixed(sumColumn, s.row), s.q.c.step()/2), `"about "`+s.q.c.format())
}

// rate writes a share of something, one of whole percents without decimals.
func (s customerSheet) rate(formula string, want float64, kind look) {
	s.formula(howColumn, formula, want, 1e-12, style{kind: kind, format: percentFormat})
	c := at(howColumn, s.row)
	s.lookWhere(c, fmt.Sprintf("ROUND(%[1]s*100,6)=ROUND(%[1]s*100,0)", fixed(howColumn, s.row)), "0%")
}

// lookWhere gives a cell another format where a condition holds.
func (s customerSheet) lookWhere(cell, condition, format string) {
	look, err := s.f.NewConditionalStyle(&excelize.Style{CustomNumFmt: &format})
	s.keep(err)
	s.keep(s.f.SetConditionalFormat(s.name, cell, []excelize.ConditionalFormatOptions{{Type: "formula", Format: &look, Criteria: condition}}))
}

// money is the look of an amount, one below zero with a true minus.
func (s customerSheet) money() style {
	return style{format: s.q.c.format() + ";−" + s.q.c.format()}
}

// sum writes an amount of the paper.
func (s customerSheet) sum(label, formula string, m cost.Money, kind look) {
	s.text(1, label, style{kind: kind, wrap: true})
	s.blank(howColumn, style{kind: kind})
	s.blank(eachColumn, style{kind: kind})
	s.formula(sumColumn, formula, figure(m), s.q.c.step(), style{kind: kind, format: s.q.c.format()})
	s.row++
}

// changed tells whether what was agreed later changes the price.
func (s customerSheet) changed() bool { return s.p.Statement != nil && len(s.p.Statement.Changes) > 0 }

// taxes writes taxes with their rates and what they are of.
func (s customerSheet) taxes(list []paper.Tax, before string) {
	q := s.q
	next := unused(q.order.Quote.Taxes)
	for _, t := range list {
		k := next(func(x cost.LevyAmount) bool { return x.Name == t.Name && x.Rate == t.Rate })
		s.text(1, labelled(before, t.Name), style{wrap: true})
		amount := q.money()
		of := style{kind: note, format: `"of "` + q.c.format()}
		if k < 0 { // of a change alone
			s.number(howColumn, float64(t.Rate), style{format: percentFormat})
			s.number(eachColumn, figure(t.Base), of)
			s.number(sumColumn, figure(t.Amount), amount)
			s.row++
			continue
		}
		name := strconv.Itoa(k + 1)
		s.rate("tax_rate_"+name, float64(t.Rate), plain)
		if base := q.taxBase(k); base != "" {
			s.formula(eachColumn, base+q.beside(t.Base, q.baseOf(k)), figure(t.Base), q.c.step(), of)
		}
		s.formula(sumColumn, "tax_"+name+q.beside(t.Amount, q.order.Quote.Taxes[k].Tax), figure(t.Amount), q.c.step(), amount)
		s.row++
	}
}

// unused finds entries of a list, each but once: two may have one name.
func unused[T any](list []T) func(is func(T) bool) int {
	used := make([]bool, len(list))
	return func(is func(T) bool) int {
		for i, x := range list {
			if !used[i] && is(x) {
				used[i] = true
				return i
			}
		}
		return -1
	}
}

// labelled puts a word before a name, which else begins with a capital.
func labelled(before, name string) string {
	if before == "" {
		return capital(name)
	}
	return before + name
}

// beside gives what agreed changes add to a figure of the quote, as the end of a
// formula; nothing where they add nothing.
func (q *quoting) beside(all, quoted cost.Money) string {
	more, err := all.Minus(quoted)
	if err != nil || more.IsZero() {
		return ""
	}
	return "+(" + more.Amount() + ")"
}

// baseOf gives what a tax of the quote is of, without tax.
func (q *quoting) baseOf(k int) cost.Money {
	o := q.order.Quote
	base := o.Taxes[k].Base
	if o.Inclusive {
		if net, err := base.Minus(o.Taxes[k].Tax); err == nil {
			return net
		}
	}
	return base
}

// taxBase gives the formula of what a tax is of, without tax; none where several taxes
// are contained in the same prices.
func (q *quoting) taxBase(k int) string {
	o := q.order.Quote
	base := "SUMPRODUCT(" + q.work.of(q.column(q.taxColumn(k))) + "," + q.work.of(q.column(q.taxed)) + ")"
	switch {
	case !o.Inclusive:
		return base
	case len(o.Taxes) == 1:
		return base + "-tax_1"
	}
	return ""
}

// discounts writes those after tax, or those that are off all amounts already.
func (s customerSheet) discounts(after bool, before string) {
	q := s.q
	next := unused(q.order.Quote.Terms.Discounts)
	for _, d := range s.p.Discounts {
		if d.AfterTax != after {
			continue
		}
		i := next(func(x cost.Discount) bool { return x.Name == d.Name && x.AfterTax == after })
		if i < 0 {
			continue
		}
		s.text(1, labelled(before, d.Name), style{wrap: true})
		if d.Rate != 0 {
			s.rate(fmt.Sprintf("discount_%d", i+1), float64(d.Rate), plain)
		}
		s.formula(sumColumn, fmt.Sprintf("-off_%d", i+1), -figure(d.Amount), q.c.step(), s.money())
		s.row++
	}
}

// given says which discounts are off all amounts already.
func (s customerSheet) given() {
	q := s.q
	next := unused(q.order.Quote.Terms.Discounts)
	for _, d := range s.p.Discounts {
		if d.AfterTax && s.p.Tax == account.Below && len(s.p.Taxes) > 0 {
			continue // stands above
		}
		i := next(func(x cost.Discount) bool { return x.Name == d.Name && x.AfterTax == d.AfterTax })
		if i < 0 {
			continue
		}
		s.text(1, "Taken off already: "+d.Name, style{kind: note, wrap: true})
		if d.Rate != 0 {
			s.rate(fmt.Sprintf("discount_%d", i+1), float64(d.Rate), note)
		}
		s.formula(eachColumn, fmt.Sprintf("off_%d", i+1), figure(d.Amount), q.c.step(), style{kind: note, format: q.c.format()})
		s.row++
	}
}

// outcome writes what an estimate may come out at, rounded outwards as paper.Range is:
// to a step of one in the second figure of the total.
func (s customerSheet) outcome() {
	r := s.p.Range
	step := "MAX(1,10^(INT(ROUND(LOG10(MAX(1,quote_total)),12))-1))"
	end := func(sign, of string) string {
		return fmt.Sprintf("IF(quote_total<0,quote_total,%[1]sINT(%[1]sROUND(quote_total*(1%[2]s)/%[3]s,8))*%[3]s)", sign, of, step)
	}
	s.text(1, "It may come out between", style{kind: strong})
	s.formula(sumColumn, end("", "-estimate_low"), figure(r.Low), s.q.c.step(), style{kind: strong, format: "#,##0"})
	s.define("quote_low", sumColumn)
	s.row++
	s.text(1, "and", style{kind: strong})
	s.formula(sumColumn, end("-", "+estimate_high"), figure(r.High), s.q.c.step(), style{kind: strong, format: "#,##0"})
	s.define("quote_high", sumColumn)
	s.row++
}
