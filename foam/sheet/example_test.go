package sheet_test

import (
	"context"
	"fmt"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/foam/sheet"
	"github.com/coverwright/coverwright/unit"
)

func ExampleThicknessFor() {
	for _, boxing := range []unit.Length{17 * unit.Inch / 4, 35 * unit.Inch / 8} {
		t, err := sheet.ThicknessFor(boxing)
		fmt.Println(boxing, "boxing takes", t, "foam", err)
	}
	// Output:
	// 4 1/4 in boxing takes 4 in foam <nil>
	// 4 3/8 in boxing takes 5 in foam <nil>
}

// Two wing-chair seats 5 in thick and a window seat longer than any sheet.
func ExampleLay() {
	plan, err := sheet.Lay(context.Background(), []sheet.Part{
		{Name: "wing chair", Block: foam.Block{Length: 25 * unit.Inch, Width: 22 * unit.Inch, Thickness: 5 * unit.Inch}, Count: 2},
		{Name: "window seat", Block: foam.Block{Length: 90 * unit.Inch, Width: 18 * unit.Inch, Thickness: 3 * unit.Inch}, Count: 1},
	}, sheet.Rules{
		Stock: []sheet.Stock{
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
		fmt.Printf("%d of %s, at least %d:\n", o.Count, o.Stock.Name, o.Bound)
		for _, p := range o.Cuts {
			fmt.Printf("  %s %d ply %d share %d: %v x %v at %v, %v\n", p.Part, p.Number, p.Ply, p.Share, p.Length, p.Width, p.Place.X, p.Place.Y)
		}
	}
	fmt.Println(plan.Bought.Decimal(unit.BoardFoot, 1, unit.Nearest), "bought,", plan.Waste.PercentText(0, unit.Nearest), "waste,", plan.Glued, "glued faces")
	fmt.Println(plan.Cautions[0].About, plan.Kind)
	// Output:
	// 1 of 2 in, at least 1:
	//   wing chair 1 ply 2 share 1: 25 in x 22 in at 0 in, 0 in
	//   wing chair 2 ply 2 share 1: 25 in x 22 in at 25 1/8 in, 0 in
	// 2 of 3 in, at least 2:
	//   wing chair 1 ply 1 share 1: 25 in x 22 in at 45 1/8 in, 0 in
	//   wing chair 2 ply 1 share 1: 25 in x 22 in at 45 1/8 in, 0 in
	//   window seat 1 ply 1 share 1: 45 in x 18 in at 0 in, 0 in
	//   window seat 1 ply 1 share 2: 45 in x 18 in at 0 in, 0 in
	// 146.7 bd ft bought, 51 % waste, 3 glued faces
	// glue layout
}

// Sheet sizes often stocked, here 3 in thick.
func ExampleCommon() {
	for _, s := range sheet.Common(3 * unit.Inch)[:3] {
		fmt.Println(s.Name, "-", s.Length, "x", s.Width, "x", s.Thickness)
	}
	// Output:
	// 24 x 80 in - 80 in x 24 in x 3 in
	// 24 x 72 in - 72 in x 24 in x 3 in
	// 24 x 108 in - 108 in x 24 in x 3 in
}
