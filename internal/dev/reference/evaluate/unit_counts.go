package evaluate

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
)

// countEvaluators are those of quantities as plain numbers of a unit, and back.
var countEvaluators = map[string]reference.Evaluator{
	"counted": func(in *reference.Inputs, u string) (reference.Value, error) {
		text := in.Text("")
		for _, find := range []func(string) (counted, bool){lengthCounts.find, areaCounts.find, volumeCounts.find, massCounts.find, forceCounts.find,
			pressureCounts.find, clothCounts.find, threadCounts.find, angleCounts.find} {
			if count, ok := find(u); ok {
				x, err := count(text)
				return reference.Numbers(x), err
			}
		}
		return reference.Value{}, fmt.Errorf("nothing counts in %q", u)
	},
	"made_of": func(in *reference.Inputs, _ string) (reference.Value, error) {
		n, kind := in.Float("count"), in.Text("of")
		switch kind {
		case "inches":
			l, err := unit.LengthOf(n, unit.Inch)
			return reference.Numbers(l.Millimetres()), err
		case "irons":
			l, err := unit.IronsOf(n)
			return reference.Numbers(l.Millimetres()), err
		case "square feet":
			a, err := unit.AreaOf(n, unit.SquareFoot)
			return reference.Numbers(a.SquareMetres()), err
		case "cubic feet":
			v, err := unit.VolumeOf(n, unit.CubicFoot)
			return reference.Numbers(v.Litres()), err
		case "pounds":
			m, err := unit.MassOf(n, unit.Pound)
			return reference.Numbers(m.Kilograms()), err
		case "pounds-force":
			f, err := unit.ForceOf(n, unit.PoundForce)
			return reference.Numbers(f.Newtons()), err
		case "pounds per square inch":
			p, err := unit.PressureOf(n, unit.PoundPerSquareInch)
			return reference.Numbers(p.Pascals()), err
		case "pounds per cubic foot":
			d, err := unit.DensityOf(n, unit.PoundPerCubicFoot)
			return reference.Numbers(d.KilogramsPerCubicMetre()), err
		case "ounces per square yard":
			d, err := unit.AreaDensityOf(n, unit.OuncePerSquareYard)
			return reference.Numbers(d.GramsPerSquareMetre()), err
		case "denier":
			d, err := unit.LinearDensityOf(n, unit.Denier)
			return reference.Numbers(d.Decitex()), err
		case "cotton count":
			d, err := unit.CottonCountOf(n)
			return reference.Numbers(float64(d)), err
		case "metric count":
			d, err := unit.MetricCountOf(n)
			return reference.Numbers(float64(d)), err
		case "yards per pound":
			d, err := unit.YardsPerPoundOf(n)
			return reference.Numbers(float64(d)), err
		case "degrees":
			a, err := unit.AngleOf(n, unit.Degree)
			return reference.Numbers(a.Radians()), err
		case "hours":
			d, err := unit.DurationOf(n, unit.Hour)
			return reference.Numbers(d.Minutes()), err
		}
		return reference.Value{}, fmt.Errorf("nothing is made of %q", kind)
	},
}

// counted reads a quantity and counts it in a unit.
type counted func(text string) (float64, error)

// counts are the ways of a kind of quantity to be counted, by the unit of the row.
type counts[Q any] struct {
	parse func(string) (Q, error)
	in    map[string]func(Q) float64
}

func (c counts[Q]) find(u string) (counted, bool) {
	get, ok := c.in[u]
	return func(text string) (float64, error) {
		q, err := c.parse(text)
		return get(q), err
	}, ok
}

func failing[Q any](get func(Q) (float64, error)) func(Q) float64 {
	return func(q Q) float64 {
		x, err := get(q)
		if err != nil {
			return -1
		}
		return x
	}
}

var (
	lengthCounts = counts[unit.Length]{unit.ParseThickness, map[string]func(unit.Length) float64{
		"mil": unit.Length.Mils, "leather oz": unit.Length.LeatherOunces, "irons": unit.Length.Irons}}
	areaCounts = counts[unit.Area]{unit.ParseArea, map[string]func(unit.Area) float64{
		"yd2": unit.Area.SquareYards, "mm2": unit.Area.SquareMillimetres, "cm2": unit.Area.SquareCentimetres,
		"dm2": unit.Area.SquareDecimetres, "m2": unit.Area.SquareMetres}}
	volumeCounts = counts[unit.Volume]{unit.ParseVolume, map[string]func(unit.Volume) float64{
		"ft3": unit.Volume.CubicFeet, "yd3": unit.Volume.CubicYards, "l": unit.Volume.Litres,
		"cm3": unit.Volume.CubicCentimetres, "m3": unit.Volume.CubicMetres}}
	massCounts     = counts[unit.Mass]{unit.ParseMass, map[string]func(unit.Mass) float64{"g": unit.Mass.Grams, "mg": unit.Mass.Milligrams}}
	forceCounts    = counts[unit.Force]{unit.ParseForce, map[string]func(unit.Force) float64{"kgf": unit.Force.KilogramsForce, "cN": unit.Force.Centinewtons}}
	pressureCounts = counts[unit.Pressure]{unit.ParsePressure, map[string]func(unit.Pressure) float64{"Pa": unit.Pressure.Pascals}}
	clothCounts    = counts[unit.AreaDensity]{unit.ParseAreaDensity, map[string]func(unit.AreaDensity) float64{
		"g/m2": unit.AreaDensity.GramsPerSquareMetre, "oz/yd2": unit.AreaDensity.OuncesPerSquareYard}}
	threadCounts = counts[unit.LinearDensity]{unit.ParseLinearDensity, map[string]func(unit.LinearDensity) float64{
		"dtex": unit.LinearDensity.Decitex, "Nm": failing(unit.LinearDensity.MetricCount), "Nec": failing(unit.LinearDensity.CottonCount)}}
	angleCounts = counts[unit.Angle]{unit.ParseAngle, map[string]func(unit.Angle) float64{"rad": unit.Angle.Radians}}
)
