package paper

import (
	"github.com/coverwright/coverwright/cost"
)

// Range is what an estimate may come out at, with tax.
type Range struct {
	Low  cost.Money `json:"low"`
	High cost.Money `json:"high"`
}

// rangeOf gives the range of a total by the class of its quote, with low and high of
// the class:
//
//	Low  = total × (1 - low),  rounded down
//	High = total × (1 + high), rounded up
//
// to a step of one in the second figure of the total, such as 100 of 4 812.55, and
// never less than one of the currency. Rounding goes outwards, so that the paper never
// promises more than the class does.
func rangeOf(q cost.Quote, total cost.Money) (*Range, error) {
	if total.Sign() < 0 {
		return &Range{total, total}, nil
	}
	a, err := q.Class.Accuracy()
	if err != nil {
		return nil, err
	}
	step, err := cost.NewMoney("1", total.Currency())
	if err != nil {
		return nil, err
	}
	for {
		more, err := step.Times(100)
		if err != nil {
			return nil, err
		}
		if n, err := more.Cmp(total); err != nil || n > 0 {
			break
		}
		if step, err = step.Times(10); err != nil {
			return nil, err
		}
	}
	var r Range
	if r.Low, err = total.Scale(1-a.Low, cost.Floor); err == nil {
		r.Low, err = r.Low.RoundTo(step, cost.Floor)
	}
	if err == nil {
		r.High, err = total.Scale(1+a.High, cost.Ceiling)
	}
	if err == nil {
		r.High, err = r.High.RoundTo(step, cost.Ceiling)
	}
	return &r, err
}
