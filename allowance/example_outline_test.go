package allowance_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

func sixteenths(l unit.Length) string { return l.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest) }

// The window-seat cushion of the Larkfield Reading Room: a bay with a curved
// front, boxed all round, hinged on a fold at the back.
func ExamplePanel_Cut() {
	seat, err := shape.TraceFrom(shape.Point{}).
		Edge("front").Arc(shape.Point{X: 60 * unit.Inch}, 4*unit.Inch).
		Edge("right").Line(shape.Point{X: 54 * unit.Inch, Y: 18 * unit.Inch}).
		Edge("back").Line(shape.Point{X: 6 * unit.Inch, Y: 18 * unit.Inch}).
		Edge("left").Close()
	if err != nil {
		fmt.Println(err)
		return
	}
	panel := allowance.Panel{
		Name:     "window seat, top",
		Outline:  seat,
		AllEdges: allowance.Edge{Finish: allowance.BoxedSeam},
		Edges:    map[string]allowance.Edge{"back": {Finish: allowance.Fold}},
		Notches:  []allowance.Notch{{Edge: "right", At: 9 * unit.Inch}},
	}
	cut, err := panel.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("cut", sixteenths(cut.Width), "x", sixteenths(cut.Height))
	fmt.Println("cloth", cut.Area.Decimal(unit.SquareFoot, 2, unit.Nearest))
	for _, e := range cut.Edges {
		fmt.Println(e.Name, "|", sixteenths(e.Length), "|", e.Finish, "|", e.Total())
	}
	fmt.Println("boxing", sixteenths(cut.SeamLength(allowance.BoxedSeam)))
	fmt.Println("notch", sixteenths(cut.Notches[0].Seam.X), sixteenths(cut.Notches[0].Seam.Y))
	off, err := panel.SeamDeviation()
	fmt.Println("seam line found again within 0.1 mm:", err == nil && off <= cut.Tolerance)
	// Output:
	// cut 61 5/16 in x 22 11/16 in
	// cloth 8.21 sq ft
	// front | 60 11/16 in | boxed seam | 1/2 in
	// right | 19 in | boxed seam | 1/2 in
	// back | 48 in | fold | 0 in
	// left | 19 in | boxed seam | 1/2 in
	// boxing 98 5/8 in
	// notch 57 1/8 in 8 9/16 in
	// seam line found again within 0.1 mm: true
}

// A leather seat: stretch taken out of the width and the height, an inch left
// to work with, marked by the trim line.
func ExamplePanelCut() {
	leather, _ := allowance.LeatherStretch()
	seat, err := shape.RoundedRectangle(20*unit.Inch, 18*unit.Inch, shape.SameRadii(2*unit.Inch))
	if err != nil {
		fmt.Println(err)
		return
	}
	cut, err := allowance.Panel{
		Outline:  seat,
		AllEdges: allowance.Edge{Finish: allowance.PullOver, Handling: unit.Inch},
		Across:   leather, Along: leather,
		Corner: shape.RoundCorner,
	}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("finished", cut.FinishedArea.Decimal(unit.SquareInch, 1, unit.Nearest))
	fmt.Println("seam    ", cut.SeamArea.Decimal(unit.SquareInch, 1, unit.Nearest))
	fmt.Println("trim    ", cut.TrimArea.Decimal(unit.SquareInch, 1, unit.Nearest))
	fmt.Println("cut     ", cut.Area.Decimal(unit.SquareInch, 1, unit.Nearest))
	// Output:
	// finished 356.6 sq in
	// seam     339.0 sq in
	// trim     412.9 sq in
	// cut      493.0 sq in
}
