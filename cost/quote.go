package cost

import (
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// Terms are what a quote stands on beside its lines.
type Terms struct {
	// Currency is that of every line and figure. It is required.
	Currency Currency `json:"currency"`
	// Rounding is how each line is rounded to the minor unit; the zero value
	// rounds as HalfUp.
	Rounding Rounding `json:"rounding"`
	// Tax is what is added, or contained; the zero value is no tax.
	Tax Tax `json:"tax"`
	// Class says how well the job is known; it gives the range of the quote.
	// Zero gives none.
	Class EstimateClass `json:"class,omitempty"`
	// Contingency is added as a line of its own: this share of all other
	// lines, from 0 to 100 %. EstimateClass.Accuracy has a share to start from.
	Contingency unit.Ratio `json:"contingency,omitempty"`
	// Least is the least that is charged, and Step what the price is rounded up
	// to, each by a line of its own where something lacks. Both are of the price
	// as it is said, after discounts before tax: without tax where tax is added,
	// and with it where prices include it. Nothing when not given.
	Least Money `json:"least,omitzero"`
	Step  Money `json:"step,omitzero"`
	// Groups are those that lines share in, in the order they are wanted, with
	// how many items each is; groups that are not listed follow.
	Groups []GroupCount `json:"groups,omitempty"`
	// Discounts are taken off in this order, those before tax first.
	Discounts []Discount `json:"discounts,omitempty"`
	// Stages are the payments towards the total; empty for one payment.
	Stages []Stage `json:"stages,omitempty"`
	// Cash is how the total is rounded when it is paid in cash; a rule
	// without a step rounds nothing.
	Cash CashRule `json:"cash,omitzero"`
	// Issued is the day of the quote and ValidDays how long it holds, the
	// last day included. Both may be left out, but no ValidDays without Issued.
	Issued    Date `json:"issued,omitzero"`
	ValidDays int  `json:"valid_days,omitempty"`
}

// QuoteLine is a line as it stands in a quote. Every amount has been rounded
// once, from exact figures.
type QuoteLine struct {
	ID string `json:"id"`
	// Source is that of the item; lines that share an ID keep it.
	Source   string   `json:"source"`
	Kind     Kind     `json:"kind"`
	What     string   `json:"what"`
	TaxClass TaxClass `json:"tax_class"`
	// Exact has quantity, net and price as what they are; the texts are for
	// print, in the unit of the price. A line of contingency has none.
	Exact    Amount `json:"exact,omitzero"`
	Quantity string `json:"quantity"`
	// Net and Waste are the parts of Quantity that end up in the piece and in
	// the bin; empty where the item did not say.
	Net        string     `json:"net,omitempty"`
	Waste      string     `json:"waste,omitempty"`
	WasteShare unit.Ratio `json:"waste_share,omitempty"`
	WasteCost  Money      `json:"waste_cost"`
	Price      string     `json:"price"`
	Uplift     Uplift     `json:"uplift"`
	Sells      Selling    `json:"sells,omitzero"`
	// Cost is price × quantity and what is paid once, which the shop pays; zero
	// for a line that sells as listed, whose cost is not known.
	Cost Money `json:"cost"`
	// CostTax is the tax that Cost contains where prices contain it: of the
	// rates R that fall on the line, Cost × R / (1 + R).
	CostTax Money `json:"cost_tax"`
	// Amount is the cost with its markup or margin, what the customer pays.
	Amount Money `json:"amount"`
	// Discount is the line's share of the discounts before tax, and Taxed is
	// Amount - Discount.
	Discount Money `json:"discount"`
	Taxed    Money `json:"taxed"`
	// Tax is the tax on the line, or its share of the tax of the invoice.
	Tax Money `json:"tax"`
	// Credit is the line's share of the discounts after tax.
	Credit Money `json:"credit"`
	// Shares and Figures are those of the item.
	Shares  []Share  `json:"shares,omitempty"`
	Figures []Figure `json:"figures,omitempty"`
}

// KindSubtotal is the sum of the lines of one kind.
type KindSubtotal struct {
	Kind   Kind  `json:"kind"`
	Amount Money `json:"amount"`
}

// Quote is a price with all its parts. It always adds up:
//
//	Subtotal = sum of the lines = sum of Subtotals = sum of the groups' Amount
//	Taxed    = Subtotal - Discount = sum of the lines' Taxed
//	Tax      = sum of Taxes = sum of the lines' Tax
//	Net      = Taxed where tax is added, Taxed - Tax where it is contained
//	Total    = Net + Tax - Credit = sum of Payments
//	Profit   = Net - Credit - (Cost - CostTax) - CostUnknown
//
// Drawing: cost/doc/quote.svg
type Quote struct {
	Currency  Currency       `json:"currency"`
	Rounding  Rounding       `json:"rounding"`
	Lines     []QuoteLine    `json:"lines"`
	Subtotals []KindSubtotal `json:"subtotals"`
	Subtotal  Money          `json:"subtotal"`
	// Groups are the quote by what its lines are for, such as pieces of
	// furniture. They add up to the quote in every column.
	Groups []Group `json:"groups"`
	// Discounts are all discounts; Discount is the sum of those before tax.
	Discounts   []DiscountAmount `json:"discounts,omitempty"`
	Discount    Money            `json:"discount"`
	Taxed       Money            `json:"taxed"`
	Taxes       []LevyAmount     `json:"taxes"`
	TaxLevel    TaxLevel         `json:"tax_level"`
	TaxRounding Rounding         `json:"tax_rounding"`
	Inclusive   bool             `json:"prices_include_tax"`
	Net         Money            `json:"net"`
	Tax         Money            `json:"tax"`
	// Credit is the sum of the discounts after tax.
	Credit   Money     `json:"credit"`
	Total    Money     `json:"total"`
	Payments []Payment `json:"payments,omitempty"`
	// Cash is the total as it is paid in cash, where the terms have a rule.
	Cash CashTotal `json:"cash,omitzero"`
	// Cost is what the lines cost the shop, and CostTax the tax within it where
	// prices contain it, which is no cost as it is no price. CostUnknown is what
	// the lines bring, after all discounts and without tax, that sell as listed:
	// nobody said what they cost, so that neither Cost nor Profit has them.
	Cost        Money `json:"cost"`
	CostTax     Money `json:"cost_tax"`
	CostUnknown Money `json:"cost_unknown"`
	Profit      Money `json:"profit"`
	// Class, Low and High say what the job may come out at before tax, where
	// the terms have a class.
	Class      EstimateClass `json:"class,omitempty"`
	Low        Money         `json:"low"`
	High       Money         `json:"high"`
	Issued     Date          `json:"issued,omitzero"`
	ValidUntil Date          `json:"valid_until,omitzero"`
	// Terms are those the quote was made under, what follows from others filled
	// in.
	Terms Terms `json:"terms"`
}

// NewQuote adds up lines under terms. A quote may have no line twice; of lines
// with the same ID the second becomes "ID (2)" and so on. Errors name the line
// or the field and wrap unit.ErrRequired, unit.ErrUnknown, unit.ErrRange,
// ErrMode, ErrCurrency, ErrFraction or unit.ErrOverflow.
func NewQuote(t Terms, lines ...Line) (Quote, error) {
	t = t.clone()
	if t.Rounding == 0 {
		t.Rounding = HalfUp
	}
	if err := t.check(lines); err != nil {
		return Quote{}, err
	}
	var err error
	if t.Tax, err = t.Tax.settle(t.Rounding); err != nil {
		return Quote{}, unit.InField("tax", err)
	}
	q := Quote{Currency: t.Currency, Rounding: t.Rounding, TaxLevel: t.Tax.Level, TaxRounding: t.Tax.Rounding,
		Inclusive: t.Tax.Inclusive, Class: t.Class, Issued: t.Issued, Terms: t, Lines: make([]QuoteLine, 0, len(lines)+3)}
	for i, l := range lines {
		ql, err := l.filled().quoted(t)
		if err != nil {
			return Quote{}, unit.InField(unit.Path("lines").At(i), err)
		}
		q.Lines = append(q.Lines, ql)
	}
	for _, step := range []func() error{
		q.addContingency, q.addUp, q.discount, q.fillUp, q.tax, q.credit, q.payments, q.close, q.group,
	} {
		if err := step(); err != nil {
			return Quote{}, err
		}
	}
	q.name()
	return q, nil
}

// clone keeps a quote apart from slices its caller may change, and cleans its
// ratios.
func (t Terms) clone() Terms {
	t.Tax.Levies = slices.Clone(t.Tax.Levies)
	for i := range t.Tax.Levies {
		l := &t.Tax.Levies[i]
		l.Rate, l.On, l.Except = clean(l.Rate), slices.Clone(l.On), slices.Clone(l.Except)
	}
	t.Discounts = slices.Clone(t.Discounts)
	for i := range t.Discounts {
		d := &t.Discounts[i]
		d.Rate, d.Kinds = clean(d.Rate), slices.Clone(d.Kinds)
	}
	t.Stages = slices.Clone(t.Stages)
	for i := range t.Stages {
		s := &t.Stages[i]
		s.Share, s.AtLeast = clean(s.Share), slices.Clone(s.AtLeast)
	}
	t.Contingency = clean(t.Contingency)
	t.Groups = slices.Clone(t.Groups)
	return t
}

func (t Terms) check(lines []Line) error {
	if _, err := t.Currency.Digits(); err != nil {
		return err
	}
	if err := t.Rounding.check(); err != nil {
		return err
	}
	if len(lines) == 0 {
		return check.Refuse("lines", "", unit.ErrRequired, "at least one line")
	}
	for i, l := range lines {
		if c := l.Amount.Price.amount.currency; c != t.Currency && c != "" {
			return unit.InField(unit.Path("lines").At(i), &MismatchError{t.Currency, c})
		}
	}
	if err := checkGroups(t.Groups); err != nil {
		return unit.InField("groups", err)
	}
	for i, d := range t.Discounts {
		if err := d.check(); err != nil {
			return unit.InField(unit.Path("discounts").At(i), err)
		}
	}
	if t.ValidDays < 0 || t.ValidDays > mostDays {
		return check.Refuse("valid_days", strconv.Itoa(t.ValidDays), unit.ErrRange, "from 0 to 36600")
	}
	if t.ValidDays > 0 && t.Issued.IsZero() {
		return check.Refuse("issued", "", unit.ErrRequired, "the day from which the valid days count")
	}
	return unit.InField("tax", t.Tax.check(lines))
}

func (l Line) quoted(t Terms) (QuoteLine, error) {
	f, err := l.exact()
	if err != nil {
		return QuoteLine{}, err
	}
	price := l.Amount.Price
	ql := QuoteLine{ID: l.ID, Source: l.Source, Kind: l.Kind, What: l.What, TaxClass: l.TaxClass, Exact: l.Amount,
		Quantity: price.quantityText(l.Amount.Quantity), Price: price.String(), Uplift: l.Uplift, Sells: l.Sells, Shares: slices.Clone(l.Shares), Figures: slices.Clone(l.Figures)}
	if l.Sells == AsListed {
		f.cost, f.wasted = exact.Rat{}, exact.Rat{}
	}
	if ql.Cost, err = rounded(f.cost, t.Currency, t.Rounding); err != nil {
		return QuoteLine{}, err
	}
	if !l.Amount.Net.IsZero() {
		ql.Net, ql.Waste = price.quantityText(l.Amount.Net), price.quantityText(l.Amount.Waste())
		ql.WasteShare = unit.Ratio(f.share.Float64())
		if ql.WasteCost, err = rounded(f.wasted, t.Currency, t.Rounding); err != nil {
			return QuoteLine{}, err
		}
	}
	ql.Amount, err = rounded(f.charge, t.Currency, t.Rounding)
	return ql, err
}

// name gives every line an ID of its own.
func (q *Quote) name() {
	seen := map[string]int{}
	for i := range q.Lines {
		id := q.Lines[i].ID
		seen[id]++
		for n := seen[id]; n > 1; n++ {
			q.Lines[i].ID = id + " (" + strconv.Itoa(n) + ")"
			if seen[q.Lines[i].ID] == 0 {
				seen[q.Lines[i].ID]++
				break
			}
		}
	}
}

// addUp sums the lines before discounts and tax.
func (q *Quote) addUp() error {
	var err error
	zero := nothing(q.Currency)
	q.Discount, q.Credit = zero, zero
	for i := range q.Lines {
		q.Lines[i].Discount, q.Lines[i].Credit, q.Lines[i].Taxed = zero, zero, q.Lines[i].Amount
	}
	if q.Subtotal, err = q.sum(func(l QuoteLine) Money { return l.Amount }); err != nil {
		return err
	}
	if q.Cost, err = q.sum(func(l QuoteLine) Money { return l.Cost }); err != nil {
		return err
	}
	var present [RoundingUp + 1]bool
	kinds := 2 // room for what fills up
	for _, l := range q.Lines {
		if !present[l.Kind] {
			present[l.Kind] = true
			kinds++
		}
	}
	q.Subtotals = make([]KindSubtotal, 0, kinds)
	for k := Goods; k <= RoundingUp; k++ {
		sum, n := Money{}, 0
		for _, l := range q.Lines {
			if l.Kind != k {
				continue
			}
			n++
			if sum, err = sum.Plus(l.Amount); err != nil {
				return err
			}
		}
		if n > 0 {
			q.Subtotals = append(q.Subtotals, KindSubtotal{k, sum})
		}
	}
	return nil
}

func (q *Quote) taxBase() ([]Money, []TaxClass) {
	amounts, classes := make([]Money, len(q.Lines)), make([]TaxClass, len(q.Lines))
	for i, l := range q.Lines {
		amounts[i], classes[i] = l.Taxed, l.TaxClass
	}
	return amounts, classes
}

// tax taxes what the discounts have left and gives the total.
func (q *Quote) tax() error {
	var err error
	if q.Discount, err = q.sum(func(l QuoteLine) Money { return l.Discount }); err != nil {
		return err
	}
	if q.Taxed, err = q.Subtotal.Minus(q.Discount); err != nil {
		return err
	}
	amounts, classes := q.taxBase()
	tax, err := q.Terms.Tax.on(amounts, classes, q.Currency)
	if err != nil {
		return unit.InField("tax", err)
	}
	q.Taxes, q.Tax = tax.levies, tax.total
	for i := range q.Lines {
		q.Lines[i].Tax = tax.lines[i]
	}
	q.Net = q.Taxed
	if q.Inclusive {
		if q.Net, err = q.Taxed.Minus(q.Tax); err != nil {
			return err
		}
	}
	if err := q.taxWithinCost(classes); err != nil {
		return err
	}
	q.Total, err = q.Net.Plus(q.Tax)
	return err
}

// taxWithinCost gives the tax that the cost of each line contains.
func (q *Quote) taxWithinCost(classes []TaxClass) (err error) {
	for i := range q.Lines {
		q.Lines[i].CostTax = nothing(q.Currency)
	}
	if q.Inclusive {
		costs := make([]Money, len(q.Lines))
		for i, l := range q.Lines {
			costs[i] = l.Cost
		}
		due, err := q.Terms.Tax.exact(costs, classes)
		if err != nil {
			return err
		}
		for i := range q.Lines {
			var within exact.Rat
			for _, levy := range due {
				within = within.Add(levy[i])
			}
			if q.Lines[i].CostTax, err = rounded(within, q.Currency, q.Rounding); err != nil {
				return err
			}
		}
	}
	q.CostTax, err = q.sum(func(l QuoteLine) Money { return l.CostTax })
	return err
}

// close fills what follows from the total.
func (q *Quote) close() error {
	var err error
	if q.CostUnknown, err = q.sum(q.unknown); err != nil {
		return err
	}
	if q.Profit, err = Sum(q.Net, q.Credit.Neg(), q.Cost.Neg(), q.CostTax, q.CostUnknown.Neg()); err != nil {
		return err
	}
	if !q.Terms.Cash.Step.IsZero() {
		if q.Cash, err = q.Terms.Cash.Of(q.Total); err != nil {
			return unit.InField("cash", err)
		}
	}
	if q.Class != 0 {
		if q.Low, q.High, err = q.Class.Range(q.Net, q.Rounding); err != nil {
			return err
		}
	}
	if !q.Issued.IsZero() {
		q.ValidUntil, err = q.Issued.AddDays(q.Terms.ValidDays)
	}
	return err
}

// ValidOn tells whether the quote still holds on a day: from the day it was
// issued to the last of its valid days. A quote without a day of issue holds
// until it is withdrawn.
func (q Quote) ValidOn(d Date) bool {
	if q.Issued.IsZero() {
		return true
	}
	return d.Compare(q.Issued) >= 0 && d.Compare(q.ValidUntil) <= 0
}

func (q *Quote) sum(of func(QuoteLine) Money) (Money, error) {
	var err error
	total := nothing(q.Currency)
	for _, l := range q.Lines {
		if err == nil {
			total, err = total.Plus(of(l))
		}
	}
	return total, err
}

// SubtotalOf gives the subtotal of a kind, or nothing when the quote has no such line.
func (q Quote) SubtotalOf(k Kind) Money {
	for _, s := range q.Subtotals {
		if s.Kind == k {
			return s.Amount
		}
	}
	return nothing(q.Currency)
}

// net gives what a line brings without tax, before discounts after tax.
func (q *Quote) net(l QuoteLine) Money {
	if q.Inclusive {
		return less(l.Taxed, l.Tax)
	}
	return l.Taxed
}

// less gives a - b of two amounts of one quote, which fit.
func less(a, b Money) Money {
	return Money{amount: a.amount.Sub(b.amount), currency: a.currency}
}

// unknown gives what a line brings whose cost is not known.
func (q *Quote) unknown(l QuoteLine) Money {
	if l.Sells != AsListed {
		return Money{}
	}
	return less(q.net(l), l.Credit)
}

// Margin gives Profit as a share of Net, of the lines whose cost is known;
// nothing where there are none or they bring nothing.
func (q Quote) Margin() unit.Ratio {
	known := q.Net
	for _, l := range q.Lines {
		if l.Sells == AsListed {
			known = less(known, q.net(l))
		}
	}
	return share(q.Profit, known)
}

// share gives part / whole, and nothing of nothing.
func share(part, whole Money) unit.Ratio {
	r, err := part.Per(whole)
	if err != nil {
		return 0
	}
	return r
}

// String writes the quote as a short table: lines, subtotal, discounts, taxes,
// total and payments.
func (q Quote) String() string {
	var rows [][2]string
	put := func(name string, m Money) { rows = append(rows, [2]string{name, m.Amount()}) }
	for _, l := range q.Lines {
		put(l.What+" ("+l.Quantity+")", l.Amount)
	}
	put("subtotal", q.Subtotal)
	for _, d := range q.Discounts {
		if !d.AfterTax {
			put(d.text(), d.Amount.Neg())
		}
	}
	for _, t := range q.Taxes {
		name := t.Name + " " + t.Rate.String() + " on " + t.Base.Amount()
		if q.Inclusive {
			name += ", included"
		}
		put(name, t.Tax)
	}
	for _, d := range q.Discounts {
		if d.AfterTax {
			put(d.text(), d.Amount.Neg())
		}
	}
	put("total "+string(q.Currency), q.Total)
	for _, p := range q.Payments {
		put(p.Name, p.Amount)
	}
	if !q.Terms.Cash.Step.IsZero() {
		put("paid in cash", q.Cash.Payable)
	}
	return table(rows)
}

func (d DiscountAmount) text() string {
	if d.Rate == 0 {
		return d.Name
	}
	return d.Name + " " + d.Rate.String() + " of " + d.Base.Amount()
}

// table writes rows of a name and an amount, the amounts in one column.
func table(rows [][2]string) string {
	left, right := 0, 0
	for _, r := range rows {
		left, right = max(left, len([]rune(r[0]))), max(right, len(r[1]))
	}
	var b strings.Builder
	for _, r := range rows {
		b.WriteString(r[0])
		b.WriteString(strings.Repeat(" ", left-len([]rune(r[0]))+2+right-len(r[1])))
		b.WriteString(r[1])
		b.WriteByte('\n')
	}
	return b.String()
}
