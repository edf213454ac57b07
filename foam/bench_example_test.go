package foam_test

import (
	"fmt"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// The old window-seat cushion of the Larkfield Reading Room on the kitchen
// scale.
func ExampleWeighedDensity() {
	d, err := foam.WeighedDensity(foam.Weighing{
		Block:     foam.Block{Length: 60 * unit.Inch, Width: 18 * unit.Inch, Thickness: 4 * unit.Inch},
		Mass:      9 * unit.Pound / 2,
		TapeError: unit.Inch / 8, ScaleError: unit.Pound / 16,
	})
	fmt.Printf("%.2f lb/ft3, %.2f to %.2f, %v\n", d.Value.PoundsPerCubicFoot(), d.Low.PoundsPerCubicFoot(), d.High.PoundsPerCubicFoot(), err)
	// Output: 1.80 lb/ft3, 1.71 to 1.90, <nil>
}

func ExampleIdentifyIFD25() {
	i, err := foam.IdentifyIFD25(foam.BenchTest{
		Disc: 8 * unit.Inch, Weight: 35 * unit.Pound, Sink: unit.Inch, Thickness: 4 * unit.Inch, SinkError: unit.Inch / 16,
	})
	fmt.Printf("%.0f lbf, %.0f to %.0f, %v\n", i.Value.PoundsForce(), i.Low.PoundsForce(), i.High.PoundsForce(), err)
	fmt.Println(i.Basis.Note)
	// Output:
	// 35 lbf, 25 to 46, <nil>
	// bench test at 25 %; the method alone may be off by 25 %
}

func ExampleJudge() {
	j, err := foam.Judge(foam.OldFoam{
		New: 4 * unit.Inch, Now: 7 * unit.Inch / 2,
		Density: 1.8 * unit.PoundPerCubicFoot, Use: foam.Bench, Duty: foam.NormalDuty,
	})
	fmt.Println(j.Verdict, err)
	for _, r := range j.Reasons {
		fmt.Println("-", r)
	}
	// Output:
	// doubt <nil>
	// - 12.5 % of the height is lost; up to 10 % is called good, more than 15 % poor
	// - its density is that usual for a bench in normal duty or more
	// - old foam has no certificate: where a fire rule applies, replace it or have it tested
}
