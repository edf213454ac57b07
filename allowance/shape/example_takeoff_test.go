package shape_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// The last maker cut the corners off, 1/2 in from the stitches: the edges are
// carried on until they meet again.
func ExampleOutline_Restored() {
	in := unit.Inch
	p := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	o, err := shape.Polygon(p(in/2, 0), p(20*in, 0), p(20*in, 16*in), p(0, 16*in), p(0, in/2))
	if err != nil {
		fmt.Println(err)
		return
	}
	edges := make([]shape.TracedEdge, 5)
	for i := range edges {
		edges[i].Allowance = in / 2
	}
	r, err := o.Restored(edges)
	fmt.Println(r.Outline.Edges(), r.Outline.Area(), err)
	for _, c := range r.Corners {
		fmt.Println(c.First, c.Second, c.Style, c.Length.Decimal(in, 3, unit.Nearest))
	}
	// Output:
	// [side 1 side 2 side 3 side 4] 320 sq in <nil>
	// side 4 side 1 clipped 0.707 in
}

// One half of a back was stretched by half an inch: both are made their mean.
func ExampleOutline_Halved() {
	in := unit.Inch
	p := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	o, err := shape.Polygon(p(-10*in, 0), p(21*in/2, 0), p(9*in, 20*in), p(-9*in, 20*in))
	if err != nil {
		fmt.Println(err)
		return
	}
	h, err := o.Halved(p(0, 0), p(0, in), shape.BothHalves)
	width, height := h.Outline.Size()
	fmt.Println(width, height, "moved by up to", h.Most, h.Share.PercentText(2, unit.Nearest), err)
	// Output:
	// 20 1/2 in 20 in moved by up to 1/4 in 1.22 % <nil>
}

// The fold of a panel that was traced as it lay.
func ExampleOutline_SymmetryAxis() {
	o, err := shape.Trapezoid(24*unit.Inch, 16*unit.Inch, 20*unit.Inch, 4*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	low, high, err := o.Turned(1).SymmetryAxis()
	off := low.Y - high.Y
	fmt.Println(low.X < high.X, off.Millimetres() < 0.5, err)
	// Output:
	// false true <nil>
}

// A panel that has stretched by 5 % across is brought back.
func ExampleOutline_Strained() {
	o, err := shape.Rectangle(21*unit.Inch, 15*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	back, err := o.Strained(0, unit.Ratio(20)/21, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	long, err := back.Extent(90 * unit.Degree)
	fmt.Println(back, long, err)
	// Output:
	// outline 20 in x 15 in: bottom, right, top, left 15 in <nil>
}

// Where on an edge a chalk mark beside it belongs.
func ExampleOutline_Nearest() {
	o, err := shape.Rectangle(20*unit.Inch, 15*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	at, off, err := o.Nearest("right", shape.Point{X: 41 * unit.Inch / 2, Y: 6 * unit.Inch})
	fmt.Println(at, off, err)
	// Output:
	// 6 in 1/2 in <nil>
}
