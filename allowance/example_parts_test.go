package allowance_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// The rule for leather, and what it is founded on.
func ExampleLeatherStretch() {
	s, basis := allowance.LeatherStretch()
	fmt.Println(s.TakeOut, "none under", s.Below, "-", basis.Status)
	// Output:
	// 2.5 % none under 10 in - common practice
}

func ExampleVinylStretch() {
	s, _ := allowance.VinylStretch()
	f, err := s.Apply(48 * unit.Inch)
	fmt.Println(f.Seam, err)
	// Output:
	// 47 1/2 in <nil>
}

// An inside back that is eased to an outside back: 1/2 in over 20 in.
func ExampleMatchSeam() {
	limits, basis := allowance.FirmWoven.Limits()
	m, err := allowance.MatchSeam(41*unit.Inch/2, 20*unit.Inch, limits)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(m.Difference, m.Ease, m.Verdict, "-", basis.Status)
	// Output:
	// 1/2 in 2.5 % ease in - from memory
}

// Marks every 5 in at most bring the two edges together evenly.
func ExampleSeamMatch_Marks() {
	limits, _ := allowance.FirmWoven.Limits()
	m, err := allowance.MatchSeam(41*unit.Inch/2, 20*unit.Inch, limits)
	if err != nil {
		fmt.Println(err)
		return
	}
	marks, err := m.Marks(5 * unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, k := range marks {
		fmt.Println(k.First.Decimal(unit.Inch, 3, unit.Nearest), "meets", k.Second)
	}
	// Output:
	// 5.125 in meets 5 in
	// 10.250 in meets 10 in
	// 15.375 in meets 15 in
}

// All the ease goes into the crown, from 8 to 12 in.
func ExampleSeamMatch_MarksBetween() {
	limits, _ := allowance.FirmWoven.Limits()
	m, err := allowance.MatchSeam(41*unit.Inch/2, 20*unit.Inch, limits)
	if err != nil {
		fmt.Println(err)
		return
	}
	marks, err := m.MarksBetween(2*unit.Inch, 8*unit.Inch, 12*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, k := range marks {
		fmt.Println(k.First, "meets", k.Second)
	}
	// Output:
	// 8 in meets 8 in
	// 10 1/4 in meets 10 in
	// 12 1/2 in meets 12 in
}

func ExampleSeamMatch_EasePer() {
	limits, _ := allowance.FirmWoven.Limits()
	m, err := allowance.MatchSeam(41*unit.Inch/2, 20*unit.Inch, limits)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(m.EasePer(10 * unit.Inch))
	// Output:
	// 1/4 in <nil>
}

// A front panel of 20 1/2 in on a flat back of 20 in stands out in the middle.
func ExampleBowOf() {
	a, err := allowance.BowOf(41*unit.Inch/2, 20*unit.Inch)
	fmt.Println(inches(a.Rise, err), "out, radius", inches(a.Radius, err))
	// Output:
	// 1.944 in out, radius 26.696 in
}

// An outside back of 44 in and an inside back of 38 in with 2 in between them.
func ExampleBendOf() {
	b, err := allowance.BendOf(44*unit.Inch, 38*unit.Inch, 2*unit.Inch)
	fmt.Println(inches(b.Radius, err), b.Angle.Decimal(unit.Degree, 1, unit.Nearest))
	// Output:
	// 12.667 in 171.9 deg
}
