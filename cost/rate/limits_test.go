package rate_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/unit"
)

// Each range ends where its comment says: the last value is taken, the next is not.
func TestRangesEndWhereTheySay(t *testing.T) {
	t.Parallel()
	dollar := money(t, "1.00 USD")
	pace := func(x unit.Ratio) error { _, err := rate.StandardTime(unit.Hour, x, 0, rate.OfWork); return err }
	rest := func(x unit.Ratio) error { _, err := rate.StandardTime(unit.Hour, 1, x, rate.OfShift); return err }
	burden := func(x unit.Ratio) error {
		_, err := rate.ShopRate{Wage: price[unit.Duration](t, "20.00 USD/h"), Burden: x}.Rate(cost.HalfUp)
		return err
	}
	step := func(x unit.Ratio) error {
		_, err := rate.AddUp(dollar, cost.HalfUp, rate.Addition{Rate: x})
		return err
	}
	learned := func(x unit.Ratio) error {
		_, err := rate.Learning{Model: rate.UnitModel, Rate: x}.Exponent()
		return err
	}
	pieces := func(x unit.Ratio) error {
		_, err := rate.Learning{Model: rate.CumulativeAverage, Rate: 0.9}.Factor(int(x))
		return err
	}
	paid := func(x unit.Ratio) error {
		_, err := rate.WorkYear{Paid: unit.Duration(x) * unit.Hour}.Productive()
		return err
	}
	for _, c := range []struct {
		what         string
		of           func(unit.Ratio) error
		least, under unit.Ratio
		most, beyond unit.Ratio
	}{
		{"pace", pace, 0.25, 0.249, 2, 2.001},
		{"allowance", rest, 0, -0.001, 0.99, 0.991},
		{"burden", burden, 0, -0.001, 3, 3.001},
		{"rate of a step", step, 0, -0.001, 10, 10.001},
		{"learning", learned, 0.5, 0.499, 1, 1.001},
		{"pieces", pieces, 0, -1, 100_000, 100_001},
		{"paid", paid, 1, 0, 1_000_000, 1_000_001},
	} {
		assert.NoError(t, c.of(c.least), c.what)
		assert.NoError(t, c.of(c.most), c.what)
		assert.ErrorIs(t, c.of(c.under), unit.ErrRange, c.what)
		assert.ErrorIs(t, c.of(c.beyond), unit.ErrRange, c.what)
	}
}
