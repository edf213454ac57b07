package table

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

// hem is the lower edge of a skirt.
var hem = allowance.Edge{Finish: allowance.DoubleHem}

const hemHelp = " With a plain seam at the top and a double hem."

var (
	baseArg    = num("base_in", "length of the seam it hangs from")
	dropArg    = num("drop_in", "finished depth")
	longestArg = num("longest_in", "longest piece the goods allow, such as their width").or("no limit")
	fullHelp   = "cloth over seam, 1 to 10; twice is usual"
)

// fullness is a factor, not a percentage.
func (a *args) fullness() unit.Ratio { return unit.Ratio(a.number("fullness")) }

func (a *args) skirt(c made.SkirtCut, err error) (Result, error) {
	if err != nil {
		return Result{}, err
	}
	var out []cutRow
	for _, s := range c.Pieces {
		// Lengths that differ by a nanometre are one piece of the cut list.
		if n := len(out); n > 0 && out[n-1].what == s.Use && out[n-1].along == s.Width && max(out[n-1].across-s.Length, s.Length-out[n-1].across) <= unit.Nanometre {
			out[n-1].across = max(out[n-1].across, s.Length)
			out[n-1].count += s.Count
			continue
		}
		out = append(out, cutRow{s.Use, s.Length, s.Width, s.Count})
	}
	return a.cutGrid(out)
}

var skirtFunctions = []Function{
	{
		Method: "gatherClothIn", Group: cushionGroup, Result: Number, Unit: "in",
		Help:    "Flat length of cloth that is gathered to a length: length x fullness.",
		Args:    []Arg{num("finished_in", "length when gathered"), num("fullness", fullHelp)},
		Example: []any{48.0, 2.0},
		Bad:     []Bad{{Value, []any{48.0}}, {Num, []any{48.0, 0.5}}},
		call: func(a *args) (Result, error) {
			// The drop says nothing about the length; any will do.
			c, err := made.GatheredSkirt{Base: a.length("finished_in"), Drop: unit.Foot, Fullness: a.fullness()}.Cut()
			return a.lengthResult(c.Sewn, err)
		},
	},
	{
		Method: "gatheredSkirtIn", Group: cushionGroup, Result: Grid, Unit: "in",
		Help:    "Cloth of a skirt gathered all round." + hemHelp + cutsHelp,
		Args:    []Arg{baseArg, dropArg, num("fullness", fullHelp), longestArg},
		Example: []any{96.0, 7.0, 2.0, 54.0},
		Bad:     []Bad{{Value, []any{96.0, 7.0}}, {Num, []any{96.0, 7.0, 20.0}}},
		call: func(a *args) (Result, error) {
			return a.skirt(made.GatheredSkirt{Base: a.length("base_in"), Drop: a.length("drop_in"), Fullness: a.fullness(), Bottom: hem, Longest: a.length("longest_in")}.Cut())
		},
	},
	{
		Method: "pleatedSkirtIn", Group: cushionGroup, Result: Grid, Unit: "in",
		Help:    "Cloth of a skirt pleated all round." + hemHelp + cutsHelp,
		Args:    []Arg{word("kind", "knife pleat, box pleat or inverted pleat"), baseArg, dropArg, num("count", "pleats all round"), num("underfold_in", "depth of each fold behind the face"), longestArg},
		Example: []any{"box pleat", 96.0, 7.0, 24.0, 2.0, 54.0},
		Bad:     []Bad{{Value, []any{"box pleat", 96.0, 7.0}}, {Num, []any{"box pleat", 96.0, 7.0, 0.0, 2.0}}, {Missing, []any{"sun pleat", 96.0, 7.0, 24.0, 2.0}}},
		call: func(a *args) (Result, error) {
			p := made.Pleats{Finished: a.length("base_in"), Count: a.count("count"), Underfold: a.length("underfold_in")}
			a.into("kind", &p.Kind)
			if a.fault != nil {
				return Result{}, a.fault
			}
			return a.skirt(made.PleatedSkirt{Pleats: p, Drop: a.length("drop_in"), Bottom: hem, Longest: a.length("longest_in")}.Cut())
		},
	},
	{
		Method: "kickPleatSkirtIn", Group: cushionGroup, Result: Grid, Unit: "in",
		Help:    "Cloth of a plain skirt with a pleat at each corner: panels whose ends turn back, and an underlay for each corner." + hemHelp + cutsHelp,
		Args:    []Arg{rows("sides_in", "length of each panel between corners"), dropArg},
		Example: []any{[][]any{{30.0}, {32.0}, {30.0}, {32.0}}, 7.0},
		Bad:     []Bad{{Value, []any{[][]any{{"front"}}, 7.0}}, {Num, []any{[][]any{{30.0}}, 0.0}}},
		call: func(a *args) (Result, error) {
			return a.skirt(made.KickPleatSkirt{Sides: a.lengths("sides_in"), Drop: a.length("drop_in"), Bottom: hem}.Cut())
		},
	},
}
