package table

import (
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

const cushionGroup = "Whole cushions and skirts"

const cutsHelp = " One row for each kind of piece: what it is, its cut size across the goods and along them, strips lying across, and the count (an array formula). It is a range of pieces for YARDAGEYD and GOODSCOST as it stands."

// The arguments of a boxed cushion with a zip across its back.
var (
	plateArgs = []Arg{
		num("width_in", "finished width of the plate, seam to seam"), num("depth_in", "its depth from front to back"), num("thickness_in", "finished height of the boxing"),
	}
	cushionArgs = append(slices.Clip(plateArgs),
		num("cord_in", "diameter of the cord of a welt round both plates").or("no welt"), num("longest_in", "longest strip the goods allow, such as their width").or("no limit"),
		num("seam_in", "seam allowance, that of the zip apart").or("1/2 in"))
	cushionExample = []any{22.0, 20.0, 4.0, 0.0, 54.0}
	plateExample   = cushionExample[:3]
	cushionBad     = []Bad{{Value, []any{22.0, 20.0}}, {Num, []any{22.0, 20.0, 0.0}}}
)

// plate gives a cushion by its size.
func (a *args) plate() made.Cushion {
	return made.Cushion{Width: a.length("width_in"), Depth: a.length("depth_in"), Thickness: a.length("thickness_in"), Zip: true, Top: made.Goods{ID: "goods", Directed: true}}
}

// whole gives a cushion with all that its cloth depends on.
func (a *args) whole() made.Cushion {
	c := a.plate()
	c.Cord, c.Top.Across, c.Seam = a.length("cord_in"), a.length("longest_in"), a.override("seam_in")
	return c
}

// covered works the cover of a cushion out.
func (a *args) covered(c made.Cushion) (allowance.CoverWork, error) {
	if a.fault != nil {
		return allowance.CoverWork{}, a.fault
	}
	p, err := c.Make()
	if err != nil {
		return allowance.CoverWork{}, err
	}
	limits, _ := allowance.FirmWoven.Limits()
	return p.Cover.Work(map[string]allowance.SewnGoods{c.Top.ID: {Ease: limits}})
}

// cutRow is one kind of piece; a strip lies across the goods.
type cutRow struct {
	what          string
	across, along unit.Length
	count         int
}

// cutGrid puts rows together that are alike in all.
func (a *args) cutGrid(pieces []cutRow) (Result, error) {
	var out []cutRow
	for _, p := range pieces {
		i := slices.IndexFunc(out, func(q cutRow) bool { return q.what == p.what && q.across == p.across && q.along == p.along })
		if i < 0 {
			out = append(out, p)
			continue
		}
		out[i].count += p.count
	}
	lines := make([][]any, len(out))
	for i, p := range out {
		lines[i] = []any{p.what, a.lengthIn(p.across), a.lengthIn(p.along), float64(p.count)}
	}
	return grid(lines), nil
}

func (a *args) cushionCuts() (Result, error) {
	w, err := a.covered(a.whole())
	if err != nil {
		return Result{}, err
	}
	var out []cutRow
	for _, p := range w.Pieces {
		cut, err := p.Panel.Cut()
		if err != nil {
			return Result{}, err
		}
		out = append(out, cutRow{p.Name, cut.Width, cut.Height, 1})
	}
	if len(w.Welts) == 0 {
		return a.cutGrid(out)
	}
	strip := made.WeltRun{Longest: a.length("longest_in")}
	for _, r := range w.Welts {
		strip.Runs = append(strip.Runs, r.Run)
	}
	if strip.Width, err = (made.WeltStrip{Cord: w.Welts[0].Cord}).Width(); err != nil {
		return Result{}, err
	}
	c, err := strip.Cut()
	if err != nil {
		return Result{}, err
	}
	for _, s := range c.Strips {
		out = append(out, cutRow{"welt", s.Length, s.Width, s.Count})
	}
	return a.cutGrid(out)
}

var cushionFunctions = []Function{
	{
		Method: "cushionCutsIn", Group: cushionGroup, Result: Grid, Unit: "in",
		Help: "Cloth of a boxed cushion with a zip panel at its back: plates, boxing, zip panel and welt as they are cut." + cutsHelp,
		Args: cushionArgs, Example: cushionExample, Bad: cushionBad,
		call: func(a *args) (Result, error) { return a.cushionCuts() },
	},
	{
		Method: "cushionFoamIn", Group: cushionGroup, Result: Grid, Unit: "in",
		Help: "Foam of a boxed cushion in one row: width, depth and thickness of the core, larger than the cover by the take-up of the fit (an array formula of three cells).",
		Args: append(slices.Clip(plateArgs), word("fit", "how tight the cover sits: "+names([]made.CushionFit{made.SnugFit, made.FirmFit, made.WrappedFit, made.NeutralFit})).or("snug fit")), Example: plateExample,
		Bad: append(slices.Clip(cushionBad), Bad{Missing, []any{22.0, 20.0, 4.0, "slack"}}),
		call: func(a *args) (Result, error) {
			c := a.plate()
			a.into("fit", &c.Fit)
			if a.fault != nil {
				return Result{}, a.fault
			}
			p, err := c.Make()
			return grid([][]any{{a.lengthIn(p.Core.Width), a.lengthIn(p.Core.Depth), a.lengthIn(p.Core.Thickness)}}), err
		},
	},
	{
		Method: "cushionZipIn", Group: cushionGroup, Result: Number, Unit: "in",
		Help: "Length of zip to cut for a boxed cushion, through the margins at its ends. It follows the zip panel, whose length the longest strip sways: give what CUSHIONCUTSIN is given.",
		Args: cushionArgs, Example: cushionExample, Bad: cushionBad,
		call: func(a *args) (Result, error) {
			w, err := a.covered(a.whole())
			if err != nil {
				return Result{}, err
			}
			var tapes []unit.Length
			for _, z := range w.Zips {
				tapes = append(tapes, z.Tape)
			}
			return a.lengthResult(unit.SumLengths(tapes...))
		},
	},
	{
		Method: "cushionSewnYd", Group: cushionGroup, Result: Number, Unit: "yd",
		Help: "Length of stitching of a boxed cushion, every row of it.",
		Args: cushionArgs, Example: cushionExample, Bad: cushionBad,
		call: func(a *args) (Result, error) {
			w, err := a.covered(a.whole())
			if err != nil {
				return Result{}, err
			}
			return a.lengthResult(w.Stitched(), nil)
		},
	},
}
