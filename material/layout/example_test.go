package layout_test

import (
	"context"
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// Pieces of a chair on cloth with a 27 in repeat, motifs centred on the backs.
func ExampleSolve() {
	back, _ := layout.RectPiece("inside back", 26*unit.Inch, 30*unit.Inch, 2)
	back.Phase = layout.OnMotif(shape.Point{Y: 15 * unit.Inch})
	arm, _ := layout.RectPiece("arm", 26*unit.Inch, 22*unit.Inch, 4)
	welt, _ := layout.RectPiece("welt", 53*unit.Inch, 3*unit.Inch/2, 3)
	welt.Phase.Axes = layout.Unbound
	plan, err := layout.Solve(context.Background(), layout.Job{
		Roll:   &material.Roll{Width: 54 * unit.Inch, Selvage: unit.Inch / 2, Repeat: 27 * unit.Inch, Nap: true, Increment: unit.Yard / 4},
		Pieces: []layout.Piece{back, arm, welt},
	}, layout.Options{Effort: 0.1})
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

// Two gussets with a slanted side nest where their boxes do not.
func ExampleSolve_outlines() {
	gusset, err := shape.Trapezoid(40*unit.Inch, 10*unit.Inch, 20*unit.Inch, 30*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := layout.Solve(context.Background(), layout.Job{
		Roll:   &material.Roll{Width: 54 * unit.Inch},
		Pieces: []layout.Piece{{Name: "gusset", Outline: gusset, Count: 2, Turn: layout.HalfTurn}},
	}, layout.Options{Effort: 0.1})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range plan.Claims[:3] {
		fmt.Println(c.Kind, c.Length, c.Method)
	}
	fmt.Println("proved:", plan.Proved)
	// Output:
	// layout 20 in outlines nested
	// layout 40 in boxes round the panels
	// bound 20 in longest piece
	// proved: true
}

// The leather of the reading room: a window-seat cushion with its boxing and
// six drop-in seats.
func readingRoomLeather() []layout.Piece {
	top, _ := layout.RectPiece("cushion top", 49*unit.Inch, 21*unit.Inch, 2)
	boxing, _ := layout.RectPiece("boxing", 5*unit.Inch, 48*unit.Inch, 3)
	seat, _ := shape.Trapezoid(23*unit.Inch, 20*unit.Inch, 21*unit.Inch, 3*unit.Inch/2)
	pieces := []layout.Piece{top, boxing, {Name: "seat", Outline: seat, Count: 6}}
	for i := range pieces {
		pieces[i].Grain = layout.FreeGrain()
	}
	pieces[1].Least = material.FairGrade
	return pieces
}

// The leather of the reading room, with a hide of 38 sq ft at hand: one more is
// bought.
func ExampleSolve_hides() {
	mine, _ := layout.UsualHides(material.WholeHide, 38*unit.SquareFoot, 1)
	plan, err := layout.Solve(context.Background(), layout.Job{
		Hides:  &layout.Hides{AtHand: mine, Usual: material.Skin{Kind: material.WholeHide, Area: 38 * unit.SquareFoot}},
		Pieces: readingRoomLeather(),
	}, layout.Options{Effort: 0.05})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("complete:", plan.Complete(), "- hides:", len(plan.Used), "- to buy:", len(plan.Bought), "- no plan takes fewer than", plan.Bound().Hides)
	// Output:
	// complete: true - hides: 2 - to buy: 1 - no plan takes fewer than 2
}

// A measured hide with a brand and a poor belly; the panel keeps off both.
func ExampleSolve_measuredHide() {
	hide := material.Skin{ID: "H1", Thickness: 3 * unit.LeatherOunce}
	hide.Outline, _ = shape.Path("M 0 0 C 20 -6 50 -6 70 0 L 66 50 C 70 70 60 84 36 84 C 10 84 0 70 4 50 Z", unit.Inch)
	belly, _ := shape.Rectangle(14*unit.Inch, 84*unit.Inch)
	hide.Zones = []material.QualityZone{{Name: "belly", Grade: material.FairGrade, Outline: belly}}
	hide.Defects = []material.Defect{{Kind: material.Brand, At: shape.Point{X: 50 * unit.Inch, Y: 30 * unit.Inch}, Across: 5 * unit.Inch}}
	seat, _ := layout.RectPiece("seat", 24*unit.Inch, 22*unit.Inch, 2)
	seat.Grain = layout.EitherWay(5)
	plan, err := layout.Solve(context.Background(), layout.Job{Hides: &layout.Hides{AtHand: []material.Skin{hide}}, Pieces: []layout.Piece{seat}}, layout.Options{Effort: 0.1})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range plan.Places {
		low, _ := p.Bounds()
		fmt.Println("seat", p.Copy+1, "clear of the belly:", low.X > 14*unit.Inch)
	}
	// Output:
	// seat 1 clear of the belly: true
	// seat 2 clear of the belly: true
}

func ExamplePlan_Draw() {
	seat, _ := layout.RectPiece("seat", 20*unit.Inch, 18*unit.Inch, 2)
	plan, err := layout.Solve(context.Background(), layout.Job{Roll: &material.Roll{Width: 54 * unit.Inch, Increment: unit.Yard / 8}, Pieces: []layout.Piece{seat}}, layout.Options{Effort: 0.001})
	if err != nil {
		fmt.Println(err)
		return
	}
	pictures, err := plan.Draw(layout.Picture{Title: "wool tweed"})
	fmt.Println(len(pictures), strings.Count(pictures[0].SVG, `class="piece"`), err)
	// Output: 1 2 <nil>
}

// Six drop-in seats of 24 in square lie two abreast in six feet of 54 in cloth
// and leave a strip at the side.
func ExamplePlan_RollOffcuts() {
	seat, _ := layout.RectPiece("seat", 24*unit.Inch, 24*unit.Inch, 6)
	plan, err := layout.Solve(context.Background(), layout.Job{Roll: &material.Roll{Width: 54 * unit.Inch}, Pieces: []layout.Piece{seat}}, layout.Options{Effort: 0.001})
	if err != nil {
		fmt.Println(err)
		return
	}
	left, err := plan.RollOffcuts(6*unit.Inch, 12*unit.Inch)
	fmt.Println(plan.Need, len(left), left[0].Width, left[0].Length, err)
	// Output: 72 in 1 6 in 72 in <nil>
}

// A back of 80 in is too wide for 54 in goods: it must be railroaded.
func ExampleCompareRailroad() {
	back, _ := layout.RectPiece("sofa back", 80*unit.Inch, 30*unit.Inch, 1)
	c, err := layout.CompareRailroad(context.Background(), layout.Job{Roll: &material.Roll{Width: 54 * unit.Inch}, Pieces: []layout.Piece{back}}, layout.Options{Effort: 0.1})
	fmt.Println(c.UpTheRoll == nil, c.Railroad.Need, err)
	// Output:
	// true 80 in <nil>
}

// What the layout saves against the rule of thumb.
func ExampleCompareBuying() {
	pieces := readingRoomLeather()
	hides, _ := layout.UsualHides(material.WholeHide, 38*unit.SquareFoot, 3)
	plan, err := layout.Solve(context.Background(), layout.Job{Hides: &layout.Hides{OnOffer: hides}, Pieces: pieces}, layout.Options{Effort: 0.05})
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := layout.CompareBuying(plan, material.WasteFactor{Waste: 0.5}, material.SkinSupply{Mean: 38 * unit.SquareFoot, Spread: 3 * unit.SquareFoot},
		material.Yields(layout.PieceSizeOf(pieces))[0], 0.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, a := range c.Answers() {
		fmt.Printf("%-13v %d skins\n", a.Kind, a.Skins)
	}
	fmt.Println("saved:", c.SkinsSaved, "skin,", c.AreaSaved)
	// Output:
	// bound         2 skins
	// rule of thumb 3 skins
	// estimate      3 skins
	// layout        2 skins
	// saved: 1 skin, 38 sq ft
}

// What each wish of a chair costs: its pattern flows from the inside back over the
// cushion and its boxing to border and skirt. The motif of each panel lies on the
// middle line, so far up from its cut edge that the pattern goes on.
func ExampleCompareMatching() {
	damask := material.Roll{Width: 54 * unit.Inch, Repeat: 27 * unit.Inch, Across: 27 * unit.Inch,
		First: shape.Point{X: 13*unit.Inch + unit.Inch/2}, UnknownStart: true, Increment: unit.Yard / 8}
	job := layout.Job{Roll: &damask}
	for _, p := range []struct {
		name                 string
		width, length, motif unit.Length // in half inches
	}{{"inside back", 52, 64, 42}, {"cushion", 50, 50, 70}, {"boxing", 50, 10, 78}, {"border", 54, 18, 93}, {"skirt", 54, 18, 109}} {
		piece, err := layout.RectPiece(p.name, p.width*unit.Inch/2, p.length*unit.Inch/2, 1)
		if err != nil {
			fmt.Println(err)
			return
		}
		piece.Phase = layout.OnMotif(shape.Point{X: p.width * unit.Inch / 4, Y: p.motif * unit.Inch / 2})
		job.Pieces = append(job.Pieces, piece)
	}
	plan, err := layout.Solve(context.Background(), job, layout.Options{Effort: 0.02})
	if err != nil {
		fmt.Println(err)
		return
	}
	m, err := layout.CompareMatching(context.Background(), plan, layout.Options{Effort: 0.05})
	if err != nil {
		fmt.Println(err)
		return
	}
	buy := func(l unit.Length) string { return l.Mixed(unit.Yard, unit.Eighths, unit.Nearest) }
	fmt.Println("matched", plan.Need, "long, to buy", buy(plan.Order))
	fmt.Println("plain", m.Plain.Need, "long, to buy", buy(m.Plain.Order))
	fmt.Println("in step across the roll alone", m.Across.Need, "long")
	for _, w := range m.Wishes {
		fmt.Println("without the", job.Pieces[w.Piece].Name, buy(w.Less), "less, exact:", w.Exact)
	}
	// Output:
	// matched 56 1/2 in long, to buy 2 3/8 yd
	// plain 41 in long, to buy 1 1/4 yd
	// in step across the roll alone 41 in long
	// without the skirt 1/4 yd less, exact: true
	// without the inside back 1/4 yd less, exact: true
	// without the cushion 1/4 yd less, exact: true
	// without the border 1/4 yd less, exact: true
	// without the boxing 0 yd less, exact: true
}

func ExampleUsualHides() {
	hides, err := layout.UsualHides(material.Side, 24*unit.SquareFoot, 2)
	fmt.Println(len(hides), hides[1].ID, hides[1].SoldArea(), err)
	// Output: 2 side 2 24 sq ft <nil>
}

func ExamplePieceSizeOf() {
	fmt.Println(layout.PieceSizeOf(readingRoomLeather()))
	// Output: large pieces
}

func ExampleNetArea() {
	a, err := layout.NetArea(readingRoomLeather())
	fmt.Println(a.Decimal(unit.SquareFoot, 1, unit.Nearest), err)
	// Output: 38.1 sq ft <nil>
}

func ExamplePieceOf() {
	back, _ := shape.Crowned(26*unit.Inch, 30*unit.Inch, 4*unit.Inch)
	cut, err := allowance.Panel{Name: "inside back", Outline: back}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := layout.PieceOf(cut, 2)
	w, h := p.Outline.Size()
	fmt.Println(p.Name, w.Decimal(unit.Inch, 1, unit.Nearest), "by", h.Decimal(unit.Inch, 1, unit.Nearest), err)
	// Output: inside back 27.0 in by 35.0 in <nil>
}

// The welt of a box cushion, from its runs to pieces on the roll.
func ExamplePiecesOf() {
	welt, err := made.WeltRun{Runs: []unit.Length{84 * unit.Inch, 84 * unit.Inch}, Width: 3 * unit.Inch / 2, Longest: 54 * unit.Inch}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	pieces, _ := layout.PiecesOf(welt, 1)
	plate, _ := layout.RectPiece("plate", 23*unit.Inch, 21*unit.Inch, 2)
	boxing, _ := layout.PiecesOfStrips(made.Strip{Use: "boxing", Count: 1, Width: 5 * unit.Inch, Length: 54 * unit.Inch})
	pieces = append(append(pieces, boxing...), plate)
	for _, p := range pieces {
		w, l := p.Outline.Size()
		fmt.Println(p.Count, p.Name, w, "x", l)
	}
	plan, err := layout.Solve(context.Background(), layout.Job{Roll: &material.Roll{Width: 54 * unit.Inch}, Pieces: pieces}, layout.Options{Effort: 0.01})
	fmt.Println(plan.Need, plan.Proved, err)
	// Output:
	// 3 welt 54 in x 1 1/2 in
	// 1 welt 14 1/2 in x 1 1/2 in
	// 1 boxing 54 in x 5 in
	// 2 plate 23 in x 21 in
	// 30 1/2 in true <nil>
}

// Four seats and two ties.
func ExamplePieceOfRect() {
	seat, err := allowance.RectPanel{Name: "seat", Width: 22 * unit.Inch, Height: 20 * unit.Inch}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	piece, _ := layout.PieceOfRect(seat, 4)
	ties, _ := layout.PiecesOfStrips(made.Strip{Use: "tie", Count: 2, Width: 2 * unit.Inch, Length: 24 * unit.Inch})
	for _, p := range append([]layout.Piece{piece}, ties...) {
		w, l := p.Outline.Size()
		fmt.Println(p.Count, p.Name, w, "x", l, p.Turn)
	}
	// Output:
	// 4 seat 23 in x 21 in keep the grain
	// 2 tie 24 in x 2 in railroad
}

// Four chair backs with the motif in the middle. Where the motifs lie across the
// cloth decides whether they fit two abreast; where the bolt starts is not known, so
// the layout chooses it and a repeat more is bought.
func ExampleSolve_pattern() {
	damask := material.Roll{Width: 53 * unit.Inch, Repeat: 27 * unit.Inch, Across: 26*unit.Inch + unit.Inch/2,
		First: shape.Point{X: 13*unit.Inch + unit.Inch/4}, UnknownStart: true, Increment: unit.Yard / 8}
	back, err := layout.RectPiece("back", 22*unit.Inch, 24*unit.Inch, 4)
	if err != nil {
		fmt.Println(err)
		return
	}
	back.Phase = layout.OnMotif(shape.Point{X: 11 * unit.Inch, Y: 12 * unit.Inch})
	plan, err := layout.Solve(context.Background(), layout.Job{Roll: &damask, Pieces: []layout.Piece{back}}, layout.Options{Effort: 0.02})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("needs", plan.Need, "and", plan.Spare, "to find the start:", plan.Order, "proved:", plan.Proved)
	for _, note := range plan.PatternNotes(pattern.Inches) {
		fmt.Println(note)
	}
	// Output:
	// needs 51 in and 27 in to find the start: 81 in proved: true
	// repeats every 27 in along the roll and every 26 1/2 in across: measure before cutting
	// 27 in more are bought, once for the whole order, as the bolt may start anywhere between two motifs: cut it back until one lies 13 1/4 in from the left usable edge and 12 in from the end that is cut first
	// motif on the middle line: back
}

// What six drop-in seats leave of 3 yd at hand, as goods for another job.
func ExamplePlan_Leftovers() {
	seat, _ := layout.RectPiece("seat", 20*unit.Inch, 24*unit.Inch, 6)
	plan, err := layout.Solve(context.Background(), layout.Job{Roll: &material.Roll{Width: 54 * unit.Inch}, Pieces: []layout.Piece{seat}}, layout.Options{Effort: 0.001})
	if err != nil {
		fmt.Println(err)
		return
	}
	left, err := plan.Leftovers(3*unit.Yard, 12*unit.Inch, 12*unit.Inch)
	for _, s := range left {
		fmt.Println(s.Roll.Width, "x", s.Length)
	}
	fmt.Println(err)
	// Output:
	// 54 in x 36 in
	// 14 in x 72 in
	// <nil>
}

// A welt strip on a traced hide whose backbone runs 40 in from the left: where its two
// points lie, as a tape finds them.
func ExamplePlan_HidePlaces() {
	backbone := 40 * unit.Inch
	border, err := shape.Rectangle(80*unit.Inch, 90*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	strip, err := layout.RectPiece("welt", 2*unit.Inch, 60*unit.Inch, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := layout.Solve(context.Background(), layout.Job{
		Hides:  &layout.Hides{AtHand: []material.Skin{{ID: "A", Outline: border, Backbone: &backbone, Border: unit.Inch}}},
		Pieces: []layout.Piece{strip},
	}, layout.Options{Effort: 0.01})
	if err != nil {
		fmt.Println(err)
		return
	}
	places, err := plan.HidePlaces(plan.Used[0])
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range places {
		fmt.Println(p.Name, p.Width, "x", p.Length, "top", p.Top)
		for _, z := range p.Points {
			fmt.Println(pattern.Inches.Length(z.Across, unit.Nearest), "left:", z.Left, "of the backbone,", pattern.Inches.Length(z.FromTail, unit.Nearest), "from the tail")
		}
	}
	// Output:
	// welt 2 in x 60 in top 0 deg
	// 35 13/16 in left: true of the backbone, 2 9/16 in from the tail
	// 35 13/16 in left: true of the backbone, 62 9/16 in from the tail
}

// A hide full size, for a projector over the table: width and height are in millimetres.
func ExamplePlan_HideSVG() {
	border, err := shape.Rectangle(2*unit.Metre, 2*unit.Metre)
	if err != nil {
		fmt.Println(err)
		return
	}
	seat, err := layout.RectPiece("seat", 600*unit.Millimetre, 550*unit.Millimetre, 4)
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := layout.Solve(context.Background(), layout.Job{
		Hides:  &layout.Hides{AtHand: []material.Skin{{ID: "A", Outline: border}}},
		Pieces: []layout.Piece{seat},
	}, layout.Options{Effort: 0.01})
	if err != nil {
		fmt.Println(err)
		return
	}
	drawing, err := plan.HideSVG(plan.Used[0], layout.Picture{Title: "tan leather", Units: pattern.Metric})
	if err != nil {
		fmt.Println(err)
		return
	}
	head, _, _ := strings.Cut(drawing, " role")
	fmt.Println(head)
	fmt.Println(strings.Count(drawing, `class="piece"`), "cut lines")
	// Output:
	// <svg xmlns="http://www.w3.org/2000/svg" width="2080mm" height="2080mm" viewBox="0 0 2080 2080"
	// 4 cut lines
}
