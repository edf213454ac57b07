package allowance_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
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
	fmt.Println(squareInches(allowance.CircleArea(18 * unit.Inch)))
	// Output:
	// 254.469 sq in
}

func ExampleCircleCircumference() {
	fmt.Println(inches(allowance.CircleCircumference(18 * unit.Inch)))
	// Output:
	// 56.549 in
}

// The crown of a round stool: 4 in high, from a sphere of 10 in radius.
func ExampleSphericalCapArea() {
	fmt.Println(squareInches(allowance.SphericalCapArea(10*unit.Inch, 4*unit.Inch)))
	// Output:
	// 251.327 sq in
}

func ExampleEllipseArea() {
	fmt.Println(squareInches(allowance.EllipseArea(12*unit.Inch, 8*unit.Inch)))
	// Output:
	// 301.593 sq in
}

func ExampleEllipsePerimeter() {
	fmt.Println(inches(allowance.EllipsePerimeter(12*unit.Inch, 8*unit.Inch)))
	// Output:
	// 63.462 in
}

// At 10 to 1 the first approximation falls short by 0.07 in, the second by a
// thousandth.
func ExampleEllipsePerimeterRamanujan1() {
	a, b := 20*unit.Inch, 2*unit.Inch
	fmt.Println(inches(allowance.EllipsePerimeterRamanujan1(a, b)))
	fmt.Println(inches(allowance.EllipsePerimeter(a, b)))
	// Output:
	// 81.211 in
	// 81.279 in
}

func ExampleEllipsePerimeterRamanujan2() {
	fmt.Println(inches(allowance.EllipsePerimeterRamanujan2(20*unit.Inch, 2*unit.Inch)))
	// Output:
	// 81.279 in
}

// A bench seat 48 in long over all and 20 in wide, round at both ends.
func ExampleStadiumArea() {
	fmt.Println(squareInches(allowance.StadiumArea(10*unit.Inch, 28*unit.Inch)))
	// Output:
	// 874.159 sq in
}

func ExampleStadiumPerimeter() {
	fmt.Println(inches(allowance.StadiumPerimeter(10*unit.Inch, 28*unit.Inch)))
	// Output:
	// 118.832 in
}

func ExampleRoundedRectangleArea() {
	fmt.Println(squareInches(allowance.RoundedRectangleArea(24*unit.Inch, 20*unit.Inch, 3*unit.Inch)))
	// Output:
	// 472.274 sq in
}

func ExampleRoundedRectanglePerimeter() {
	fmt.Println(inches(allowance.RoundedRectanglePerimeter(24*unit.Inch, 20*unit.Inch, 3*unit.Inch)))
	// Output:
	// 82.850 in
}

// A drop-in seat of 22 in at the front, 18 in at the back and 20 in deep.
func ExampleTrapezoidArea() {
	fmt.Println(squareInches(allowance.TrapezoidArea(22*unit.Inch, 18*unit.Inch, 20*unit.Inch)))
	// Output:
	// 400.000 sq in
}

func ExampleTrapezoidPerimeter() {
	fmt.Println(inches(allowance.TrapezoidPerimeter(22*unit.Inch, 18*unit.Inch, 20*unit.Inch)))
	// Output:
	// 80.200 in
}

func ExampleTrapezoidSide() {
	fmt.Println(inches(allowance.TrapezoidSide(22*unit.Inch, 18*unit.Inch, 20*unit.Inch)))
	// Output:
	// 20.100 in
}

func ExampleRegularPolygonArea() {
	fmt.Println(squareInches(allowance.RegularPolygonArea(6, 10*unit.Inch)))
	// Output:
	// 259.808 sq in
}

func ExampleRegularPolygonPerimeter() {
	fmt.Println(inches(allowance.RegularPolygonPerimeter(8, 10*unit.Inch)))
	// Output:
	// 80.000 in
}

func ExampleRegularPolygonApothem() {
	fmt.Println(inches(allowance.RegularPolygonApothem(6, 10*unit.Inch)))
	// Output:
	// 8.660 in
}

func ExampleRegularPolygonCircumradius() {
	fmt.Println(inches(allowance.RegularPolygonCircumradius(6, 10*unit.Inch)))
	// Output:
	// 10.000 in
}

