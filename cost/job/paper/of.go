package paper

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
)

// Of makes a paper of an order: of no kind, the one of [Usual]. Beside an earlier
// order of the same job it says what the price was, nil is none.
//
// It refuses what would not be so, with unit.ErrRange or unit.ErrRequired: anything but
// an estimate of what nobody has measured, an estimate without a class, an invoice
// without its day. More received than owed is a credit in the Statement.
func Of(o job.WorkOrder, k Kind, earlier *job.WorkOrder) (Paper, error) {
	if k == 0 {
		k = Usual(o)
	}
	if err := k.suits(o); err != nil {
		return Paper{}, err
	}
	p := Paper{Schema: Schema, Kind: k, Name: o.Name, Shop: o.Shop, Customer: o.Customer, Number: o.Number, Issued: o.Quote.Issued, Ready: o.Due, Says: says(o, k)}
	if k == Invoice {
		p.Invoice, p.Issued, p.PayBy = o.Invoice.Number, o.Invoice.Issued, o.Invoice.Due
	}
	for _, step := range []func(job.WorkOrder) error{p.price, p.settle, p.choices} {
		if err := step(o); err != nil {
			return Paper{}, err
		}
	}
	var err error
	if p.Revision, err = revised(o, earlier); err != nil {
		return Paper{}, err
	}
	p.Pieces, p.Around, p.Covers = piecesOf(o), aroundOf(o), coversOf(o.Purchases, o.Cuts, o.Rough)
	p.say(o)
	return p, nil
}

// price fills in what the order comes to.
func (p *Paper) price(o job.WorkOrder) error {
	q := o.Quote
	if o.Copy != nil {
		p.By, p.Tax = o.Copy.By, o.Copy.Tax
	}
	var err error
	if p.Items, err = itemsOf(o, p.By, p.Tax); err != nil {
		return err
	}
	all, err := everyTax(q)
	if err != nil {
		return err
	}
	p.Taxes = levied(all)
	p.Discounts, p.Net, p.Total = discountsOf(q), q.Net, q.Total
	if p.Kind == Estimate {
		p.Range, err = rangeOf(q, q.Total)
	}
	return err
}

// settle fills in what was changed and received, and the payments.
func (p *Paper) settle(o job.WorkOrder) error {
	q := o.Quote
	if p.Kind == WorkOrder {
		p.Statement = o.Statement
	}
	if p.Kind == Invoice {
		if p.Statement = o.Statement; p.Statement == nil {
			s, err := account.Settle(account.Account{}, q.Total, q.Terms.Tax, q.Rounding)
			if err != nil {
				return err
			}
			p.Statement = &s
		}
	}
	if s := p.Statement; s != nil && len(s.Changes) > 0 {
		var err error
		if p.AllTaxes, err = withChanges(q, s); err != nil {
			return err
		}
	}
	due := q.Total
	if p.Statement != nil {
		due = p.Statement.Balance
	}
	if rule := q.Terms.Cash; !rule.Step.IsZero() && due.Sign() > 0 {
		paid, err := rule.Of(due)
		if err != nil {
			return err
		}
		p.Cash = paid.Payable
	}
	if p.Kind == Invoice {
		return nil
	}
	for _, x := range q.Payments {
		own := Payment{Name: x.Name, Amount: x.Amount, Due: x.Due}
		if len(x.Covers) == 0 {
			own.Share = x.Share
		}
		p.Payments = append(p.Payments, own)
	}
	if s := p.Statement; s != nil && !s.Changed.IsZero() && len(p.Payments) > 0 {
		p.Payments = append(p.Payments, Payment{Name: "agreed changes", Amount: s.Changed, Due: p.Payments[len(p.Payments)-1].Due})
	}
	return nil
}

// say fills in the sentences of the paper.
func (p *Paper) say(o job.WorkOrder) {
	c := account.Copy{}
	if o.Copy != nil {
		c = *o.Copy
	}
	p.Terms = slices.Clone(c.Terms)
	for _, x := range o.Cautions {
		if x.For(caution.Customer) {
			p.Minded = append(p.Minded, x.Text)
		}
	}
	p.Minded = append(p.Minded, caution.CustomersDeference)
	if p.Kind == Invoice {
		return
	}
	p.Valid = o.Quote.ValidUntil
	p.Damage = damage(o, c)
	for _, x := range p.Covers {
		if x.Bring != 0 || x.BringHides != 0 {
			p.Open = append(p.Open, "Still to come from you: "+x.Name+", as much as stands beside it.")
		}
	}
	p.NotIncluded = notIncluded(o, p.Covers, c)
	for _, x := range o.Papers {
		if slices.ContainsFunc(o.Cautions, func(c caution.Caution) bool { return c.For(caution.Customer) && because(x, c) }) {
			p.Papers = append(p.Papers, x.Of.String()+": "+x.Ask)
		}
	}
	switch p.Kind {
	case Quotation:
		p.Accept = "I accept this quotation and order the work."
	case WorkOrder:
		p.Accept = "I order the work as it is described here, at this price and on these terms."
	case Estimate, Invoice:
	}
}

// because tells whether a paper is asked for by a caution.
func because(p caution.Paper, c caution.Caution) bool {
	return p.Because == c.ID || strings.HasPrefix(p.Because, c.ID+" ") || strings.HasPrefix(p.Because, c.ID+",")
}

