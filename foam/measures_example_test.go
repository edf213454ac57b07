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
	// Output: 151.8 lbf <nil>
}

func ExampleGuideFactor() {
	g, err := foam.GuideFactor(foam.IFD25(36*unit.PoundForce), 1.8*unit.PoundPerCubicFoot)
	fmt.Printf("%.0f %v\n", float64(g), err)
	// Output: 20 <nil>
}

func ExamplePlateDiameter() {
	fmt.Println(foam.PlateDiameter().Decimal(unit.Millimetre, 2, unit.Nearest))
	// Output: 202.66 mm
}

func ExampleFoamDensities() {
	for _, f := range foam.FoamDensities() {
		fmt.Printf("%s: %.0f to %.0f kg/m3 (%v)\n", f.About, f.Range.Low.KilogramsPerCubicMetre(), f.Range.High.KilogramsPerCubicMetre(), f.Basis)
	}
	// Output:
	// polyurethane foam, typical: 15 to 100 kg/m3 (published (Furniture fillings: standards for fitness for purpose))
	// flexible polyurethane foam: 8 to 96 kg/m3 (common practice)
	// polyether foam: 16 to 64 kg/m3 (common practice)
}

func ExampleRecovery() {
	r, err := foam.Recovery(foam.IFD25(36*unit.PoundForce), foam.IFD25(27*unit.PoundForce))
	fmt.Println(r, err)
	// Output: 75 % <nil>
}

func ExampleHysteresisLoss() {
	r, err := foam.HysteresisLoss(foam.IFD25(36*unit.PoundForce), foam.IFD25(27*unit.PoundForce))
	fmt.Println(r, err)
	// Output: 25 % <nil>
}

func ExampleCompressionSet() {
	set, err := foam.CompressionSet(50*unit.Millimetre, 475*unit.Millimetre/10)
	fmt.Println(set, err)
	// Output: 5 % <nil>
}

func ExampleHeightAt() {
	at25, err := foam.HeightAt(4*unit.Inch, 0.25)
	fmt.Println(at25, err)
	at65, err := foam.HeightAt(4*unit.Inch, 0.65)
	fmt.Println(at65.Decimal(unit.Inch, 1, unit.Nearest), err)
	// Output:
	// 3 in <nil>
	// 1.4 in <nil>
}

func ExampleOneInchStrain() {
	r, err := foam.OneInchStrain(4 * unit.Inch)
	fmt.Println(r, err)
	_, err = foam.OneInchStrain(2 * unit.Inch)
	fmt.Println(errors.Is(err, unit.ErrRange))
	// Output:
	// 25 % <nil>
	// true
}

// The two tests have no exact factor between them: what comes out is an
// estimate with its bars.
func ExampleEstimateHardnessA() {
	h, err := foam.EstimateHardnessA(foam.IFD25(30 * unit.PoundForce))
	fmt.Printf("%v: %.0f N, %.0f to %.0f (%v)\n", h.Kind, h.Value.Newtons(), h.Low.Newtons(), h.High.Newtons(), err)
	// Output: estimate: 179 N, 166 to 213 (<nil>)
}

func ExampleEstimateIFD25() {
	i, err := foam.EstimateIFD25(foam.HardnessA(170 * unit.Newton))
	fmt.Printf("%v: %.0f lbf, %.0f to %.0f (%v)\n", i.Kind, i.Value.PoundsForce(), i.Low.PoundsForce(), i.High.PoundsForce(), err)
	// Output: estimate: 28 lbf, 24 to 31 (<nil>)
}

func ExampleHardnessB_Check() {
	fmt.Println(foam.HardnessB{At25: 120, At40: 170, At65: 300}.Check())
	fmt.Println(errors.Is(foam.HardnessB{At25: 120, At40: 170, At65: 150}.Check(), foam.ErrImpossibleIFD))
	// Output:
	// <nil>
	// true
}

func ExampleTestMethods() {
	for _, m := range foam.TestMethods() {
		fmt.Printf("%s: read at %v, held %v, gives %s\n", m.Name, m.Depths, m.Hold, m.Gives)
	}
	// Output:
	// ASTM D3574 B1: read at [25 % 65 %], held 1 min, gives IFD25 and IFD65
	// ISO 2439 A: read at [40 %], held 30 s, gives hardness index
	// ISO 2439 B: read at [25 % 40 % 65 %], held 30 s, gives hardness characteristics
	// ISO 2439 C: read at [40 %], held 0 h, gives hardness check
	// ISO 2439 D: read at [25 %], held 20 s, gives low indentation hardness index
}

