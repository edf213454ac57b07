package shape_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// inches writes a result to a thousandth of an inch, or its error.
func inches(l unit.Length, err error) string {
	if err != nil {
		return err.Error()
	}
	return l.Decimal(unit.Inch, 3, unit.Nearest)
}

// squareInches writes a result to a thousandth of a square inch, or its error.
func squareInches(a unit.Area, err error) string {
	if err != nil {
		return err.Error()
	}
	return a.Decimal(unit.SquareInch, 3, unit.Nearest)
}

func ExampleCircleArea() {
	fmt.Println(squareInches(shape.CircleArea(18 * unit.Inch)))
	// Output:
	// 254.469 sq in
}

func ExampleCircleCircumference() {
	fmt.Println(inches(shape.CircleCircumference(18 * unit.Inch)))
	// Output:
	// 56.549 in
}

// The crown of a round stool: 4 in high, from a sphere of 10 in radius.
func ExampleSphericalCapArea() {
	fmt.Println(squareInches(shape.SphericalCapArea(10*unit.Inch, 4*unit.Inch)))
	// Output:
	// 251.327 sq in
}

func ExampleEllipseArea() {
	fmt.Println(squareInches(shape.EllipseArea(12*unit.Inch, 8*unit.Inch)))
	// Output:
	// 301.593 sq in
}

func ExampleEllipsePerimeter() {
	fmt.Println(inches(shape.EllipsePerimeter(12*unit.Inch, 8*unit.Inch)))
	// Output:
	// 63.462 in
}

// At 10 to 1 the first approximation falls short by 0.07 in, the second by a
// thousandth.
func ExampleEllipsePerimeterRamanujan1() {
	a, b := 20*unit.Inch, 2*unit.Inch
	fmt.Println(inches(shape.EllipsePerimeterRamanujan1(a, b)))
	fmt.Println(inches(shape.EllipsePerimeter(a, b)))
	// Output:
	// 81.211 in
	// 81.279 in
}

func ExampleEllipsePerimeterRamanujan2() {
	fmt.Println(inches(shape.EllipsePerimeterRamanujan2(20*unit.Inch, 2*unit.Inch)))
	// Output:
	// 81.279 in
}

// A bench seat 48 in long over all and 20 in wide, round at both ends.
func ExampleStadiumArea() {
	fmt.Println(squareInches(shape.StadiumArea(10*unit.Inch, 28*unit.Inch)))
	// Output:
	// 874.159 sq in
}

func ExampleStadiumPerimeter() {
	fmt.Println(inches(shape.StadiumPerimeter(10*unit.Inch, 28*unit.Inch)))
	// Output:
	// 118.832 in
}

func ExampleRoundedRectangleArea() {
	fmt.Println(squareInches(shape.RoundedRectangleArea(24*unit.Inch, 20*unit.Inch, 3*unit.Inch)))
	// Output:
	// 472.274 sq in
}

func ExampleRoundedRectanglePerimeter() {
	fmt.Println(inches(shape.RoundedRectanglePerimeter(24*unit.Inch, 20*unit.Inch, 3*unit.Inch)))
	// Output:
	// 82.850 in
}

// A drop-in seat of 22 in at the front, 18 in at the back and 20 in deep.
func ExampleTrapezoidArea() {
	fmt.Println(squareInches(shape.TrapezoidArea(22*unit.Inch, 18*unit.Inch, 20*unit.Inch)))
	// Output:
	// 400.000 sq in
}

func ExampleTrapezoidPerimeter() {
	fmt.Println(inches(shape.TrapezoidPerimeter(22*unit.Inch, 18*unit.Inch, 20*unit.Inch)))
	// Output:
	// 80.200 in
}

func ExampleTrapezoidSide() {
	fmt.Println(inches(shape.TrapezoidSide(22*unit.Inch, 18*unit.Inch, 20*unit.Inch)))
	// Output:
	// 20.100 in
}

func ExampleRegularPolygonArea() {
	fmt.Println(squareInches(shape.RegularPolygonArea(6, 10*unit.Inch)))
	// Output:
	// 259.808 sq in
}

func ExampleRegularPolygonPerimeter() {
	fmt.Println(inches(shape.RegularPolygonPerimeter(8, 10*unit.Inch)))
	// Output:
	// 80.000 in
}

func ExampleRegularPolygonApothem() {
	fmt.Println(inches(shape.RegularPolygonApothem(6, 10*unit.Inch)))
	// Output:
	// 8.660 in
}

func ExampleRegularPolygonCircumradius() {
	fmt.Println(inches(shape.RegularPolygonCircumradius(6, 10*unit.Inch)))
	// Output:
	// 10.000 in
}

// A front rail 48 in long bows out by 3 in.
func ExampleArcFromChord() {
	a, err := shape.ArcFromChord(48*unit.Inch, 3*unit.Inch)
	fmt.Println(inches(a.Radius, err))
	fmt.Println(inches(a.Length, err))
	fmt.Println(squareInches(a.SegmentArea, err))
	// Output:
	// 97.500 in
	// 48.498 in
	// 96.299 sq in
}

// How far 20 1/2 in of cloth stand out over 20 in.
func ExampleArcFromLength() {
	a, err := shape.ArcFromLength(20*unit.Inch, 41*unit.Inch/2)
	fmt.Println(inches(a.Rise, err))
	// Output:
	// 1.944 in
}

// An ellipse cut 1/2 in larger all round.
func ExampleSteinerArea() {
	a, b := 12*unit.Inch, 8*unit.Inch
	area, err := shape.EllipseArea(a, b)
	if err != nil {
		fmt.Println(err)
		return
	}
	perimeter, err := shape.EllipsePerimeter(a, b)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(squareInches(shape.SteinerArea(area, perimeter, unit.Inch/2)))
	// Output:
	// 334.109 sq in
}

func ExampleSteinerPerimeter() {
	fmt.Println(inches(shape.SteinerPerimeter(88*unit.Inch, unit.Inch/2)))
	// Output:
	// 91.142 in
}

// A 20 x 24 in plate with mitred corners is 21 x 25 in.
func ExampleMitredOffsetArea() {
	right := 90 * unit.Degree
	mitre, err := shape.MitreSum(right, right, right, right)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(squareInches(shape.MitredOffsetArea(480*unit.SquareInch, 88*unit.Inch, unit.Inch/2, mitre)))
	// Output:
	// 525.000 sq in
}

func ExampleMitredOffsetPerimeter() {
	fmt.Println(inches(shape.MitredOffsetPerimeter(88*unit.Inch, unit.Inch/2, 4)))
	// Output:
	// 92.000 in
}

// A hexagon: six corners of 60 degrees.
func ExampleMitreSum() {
	e := 60 * unit.Degree
	sum, err := shape.MitreSum(e, e, e, e, e, e)
	fmt.Printf("%.4f %v\n", float64(sum), err)
	// Output:
	// 3.4641 <nil>
}
