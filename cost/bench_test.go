package cost_test

import (
	"math/rand/v2"
	"testing"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

var benchTerms = cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Tax: cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: 6.25 * unit.Percent}}},
	Stages: []cost.Stage{{Name: "deposit", Share: 0.5}, {Name: "balance"}}}

func hundredWeights() []int {
	r := rand.New(rand.NewPCG(1, 1))
	weights := make([]int, 100)
	for i := range weights {
		weights[i] = 1 + r.IntN(1000)
	}
	return weights
}

func BenchmarkPriceOf(b *testing.B) {
	b.ReportAllocs()
	p := price[unit.Length](b, "42.00 USD/yd")
	for b.Loop() {
		if _, err := p.Of(7*unit.Yard+unit.Yard/4, cost.HalfUp); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkParsePrice(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := cost.ParsePrice[unit.Length]("42.00 USD/yd"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkNewQuote(b *testing.B) {
	b.ReportAllocs()
	lines := wingChair(b)
	for b.Loop() {
		if _, err := cost.NewQuote(benchTerms, lines...); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAllocate(b *testing.B) {
	b.ReportAllocs()
	whole := money(b, "1533.05 USD")
	weights := hundredWeights()
	for b.Loop() {
		if _, err := cost.Allocate(whole, weights); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadPriceListCSV(b *testing.B) {
	b.ReportAllocs()
	b.SetBytes(int64(len(listCSV)))
	for b.Loop() {
		readCSV(b, listCSV)
	}
}