// says tells what a paper is worth.
func says(o job.WorkOrder, k Kind) string {
	switch k {
	case Estimate:
		if len(o.Rough) > 0 {
			return "A first estimate, before anything was measured or looked at. The work may come to anything in the range, and we name a firm price when we have seen the piece."
		}
		return "An estimate: not everything can be seen yet, and the work may come to anything in the range."
	case Quotation:
		return "A quotation: this price holds for the work that is described here."
	case WorkOrder:
		return "Order for the work that is described here."
	case Invoice:
	}
	return "For the work that is described here."
}

// damage says what becomes of the price where damage shows under the cover.
func damage(o job.WorkOrder, c account.Copy) string {
	text := c.Damage
	if text == "" {
		opened := len(o.Rough) > 0 || slices.ContainsFunc(o.Assembly, func(a job.Assembly) bool { return len(a.Work.Fastenings) > 0 }) ||
			slices.ContainsFunc(o.Labour, func(b job.Bench) bool { return slices.Contains(b.Does, bench.Strip) })
		if !opened {
			return "" // nothing is opened
		}
		text = "What is under the old cover shows only when it is off. If there is damage, such as a loose joint or a broken spring, we tell you what putting it right comes to, and go on when you agree."
	}
	if c.GoOn.Sign() > 0 {
		text += " Up to " + c.GoOn.String() + " with tax we may put it right without asking, and say so on the invoice."
	}
	return text
}

// unknown are what pieces that nobody has measured lack, in words for the customer.
var unknown = map[string]string{"findings beyond a share": "small parts beyond the usual", "the customer's own goods": ""}

// notIncluded lists what the price does not hold.
func notIncluded(o job.WorkOrder, covers []Cover, c account.Copy) []string {
	var out []string
	add := func(s string) {
		if s != "" && !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	for _, s := range c.NotIncluded {
		add(s)
	}
	for _, x := range covers {
		if x.Yours {
			add(x.Name + ", which is your own")
		}
	}
	for _, r := range o.Rough {
		for _, s := range r.Unknown {
			if other, told := unknown[s]; told {
				s = other
			}
			add(s)
		}
	}
	for _, f := range o.Findings {
		if f.Paid == build.Unpriced {
			add(freshly[kindOf(f)])
		}
	}
	for _, f := range o.Forms {
		if !f.Priced {
			add("pillow form: " + f.Part)
		}
	}
	if !slices.ContainsFunc(o.Quote.Lines, func(l cost.QuoteLine) bool { return Work(l) == fetching }) {
		add(fetching)
	}
	return out
}

// Revision is which version of the price this is, and beside an earlier order what it
// was.
type Revision struct {
	account.Revision
	Since  cost.Date    `json:"since,omitzero"`   // the day of the earlier order
	Was    string       `json:"was,omitempty"`    // its letter
	Pieces []Difference `json:"pieces,omitempty"` // of furniture, with tax
	Total  *Difference  `json:"total,omitempty"`
}

// Difference is an amount as it was and as it is; Difference = Is - Was.
type Difference struct {
	What       string     `json:"what"`
	Was        cost.Money `json:"was"`
	Is         cost.Money `json:"is"`
	Difference cost.Money `json:"difference"`
}

// revised sets the order beside an earlier one by piece of furniture; nil where there
// is neither one nor a revision.
func revised(o job.WorkOrder, earlier *job.WorkOrder) (*Revision, error) {
	if o.Revision == nil && earlier == nil {
		return nil, nil
	}
	var r Revision
	if o.Revision != nil {
		r.Revision = *o.Revision
	}
	if earlier == nil {
		return &r, nil
	}
	if _, err := o.Against(*earlier); err != nil {
		return nil, unit.InField("earlier", err)
	}
	if r.Since = earlier.Quote.Issued; earlier.Revision != nil {
		r.Was = earlier.Revision.Letter
	}
	zero, err := cost.Zero(o.Quote.Currency)
	if err != nil {
		return nil, err
	}
	put := func(what string, was, is cost.Money) (Difference, error) {
		d, err := is.Minus(was)
		return Difference{what, was, is, d}, err
	}
	sums := func(q cost.Quote) map[string]cost.Money {
		out := map[string]cost.Money{}
		for _, g := range q.Groups {
			out[g.Name] = g.Total
		}
		return out
	}
	was, is := sums(earlier.Quote), sums(o.Quote)
	var seen []string
	for _, g := range slices.Concat(o.Quote.Groups, earlier.Quote.Groups) {
		if slices.Contains(seen, g.Name) {
			continue
		}
		seen = append(seen, g.Name)
		a, b := was[g.Name], is[g.Name]
		if a.Currency() == "" {
			a = zero
		}
		if b.Currency() == "" {
			b = zero
		}
		if g.Name == cost.WholeJob && a.IsZero() && b.IsZero() {
			continue
		}
		name := g.Name
		if name == cost.WholeJob {
			name = "for the whole order"
		}
		d, err := put(name, a, b)
		if err != nil {
			return nil, err
		}
		r.Pieces = append(r.Pieces, d)
	}
	total, err := put("total", earlier.Quote.Total, o.Quote.Total)
	r.Total = &total
	return &r, err
}
