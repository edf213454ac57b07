package findings_test

import (
	"fmt"

	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/unit"
)

// Webbing sold by the quarter yard off rolls of 72 yd.
func ExampleBuying_Steps() {
	b := findings.Buying[unit.Length]{Waste: 0.05, Step: unit.Yard / 4, Pack: 72 * unit.Yard}
	s, err := b.Steps(129*unit.Inch, 0)
	fmt.Println(s.Net, "->", s.Gross.Decimal(unit.Inch, 2, unit.Up), "->", s.Use.Decimal(unit.Yard, 2, unit.Up), "->", s.Packs, "roll", err)
	// Output: 129 in -> 135.45 in -> 4.00 yd -> 1 roll <nil>
}

func ExampleLengths() {
	for _, f := range findings.Lengths() {
		if f.Of == "coil springs" && f.Usual != 0 {
			fmt.Println(f.What+":", f.Usual, "-", f.Basis.Status)
		}
	}
	// Output:
	// margin from the outer edge: 3 in - published
	// top coil: 5 in - published
	// gap between top coils: 2 in - common practice
	// stitching twine a spring: 24 in - common practice
	// margin inside the rails, club chair: 2 in - common practice
}

func ExampleWasteOf() {
	fmt.Println(findings.WasteOf("felt"))
	_, err := findings.WasteOf("thread")
	fmt.Println(err != nil)
	// Output:
	// 10 % <nil>
	// true
}

func ExampleWebbing_Plan() {
	p, err := findings.Webbing{Width: 22 * unit.Inch, Depth: 20 * unit.Inch}.Plan()
	fmt.Println(p.FrontToBack, "x", p.SideToSide, p.Total.Mixed(unit.Yard, unit.Eighths, unit.Up), p.Fasteners, "staples", err)
	// Output: 5 x 5 7 1/2 yd 180 staples <nil>
}

func ExampleElastic_Plan() {
	p, err := findings.Elastic{Across: 21 * unit.Inch, Span: 22 * unit.Inch, Strip: 2 * unit.Inch}.Plan()
	fmt.Println(p.Strips, "strips of", p.Cut, "marked at", p.Relaxed, err)
	// Output: 5 strips of 23 in marked at 20 in <nil>
}

func ExampleZigzag_Plan() {
	p, err := findings.Zigzag{Width: 24 * unit.Inch, Depth: 22 * unit.Inch}.Plan()
	fmt.Println(p.Springs, "of", p.Arc.Mixed(unit.Inch, unit.Eighths, unit.Up), "with", p.Clips, "clips and", p.TieWire, "of wire", err)
	// Output: 5 of 22 3/8 in with 10 clips and 64 in of wire <nil>
}

func ExampleCoils_Plan() {
	p, err := findings.Coils{Width: 24 * unit.Inch, Depth: 18 * unit.Inch, Rail: 3 * unit.Inch}.Plan()
	fmt.Println(p.Across, "x", p.Deep, "springs", p.Height, "high,", p.Strands, "strands,", p.Twine.Decimal(unit.Yard, 1, unit.Up), "of twine", err)
	// Output: 3 x 2 springs 6 in high, 13 strands, 13.6 yd of twine <nil>
}

// Webbing under a row of coils three inches from the edge.
func ExampleCoils_StripAt() {
	fmt.Println(findings.Coils{Width: 24 * unit.Inch, Depth: 18 * unit.Inch}.StripAt(7 * unit.Inch / 2))
	// Output: 3 3/4 in <nil>
}

// Burlap over coils that stand two inches above the rails.
func ExampleSheet_Cut() {
	c, err := findings.Sheet{Width: 24 * unit.Inch, Depth: 22 * unit.Inch, Rail: unit.Inch, Rise: 2 * unit.Inch}.Cut()
	fmt.Println(c.Width, "x", c.Depth, c.Basis.Status, err)
	// Output: 32 in x 30 in common practice <nil>
}

func ExampleCloth_Plan() {
	p, err := findings.Cloth{Roll: 40 * unit.Inch, Pieces: []findings.ClothPiece{
		{Width: 32 * unit.Inch, Length: 30 * unit.Inch}, {Width: 26 * unit.Inch, Length: 24 * unit.Inch}, {Width: 16 * unit.Inch, Length: 24 * unit.Inch, Count: 2},
	}}.Plan()
	fmt.Println(p.Rows, "rows,", p.Length, err)
	// Output: 3 rows, 78 in <nil>
}

func ExampleBurlapWeight() {
	ten, _ := unit.OuncesOf(10)
	w, err := findings.BurlapWeight(ten, 40*unit.Inch)
	fmt.Println(w.Decimal(unit.OuncePerSquareYard, 2, unit.Nearest), err)
	// Output: 9.00 oz/yd2 <nil>
}

func ExampleBurlaps() {
	for _, b := range findings.Burlaps() {
		if b.Use == "over springs" {
			fmt.Printf("%.0f oz a yard\n", b.Yard.Ounces())
		}
	}
	// Output:
	// 10 oz a yard
	// 12 oz a yard
}

func ExampleRunning_Order() {
	roll := findings.Running{Runs: []unit.Length{26 * unit.Inch, 30 * unit.Inch, 30 * unit.Inch}}
	s, err := roll.Order(findings.Buying[unit.Length]{Waste: 0.05, Step: unit.Foot})
	fmt.Println(s.Gross.Decimal(unit.Inch, 1, unit.Up), "of edge roll, bought as", s.Use.Decimal(unit.Foot, 0, unit.Up), err)
	// Output: 90.3 in of edge roll, bought as 8 ft <nil>
}

