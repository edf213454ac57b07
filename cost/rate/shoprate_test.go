package rate_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/unit"
)

func TestShopRateAsPrice(t *testing.T) {
	t.Parallel()
	r, err := rate.ShopRate{Wage: price[unit.Duration](t, "20.00 USD/h"), Burden: 0.5, Uplift: cost.Margin(0.25),
		Year: rate.WorkYear{Paid: 2000 * unit.Hour, Leave: 400 * unit.Hour}}.Rate(cost.HalfUp)
	require.NoError(t, err)
	require.Equal(t, "7.50 USD", r.Absence.String(), "30.00 x (2000 / 1600 - 1)")
	at, err := r.AtCostPrice()
	require.NoError(t, err)
	require.Equal(t, "37.50 USD/h", at.String())
	sold, err := r.SoldPrice()
	require.NoError(t, err)
	require.Equal(t, "50.00 USD/h", sold.String())
	labour, err := cost.Item[unit.Duration]{Kind: cost.Labour, What: "bench", Quantity: 2 * unit.Hour, Price: sold, Figures: r.Figures}.Line()
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}, line(t, labour, err))
	require.NoError(t, err)
	f, err := q.Explain("bench")
	require.NoError(t, err)
	require.Len(t, f, 7, "five of the rate, cost and amount")
	c, err := cost.Compare(q, q)
	require.NoError(t, err)
	text, err := json.Marshal(c)
	require.NoError(t, err)
	require.Contains(t, string(text), `"change":"same"`)
	text, err = json.Marshal(cost.Pieces(6))
	require.NoError(t, err)
	require.JSONEq(t, `"6 pieces"`, string(text))
}

func TestLearningModelNames(t *testing.T) {
	t.Parallel()
	for _, m := range []rate.LearningModel{rate.UnitModel, rate.CumulativeAverage} {
		text, err := m.MarshalText()
		require.NoError(t, err)
		var back rate.LearningModel
		require.NoError(t, back.UnmarshalText(text))
		require.Equal(t, m, back)
	}
	_, err := rate.LearningModel(9).MarshalText()
	require.ErrorIs(t, err, unit.ErrRequired)
}
