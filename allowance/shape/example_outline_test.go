package shape_test

import (
	"errors"
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

func ExampleTrapezoid() {
	o, err := shape.Trapezoid(22*unit.Inch, 18*unit.Inch, 20*unit.Inch, 2*unit.Inch)
	fmt.Println(o.Edges(), o.Area(), err)
	// Output:
	// [bottom right top left] 400 sq in <nil>
}

func ExampleRectangle() {
	o, err := shape.Rectangle(20*unit.Inch, 24*unit.Inch)
	fmt.Println(o, o.Perimeter(), err)
	// Output:
	// outline 20 in x 24 in: bottom, right, top, left 88 in <nil>
}

func ExampleTriangle() {
	o, err := shape.Triangle(30*unit.Inch, 40*unit.Inch, 50*unit.Inch)
	fmt.Println(o.Area().Decimal(unit.SquareInch, 1, unit.Nearest), err)
	// Output:
	// 600.0 sq in <nil>
}

func ExampleRegularPolygon() {
	o, err := shape.RegularPolygon(8, 10*unit.Inch)
	fmt.Println(len(o.Edges()), o.Area().Decimal(unit.SquareInch, 2, unit.Nearest), o.Convex(), err)
	// Output:
	// 8 482.84 sq in true <nil>
}

func ExampleCircle() {
	o, err := shape.Circle(18 * unit.Inch)
	fmt.Println(o.Perimeter().Decimal(unit.Inch, 2, unit.Nearest), err)
	// Output:
	// 56.55 in <nil>
}

func ExampleEllipse() {
	o, err := shape.Ellipse(24*unit.Inch, 16*unit.Inch)
	fmt.Println(o.Perimeter().Decimal(unit.Inch, 4, unit.Nearest), err)
	// Output:
	// 63.4618 in <nil>
}

func ExampleStadium() {
	o, err := shape.Stadium(48*unit.Inch, 20*unit.Inch)
	l, _ := o.EdgeLength("right")
	fmt.Println(l.Decimal(unit.Inch, 2, unit.Nearest), err)
	// Output:
	// 31.42 in <nil>
}

func ExampleRoundedRectangle() {
	o, err := shape.RoundedRectangle(24*unit.Inch, 20*unit.Inch, shape.CornerRadii{TopLeft: 3 * unit.Inch, TopRight: 3 * unit.Inch})
	fmt.Println(o.Edges(), err)
	// Output:
	// [bottom right top right corner top top left corner left] <nil>
}

func ExamplePolygon() {
	_, err := shape.Polygon(
		shape.Point{}, shape.Point{X: 10 * unit.Inch}, shape.Point{Y: 8 * unit.Inch}, shape.Point{X: 10 * unit.Inch, Y: 8 * unit.Inch})
	var crossing *shape.CrossingError
	if errors.As(err, &crossing) {
		fmt.Println(crossing.First, "and", crossing.Second, "meet at", crossing.At)
	}
	// Output:
	// side 2 and side 4 meet at (5 in, 4 in)
}

func ExampleChord() {
	o, err := shape.Chord(48*unit.Inch, 3*unit.Inch)
	l, _ := o.EdgeLength("arc")
	fmt.Println(l.Decimal(unit.Inch, 3, unit.Nearest), err)
	// Output:
	// 48.498 in <nil>
}

func ExampleCrowned() {
	o, err := shape.Crowned(20*unit.Inch, 24*unit.Inch, 2*unit.Inch)
	w, h := o.Size()
	fmt.Println(w, h, err)
	// Output:
	// 20 in 26 in <nil>
}

// The wing of a wing chair measured at four stations up its middle.
func ExampleStations() {
	o, err := shape.Stations([]shape.Station{
		shape.CentredStation(0, 6*unit.Inch),
		shape.CentredStation(8*unit.Inch, 9*unit.Inch),
		shape.CentredStation(14*unit.Inch, 8*unit.Inch),
		shape.CentredStation(20*unit.Inch, 4*unit.Inch),
	}, true)
	l, _ := o.EdgeLength("left")
	fmt.Println(o.Area().Decimal(unit.SquareInch, 1, unit.Nearest), l.Decimal(unit.Inch, 2, unit.Nearest), err)
	// Output:
	// 153.4 sq in 20.55 in <nil>
}

// Only the right half of an inside back was measured.
func ExampleHalf() {
	half := shape.TraceFrom(shape.Point{X: 12 * unit.Inch}).
		Edge("bottom").Line(shape.Point{X: 22 * unit.Inch}).
		Edge("side").Line(shape.Point{X: 24 * unit.Inch, Y: 22 * unit.Inch}).
		Edge("top").Cubic(shape.Point{X: 23 * unit.Inch, Y: 26 * unit.Inch}, shape.Point{X: 18 * unit.Inch, Y: 28 * unit.Inch}, shape.Point{X: 12 * unit.Inch, Y: 28 * unit.Inch})
	o, err := shape.Half(half)
	w, h := o.Size()
	fmt.Println(o.Edges(), w, h, err)
	// Output:
	// [bottom side top side mirrored] 24 in 28 in <nil>
}

// Path data as a drawing program writes it, one unit to the millimetre.
func ExamplePath() {
	o, err := shape.Path("M0 600 H450 V80 C450 20 350 0 225 0 S0 20 0 80 Z", unit.Millimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	o, err = o.Joined("top", "side 3", "side 4")
	w, h := o.Size()
	fmt.Println(o.Edges(), w, h, err)

	_, err = shape.Path("M0 600 H450 V", unit.Millimetre)
	fmt.Println(err)
	// Output:
	// [top side 5 side 1 side 2] 450 mm 600 mm <nil>
	// data: “at byte 13”: path data malformed; want a number
}

// A panel that was traced at the edge of the cloth, with 3 in to pull over below
// and half an inch elsewhere, is brought back to its line of stitches.
func ExampleOutline_Inset() {
	cut, err := shape.Trapezoid(24*unit.Inch, 16*unit.Inch, 20*unit.Inch, 4*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	seam := unit.Inch / 2
	finished, err := cut.Inset(0, []unit.Length{3 * unit.Inch, seam, seam, seam})
	if err != nil {
		fmt.Println(err)
		return
	}
	_, back, err := finished.Offsets(shape.OffsetOptions{}, []unit.Length{3 * unit.Inch, seam, seam, seam})
	fmt.Println(finished.Area().Decimal(unit.SquareInch, 2, unit.Nearest), back[0].Area == cut.Area(), err)
	// Output:
	// 304.92 sq in true <nil>
}

// A panel 20 in wide and 18 in high at its sides, whose upper edge rises 2 in.
func ExampleTrace_Arc() {
	o, err := shape.TraceFrom(shape.Point{}).
		Edge("bottom").Line(shape.Point{X: 20 * unit.Inch}).
		Edge("right").Line(shape.Point{X: 20 * unit.Inch, Y: 18 * unit.Inch}).
		Edge("crown").Arc(shape.Point{Y: 18 * unit.Inch}, 2*unit.Inch).
		Edge("left").Line(shape.Point{}).Close()
	if err != nil {
		fmt.Println(err)
		return
	}
	_, height := o.Size()
	l, err := o.EdgeLength("crown")
	fmt.Println("crown", l.Decimal(unit.Inch, 3, unit.Nearest), "height", height, err)
	// Output:
	// crown 20.529 in height 20 in <nil>
}
