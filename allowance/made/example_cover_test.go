package made_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

// list prints the pieces of a cover by the size they are cut to, and what is sewn.
func list(c allowance.Cover, err error) {
	if err != nil {
		fmt.Println(err)
		return
	}
	limits, _ := allowance.FirmWoven.Limits()
	w, err := c.Work(map[string]allowance.SewnGoods{"tweed": {Ease: limits}, "lining": {Ease: limits}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range w.Pieces {
		cut, err := p.Panel.Cut()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s of %s: %s x %s\n", p.Name, p.Goods, cut.Width.Mixed(unit.Inch, unit.Sixteenths, unit.Up), cut.Height.Mixed(unit.Inch, unit.Sixteenths, unit.Up))
	}
	for _, z := range w.Zips {
		fmt.Println("zip opens", z.Opening, "tape", z.Tape)
	}
	fmt.Println("sew", w.Stitched().Mixed(unit.Inch, unit.Eighths, unit.Up))
}

var tweed = made.Goods{ID: "tweed", Across: 54 * unit.Inch, Directed: true, Thickness: unit.Millimetre}

// A boxed cushion with a zip across the back and no welt.
func ExampleCushion_Make() {
	p, err := made.Cushion{Width: 22 * unit.Inch, Depth: 20 * unit.Inch, Thickness: 4 * unit.Inch, Zip: true, Top: tweed}.Make()
	list(p.Cover, err)
	fmt.Println("core", p.Core.Width, "x", p.Core.Depth, "x", p.Core.Thickness)
	for _, j := range p.Boxing.Joins {
		fmt.Println("joined", j)
	}
	// Output:
	// top plate of tweed: 23 in x 21 in
	// bottom plate of tweed: 23 in x 21 in
	// boxing of tweed: 54 in x 5 in
	// zip panel upper of tweed: 32 in x 3 1/4 in
	// zip panel lower of tweed: 32 in x 3 1/4 in
	// zip opens 31 in tape 32 in
	// sew 242 in
	// core 22 1/2 in x 20 1/2 in x 4 in
	// joined 4 1/2 in past the corner of back and left
	// joined 4 1/2 in before the corner of right and back
}

// An ottoman whose boxing is joined at a back corner.
func ExampleOttoman_Make() {
	p, err := made.Ottoman{Width: 14 * unit.Inch, Depth: 12 * unit.Inch, Height: 8 * unit.Inch, Top: tweed}.Make()
	list(p.Cover, err)
	fmt.Println("joined", p.Boxing.Joins)
	// Output:
	// top of tweed: 15 in x 13 in
	// boxing of tweed: 53 in x 10 3/4 in
	// sew 62 3/4 in
	// joined [at the corner of back and left]
}

// A drop-in seat with 2 in of foam on a frame of 3/4 in.
func ExampleDropInSeat_Make() {
	p, err := made.DropInSeat{Front: 20 * unit.Inch, Back: 17 * unit.Inch, Depth: 16 * unit.Inch, Foam: 2 * unit.Inch, Frame: 3 * unit.Inch / 4, Top: tweed}.Make()
	list(p.Cover, err)
	fmt.Println("pull", p.Cover.Fastenings[0].Over, "+", p.Cover.Fastenings[0].Hold)
	// Output:
	// seat of tweed: 28 1/4 in x 23 1/2 in
	// sew 0 in
	// pull 2 3/4 in + 1 in
}

// How much larger the core is cut.
func ExampleCushionFit_TakeUp() {
	for _, f := range []made.CushionFit{made.SnugFit, made.FirmFit, made.WrappedFit} {
		k, basis := f.TakeUp()
		fmt.Println(f, k, basis.Status)
	}
	// Output:
	// snug fit 1/2 in common practice
	// firm fit 1/4 in common practice
	// wrapped fit 0 in common practice
}

// A round boxing on its own, joined once.
func ExampleBoxing_Cover() {
	list(made.Boxing{Perimeter: 50 * unit.Inch, Depth: 3 * unit.Inch}.Cover(tweed))
	// Output:
	// boxing of tweed: 51 in x 4 in
	// sew 54 in
}

// The strips of a boxing, equal ones together.
func ExampleBoxingCut_Strips() {
	c, err := made.Boxing{Perimeter: 50 * unit.Inch, Depth: 3 * unit.Inch, Zip: true, ZipLength: 20 * unit.Inch}.Cut(tweed)
	fmt.Println(c.Strips(), err)
	// Output:
	// [{boxing 1 4 in 31 in} {zip panel 2 2 3/4 in 21 in}] <nil>
}

// Welt round a seat, cut on the straight and on the bias.
func ExampleWelt_Cover() {
	w := made.Welt{Cord: 5 * unit.Inch / 32, Runs: []unit.Length{80 * unit.Inch}}
	for range 2 {
		c, err := w.Cover(tweed)
		if err != nil {
			fmt.Println(err)
			return
		}
		for _, p := range c.Panels {
			long, wide := p.Outline.Size()
			fmt.Println(p.Copies(), p.Name, long.Mixed(unit.Inch, unit.Sixteenths, unit.Up), "x", wide.Mixed(unit.Inch, unit.Sixteenths, unit.Up))
		}
		w.Bias = true
	}
	// Output:
	// 1 welt strip 54 in x 1 5/8 in
	// 1 welt strip 29 5/8 in x 1 5/8 in
	// 1 welt, continuous bias 14 5/16 in x 14 5/16 in
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
		Bottom: allowance.Edge{Finish: allowance.DoubleHem}}.Cover(tweed))
	// Output:
	// skirt 1 of tweed: 41 in x 10 in
	// skirt 2 of tweed: 41 in x 10 in
	// skirt 3 of tweed: 41 in x 10 in
	// skirt 4 of tweed: 41 in x 10 in
	// sew 560 in
}

