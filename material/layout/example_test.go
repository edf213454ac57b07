package layout_test

import (
	"context"
	"fmt"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// Six drop-in seats of 27 in square on cloth 54 in wide: two a row, three rows.
func ExampleRows() {
	roll := material.Roll{Width: 54 * unit.Inch, Increment: unit.Yard / 4}
	plan, err := layout.Rows(roll, []layout.Box{
		{Name: "seat", Width: 27 * unit.Inch, Length: 27 * unit.Inch, Count: 6},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("needs", plan.Need, "bound", plan.Bound)
	fmt.Println("buy", plan.Order.Mixed(unit.Yard, unit.Quarters, unit.Up))
	// Output:
	// needs 81 in bound 81 in
	// buy 2 1/4 yd
}

// Pieces of a chair on cloth with a 27 in repeat, motifs centred on the backs.
func ExampleBoxes() {
	roll := material.Roll{Width: 54 * unit.Inch, Selvage: unit.Inch / 2, Repeat: 27 * unit.Inch, Nap: true, Increment: unit.Yard / 4}
	plan, err := layout.Boxes(context.Background(), roll, []layout.Box{
		{Name: "inside back", Width: 26 * unit.Inch, Length: 30 * unit.Inch, Count: 2, MotifY: 15 * unit.Inch},
		{Name: "arm", Width: 26 * unit.Inch, Length: 22 * unit.Inch, Count: 4},
		{Name: "welt", Width: 53 * unit.Inch, Length: 3 * unit.Inch / 2, Count: 3, Unmatched: true},
	}, layout.BoxOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("need", plan.Need, "proved shortest:", plan.Proved)
	fmt.Println("buy", plan.Order.Mixed(unit.Yard, unit.Quarters, unit.Up), plan.Kind)
	// Output:
	// need 96 in proved shortest: true
	// buy 2 3/4 yd layout
}

// A back of 80 in is too wide for 54 in goods: it must be railroaded.
func ExampleCompareRailroad() {
	c, err := layout.CompareRailroad(context.Background(), material.Roll{Width: 54 * unit.Inch},
		[]layout.Box{{Name: "sofa back", Width: 80 * unit.Inch, Length: 30 * unit.Inch, Count: 1}}, layout.BoxOptions{})
	fmt.Println(c.UpTheRoll == nil, c.Railroad.Need, err)
	// Output:
	// true 80 in <nil>
}
