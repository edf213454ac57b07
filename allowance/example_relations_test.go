package allowance_test

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// rawPanel is a rectangle whose edges are cut raw where no relation says more.
func rawPanel(name string, width, height unit.Length) allowance.CoverPanel {
	p := examplePanel(name, width, height)
	p.AllEdges = allowance.Edge{Finish: allowance.Raw}
	return p
}

// followsFrom prints what follows from relations: the cut sizes, the seams with
// their notches, the rows of stitching, and the orders of sewing and fitting.
func followsFrom(relations string, panels ...allowance.CoverPanel) {
	c := exampleCover(relations)
	c.Panels = panels
	printWork(c)
}

func printWork(c allowance.Cover) {
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
		fmt.Println("cut", p.Name, cut.Width, "x", cut.Height)
	}
	for _, s := range w.Seams {
		var letters []string
		for _, n := range s.Notches {
			letters = append(letters, n.Label)
		}
		fmt.Println("seam", s.Letter, strings.Join(letters, " "))
	}
	for _, r := range w.Rows {
		fmt.Println("row", r.Of, r.Kind, r.Length, r.Layers, "layers")
	}
	for _, s := range w.Sewing {
		fmt.Println("sew:", s.Do, s.Seam)
	}
	for _, s := range w.Fitting {
		fmt.Println("fit:", strings.Join(s.What, " + "), "-", s.How)
	}
}

// renamedPanel is seen from above, its back away from the reader.
func renamedPanel(name string, width, depth unit.Length) allowance.CoverPanel {
	p := rawPanel(name, width, depth)
	var err error
	if p.Outline, err = p.Outline.Renamed("front", "right", "back", "left"); err != nil {
		fmt.Println(err)
	}
	return p
}

// A plain seam: one row, and 1/2 in on both sides.
func ExampleSeamKind_plain() {
	followsFrom(`{"seams": [{"sides": ["seat.bottom", "nose.top"], "finish": "plain seam"}]}`,
		rawPanel("seat", 20*unit.Inch, 18*unit.Inch), rawPanel("nose", 20*unit.Inch, 6*unit.Inch))
	// Output:
	// cut seat 20 in x 18 1/2 in
	// cut nose 20 in x 6 1/2 in
	// seam A A1 A2 A3 A4 A5
	// row A seam 20 in 2 layers
	// sew: sew A
}

// A welted seam: the welt is closed round its cord, put on the first side, then the
// second side.
func ExampleSeamKind_welted() {
	followsFrom(`{"seams": [{"sides": ["seat.bottom", "nose.top"], "finish": "welted seam", "cord": "5/32 in", "welt": "cloth"}]}`,
		rawPanel("seat", 20*unit.Inch, 18*unit.Inch), rawPanel("nose", 20*unit.Inch, 6*unit.Inch))
	// Output:
	// cut seat 20 in x 18 1/2 in
	// cut nose 20 in x 6 1/2 in
	// seam A A1 A2 A3 A4 A5
	// row A welt making 20 in 2 layers
	// row A welt to panel 20 in 3 layers
	// row A seam 20 in 4 layers
	// sew: make welt A
	// sew: welt on A
	// sew: sew A
}

// A top-stitched seam: the second row catches both allowances on the second side.
func ExampleSeamKind_topStitched() {
	followsFrom(`{"seams": [{"sides": ["seat.bottom", "nose.top"], "finish": "top-stitched seam", "row": "1/4 in"}]}`,
		rawPanel("seat", 20*unit.Inch, 18*unit.Inch), rawPanel("nose", 20*unit.Inch, 6*unit.Inch))
	// Output:
	// cut seat 20 in x 18 1/2 in
	// cut nose 20 in x 6 1/2 in
	// seam A A1 A2 A3 A4 A5
	// row A seam 20 in 2 layers
	// row A top-stitch 20 in 3 layers
	// sew: sew A
	// sew: top-stitch A
}

// A double top-stitched seam is opened, with a row on each side of it.
func ExampleSeamKind_doubleTopStitched() {
	followsFrom(`{"seams": [{"sides": ["seat.bottom", "nose.top"], "finish": "double top-stitched seam"}]}`,
		rawPanel("seat", 20*unit.Inch, 18*unit.Inch), rawPanel("nose", 20*unit.Inch, 6*unit.Inch))
	// Output:
	// cut seat 20 in x 18 1/2 in
	// cut nose 20 in x 6 1/2 in
	// seam A A1 A2 A3 A4 A5
	// row A seam 20 in 2 layers
	// row A top-stitch 20 in 2 layers
	// row A top-stitch 20 in 2 layers
	// sew: sew A
	// sew: top-stitch A
}

