package allowance_test

import (
	"encoding/json"
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// exampleCover reads a cover as it stands in a file.
func exampleCover(text string) allowance.Cover {
	var c allowance.Cover
	if err := json.Unmarshal([]byte(text), &c); err != nil {
		fmt.Println(err)
	}
	return c
}

func examplePanel(name string, width, height unit.Length) allowance.CoverPanel {
	o, err := shape.Rectangle(width, height)
	if err != nil {
		fmt.Println(err)
	}
	return allowance.CoverPanel{Panel: allowance.Panel{Name: name, Outline: o}, Goods: "cloth"}
}

func exampleGoods() map[string]allowance.SewnGoods {
	firm, _ := allowance.FirmWoven.Limits()
	return map[string]allowance.SewnGoods{"cloth": {Ease: firm}}
}

// The back of a chair ends in a strip of lining that goes down behind the seat.
func ExampleCover_WithPullStrip() {
	c := exampleCover(`{"fastenings": [
			{"side": "back.bottom", "finish": "pushed through"},
			{"side": "back.right + back.top + back.left"}
		]}`)
	c.Panels = []allowance.CoverPanel{examplePanel("back", 24*unit.Inch, 20*unit.Inch)}
	c, err := c.WithPullStrip(0, "cloth")
	if err != nil {
		fmt.Println(err)
		return
	}
	w, err := c.Work(exampleGoods())
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
		fmt.Println(p.Name, cut.Width, "x", cut.Height)
	}
	// Output:
	// back 30 in x 23 1/2 in
	// back bottom pull strip 25 in x 6 1/2 in
}

// A seat of two panels: one seam, and edges pulled over the rails.
func ExampleCover_Work() {
	c := exampleCover(`{
		"seams": [{"sides": ["seat.bottom", "nose.top"], "finish": "top-stitched seam"}],
		"fastenings": [
			{"side": "seat.right + seat.top + seat.left"},
			{"side": "nose.left + nose.bottom + nose.right"}
		]}`)
	c.Panels = []allowance.CoverPanel{examplePanel("seat", 22*unit.Inch, 18*unit.Inch), examplePanel("nose", 22*unit.Inch, 6*unit.Inch)}
	w, err := c.Work(exampleGoods())
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
		fmt.Println(p.Name, cut.Width, "x", cut.Height)
	}
	for _, r := range w.Rows {
		fmt.Println(r.Of, r.Kind, r.Length, r.Layers, "layers")
	}
	// Output:
	// seat 28 in x 21 1/2 in
	// nose 28 in x 9 1/2 in
	// A seam 28 in 2 layers
	// A top-stitch 28 in 3 layers
}

// Everything that is wrong is told at once.
func ExampleCover_Check() {
	c := exampleCover(`{
		"seams": [{"sides": ["seat.bottom", "nose.top"], "finish": "welted seam"}],
		"fastenings": [{"side": "seat.right + seat.top"}, {"side": "nose.left + nose.bottom + nose.right"}]}`)
	c.Panels = []allowance.CoverPanel{examplePanel("seat", 22*unit.Inch, 18*unit.Inch), examplePanel("nose", 22*unit.Inch, 6*unit.Inch)}
	fmt.Println(c.Check(exampleGoods()))
	// Output:
	// seams[0].cord: required; want the diameter of the cord in the welt
	// panels[0].edges.left: “seat.left”: required; want a seam or a fastening
}

// A cushion nests in a chair by a prefix.
func ExampleCover_Nested() {
	cushion := allowance.Cover{
		Panels: []allowance.CoverPanel{examplePanel("face", 18*unit.Inch, 18*unit.Inch)},
		Seams:  []allowance.Seam{{Sides: []allowance.Side{{{Panel: "face", Edge: "left"}}, {{Panel: "face", Edge: "right"}}}}},
	}
	nested := cushion.Nested("seat cushion 2")
	fmt.Println(nested.Panels[0].Name)
	fmt.Println(nested.Seams[0].Sides[1])
	fmt.Println(len(nested.Joined(cushion).Panels), "panels")
	// Output:
	// seat cushion 2.face
	// seat cushion 2.face.right
	// 2 panels
}

// A welted seam between a plate and two strips round it.
func ExampleSeam() {
	s := allowance.Seam{Kind: allowance.WeltedJoin, Cord: 5 * unit.Inch / 32, Welt: "cloth",
		Sides: []allowance.Side{{{Panel: "plate", Edge: "front"}}, {{Panel: "strip left", Edge: "top"}, {Panel: "strip right", Edge: "top", To: 4 * unit.Inch}}}}
	text, err := json.Marshal(s)
	fmt.Println(string(text), err)
	// Output:
	// {"sides":["plate.front","strip left.top + strip right.top to 4 in"],"finish":"welted seam","cord":"5/32 in","welt":"cloth"} <nil>
}

