package rate_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
)

// TestEveryTypeIsJSON holds every exported struct type of the package to JSON:
// empty and with values that real calls made or take.
func TestEveryTypeIsJSON(t *testing.T) {
	t.Parallel()
	usd := func(s string) cost.Money { return money(t, s+" USD") }
	shop := rate.ShopRate{Wage: price[unit.Duration](t, "20.00 USD/h"), Burden: 0.305, Year: rate.WorkYear{Paid: 2080 * unit.Hour, Leave: 80 * unit.Hour},
		Overhead: usd("30000"), Hours: 3000 * unit.Hour, Uplift: cost.Margin(0.25)}
	hour, err := shop.Rate(cost.HalfUp)
	require.NoError(t, err)
	even := rate.BreakEven[unit.Duration]{Fixed: usd("1000"), Price: price[unit.Duration](t, "64.55 USD/h"), Variable: price[unit.Duration](t, "20 USD/h"), Step: unit.Hour, Profit: usd("10")}
	solved, err := even.Solve(cost.HalfUp)
	require.NoError(t, err)
	steps := []rate.Addition{{Name: "overhead", Rate: 0.1}, {Name: "van", Amount: usd("5")}}
	running, err := rate.AddUp(usd("100"), cost.HalfUp, steps...)
	require.NoError(t, err)

	faults, err := roundtrip.Faults(os.DirFS("."), []any{
		shop, shop.Year, hour, even, solved, steps[0], steps[1], running[0], running[2],
		rate.MachineHour{Purchase: usd("900"), Residual: usd("0"), Life: 3000 * unit.Hour, Yearly: usd("90"), HoursAYear: 500 * unit.Hour},
		rate.OverheadItem{Name: "rent", Amount: usd("1000"), Direct: true},
		rate.OverheadBudget[cost.Pieces]{Fixed: usd("1"), Variable: price[cost.Pieces](t, "2 USD/piece"), Base: 3},
		rate.JobCost{Material: usd("1"), Labour: usd("2"), Overhead: usd("3")},
		rate.Learning{Model: rate.CumulativeAverage, Rate: 0.9}, rate.Repeats{Step: 0.05, Most: 0.2},
	})
	require.NoError(t, err)
	require.Empty(t, faults)
}

func TestAllowanceBaseNames(t *testing.T) {
	t.Parallel()
	for _, b := range []rate.AllowanceBase{0, rate.OfWork, rate.OfShift} {
		text, err := b.MarshalText()
		require.NoError(t, err)
		back := rate.AllowanceBase(7)
		require.NoError(t, back.UnmarshalText(text))
		require.Equal(t, b, back)
	}
	_, err := rate.AllowanceBase(3).MarshalText()
	require.ErrorIs(t, err, unit.ErrRequired)
	var b rate.AllowanceBase
	require.ErrorIs(t, b.UnmarshalText([]byte("of time")), unit.ErrUnknown)
	require.Equal(t, "no base", b.String())
}
