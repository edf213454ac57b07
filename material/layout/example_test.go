package layout_test

import (
	"context"
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
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

// A welted box cushion and its welt, from finished size to pieces on the roll.
func ExampleBoxesOf() {
	cushion, err := made.BoxedCushion{Width: 22 * unit.Inch, Depth: 20 * unit.Inch, Thickness: 4 * unit.Inch, Welted: true, Longest: 54 * unit.Inch}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	welt, err := made.WeltRun{Runs: cushion.Welt, Width: 3 * unit.Inch / 2, Longest: 54 * unit.Inch}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	pieces := append(layout.BoxesOf(cushion, 1), layout.BoxesOf(welt, 1)...)
	for _, p := range pieces {
		fmt.Println(p.Count, p.Name, p.Width, "x", p.Length)
	}
	plan, err := layout.Boxes(context.Background(), material.Roll{Width: 54 * unit.Inch}, pieces, layout.BoxOptions{Effort: 0.01})
	fmt.Println(plan.Need, plan.Proved, err)
	// Output:
	// 2 plate 23 in x 21 in
	// 1 boxing 54 in x 5 in
	// 1 boxing 32 in x 5 in
	// 3 welt 54 in x 1 1/2 in
	// 1 welt 14 1/2 in x 1 1/2 in
	// 35 1/2 in true <nil>
}

// Four seats and two ties.
func ExampleBoxOf() {
	seat, err := allowance.RectPanel{Name: "seat", Width: 22 * unit.Inch, Height: 20 * unit.Inch}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	pieces := []layout.Box{layout.BoxOf(seat, 4)}
	pieces = append(pieces, layout.BoxesOfStrips(made.Strip{Use: "tie", Count: 2, Width: 2 * unit.Inch, Length: 24 * unit.Inch})...)
	for _, p := range pieces {
		fmt.Println(p.Count, p.Name, p.Width, "x", p.Length, p.Turn)
	}
	// Output:
	// 4 seat 23 in x 21 in keep the grain
	// 2 tie 24 in x 2 in railroad
}
