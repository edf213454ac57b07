package workbook

import (
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/job/paper"
)

const sharesSheet = "Shares"

// Columns of the shares: one row for each part of the price that has a share in a
// line of the quote. What is split has two columns, the exact share and its part.
const (
	partColumn   = 2
	numberColumn = 3
	weightColumn = 4
	splitColumn  = 5
	priceColumn  = splitColumn + 2*len(splits)
)

// splits are the figures of a line that are split over its shares, each by itself.
var splits = [...]struct {
	name string
	of   func(cost.QuoteLine) cost.Money
}{
	{"off before tax", func(l cost.QuoteLine) cost.Money { return l.Discount }},
	{"after discount", func(l cost.QuoteLine) cost.Money { return l.Taxed }},
	{"tax", func(l cost.QuoteLine) cost.Money { return l.Tax }},
	{"off after tax", func(l cost.QuoteLine) cost.Money { return l.Credit }},
}

// piecemeal is the price by what it is of: the items of a paper.
type piecemeal struct {
	*sheet
	q           *quoting
	groups      []string // the parts, by number from 1
	first, last int      // rows of the shares
}

// of gives the formula of what a part comes to.
func (p *piecemeal) of(group string) string {
	i := slices.Index(p.groups, group)
	return fmt.Sprintf("SUMIF(%s,%d,%s)", p.sheet.of(span(numberColumn, p.first, p.last)), i+1, p.sheet.of(span(priceColumn, p.first, p.last)))
}

// shared are the shares of a line in the parts of a price.
func shared(p paper.Paper, l cost.QuoteLine) []cost.Share {
	switch {
	case p.By == account.Work:
		return []cost.Share{{Group: paper.Work(l), Weight: 1}}
	case len(l.Shares) == 0:
		return []cost.Share{{Group: cost.WholeJob, Weight: 1}}
	}
	return l.Shares
}

// byPart writes what each part of the price has of each line. What is worked out of the
// other lines goes by what these come to.
func (q *quoting) byPart(p paper.Paper) {
	s := &piecemeal{sheet: q.add(sharesSheet), q: q, groups: partsOf(p, q.order.Quote)}
	q.piecemeal = s
	s.top("What the price is of")
	s.text(1, "For the shop, not for the customer.", style{kind: note})
	s.row++
	heads := s.row
	names := []string{"line", "part of the price", ">no.", ">weight"}
	for _, x := range splits {
		names = append(names, ">exact, minor units", ">"+x.name)
	}
	s.headings(append(names, ">to the customer")...)
	s.first = s.row
	came, own := map[string]cost.Money{}, s.row-1
	for i, l := range q.order.Quote.Lines {
		if follows(l) {
			continue
		}
		shares := shared(p, l)
		parts := s.shares(i, p.Tax, shares, nil, 0)
		for k, x := range shares {
			for _, c := range splits[:amountSplits] {
				came[x.Group] = q.plus(came[x.Group], parts[k][c.name])
			}
		}
		own = s.row - 1
	}
	var all []cost.Share
	var weights []cost.Money
	for _, g := range s.groups {
		if m, some := came[g]; some {
			all, weights = append(all, cost.Share{Group: g}), append(weights, m)
		}
	}
	if !slices.ContainsFunc(weights, func(m cost.Money) bool { return m.Sign() > 0 }) {
		all, weights = []cost.Share{{Group: cost.WholeJob, Weight: 1}}, nil
	}
	for i, l := range q.order.Quote.Lines {
		if follows(l) {
			s.shares(i, p.Tax, all, weights, own)
		}
	}
	s.last = max(s.first, s.row-1)
	widths := []float64{34, 24, 6, 12}
	for range priceColumn - len(widths) {
		widths = append(widths, 12)
	}
	s.page(true, q.letter(), heads, widths...)
}

// follows tells whether a line is worked out of the others.
func follows(l cost.QuoteLine) bool { return l.Exact.Price.IsZero() }

// amountSplits are the first of splits, which together are the amount of a line.
const amountSplits = 2

