package table

import (
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// unitNames are the endings of arguments in words.
var unitNames = map[string]string{
	"in": "inches", "mm": "millimetres", "yd": "yards", "m": "metres", "sqft": "square feet", "sqdm": "square decimetres",
	"oz": "ounces", "g": "grams", "lb": "pounds", "kg": "kilograms", "lbf": "pounds of force", "n": "newtons",
	"pcf": "pounds per cubic foot", "kgm3": "kilograms per cubic metre", "hours": "hours",
}

// UnitName gives the unit of an argument in words; empty without one.
func (a Arg) UnitName() string { return unitNames[a.Unit()] }

// of makes a reader of bare numbers in a unit.
func of[Q any](count func(float64, Q) (Q, error), u Q) func(float64) (Q, error) {
	return func(x float64) (Q, error) { return count(x, u) }
}

// What a bare number counts, by the ending of the argument.
var (
	lengthUnits = map[string]func(float64) (unit.Length, error){
		"in": of(unit.LengthOf, unit.Inch), "mm": of(unit.LengthOf, unit.Millimetre), "yd": of(unit.LengthOf, unit.Yard),
		"m": of(unit.LengthOf, unit.Metre), "oz": of(unit.LengthOf, unit.LeatherOunce),
	}
	areaUnits     = map[string]func(float64) (unit.Area, error){"sqft": of(unit.AreaOf, unit.SquareFoot), "sqdm": of(unit.AreaOf, unit.SquareDecimetre)}
	massUnits     = map[string]func(float64) (unit.Mass, error){"lb": of(unit.MassOf, unit.Pound), "kg": of(unit.MassOf, unit.Kilogram), "oz": unit.OuncesOf, "g": of(unit.MassOf, unit.Gram)}
	forceUnits    = map[string]func(float64) (unit.Force, error){"lbf": of(unit.ForceOf, unit.PoundForce), "n": of(unit.ForceOf, unit.Newton)}
	densityUnits  = map[string]func(float64) (unit.Density, error){"pcf": of(unit.DensityOf, unit.PoundPerCubicFoot), "kgm3": of(unit.DensityOf, unit.KilogramPerCubicMetre)}
	durationUnits = map[string]func(float64) (unit.Duration, error){"hours": of(unit.DurationOf, unit.Hour)}
)

// measured reads a number in the unit that its argument names, or a text with
// a unit; zero when it is left out.
func measured[Q any](a *args, key string, units map[string]func(float64) (Q, error), parse func(string) (Q, error)) Q {
	v, arg := a.at(key)
	return reading(a, arg, v, units, parse)
}

func reading[Q any](a *args, arg Arg, v any, units map[string]func(float64) (Q, error), parse func(string) (Q, error)) (q Q) {
	var err error
	switch x := v.(type) {
	case string:
		q, err = parse(trimmed(x))
	case float64:
		read, ok := units[arg.Unit()]
		if !ok {
			panic("no unit of " + arg.Name)
		}
		q, err = read(x)
	}
	a.refuse(arg.Name, err)
	return q
}

func (a *args) length(key string) unit.Length {
	_, arg := a.at(key)
	if arg.Unit() == "oz" {
		return measured(a, key, lengthUnits, unit.ParseThickness)
	}
	return measured(a, key, lengthUnits, unit.ParseLength)
}

func (a *args) area(key string) unit.Area   { return measured(a, key, areaUnits, unit.ParseArea) }
func (a *args) mass(key string) unit.Mass   { return measured(a, key, massUnits, unit.ParseMass) }
func (a *args) force(key string) unit.Force { return measured(a, key, forceUnits, unit.ParseForce) }
func (a *args) density(key string) unit.Density {
	return measured(a, key, densityUnits, unit.ParseDensity)
}
func (a *args) hours(key string) unit.Duration {
	return measured(a, key, durationUnits, unit.ParseDuration)
}

// What a result is given in, by the unit of the function.
var (
	lengthResults  = map[string]func(unit.Length) float64{"in": unit.Length.Inches, "mm": unit.Length.Millimetres, "yd": unit.Length.Yards, "m": unit.Length.Metres}
	areaResults    = map[string]func(unit.Area) float64{"sq ft": unit.Area.SquareFeet, "sq dm": unit.Area.SquareDecimetres}
	massResults    = map[string]func(unit.Mass) float64{"lb": unit.Mass.Pounds, "kg": unit.Mass.Kilograms}
	forceResults   = map[string]func(unit.Force) float64{"lbf": unit.Force.PoundsForce, "N": unit.Force.Newtons}
	densityResults = map[string]func(unit.Density) float64{"lb/cu ft": unit.Density.PoundsPerCubicFoot, "kg/m3": unit.Density.KilogramsPerCubicMetre}
	volumeResults  = map[string]func(unit.Volume) float64{"bd ft": unit.Volume.BoardFeet, "l": unit.Volume.Litres}
	lineResults    = map[string]func(thread.LineForce) float64{"lbf/in": thread.LineForce.PoundsForcePerInch, "N/cm": newtonsPerCentimetre}
)

func newtonsPerCentimetre(f thread.LineForce) float64 {
	return float64(f / (100 * thread.NewtonPerMetre))
}

func (a *args) lengthResult(l unit.Length, err error) (Result, error) {
	return number(a.lengthIn(l)), err
}

// lengthIn gives a length in the unit of the result.
func (a *args) lengthIn(l unit.Length) float64 { return lengthResults[a.f.Unit](l) }

func (a *args) areaResult(v unit.Area, err error) (Result, error) {
	return number(areaResults[a.f.Unit](v)), err
}

func (a *args) massResult(m unit.Mass, err error) (Result, error) {
	return number(massResults[a.f.Unit](m)), err
}

func (a *args) forceResult(f unit.Force, err error) (Result, error) {
	return number(forceResults[a.f.Unit](f)), err
}

func (a *args) densityResult(d unit.Density, err error) (Result, error) {
	return number(densityResults[a.f.Unit](d)), err
}

func (a *args) volumeResult(v unit.Volume, err error) (Result, error) {
	return number(volumeResults[a.f.Unit](v)), err
}

func (a *args) lineforceResult(f thread.LineForce, err error) (Result, error) {
	return number(lineResults[a.f.Unit](f)), err
}
