package cost

import (
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Figure is one number with the way it came about.
type Figure struct {
	// Name is what the figure is called, such as "cover cloth: amount".
	Name string `json:"name"`
	// Value is the figure as text with its unit.
	Value string `json:"value"`
	// Formula names its inputs; Working has their values and, where something
	// was rounded, the value before; Rule says how it was rounded or split.
	Formula string `json:"formula"`
	Working string `json:"working"`
	Rule    string `json:"rule,omitempty"`
	// Basis is the foundation of the rule, where a table has one.
	Basis cite.Basis `json:"basis,omitzero"`
}

// String writes the figure on one line: name, formula, working, value, rule.
func (f Figure) String() string {
	s := f.Name + " = " + f.Formula
	if f.Working != "" && f.Working != f.Value {
		s += " = " + f.Working
	}
	s += " -> " + f.Value
	if f.Rule != "" {
		s += " (" + f.Rule + ")"
	}
	return s
}

// Figures explains every figure of the quote, in the order of the quote.
func (q Quote) Figures() []Figure {
	var out []Figure
	for _, l := range q.Lines {
		out = append(out, q.lineFigures(l)...)
	}
	for _, s := range q.Subtotals {
		out = append(out, Figure{Name: "subtotal of " + s.Kind.String(), Value: s.Amount.String(), Formula: "sum of its lines",
			Working: q.plus(func(l QuoteLine) (Money, bool) { return l.Amount, l.Kind == s.Kind })})
	}
	out = append(out, Figure{Name: "subtotal", Value: q.Subtotal.String(), Formula: "sum of the lines",
		Working: q.plus(func(l QuoteLine) (Money, bool) { return l.Amount, true })})
	for _, d := range q.Discounts {
		if !d.AfterTax {
			out = append(out, q.discountFigure(d))
		}
	}
	if !q.Discount.IsZero() {
		out = append(out,
			Figure{Name: "discount", Value: q.Discount.String(), Formula: "sum of the discounts before tax",
				Working: q.plus(func(l QuoteLine) (Money, bool) { return l.Discount, !l.Discount.IsZero() }),
				Rule:    "spread over the lines by largest remainder"},
			Figure{Name: "taxed", Value: q.Taxed.String(), Formula: "subtotal - discount", Working: q.Subtotal.Amount() + " - " + q.Discount.Amount()})
	}
	out = append(out, q.taxFigures()...)
	for _, d := range q.Discounts {
		if d.AfterTax {
			out = append(out, q.discountFigure(d))
		}
	}
	out = append(out, q.totalFigures()...)
	return out
}

// Explain gives the figures whose name begins with name, such as "total" or
// the ID of a line. It wraps unit.ErrUnknown when there is none.
func (q Quote) Explain(name string) ([]Figure, error) {
	var out []Figure
	for _, f := range q.Figures() {
		if f.Name == name || strings.HasPrefix(f.Name, name+":") || strings.HasPrefix(f.Name, name+" ") {
			out = append(out, f)
		}
	}
	if len(out) == 0 {
		return nil, check.Refuse("name", name, unit.ErrUnknown, "the ID of a line, or a figure such as subtotal, tax or total")
	}
	return out, nil
}

// plus writes the terms of a sum over the lines.
func (q Quote) plus(of func(QuoteLine) (Money, bool)) string {
	var terms []string
	for _, l := range q.Lines {
		if m, ok := of(l); ok {
			terms = append(terms, m.Amount())
		}
	}
	return strings.Join(terms, " + ")
}

// workingPlaces is the digits shown of a value before it was rounded.
const workingPlaces = 6

// once says how a figure of the quote was rounded.
func (q Quote) once() string {
	digits, _ := q.Currency.Digits() //nolint:errcheck // the currency of a quote has been checked
	place := "a whole " + string(q.Currency)
	if digits > 0 {
		place = exact.New(1, powers[digits]).FloatString(digits) + " " + string(q.Currency)
	}
	return q.Rounding.String() + " to " + place + ", once"
}

func (q Quote) lineFigures(l QuoteLine) []Figure {
	var out []Figure
	for _, f := range l.Figures {
		f.Name = l.ID + ": " + f.Name
		out = append(out, f)
	}
	switch {
	case l.Price != "":
		out = append(out, q.priceFigures(l)...)
	case l.Kind == MinimumCharge || l.Kind == RoundingUp:
		out = append(out, q.fillFigure(l))
	default: // contingency
		out = append(out, Figure{Name: l.ID + ": amount", Value: l.Amount.String(), Formula: "share × sum of the other lines",
			Working: l.Quantity, Rule: q.once()})
	}
	if !l.Discount.IsZero() {
		out = append(out,
			Figure{Name: l.ID + ": discount", Value: l.Discount.String(), Formula: "share of the discounts before tax", Working: l.Discount.Amount(), Rule: "largest remainder"},
			Figure{Name: l.ID + ": taxed", Value: l.Taxed.String(), Formula: "amount - discount", Working: l.Amount.Amount() + " - " + l.Discount.Amount()})
	}
	if !l.Credit.IsZero() {
		out = append(out, Figure{Name: l.ID + ": credit", Value: l.Credit.String(), Formula: "share of the discounts after tax", Working: l.Credit.Amount(), Rule: "largest remainder"})
	}
	if !l.Tax.IsZero() {
		f := Figure{Name: l.ID + ": tax", Value: l.Tax.String(), Formula: "share of the tax of the invoice", Working: l.Tax.Amount(), Rule: "largest remainder"}
		if q.TaxLevel == PerLine {
			f.Formula, f.Working = q.taxFormula("amount"), q.taxWorking(l.Taxed, l.TaxClass)
			f.Rule = q.taxRule()
		}
		out = append(out, f)
	}
	return out
}

// priceFigures explains cost, waste and amount of a line.
func (q Quote) priceFigures(l QuoteLine) []Figure {
	formula, working := "quantity × price", l.Quantity+" × "+l.Price
	if !l.Exact.Fixed.IsZero() {
		formula += " + what is paid once"
		working += " + " + l.Exact.Fixed.Amount()
	}
	paid, err := l.Exact.cost()
	charge, err2 := l.Uplift.apply(paid)
	known := err == nil && err2 == nil
	exactly := ""
	if known {
		exactly = " = " + paid.Text(workingPlaces)
	}
	if l.Sells == AsListed {
		return []Figure{{Name: l.ID + ": amount", Value: l.Amount.String(), Formula: formula, Working: working + exactly,
			Rule: q.once() + "; the price is what the customer pays, the cost is not known"}}
	}
	cost := Figure{Name: l.ID + ": cost", Value: l.Cost.String(), Formula: formula, Working: working + exactly, Rule: q.once()}
	amount := Figure{Name: l.ID + ": amount", Value: l.Amount.String(), Formula: "cost", Working: l.Cost.Amount(), Rule: q.once()}
	if known {
		amount.Working = paid.Text(workingPlaces)
	}
	switch {
	case l.Uplift.IsMargin():
		amount.Formula = "cost / (1 - margin)"
		amount.Working += " / (1 - " + l.Uplift.Rate().String() + ")"
	case l.Uplift.Rate() != 0:
		amount.Formula = "cost × (1 + markup)"
		amount.Working += " × (1 + " + l.Uplift.Rate().String() + ")"
	}
	if known && l.Uplift.Rate() != 0 {
		amount.Working += " = " + charge.Text(workingPlaces)
	}
	if l.Waste == "" {
		return []Figure{cost, amount}
	}
	return []Figure{cost, {Name: l.ID + ": waste", Value: l.WasteCost.String(), Formula: "(quantity - net) × price",
		Working: "(" + l.Quantity + " - " + l.Net + ") × " + l.Price + " = " + l.Waste + ", " + l.WasteShare.PercentText(1, unit.Nearest) + " of the quantity",
		Rule:    q.once()}, amount}
}

func (q Quote) taxFormula(base string) string {
	if q.Inclusive {
		return base + " × rate / (1 + sum of rates)"
	}
	return base + " × rate"
}

func (q Quote) taxRule() string {
	s := q.TaxRounding.String() + ", rounded " + q.TaxLevel.String()
	if q.Terms.Tax.Together {
		s += ", all levies as one"
	}
	return s
}

// taxWorking writes the levies on one line.
func (q Quote) taxWorking(base Money, class TaxClass) string {
	var terms []string
	for _, l := range q.Terms.Tax.Levies {
		if l.Falls(class) {
			terms = append(terms, base.Amount()+" × "+l.Rate.String())
		}
	}
	return strings.Join(terms, " + ")
}

func (q Quote) discountFigure(d DiscountAmount) Figure {
	f := Figure{Name: d.Name, Value: d.Amount.String(), Formula: "a fixed sum", Working: d.Amount.Amount()}
	if d.Rate != 0 {
		f.Formula, f.Working, f.Rule = "rate × base", d.Rate.String()+" of "+d.Base.Amount(), q.once()
	}
	if d.AfterTax {
		f.Rule = strings.TrimPrefix(f.Rule+"; after tax, so the tax stays as it is", "; ")
	}
	return f
}

func (q Quote) taxFigures() []Figure {
	var out []Figure
	regime, known := Regime{}, false
	if r, err := RegimeOf(q.Terms.Tax.Regime); err == nil {
		regime, known = r, true
	}
	var sum []string
	for _, t := range q.Taxes {
		f := Figure{Name: t.Name, Value: t.Tax.String(), Formula: q.taxFormula("sum of its lines"),
			Working: t.Base.Amount() + " × " + t.Rate.String(), Rule: q.taxRule()}
		if q.TaxLevel == PerLine {
			f.Formula = "sum over its lines of " + q.taxFormula("amount")
		}
		if known {
			f.Rule += "; " + regime.Name + ": " + regime.Note
			f.Basis = regime.Basis
		}
		out = append(out, f)
		sum = append(sum, t.Tax.Amount())
	}
	if len(sum) > 0 {
		out = append(out, Figure{Name: "tax", Value: q.Tax.String(), Formula: "sum of the levies", Working: strings.Join(sum, " + ")})
	}
	return out
}

func (q Quote) totalFigures() []Figure {
	net := Figure{Name: "net", Value: q.Net.String(), Formula: "subtotal - discount", Working: q.Subtotal.Amount() + " - " + q.Discount.Amount()}
	if q.Inclusive {
		net.Formula += " - tax"
		net.Working += " - " + q.Tax.Amount()
	}
	total := Figure{Name: "total", Value: q.Total.String(), Formula: "net + tax", Working: q.Net.Amount() + " + " + q.Tax.Amount()}
	if !q.Credit.IsZero() {
		total.Formula += " - discounts after tax"
		total.Working += " - " + q.Credit.Amount()
	}
	out := []Figure{net, total}
	for i, p := range q.Payments {
		f := Figure{Name: "payment " + p.Name, Value: p.Amount.String(), Rule: "largest remainder; the payments add up to the total"}
		var s Stage
		if i < len(q.Terms.Stages) { // a quote read back from JSON has no terms
			s = q.Terms.Stages[i]
		}
		switch {
		case len(p.Covers) > 0:
			f.Formula, f.Working = "what it must cover", kindsText(p.Covers)+", "+p.Amount.Amount()
		case p.Share != 0:
			f.Formula, f.Working = "share of the total", p.Share.String()+" of "+q.Total.Amount()
		case !s.Amount.IsZero():
			f.Formula, f.Working = "a fixed sum", s.Amount.Amount()
		default:
			f.Formula, f.Working = "what is left of the total", p.Amount.Amount()
		}
		if len(s.AtLeast) > 0 {
			f.Rule = "at least the subtotal of " + kindsText(s.AtLeast) + ", before discounts and tax; " + f.Rule
		}
		out = append(out, f)
	}
	if c := q.Terms.Cash; !c.Step.IsZero() {
		out = append(out, Figure{Name: "paid in cash", Value: q.Cash.Payable.String(), Formula: "total to the nearest coin",
			Working: q.Total.Amount() + " in steps of " + c.Step.Amount(), Rule: strings.TrimPrefix(c.Place+", "+c.Rounding.String(), ", "), Basis: c.Basis})
	}
	out = append(out,
		Figure{Name: "cost", Value: q.Cost.String(), Formula: "sum of the lines' cost", Working: q.plus(func(l QuoteLine) (Money, bool) { return l.Cost, true })})
	if q.Inclusive {
		out = append(out, Figure{Name: "tax within the cost", Value: q.CostTax.String(), Formula: "sum of cost × rates / (1 + rates) of the lines",
			Working: q.plus(func(l QuoteLine) (Money, bool) { return l.CostTax, true }), Rule: q.once()})
	}
	out = append(out, q.profitFigure())
	out = append(out, q.groupFigures()...)
	if a, err := q.Class.Accuracy(); err == nil {
		out = append(out,
			Figure{Name: "low end", Value: q.Low.String(), Formula: "net × (1 - low)", Working: q.Net.Amount() + " × (1 - " + a.Low.String() + ")", Rule: q.classRule(a), Basis: a.Basis},
			Figure{Name: "high end", Value: q.High.String(), Formula: "net × (1 + high)", Working: q.Net.Amount() + " × (1 + " + a.High.String() + ")", Rule: q.classRule(a), Basis: a.Basis})
	}
	return out
}

// kindsText lists kinds of lines.
func kindsText(kinds []Kind) string {
	var out []string
	for _, k := range kinds {
		out = append(out, k.String())
	}
	return strings.Join(out, ", ")
}

// groupFigures explains the groups, where there are several.
func (q Quote) groupFigures() []Figure {
	var out []Figure
	if len(q.Groups) < 2 {
		return nil
	}
	for _, g := range q.Groups {
		out = append(out,
			Figure{Name: "group " + g.Name + ": total", Value: g.Total.String(), Formula: "its shares of the lines, with tax and after discounts",
				Working: g.Net.Amount() + " + " + g.Tax.Amount() + " - " + g.Credit.Amount(), Rule: "lines that groups share are split by largest remainder; the groups add up to the total"},
			Figure{Name: "group " + g.Name + ": profit", Value: g.Profit.String(), Formula: "net - discounts after tax - cost without tax - what sells as listed",
				Working: g.Net.Amount() + " - " + g.Credit.Amount() + " - " + less(g.Cost, g.CostTax).Amount() + " - " + g.CostUnknown.Amount(),
				Rule:    "margin " + g.Margin.PercentText(1, unit.Nearest)})
	}
	return out
}

func (q Quote) profitFigure() Figure {
	f := Figure{Name: "profit", Value: q.Profit.String(), Formula: "net - cost without tax - discounts after tax",
		Working: q.Net.Amount() + " - " + less(q.Cost, q.CostTax).Amount() + " - " + q.Credit.Amount(), Rule: "margin " + q.Margin().PercentText(1, unit.Nearest)}
	if q.listed() {
		f.Formula += " - what sells as listed"
		f.Working += " - " + q.CostUnknown.Amount()
		f.Rule += "; neither cost nor profit of what sells as listed is known"
	}
	return f
}

// listed tells whether a line sells as listed.
func (q Quote) listed() bool {
	return slices.ContainsFunc(q.Lines, func(l QuoteLine) bool { return l.Sells == AsListed })
}

func (q Quote) classRule(a Accuracy) string {
	return "estimate class " + strconv.Itoa(int(a.Class)) + ", " + a.Stage
}
