package workbook

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/unit"
)

// settled writes what was agreed later, what was received, and what is left to pay.
func (s customerSheet) settled() {
	p, q := s.p, s.q
	balance, what := "quote_total", p.Statement
	if what != nil {
		var changes, receipts string
		for _, c := range what.Changes {
			s.agreed(capital(c.What), "agreed "+dayText(c.Agreed), c.Total)
			changes += "+" + fixed(sumColumn, s.row-1)
		}
		if s.changed() {
			s.sum("Total with changes", balance+changes, what.Sum, sum)
			balance = fixed(sumColumn, s.row-1)
			s.taxes(p.AllTaxes, "of which ")
		}
		for _, r := range what.Receipts {
			s.agreed(capital(r.What), joined(", ", "received "+dayText(r.On), r.How), r.Amount.Neg())
			receipts += "+" + fixed(sumColumn, s.row-1)
		}
		left := balance + receipts
		switch {
		case !what.Credit.IsZero():
			s.sum("Credit to you", "-("+left+")", what.Credit, sum)
		case p.Kind == paper.Invoice:
			s.sum("Balance due", left, what.Balance, sum)
		case !what.Received.IsZero():
			s.sum("Still to pay", left, what.Balance, sum)
		}
		balance = left
	}
	if rule := q.order.Quote.Terms.Cash; !p.Cash.IsZero() {
		steps := coins{0, rule.Rounding}
		s.sum("Paid in cash", fmt.Sprintf("%s*%s", steps.whole("("+balance+")/"+rule.Step.Amount()), rule.Step.Amount()), p.Cash, plain)
	}
}

// agreed writes an amount that stands whatever the price comes to.
func (s customerSheet) agreed(what, when string, m cost.Money) {
	s.text(1, what+", "+when, style{wrap: true})
	s.number(sumColumn, figure(m), s.money())
	s.row++
}

// payments writes what falls due and when.
func (s customerSheet) payments() {
	p, q := s.p, s.q
	if len(p.Payments) == 0 {
		return
	}
	s.heading("Payments", "", "", "amount")
	for i, x := range p.Payments {
		s.text(1, joined(", ", capital(x.Name), x.Due), style{wrap: true})
		if i >= len(q.order.Quote.Payments) { // what was agreed later
			s.number(sumColumn, figure(x.Amount), q.money())
			s.row++
			continue
		}
		if x.Share != 0 {
			s.rate(fmt.Sprintf("payment_%d", i+1), float64(x.Share), plain)
		}
		s.formula(sumColumn, fmt.Sprintf("due_%d", i+1), figure(x.Amount), q.c.step(), q.money())
		s.row++
	}
}

// pieces writes what is done for each piece of furniture.
func (s customerSheet) pieces() {
	if len(s.p.Pieces) == 0 && len(s.p.Around) == 0 {
		return
	}
	if s.p.Kind == paper.Invoice {
		s.heading("What we did")
	} else {
		s.heading("What we do")
	}
	for _, x := range s.p.Pieces {
		named := capital(x.Name)
		if x.Count > 1 {
			named += " × " + strconv.Itoa(x.Count)
		}
		s.line(named, strong)
		for _, f := range []struct {
			name string
			list []string
		}{{"Work", x.Work}, {"New inside", x.New}, {"Covered in", x.Cover}} {
			if len(f.list) > 0 {
				s.line(f.name+": "+strings.Join(f.list, "; "), plain)
			}
		}
		if x.Unmeasured {
			s.line("Measures: not taken yet", plain)
		}
	}
	if len(s.p.Around) > 0 {
		s.line("For the whole order: "+strings.Join(s.p.Around, "; ")+".", plain)
	}
}

// covers writes the goods by name, fibre and quantity.
func (s customerSheet) covers() {
	if len(s.p.Covers) == 0 {
		return
	}
	s.heading("Covers", "", "", "quantity")
	s.goods(s.p.Covers)
}

