package made_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

// The window seat of the Larkfield Reading Room, 54 x 20 x 4 in, in cloth
// with 54 in of usable width; the zip runs along the back and round the corners.
func ExampleBoxing_Cut() {
	cut, err := made.Boxing{
		Perimeter: 2 * (54 + 20) * unit.Inch,
		Depth:     4 * unit.Inch,
		Longest:   54 * unit.Inch,
		Zip:       made.ZipStrip{Back: 54 * unit.Inch},
	}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range cut.Pieces {
		fmt.Println(p.Use, p.Count, "x", p.Width, "x", p.Length)
	}
	fmt.Println("joins at", cut.Joins)
	// Output:
	// boxing 1 x 5 in x 54 in
	// boxing 2 x 5 in x 18 in
	// zip 2 x 3 1/4 in x 62 in
	// joins at [30 1/2 in 47 1/2 in 100 1/2 in 117 1/2 in]
}

func ExampleWeltStrip_Width() {
	w := made.WeltStrip{Cord: 5 * unit.Inch / 32, Step: unit.Inch / 8}
	width, err := w.Width()
	fmt.Println(width, err)
	// Output:
	// 1 1/2 in <nil>
}

// Two rings of welt for a boxed cushion, cut across 54 in cloth.
func ExampleWeltRun_Cut() {
	cut, err := made.WeltRun{
		Runs:    []unit.Length{80 * unit.Inch, 80 * unit.Inch},
		Width:   3 * unit.Inch / 2,
		Longest: 54 * unit.Inch,
	}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("cord", cut.Welt, "joins", cut.Joins)
	for _, s := range cut.Strips {
		fmt.Println(s.Count, "x", s.Length)
	}
	// Output:
	// cord 164 in joins 3
	// 3 x 54 in
	// 1 x 6 1/2 in
}

// A cotton patch cut 2 1/2 in larger than the hole, edges folded 1/2 in.
func ExamplePatchLap() {
	lap, err := made.PatchLap(5*unit.Inch/2, unit.Inch/2)
	fmt.Println(lap, err)
	// Output:
	// 3/4 in <nil>
}

func ExampleWeltWidthByGirth() {
	w, err := made.WeltWidthByGirth(unit.Inch/2, unit.Inch/2)
	fmt.Println(w, err)
	// Output:
	// 1 1/2 in <nil>
}
