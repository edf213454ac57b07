package foam_test

import (
	"errors"
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

func lbf(i25, i65 float64) foam.Curve {
	return foam.Curve{
		IFD25: foam.IFD25(unit.Force(i25) * unit.PoundForce),
		IFD65: foam.IFD65(unit.Force(i65) * unit.PoundForce),
	}
}

func inch(l unit.Length) string { return l.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest) }

func ExampleCurve_Force() {
	c := lbf(30, 60)
	for _, e := range []unit.Ratio{0.10, 0.25, 0.40, 0.65} {
		f, err := c.Force(e)
		fmt.Println(e, f.Decimal(unit.PoundForce, 1, unit.Nearest), err)
	}
	_, err := c.Force(0.70)
	fmt.Println(errors.Is(err, foam.ErrBeyondCurve))
	// Output:
	// 10 % 12.0 lbf <nil>
	// 25 % 30.0 lbf <nil>
	// 40 % 38.9 lbf <nil>
	// 65 % 60.0 lbf <nil>
	// true
}

func ExampleCurve_Strain() {
	e, err := lbf(30, 60).Strain(15 * unit.PoundForce)
	fmt.Println(e, err)
	// Output: 12.5 % <nil>
}

func ExampleCurve_Pressure() {
	p, err := lbf(30, 60).Pressure(0.25)
	fmt.Println(p.Decimal(unit.Kilopascal, 2, unit.Nearest), err)
	// Output: 4.14 kPa <nil>
}

func ExampleCurve_Energy() {
	w, err := lbf(30, 60).Energy(0.65)
	fmt.Printf("%.0f J/m3 %v\n", w.Pascals(), err)
	// Output: 2904 J/m3 <nil>
}

func ExampleGrade_Curve() {
	c, assumed, err := foam.Grade{Density: 1.8 * unit.PoundPerCubicFoot, IFD25: foam.IFD25(33 * unit.PoundForce)}.Curve()
	fmt.Println(c.IFD65.Force().Decimal(unit.PoundForce, 1, unit.Nearest), "assumed:", assumed, err)
	// Output: 59.4 lbf assumed: true <nil>
}

// An inch of soft foam on three of firm: the soft layer takes half the sink.
func ExampleStack_Under() {
	cushion := foam.Stack{
		{Name: "top", Thickness: unit.Inch, Curve: lbf(18, 36)},
		{Name: "core", Thickness: 3 * unit.Inch, Curve: lbf(36, 80)},
	}
	p, err := (40 * unit.PoundForce).Over(foam.Plate)
	if err != nil {
		fmt.Println(err)
		return
	}
	x, err := cushion.Under(p)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, l := range x.Layers {
		fmt.Printf("%s: %.0f %%, bottomed out %v\n", l.Name, l.Strain.Percent(), l.Bottomed)
	}
	fmt.Println("sink", inch(x.Sink), "left", inch(x.Remaining), x.Kind)
	// Output:
	// top: 65 %, bottomed out true
	// core: 30 %, bottomed out false
	// sink 1 9/16 in left 2 7/16 in bound
}

func ExampleStack_AtSink() {
	cushion := foam.Stack{
		{Name: "top", Thickness: unit.Inch, Curve: lbf(18, 36)},
		{Name: "core", Thickness: 3 * unit.Inch, Curve: lbf(36, 80)},
	}
	x, err := cushion.AtSink(unit.Inch)
	fmt.Printf("%.2f kPa, top %.0f %%, core %.0f %%, %v\n", x.Pressure.Kilopascals(), x.Layers[0].Strain.Percent(), x.Layers[1].Strain.Percent(), err)
	// Output: 3.57 kPa, top 46 %, core 18 %, <nil>
}

func ExampleStack_EquivalentIFD25() {
	cushion := foam.Stack{
		{Thickness: unit.Inch, Curve: lbf(20, 48)},
		{Thickness: 3 * unit.Inch, Curve: lbf(40, 96)},
	}
	i, err := cushion.EquivalentIFD25()
	fmt.Println("by the curves", i.Force().Decimal(unit.PoundForce, 1, unit.Nearest), err)
	i, err = cushion.HarmonicIFD25()
	fmt.Println("straight parts only", i.Force().Decimal(unit.PoundForce, 1, unit.Nearest), err)
	// Output:
	// by the curves 30.1 lbf <nil>
	// straight parts only 32.0 lbf <nil>
}

func ExampleStack_HarmonicIFD25() {
	i, err := foam.Stack{
		{Thickness: 3 * unit.Inch, Curve: lbf(40, 96)},
		{Thickness: unit.Inch, Curve: lbf(20, 48)},
	}.HarmonicIFD25()
	fmt.Println(i.Force().Decimal(unit.PoundForce, 3, unit.Nearest), err)
	// Output: 32.000 lbf <nil>
}

