package made_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

// The window seat of the Larkfield Reading Room, 54 x 20 x 4 in, in cloth
// with 54 in of usable width: first one with a nap, whose strips lie across, then
// a plain one.
func ExampleBoxing_Cut() {
	const in = unit.Inch
	seat := made.Boxing{
		Perimeter: 2 * (54 + 20) * in, Depth: 4 * in, Zip: true,
		Corners: []made.RingCorner{{Name: "back and left", At: 27 * in}, {Name: "left and front", At: 47 * in}, {Name: "front and right", At: 101 * in}, {Name: "right and back", At: 121 * in}},
	}
	for _, nap := range []bool{true, false} {
		cut, err := seat.Cut(made.Goods{Across: 54 * in, Directed: nap})
		if err != nil {
			fmt.Println(err)
			return
		}
		for _, s := range cut.Strips() {
			fmt.Println(s.Use, s.Count, "x", s.Width, "x", s.Length)
		}
		fmt.Println("zip", cut.Opening, "tape", cut.Tape)
		for _, j := range cut.Joins {
			fmt.Println(" joined", j)
		}
	}
	// Output:
	// boxing 2 x 5 in x 45 in
	// zip panel 4 x 3 1/4 in x 31 in
	// zip 60 in tape 61 in
	//  joined 3 in past the corner of back and left
	//  joined 27 in past the corner of left and front, in the front
	//  joined 3 in before the corner of right and back
	// boxing 1 x 5 in x 89 in
	// zip panel 2 x 3 1/4 in x 61 in
	// zip 60 in tape 61 in
	//  joined 3 in past the corner of back and left
	//  joined 3 in before the corner of right and back
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
