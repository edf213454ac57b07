package table

import (
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/unit"
)

const findingGroup = "Staples, zips and batting"

var findingFunctions = []Function{
	{
		Method: "stapleCount", Group: findingGroup, Result: Number, Unit: "staples",
		Help:    "Staples along edges: one at each end of an edge and the rest at the pitch or closer.",
		Args:    []Arg{rows("edges_in", "length of each stapled edge"), num("pitch_in", "from staple to staple").or("1 in")},
		Example: []any{[][]any{{24.0}, {18.5}}, 1.0},
		Bad:     []Bad{{Value, []any{[][]any{{"front"}}}}, {Num, []any{[][]any{{-24.0}}}}},
		call: func(a *args) (Result, error) {
			// The rail is for the leg alone; any that is thick enough will do.
			p, err := findings.Staples{Edges: a.lengths("edges_in"), Pitch: a.length("pitch_in"), Rail: 2 * unit.Inch}.Plan()
			return count(p.Count), err
		},
	},
	{
		Method: "stapleLegIn", Group: findingGroup, Result: Number, Unit: "in",
		Help:    "Leg of the staple for layers on a rail: the shortest usual one that bites deep enough. Refused where it would come through.",
		Args:    []Arg{num("layers_in", "thickness of everything under the crown"), num("rail_in", "thickness of the rail"), num("bite_in", "wanted depth in the wood").or("1/4 in")},
		Example: []any{0.125, 0.75},
		Bad:     []Bad{{Value, []any{0.125}}, {Num, []any{0.125, 0.25}}},
		call: func(a *args) (Result, error) {
			p, err := findings.Staples{Edges: []unit.Length{unit.Foot}, Layers: a.length("layers_in"), Rail: a.length("rail_in"), Bite: a.length("bite_in")}.Plan()
			if err == nil && p.Through {
				a.fail(Num, "rail_in", "the leg would come through the rail: take a thicker one or a shorter bite")
			}
			return a.lengthResult(p.Leg, err)
		},
	},
	{
		Method: "zipChainIn", Group: findingGroup, Result: Number, Unit: "in",
		Help:    "Zip chain for openings, with 1 in beyond each end.",
		Args:    []Arg{rows("openings_in", "finished length of each opening")},
		Example: []any{[][]any{{22.0}, {22.0}, {66.0}}},
		Bad:     []Bad{{Value, []any{[][]any{{"back"}}}}, {Num, []any{[][]any{{-22.0}}}}},
		call: func(a *args) (Result, error) {
			z, err := a.zips()
			return a.lengthResult(z.Chain.Use, err)
		},
	},
	{
		Method: "zipSliders", Group: findingGroup, Result: Number, Unit: "sliders",
		Help:    "Sliders for zips cut from a chain: one on each, two on openings above 48 in.",
		Args:    []Arg{rows("openings_in", "finished length of each opening")},
		Example: []any{[][]any{{22.0}, {22.0}, {66.0}}},
		Bad:     []Bad{{Value, []any{[][]any{{"back"}}}}, {Num, []any{[][]any{{-22.0}}}}},
		call: func(a *args) (Result, error) {
			z, err := a.zips()
			return count(z.Sliders), err
		},
	},
	{
		Method: "battingSqft", Group: findingGroup, Result: Number, Unit: "sq ft",
		Help: "Batting for a block of foam, over both faces and the front edge. Custom of the trade.", Args: battingArgs, Example: []any{24.0, 22.0, 4.0}, Bad: battingBad,
		call: func(a *args) (Result, error) {
			c, err := a.batting()
			return a.areaResult(c.Area, err)
		},
	},
	{
		Method: "battingCutIn", Group: findingGroup, Result: Grid, Unit: "in",
		Help: "Batting for a block of foam in one row: along the length of the block, and over its faces and the front edge, each layer (an array formula of two cells).", Args: battingArgs, Example: []any{24.0, 22.0, 4.0}, Bad: battingBad,
		call: func(a *args) (Result, error) {
			c, err := a.batting()
			return grid([][]any{{a.lengthIn(c.Length), a.lengthIn(c.Around)}}), err
		},
	},
	{
		Method: "battingCrownIn", Group: findingGroup, Result: Number, Unit: "in",
		Help:    "What batting adds to the height of the middle under the cover, both faces together, pressed to half its loft. Custom of the trade.",
		Args:    []Arg{word("batting", "weight of a square yard: "+battingNames()), layersArg},
		Example: []any{"3/4 oz"},
		Bad:     []Bad{{Value, []any{}}, {Num, []any{"3/4 oz", 9.0}}, {Missing, []any{"wool"}}},
		call:    func(a *args) (Result, error) { return a.crown() },
	},
}

func (a *args) zips() (findings.ZipOrder, error) {
	return findings.Zips{Openings: a.lengths("openings_in")}.Order(findings.Buying[unit.Length]{})
}
