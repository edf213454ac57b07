package foam_test

import (
	"context"
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

func ExampleSheetThickness() {
	for _, boxing := range []unit.Length{17 * unit.Inch / 4, 35 * unit.Inch / 8} {
		t, err := foam.SheetThickness(boxing)
		fmt.Println(boxing, "boxing takes", t, "foam", err)
	}
	// Output:
	// 4 1/4 in boxing takes 4 in foam <nil>
	// 4 3/8 in boxing takes 5 in foam <nil>
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

func ExampleWrapBlock() {
	w, err := foam.WrapBlock(foam.Block{Length: 20 * unit.Inch, Width: 22 * unit.Inch, Thickness: 4 * unit.Inch},
		foam.Wrap{Batting: foam.Battings()[2], Layers: 1, Overlap: unit.Inch})
	fmt.Println("cut", w.Length, "x", w.Around, "=", w.Area.Decimal(unit.SquareFoot, 1, unit.Up), "crown", w.Crown, err)
	// Output: cut 25 in x 49 in = 8.6 sq ft crown 1 in <nil>
}

func ExampleCrownPiece() {
	b, err := foam.CrownPiece(foam.Block{Length: 24 * unit.Inch, Width: 21 * unit.Inch, Thickness: 4 * unit.Inch})
	fmt.Println(b.Length, "x", b.Width, "x", b.Thickness, err)
	// Output: 16 in x 14 in x 1/2 in <nil>
}

// Two wing-chair seats 5 in thick and a window seat longer than any sheet.
func ExamplePlanSheets() {
	plan, err := foam.PlanSheets(context.Background(), []foam.Piece{
		{Name: "wing chair", Block: foam.Block{Length: 25 * unit.Inch, Width: 22 * unit.Inch, Thickness: 5 * unit.Inch}, Count: 2},
		{Name: "window seat", Block: foam.Block{Length: 90 * unit.Inch, Width: 18 * unit.Inch, Thickness: 3 * unit.Inch}, Count: 1},
	}, foam.SheetRules{
		Stock: []foam.Sheet{
			{Name: "3 in", Length: 80 * unit.Inch, Width: 36 * unit.Inch, Thickness: 3 * unit.Inch},
			{Name: "2 in", Length: 80 * unit.Inch, Width: 24 * unit.Inch, Thickness: 2 * unit.Inch},
		},
		Kerf: unit.Inch / 8, MostPlies: 2, MostJoins: 1,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, o := range plan.Orders {
		fmt.Printf("%d of %s, at least %d:\n", o.Count, o.Sheet.Name, o.Bound)
		for _, p := range o.Parts {
			fmt.Printf("  %s %d ply %d part %d: %v x %v at %v, %v\n", p.Piece, p.Number, p.Ply, p.Part, p.Length, p.Width, p.Place.X, p.Place.Y)
		}
	}
	fmt.Println(plan.Bought.Decimal(unit.BoardFoot, 1, unit.Nearest), "bought,", plan.Waste.PercentText(0, unit.Nearest), "waste,", plan.Glued, "glued faces")
	fmt.Println(plan.Cautions[0].Hazard, plan.Kind)
	// Output:
	// 1 of 2 in, at least 1:
	//   wing chair 1 ply 2 part 1: 25 in x 22 in at 0 in, 0 in
	//   wing chair 2 ply 2 part 1: 25 in x 22 in at 25 1/8 in, 0 in
	// 2 of 3 in, at least 2:
	//   wing chair 1 ply 1 part 1: 25 in x 22 in at 45 1/8 in, 0 in
	//   wing chair 2 ply 1 part 1: 25 in x 22 in at 45 1/8 in, 0 in
	//   window seat 1 ply 1 part 1: 45 in x 18 in at 0 in, 0 in
	//   window seat 1 ply 1 part 2: 45 in x 18 in at 0 in, 0 in
	// 146.7 bd ft bought, 51 % waste, 3 glued faces
	// adhesive layout
}
