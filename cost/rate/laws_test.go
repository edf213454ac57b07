package rate_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/unit"
)

func drawMinor(t *rapid.T, c cost.Currency, lo, hi int64) cost.Money {
	m, err := cost.MinorUnits(rapid.Int64Range(lo, hi).Draw(t, "minor"), c)
	require.NoError(t, err)
	return m
}

func minor(t require.TestingT, m cost.Money) int64 {
	n, err := m.Minor()
	require.NoError(t, err)
	return n
}

// Learning: at 100 % nothing is learnt; more pieces take more time in total
// but less each; lots add up; the unit model never undercuts the
// cumulative-average one at the same rate.
func TestLawLearning(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		share := unit.Ratio(rapid.IntRange(50, 100).Draw(t, "rate")) / 100
		n := rapid.IntRange(1, 60).Draw(t, "n")
		k := rapid.IntRange(0, n).Draw(t, "k")
		first := unit.Minute * unit.Duration(rapid.IntRange(1, 6000).Draw(t, "first"))
		var totals []unit.Duration
		for _, model := range []rate.LearningModel{rate.UnitModel, rate.CumulativeAverage} {
			l := rate.Learning{Model: model, Rate: share}
			total, err := l.Total(first, n)
			require.NoError(t, err)
			totals = append(totals, total)
			before, err := l.Total(first, k)
			require.NoError(t, err)
			lot, err := l.Lot(first, k, n)
			require.NoError(t, err)
			require.InDelta(t, float64(total), float64(before+lot), 1)
			one, err := l.Unit(first, n)
			require.NoError(t, err)
			require.LessOrEqual(t, one, first)
			average, err := l.Average(first, n)
			require.NoError(t, err)
			require.InDelta(t, float64(total), float64(average)*float64(n), float64(n))
			if share == 1 {
				require.Equal(t, unit.Duration(n)*first, total)
			}
			double, err := l.UnitFactor(2 * n)
			require.NoError(t, err)
			single, err := l.UnitFactor(n)
			require.NoError(t, err)
			if model == rate.UnitModel {
				require.InDelta(t, float64(share*single), float64(double), 1e-12)
			}
			if model == rate.CumulativeAverage && n >= 2 {
				back, err := rate.LearningRate(first, average, n)
				if err == nil {
					require.InDelta(t, float64(share), float64(back), 2e-3)
				}
			}
		}
		require.GreaterOrEqual(t, totals[0]+1, totals[1])
	})
}

// At the break-even the contribution covers what is fixed, and one step less
// does not.
func TestLawBreakEven(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		variable := drawMinor(t, cost.USD, 0, 50_000)
		price, err := variable.Plus(drawMinor(t, cost.USD, 1, 50_000))
		require.NoError(t, err)
		fixed := drawMinor(t, cost.USD, 0, 10_000_000)
		pp, err := cost.Per(price, cost.Pieces(1))
		require.NoError(t, err)
		pv, err := cost.Per(variable, cost.Pieces(1))
		require.NoError(t, err)
		r, err := rate.BreakEven[cost.Pieces]{Fixed: fixed, Price: pp, Variable: pv, Step: 1}.Solve(cost.HalfUp)
		require.NoError(t, err)
		earned := int64(r.Quantity) * minor(t, r.Contribution)
		require.GreaterOrEqual(t, earned, minor(t, fixed))
		if r.Quantity > 0 {
			require.Less(t, earned-minor(t, r.Contribution), minor(t, fixed))
		}
		require.Equal(t, r.Quantity, r.Target)
	})
}