// A front rail 48 in long bows out by 3 in.
func ExampleArcFromChord() {
	a, err := allowance.ArcFromChord(48*unit.Inch, 3*unit.Inch)
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
	a, err := allowance.ArcFromLength(20*unit.Inch, 41*unit.Inch/2)
	fmt.Println(inches(a.Rise, err))
	// Output:
	// 1.944 in
}

// An ellipse cut 1/2 in larger all round.
func ExampleSteinerArea() {
	a, b := 12*unit.Inch, 8*unit.Inch
	area, err := allowance.EllipseArea(a, b)
	if err != nil {
		fmt.Println(err)
		return
	}
	perimeter, err := allowance.EllipsePerimeter(a, b)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(squareInches(allowance.SteinerArea(area, perimeter, unit.Inch/2)))
	// Output:
	// 334.109 sq in
}

func ExampleSteinerPerimeter() {
	fmt.Println(inches(allowance.SteinerPerimeter(88*unit.Inch, unit.Inch/2)))
	// Output:
	// 91.142 in
}

// A 20 x 24 in plate with mitred corners is 21 x 25 in.
func ExampleMitredOffsetArea() {
	right := 90 * unit.Degree
	mitre, err := allowance.MitreSum(right, right, right, right)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(squareInches(allowance.MitredOffsetArea(480*unit.SquareInch, 88*unit.Inch, unit.Inch/2, mitre)))
	// Output:
	// 525.000 sq in
}

func ExampleMitredOffsetPerimeter() {
	fmt.Println(inches(allowance.MitredOffsetPerimeter(88*unit.Inch, unit.Inch/2, 4)))
	// Output:
	// 92.000 in
}

// A hexagon: six corners of 60 degrees.
func ExampleMitreSum() {
	e := 60 * unit.Degree
	sum, err := allowance.MitreSum(e, e, e, e, e, e)
	fmt.Printf("%.4f %v\n", float64(sum), err)
	// Output:
	// 3.4641 <nil>
}

// A round ottoman that tapers from 20 to 12 in across over a height of 8 in.
func ExampleConeFrustum_Develop() {
	s, err := allowance.ConeFrustum{Large: 10 * unit.Inch, Small: 6 * unit.Inch, Height: 8 * unit.Inch}.Develop()
	fmt.Println("radii", inches(s.Outer, err), inches(s.Inner, err))
	fmt.Println("angle", s.Angle.Decimal(unit.Degree, 2, unit.Nearest))
	fmt.Println("cut from", inches(s.BoxWidth, err), "x", inches(s.BoxHeight, err))
	// Output:
	// radii 22.361 in 13.416 in
	// angle 161.00 deg
	// cut from 44.108 in x 20.146 in
}

// The inside back of a tub chair, half way round, stapled at the bottom.
func ExampleTubBand_Cut() {
	c, err := allowance.TubBand{
		Shape:  allowance.ConeFrustum{Large: 14 * unit.Inch, Small: 12 * unit.Inch, Height: 16 * unit.Inch, Wrap: 180 * unit.Degree},
		Narrow: allowance.Edge{Finish: allowance.PullOver, Handling: unit.Inch},
	}.Cut()
	fmt.Println("radii", inches(c.CutOuter, err), inches(c.CutInner, err))
	fmt.Println("width", inches(c.CutSlant, err))
	// Output:
	// radii 113.372 in 94.747 in
	// width 18.625 in
}

// Half a sphere of 18 in in six gores.
func ExampleDome_Gore() {
	g, err := allowance.Dome{Radius: 9 * unit.Inch, Gores: 6, Intervals: 3}.Gore()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(g.Count, "gores", inches(g.Width, nil), "x", inches(g.Length, nil))
	for _, s := range g.Stations {
		fmt.Println(inches(s.FromRim, nil), inches(s.HalfWidth, nil))
	}
	// Output:
	// 6 gores 9.425 in x 14.137 in
	// 0.000 in 4.712 in
	// 4.712 in 4.081 in
	// 9.425 in 2.356 in
	// 14.137 in 0.000 in
}

func ExampleDome_HalfWidth() {
	d := allowance.Dome{Radius: 9 * unit.Inch, Gores: 6}
	fmt.Println(inches(d.HalfWidth(30 * unit.Degree)))
	d.Form = allowance.ChordForm
	fmt.Println(inches(d.HalfWidth(30 * unit.Degree)))
	// Output:
	// 4.081 in
	// 3.897 in
}
