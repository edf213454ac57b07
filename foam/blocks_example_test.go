package foam_test

import (
	"fmt"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

func boardFeet(s foam.Shape) {
	v, err := s.Volume()
	fmt.Println(v.Decimal(unit.BoardFoot, 2, unit.Nearest), err)
}

func ExampleBlock_Volume() {
	boardFeet(foam.Block{Length: 24 * unit.Inch, Width: 24 * unit.Inch, Thickness: 4 * unit.Inch})
	// Output: 16.00 bd ft <nil>
}

func ExampleWedge_Volume() {
	boardFeet(foam.Wedge{Length: 24 * unit.Inch, Width: 20 * unit.Inch, Front: 4 * unit.Inch, Rear: 2 * unit.Inch})
	// Output: 10.00 bd ft <nil>
}

func ExampleCylinder_Volume() {
	boardFeet(foam.Cylinder{Diameter: 8 * unit.Inch, Length: 24 * unit.Inch})
	// Output: 8.38 bd ft <nil>
}

func ExampleRounded_Volume() {
	boardFeet(foam.Rounded{
		Block:  foam.Block{Length: 20 * unit.Inch, Width: 20 * unit.Inch, Thickness: 2 * unit.Inch},
		Radius: 4 * unit.Inch, Corners: 4,
	})
	// Output: 5.36 bd ft <nil>
}

// The seat of a wing chair, reaching round its arms.
func ExampleTee_Volume() {
	boardFeet(foam.Tee{Width: 30 * unit.Inch, Stem: 22 * unit.Inch, Depth: 24 * unit.Inch, Ear: 5 * unit.Inch, Thickness: 5 * unit.Inch})
	// Output: 19.72 bd ft <nil>
}

func ExampleSupplyOf() {
	s, err := foam.SupplyOf(foam.Tee{Width: 30 * unit.Inch, Stem: 22 * unit.Inch, Depth: 24 * unit.Inch, Ear: 5 * unit.Inch, Thickness: 5 * unit.Inch},
		1.8*unit.PoundPerCubicFoot)
	fmt.Println("buy", s.Bought.Decimal(unit.BoardFoot, 1, unit.Nearest), "waste", s.Waste.PercentText(0, unit.Nearest),
		"weighs", s.Mass.Decimal(unit.Pound, 2, unit.Nearest), err)
	// Output: buy 25.0 bd ft waste 21 % weighs 2.96 lb <nil>
}

func ExampleOversizes() {
	for _, o := range foam.Oversizes() {
		fmt.Println(o.Name, "-", o.Face, "and", o.Thickness)
	}
	// Output:
	// full seam allowance - 1 in and 1 in
	// an inch each way - 1 in and 0 in
	// half an inch each way - 1/2 in and 0 in
	// a quarter inch each way - 1/4 in and 0 in
	// none - 0 in and 0 in
}