func ExampleSeamKind_Default() {
	s, basis := allowance.FelledJoin.Default()
	fmt.Println(s, basis.Status)
	// Output:
	// 9/16 in derived
}

func ExampleSeamKind_Designations() {
	iso, federal, basis := allowance.PlainJoin.Designations()
	fmt.Println(iso, federal, basis.Status)
	// Output:
	// 1.01.01 SSa-1 from memory
}

// An edge that goes round the bottom rail and is stapled below it.
func ExampleFastening() {
	text, err := json.Marshal(allowance.Fastening{Side: allowance.Side{{Panel: "outside arm", Edge: "bottom"}}, Kind: allowance.TurnedBelow,
		To: "side rail", Rail: 5 * unit.Inch / 4, HiddenBy: []string{"dust cover"}})
	fmt.Println(string(text), err)
	over, hold, _ := allowance.PushedThrough.Default()
	fmt.Println("pushed through:", over, "and", hold)
	// Output:
	// {"side":"outside arm.bottom","finish":"turned below","to":"side rail","rail":"1 1/4 in","hidden_by":["dust cover"]} <nil>
	// pushed through: 4 in and 2 in
}

func ExampleFasteningKind_Default() {
	over, hold, basis := allowance.PulledOver.Default()
	fmt.Println(over, hold, basis.Status)
	// Output:
	// 2 in 1 in common practice
}

// A welt on the edge of the frame, that the outside back hides.
func ExampleTrim() {
	c := allowance.Cover{
		Panels:     []allowance.CoverPanel{examplePanel("outside back", 24*unit.Inch, 30*unit.Inch)},
		Fastenings: []allowance.Fastening{{Side: allowance.Side{{Panel: "outside back", Edge: "top"}}, Kind: allowance.BlindTacked}, {Side: allowance.Side{{Panel: "outside back", Edge: "left"}, {Panel: "outside back", Edge: "bottom"}, {Panel: "outside back", Edge: "right"}}, Kind: allowance.ToothedStrip}},
		Trims:      []allowance.Trim{{Name: "welt round the back", Length: 84 * unit.Inch, Cord: unit.Inch / 4, Welt: "cloth", HiddenBy: []string{"outside back"}}},
	}
	w, err := c.Work(exampleGoods())
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, s := range w.Fitting {
		fmt.Println(i+1, s.How, s.What)
	}
	fmt.Println(w.Welts[0].Of, w.Welts[0].Strip)
	// Output:
	// 1 welt [welt round the back]
	// 2 blind-tacked [outside back.top]
	// 3 toothed strip [outside back.left outside back.bottom outside back.right]
	// welt round the back 84 in
}

// A back meets a cushion 10 in above its lower edge, the pattern running on.
func ExampleMeet() {
	text, err := json.Marshal(allowance.Meet{Sides: []allowance.MeetSide{
		{Side: allowance.Side{{Panel: "inside back", Edge: "bottom"}}, In: 10 * unit.Inch},
		{Side: allowance.Side{{Panel: "seat cushion.top plate", Edge: "back"}}},
	}, Pattern: allowance.Crossing{Way: allowance.BothWays}})
	fmt.Println(string(text), err)
	// Output:
	// {"sides":[{"side":"inside back.bottom","in":"10 in"},{"side":"seat cushion.top plate.back"}],"pattern":{"way":"both"}} <nil>
}

func ExampleEdgePart() {
	var p allowance.EdgePart
	err := p.UnmarshalText([]byte("seat cushion 2.top plate.back from 3 in to 19 in"))
	fmt.Printf("%q %q %s %s %v\n", p.Panel, p.Edge, p.From, p.To, err)
	// Output:
	// "seat cushion 2.top plate" "back" 3 in 19 in <nil>
}

func ExampleEaseClass_Limits() {
	l, basis := allowance.FirmLeather.Limits()
	fmt.Println(l.Flat, l.Ease, l.Gather, basis.Status)
	// Output:
	// 0.5 % 1 % 1.5 % from memory
}

func ExampleSeamTolerance() {
	tol, err := allowance.SeamTolerance(72 * unit.Inch)
	fmt.Println(tol, err)
	// Output:
	// 3/16 in <nil>
}
