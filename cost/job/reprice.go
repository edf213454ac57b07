package job

import (
	"encoding/json"
	"errors"
	"io"
	"reflect"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Repricing is an order beside a saved one of the same job, such as a quote of spring
// on the price list of autumn: each line that differs, and what the totals come to.
type Repricing struct {
	Name   string         `json:"name"`
	Saved  cost.Date      `json:"saved,omitzero"`  // the day of the saved quote
	Issued cost.Date      `json:"issued,omitzero"` // the day of the new one
	Lines  []RepricedLine `json:"lines"`           // that differ, those of the saved quote first
	Same   int            `json:"same"`            // lines that do not
	// Sums are subtotal, discount, tax and total.
	Sums []cost.CompareRow `json:"sums"`
}

// RepricedLine is a line of a quote, as it was and as it is. What a quote has no line
// for is empty, and an amount of nothing.
type RepricedLine struct {
	ID          string      `json:"id"`
	Change      cost.Change `json:"change"`
	Quantity    string      `json:"quantity,omitempty"`
	NewQuantity string      `json:"new_quantity,omitempty"`
	Price       string      `json:"price,omitempty"`
	NewPrice    string      `json:"new_price,omitempty"`
	Amount      cost.Money  `json:"amount"`
	NewAmount   cost.Money  `json:"new_amount"`
	Difference  cost.Money  `json:"difference"` // NewAmount - Amount
}

// Reprice sets an order beside a saved one of the same job. A line differs whose
// quantity, price, markup or amount does; lines are matched as [cost.Compare] does. It
// wraps ErrMisplaced for an order of another job and cost.ErrCurrency for one in other
// money.
func Reprice(saved, order WorkOrder) (Repricing, error) {
	if saved.Name != order.Name || saved.Number != "" && order.Number != "" && saved.Number != order.Number {
		return Repricing{}, check.Refuse("name", saved.Name+" "+saved.Number, ErrMisplaced, "an order of the same job, "+order.Name+" "+order.Number)
	}
	both, err := cost.Compare(saved.Quote, order.Quote)
	if err != nil {
		return Repricing{}, unit.InField("quote", err)
	}
	out := Repricing{Name: order.Name, Saved: saved.Quote.Issued, Issued: order.Quote.Issued, Sums: both.Sums}
	for _, r := range both.Lines {
		was, _ := saved.Quote.Line(r.ID)
		is, _ := order.Quote.Line(r.ID)
		if r.Change == cost.Same && r.A == r.B {
			out.Same++
			continue
		}
		if r.Change == cost.Same {
			r.Change = cost.Changed // more of it at less
		}
		out.Lines = append(out.Lines, RepricedLine{ID: r.ID, Change: r.Change, Quantity: was.Quantity, NewQuantity: is.Quantity, Price: soldAt(was), NewPrice: soldAt(is),
			Amount: r.AmountA, NewAmount: r.AmountB, Difference: r.Difference})
	}
	return out, nil
}

// soldAt writes what a line is charged at: price, what is paid once, markup.
func soldAt(l cost.QuoteLine) string {
	out := l.Price
	if !l.Exact.Fixed.IsZero() {
		out += " and " + l.Exact.Fixed.String()
	}
	if l.Uplift != (cost.Uplift{}) {
		out += ", " + l.Uplift.String()
	}
	return out
}

// mostOrder is more than the order of the largest job takes, drawings and all.
const mostOrder = 64 << 20

// ReadOrder reads a work order from JSON as it is written. It wraps unit.ErrSyntax,
// unit.ErrUnknown for another schema, unit.ErrRange for more than 64 MiB, and what the
// reader of a value wraps. Texts are checked as those of a job are.
func ReadOrder(r io.Reader) (WorkOrder, error) {
	text, err := io.ReadAll(io.LimitReader(r, mostOrder+1))
	if err != nil {
		return WorkOrder{}, err
	}
	if len(text) > mostOrder {
		return WorkOrder{}, check.Refuse("order", "", unit.ErrRange, "at most 64 MiB")
	}
	var head struct {
		Schema string `json:"schema"`
	}
	if err := json.Unmarshal(text, &head); err != nil {
		return WorkOrder{}, unreadable(err)
	}
	if head.Schema != OrderSchema {
		return WorkOrder{}, check.OneOf("schema", head.Schema, OrderSchema)
	}
	var o WorkOrder
	if err := json.Unmarshal(text, &o); err != nil {
		return WorkOrder{}, unreadable(err)
	}
	var f faults
	walkTexts(reflect.ValueOf(o), "", &f)
	if len(f) > 0 {
		return WorkOrder{}, f.err()
	}
	return o, nil
}

// unreadable says that an order is not one.
func unreadable(err error) error {
	var in *unit.InputError
	if errors.As(err, &in) {
		return err
	}
	return check.Refuse("order", "", unit.ErrSyntax, "a work order in JSON: "+err.Error())
}
