package paper

import (
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// itemsOf gives what a price is of. Each item is a group of the quote, in which what
// belongs to no line of its own is spread by what the lines come to.
func itemsOf(o job.WorkOrder, by account.By, tax account.Tax) ([]Item, error) {
	q := o.Quote
	groups, named := q.Groups, map[string]bool{}
	for _, g := range q.Terms.Groups {
		named[g.Name] = true
	}
	if by == account.Work {
		regrouped, err := byWork(q)
		if err != nil {
			return nil, err
		}
		groups = regrouped.Groups
	}
	var out []Item
	for _, g := range groups {
		amount := g.Total
		if tax == account.Below {
			amount = g.Net
		}
		x := Item{What: g.Name, Group: g.Name, Amount: amount}
		switch {
		case by == account.Pieces && named[g.Name]:
			x.Count = g.Items
			if err := x.each(q.Rounding); err != nil {
				return nil, err
			}
		case amount.IsZero():
			continue
		case by == account.Pieces && g.Name == cost.WholeJob:
			x.What = wholeJob(o)
		}
		out = append(out, x)
	}
	return out, nil
}

// each fills in the amount of one.
func (x *Item) each(round cost.Rounding) error {
	if x.Count < 2 {
		return nil
	}
	var err error
	if x.Each, err = x.Amount.MulDiv(1, int64(x.Count), round); err != nil {
		return err
	}
	back, err := x.Each.Times(x.Count)
	x.Rounded = !back.Equal(x.Amount)
	return err
}

// What a line is for, in words for the customer.
const (
	materials   = "materials"
	fabrication = "fabrication"
	application = "repair and application"
	workmanship = "workmanship"
	byOthers    = "work by others"
	fetching    = "collection and delivery"
	carriage    = "carriage"
	handling    = "work with your own goods"
)

// Work says what kind of work a line of a quote is, in words for the customer: what an
// item is of where a paper goes by work.
func Work(l cost.QuoteLine) string {
	switch l.Kind {
	case cost.Labour:
		switch l.TaxClass {
		case bench.Fabrication:
			return fabrication
		case bench.Application:
			return application
		}
		return workmanship
	case cost.Outwork:
		return byOthers
	case cost.Delivery:
		if strings.HasPrefix(l.What, "freight, ") {
			return carriage
		}
		return fetching
	case cost.OwnMaterial:
		return handling
	case cost.Goods, cost.Foam, cost.Sundries, cost.Contingency, cost.MinimumCharge, cost.RoundingUp:
	}
	return materials
}

// works is the order in which a paper has them.
var works = []string{materials, handling, fabrication, application, workmanship, byOthers, carriage, fetching}

// own are the lines of a quote that are not worked out of others.
func own(q cost.Quote) []cost.QuoteLine {
	return slices.DeleteFunc(slices.Clone(q.Lines), func(l cost.QuoteLine) bool { return l.Price == "" })
}

// byWork gives the same quote with its lines grouped by the kind of work.
func byWork(q cost.Quote) (cost.Quote, error) {
	terms := q.Terms
	terms.Groups = nil
	var lines []cost.Line
	present := map[string]bool{}
	for _, l := range own(q) {
		is := Work(l)
		present[is] = true
		lines = append(lines, cost.Line{ID: l.ID, Source: l.Source, Kind: l.Kind, What: l.What, TaxClass: l.TaxClass, Amount: l.Exact, Uplift: l.Uplift, Sells: l.Sells,
			Shares: []cost.Share{{Group: is, Weight: 1}}})
	}
	for _, w := range works {
		if present[w] {
			terms.Groups = append(terms.Groups, cost.GroupCount{Name: w})
		}
	}
	out, err := cost.NewQuote(terms, lines...)
	if err == nil && !out.Total.Equal(q.Total) {
		err = check.Refuse("quote.total", q.Total.String(), unit.ErrRange, out.Total.String()+", which its lines add up to")
	}
	return out, err
}

// wholeJob names what is for no piece of furniture of its own: its tasks, and other
// lines by their kind.
func wholeJob(o job.WorkOrder) string {
	present := map[string]bool{}
	for _, l := range own(o.Quote) {
		if len(l.Shares) == 0 && !unit.Path(l.Source).Under("labour") {
			present[Work(l)] = true
		}
	}
	var out []string
	for _, w := range works {
		if w == fabrication {
			out = append(out, aroundOf(o)...)
		}
		switch {
		case !present[w]:
		case w == materials && len(o.Quote.Terms.Groups) > 1:
			out = append(out, "materials for all pieces")
		default:
			out = append(out, w)
		}
	}
	if len(out) == 0 {
		return "for the whole order"
	}
	return strings.Join(out, "; ")
}

// everyTax gives the taxes of a quote in its order, each with what it is of without tax:
//
//	Base = sum of the lines' net on which it falls
func everyTax(q cost.Quote) ([]Tax, error) {
	if len(q.Taxes) != len(q.Terms.Tax.Levies) {
		return nil, check.Refuse("quote.taxes", strconv.Itoa(len(q.Taxes)), unit.ErrRange, "one for each of the "+strconv.Itoa(len(q.Terms.Tax.Levies))+" of its terms")
	}
	var out []Tax
	for i, t := range q.Taxes {
		base, err := cost.Zero(q.Currency)
		for _, l := range q.Lines {
			if err != nil || !q.Terms.Tax.Levies[i].Falls(l.TaxClass) {
				continue
			}
			net := l.Taxed
			if q.Inclusive {
				net, err = net.Minus(l.Tax)
			}
			if err == nil {
				base, err = base.Plus(net)
			}
		}
		if err != nil {
			return nil, err
		}
		out = append(out, Tax{t.Name, t.Rate, base, t.Tax})
	}
	return out, nil
}

// withChanges gives the taxes of a quote and of changes together, in the order of the
// quote's.
func withChanges(q cost.Quote, s *account.Statement) ([]Tax, error) {
	all, err := everyTax(q)
	if err != nil {
		return nil, err
	}
	for _, c := range s.Changes {
		k := 0 // among the taxes of the change
		for i, l := range q.Terms.Tax.Levies {
			if !l.Falls(c.Class()) || k == len(c.Taxes) {
				continue
			}
			if all[i].Base, err = all[i].Base.Plus(c.Taxes[k].Base); err == nil {
				all[i].Amount, err = all[i].Amount.Plus(c.Taxes[k].Tax)
			}
			if err != nil {
				return nil, err
			}
			k++
		}
	}
	return levied(all), nil
}

// levied leaves out taxes that fall on nothing.
func levied(all []Tax) []Tax {
	return slices.DeleteFunc(all, func(t Tax) bool { return t.Base.IsZero() && t.Amount.IsZero() })
}

// discountsOf gives the discounts of a quote by name, those before tax first.
func discountsOf(q cost.Quote) []Discount {
	var out []Discount
	for _, after := range []bool{false, true} {
		for _, d := range q.Terms.Discounts {
			if d.AfterTax != after || len(out) == len(q.Discounts) {
				continue
			}
			is := q.Discounts[len(out)]
			x := Discount{Name: is.Name, Amount: is.Amount, AfterTax: is.AfterTax}
			if len(d.Kinds) == 0 {
				x.Rate = is.Rate
			}
			out = append(out, x)
		}
	}
	return out
}
