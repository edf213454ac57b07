//go:build !race

package cost_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// TestAllocations holds the calls that a screen repeats to their allocations;
// the race detector adds its own, so it is not asked. A line may allocate less:
// then lower its number.
func TestAllocations(t *testing.T) {
	yard := price[unit.Length](t, "42.00 USD/yd")
	m := money(t, "12.35 USD")
	lines := wingChair(t)
	weights := hundredWeights()
	whole := money(t, "1533.05 USD")
	entries := readCSV(t, listCSV)
	for _, r := range []struct {
		name string
		want int
		do   func() error
	}{
		{"Price.Of", 0, func() error { _, err := yard.Of(7*unit.Yard+unit.Yard/4, cost.HalfUp); return err }},
		{"ParseMoney", 0, func() error { _, err := cost.ParseMoney("1250.50 USD"); return err }},
		{"ParsePrice", 0, func() error { _, err := cost.ParsePrice[unit.Length]("42.00 USD/yd"); return err }},
		{"Money.Plus", 0, func() error { _, err := m.Plus(whole); return err }},
		{"Money.Scale", 0, func() error { _, err := m.Scale(7.5*unit.Percent, cost.HalfUp); return err }},
		{"Money.String", 1, func() error { _ = m.String(); return nil }},
		{"Price.String", 1, func() error { _ = yard.String(); return nil }},
		{"Allocate, 100 weights", 5, func() error { _, err := cost.Allocate(whole, weights); return err }},
		{"NewQuote, 5 lines", 36, func() error { _, err := cost.NewQuote(benchTerms, lines...); return err }},
		{"Find", 0, func() error { _, err := cost.Find[unit.Length](entries, "CLOTH-12"); return err }},
	} {
		require.NoError(t, r.do(), r.name)
		got := testing.AllocsPerRun(100, func() { _ = r.do() })
		require.LessOrEqual(t, int(got), r.want, r.name)
		t.Log(r.name, got)
	}
}