// partsOf gives the parts of a price in the order of the quote's groups.
func partsOf(p paper.Paper, o cost.Quote) []string {
	var out []string
	add := func(name string) {
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	if p.By == account.Work {
		for _, x := range p.Items {
			add(x.Group)
		}
		for _, l := range o.Lines {
			if !follows(l) {
				add(paper.Work(l))
			}
		}
		return out
	}
	for _, g := range o.Groups {
		add(g.Name)
	}
	add(cost.WholeJob)
	return out
}

func (q *quoting) plus(a, b cost.Money) cost.Money {
	sum, err := a.Plus(b)
	q.keep(err)
	return sum
}

// shares writes the shares of a line and gives what each comes to. Without weights they
// go by those of the shares, else by what the rows down to own have come to.
func (s *piecemeal) shares(line int, tax account.Tax, shares []cost.Share, weights []cost.Money, own int) []map[string]cost.Money {
	q, l := s.q, s.q.order.Quote.Lines[line]
	first, last := s.row, s.row+len(shares)-1
	parts := make([]map[string]cost.Money, len(shares))
	sum := allOf(shares, weights)
	for k, x := range shares {
		parts[k] = map[string]cost.Money{}
		n := slices.Index(s.groups, x.Group) + 1
		s.text(1, l.What, style{wrap: true})
		s.text(partColumn, x.Group, style{wrap: true})
		s.number(numberColumn, float64(n), style{format: countFormat})
		weight := float64(x.Weight) / sum
		if weights == nil {
			s.number(weightColumn, weight, style{format: percentFormat})
		} else {
			weight = figure(weights[k]) / sum
			sums := ""
			for i := range amountSplits {
				c := splitColumn + 1 + 2*i
				sums += fmt.Sprintf("+SUMIF(%s,%s,%s)", span(numberColumn, s.first, own), at(numberColumn, s.row), span(c, s.first, own))
			}
			s.formula(weightColumn, sums[1:], figure(weights[k]), q.c.step(), q.money())
		}
		for i, c := range splits {
			whole := q.lineCell(i, q.first+line)
			exact, part := splitColumn+2*i, splitColumn+2*i+1
			if len(shares) == 1 {
				parts[k][c.name] = c.of(l)
				s.formula(part, whole, figure(c.of(l)), q.c.step(), q.money())
				continue
			}
			split, err := divided(c.of(l), shares, weights)
			q.keep(err)
			if err != nil {
				return parts
			}
			parts[k][c.name] = split[k]
			of, all := at(exact, s.row), span(exact, first, last)
			s.formula(exact, fmt.Sprintf("IF(SUM(%[1]s)=0,0,ROUND(%[2]s*%[3]s*%[4]s/SUM(%[1]s),6))", span(weightColumn, first, last), whole, q.c.minor(), at(weightColumn, s.row)),
				figure(c.of(l))*math.Pow10(q.c.digits)*weight, fine, style{format: "0.00####"})
			s.formula(part, share(of, all, fixed(exact, first)+":"+of, whole+"*"+q.c.minor())+"/"+q.c.minor(), figure(split[k]), q.c.step(), q.money())
		}
		s.price(tax, parts[k])
		s.row++
	}
	return parts
}

// divided splits an amount over shares as the quote does.
func divided(m cost.Money, shares []cost.Share, weights []cost.Money) ([]cost.Money, error) {
	if weights != nil {
		return cost.AllocateByMoney(m, weights)
	}
	by := make([]int64, len(shares))
	for i, x := range shares {
		by[i] = x.Weight
	}
	return cost.Allocate(m, by)
}

// allOf adds the weights up.
func allOf(shares []cost.Share, weights []cost.Money) float64 {
	sum := 0.0
	for i := range shares {
		if weights != nil {
			sum += figure(weights[i])
		} else {
			sum += float64(shares[i].Weight)
		}
	}
	return sum
}

// price writes what the customer pays of the share, with or without tax.
func (s *piecemeal) price(tax account.Tax, part map[string]cost.Money) {
	cell := func(i int) string { return at(splitColumn+1+2*i, s.row) }
	got := func(i int) float64 { return figure(part[splits[i].name]) }
	inclusive := s.q.order.Quote.Inclusive
	formula, gives := cell(1), got(1)
	if tax == account.Below {
		if inclusive {
			formula, gives = formula+"-"+cell(2), gives-got(2)
		}
	} else {
		if !inclusive {
			formula, gives = formula+"+"+cell(2), gives+got(2)
		}
		formula, gives = formula+"-"+cell(3), gives-got(3)
	}
	s.formula(priceColumn, formula, gives, s.q.c.step(), s.q.money())
}

// lineCell gives what a figure that is split is in the workings: what is off a line
// before tax, what is left, its tax, what is off after tax.
func (q *quoting) lineCell(split, row int) string {
	in := func(c int) string { return q.work.of(fixed(c, row)) }
	switch split {
	case 0:
		return "(" + in(amountColumn) + "-" + in(q.taxed) + ")"
	case 1:
		return in(q.taxed)
	case 2:
		return in(q.lineTax())
	}
	if q.order.Quote.Credit.IsZero() {
		return "0"
	}
	return in(q.lineTax() + 2)
}
