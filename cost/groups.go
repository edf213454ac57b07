package cost

import (
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// WholeJob is the group of what is for no group of its own: lines without
// shares.
const WholeJob = "whole job"

// Share is the part of a line that is for one group, such as a piece of
// furniture.
type Share struct {
	Group string `json:"group"`
	// Weight is how much of the line it is beside the other shares: a number, or
	// any exact quantity such as the area of its cuts. Not negative, and together
	// above zero.
	Weight int64 `json:"weight"`
}

// GroupCount says how many items a group is, such as six chairs; 0 counts as 1.
type GroupCount struct {
	Name  string `json:"name"`
	Items int    `json:"items,omitempty"`
}

// Group is the part of a quote that is for one group. Its columns are those of
// the quote:
//
//	Taxed  = Amount - Discount
//	Net    = Taxed where tax is added, Taxed - Tax where it is contained
//	Total  = Net + Tax - Credit
//	Profit = Net - Credit - (Cost - CostTax) - CostUnknown
//
// Each line is split over its shares to the minor unit by largest remainder,
// so that a column may be a minor unit or two off the exact share, and a group
// of next to nothing that much below zero.
type Group struct {
	Name  string `json:"name"`
	Items int    `json:"items"`
	// Cost, CostTax within it, and CostUnknown of what sells as listed are what
	// the shop pays and what nobody knows that it pays; see Quote.
	Cost        Money `json:"cost"`
	CostTax     Money `json:"cost_tax"`
	CostUnknown Money `json:"cost_unknown"`
	Amount      Money `json:"amount"`
	Discount    Money `json:"discount"`
	Taxed       Money `json:"taxed"`
	Tax         Money `json:"tax"`
	Credit      Money `json:"credit"`
	Net         Money `json:"net"`
	Total       Money `json:"total"`
	Profit      Money `json:"profit"`
	// Margin is Profit as a share of Net, of what has a known cost; nothing
	// where that is nothing.
	Margin unit.Ratio `json:"margin"`
}

// Each gives Total / Items, rounded once to the minor unit: the price of one,
// which times Items need not be Total. It wraps ErrMode or ErrNoCurrency.
func (g Group) Each(mode Rounding) (Money, error) {
	return g.Total.MulDiv(1, int64(max(g.Items, 1)), mode)
}

// mostShares bounds the work of a line.
const mostShares = 10_000

func checkShares(shares []Share) error {
	if len(shares) > mostShares {
		return check.Refuse("", strconv.Itoa(len(shares)), unit.ErrRange, "at most 10000 shares")
	}
	some := len(shares) == 0
	for i, s := range shares {
		at := unit.Path("").At(i)
		if s.Group == "" {
			return check.Refuse(at.Dot("group"), "", unit.ErrRequired, "a name, such as that of a piece of furniture")
		}
		if s.Weight < 0 {
			return check.Refuse(at.Dot("weight"), strconv.FormatInt(s.Weight, 10), unit.ErrRange, "a weight that is not negative")
		}
		some = some || s.Weight > 0
	}
	if !some {
		return check.Refuse("", "0", unit.ErrRange, "at least one weight above zero")
	}
	return nil
}

func checkGroups(groups []GroupCount) error {
	for i, g := range groups {
		at := unit.Path("").At(i)
		if g.Name == "" {
			return check.Refuse(at.Dot("name"), "", unit.ErrRequired, "a name, such as that of a piece of furniture")
		}
		if slices.ContainsFunc(groups[:i], func(o GroupCount) bool { return o.Name == g.Name }) {
			return check.Refuse(at.Dot("name"), g.Name, unit.ErrRange, "each group once")
		}
		if err := check.Count(at.Dot("items"), g.Items, 0, mostParts); err != nil {
			return err
		}
	}
	return nil
}

// group splits the lines over their groups. What is worked out of the other
// lines, contingency and what fills up, goes by what these come to.
func (q *Quote) group() error {
	if len(q.Terms.Groups) == 0 && !slices.ContainsFunc(q.Lines, func(l QuoteLine) bool { return len(l.Shares) > 0 }) {
		q.Groups = []Group{{Name: WholeJob, Items: 1, Cost: q.Cost, CostTax: q.CostTax, CostUnknown: q.CostUnknown, Amount: q.Subtotal, Discount: q.Discount, Taxed: q.Taxed,
			Tax: q.Tax, Credit: q.Credit, Net: q.Net, Total: q.Total, Profit: q.Profit, Margin: q.Margin()}}
		return nil
	}
	g := grouping{q: q, at: map[string]int{}}
	for _, c := range q.Terms.Groups {
		g.open(c.Name, c.Items)
	}
	for _, l := range q.Lines {
		if l.follows() {
			continue
		}
		if err := g.split(l, l.Shares); err != nil {
			return err
		}
	}
	shares := make([]Share, len(q.Groups))
	weights := make([]exact.Rat, len(q.Groups))
	for i, x := range q.Groups {
		shares[i].Group, weights[i] = x.Name, x.Amount.amount
	}
	if q.Subtotal.IsZero() || !slices.ContainsFunc(weights, func(w exact.Rat) bool { return w.Sign() > 0 }) {
		shares, weights = []Share{{Group: WholeJob}}, []exact.Rat{exact.Int(1)}
	}
	for _, l := range q.Lines {
		if l.follows() {
			if err := g.spread(l, shares, weights); err != nil {
				return err
			}
		}
	}
	for i := range q.Groups {
		q.Groups[i].Margin = share(q.Groups[i].Profit, g.known[i])
	}
	return nil
}

// follows tells whether a line is worked out of the others.
func (l QuoteLine) follows() bool { return l.Price == "" }

// grouping adds up the columns of each group.
type grouping struct {
	q     *Quote
	at    map[string]int // place of each group
	known []Money        // net of what has a known cost
}

// open gives the place of a group, a new one at the end.
func (g *grouping) open(name string, items int) int {
	if i, ok := g.at[name]; ok {
		return i
	}
	z := nothing(g.q.Currency)
	i := len(g.q.Groups)
	g.at[name] = i
	g.q.Groups = append(g.q.Groups, Group{Name: name, Items: max(items, 1), Cost: z, CostTax: z, CostUnknown: z, Amount: z, Discount: z, Taxed: z, Tax: z, Credit: z,
		Net: z, Total: z, Profit: z})
	g.known = append(g.known, z)
	return i
}

// split puts a line into the groups of its shares; without any it is for the job
// as a whole.
func (g *grouping) split(l QuoteLine, shares []Share) error {
	if len(shares) == 0 {
		g.put(WholeJob, l)
		return nil
	}
	if len(shares) == 1 {
		g.put(shares[0].Group, l)
		return nil
	}
	weights := make([]exact.Rat, len(shares))
	for i, s := range shares {
		weights[i] = exact.Int(s.Weight)
	}
	return g.spread(l, shares, weights)
}

// spread splits every column of a line over shares by largest remainder.
func (g *grouping) spread(l QuoteLine, shares []Share, weights []exact.Rat) error {
	columns := [...]Money{l.Cost, l.Discount, l.Taxed, l.Tax, l.Credit, l.CostTax}
	var parts [len(columns)][]Money
	for i, m := range columns {
		var err error
		if parts[i], err = allocate(m, weights); err != nil {
			return err
		}
	}
	for i, s := range shares {
		part := QuoteLine{Sells: l.Sells, Cost: parts[0][i], Discount: parts[1][i], Taxed: parts[2][i], Tax: parts[3][i], Credit: parts[4][i], CostTax: parts[5][i]}
		g.put(s.Group, part)
	}
	return nil
}

// put adds a line, or a part of one, to a group.
func (g *grouping) put(name string, l QuoteLine) {
	i := g.open(name, 1)
	x := &g.q.Groups[i]
	net := g.q.net(l)
	unknown := g.q.unknown(l)
	if l.Sells != AsListed {
		g.known[i] = more(g.known[i], net)
	}
	for _, c := range [...]struct {
		of *Money
		by Money
	}{
		{&x.Cost, l.Cost}, {&x.CostTax, l.CostTax}, {&x.CostUnknown, unknown}, {&x.Amount, l.Taxed}, {&x.Amount, l.Discount}, {&x.Discount, l.Discount}, {&x.Taxed, l.Taxed}, {&x.Tax, l.Tax},
		{&x.Credit, l.Credit}, {&x.Net, net}, {&x.Total, net}, {&x.Total, l.Tax}, {&x.Total, l.Credit.Neg()},
		{&x.Profit, net}, {&x.Profit, l.Credit.Neg()}, {&x.Profit, l.Cost.Neg()}, {&x.Profit, l.CostTax}, {&x.Profit, unknown.Neg()},
	} {
		*c.of = more(*c.of, c.by)
	}
}

// more gives a + b of two amounts of one quote, which fit as their sum over all
// lines does.
func more(a, b Money) Money {
	return Money{amount: a.amount.Add(b.amount), currency: a.currency}
}
