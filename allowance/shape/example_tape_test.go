package shape_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// thousandths writes a worked-out length.
func thousandths(l unit.Length) string { return l.Decimal(unit.Inch, 3, unit.Nearest) }

// An inside arm by four sides and both diagonals, each within a sixteenth.
func ExampleForm_Taped() {
	arm := shape.Form{Quadrilateral: &shape.QuadrilateralForm{
		Bottom: 24 * in, Right: 18*in + in/4, Top: 21*in + in/2, Left: 18 * in, Diagonal: 29*in + in/2, SecondDiagonal: 28*in + 5*in/8,
	}}
	t, err := arm.Taped()
	if err != nil {
		fmt.Println(err)
		return
	}
	w, h, a := t.Tolerance.Width, t.Tolerance.Height, t.Tolerance.Area
	fmt.Printf("%s wide +- %s, at worst %s\n", thousandths(w.Size), thousandths(w.Likely()), thousandths(w.Worst))
	fmt.Printf("%s high +- %s, at worst %s\n", thousandths(h.Size), thousandths(h.Likely()), thousandths(h.Worst))
	fmt.Printf("%s +- %s\n", a.Size.Decimal(unit.SquareInch, 2, unit.Nearest), a.Likely().Decimal(unit.SquareInch, 2, unit.Nearest))
	fmt.Println("the second diagonal is off by", thousandths(t.Tolerance.Diagonal.Misfit))
	// Output:
	// 24.002 in wide +- 0.067 in, at worst 0.101 in
	// 18.234 in high +- 0.068 in, at worst 0.095 in
	// 411.23 sq in +- 1.08 sq in
	// the second diagonal is off by 0.012 in
}

// A diagonal that was read three eighths short: the other measures say so.
func ExampleQuadrilateralForm() {
	_, err := shape.Form{Quadrilateral: &shape.QuadrilateralForm{
		Bottom: 24 * in, Right: 18*in + in/4, Top: 21*in + in/2, Left: 18 * in, Diagonal: 29*in + in/2, SecondDiagonal: 28*in + in/4,
	}}.Outline()
	fmt.Println(err)
	// Output:
	// quadrilateral.second_diagonal: “28 1/4 in”: measures do not agree; want 28.613 in, as the sides and the first diagonal have it; it is off by 0.363 in, where the tape explains 0.220 in at three sigma: measure again, first the diagonal, which alone would cure it with 0.351 in more
}

// A wing measured from both ends of its bottom edge.
func ExampleBaselineForm() {
	wing := shape.Form{Names: []string{"bottom", "front", "crown", "back"}, Baseline: &shape.BaselineForm{Length: 24 * in, Points: []shape.BaselinePointForm{
		{FromStart: 26 * in, FromEnd: 14 * in},
		{FromStart: 13 * in, FromEnd: 22*in + in/2},
	}}}
	t, err := wing.Taped()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(t.Outline)
	for i, e := range t.Tolerance.Edges {
		fmt.Printf("%s %s +- %s\n", e.Name, thousandths(e.Length.Size), thousandths(e.Length.Likely()))
		if i < len(t.Tolerance.Angles) {
			fmt.Printf("  the tapes meet at %v at point %d\n", t.Tolerance.Angles[i], i+1)
		}
	}
	// Output:
	// outline 24 in x 351.952724 mm: bottom, front, crown, back
	// bottom 24.000 in +- 0.063 in
	//   the tapes meet at 66.009 deg at point 1
	// front 14.000 in +- 0.063 in
	//   the tapes meet at 80.232 deg at point 2
	// crown 17.126 in +- 0.127 in
	// back 13.000 in +- 0.063 in
}

// Offsets from a straight edge every 4 in: the seam of the other side.
func ExampleOffsetsForm() {
	back := shape.Form{Offsets: &shape.OffsetsForm{Step: 4 * in, Smooth: true,
		Right: []unit.Length{10 * in, 10*in + 3*in/4, 11*in + in/8, 10*in + 7*in/8, 10*in + in/4}}}
	t, err := back.Taped()
	if err != nil {
		fmt.Println(err)
		return
	}
	seam := t.Tolerance.Edges[1]
	fmt.Printf("%s %s +- %s, of which the wobble of the points adds %s\n", seam.Name, thousandths(seam.Length.Size), thousandths(seam.Length.Likely()), thousandths(seam.Length.Bias))
	// Output:
	// right 16.152 in +- 0.075 in, of which the wobble of the points adds 0.002 in
}

func ExampleCrossTapes() {
	p, angle, err := shape.CrossTapes(24*in, 13*in, 22*in+in/2, 0)
	fmt.Println(thousandths(p.At.X), thousandths(p.At.Y), angle, "sigma", thousandths(p.Sigma()), err)
	// Output:
	// 4.974 in 12.011 in 80.232 deg sigma 0.052 in <nil>
}

func ExampleTapeSigma() {
	s, err := shape.TapeSigma(shape.DefaultTapeTolerance)
	fmt.Println(s, err)
	// Output:
	// 0.916544 mm <nil>
}

// The bow of a rail: the arc is good to a tenth of an inch, the radius to half a one.
func ExampleArcByTape() {
	a, err := shape.ArcByTape(24*in, 3*in, 0)
	fmt.Println("arc", thousandths(a.Length.Size), "+-", thousandths(a.Length.Likely()), err)
	fmt.Println("radius", thousandths(a.Radius.Size), "+-", thousandths(a.Radius.Likely()))
	// Output:
	// arc 24.988 in +- 0.084 in <nil>
	// radius 25.500 in +- 0.560 in
}

func ExampleThreePointArc() {
	a, err := shape.ThreePointArc(pt(0, 0), pt(9*in, 2*in+7*in/8), pt(24*in, 0))
	fmt.Println("radius", thousandths(a.Radius), "rise", thousandths(a.Rise), err)
	// Output:
	// radius 25.096 in rise 3.055 in <nil>
}

func ExampleQuadrilateralArea() {
	a, err := shape.QuadrilateralArea(24*in, 18*in+in/4, 21*in+in/2, 18*in, 29*in+in/2, 28*in+39*in/64)
	fmt.Println(a.Decimal(unit.SquareInch, 2, unit.Nearest), err)
	// Output:
	// 411.09 sq in <nil>
}

// The same widths, straight from point to point and as a smooth curve.
func ExampleSimpsonArea() {
	widths := []unit.Length{20 * in, 21*in + in/2, 22*in + in/4, 21*in + 3*in/4, 20*in + in/2}
	straight, err := shape.TrapezoidalArea(4*in, widths...)
	fmt.Println(straight, err)
	smooth, err := shape.SimpsonArea(4*in, widths...)
	fmt.Println(smooth, err)
	// Output:
	// 343 sq in <nil>
	// 344 sq in <nil>
}
