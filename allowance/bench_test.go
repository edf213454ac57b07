package allowance_test

import (
	"testing"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

func BenchmarkBoxedCushionCut(b *testing.B) {
	c := allowance.BoxedCushion{Width: 54 * unit.Inch, Depth: 20 * unit.Inch, Thickness: 4 * unit.Inch, Longest: 54 * unit.Inch, Zip: true, Welted: true}
	for b.Loop() {
		if _, err := c.Cut(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTuftingPlan(b *testing.B) {
	t := allowance.Tufting{Width: 60 * unit.Inch, Height: 24 * unit.Inch, Across: 10, Down: 4, Depth: 2 * unit.Inch, Rule: allowance.TwiceDepth}
	for b.Loop() {
		if _, err := t.Plan(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBiasStripsFor(b *testing.B) {
	s := allowance.BiasStrips{Width: 54 * unit.Inch, Strip: 3 * unit.Inch / 2, Seam: unit.Inch / 4, Shortest: 12 * unit.Inch}
	for b.Loop() {
		if _, err := allowance.BiasStripsFor(20*unit.Yard, s, unit.Inch/8); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSeamMarks(b *testing.B) {
	limits, _ := allowance.ClothLimits()
	m, err := allowance.MatchSeam(82*unit.Inch, 80*unit.Inch, limits)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := m.Marks(4 * unit.Inch); err != nil {
			b.Fatal(err)
		}
	}
}
