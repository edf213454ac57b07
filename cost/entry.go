package cost

import (
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Entry is one line of a price list. NewEntry makes one from a price of its
// quantity. Everything after the price may be left out.
type Entry struct {
	// Code names the entry, such as "CLOTH-12".
	Code string `json:"code"`
	// Kind says which lines it makes.
	Kind Kind `json:"kind"`
	// What describes it on a quote.
	What string `json:"description"`
	// Price is what a quantity costs.
	Price AnyPrice `json:"price"`
	// Uplift turns cost into price; that of its kind of line when not given.
	Uplift Uplift `json:"uplift,omitzero"`
	// TaxClass is the class that it is taxed by; that of its kind when not given.
	TaxClass TaxClass `json:"tax_class,omitempty"`
	// Step is what it is sold by, such as 0.25 yd: what is used is rounded up to
	// it. Step, Pack and Least are of the price's kind and above zero.
	Step AnyQuantity `json:"step,omitzero"`
	// Pack is what it comes in, such as a roll of 72 yd; at least a step.
	Pack AnyQuantity `json:"pack,omitzero"`
	// Least is the least that is cut or sold.
	Least AnyQuantity `json:"least,omitzero"`
	// CutCharge is paid once for what is not a whole number of packs.
	CutCharge Money `json:"cut_charge,omitzero"`
	// Freight is paid once an order.
	Freight Money `json:"freight,omitzero"`
	// Supplier is who sells it.
	Supplier string `json:"supplier,omitempty"`
	// Dated is the day of the price.
	Dated Date `json:"dated,omitzero"`
	// Sells says whether the price is marked up, or is what the customer pays; what
	// sells as listed has no uplift.
	Sells Selling `json:"sells,omitzero"`
}

// NewEntry gives an entry, checked as the readers of a price list check one:
// code, description and price are required, texts are one line of at most 160
// characters without space at the ends. Errors name the column and wrap
// unit.ErrRequired, unit.ErrRange, unit.ErrSyntax or what Per wraps; of the
// columns that may be left out also unit.ErrUnknownUnit for a quantity that the
// price is not for, unit.ErrForgottenUnit and ErrCurrency.
func NewEntry[Q Quantity](code string, kind Kind, what string, price Price[Q]) (Entry, error) {
	e := Entry{Code: code, Kind: kind, What: what, Price: price.Any()}
	if faults := e.faults(); len(faults) > 0 {
		return Entry{}, faults[0]
	}
	return e, nil
}

// faults gives what is wrong with an entry, each in the field of its column.
func (e Entry) faults() []error {
	var out []error
	put := func(column unit.Path, err error) {
		if err != nil {
			out = append(out, fieldOnly(column, err))
		}
	}
	put("code", oneLine(e.Code, true))
	put("kind", e.Kind.check())
	put("description", oneLine(e.What, true))
	if e.Price.IsZero() {
		put("price", check.Refuse("", "", unit.ErrRequired, "a value"))
	} else {
		put("price", e.Price.check())
	}
	put("uplift", e.Uplift.check())
	put("tax_class", oneLine(string(e.TaxClass), false))
	put("step", e.sold(e.Step))
	put("pack", e.sold(e.Pack))
	if e.Pack.is == e.Step.is && e.Pack.n < e.Step.n {
		put("pack", check.Refuse("", e.Pack.String(), unit.ErrRange, "at least a step, "+e.Step.String()))
	}
	put("least", e.sold(e.Least))
	put("cut_charge", e.paid(e.CutCharge))
	put("freight", e.paid(e.Freight))
	put("supplier", oneLine(e.Supplier, false))
	put("sells", e.Sells.check())
	if e.Sells == AsListed && e.Uplift != (Uplift{}) {
		put("uplift", check.Refuse("", e.Uplift.String(), unit.ErrRange, "no markup or margin on what sells as listed"))
	}
	return out
}

// sold checks a quantity of what the price is for.
func (e Entry) sold(q AnyQuantity) error {
	switch {
	case q.IsZero() || e.Price.IsZero():
		return nil
	case q.is != e.Price.per.is:
		return check.Refuse("", q.String(), unit.ErrUnknownUnit, "a quantity of what the price "+e.Price.String()+" is for")
	case q.n <= 0:
		return check.Refuse("", q.String(), unit.ErrRange, "a quantity above zero")
	}
	return q.hasUnit("")
}

// paid checks a sum that is paid beside the price.
func (e Entry) paid(m Money) error {
	if m.Sign() < 0 {
		return check.Refuse("", m.String(), unit.ErrRange, "an amount that is not negative")
	}
	if e.Price.IsZero() {
		return nil
	}
	_, err := common(e.Price.amount, m)
	return err
}

// fieldOnly gives err as one of the field, whatever part of it the error named.
func fieldOnly(field unit.Path, err error) error {
	var in *unit.InputError
	if errors.As(err, &in) {
		out := *in
		out.Field = field
		return &out
	}
	return unit.InField(field, err)
}

// oneLine checks the text of a cell.
func oneLine(s string, required bool) error {
	switch {
	case s == "" && required:
		return check.Refuse("", "", unit.ErrRequired, "a value")
	case len(s) > maxText:
		return check.Refuse("", s, unit.ErrRange, "at most 160 characters")
	case strings.TrimSpace(s) != s || !utf8.ValidString(s) || strings.ContainsFunc(s, unicode.IsControl):
		return check.Refuse("", s, unit.ErrSyntax, "one line of UTF-8 text without space at its ends")
	}
	return nil
}

// cells gives an entry as its columns.
func (e Entry) cells() []string {
	uplift, sells := "", ""
	if e.Uplift != (Uplift{}) {
		uplift = e.Uplift.String()
	}
	if e.Sells != MarkedUp {
		sells = e.Sells.String()
	}
	return []string{e.Code, e.Kind.String(), e.What, e.Price.String(), uplift, string(e.TaxClass),
		e.Step.String(), e.Pack.String(), e.Least.String(), amountText(e.CutCharge), amountText(e.Freight), e.Supplier, e.Dated.String(), sells}
}

// amountText writes an amount, and nothing for none.
func amountText(m Money) string {
	if m.IsZero() {
		return ""
	}
	return m.String()
}
