package allowance_test

import (
	"errors"
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

func sixteenths(l unit.Length) string { return l.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest) }

// The window-seat cushion of the Larkfield Reading Room: a bay with a curved
// front, boxed all round, hinged on a fold at the back.
func ExamplePanel_Cut() {
	seat, err := allowance.TraceFrom(allowance.Point{}).
		Edge("front").Arc(allowance.Point{X: 60 * unit.Inch}, 4*unit.Inch).
		Edge("right").Line(allowance.Point{X: 54 * unit.Inch, Y: 18 * unit.Inch}).
		Edge("back").Line(allowance.Point{X: 6 * unit.Inch, Y: 18 * unit.Inch}).
		Edge("left").Close()
	if err != nil {
		fmt.Println(err)
		return
	}
	cut, err := allowance.Panel{
		Name:     "window seat, top",
		Outline:  seat,
		AllEdges: allowance.Edge{Finish: allowance.BoxedSeam},
		Edges:    map[string]allowance.Edge{"back": {Finish: allowance.Fold}},
		Notches:  []allowance.Notch{{Edge: "right", At: 9 * unit.Inch}},
	}.Cut()
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
	off, err := cut.SeamDeviation()
	fmt.Println("seam line found again within 0.1 mm:", err == nil && off <= cut.Tolerance)
	// Output:
	// cut 61 5/16 in x 22 5/8 in
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
	seat, err := allowance.RoundedRectangleOutline(20*unit.Inch, 18*unit.Inch, allowance.SameRadii(2*unit.Inch))
	if err != nil {
		fmt.Println(err)
		return
	}
	cut, err := allowance.Panel{
		Outline:  seat,
		AllEdges: allowance.Edge{Finish: allowance.PullOver, Handling: unit.Inch},
		Across:   leather, Along: leather,
		Corner: allowance.RoundCorner,
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

func ExampleTrapezoidOutline() {
	o, err := allowance.TrapezoidOutline(22*unit.Inch, 18*unit.Inch, 20*unit.Inch, 2*unit.Inch)
	fmt.Println(o.Edges(), o.Area(), err)
	// Output:
	// [bottom right top left] 400 sq in <nil>
}

func ExampleRectangleOutline() {
	o, err := allowance.RectangleOutline(20*unit.Inch, 24*unit.Inch)
	fmt.Println(o, o.Perimeter(), err)
	// Output:
	// outline 20 in x 24 in: bottom, right, top, left 88 in <nil>
}

func ExampleTriangleOutline() {
	o, err := allowance.TriangleOutline(30*unit.Inch, 40*unit.Inch, 50*unit.Inch)
	fmt.Println(o.Area().Decimal(unit.SquareInch, 1, unit.Nearest), err)
	// Output:
	// 600.0 sq in <nil>
}

func ExampleRegularPolygonOutline() {
	o, err := allowance.RegularPolygonOutline(8, 10*unit.Inch)
	fmt.Println(len(o.Edges()), o.Area().Decimal(unit.SquareInch, 2, unit.Nearest), o.Convex(), err)
	// Output:
	// 8 482.84 sq in true <nil>
}

func ExampleCircleOutline() {
	o, err := allowance.CircleOutline(18 * unit.Inch)
	fmt.Println(o.Perimeter().Decimal(unit.Inch, 2, unit.Nearest), err)
	// Output:
	// 56.55 in <nil>
}

func ExampleEllipseOutline() {
	o, err := allowance.EllipseOutline(24*unit.Inch, 16*unit.Inch)
	fmt.Println(o.Perimeter().Decimal(unit.Inch, 4, unit.Nearest), err)
	// Output:
	// 63.4618 in <nil>
}

func ExampleStadiumOutline() {
	o, err := allowance.StadiumOutline(48*unit.Inch, 20*unit.Inch)
	l, _ := o.EdgeLength("right")
	fmt.Println(l.Decimal(unit.Inch, 2, unit.Nearest), err)
	// Output:
	// 31.42 in <nil>
}

func ExampleRoundedRectangleOutline() {
	o, err := allowance.RoundedRectangleOutline(24*unit.Inch, 20*unit.Inch, allowance.CornerRadii{TopLeft: 3 * unit.Inch, TopRight: 3 * unit.Inch})
	fmt.Println(o.Edges(), err)
	// Output:
	// [bottom right top right corner top top left corner left] <nil>
}

func ExamplePolygonOutline() {
	_, err := allowance.PolygonOutline(
		allowance.Point{}, allowance.Point{X: 10 * unit.Inch}, allowance.Point{Y: 8 * unit.Inch}, allowance.Point{X: 10 * unit.Inch, Y: 8 * unit.Inch})
	var crossing *allowance.CrossingError
	if errors.As(err, &crossing) {
		fmt.Println(crossing.First, "and", crossing.Second, "meet at", crossing.At)
	}
	// Output:
	// side 2 and side 4 meet at (5 in, 4 in)
}

func ExampleChordOutline() {
	o, err := allowance.ChordOutline(48*unit.Inch, 3*unit.Inch)
	l, _ := o.EdgeLength("arc")
	fmt.Println(l.Decimal(unit.Inch, 3, unit.Nearest), err)
	// Output:
	// 48.498 in <nil>
}

func ExampleCrownedOutline() {
	o, err := allowance.CrownedOutline(20*unit.Inch, 24*unit.Inch, 2*unit.Inch)
	w, h := o.Size()
	fmt.Println(w, h, err)
	// Output:
	// 20 in 26 in <nil>
}

// The wing of a wing chair measured at four stations up its middle.
func ExampleStationOutline() {
	o, err := allowance.StationOutline([]allowance.Station{
		allowance.CentredStation(0, 6*unit.Inch),
		allowance.CentredStation(8*unit.Inch, 9*unit.Inch),
		allowance.CentredStation(14*unit.Inch, 8*unit.Inch),
		allowance.CentredStation(20*unit.Inch, 4*unit.Inch),
	}, true)
	l, _ := o.EdgeLength("left")
	fmt.Println(o.Area().Decimal(unit.SquareInch, 1, unit.Nearest), l.Decimal(unit.Inch, 2, unit.Nearest), err)
	// Output:
	// 153.4 sq in 20.55 in <nil>
}

// Only the right half of an inside back was measured.
func ExampleHalfOutline() {
	half := allowance.TraceFrom(allowance.Point{X: 12 * unit.Inch}).
		Edge("bottom").Line(allowance.Point{X: 22 * unit.Inch}).
		Edge("side").Line(allowance.Point{X: 24 * unit.Inch, Y: 22 * unit.Inch}).
		Edge("top").Cubic(allowance.Point{X: 23 * unit.Inch, Y: 26 * unit.Inch}, allowance.Point{X: 18 * unit.Inch, Y: 28 * unit.Inch}, allowance.Point{X: 12 * unit.Inch, Y: 28 * unit.Inch})
	o, err := allowance.HalfOutline(half)
	w, h := o.Size()
	fmt.Println(o.Edges(), w, h, err)
	// Output:
	// [bottom side top side, mirrored] 24 in 28 in <nil>
}

// Path data as a drawing program writes it, one unit to the millimetre.
func ExamplePathOutline() {
	o, err := allowance.PathOutline("M0 600 H450 V80 C450 20 350 0 225 0 S0 20 0 80 Z", unit.Millimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	o, err = o.Joined("top", "side 3", "side 4")
	w, h := o.Size()
	fmt.Println(o.Edges(), w, h, err)

	_, err = allowance.PathOutline("M0 600 H450 V", unit.Millimetre)
	fmt.Println(err)
	// Output:
	// [top side 5 side 1 side 2] 450 mm 600 mm <nil>
	// data: “at byte 13”: path data malformed; want a number
}
