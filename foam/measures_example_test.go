package foam_test

import (
	"errors"
	"fmt"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

func ExampleIFD65Of() {
	i, err := foam.IFD65Of(foam.IFD25(55*unit.PoundForce), 2.76)
	fmt.Println(i.Force().Decimal(unit.PoundForce, 1, unit.Nearest), err)
	// Output:
}

func ExampleGuideFactor() {
	g, err := foam.GuideFactor(foam.IFD25(36*unit.PoundForce), 1.8*unit.PoundPerCubicFoot)
	fmt.Printf("%.0f %v\n", float64(g), err)
	// Output:
}

func ExamplePlateDiameter() {
	fmt.Println(foam.PlateDiameter().Decimal(unit.Millimetre, 2, unit.Nearest))
	// Output:
}

func ExampleFoamDensities() {
	for _, f := range foam.FoamDensities() {
		fmt.Printf("%s: %.0f to %.0f kg/m3 (%v)\n", f.About, f.Range.Low.KilogramsPerCubicMetre(), f.Range.High.KilogramsPerCubicMetre(), f.Basis)
	}
	// Output:
}

func ExampleRecovery() {
	r, err := foam.Recovery(foam.IFD25(36*unit.PoundForce), foam.IFD25(27*unit.PoundForce))
	fmt.Println(r, err)
	// Output:
}

func ExampleHysteresisLoss() {
	r, err := foam.HysteresisLoss(foam.IFD25(36*unit.PoundForce), foam.IFD25(27*unit.PoundForce))
	fmt.Println(r, err)
	// Output:
}

func ExampleCompressionSet() {
	set, err := foam.CompressionSet(50*unit.Millimetre, 475*unit.Millimetre/10)
	fmt.Println(set, err)
	// Output:
}

func ExampleHeightAt() {
	at25, err := foam.HeightAt(4*unit.Inch, 0.25)
	fmt.Println(at25, err)
	at65, err := foam.HeightAt(4*unit.Inch, 0.65)
	fmt.Println(at65.Decimal(unit.Inch, 1, unit.Nearest), err)
	// Output:
}

func ExampleOneInchStrain() {
	r, err := foam.OneInchStrain(4 * unit.Inch)
	fmt.Println(r, err)
	_, err = foam.OneInchStrain(2 * unit.Inch)
	fmt.Println(errors.Is(err, unit.ErrRange))
	// Output:
}

// The two tests have no exact factor between them: what comes out is an
// estimate with its bars.
func ExampleEstimateHardnessA() {
	h, err := foam.EstimateHardnessA(foam.IFD25(30 * unit.PoundForce))
	fmt.Printf("%v: %.0f N, %.0f to %.0f (%v)\n", h.Kind, h.Value.Newtons(), h.Low.Newtons(), h.High.Newtons(), err)
	// Output:
}

func ExampleEstimateIFD25() {
	i, err := foam.EstimateIFD25(foam.HardnessA(170 * unit.Newton))
	fmt.Printf("%v: %.0f lbf, %.0f to %.0f (%v)\n", i.Kind, i.Value.PoundsForce(), i.Low.PoundsForce(), i.High.PoundsForce(), err)
	// Output:
}

func ExampleHardnessB_Check() {
	fmt.Println(foam.HardnessB{At25: 120, At40: 170, At65: 300}.Check())
	fmt.Println(errors.Is(foam.HardnessB{At25: 120, At40: 170, At65: 150}.Check(), foam.ErrImpossibleIFD))
	// Output:
}

func ExampleTestMethods() {
	for _, m := range foam.TestMethods() {
		fmt.Printf("%s: read at %v, held %v, gives %s\n", m.Name, m.Depths, m.Hold, m.Gives)
	}
	// Output:
}

func ExampleIndexGrades() {
	g, basis := foam.IndexGrades()
	fmt.Println(g[0], g[len(g)-1], basis)
	// Output:
}

func ExampleFirmnessTerms() {
	for _, f := range foam.FirmnessTerms() {
		fmt.Printf("%s: %.0f to %.0f lbf (%v)\n", f.About, f.Range.Low.PoundsForce(), f.Range.High.PoundsForce(), f.Basis)
	}
	// Output:
}

// One code, two foams: it is never read without its system.
func ExampleParseGradeCode() {
	us, err := foam.ParseGradeCode(foam.AmericanTrade, "2535")
	fmt.Printf("%.1f lb/ft3, %.0f lbf, %v\n", us.Density.PoundsPerCubicFoot(), us.IFD25.PoundsForce(), err)
	eu, err := foam.ParseGradeCode(foam.EuropeanBedding, "2535")
	fmt.Printf("%.0f kg/m3, %.1f kPa, %v\n", eu.Density.KilogramsPerCubicMetre(), eu.Stress.Kilopascals(), err)
	_, err = foam.ParseGradeCode(foam.AmericanTrade, "HR3530")
	fmt.Println(errors.Is(err, foam.ErrWrongSystem))
	// Output:
}

func ExampleIFDTolerance() {
	f, err := foam.IFDTolerance(foam.IFD25(50 * unit.PoundForce))
	fmt.Printf("%.0f to %.0f lbf %v %v\n", f.Range.Low.PoundsForce(), f.Range.High.PoundsForce(), f.Basis, err)
	// Output:
}

func ExampleSlabTolerance() {
	l, err := foam.SlabTolerance(foam.Block{Length: 80 * unit.Inch, Width: 54 * unit.Inch, Thickness: 4 * unit.Inch})
	fmt.Println(l.Length, l.Width, l.Thickness, err)
	// Output:
}

func ExampleServiceClassFor() {
	c, err := foam.ServiceClassFor(foam.Seat, foam.SevereDuty)
	fmt.Println(c.Class, c.For, err)
	fmt.Println("loses at most", c.MostLoss, "-", c.LossBasis)
	// Output:
}

func ExampleHardnessLoss() {
	r, err := foam.HardnessLoss(140*unit.Newton, 77*unit.Newton)
	fmt.Println(r, err)
	// Output:
}

// The model is for ratios between foams of one kind, not for telling firmness
// from density.
func ExampleCellularModel() {
	light, err := foam.CellularModel(20 * unit.KilogramPerCubicMetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	heavy, err := foam.CellularModel(40 * unit.KilogramPerCubicMetre)
	fmt.Printf("twice the density: %.0f times the modulus, %v\n", float64(heavy.Modulus/light.Modulus), err)
	// Output:
}

func ExampleCautions() {
	cs, err := foam.Cautions(foam.EuropeanUnion)
	for _, c := range cs {
		fmt.Printf("%v, %v: %s %s\n", c.Hazard, c.Jurisdiction, c.Rule, c.Edition)
	}
	fmt.Println(err)
	// Output:
}
