package made_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

func ExampleWeltWidthByMultiple() {
	w, basis, err := made.WeltWidthByMultiple(unit.Inch / 4)
	fmt.Println(w, basis.Status, err)
	// Output:
	// 2 in common practice <nil>
}

func ExampleDoubleWeltWidth() {
	w, basis, err := made.DoubleWeltWidth(3 * unit.Inch / 2)
	fmt.Println(w, basis.Status, err)
	// Output:
	// 3 in common practice <nil>
}

func ExampleBiasYieldBound() {
	fmt.Println(made.BiasYieldBound(20*unit.Inch, 20*unit.Inch, 2*unit.Inch))
	// Output:
	// 200 in <nil>
}

func ExampleBiasSquareBound() {
	fmt.Println(made.BiasSquareBound(250*unit.Inch, 2*unit.Inch, unit.Inch))
	// Output:
	// 23 in <nil>
}

func ExampleLongestBias() {
	fmt.Println(inches(made.LongestBias(54 * unit.Inch)))
	// Output:
	// 76.368 in
}

// A yard of 54 in cloth as a tube of 1 3/4 in strip.
func ExampleBiasTube_Yield() {
	y, err := made.BiasTube{Width: 54 * unit.Inch, Height: 36 * unit.Inch, Strip: 7 * unit.Inch / 4, Seam: unit.Inch / 4}.Yield()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(y.Strips, "turns,", y.Length.Decimal(unit.Yard, 2, unit.Down), y.Share.PercentText(0, unit.Nearest), "of the bound")
	// Output:
	// 21 turns, 29.28 yd 95 % of the bound
}

// The same yard is better marked the other way round when a strip is left over.
func ExampleBestBiasTube() {
	t, y, err := made.BestBiasTube(made.BiasTube{Width: 20 * unit.Inch, Height: 36 * unit.Inch, Strip: 3 * unit.Inch})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(t.Width, "x", t.Height, inches(y.Length, nil))
	// Output:
	// 36 in x 20 in 226.274 in
}

// How much of 54 in goods makes 20 yd of 1 1/2 in strip.
func ExampleBiasTubeFor() {
	t, err := made.BiasTubeFor(20*unit.Yard, 54*unit.Inch, 3*unit.Inch/2, unit.Inch/4, unit.Inch/8)
	fmt.Println(t.Height, err)
	// Output:
	// 20 7/8 in <nil>
}

func ExampleBiasSquareFor() {
	s, err := made.BiasSquareFor(98*unit.Inch, unit.Inch, unit.Inch/4)
	fmt.Println(s.Turns, inches(s.Side, err), s.Length)
	// Output:
	// 7 10.399 in 98 in
}

func ExampleBiasStrips_Yield() {
	y, err := made.BiasStrips{
		Width: 54 * unit.Inch, Height: 36 * unit.Inch, Strip: 3 * unit.Inch / 2, Seam: unit.Inch / 4, Shortest: 12 * unit.Inch,
	}.Yield()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(y.Strips, "strips,", y.Joins, "joins,", y.Length.Decimal(unit.Yard, 1, unit.Down))
	// Output:
	// 33 strips, 32 joins, 32.4 yd
}

// How much of 54 in goods makes 20 yd of 1 1/2 in strip, leaving out the
// corners.
func ExampleBiasStripsFor() {
	b, err := made.BiasStripsFor(20*unit.Yard, made.BiasStrips{
		Width: 54 * unit.Inch, Strip: 3 * unit.Inch / 2, Seam: unit.Inch / 4, Shortest: 12 * unit.Inch,
	}, unit.Inch/2)
	fmt.Println(b.Height, err)
	// Output:
	// 23 in <nil>
}

func ExampleStripsAcrossFor() {
	s, _, err := made.StripsAcrossFor(950*unit.Inch, 54*unit.Inch, 3*unit.Inch/2)
	fmt.Println(s.Count, s.Goods, err)
	// Output:
	// 18 27 in <nil>
}

func ExampleBiasChartYield() {
	l, basis, err := made.BiasChartYield(54*unit.Inch, 7*unit.Inch/4)
	fmt.Println(l.Yards(), basis.Status, err)
	// Output:
	// 26 common practice <nil>
}

func ExampleBiasYieldFactor() {
	f := made.BiasYieldFactor()
	fmt.Println(f.Least, f.Usual, f.Most, f.Basis.Status)
	// Output:
	// 75 % 83 % 88 % common practice
}

// A channel 3 in wide that rises 1 in.
func ExampleChannelCover() {
	fmt.Println(inches(made.ChannelCover(made.ArcProfile, 3*unit.Inch, unit.Inch)))
	fmt.Println(inches(made.ChannelCover(made.EllipseProfile, 3*unit.Inch, unit.Inch)))
	// Output:
	// 3.822 in
	// 3.966 in
}

// A back of 18 x 20 in in six channels.
func ExampleChannels_Cut() {
	c, err := made.Channels{Width: 18 * unit.Inch, Height: 20 * unit.Inch, Count: 6, Rise: unit.Inch}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range c.Pieces {
		fmt.Println(p.Count, p.Use, inches(p.Width, nil), "x", inches(p.Length, nil))
	}
	fmt.Println("seam in the middle:", c.CentreSeam)
	// Output:
	// 2 outer channel 6.322 in x 24.000 in
	// 4 channel 4.822 in x 24.000 in
	// seam in the middle: true
}

