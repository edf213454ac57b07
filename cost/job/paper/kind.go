package paper

import (
	"strconv"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// Kind is one of the papers: [Estimate], [Quotation], [WorkOrder] or [Invoice]. The
// zero value is none; [Of] then takes that of [Usual].
type Kind uint8

const (
	// Estimate is a price that may come out otherwise, with its range.
	Estimate Kind = iota + 1
	// Quotation is one price.
	Quotation
	// WorkOrder is a quotation to sign before the work.
	WorkOrder
	// Invoice is what is owed after it, with what was changed and received.
	Invoice
)

var kindNames = []string{"", "estimate", "quotation", "work order", "invoice"}

// String gives the name, such as "work order"; "none" for the zero value.
func (k Kind) String() string {
	if k == 0 {
		return "none"
	}
	return enum.Name(k, "paper", kindNames)
}

// MarshalText writes the name, nothing for the zero value; an unknown one wraps
// unit.ErrUnknown.
func (k Kind) MarshalText() ([]byte, error) { return enum.Text(k, "paper", kindNames) }

// UnmarshalText reads what MarshalText writes.
func (k *Kind) UnmarshalText(text []byte) error { return enum.Read(k, text, "paper", kindNames) }

// guess is the class of a job that nobody has seen.
const guess = 5

// Usual gives the paper that says of an order what is known: an estimate where it has
// a class or pieces that nobody has measured, else a quotation.
func Usual(o job.WorkOrder) Kind {
	if o.Quote.Class != 0 || len(o.Rough) > 0 {
		return Estimate
	}
	return Quotation
}

// suits refuses a paper that would say what is not so.
func (k Kind) suits(o job.WorkOrder) error {
	if err := enum.Check(k, "paper", kindNames); err != nil {
		return err
	}
	switch {
	case k != Estimate && len(o.Rough) > 0:
		return check.Refuse("paper", k.String(), unit.ErrRange, "an estimate: nobody has measured the "+o.Rough[0].Piece)
	case k != Estimate && o.Quote.Class == guess:
		return check.Refuse("paper", k.String(), unit.ErrRange, "an estimate: the quote is of class "+strconv.Itoa(guess)+", a guess")
	case k == Estimate && o.Quote.Class == 0:
		return check.Required("quote.class", "a class from 1 to 5, which gives the range of an estimate")
	case k == Invoice && o.Invoice == nil:
		return check.Required("invoice.issued", "the day of the invoice, and its number")
	}
	return nil
}
