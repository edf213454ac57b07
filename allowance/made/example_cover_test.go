package made_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// list prints the panels of a cover by the size they are cut to.
func list(c allowance.Cover, err error) {
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range c.Panels {
		w, h := p.Outline.Size()
		if !p.Strip {
			cut, err := p.Panel.Cut()
			if err != nil {
				fmt.Println(err)
				return
			}
			w, h = cut.Width, cut.Height
		}
		fmt.Printf("%d %s of %s: %s x %s\n", p.Copies(), p.Name, p.Goods,
			w.Mixed(unit.Inch, unit.Sixteenths, unit.Up), h.Mixed(unit.Inch, unit.Sixteenths, unit.Up))
	}
	for _, r := range c.Rows {
		fmt.Println("sew", r.Of, r.Length.Mixed(unit.Inch, unit.Eighths, unit.Up), "through", r.Layers)
	}
}

var cloth = made.Goods{ID: "tweed", Longest: 54 * unit.Inch, Thickness: unit.Millimetre}

// A boxed cushion with a zip across the back and no welt.
func ExampleCushion_Cover() {
	plate, err := shape.Rectangle(22*unit.Inch, 20*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	list(made.Cushion{Outline: plate, Thickness: 4 * unit.Inch, ZipEdge: "top", Top: cloth, Bottom: cloth, Boxing: cloth}.Cover())
	// Output:
	// 1 top plate of tweed: 23 in x 21 in
	// 1 bottom plate of tweed: 23 in x 21 in
	// 1 boxing of tweed: 54 in x 5 in
	// 2 boxing of tweed: 2 in x 5 in
	// 2 zip of tweed: 30 in x 3 1/4 in
	// sew boxing 160 in through 2
}

// A round boxing on its own, joined once.
func ExampleBoxing_Cover() {
	list(made.Boxing{Perimeter: 50 * unit.Inch, Depth: 3 * unit.Inch}.Cover(cloth))
	// Output:
	// 1 boxing of tweed: 51 in x 4 in
	// sew boxing 53 in through 2
}

// Welt round a seat, cut on the straight and on the bias.
func ExampleWelt_Cover() {
	w := made.Welt{Cord: 5 * unit.Inch / 32, Runs: []unit.Length{80 * unit.Inch}}
	list(w.Cover(cloth))
	w.Bias = true
	list(w.Cover(cloth))
	// Output:
	// 1 welt strip of tweed: 54 in x 1 5/8 in
	// 1 welt strip of tweed: 29 5/8 in x 1 5/8 in
	// sew welt 82 in through 4
	// 1 welt, continuous bias of tweed: 14 5/16 in x 14 5/16 in
	// sew welt 82 in through 4
}

// The square for 82 in of strip, 1 5/8 in wide.
func ExampleWeltSquare() {
	sq, err := made.WeltSquare(82*unit.Inch, 13*unit.Inch/8)
	fmt.Println(sq.Turns, sq.Side.Mixed(unit.Inch, unit.Sixteenths, unit.Up), sq.Length, err)
	// Output: 6 14 5/16 in 117 in <nil>
}

// A gathered skirt, twice as full as its seam.
func ExampleSkirt_Cover() {
	side := 20 * unit.Inch
	list(made.Skirt{Kind: made.Gathered, Sides: []unit.Length{side, side, side, side}, Drop: 8 * unit.Inch, Fullness: 2,
		Bottom: allowance.Edge{Finish: allowance.DoubleHem}}.Cover(cloth))
	// Output:
	// 4 skirt of tweed: 41 in x 10 in
	// sew  240 in through 2
}

// A tufted panel is one piece of cloth.
func ExampleTufting_Cover() {
	list(made.Tufting{Width: 24 * unit.Inch, Height: 20 * unit.Inch, Across: 3, Down: 4, Depth: 2 * unit.Inch, Rule: made.TwiceDepth}.Cover(cloth))
	// Output:
	// 1  of tweed: 38 in x 38 in
}

// Five channels, sewn from pieces.
func ExampleChannels_Cover() {
	list(made.Channels{Width: 25 * unit.Inch, Height: 18 * unit.Inch, Count: 5, Rise: unit.Inch}.Cover(cloth, false))
	// Output:
	// 2 outer channel of tweed: 8 1/16 in x 22 in
	// 3 channel of tweed: 6 9/16 in x 22 in
	// sew  88 in through 2
}
