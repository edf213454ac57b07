package workbook

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/cost"
)

// filling tells whether a line fills the price up, to the least that is charged or
// to a step.
func filling(k cost.Kind) bool { return k == cost.MinimumCharge || k == cost.RoundingUp }

// priced writes a line that has no cost to mark up: one that fills the price up, or
// one whose price is the customer's.
func (q *quoting) priced(l cost.QuoteLine, amount float64) {
	s := q.work
	for c := 3; c <= 5; c++ {
		s.blank(c, style{})
	}
	s.number(6, figure(l.Cost), q.money())
	s.number(7, 0, style{format: percentFormat})
	above := "SUM(" + span(q.taxed, q.first, s.row-1) + ")"
	switch l.Kind {
	case cost.MinimumCharge:
		s.formula(amountColumn, q.c.round("MAX(0,least_charge-"+above+")"), amount, q.c.step(), q.money())
	case cost.RoundingUp:
		s.formula(amountColumn, q.c.round("ROUNDUP(ROUND("+above+"/step_of_price,6),0)*step_of_price-"+above), amount, q.c.step(), q.money())
	default:
		s.number(amountColumn, amount, q.money())
	}
}

// part is a formula and what it gives.
type part struct {
	formula string
	gives   float64
}

// due gives each payment before it is rounded: its share of the total, or what it must
// cover where that is more, and the rest.
func (q *quoting) due(ps []cost.Payment) []part {
	out := make([]part, len(ps))
	stages, total := q.order.Quote.Terms.Stages, figure(q.order.Quote.Total)
	var shares, sums []string
	rest, left, covered := -1, 1.0, 0.0
	for i, p := range ps {
		var covers []cost.Kind
		if i < len(stages) {
			covers = stages[i].AtLeast
		}
		rate, share := fmt.Sprintf("payment_%d", i+1), float64(p.Share)
		switch {
		case len(covers) > 0:
			least := q.subtotals(covers)
			if p.Share > 0 {
				least = part{"MAX(quote_total*" + rate + "," + least.formula + ")", max(total*share, least.gives)}
			}
			out[i] = part{"MIN(quote_total," + least.formula + ")", min(total, least.gives)}
			sums, covered = append(sums, out[i].formula), covered+out[i].gives
		case p.Share > 0:
			out[i] = part{"quote_total*" + rate, total * share}
			shares, left = append(shares, rate), left-share
		default:
			rest = i
		}
	}
	if rest < 0 {
		return out
	}
	out[rest] = part{"quote_total", float64(total*left) - covered}
	if len(shares) > 0 {
		out[rest].formula += "*(1-(" + strings.Join(shares, "+") + "))"
	}
	for _, x := range sums {
		out[rest].formula += "-" + x
	}
	return out
}

// subtotals gives what lines of some kinds come to.
func (q *quoting) subtotals(kinds []cost.Kind) part {
	var out []string
	gives := 0.0
	for _, k := range kinds {
		out = append(out, fmt.Sprintf("SUMIF(%s,\"%s\",%s)", q.column(kindColumn), k, q.column(amountColumn)))
		gives += figure(q.order.Quote.SubtotalOf(k))
	}
	return part{strings.Join(out, "+"), gives}
}