// A felled seam encloses both raw edges under two rows.
func ExampleSeamKind_felled() {
	followsFrom(`{"seams": [{"sides": ["seat.bottom", "nose.top"], "finish": "felled seam"}]}`,
		rawPanel("seat", 20*unit.Inch, 18*unit.Inch), rawPanel("nose", 20*unit.Inch, 6*unit.Inch))
	// Output:
	// cut seat 20 in x 18 9/16 in
	// cut nose 20 in x 6 9/16 in
	// seam A A1 A2 A3 A4 A5
	// row A top-stitch 20 in 4 layers
	// row A top-stitch 20 in 4 layers
	// sew: sew A
}

// A zip between two halves: each tape has its row.
func ExampleSeamKind_zip() {
	followsFrom(`{"seams": [{"sides": ["seat.bottom", "nose.top"], "finish": "zip"}]}`,
		rawPanel("seat", 20*unit.Inch, 18*unit.Inch), rawPanel("nose", 20*unit.Inch, 6*unit.Inch))
	// Output:
	// cut seat 20 in x 18 3/4 in
	// cut nose 20 in x 6 3/4 in
	// seam A A1 A2 A3 A4 A5
	// row A zip 20 in 3 layers
	// row A zip 20 in 3 layers
	// sew: set zip A
}

// A gathered seam takes a longer side up; two rows draw it.
func ExampleSeamKind_gathered() {
	followsFrom(`{"seams": [{"sides": ["skirt.top", "border.bottom"], "finish": "gathered seam", "fullness": "200 %"}]}`,
		rawPanel("skirt", 40*unit.Inch, 7*unit.Inch), rawPanel("border", 20*unit.Inch, 5*unit.Inch))
	// Output:
	// cut skirt 40 in x 7 1/2 in
	// cut border 20 in x 5 1/2 in
	// seam A A1 A2 A3 A4 A5 A6 A7
	// row A gathering 40 in 1 layers
	// row A gathering 40 in 1 layers
	// row A seam 20 in 2 layers
	// sew: gather A
	// sew: sew A
}

// A seam that is closed by hand is closed on the frame, when its panels are fastened.
func ExampleSeamKind_handClosed() {
	followsFrom(`{
		"seams": [{"sides": ["outside back.left", "inside back.right"], "finish": "hand-closed seam"}],
		"fastenings": [{"side": "inside back.top"}, {"side": "outside back.top", "finish": "blind-tacked"}]}`,
		rawPanel("inside back", 20*unit.Inch, 24*unit.Inch), rawPanel("outside back", 20*unit.Inch, 24*unit.Inch))
	// Output:
	// cut inside back 20 1/2 in x 27 in
	// cut outside back 20 1/2 in x 24 1/2 in
	// seam A A1 A2 A3 A4 A5
	// row A by hand 24 1/2 in 4 layers
	// fit: inside back.top - pulled over
	// fit: outside back.top - blind-tacked
	// fit: outside back.left + inside back.right - close by hand
}

// A closing of hook-and-loop tape: both edges are turned in, each under tape with two
// rows, off the frame.
func ExampleSeamKind_hookAndLoop() {
	followsFrom(`{"seams": [{"sides": ["left half.right", "right half.left"], "finish": "hook-and-loop closing"}]}`,
		rawPanel("left half", 12*unit.Inch, 20*unit.Inch), rawPanel("right half", 12*unit.Inch, 20*unit.Inch))
	// Output:
	// cut left half 13 in x 20 in
	// cut right half 13 in x 20 in
	// seam A A1 A2 A3 A4 A5
	// row A hem 20 in 3 layers
	// row A hem 20 in 3 layers
	// row A hem 20 in 3 layers
	// row A hem 20 in 3 layers
	// sew: sew A
}

// A closing with ties: both edges are turned in with a row each.
func ExampleSeamKind_tied() {
	followsFrom(`{"seams": [{"sides": ["left half.right", "right half.left"], "finish": "tied closing"}]}`,
		rawPanel("left half", 12*unit.Inch, 20*unit.Inch), rawPanel("right half", 12*unit.Inch, 20*unit.Inch))
	// Output:
	// cut left half 13 in x 20 in
	// cut right half 13 in x 20 in
	// seam A A1 A2 A3 A4 A5
	// row A hem 20 in 2 layers
	// row A hem 20 in 2 layers
	// sew: sew A
}

// Pulled over a rail: 2 in over it and 1 in to staple, hidden by the outside.
func ExampleFasteningKind_pulledOver() {
	followsFrom(`{"fastenings": [
		{"side": "panel.bottom", "finish": "pulled over", "hidden_by": ["outside"]},
		{"side": "outside.top", "finish": "blind-tacked"}]}`,
		rawPanel("panel", 20*unit.Inch, 10*unit.Inch), rawPanel("outside", 20*unit.Inch, 10*unit.Inch))
	// Output:
	// cut panel 20 in x 13 in
	// cut outside 20 in x 10 1/2 in
	// fit: panel.bottom - pulled over
	// fit: outside.top - blind-tacked
}

