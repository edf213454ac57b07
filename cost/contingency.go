package cost

import (
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// EstimateClass says how much is known when a price is named, from 5 (a
// photograph) to 1 (stripped to the frame, all material in hand). The zero
// value is no class.
type EstimateClass uint8

// Accuracy is what an estimate class promises: the job may come out from
// Low below the estimate to High above it. The range says how uncertain the
// figure is; contingency is money added to it. They are not the same thing.
type Accuracy struct {
	Class EstimateClass `json:"class"`
	// Stage says what is known in an upholstery job at this class.
	Stage string     `json:"stage"`
	Low   unit.Ratio `json:"low"`
	High  unit.Ratio `json:"high"`
	// Contingency is the share that moves the estimate to the middle of its
	// range, (High - Low) / 2.
	Contingency unit.Ratio `json:"contingency"`
	Basis       cite.Basis `json:"basis,omitzero"`
}

// classes are the five classes of cost estimates that engineers use, with the
// widest limits of each. They were made for building projects; what stage of
// an upholstery job answers to which class is a proposal.
var classes = [...]Accuracy{
	{1, "stripped, all material in hand", 10 * unit.Percent, 15 * unit.Percent, 2.5 * unit.Percent, practice},
	{2, "stripped to the frame", 15 * unit.Percent, 20 * unit.Percent, 2.5 * unit.Percent, practice},
	{3, "inspected, cover chosen", 20 * unit.Percent, 30 * unit.Percent, 5 * unit.Percent, practice},
	{4, "a photograph and the main sizes", 30 * unit.Percent, 50 * unit.Percent, 10 * unit.Percent, practice},
	{5, "a telephone call", 50 * unit.Percent, 100 * unit.Percent, 25 * unit.Percent, practice},
}

var practice = cite.Basis{Status: cite.CommonPractice}

// Accuracies gives the five classes, 1 to 5.
func Accuracies() []Accuracy { return append([]Accuracy(nil), classes[:]...) }

// Accuracy gives what the class promises. It wraps unit.ErrRange for anything
// but 1 to 5.
func (c EstimateClass) Accuracy() (Accuracy, error) {
	if c < 1 || int(c) > len(classes) {
		return Accuracy{}, check.Refuse("class", strconv.Itoa(int(c)), unit.ErrRange, "from 1 to 5")
	}
	return classes[c-1], nil
}

// Range gives what an estimate of this class may come out at: from
// estimate × (1 - Low) to estimate × (1 + High). Errors are those of Accuracy
// and Money.Scale.
func (c EstimateClass) Range(estimate Money, mode Rounding) (low, high Money, err error) {
	a, err := c.Accuracy()
	if err != nil {
		return Money{}, Money{}, err
	}
	if low, err = estimate.Scale(1-a.Low, mode); err != nil {
		return Money{}, Money{}, err
	}
	high, err = estimate.Scale(1+a.High, mode)
	return low, high, err
}

// addContingency puts contingency into the quote as a line of its own.
func (q *Quote) addContingency() error {
	t := q.Terms
	if t.Class != 0 {
		if _, err := t.Class.Accuracy(); err != nil {
			return err
		}
	}
	if t.Contingency == 0 {
		return nil
	}
	if err := check.Ratio("contingency", t.Contingency, 0, 1); err != nil {
		return err
	}
	base, err := q.sum(func(l QuoteLine) Money { return l.Amount })
	if err != nil {
		return err
	}
	amount, err := base.Scale(t.Contingency, q.Rounding)
	if err != nil {
		return err
	}
	q.Lines = append(q.Lines, QuoteLine{
		ID: Contingency.String(), Source: Contingency.String(), Kind: Contingency, What: Contingency.String(), TaxClass: Contingency.TaxClass(),
		Quantity: t.Contingency.String() + " of " + base.String(), Cost: amount, Amount: amount,
	})
	return nil
}
