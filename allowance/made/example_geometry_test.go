package made_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

// inches writes a result to a thousandth of an inch, or its error.
func inches(l unit.Length, err error) string {
	if err != nil {
		return err.Error()
	}
	return l.Decimal(unit.Inch, 3, unit.Nearest)
}

// A round ottoman that tapers from 20 to 12 in across over a height of 8 in.
func ExampleConeFrustum_Develop() {
	s, err := made.ConeFrustum{Large: 10 * unit.Inch, Small: 6 * unit.Inch, Height: 8 * unit.Inch}.Develop()
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
	c, err := made.TubBand{
		Shape:  made.ConeFrustum{Large: 14 * unit.Inch, Small: 12 * unit.Inch, Height: 16 * unit.Inch, Wrap: 180 * unit.Degree},
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
	g, err := made.Dome{Radius: 9 * unit.Inch, Gores: 6, Intervals: 3}.Gore()
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
	d := made.Dome{Radius: 9 * unit.Inch, Gores: 6}
	fmt.Println(inches(d.HalfWidth(30 * unit.Degree)))
	d.Form = made.ChordForm
	fmt.Println(inches(d.HalfWidth(30 * unit.Degree)))
	// Output:
	// 4.081 in
	// 3.897 in
}