// Pushed through between two rails, as far as the tape reads.
func ExampleFasteningKind_pushedThrough() {
	followsFrom(`{"fastenings": [
		{"side": "panel.bottom", "finish": "pushed through", "over": "5 in", "hidden_by": ["outside"]},
		{"side": "outside.top", "finish": "blind-tacked"}]}`,
		rawPanel("panel", 20*unit.Inch, 10*unit.Inch), rawPanel("outside", 20*unit.Inch, 10*unit.Inch))
	// Output:
	// cut panel 20 in x 17 in
	// cut outside 20 in x 10 1/2 in
	// fit: panel.bottom - pushed through
	// fit: outside.top - blind-tacked
}

// Round the bottom rail and stapled below: the rail's thickness and 1 in.
func ExampleFasteningKind_turnedBelow() {
	followsFrom(`{"fastenings": [{"side": "panel.bottom", "finish": "turned below", "rail": "1 1/4 in"}]}`, rawPanel("panel", 20*unit.Inch, 10*unit.Inch))
	// Output:
	// cut panel 20 in x 12 1/4 in
	// fit: panel.bottom - turned below
}

// Stapled flat and raw, where the next panel hides it.
func ExampleFasteningKind_stapledFlat() {
	followsFrom(`{"fastenings": [
		{"side": "panel.bottom", "finish": "stapled flat", "hidden_by": ["outside"]},
		{"side": "outside.top", "finish": "blind-tacked"}]}`,
		rawPanel("panel", 20*unit.Inch, 10*unit.Inch), rawPanel("outside", 20*unit.Inch, 10*unit.Inch))
	// Output:
	// cut panel 20 in x 11 in
	// cut outside 20 in x 10 1/2 in
	// fit: panel.bottom - stapled flat
	// fit: outside.top - blind-tacked
}

// Folded in and tacked in sight.
func ExampleFasteningKind_foldedIn() {
	followsFrom(`{"fastenings": [{"side": "panel.bottom", "finish": "folded in"}]}`, rawPanel("panel", 20*unit.Inch, 10*unit.Inch))
	// Output:
	// cut panel 20 in x 10 1/2 in
	// fit: panel.bottom - folded in
}

// Blind-tacked through a strip of card, then flipped: first of all edges of its panel.
func ExampleFasteningKind_blindTacked() {
	followsFrom(`{"fastenings": [{"side": "panel.bottom"}, {"side": "panel.top", "finish": "blind-tacked"}]}`, rawPanel("panel", 20*unit.Inch, 10*unit.Inch))
	// Output:
	// cut panel 20 in x 13 1/2 in
	// fit: panel.top - blind-tacked
	// fit: panel.bottom - pulled over
}

// Folded into a toothed strip, after what is pulled.
func ExampleFasteningKind_toothedStrip() {
	followsFrom(`{"fastenings": [{"side": "panel.left", "finish": "toothed strip"}, {"side": "panel.bottom"}]}`, rawPanel("panel", 20*unit.Inch, 10*unit.Inch))
	// Output:
	// cut panel 20 3/4 in x 13 in
	// fit: panel.bottom - pulled over
	// fit: panel.left - toothed strip
}

// A hem is sewn to itself, off the frame: a row and no step of fitting.
func ExampleFasteningKind_hemmed() {
	followsFrom(`{"fastenings": [{"side": "panel.bottom", "finish": "hem"}]}`, rawPanel("panel", 20*unit.Inch, 10*unit.Inch))
	// Output:
	// cut panel 20 in x 11 in
	// row panel.bottom hem 20 in 2 layers
	// sew: hem panel.bottom
}

// Hook-and-loop tape is sewn on along both its edges.
func ExampleFasteningKind_hookAndLoop() {
	followsFrom(`{"fastenings": [{"side": "panel.bottom", "finish": "hook and loop"}]}`, rawPanel("panel", 20*unit.Inch, 10*unit.Inch))
	// Output:
	// cut panel 20 in x 11 in
	// row panel.bottom hem 20 in 3 layers
	// row panel.bottom hem 20 in 3 layers
	// sew: hem panel.bottom
}

// Gimp goes on after the edge that it covers.
func ExampleTrimKind_gimp() {
	followsFrom(`{
		"fastenings": [{"side": "panel.bottom", "finish": "folded in"}],
		"trims": [{"name": "front edge", "kind": "gimp", "length": "20 in", "covers": ["panel"]}]}`,
		rawPanel("panel", 20*unit.Inch, 10*unit.Inch))
	// Output:
	// cut panel 20 in x 10 1/2 in
	// fit: panel.bottom - folded in
	// fit: front edge - gimp
}

