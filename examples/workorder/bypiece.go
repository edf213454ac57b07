package main

import (
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// pieceMoney is what one piece of furniture costs and brings, in words.
type pieceMoney struct {
	Name, Items, Cost, Price, Margin, Total, Each string
	Sum                                           bool
}

// What is said of the cost: always, and where the cost of some lines is not known.
const (
	hoursAtCost = "Hours and extras count as cost at what is charged for them"
	taxWithin   = "Prices contain the tax, those that the shop pays too: cost and price stand here without it"
	unknownCost = "? stands for what sells as listed: its cost is not known, and the margin is of the rest"
)

// byPiece gives the quote by piece of furniture, the whole last, and what must be
// said of it; nothing where there is one. Cost and price are without tax.
func byPiece(q cost.Quote) ([]pieceMoney, []string) {
	if len(q.Groups) < 2 {
		return nil, nil
	}
	var rows []pieceMoney
	for _, g := range q.Groups {
		r := moneyRow(g.Cost, g.CostTax, g.CostUnknown, g.Net, g.Credit, g.Total, g.Margin)
		r.Name = g.Name
		if g.Items > 1 {
			r.Items = strconv.Itoa(g.Items)
			if each, err := g.Each(q.Rounding); err == nil {
				r.Each = each.GroupedAmount()
			}
		}
		rows = append(rows, r)
	}
	sum := moneyRow(q.Cost, q.CostTax, q.CostUnknown, q.Net, q.Credit, q.Total, q.Margin())
	sum.Name, sum.Sum = "together", true
	return append(rows, sum), said(q)
}

// said tells what the cost of a quote is.
func said(q cost.Quote) []string {
	out := []string{hoursAtCost}
	if q.Inclusive {
		out = append(out, taxWithin)
	}
	if !q.CostUnknown.IsZero() {
		out = append(out, unknownCost)
	}
	return out
}

func moneyRow(paid, within, unknown, net, credit, total cost.Money, margin unit.Ratio) pieceMoney {
	if own, err := paid.Minus(within); err == nil {
		paid = own
	}
	r := pieceMoney{Cost: paid.GroupedAmount(), Price: net.GroupedAmount(), Margin: margin.PercentText(1, unit.Nearest), Total: total.GroupedAmount()}
	if price, err := net.Minus(credit); err == nil { // discounts after tax are off as well
		r.Price = price.GroupedAmount()
	}
	if !unknown.IsZero() {
		r.Cost += " + ?"
	}
	return r
}

// pieces prints the quote by piece of furniture.
func (s *sheet) pieces(q cost.Quote) {
	rows, notes := byPiece(q)
	if len(rows) == 0 {
		return
	}
	s.head("By piece of furniture (for the shop, not for the customer)")
	s.table(func(row func(...string)) {
		row("piece", "count", "cost", "price", "margin", "with tax", "each")
		for _, r := range rows {
			row(r.Name, r.Items, r.Cost, r.Price, r.Margin, r.Total, r.Each)
		}
	})
	for _, n := range notes {
		s.line("  %s", n)
	}
}

// paidFor says how much of the total a payment is: its share, or what it covers.
func paidFor(p cost.Payment) string {
	if len(p.Covers) == 0 {
		return rateText(p.Share)
	}
	var kinds []string
	for _, k := range p.Covers {
		kinds = append(kinds, k.String())
	}
	return "covers " + strings.Join(kinds, ", ")
}

// beyond says what comes on top of quantity times price: what is paid once, and the
// markup on all of it.
func beyond(l cost.QuoteLine) string {
	s := ""
	if !l.Exact.Fixed.IsZero() {
		s = " + " + l.Exact.Fixed.Grouped() + " once"
	}
	if l.Uplift.Rate() != 0 {
		s += " + " + l.Uplift.String()
	}
	return s
}
