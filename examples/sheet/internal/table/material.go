package table

import (
	"context"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

const materialGroup = "Leather and cloth"

const cutsHelp = "a range with the columns width across the goods in inches, length in inches, count"

var materialFunctions = []Function{
	{
		Method: "sumAreaSqft", Group: materialGroup, Result: Number, Unit: "sq ft",
		Help:    "Area of a list of pieces.",
		Args:    []Arg{rows("pieces", cutsHelp)},
		Example: []any{[][]any{{24.0, 24.0, 2.0}, {18.0, 12.0, 6.0}}},
		Bad:     []Bad{{Value, []any{[][]any{{"seat", 24.0, 2.0}}}}, {Num, []any{[][]any{{24.0, 24.0, 1.5}}}}},
		call: func(a *args) (Result, error) {
			var sum unit.Area
			for _, c := range a.cuts("pieces") {
				if c.width < 0 || c.length < 0 {
					a.fail(Num, "pieces", "sizes must not be negative")
				}
				one, err := c.width.By(c.length)
				if err == nil {
					one, err = one.Times(c.count)
				}
				if err == nil {
					sum, err = sum.Plus(one)
				}
				if err != nil {
					return Result{}, err
				}
			}
			return number(sum.SquareFeet()), nil
		},
	},
	{
		Method: "buyAreaSqft", Group: materialGroup, Result: Number, Unit: "sq ft",
		Help:    "Leather to buy when a share of it is lost: net / (1 - waste). A rule of thumb.",
		Args:    []Arg{num("net_sqft", "area of the panels"), num("waste_percent", "share that is lost; a third of whole hides is customary")},
		Example: []any{67.0, 33.0},
		Bad:     []Bad{{Value, []any{67.0}}, {Num, []any{67.0, 100.0}}},
		call: func(a *args) (Result, error) {
			v, err := material.GrossArea(a.area("net_sqft", unit.SquareFoot), a.percent("waste_percent"))
			return number(v.SquareFeet()), err
		},
	},
	{
		Method: "hidesToBuy", Group: materialGroup, Result: Number, Unit: "hides",
		Help:    "Whole hides to buy. A rule of thumb: lay the panels out before cutting.",
		Args:    []Arg{num("net_sqft", "area of the panels"), num("hide_sqft", "area of one hide, 1 to 100"), num("waste_percent", "share that is lost, up to 90")},
		Example: []any{67.0, 50.0, 33.0},
		Bad:     []Bad{{Value, []any{67.0, 50.0}}, {Num, []any{67.0, 0.0, 33.0}}},
		call: func(a *args) (Result, error) {
			e, err := material.HidesToBuy(a.area("net_sqft", unit.SquareFoot), material.Hide{Area: a.area("hide_sqft", unit.SquareFoot)},
				material.WasteFactor{Waste: a.percent("waste_percent")})
			return count(e.Hides), err
		},
	},
	{
		Method: "leatherForClothSqft", Group: materialGroup, Result: Number, Unit: "sq ft",
		Help:    "Leather that replaces a length of cloth: length x width / yield. 75 % gives the customary 18 sq ft for a yard of 54 in goods.",
		Args:    []Arg{num("length_yd", "length of cloth"), num("width_in", "its width"), num("yield_percent", "share of a hide that ends in the work")},
		Example: []any{1.0, 54.0, 75.0},
		Bad:     []Bad{{Value, []any{1.0, 54.0}}, {Num, []any{1.0, 54.0, 0.0}}},
		call: func(a *args) (Result, error) {
			v, err := material.LeatherForCloth(a.length("length_yd", unit.Yard), a.inches("width_in"), a.percent("yield_percent"))
			return number(v.SquareFeet()), err
		},
	},
	{
		Method: "repeatLengthIn", Group: materialGroup, Result: Number, Unit: "in",
		Help:    "Length to cut so that a matched pattern starts anew: whole repeats.",
		Args:    []Arg{num("need_in", "length needed"), num("repeat_in", "vertical repeat; 0 for plain goods")},
		Example: []any{30.5, 27.0},
		Bad:     []Bad{{Value, []any{30.5}}, {Num, []any{30.5, -27.0}}},
		call: func(a *args) (Result, error) {
			l, err := material.RepeatLength(a.inches("need_in"), a.inches("repeat_in"))
			return number(l.Inches()), err
		},
	},
	{
		Method: "yardageYd", Group: materialGroup, Result: Number, Unit: "yd",
		Help: "Length of cloth to order for a list of pieces, laid out by a short search with every piece on the repeat, and the usual margin to square the ends and for flaws. A work order searches longer.",
		Args: []Arg{
			rows("pieces", cutsHelp), num("roll_width_in", "width of the goods, 10 in to 5 m"), numOr("repeat_in", "vertical repeat", "plain goods"),
			numOr("step_yd", "step the seller cuts to", "none"), numOr("selvage_in", "edge on each side that is not used", "0"),
		},
		Example: []any{[][]any{{26.0, 31.0, 2.0}, {14.0, 22.0, 4.0}}, 54.0, 27.0, 0.25},
		Bad:     []Bad{{Value, []any{[][]any{{"back", 31.0, 2.0}}, 54.0}}, {Num, []any{[][]any{{60.0, 31.0, 2.0}}, 54.0}}},
		call: func(a *args) (Result, error) {
			roll := material.Roll{Width: a.inches("roll_width_in"), Repeat: a.inches("repeat_in"), Increment: a.length("step_yd", unit.Yard), Selvage: a.inches("selvage_in")}
			pieces, most := a.pieces("pieces")
			if most > 200 {
				a.fail(Num, "pieces", "200 pieces at most: use a work order")
			}
			if a.fault != nil {
				return Result{}, a.fault
			}
			l, err := layout.Solve(context.Background(), layout.Job{Roll: &roll, Pieces: pieces}, layout.Options{Effort: 0.001})
			if err != nil {
				return Result{}, err
			}
			o, err := roll.OrderWith(l.Need, l.Spare, material.UsualMargins().Usual)
			return number(o.Order.Yards()), err
		},
	},
	{
		Method: "widthByChartYd", Group: materialGroup, Result: Number, Unit: "yd",
		Help:    "Length of goods of another width by the customary chart, whose columns are 36, 39, 41, 45, 50, 54, 60 and 66 in.",
		Args:    []Arg{num("length_yd", "length of the goods known"), num("from_in", "their width"), num("to_in", "width of the others")},
		Example: []any{4.5, 36.0, 54.0},
		Bad:     []Bad{{Value, []any{4.5, 36.0}}, {Num, []any{400.0, 36.0, 54.0}}, {Missing, []any{4.5, 36.0, 70.0}}},
		call: func(a *args) (Result, error) {
			c, err := material.ConvertByChart(a.length("length_yd", unit.Yard), a.inches("from_in"), a.inches("to_in"))
			return number(c.Length.Yards()), err
		},
	},
	{
		Method: "widthByAreaYd", Group: materialGroup, Result: Number, Unit: "yd",
		Help:    "Length of goods of another width with the same area. It ignores how pieces fit across.",
		Args:    []Arg{num("length_yd", "length of the goods known"), num("from_in", "their width"), num("to_in", "width of the others")},
		Example: []any{10.0, 54.0, 60.0},
		Bad:     []Bad{{Value, []any{10.0, 54.0}}, {Num, []any{10.0, 54.0, 0.0}}},
		call: func(a *args) (Result, error) {
			c, err := material.ConvertByArea(a.length("length_yd", unit.Yard), a.inches("from_in"), a.inches("to_in"))
			return number(c.Length.Yards()), err
		},
	},
	{
		Method: "patternedYd", Group: materialGroup, Result: Number, Unit: "yd",
		Help:    "Length of patterned goods for a length of plain ones, by the customary shares. A layout is better.",
		Args:    []Arg{num("plain_yd", "length of plain goods"), num("width_in", "width, 50 in or more"), num("repeat_in", "vertical repeat"), numOr("across_in", "horizontal repeat", "0")},
		Example: []any{8.0, 54.0, 27.0},
		Bad:     []Bad{{Value, []any{8.0, 54.0}}, {Num, []any{8.0, 20.0, 27.0}}},
		call: func(a *args) (Result, error) {
			c, err := material.PatternedLength(a.length("plain_yd", unit.Yard), a.inches("width_in"), a.inches("repeat_in"), a.inches("across_in"))
			return number(c.Length.Yards()), err
		},
	},
	{
		Method: "nailCount", Group: materialGroup, Result: Number, Unit: "nails",
		Help:    "Decorative nails along edges, one on every corner, the others spaced evenly and never wider.",
		Args:    []Arg{rows("sides_in", "length of each side, corner to corner"), num("head_in", "diameter of the head"), numOr("pitch_in", "widest distance from nail to nail", "head to head")},
		Example: []any{[][]any{{24.0}, {18.0}}, 0.4375},
		Bad:     []Bad{{Value, []any{[][]any{{"front"}}, 0.4375}}, {Num, []any{[][]any{{24.0}}, 0.0}}},
		call: func(a *args) (Result, error) {
			p, err := findings.Nails{Sides: a.lengths("sides_in"), Head: a.inches("head_in"), Pitch: a.inches("pitch_in")}.Plan()
			return count(p.Nails), err
		},
	},
	{
		Method: "webbingIn", Group: materialGroup, Result: Number, Unit: "in",
		Help:    "Length of webbing for an opening, woven both ways, with gaps of 1 in at most and 3 in held at each end.",
		Args:    []Arg{num("width_in", "width of the opening"), num("depth_in", "its depth"), numOr("strip_in", "width of the webbing", "3 1/2 in")},
		Example: []any{22.0, 20.0},
		Bad:     []Bad{{Value, []any{22.0}}, {Num, []any{0.0, 20.0}}},
		call: func(a *args) (Result, error) {
			p, err := findings.Webbing{Width: a.inches("width_in"), Depth: a.inches("depth_in"), Strip: a.inches("strip_in")}.Plan()
			return number(p.Total.Inches()), err
		},
	},
	{
		Method: "zipChainIn", Group: materialGroup, Result: Number, Unit: "in",
		Help:    "Zip chain for openings, with 1 in beyond each end.",
		Args:    []Arg{rows("openings_in", "finished length of each opening")},
		Example: []any{[][]any{{22.0}, {22.0}, {66.0}}},
		Bad:     []Bad{{Value, []any{[][]any{{"back"}}}}, {Num, []any{[][]any{{-22.0}}}}},
		call: func(a *args) (Result, error) {
			z, err := findings.Zips{Openings: a.lengths("openings_in")}.Order(findings.Buying[unit.Length]{})
			return number(z.Chain.Use.Inches()), err
		},
	},
}