func ExampleIndexGrades() {
	g, basis := foam.IndexGrades()
	fmt.Println(g[0], g[len(g)-1], basis)
	// Output: 245 N 22 N standard (General flexible polyether polyurethane cellular plastics); 2006 edition, replaced in 2023
}

func ExampleFirmnessTerms() {
	for _, f := range foam.FirmnessTerms() {
		fmt.Printf("%s: %.0f to %.0f lbf (%v)\n", f.About, f.Range.Low.PoundsForce(), f.Range.High.PoundsForce(), f.Basis)
	}
	// Output:
	// soft: 10 to 25 lbf (published (Rubber or plastic sheets and assembled and molded shapes, synthetic, foam or sponge, open cell); shipboard synthetic-rubber foam, read after 5 s)
	// medium: 25 to 42 lbf (published (Rubber or plastic sheets and assembled and molded shapes, synthetic, foam or sponge, open cell); shipboard synthetic-rubber foam, read after 5 s)
	// medium, of polyurethane: 35 to 40 lbf (common practice)
	// medium firm: 30 to 55 lbf (published (Rubber or plastic sheets and assembled and molded shapes, synthetic, foam or sponge, open cell); shipboard synthetic-rubber foam, read after 5 s)
	// firm: 42 to 60 lbf (published (Rubber or plastic sheets and assembled and molded shapes, synthetic, foam or sponge, open cell); shipboard synthetic-rubber foam, read after 5 s)
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
	// 2.5 lb/ft3, 35 lbf, <nil>
	// 25 kg/m3, 3.5 kPa, <nil>
	// true
}

func ExampleIFDTolerance() {
	f, err := foam.IFDTolerance(foam.IFD25(50 * unit.PoundForce))
	fmt.Printf("%.0f to %.0f lbf %v %v\n", f.Range.Low.PoundsForce(), f.Range.High.PoundsForce(), f.Basis, err)
	// Output: 45 to 55 lbf common practice; voluntary guideline of the foam industry, 1994; referee test ASTM D3574 B1 <nil>
}

func ExampleSlabTolerance() {
	l, err := foam.SlabTolerance(foam.Block{Length: 80 * unit.Inch, Width: 54 * unit.Inch, Thickness: 4 * unit.Inch})
	fmt.Println(l.Length, l.Width, l.Thickness, err)
	// Output: {80 in 80 1/2 in} {54 in 54 1/4 in} {3 15/16 in 4 1/16 in} <nil>
}

func ExampleServiceClassFor() {
	c, err := foam.ServiceClassFor(foam.Seat, foam.SevereDuty)
	fmt.Println(c.Class, c.For, err)
	fmt.Println("loses at most", c.MostLoss, "-", c.LossBasis)
	// Output:
	// X contract and public transport seats in constant use <nil>
	// loses at most 12 % - from memory
}

func ExampleHardnessLoss() {
	r, err := foam.HardnessLoss(140*unit.Newton, 77*unit.Newton)
	fmt.Println(r, err)
	// Output: 45 % <nil>
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
	// Output: twice the density: 4 times the modulus, <nil>
}

func ExampleRollTolerance() {
	l, err := foam.RollTolerance(foam.Block{Length: 400 * unit.Inch, Width: 54 * unit.Inch, Thickness: unit.Inch})
	fmt.Println(l.Length, l.Width, l.Thickness, err)
	// Output: {398 in 402 in} {54 in 54 1/4 in} {15/16 in 1 1/16 in} <nil>
}

func ExampleConvolutedTolerance() {
	l, err := foam.ConvolutedTolerance(foam.Block{Length: 72 * unit.Inch, Width: 36 * unit.Inch, Thickness: 2 * unit.Inch})
	fmt.Println(l.Length, l.Width, l.Thickness, err)
	// Output: {72 in 73 in} {36 in 36 1/4 in} {1 7/8 in 2 1/8 in} <nil>
}

func ExampleBunHeightTolerance() {
	f, err := foam.BunHeightTolerance(40 * unit.Inch)
	fmt.Println(f.Range, err)
	// Output: {40 in 40 1/2 in} <nil>
}

func ExampleHysteresisFigures() {
	for _, f := range foam.HysteresisFigures() {
		fmt.Println(f.About, f.Range.Low, f.Range.High)
	}
	// Output:
	// 1.25 lb/ft3 35 % 40 %
	// 1.50 lb/ft3 30 % 35 %
	// heavy, reinforced 21 % 26 %
}
