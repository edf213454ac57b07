package made_test

import (
	"testing"

	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

func BenchmarkCushionMake(b *testing.B) {
	c := made.Cushion{Width: 54 * unit.Inch, Depth: 20 * unit.Inch, Thickness: 4 * unit.Inch, Zip: true, Cord: unit.Inch / 8,
		Top: made.Goods{ID: "cloth", Across: 54 * unit.Inch, Directed: true}}
	for b.Loop() {
		if _, err := c.Make(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTuftingPlan(b *testing.B) {
	t := made.Tufting{Width: 60 * unit.Inch, Height: 24 * unit.Inch, Across: 10, Down: 4, Depth: 2 * unit.Inch, Rule: made.TwiceDepth}
	for b.Loop() {
		if _, err := t.Plan(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBiasStripsFor(b *testing.B) {
	s := made.BiasStrips{Width: 54 * unit.Inch, Strip: 3 * unit.Inch / 2, Seam: unit.Inch / 4, Shortest: 12 * unit.Inch}
	for b.Loop() {
		if _, err := made.BiasStripsFor(20*unit.Yard, s, unit.Inch/8); err != nil {
			b.Fatal(err)
		}
	}
}