func ExampleTackStrip_Sticks() {
	fmt.Println(findings.TackStrip{Runs: []unit.Length{26 * unit.Inch, 26 * unit.Inch}, Stick: 24 * unit.Inch}.Sticks())
	// Output: 4 <nil>
}

func ExampleCord() {
	s, err := findings.Cord([]unit.Length{92 * unit.Inch, 92 * unit.Inch}, false).Order(findings.Buying[unit.Length]{Waste: 0.05, Step: unit.Yard / 4})
	fmt.Println(s.Net, "+", s.Ends, "->", s.Use.Decimal(unit.Yard, 2, unit.Up), err)
	// Output: 184 in + 4 in -> 5.50 yd <nil>
}

func ExampleGimp() {
	s, err := findings.Gimp([]unit.Length{71 * unit.Inch}).Order(findings.Buying[unit.Length]{Waste: 0.05})
	fmt.Println(s.Gross.Decimal(unit.Inch, 1, unit.Up), err)
	// Output: 75.6 in <nil>
}

func ExampleHookAndLoop() {
	s, err := findings.HookAndLoop([]unit.Length{6 * unit.Inch, 6 * unit.Inch}).Order(findings.Buying[unit.Length]{})
	fmt.Println(s.Gross, "of each", err)
	// Output: 14 in of each <nil>
}

func ExampleZips_Order() {
	o, err := findings.Zips{Openings: []unit.Length{30 * unit.Inch, 60 * unit.Inch}}.Order(findings.Buying[unit.Length]{})
	fmt.Println(o.Chain.Use, o.Sliders, "sliders", o.Stops, "stops", err)
	// Output: 94 in 3 sliders 4 stops <nil>
}

func ExampleStaples_Plan() {
	p, err := findings.Staples{Edges: []unit.Length{24 * unit.Inch}, Layers: 3 * unit.Millimetre, Rail: unit.Inch}.Plan()
	fmt.Println(p.Count, "staples,", p.Leg, "legs, through:", p.Through, err)
	// Output: 25 staples, 3/8 in legs, through: false <nil>
}

func ExampleTackSizes() {
	for _, s := range findings.TackSizes() {
		if s.Use == "burlap" {
			fmt.Println(s.Name, s.Length, s.Pound, "a pound by the name")
		}
	}
	// Output: 4 oz 7/16 in 4000 a pound by the name
}

// Two sides of 22 in and 20 in, nails of 7/16 in an inch apart at most.
func ExampleNails_Plan() {
	p, err := findings.Nails{Sides: []unit.Length{22 * unit.Inch, 20*unit.Inch + unit.Inch/4}, Head: 7 * unit.Inch / 16, Pitch: unit.Inch}.Plan()
	fmt.Println(p.Nails, p.Rows[0].Spacing, p.Rows[1].Spacing.Decimal(unit.Inch, 4, unit.Nearest), err)
	// Output: 44 1 in 0.9643 in <nil>
}

func ExampleButtonLine() {
	d, err := findings.ButtonLine(36)
	fmt.Println(d.Decimal(unit.Inch, 1, unit.Nearest), err)
	// Output: 0.9 in <nil>
}

func ExampleButtons_Order() {
	o, err := findings.Buttons{Count: 21, Diameter: unit.Inch, Through: 4 * unit.Inch}.Order()
	fmt.Println(o.Buttons, "buttons, discs of", o.Disc, "twine", o.Each, "each", err)
	// Output: 23 buttons, discs of 2 in twine 20 in each <nil>
}

func ExampleFelt_Order() {
	s, err := findings.Felt{Area: 2392 * unit.SquareInch}.Order(findings.Buying[unit.Mass]{Waste: 0.10, Step: unit.Pound / 2})
	fmt.Println(s.Gross.Decimal(unit.Pound, 3, unit.Nearest), "->", s.Use, err)
	// Output: 2.707 lb -> 3 lb <nil>
}

func ExampleHair_Order() {
	s, err := findings.Hair{Area: 4 * unit.SquareFoot, Old: true}.Order(findings.Buying[unit.Mass]{})
	fmt.Println(s.Net.Decimal(unit.Pound, 1, unit.Nearest), err)
	// Output: 1.2 lb <nil>
}

func ExampleTow() {
	s, err := findings.Tow(9, findings.Buying[unit.Mass]{})
	fmt.Println(s.Net.Decimal(unit.Pound, 1, unit.Nearest), err)
	// Output: 7.5 lb <nil>
}

func ExampleGlue_Order() {
	o, err := findings.Glue{Area: 12 * unit.SquareFoot, Covers: 20 * unit.SquareFoot, Container: unit.Litre / 2}.Order(
		findings.Buying[unit.Volume]{Waste: 0.15, Pack: unit.Litre / 2})
	fmt.Println(o.Coated, o.Volume.Packs, "cans", err)
	// Output: 24 sq ft 2 cans <nil>
}

func ExampleSnaps_Order() {
	o, err := findings.Snaps{Edges: []unit.Length{20 * unit.Inch}}.Order()
	fmt.Println(o.Sets, "sets,", o.Parts, "parts", err)
	// Output: 5 sets, 20 parts <nil>
}

func ExampleDrainEyelets() {
	fmt.Println(findings.DrainEyelets(4))
	// Output: 8 <nil>
}

func ExampleFeet() {
	fmt.Println(findings.Feet(80 * unit.Inch))
	// Output: 5 <nil>
}

func ExampleBuilds() {
	for _, b := range findings.Builds() {
		if b.Build == findings.Boat && b.Note != "" {
			fmt.Println(b.Findings, b.Place, b.Note)
		}
	}
	// Output:
	// staples usual stainless
	// cord, zip, sliders usual plastic
}