func ExampleStack_FirstBottoms() {
	p, err := foam.Stack{
		{Thickness: unit.Inch, Curve: lbf(18, 36)},
		{Thickness: 3 * unit.Inch, Curve: lbf(36, 80)},
	}.FirstBottoms()
	fmt.Println(p.Decimal(unit.Kilopascal, 2, unit.Nearest), err)
	// Output: 4.96 kPa <nil>
}

func ExampleSit() {
	s, err := foam.Sit(foam.Stack{{Thickness: 4 * unit.Inch, Curve: lbf(36, 80)}}, foam.Sitter{Mass: 80 * unit.Kilogram})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("sink", inch(s.Sink.Value), "from", inch(s.Sink.Low), "to", inch(s.Sink.High))
	fmt.Println("left", inch(s.Remaining.Value))
	fmt.Printf("margin %.1f, bottoms out %v\n", float64(s.Margin), s.BottomsOut())
	below, err := s.BelowCover(15 * unit.Inch / 4)
	fmt.Println("below a cover that holds it to 3 3/4 in:", inch(below), err)
	// Output:
	// sink 1 5/16 in from 3/4 in to 2 3/8 in
	// left 2 11/16 in
	// margin 1.9, bottoms out false
	// below a cover that holds it to 3 3/4 in: 1 1/16 in <nil>
}

func ExampleSitter_Pressure() {
	p, err := foam.Sitter{Mass: 80 * unit.Kilogram, Share: 0.75, Disc: 360 * unit.Millimetre}.Pressure()
	fmt.Println(p.Decimal(unit.Kilopascal, 2, unit.Nearest), err)
	// Output: 5.78 kPa <nil>
}

// The thinner the foam, the less is left under the same sitter.
func ExampleCompareThickness() {
	rows, err := foam.CompareThickness(lbf(36, 80), foam.Sitter{Mass: 80 * unit.Kilogram}, 2*unit.Inch, 4*unit.Inch, 6*unit.Inch)
	for _, r := range rows {
		fmt.Println(r.Thickness, "sinks", inch(r.Sitting.Sink.Value), "leaves", inch(r.Sitting.Remaining.Value))
	}
	fmt.Println(err)
	// Output:
	// 2 in sinks 5/8 in leaves 1 3/8 in
	// 4 in sinks 1 5/16 in leaves 2 11/16 in
	// 6 in sinks 1 15/16 in leaves 4 1/16 in
	// <nil>
}

func ExampleThicknessNote() {
	note, ok := foam.ThicknessNote(2 * unit.Inch)
	fmt.Println(ok, note)
	// Output: true IFD is tested 4 in thick: thinner foam reads lower in the test, and no factor is applied here
}

func ExampleContactDiscs() {
	discs, basis := foam.ContactDiscs()
	fmt.Println(len(discs), discs[2].Decimal(unit.Centimetre, 0, unit.Nearest), basis.Status)
	// Output: 6 36 cm published
}

func ExampleRigidSeat() {
	area, pressure, basis := foam.RigidSeat()
	fmt.Println(area.SquareInches(), pressure.PoundsPerSquareInch(), basis.Status)
	// Output: 179.4 0.92 published
}

func ExamplePostures() {
	for _, p := range foam.Postures() {
		fmt.Println(p.Name, p.Change.Low, p.Change.High)
	}
	// Output:
	// back support inclined -12 % -10 %
	// back reclined to 115 degrees -9 % -9 %
	// armrests 68 cm high -12 % -12 %
	// footrest, arms and a slightly sloping back -33.333 % -33.333 %
}

func ExamplePredictionErrors() {
	for _, p := range foam.PredictionErrors() {
		fmt.Println("at", p.Strain, "off by", p.Error)
	}
	// Output:
	// at 10 % off by 95.68 %
	// at 65 % off by -5.08 %
}

// Foam cut an inch larger all round for a 4 in boxing.
func ExampleFillCover() {
	f, err := foam.FillCover(foam.Fill{
		Cut:     foam.Block{Length: 25 * unit.Inch, Width: 21 * unit.Inch, Thickness: 5 * unit.Inch},
		Cover:   foam.Block{Length: 24 * unit.Inch, Width: 20 * unit.Inch, Thickness: 4 * unit.Inch},
		Curve:   lbf(30, 60),
		Density: 1.8 * unit.PoundPerCubicFoot,
	})
	fmt.Printf("pressed %.0f %% by %.1f kPa, packed to %.2f lb/ft3, %v\n", f.Strain.Percent(), f.Pressure.Kilopascals(), f.Density.PoundsPerCubicFoot(), err)
	// Output: pressed 20 % by 3.3 kPa, packed to 2.46 lb/ft3, <nil>
}

func ExampleDrawCurves() {
	drawing, err := foam.DrawCurves(foam.NamedCurve{Name: "core", Curve: lbf(36, 80)}, foam.NamedCurve{Name: "topper", Curve: lbf(18, 36)})
	fmt.Println(strings.HasPrefix(drawing, "<svg "), strings.Count(drawing, "<circle"), err)
	// Output: true 4 <nil>
}
