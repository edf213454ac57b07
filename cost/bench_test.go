package cost_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

func BenchmarkNewQuote(b *testing.B) {
	lines := wingChair(b)
	terms := cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Tax: cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: 6.25 * unit.Percent}}},
		Stages: []cost.Stage{{Name: "deposit", Share: 0.5}, {Name: "balance"}}}
	for b.Loop() {
		_, err := cost.NewQuote(terms, lines...)
		require.NoError(b, err)
	}
}

func BenchmarkAllocate(b *testing.B) {
	whole := money(b, "1533.05 USD")
	r := rand.New(rand.NewPCG(1, 1))
	weights := make([]int, 100)
	for i := range weights {
		weights[i] = 1 + r.IntN(1000)
	}
	for b.Loop() {
		_, err := cost.Allocate(whole, weights)
		require.NoError(b, err)
	}
}

func BenchmarkReadPriceListCSV(b *testing.B) {
	b.SetBytes(int64(len(listCSV)))
	for b.Loop() {
		readCSV(b, listCSV)
	}
}
