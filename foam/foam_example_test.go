package foam_test

import (
	"fmt"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// The drop-in seats of the Larkfield Reading Room are thin and lie on board.
func ExampleSelect() {
	s, err := foam.Select(foam.Request{
		Use: foam.Seat, Duty: foam.HeavyDuty, Thickness: 2 * unit.Inch, Base: foam.Board,
		Sitter: 90 * unit.Kilogram,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("ask for", s.Target.Force().Decimal(unit.PoundForce, 0, unit.Nearest), "at 25 %")
	fmt.Println("and at least", s.Density.Low.Decimal(unit.PoundPerCubicFoot, 1, unit.Nearest))
	for _, f := range s.IFDFigures {
		fmt.Printf("%s: %.0f to %.0f lbf (%v)\n", f.About, f.Range.Low.PoundsForce(), f.Range.High.PoundsForce(), f.Basis)
	}
	for _, r := range s.Reasons {
		fmt.Println("-", r)
	}
	for _, d := range s.Disagreements {
		fmt.Println("!", d)
	}
	fmt.Println("first of the stock:", s.Grades[0].Grade.Name)
	// Output:
	// ask for 50 lbf at 25 %
	// and at least 2.2 lb/ft3
	// thin seat, 1 to 2 in: 45 to 65 lbf (common practice)
	// seat 2 in thick: 65 to 65 lbf (common practice)
	// office seat: 45 to 45 lbf (common practice)
	// - a seat 2 in thick usually takes about 50 lbf at 25 %: the thinner the foam, the firmer it must be to keep the sitter off the base
	// - density: the usual for heavy duty; density is what makes foam last, not what makes it firm
	// - board gives nothing: the foam carries alone, so prefer the firmer of two grades
	// - under 198 lb the target sinks about 1/2 in of 2 in and leaves 1 1/2 in; the foam would carry 1.9 times that
	// - no stock was given: the grades ranked are examples
	// ! firmness: the 3 figures run from 45 lbf to 65 lbf and have no value in common
	// first of the stock: 2.2 lb 50
}

// An old seat is pressed on the bench, and the grade of the stock that comes
// nearest to it is asked for.
func ExampleSelect_matchOldFoam() {
	old, err := foam.IdentifyIFD25(foam.BenchTest{
		Disc: 8 * unit.Inch, Weight: 35 * unit.Pound, Sink: 26 * unit.Millimetre, Thickness: 4 * unit.Inch,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := foam.Select(foam.Request{
		Use: foam.Seat, Duty: foam.NormalDuty, Thickness: 4 * unit.Inch, Base: foam.Webbing,
		Wanted: foam.Wanted{IFD25: old.Value, Range: old.Range()},
		Stock:  foam.ExampleGrades(), // in a shop, the supplier's list
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range s.Reasons {
		if r.Kind == foam.FirmnessWanted {
			fmt.Println(r)
			fmt.Println(r.Metric())
		}
	}
	best := s.Grades[0]
	fmt.Println(best.Grade.Name, best.Fits)
	for _, r := range best.Reasons {
		fmt.Println("-", r)
	}
	// Output:
	// 34 lbf is wanted, so the usual is not asked for; what lies within 26 lbf to 43 lbf passes for the same
	// 153 N is wanted, so the usual is not asked for; what lies within 114 N to 192 N passes for the same
	// 1.8 lb 33 true
	// - firmness within 26 lbf to 43 lbf
	// - 33 lbf where 34 lbf is wanted
	// - density within 1.80 lb/ft3 to 2.00 lb/ft3
	// - support factor not given: ask for IFD at 65 %
}

func ExampleMassOf() {
	cushion := foam.Block{Length: 24 * unit.Inch, Width: 27 * unit.Inch, Thickness: 5 * unit.Inch}
	v, err := cushion.Volume()
	if err != nil {
		fmt.Println(err)
		return
	}
	m, err := foam.MassOf(cushion, 1.8*unit.PoundPerCubicFoot)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(v.Decimal(unit.BoardFoot, 1, unit.Nearest), m.Decimal(unit.Pound, 3, unit.Nearest))
	// Output: 22.5 bd ft 3.375 lb
}

func ExampleCutSize() {
	cover := foam.Block{Length: 20 * unit.Inch, Width: 22 * unit.Inch, Thickness: 4 * unit.Inch}
	cut, err := foam.CutSize(cover, foam.DefaultOversize())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(cut.Length, "x", cut.Width, "x", cut.Thickness)
	// Output: 20 1/2 in x 22 1/2 in x 4 in
}

func ExampleSupportFactor() {
	s, err := foam.SupportFactor(foam.IFD25(30*unit.PoundForce), foam.IFD65(66*unit.PoundForce))
	fmt.Printf("%.1f %v\n", float64(s), err)
	_, err = foam.SupportFactor(foam.IFD25(30*unit.PoundForce), foam.IFD65(20*unit.PoundForce))
	fmt.Println(err != nil)
	// Output:
	// 2.2 <nil>
	// true
}

func ExampleDraining() {
	fmt.Println(foam.Draining())
	// Output: common practice; reticulated or closed-cell foam where rain or spray reaches it
}
