package job

import (
	"encoding/json"
	"errors"
	"io"
	"reflect"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Against sets an order beside a saved one of the same job, such as a quote of spring
// on the price list of autumn: each line that is the same, changed, added or dropped,
// with quantity, price and amount as they were and are, and the totals. It wraps
// ErrMisplaced for an order of another job and cost.ErrCurrency for one in other money.
func (o WorkOrder) Against(saved WorkOrder) (cost.Comparison, error) {
	if saved.Name != o.Name || saved.Number != "" && o.Number != "" && saved.Number != o.Number {
		return cost.Comparison{}, check.Refuse("name", strings.TrimSpace(saved.Name+" "+saved.Number), ErrMisplaced, "an order of the same job, "+strings.TrimSpace(o.Name+" "+o.Number))
	}
	c, err := cost.Compare(saved.Quote, o.Quote)
	return c, unit.InField("quote", err)
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
		Schema Schema `json:"schema"`
	}
	if err := json.Unmarshal(text, &head); err != nil {
		return WorkOrder{}, unreadable(err)
	}
	if err := head.Schema.is(OrderSchema); err != nil {
		return WorkOrder{}, unit.InField("schema", err)
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
