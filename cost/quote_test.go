package cost_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

func money(t testing.TB, s string) cost.Money {
	t.Helper()
	m, err := cost.ParseMoney(s)
	require.NoError(t, err)
	return m
}

func price[Q cost.Quantity](t testing.TB, s string) cost.Price[Q] {
	t.Helper()
	p, err := cost.ParsePrice[Q](s)
	require.NoError(t, err)
	return p
}

func line(t testing.TB, l cost.Line, err error) cost.Line {
	t.Helper()
	require.NoError(t, err)
	return l
}

// wingChair is a worked quote: cloth, foam and findings at 25 % markup, labour
// at a shop rate, delivery.
func wingChair(t testing.TB) []cost.Line {
	t.Helper()
	up := cost.Markup(25 * unit.Percent)
	cloth, err := cost.Item[unit.Length]{Kind: cost.Goods, What: "cover cloth", Quantity: 7*unit.Yard + unit.Yard/4,
		Net: 6 * unit.Yard, Price: price[unit.Length](t, "42.00 USD/yd"), Uplift: up}.Line()
	require.NoError(t, err)
	foam, err := cost.Item[cost.Pieces]{Kind: cost.Foam, What: "foam and filling", Quantity: 1,
		Price: price[cost.Pieces](t, "86.40 USD/piece"), Uplift: up}.Line()
	require.NoError(t, err)
	findings, err := cost.Item[cost.Pieces]{Kind: cost.Sundries, What: "findings", Quantity: 1,
		Price: price[cost.Pieces](t, "18.75 USD/piece"), Uplift: up}.Line()
	require.NoError(t, err)
	labour, err := cost.Item[unit.Duration]{Kind: cost.Labour, What: "bench work", Quantity: 14*unit.Hour + 30*unit.Minute,
		Price: price[unit.Duration](t, "64.55 USD/h")}.Line()
	require.NoError(t, err)
	van, err := cost.LumpSum(cost.Delivery, "collection and delivery", money(t, "85.00 USD"))
	return []cost.Line{cloth, foam, findings, labour, line(t, van, err)}
}

func TestQuoteWorked(t *testing.T) {
	t.Parallel()
	lines := wingChair(t)
	for _, tc := range []struct {
		name       string
		on         []cost.TaxClass
		tax, total string
	}{
		{"materials only", []cost.TaxClass{"goods", "foam", "thread and sundries"}, "32.00 USD", "1565.05 USD"},
		{"the whole charge", nil, "95.82 USD", "1628.87 USD"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp,
				Tax: cost.Tax{Levies: []cost.Levy{{Name: "sales tax", Rate: 6.25 * unit.Percent, On: tc.on}}}}, lines...)
			require.NoError(t, err)
			var got []string
			for _, l := range q.Lines {
				got = append(got, l.Amount.String())
			}
			require.Equal(t, []string{"380.63 USD", "108.00 USD", "23.44 USD", "935.98 USD", "85.00 USD"}, got)
			require.Equal(t, "1533.05 USD", q.Subtotal.String())
			require.Equal(t, tc.tax, q.Tax.String())
			require.Equal(t, tc.total, q.Total.String())
			require.Equal(t, "1.25 yd", q.Lines[0].Waste)
			require.Equal(t, "52.50 USD", q.Lines[0].WasteCost.String())
			_, err = json.Marshal(q)
			require.NoError(t, err)
		})
	}
}
