package table

import (
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

const unitGroup = "Units and fractions"

// parts are the fractions of a tape by their number of parts.
var parts = map[int]unit.Denominator{
	1: unit.Whole, 2: unit.Halves, 4: unit.Quarters, 8: unit.Eighths,
	16: unit.Sixteenths, 32: unit.ThirtySeconds, 64: unit.SixtyFourths,
}

func (a *args) parts(name string) unit.Denominator {
	d, ok := parts[a.count(name)]
	if !ok {
		a.fail(Num, name, "one of 1, 2, 4, 8, 16, 32, 64 is wanted")
	}
	return d
}

func (a *args) direction(name string) unit.Rounding {
	switch a.text(name) {
	case "", "nearest":
		return unit.Nearest
	case "up":
		return unit.Up
	case "down":
		return unit.Down
	}
	a.fail(Missing, name, "one of nearest, up, down is wanted")
	return unit.Nearest
}

// convert makes a function that turns a number of one unit into another.
func convert(method, arg, unitOf, help string, example float64, f func(a *args) float64) Function {
	return Function{
		Method: method, alone: true, Group: unitGroup, Result: Number, Unit: unitOf, Help: help,
		Args:    []Arg{num(arg, "the figure to convert")},
		Example: []any{example},
		Bad:     []Bad{{Value, []any{"twenty"}}, {Value, []any{"20"}}, {Num, []any{1e300}}},
		call:    func(a *args) (Result, error) { return number(f(a)), nil },
	}
}

var unitFunctions = []Function{
	{
		Method: "readLengthIn", alone: true, Group: unitGroup, Result: Number, Unit: "in",
		Help:    "Reads a length as a shop writes it: 25 5/8 in, 2' 1 5/8\", 1 1/2 yd, 652 mm.",
		Args:    []Arg{word("length_text", "a length with its unit")},
		Example: []any{"25 5/8 in"},
		Bad:     []Bad{{Value, []any{"25 5/8"}}, {Num, []any{"99999999999999 yd"}}},
		call: func(a *args) (Result, error) {
			l, err := unit.ParseLength(a.text("length_text"))
			return a.lengthResult(l, err)
		},
	},
	{
		Method: "readLengthMm", alone: true, Group: unitGroup, Result: Number, Unit: "mm",
		Help:    "Reads a length as a shop writes it and gives millimetres.",
		Args:    []Arg{word("length_text", "a length with its unit")},
		Example: []any{"1 1/2 yd"},
		Bad:     []Bad{{Value, []any{"1,5 m"}}, {Num, []any{"99999999999999 yd"}}},
		call: func(a *args) (Result, error) {
			l, err := unit.ParseLength(a.text("length_text"))
			return number(l.Millimetres()), err
		},
	},
	{
		Method: "readAreaSqft", alone: true, Group: unitGroup, Result: Number, Unit: "sq ft",
		Help:    "Reads an area: 48 sq ft, 4.5 m2.",
		Args:    []Arg{word("area_text", "an area with its unit")},
		Example: []any{"3 sq yd"},
		Bad:     []Bad{{Value, []any{"48"}}, {Num, []any{"99999999999999 sq yd"}}},
		call: func(a *args) (Result, error) {
			v, err := unit.ParseArea(a.text("area_text"))
			return a.areaResult(v, err)
		},
	},
	{
		Method: "readThicknessMm", alone: true, Group: unitGroup, Result: Number, Unit: "mm",
		Help:    "Reads a leather thickness: 3 oz (1/64 in each), 12 irons, 1.2 mm.",
		Args:    []Arg{word("thickness_text", "a thickness with its unit")},
		Example: []any{"3 oz"},
		Bad:     []Bad{{Value, []any{"3/4 oz"}}, {Num, []any{"99999999999999 yd"}}},
		call: func(a *args) (Result, error) {
			l, err := unit.ParseThickness(a.text("thickness_text"))
			return number(l.Millimetres()), err
		},
	},
	{
		Method: "fractionText", alone: true, Group: unitGroup, Result: Text,
		Help: "Writes inches as a mixed fraction: 25.625 as 25 5/8 in.",
		Args: []Arg{
			num("length_in", "a length"), num("parts", "finest fraction: 2, 4, 8, 16, 32 or 64; 1 for whole inches"),
			word("rounding", "nearest, up or down").or("nearest"),
		},
		Example: []any{25.63, 8.0, "down"},
		Bad:     []Bad{{Value, []any{"25", 8.0}}, {Num, []any{25.0, 10.0}}, {Missing, []any{25.0, 8.0, "sideways"}}},
		call: func(a *args) (Result, error) {
			return text(a.length("length_in").Mixed(unit.Inch, a.parts("parts"), a.direction("rounding"))), nil
		},
	},
	{
		Method: "feetInchText", alone: true, Group: unitGroup, Result: Text,
		Help: "Writes inches in feet and inches: 25.625 as 2' 1 5/8\".",
		Args: []Arg{
			num("length_in", "a length"), num("parts", "finest fraction: 2, 4, 8, 16, 32 or 64; 1 for whole inches"),
			word("rounding", "nearest, up or down").or("nearest"),
		},
		Example: []any{25.625, 8.0},
		Bad:     []Bad{{Value, []any{"25", 8.0}}, {Num, []any{25.0, 3.0}}, {Missing, []any{25.0, 8.0, "sideways"}}},
		call: func(a *args) (Result, error) {
			return text(a.length("length_in").FeetInches(a.parts("parts"), a.direction("rounding"))), nil
		},
	},
	{
		Method: "roundUpIn", Group: unitGroup, Result: Number, Unit: "in",
		Help:    "Rounds a length up to a step, such as 1/8 in: nothing gets shorter. Exact, where a sheet's own rounding can miss a step.",
		Args:    []Arg{num("length_in", "a length"), num("step_in", "the step, above zero")},
		Example: []any{25.51, 0.125},
		Bad:     []Bad{{Value, []any{25.0}}, {Num, []any{25.0, 0.0}}},
		call: func(a *args) (Result, error) {
			l, err := a.length("length_in").RoundTo(a.length("step_in"), unit.Up)
			return a.lengthResult(l, err)
		},
	},
	convert("inToMm", "length_in", "mm", "Inches to millimetres (1 in = 25.4 mm).", 25.625,
		func(a *args) float64 { return a.length("length_in").Millimetres() }),
	convert("mmToIn", "length_mm", "in", "Millimetres to inches.", 652,
		func(a *args) float64 { return a.length("length_mm").Inches() }),
	convert("ydToM", "length_yd", "m", "Yards to metres (1 yd = 0.9144 m).", 14.5,
		func(a *args) float64 { return a.length("length_yd").Metres() }),
	convert("mToYd", "length_m", "yd", "Metres to yards.", 3.2,
		func(a *args) float64 { return a.length("length_m").Yards() }),
	convert("sqftToSqdm", "area_sqft", "sq dm", "Square feet of leather to square decimetres (1 sq ft = 9.290304 sq dm).", 50,
		func(a *args) float64 { return a.area("area_sqft").SquareDecimetres() }),
	convert("sqdmToSqft", "area_sqdm", "sq ft", "Square decimetres of leather to square feet.", 450,
		func(a *args) float64 { return a.area("area_sqdm").SquareFeet() }),
	convert("ozToMm", "thickness_oz", "mm", "Leather ounces to millimetres (1 oz of thickness = 1/64 in).", 3,
		func(a *args) float64 { return a.length("thickness_oz").Millimetres() }),
	convert("mmToOz", "thickness_mm", "oz", "Millimetres to leather ounces.", 1.1,
		func(a *args) float64 { return a.length("thickness_mm").LeatherOunces() }),
	{
		Method: "markedAreaSqft", alone: true, Group: unitGroup, Result: Number, Unit: "sq ft",
		Help: "Reads the area marked on a skin. The same mark means different areas, so the notation must be named.",
		Args: []Arg{
			word("mark", "the figures on the skin, such as 50.3 or 4/1"),
			word("notation", "tenths (50.3 is fifty and three tenths), quarters (4/1) or point quarters (50.3 is fifty and three quarters)"),
		},
		Example: []any{"50.3", "point quarters"},
		Bad:     []Bad{{Value, []any{"fifty", "tenths"}}, {Num, []any{"5000", "tenths"}}, {Missing, []any{"50.3", "thirds"}}},
		call: func(a *args) (Result, error) {
			var n material.Footage
			if err := n.UnmarshalText([]byte(a.text("notation"))); err != nil {
				return Result{}, err
			}
			v, err := material.ParseFootage(a.text("mark"), n)
			return a.areaResult(v, err)
		},
	},
}
