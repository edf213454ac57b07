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
	// Output:
}

func ExampleWedge_Volume() {
	boardFeet(foam.Wedge{Length: 24 * unit.Inch, Width: 20 * unit.Inch, Front: 4 * unit.Inch, Rear: 2 * unit.Inch})
	// Output:
}

func ExampleCylinder_Volume() {
	boardFeet(foam.Cylinder{Diameter: 8 * unit.Inch, Length: 24 * unit.Inch})
	// Output:
}

func ExampleRounded_Volume() {
	boardFeet(foam.Rounded{
		Block:  foam.Block{Length: 20 * unit.Inch, Width: 20 * unit.Inch, Thickness: 2 * unit.Inch},
		Radius: 4 * unit.Inch, Corners: 4,
	})
	// Output:
}

// The seat of a wing chair, reaching round its arms.
func ExampleTee_Volume() {
	boardFeet(foam.Tee{Width: 30 * unit.Inch, Stem: 22 * unit.Inch, Depth: 24 * unit.Inch, Ear: 5 * unit.Inch, Thickness: 5 * unit.Inch})
	// Output:
}

func ExampleSupplyOf() {
	s, err := foam.SupplyOf(foam.Tee{Width: 30 * unit.Inch, Stem: 22 * unit.Inch, Depth: 24 * unit.Inch, Ear: 5 * unit.Inch, Thickness: 5 * unit.Inch},
		1.8*unit.PoundPerCubicFoot)
	fmt.Println("buy", s.Bought.Decimal(unit.BoardFoot, 1, unit.Nearest), "waste", s.Waste.PercentText(0, unit.Nearest),
		"weighs", s.Mass.Decimal(unit.Pound, 2, unit.Nearest), err)
	// Output:
}

func ExampleSheetThickness() {
	for _, boxing := range []unit.Length{17 * unit.Inch / 4, 35 * unit.Inch / 8} {
		t, err := foam.SheetThickness(boxing)
		fmt.Println(boxing, "boxing takes", t, "foam", err)
	}
	// Output:
}

func ExampleOversizes() {
	for _, o := range foam.Oversizes() {
		fmt.Println(o.Name, "-", o.Face, "and", o.Thickness)
	}
	// Output:
}

func ExampleWrapBlock() {
	w, err := foam.WrapBlock(foam.Block{Length: 20 * unit.Inch, Width: 22 * unit.Inch, Thickness: 4 * unit.Inch},
		foam.Wrap{Batting: foam.Battings()[2], Layers: 1, Overlap: unit.Inch})
	fmt.Println("cut", w.Length, "x", w.Around, "=", w.Area.Decimal(unit.SquareFoot, 1, unit.Up), "crown", w.Crown, err)
	// Output:
}

func ExampleCrownPiece() {
	b, err := foam.CrownPiece(foam.Block{Length: 24 * unit.Inch, Width: 21 * unit.Inch, Thickness: 4 * unit.Inch})
	fmt.Println(b.Length, "x", b.Width, "x", b.Thickness, err)
	// Output:
}

// Two wing-chair seats 5 in thick and a window seat longer than any sheet.
func ExamplePlanSheets() {
	plan, err := foam.PlanSheets([]foam.Piece{
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
		fmt.Printf("%d sheet of %s, at least %d:\n", o.Count, o.Sheet.Name, o.Bound)
		for _, p := range o.Parts {
			fmt.Printf("  %s %d ply %d part %d: %v x %v at %v, %v\n", p.Piece, p.Number, p.Ply, p.Part, p.Length, p.Width, p.Place.X, p.Place.Y)
		}
	}
	fmt.Println(plan.Bought.Decimal(unit.BoardFoot, 1, unit.Nearest), "bought,", plan.Waste.PercentText(0, unit.Nearest), "waste,", plan.Glued, "glued faces")
	fmt.Println(plan.Cautions[0].Hazard, plan.Kind)
	// Output:
}