func (s customerSheet) goods(list []paper.Cover) {
	for _, c := range list {
		own, bring := "", ""
		if c.Yours {
			own = "your own"
		}
		if b := s.q.amount(c.Bring, c.BringHides, c.BringArea); b != "" {
			bring = "please bring " + b
		}
		pieces := ""
		if len(c.Pieces) > 0 {
			pieces = "for " + strings.Join(c.Pieces, ", ")
		}
		s.across(1, howColumn, joined("; ", capital(c.Name), c.Fibre, own, pieces, bring), style{wrap: true})
		quantity := s.q.amount(c.Length, c.Hides, c.Area)
		if c.About && quantity != "" {
			quantity = "about " + quantity
		}
		s.across(eachColumn, sumColumn, quantity, style{right: true, wrap: true})
		s.row++
	}
}

// amount writes so much of a roll or of hides; nothing for none.
func (q *quoting) amount(l unit.Length, n int, a unit.Area) string {
	hides := strconv.Itoa(n) + " hides"
	if n == 1 {
		hides = "1 hide"
	}
	switch {
	case l != 0 && q.m.length == unit.Millimetre:
		return l.Decimal(unit.Metre, 2, unit.Up)
	case l != 0:
		return l.Yardage(unit.Up)
	case n != 0 && a != 0 && q.m.length == unit.Millimetre:
		return hides + ", " + a.Decimal(unit.SquareMetre, 1, unit.Up)
	case n != 0 && a != 0:
		return hides + ", " + a.Decimal(unit.SquareFoot, 0, unit.Up)
	case n != 0:
		return hides
	}
	return ""
}

// options writes what else could be had, with its price.
func (s customerSheet) options() {
	p := s.p
	if len(p.Options) == 0 {
		return
	}
	s.heading("Options", "", "difference", "total")
	for _, x := range p.Options {
		s.text(1, capital(x.Name), style{kind: strong, wrap: true})
		s.number(eachColumn, figure(x.Difference), style{format: "+" + s.q.c.format() + ";−" + s.q.c.format() + ";" + s.q.c.format()})
		s.number(sumColumn, figure(x.Total), style{kind: strong, format: s.q.c.format()})
		s.row++
		s.line(capital(strings.Join(x.Changes, "; ")), plain)
		if x.Range != nil {
			s.line("It may come out between "+units(x.Range.Low)+" and "+units(x.Range.High)+".", plain)
		}
		s.goods(x.Covers)
	}
}

// units writes an amount without decimals that are zero.
func units(m cost.Money) string {
	text, cents, _ := strings.Cut(m.GroupedAmount(), ".")
	if strings.Trim(cents, "0") != "" {
		return m.GroupedAmount()
	}
	return text
}

// told writes what goes with the price in words.
func (s customerSheet) told() {
	p := s.p
	damage := []string{}
	if p.Damage != "" {
		damage = append(damage, p.Damage)
	}
	for _, x := range []struct {
		name  string
		lines []string
	}{{"Hidden damage", damage}, {"Still open", p.Open}, {"Not in the price", p.NotIncluded}, {"To be minded", p.Minded}, {"Certificates we ask for", p.Papers}, {"Terms", p.Terms}} {
		if len(x.lines) == 0 {
			continue
		}
		s.heading(x.name)
		for _, l := range x.lines {
			s.line(capital(l), plain)
		}
	}
}

// signed writes what the customer signs, with the options to tick.
func (s customerSheet) signed() {
	if s.p.Accept == "" {
		return
	}
	s.heading("Acceptance")
	s.line(s.p.Accept, plain)
	for _, x := range s.p.Options {
		s.line("☐ "+x.Name, plain)
	}
	s.keep(s.f.SetRowHeight(s.name, s.row, 32))
	s.blank(1, style{kind: rule})
	s.blank(eachColumn, style{kind: rule})
	s.blank(sumColumn, style{kind: rule})
	s.row++
	s.text(1, "signature", style{kind: note})
	s.text(eachColumn, "date", style{kind: note})
	s.row++
}