// A tufted panel in cloth too narrow for it is joined along its diamonds.
func ExampleTufting_Cover() {
	list(made.Tufting{Width: 48 * unit.Inch, Height: 20 * unit.Inch, Across: 6, Down: 4, Depth: 2 * unit.Inch, Rule: made.TwiceDepth}.Cover(tweed))
	// Output:
	// tufted panel 1 of tweed: 45 3/16 in x 38 in
	// tufted panel 2 of tweed: 37 7/8 in x 38 in
	// sew 62 in
}

// Five channels, sewn from pieces.
func ExampleChannels_Cover() {
	list(made.Channels{Width: 25 * unit.Inch, Height: 18 * unit.Inch, Count: 5, Rise: unit.Inch}.Cover(tweed))
	// Output:
	// first channel of tweed: 8 1/16 in x 22 in
	// channel 1 of tweed: 6 9/16 in x 22 in
	// channel 2 of tweed: 6 9/16 in x 22 in
	// channel 3 of tweed: 6 9/16 in x 22 in
	// last channel of tweed: 8 1/16 in x 22 in
	// sew 88 in
}

// A filling that stands 1 1/2 in above the boxing in the middle: the sides of
// both plates are bowed, so that the plate is as long over it as it has to be.
func ExampleCushion_Make_rise() {
	c := made.Cushion{Width: 22 * unit.Inch, Depth: 22 * unit.Inch, Thickness: 4 * unit.Inch, Top: tweed}
	for _, c.Rise = range []unit.Length{0, 3 * unit.Inch / 2} {
		p, err := c.Make()
		if err != nil {
			fmt.Println(err)
			return
		}
		width, _ := p.Cover.Panels[0].Outline.Size()
		fmt.Println("plate", width.Decimal(unit.Inch, 3, unit.Nearest), "at its widest")
	}
	// Output:
	// plate 22.000 in at its widest
	// plate 22.272 in at its widest
}
