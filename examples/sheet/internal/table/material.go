package table

import (
	"context"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

const materialGroup = "Leather and cloth"

// cutRows are the pieces of a cut list.
var cutRows = Arg{Name: "pieces_in", Kind: Range, Help: "one row for each piece: width across the goods, length and count, with or without a name before them", Sizes: 2, key: "pieces_in"}

var materialFunctions = []Function{
	{
		Method: "sumAreaSqft", Group: materialGroup, Result: Number, Unit: "sq ft",
		Help:    "Area of a list of pieces.",
		Args:    []Arg{cutRows},
		Example: []any{[][]any{{24.0, 24.0, 2.0}, {18.0, 12.0, 6.0}}},
		Bad:     []Bad{{Value, []any{[][]any{{"seat", 24.0, 2.0}}}}, {Num, []any{[][]any{{24.0, 24.0, 1.5}}}}},
		call: func(a *args) (Result, error) {
			var sum unit.Area
			for _, c := range a.cuts("pieces_in") {
				if c.width < 0 || c.length < 0 {
					a.fail(Num, "pieces_in", "sizes must not be negative")
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
			return a.areaResult(sum, nil)
		},
	},
	{
		Method: "buyAreaSqft", Group: materialGroup, Result: Number, Unit: "sq ft",
		Help:    "Leather to buy when a share of it is lost: net / (1 - waste). A rule of thumb.",
		Args:    []Arg{num("net_sqft", "area of the panels"), share("waste", "share that is lost, up to 90 %; a third of whole hides is customary")},
		Example: []any{67.0, 0.33},
		Bad:     []Bad{{Value, []any{67.0}}, {Num, []any{67.0, 33.0}}},
		call: func(a *args) (Result, error) {
			v, err := material.GrossArea(a.area("net_sqft"), a.share("waste", 0, 0.9))
			return a.areaResult(v, err)
		},
	},
	{
		Method: "hidesToBuy", Group: materialGroup, Result: Number, Unit: "hides",
		Help:    "Whole hides to buy. A rule of thumb: lay the panels out before cutting.",
		Args:    []Arg{num("net_sqft", "area of the panels"), num("hide_sqft", "area of one hide, 1 to 100 sq ft"), share("waste", "share that is lost, up to 90 %")},
		Example: []any{67.0, 50.0, 0.33},
		Bad:     []Bad{{Value, []any{67.0, 50.0}}, {Num, []any{67.0, 0.0, 0.33}}},
		call: func(a *args) (Result, error) {
			e, err := material.HidesToBuy(a.area("net_sqft"), material.Hide{Area: a.area("hide_sqft")},
				material.WasteFactor{Waste: a.share("waste", 0, 0.9)})
			return count(e.Hides), err
		},
	},
	{
		Method: "hidesByLayout", Group: materialGroup, Result: Number, Unit: "hides",
		Help:    "Whole hides for a list of pieces, laid out by a short search on hides of a usual shape, each piece at any angle. Flaws, grain and stretch are not known: lay the panels out before cutting.",
		Args:    []Arg{cutRows, num("hide_sqft", "area of one hide"), word("kind", skinHelp).or("whole hide")},
		Example: []any{[][]any{{26.0, 31.0, 2.0}, {14.0, 22.0, 4.0}}, 50.0},
		Bad:     []Bad{{Value, []any{[][]any{{"back", 31.0, 2.0}}, 50.0}}, {Num, []any{[][]any{{260.0, 310.0, 1.0}}, 50.0}}, {Missing, []any{[][]any{{26.0, 31.0, 2.0}}, 50.0, "snake"}}},
		call:    func(a *args) (Result, error) { return a.hidesByLayout() },
	},
	{
		Method: "leatherForClothSqft", Group: materialGroup, Result: Number, Unit: "sq ft",
		Help:    "Leather that replaces a length of cloth: length x width / yield. 75 % gives the customary 18 sq ft for a yard of 54 in goods.",
		Args:    []Arg{num("length_yd", "length of cloth"), num("width_in", "its width"), share("yield_share", "share of a hide that ends in the work")},
		Example: []any{1.0, 54.0, 0.75},
		Bad:     []Bad{{Value, []any{1.0, 54.0}}, {Num, []any{1.0, 54.0, 0.0}}},
		call: func(a *args) (Result, error) {
			v, err := material.LeatherForCloth(a.length("length_yd"), a.length("width_in"), a.share("yield_share", 0, 1))
			return a.areaResult(v, err)
		},
	},
	{
		Method: "repeatLengthIn", Group: materialGroup, Result: Number, Unit: "in",
		Help:    "Length to cut so that a matched pattern starts anew: whole repeats.",
		Args:    []Arg{num("need_in", "length needed"), num("repeat_in", "vertical repeat; 0 for plain goods")},
		Example: []any{30.5, 27.0},
		Bad:     []Bad{{Value, []any{30.5}}, {Num, []any{30.5, -27.0}}},
		call: func(a *args) (Result, error) {
			l, err := material.RepeatLength(a.length("need_in"), a.length("repeat_in"))
			return a.lengthResult(l, err)
		},
	},
	{
		Method: "yardageYd", Group: materialGroup, Result: Number, Unit: "yd",
		Help: "Length of cloth to order for a list of pieces, laid out by a short search with every piece on the repeat, and the usual margin to square the ends and for flaws. A work order searches longer.",
		Args: []Arg{
			cutRows, num("roll_width_in", "width of the goods, 10 in to 5 m"), num("repeat_in", "vertical repeat").or("plain goods"),
			num("step_yd", "step the seller cuts to").or("none"), num("selvage_in", "edge on each side that is not used").or("0"),
		},
		Example: []any{[][]any{{26.0, 31.0, 2.0}, {14.0, 22.0, 4.0}}, 54.0, 27.0, 0.25},
		Bad:     []Bad{{Value, []any{[][]any{{"back", 31.0, 2.0}}, 54.0}}, {Num, []any{[][]any{{60.0, 31.0, 2.0}}, 54.0}}},
		call: func(a *args) (Result, error) {
			roll := material.Roll{Width: a.length("roll_width_in"), Repeat: a.length("repeat_in"), Increment: a.length("step_yd"), Selvage: a.length("selvage_in")}
			pieces := a.pieces("pieces_in", mostOnRoll)
			if a.fault != nil {
				return Result{}, a.fault
			}
			l, err := layout.Solve(context.Background(), layout.Job{Roll: &roll, Pieces: pieces}, layout.Options{Effort: 0.001})
			if err != nil {
				return Result{}, err
			}
			o, err := roll.OrderWith(l.Need, l.Spare, material.UsualMargins().Usual)
			return a.lengthResult(o.Order, err)
		},
	},
	{
		Method: "widthByChartYd", alone: true, Group: materialGroup, Result: Number, Unit: "yd",
		Help:    "Length of goods of another width by the customary chart, whose columns are 36, 39, 41, 45, 50, 54, 60 and 66 in.",
		Args:    []Arg{num("length_yd", "length of the goods known"), num("from_in", "their width"), num("to_in", "width of the others")},
		Example: []any{4.5, 36.0, 54.0},
		Bad:     []Bad{{Value, []any{4.5, 36.0}}, {Num, []any{400.0, 36.0, 54.0}}, {Missing, []any{4.5, 36.0, 70.0}}},
		call: func(a *args) (Result, error) {
			c, err := material.ConvertByChart(a.length("length_yd"), a.length("from_in"), a.length("to_in"))
			return a.lengthResult(c.Length, err)
		},
	},
	{
		Method: "widthByAreaYd", Group: materialGroup, Result: Number, Unit: "yd",
		Help:    "Length of goods of another width with the same area. It ignores how pieces fit across.",
		Args:    []Arg{num("length_yd", "length of the goods known"), num("from_in", "their width"), num("to_in", "width of the others")},
		Example: []any{10.0, 54.0, 60.0},
		Bad:     []Bad{{Value, []any{10.0, 54.0}}, {Num, []any{10.0, 54.0, 0.0}}},
		call: func(a *args) (Result, error) {
			c, err := material.ConvertByArea(a.length("length_yd"), a.length("from_in"), a.length("to_in"))
			return a.lengthResult(c.Length, err)
		},
	},
	{
		Method: "patternedYd", Group: materialGroup, Result: Number, Unit: "yd",
		Help:    "Length of patterned goods for a length of plain ones, by the customary shares. A layout is better.",
		Args:    []Arg{num("plain_yd", "length of plain goods"), num("width_in", "width, 50 in or more"), num("repeat_in", "vertical repeat"), num("across_in", "horizontal repeat").or("0")},
		Example: []any{8.0, 54.0, 27.0},
		Bad:     []Bad{{Value, []any{8.0, 54.0}}, {Num, []any{8.0, 20.0, 27.0}}},
		call: func(a *args) (Result, error) {
			c, err := material.PatternedLength(a.length("plain_yd"), a.length("width_in"), a.length("repeat_in"), a.length("across_in"))
			return a.lengthResult(c.Length, err)
		},
	},
	{
		Method: "nailCount", Group: materialGroup, Result: Number, Unit: "nails",
		Help:    "Decorative nails along edges, one on every corner, the others spaced evenly and never wider.",
		Args:    []Arg{rows("sides_in", "length of each side, corner to corner"), num("head_in", "diameter of the head"), num("pitch_in", "widest distance from nail to nail").or("head to head")},
		Example: []any{[][]any{{24.0}, {18.0}}, 0.4375},
		Bad:     []Bad{{Value, []any{[][]any{{"front"}}, 0.4375}}, {Num, []any{[][]any{{24.0}}, 0.0}}},
		call: func(a *args) (Result, error) {
			p, err := findings.Nails{Sides: a.lengths("sides_in"), Head: a.length("head_in"), Pitch: a.length("pitch_in")}.Plan()
			return count(p.Nails), err
		},
	},
	{
		Method: "webbingIn", Group: materialGroup, Result: Number, Unit: "in",
		Help:    "Length of webbing for an opening, woven both ways, with gaps of 1 in at most and 3 in held at each end.",
		Args:    []Arg{num("width_in", "width of the opening"), num("depth_in", "its depth"), num("strip_in", "width of the webbing").or("3 1/2 in")},
		Example: []any{22.0, 20.0},
		Bad:     []Bad{{Value, []any{22.0}}, {Num, []any{0.0, 20.0}}},
		call: func(a *args) (Result, error) {
			p, err := findings.Webbing{Width: a.length("width_in"), Depth: a.length("depth_in"), Strip: a.length("strip_in")}.Plan()
			return a.lengthResult(p.Total, err)
		},
	},
}

var skinHelp = func() string {
	return names(material.SkinKinds())
}()

func (a *args) hidesByLayout() (Result, error) {
	skin := material.Skin{Kind: material.WholeHide, Area: a.area("hide_sqft")}
	a.into("kind", &skin.Kind)
	pieces := a.pieces("pieces_in", mostOnHides)
	if a.fault != nil {
		return Result{}, a.fault
	}
	for i := range pieces {
		pieces[i].Grain = layout.FreeGrain()
	}
	p, err := layout.Solve(context.Background(), layout.Job{Hides: &layout.Hides{Usual: skin}, Pieces: pieces}, layout.Options{Effort: 0.02})
	if err != nil {
		return Result{}, err
	}
	if !p.Complete() {
		a.fail(Num, "pieces_in", "a piece finds no room on a hide")
	}
	return count(len(p.Used)), nil
}