// So do nails.
func ExampleTrimKind_nails() {
	followsFrom(`{
		"fastenings": [{"side": "panel.bottom", "finish": "folded in"}],
		"trims": [{"name": "front edge", "kind": "nails", "length": "20 in", "covers": ["panel"]}]}`,
		rawPanel("panel", 20*unit.Inch, 10*unit.Inch))
	// Output:
	// cut panel 20 in x 10 1/2 in
	// fit: panel.bottom - folded in
	// fit: front edge - nails
}

// What meets unsewn changes no size: the edges keep their own seams and fastenings.
func ExampleMeet_work() {
	followsFrom(`{
		"fastenings": [{"side": "back.bottom", "finish": "pushed through"}, {"side": "cushion.back", "finish": "hem"}],
		"meets": [{"sides": [{"side": "back.bottom", "in": "6 in"}, {"side": "cushion.back"}]}]}`,
		rawPanel("back", 20*unit.Inch, 24*unit.Inch), renamedPanel("cushion", 20*unit.Inch, 20*unit.Inch))
	// Output:
	// cut back 20 in x 30 in
	// cut cushion 20 in x 21 in
	// row cushion.back hem 20 in 2 layers
	// sew: hem cushion.back
	// fit: back.bottom - pushed through
}

// A pair is one left and one right, and a seam without a hand stands for both: its
// letter tells them apart.
func ExampleCoverPanel_pair() {
	arm, front := rawPanel("arm", 24*unit.Inch, 14*unit.Inch), rawPanel("front", 5*unit.Inch, 14*unit.Inch)
	arm.Pair, front.Pair = true, true
	followsFrom(`{"seams": [{"sides": ["arm.right", "front.left"]}]}`, arm, front)
	// Output:
	// cut arm left 24 1/2 in x 14 in
	// cut arm right 24 1/2 in x 14 in
	// cut front left 5 1/2 in x 14 in
	// cut front right 5 1/2 in x 14 in
	// seam A-L A1-L A2-L A3-L A4-L A5-L
	// seam A-R A1-R A2-R A3-R A4-R A5-R
	// row A-L seam 14 in 2 layers
	// row A-R seam 14 in 2 layers
	// sew: sew A-L
	// sew: sew A-R
}

// A cushion nested in a chair is sewn by itself; its seams are lettered with the rest.
func ExampleCover_Joined() {
	cushion := exampleCover(`{"seams": [{"sides": ["top.bottom", "lower.top"]}]}`)
	cushion.Panels = []allowance.CoverPanel{rawPanel("top", 20*unit.Inch, 20*unit.Inch), rawPanel("lower", 20*unit.Inch, 20*unit.Inch)}
	chair := exampleCover(`{"seams": [{"sides": ["seat.bottom", "nose.top"]}]}`)
	chair.Panels = []allowance.CoverPanel{rawPanel("seat", 20*unit.Inch, 18*unit.Inch), rawPanel("nose", 20*unit.Inch, 6*unit.Inch)}
	printWork(chair.Joined(cushion.Nested("cushion")))
	// Output:
	// cut seat 20 in x 18 1/2 in
	// cut nose 20 in x 6 1/2 in
	// cut cushion.top 20 in x 20 1/2 in
	// cut cushion.lower 20 in x 20 1/2 in
	// seam A A1 A2 A3 A4 A5
	// seam B B1 B2 B3 B4 B5
	// row A seam 20 in 2 layers
	// row B seam 20 in 2 layers
	// sew: sew A
	// sew: sew B
}

// Down the front of a seat on a repeat of 27 in both ways: a motif in the middle of the
// top is met by its front and by the border below it.
func ExampleCover_Flow() {
	c := exampleCover(`{"seams": [{"sides": ["seat.bottom", "nose.top"], "pattern": {"way": "both"}}],
		"meets": [{"sides": [{"side": "nose.bottom"}, {"side": "border.top", "in": "1/2 in"}], "pattern": {"way": "both"}}]}`)
	c.Panels = []allowance.CoverPanel{rawPanel("seat", 24*unit.Inch, 24*unit.Inch), rawPanel("nose", 24*unit.Inch, 4*unit.Inch), rawPanel("border", 26*unit.Inch, 8*unit.Inch)}
	middle := shape.Point{X: 12 * unit.Inch, Y: 12 * unit.Inch}
	flow, err := c.Flow(exampleGoods(), []allowance.MotifWish{{Panel: "seat", At: middle, Way: allowance.BothWays}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range flow.Pieces {
		fmt.Println(p.Name, "shows the motif at", p.Motif)
	}
	// Output:
	// seat shows the motif at (12 in, 12 in)
	// nose shows the motif at (12 in, 16 in)
	// border shows the motif at (13 in, 23 1/2 in)
}
