package wrap_test

import (
	"fmt"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/foam/wrap"
	"github.com/coverwright/coverwright/unit"
)

func ExampleCutFor() {
	w, err := wrap.CutFor(foam.Block{Length: 20 * unit.Inch, Width: 22 * unit.Inch, Thickness: 4 * unit.Inch},
		wrap.Rule{Batting: wrap.Battings()[2], Layers: 1, Overlap: unit.Inch})
	fmt.Println("cut", w.Length, "x", w.Around, "=", w.Area.Decimal(unit.SquareFoot, 1, unit.Up), "crown", w.Crown, err)
	// Output: cut 25 in x 49 in = 8.6 sq ft crown 1 in <nil>
}

func ExampleCrownPiece() {
	b, err := wrap.CrownPiece(foam.Block{Length: 24 * unit.Inch, Width: 21 * unit.Inch, Thickness: 4 * unit.Inch})
	fmt.Println(b.Length, "x", b.Width, "x", b.Thickness, err)
	// Output: 16 in x 14 in x 1/2 in <nil>
}

func ExampleCutRound() {
	w, err := wrap.CutRound(foam.Cylinder{Length: 20 * unit.Inch, Diameter: 6 * unit.Inch},
		wrap.Rule{Batting: wrap.Battings()[0], Layers: 1, Overlap: unit.Inch})
	fmt.Println("cut", w.Length, "x", w.Around.Mixed(unit.Inch, unit.Eighths, unit.Up), err)
	// Output: cut 27 in x 19 7/8 in <nil>
}
