package cost_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// Prices that contain a tax of 20 %: 10 hours at 36.00 bring 300.00 without it and
// cost as much; goods for 120.00 cost 100.00 and, marked up by a half, bring 150.00.
// The same prices without the tax leave the same.
func TestTaxWithinTheCostIsNoCost(t *testing.T) {
	quote := func(hour, goods string, inclusive bool) cost.Quote {
		sewing, err := cost.Item[unit.Duration]{Kind: cost.Labour, What: "sewing", Quantity: 10 * unit.Hour, Price: price[unit.Duration](t, hour),
			Shares: []cost.Share{{Group: "chair", Weight: 1}}}.Line()
		require.NoError(t, err)
		cloth, err := cost.Item[unit.Length]{Kind: cost.Goods, What: "cloth", Quantity: 10 * unit.Metre, Price: price[unit.Length](t, goods), Uplift: cost.Markup(50 * unit.Percent),
			Shares: []cost.Share{{Group: "chair", Weight: 1}, {Group: "stool", Weight: 2}}}.Line()
		require.NoError(t, err)
		q, err := cost.NewQuote(cost.Terms{Currency: "GBP", Tax: cost.Tax{Inclusive: inclusive,
			Levies: []cost.Levy{{Name: "VAT", Rate: 20 * unit.Percent, On: []cost.TaxClass{"labour", "goods"}}}}}, sewing, cloth)
		require.NoError(t, err)
		return q
	}
	q := quote("36.00 GBP/h", "12.00 GBP/m", true)
	require.Equal(t, "540.00 GBP", q.Total.String())
	require.Equal(t, "450.00 GBP", q.Net.String())
	require.Equal(t, "480.00 GBP", q.Cost.String())
	require.Equal(t, "80.00 GBP", q.CostTax.String())
	require.Equal(t, "50.00 GBP", q.Profit.String())
	require.Equal(t, []string{"16.67 GBP", "33.33 GBP"}, []string{q.Groups[0].Profit.String(), q.Groups[1].Profit.String()})

	bare := quote("30.00 GBP/h", "10.00 GBP/m", false)
	require.Equal(t, q.Profit, bare.Profit)
	require.Equal(t, q.Margin(), bare.Margin())
	require.True(t, bare.CostTax.IsZero())
}