// The rules disagree for 8 x 5 in diamonds on 2 in foam.
func ExampleCompareTuftRules() {
	covers, err := made.CompareTuftRules(8*unit.Inch, 5*unit.Inch, 2*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range covers {
		fmt.Println(c.Rule, "|", inches(c.Width, nil), "x", inches(c.Height, nil), "|", c.Basis.Status)
	}
	// Output:
	// half again | 12.000 in x 7.500 in | common practice
	// twice the depth | 12.000 in x 9.000 in | common practice
	// once the depth | 10.000 in x 7.000 in | common practice
	// groove | 8.944 in x 6.403 in | derived
}

func ExampleTuftRule_Spacing() {
	fmt.Println(made.HalfAgain.Spacing(3*unit.Inch, 0))
	// Output:
	// 4 1/2 in <nil>
}

// A 12 x 18 in panel tufted at 3 in spaces.
func ExampleTufting_Plan() {
	p, err := made.Tufting{Width: 12 * unit.Inch, Height: 18 * unit.Inch, Across: 4, Down: 6, Rule: made.HalfAgain}.Plan()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("net", p.NetWidth, "x", p.NetHeight)
	fmt.Println("cut", p.CutWidth, "x", p.CutHeight)
	fmt.Println(p.Buttons, "buttons; first row on the cloth at", p.Rows[0].ClothX)
	// Output:
	// net 18 in x 27 in
	// cut 20 in x 29 in
	// 58 buttons; first row on the cloth at [2 1/4 in 6 3/4 in 11 1/4 in 15 3/4 in]
}

func ExampleTuftEdge() {
	fmt.Println(made.TuftEdge(30*unit.Inch, 3*unit.Inch, 8))
	// Output:
	// 3 in <nil>
}

func ExampleBiscuitCover() {
	c, err := made.BiscuitCover(9, 5, 3*unit.Inch, 0)
	fmt.Println(c.Width, c.Height, c.Basis.Status, err)
	// Output:
	// 27 in 15 in common practice <nil>
}

// Twelve box pleats that meet, on 48 in.
func ExamplePleats_Cloth() {
	c, err := made.Pleats{Kind: made.BoxPleat, Finished: 48 * unit.Inch, Count: 12, Underfold: 2 * unit.Inch}.Cloth()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c.Spacing, c.Cloth, float64(c.Ratio), c.Meets)
	// Output:
	// 4 in 144 in 3 true
}

func ExampleKnifePleatRatio() {
	r, err := made.KnifePleatRatio(unit.Inch, 2*unit.Inch)
	fmt.Println(float64(r), err)
	// Output:
	// 2 <nil>
}

func ExampleBoxPleatRatio() {
	r, err := made.BoxPleatRatio(2*unit.Inch, 2*unit.Inch)
	fmt.Println(float64(r), err)
	// Output:
	// 2 <nil>
}

func ExampleFullnessNamed() {
	f, err := made.FullnessNamed("gathered skirt")
	fmt.Println(float64(f.Ratio), f.Basis, err)
	// Output:
	// 2 common practice; about <nil>
}

// A gathered skirt round a chair of 80 in, 7 in deep, hemmed, from 54 in cloth.
func ExampleGatheredSkirt_Cut() {
	c, err := made.GatheredSkirt{
		Base: 80 * unit.Inch, Drop: 7 * unit.Inch, Fullness: 2,
		Bottom: allowance.Edge{Finish: allowance.DoubleHem}, Longest: 54 * unit.Inch,
	}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range c.Pieces {
		fmt.Println(p.Count, "x", p.Width, "x", p.Length)
	}
	// Output:
	// 4 x 9 in x 41 in
}

func ExamplePleatedSkirt_Cut() {
	c, err := made.PleatedSkirt{
		Pleats: made.Pleats{Finished: 80 * unit.Inch, Count: 40, Underfold: 2 * unit.Inch},
		Drop:   7 * unit.Inch,
		Bottom: allowance.Edge{Finish: allowance.SingleHem},
	}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c.Sewn, c.Width)
	// Output:
	// 240 in 8 1/2 in
}

// A tailored, self-lined skirt in metric sizes that opens at one corner.
func ExampleKickPleatSkirt_Cut() {
	c, err := made.KickPleatSkirt{
		Sides: []unit.Length{60 * unit.Centimetre, 50 * unit.Centimetre, 60 * unit.Centimetre, 50 * unit.Centimetre},
		Drop:  18 * unit.Centimetre,
		Lined: true,
		Open:  true,
		Top:   allowance.Edge{Allowance: allowance.Exactly(125 * unit.Millimetre / 10)},
	}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range c.Pieces {
		fmt.Println(p.Count, p.Use, p.Width.Centimetres(), "x", p.Length.Centimetres(), "cm")
	}
	// Output:
	// 1 skirt panel 38.5 x 82 cm
	// 1 skirt panel 38.5 x 72 cm
	// 1 skirt panel 38.5 x 82 cm
	// 1 skirt panel 38.5 x 72 cm
	// 5 underlay 38.5 x 22 cm
}

func ExampleCornerPleatLength() {
	fmt.Println(made.CornerPleatLength(100*unit.Inch, 4, 8*unit.Inch))
	// Output:
	// 132 in <nil>
}

// A loose chair cover: front and back, the seat, two folds, hems and spare.
func ExampleWrap_Cut() {
	l, err := made.Wrap{
		Faces: []unit.Length{50 * unit.Inch, 21 * unit.Inch, 2 * unit.Inch, 2 * unit.Inch},
		Start: allowance.Edge{Finish: allowance.DoubleHem, Allowance: allowance.Exactly(4 * unit.Inch)},
		End:   allowance.Edge{Finish: allowance.Raw, Handling: 4 * unit.Inch},
	}.Cut()
	fmt.Println(l, err)
	// Output:
	// 83 in <nil>
}
