package account

import (
	"strings"
	"unicode/utf8"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Account is what was agreed and paid of a job beside its quote. The zero value is
// nothing.
type Account struct {
	Revision *Revision `json:"revision,omitzero"`  // of the quote; none when not given
	Changes  []Change  `json:"changes,omitempty"`  // agreed after the price was
	Received []Receipt `json:"received,omitempty"` // payments
	Invoice  *Invoice  `json:"invoice,omitzero"`   // none when not given
}

// Revision says which version of a quote this is.
type Revision struct {
	Letter string    `json:"letter" required:"true" hint:"a letter or a number, such as \"B\""`
	On     cost.Date `json:"on,omitzero"`  // the day it was made
	Why    string    `json:"why,omitzero"` // in words for the customer
}

// Change is work that was agreed after the price was, or work left out.
type Change struct {
	What string `json:"what" required:"true" hint:"what is done more, or left out"`
	// Amount is before tax, or with it where prices include tax; below zero it is taken
	// off. Nothing is added to it but tax: no contingency, and no least charge.
	Amount cost.Money `json:"amount" required:"true" hint:"an amount such as \"85.00 USD\""`
	// Kind says how it is taxed: as lines of the quote of that kind.
	Kind cost.Kind `json:"kind" required:"true" hint:"a kind of line, such as labour"`
	// TaxClass of labour is fabrication labour, or repair and application labour; that of
	// the kind when not given.
	TaxClass cost.TaxClass `json:"tax_class,omitzero"`
	Agreed   cost.Date     `json:"agreed" required:"true" hint:"the day on which it was agreed"`
	Piece    string        `json:"piece,omitzero"` // of furniture; the whole job when not given
}

// Receipt is a payment that was received.
type Receipt struct {
	What   string     `json:"what" required:"true" hint:"a name of the payment, such as deposit"`
	Amount cost.Money `json:"amount" required:"true" hint:"an amount such as \"500.00 USD\""`
	On     cost.Date  `json:"on" required:"true" hint:"the day on which it came"`
	How    string     `json:"how,omitzero"` // the way it was paid, such as by card
}

// Invoice is how an invoice is headed.
type Invoice struct {
	Number string    `json:"number" required:"true" hint:"its number, as the shop counts"`
	Issued cost.Date `json:"issued" required:"true" hint:"the day of the invoice"`
	Due    cost.Date `json:"due,omitzero"` // the day by which it is to be paid
}

const (
	mostEntries = 1000
	mostName    = 120 // characters
)

// Faults lists everything that is wrong with an account in some currency. Each error
// names its field, such as changes[0].amount, and wraps unit.ErrRequired,
// unit.ErrRange, unit.ErrUnknown, cost.ErrFraction or cost.ErrCurrency.
func Faults(a Account, c cost.Currency) []error {
	var f faults
	if r := a.Revision; r != nil {
		f.add("revision.letter", name(r.Letter))
	}
	f.add("changes", check.Count("", len(a.Changes), 0, mostEntries))
	for i, x := range a.Changes[:min(len(a.Changes), mostEntries)] {
		at := unit.Path("changes").At(i)
		f.add(at.Dot("what"), name(x.What))
		f.add(at.Dot("amount"), amount(x.Amount, c))
		f.add(at.Dot("kind"), x.checkKind())
		f.add(at.Dot("tax_class"), x.checkClass())
		f.add(at.Dot("agreed"), day(x.Agreed))
		if v := a.Invoice; v != nil && !v.Issued.IsZero() && x.Agreed.Compare(v.Issued) > 0 {
			f.add(at.Dot("agreed"), check.Refuse("", x.Agreed.String(), unit.ErrRange, "a day no later than that of the invoice, "+v.Issued.String()))
		}
	}
	f.add("received", check.Count("", len(a.Received), 0, mostEntries))
	for i, x := range a.Received[:min(len(a.Received), mostEntries)] {
		at := unit.Path("received").At(i)
		f.add(at.Dot("what"), name(x.What))
		f.add(at.Dot("amount"), amount(x.Amount, c))
		f.add(at.Dot("on"), day(x.On))
	}
	if v := a.Invoice; v != nil {
		f.add("invoice.number", name(v.Number))
		f.add("invoice.issued", day(v.Issued))
		if !v.Due.IsZero() && v.Due.Compare(v.Issued) < 0 {
			f.add("invoice.due", check.Refuse("", v.Due.String(), unit.ErrRange, "a day no earlier than that of the invoice"))
		}
	}
	return f
}

type faults []error

func (f *faults) add(at unit.Path, err error) {
	if err != nil {
		*f = append(*f, unit.InField(at, err))
	}
}

func name(s string) error {
	if strings.TrimSpace(s) == "" {
		return check.Required("", "a name")
	}
	if utf8.RuneCountInString(s) > mostName {
		return check.Refuse("", s, unit.ErrRange, "at most 120 characters")
	}
	return nil
}

func day(d cost.Date) error {
	if d.IsZero() {
		return check.Required("", "a day such as 2027-03-15")
	}
	return nil
}

// amount accepts money of the currency in whole minor units.
func amount(m cost.Money, c cost.Currency) error {
	if m.Currency() == "" {
		return check.Required("", "an amount")
	}
	if m.Currency() != c {
		return &unit.InputError{Value: m.String(), Err: cost.ErrCurrency, Want: "an amount in " + string(c)}
	}
	if _, err := m.Minor(); err != nil {
		return check.Refuse("", m.String(), cost.ErrFraction, "an amount in whole minor units")
	}
	return nil
}

func (x Change) checkKind() error {
	if x.Kind == 0 {
		return check.Required("", "a kind of line, such as labour")
	}
	if x.Kind > cost.OwnMaterial {
		return check.Refuse("", x.Kind.String(), unit.ErrRange, "a kind of line that is not worked out of others")
	}
	return nil
}

func (x Change) checkClass() error {
	switch {
	case x.TaxClass == "":
		return nil
	case x.Kind != cost.Labour:
		return check.Refuse("", string(x.TaxClass), unit.ErrRange, "none, but for labour")
	case x.TaxClass != bench.Fabrication && x.TaxClass != bench.Application:
		return check.OneOf("", string(x.TaxClass), string(bench.Fabrication), string(bench.Application))
	}
	return nil
}

// Class gives the class by which a change is taxed.
func (x Change) Class() cost.TaxClass {
	if x.TaxClass != "" {
		return x.TaxClass
	}
	return x.Kind.TaxClass()
}
