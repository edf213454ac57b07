package cost

import (
	"math/big"
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// Terms are what a quote stands on beside its lines.
type Terms struct {
	// Currency is that of every line and figure. It is required.
	Currency Currency
	// Rounding is how each line is rounded to the minor unit. It is required.
	Rounding Rounding
	// Tax is what is added, or contained; the zero value is no tax.
	Tax Tax
}

// QuoteLine is a line as it stands in a quote. Every amount has been rounded
// once, from exact figures.
type QuoteLine struct {
	ID       string   `json:"id"`
	Kind     Kind     `json:"kind"`
	What     string   `json:"what"`
	TaxClass TaxClass `json:"tax_class"`
	Quantity string   `json:"quantity"`
	// Net and Waste are the parts of Quantity that end up in the piece and in
	// the bin; empty where the item did not say.
	Net        string     `json:"net,omitempty"`
	Waste      string     `json:"waste,omitempty"`
	WasteShare unit.Ratio `json:"waste_share,omitempty"`
	WasteCost  Money      `json:"waste_cost,omitzero"`
	Price      string     `json:"price"`
	Uplift     Uplift     `json:"uplift"`
	// Cost is price × quantity, what the shop pays.
	Cost Money `json:"cost"`
	// Amount is the cost with its markup or margin, what the customer pays.
	Amount Money `json:"amount"`
	// Tax is the tax on the line, or its share of the tax of the invoice.
	Tax Money `json:"tax"`

	exactCost   *big.Rat
	exactCharge *big.Rat
}

// KindSubtotal is the sum of the lines of one kind.
type KindSubtotal struct {
	Kind   Kind  `json:"kind"`
	Amount Money `json:"amount"`
}

// Quote is a price with all its parts. It always adds up:
//
//	Subtotal = sum of the lines = sum of Subtotals
//	Tax      = sum of Taxes = sum of the lines' tax
//	Net      = Subtotal where tax is added, Subtotal - Tax where it is contained
//	Total    = Net + Tax
type Quote struct {
	Currency  Currency       `json:"currency"`
	Rounding  Rounding       `json:"rounding"`
	Lines     []QuoteLine    `json:"lines"`
	Subtotals []KindSubtotal `json:"subtotals"`
	Subtotal  Money          `json:"subtotal"`
	Taxes     []LevyAmount   `json:"taxes"`
	TaxLevel  TaxLevel       `json:"tax_level"`
	Inclusive bool           `json:"prices_include_tax"`
	Net       Money          `json:"net"`
	Tax       Money          `json:"tax"`
	Total     Money          `json:"total"`
	// Cost is what the lines cost the shop, Profit is Net - Cost.
	Cost   Money `json:"cost"`
	Profit Money `json:"profit"`

	terms Terms
}

// NewQuote adds up lines under terms. Errors name the line or the field and
// wrap unit.ErrRequired, unit.ErrUnknown, unit.ErrRange, ErrMode, ErrCurrency
// or unit.ErrOverflow.
func NewQuote(t Terms, lines ...Line) (Quote, error) {
	if err := t.check(lines); err != nil {
		return Quote{}, err
	}
	q := Quote{Currency: t.Currency, Rounding: t.Rounding, TaxLevel: t.Tax.Level, Inclusive: t.Tax.Inclusive, terms: t}
	for i, l := range lines {
		ql, err := l.quoted(t)
		if err != nil {
			return Quote{}, unit.InField(index("lines", i), err)
		}
		q.Lines = append(q.Lines, ql)
	}
	if err := q.addUp(); err != nil {
		return Quote{}, err
	}
	return q, nil
}

func (t Terms) check(lines []Line) error {
	if _, err := t.Currency.Digits(); err != nil {
		return err
	}
	if err := t.Rounding.check(); err != nil {
		return err
	}
	if len(lines) == 0 {
		return refuse("lines", "", unit.ErrRequired, "at least one line")
	}
	for i, l := range lines {
		if l.cost == nil {
			return refuse(index("lines", i), "", unit.ErrRequired, "a line made by Item.Line")
		}
		if l.currency != t.Currency {
			return unit.InField(index("lines", i), &MismatchError{t.Currency, l.currency})
		}
	}
	return unit.InField("tax", t.Tax.check(lines))
}

// taxRounding gives the mode tax is rounded with.
func (t Terms) taxRounding() Rounding {
	if t.Tax.Rounding == 0 {
		return t.Rounding
	}
	return t.Tax.Rounding
}

func (l Line) quoted(t Terms) (QuoteLine, error) {
	ql := QuoteLine{ID: l.id, Kind: l.kind, What: l.what, TaxClass: l.class, Quantity: l.quantity, Net: l.net,
		Waste: l.waste, WasteShare: l.share, Price: l.price, Uplift: l.uplift, exactCost: l.cost, exactCharge: l.charge}
	var err error
	if ql.Cost, err = rounded(l.cost, t.Currency, t.Rounding); err != nil {
		return QuoteLine{}, err
	}
	if l.net != "" {
		if ql.WasteCost, err = rounded(l.wasted, t.Currency, t.Rounding); err != nil {
			return QuoteLine{}, err
		}
	}
	ql.Amount, err = rounded(l.charge, t.Currency, t.Rounding)
	return ql, err
}

// addUp fills every sum of the quote from its lines.
func (q *Quote) addUp() error {
	var err error
	if q.Subtotal, err = q.sum(func(l QuoteLine) Money { return l.Amount }); err != nil {
		return err
	}
	if q.Cost, err = q.sum(func(l QuoteLine) Money { return l.Cost }); err != nil {
		return err
	}
	for _, k := range Kinds() {
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
	amounts := make([]Money, len(q.Lines))
	classes := make([]TaxClass, len(q.Lines))
	for i, l := range q.Lines {
		amounts[i], classes[i] = l.Amount, l.TaxClass
	}
	tax, err := q.terms.Tax.on(amounts, classes, q.Currency, q.terms.taxRounding())
	if err != nil {
		return err
	}
	q.Taxes, q.Tax = tax.levies, tax.total
	for i := range q.Lines {
		q.Lines[i].Tax = tax.lines[i]
	}
	q.Net = q.Subtotal
	if q.Inclusive {
		if q.Net, err = q.Subtotal.Minus(q.Tax); err != nil {
			return err
		}
	}
	if q.Total, err = q.Net.Plus(q.Tax); err != nil {
		return err
	}
	q.Profit, err = q.Net.Minus(q.Cost)
	return err
}

func (q *Quote) sum(of func(QuoteLine) Money) (Money, error) {
	total, err := Zero(q.Currency)
	for _, l := range q.Lines {
		if err == nil {
			total, err = total.Plus(of(l))
		}
	}
	return total, err
}

// Subtotal of a kind, or nothing when the quote has no such line.
func (q Quote) SubtotalOf(k Kind) Money {
	for _, s := range q.Subtotals {
		if s.Kind == k {
			return s.Amount
		}
	}
	zero, _ := Zero(q.Currency) //nolint:errcheck // the currency of a quote has been checked
	return zero
}

// Margin gives Profit / Net; nothing for a quote over nothing.
func (q Quote) Margin() unit.Ratio {
	r, err := q.Profit.Per(q.Net)
	if err != nil {
		return 0
	}
	return r
}

// String writes the quote as a short table: lines, subtotal, taxes, total.
func (q Quote) String() string {
	var rows [][2]string
	for _, l := range q.Lines {
		rows = append(rows, [2]string{l.What + " (" + l.Quantity + ")", l.Amount.Amount()})
	}
	rows = append(rows, [2]string{"subtotal", q.Subtotal.Amount()})
	for _, t := range q.Taxes {
		name := t.Name + " " + t.Rate.String() + " on " + t.Base.Amount()
		if q.Inclusive {
			name += ", included"
		}
		rows = append(rows, [2]string{name, t.Tax.Amount()})
	}
	rows = append(rows, [2]string{"total " + string(q.Currency), q.Total.Amount()})
	return table(rows)
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
