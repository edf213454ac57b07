package sheet

import (
	"context"
	"fmt"
	"maps"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
	"github.com/coverwright/coverwright/unit/cite"
)

// Plan is sheets to buy in which every part has a place, checked for overlap
// and for lying on its sheet.
type Plan struct {
	Orders []Order     `json:"orders"`
	Bought unit.Volume `json:"bought"` // of all sheets; foam is sold by its board feet
	Used   unit.Volume `json:"used"`   // of all blocks
	Waste  unit.Ratio  `json:"waste"`
	// Glued counts the glued faces: plies and joins.
	Glued    int               `json:"glued"`
	Cautions []caution.Caution `json:"cautions"`
	Kind     cite.Kind         `json:"kind"`
}

// Order is the sheets of one size to buy and what is cut from them.
type Order struct {
	Stock Stock `json:"stock"`
	Count int   `json:"count"`
	Bound int   `json:"bound"` // no plan on this size can do with fewer
	Cuts  []Cut `json:"cuts"`
}

// Cut is one piece of foam to cut: a block, a ply of it, or a share of a joined
// ply.
type Cut struct {
	Part   string      `json:"part"`
	Number int         `json:"number"` // which of the part's blocks, from 1
	Ply    int         `json:"ply"`    // from 1
	Share  int         `json:"share"`  // of a joined face, from 1
	Length unit.Length `json:"length"`
	Width  unit.Length `json:"width"`
	Place  Place       `json:"place"`
}

// Place is where a cut lies: on which sheet, counted from 0, and its corner
// nearest the sheet's origin. Turned cuts have their width along the sheet's
// length.
type Place struct {
	Sheet  int         `json:"sheet"`
	X      unit.Length `json:"x"` // along the sheet's length
	Y      unit.Length `json:"y"` // along its width
	Turned bool        `json:"turned,omitempty"`
}

// face is a cut to be laid.
type face struct {
	Cut
	part     int // index of its part
	turnable bool
}

// Lay makes blocks out of stock sheets. A thickness is made of the fewest plies
// whose thicknesses add up to it exactly; a face larger than the sheet is
// butt-joined from equal shares. For each thickness the sheet size that buys
// the least foam is taken. It wraps [ErrNoStock] when a block cannot be made.
// When the context ends the plan is still whole, only perhaps not as good.
func Lay(ctx context.Context, parts []Part, rules Rules) (Plan, error) {
	rules, err := rules.check(ctx, parts)
	if err != nil {
		return Plan{}, err
	}
	out := Plan{Kind: cite.Layout}
	layers, err := out.plies(parts, rules)
	if err != nil {
		return Plan{}, err
	}
	for _, t := range slices.Sorted(maps.Keys(layers)) {
		best, err := cheapest(ctx, t, layers[t], rules)
		if err != nil {
			return Plan{}, err
		}
		out.Glued += best.joins
		out.Orders = append(out.Orders, best.order)
		if out.Bought, err = out.Bought.Plus(best.bought); err != nil {
			return Plan{}, err
		}
	}
	filled, err := out.Used.Per(out.Bought)
	if err != nil {
		return Plan{}, err
	}
	out.Waste = max(0, 1-filled)
	if out.Glued == 0 {
		return out, nil
	}
	out.Cautions, err = caution.ByID("G1", "G2", "H8")
	return out, err
}

// plies takes the blocks apart into faces by thickness and counts the foam used
// and the plies glued.
func (p *Plan) plies(parts []Part, rules Rules) (map[unit.Length][]face, error) {
	layers := map[unit.Length][]face{}
	have := thicknesses(rules.Stock)
	for i, q := range parts {
		plies, ok := fewestPlies(q.Block.Thickness, have, rules.MostPlies)
		if !ok {
			return nil, check.Refuse(fmt.Sprintf("parts[%d].block.thickness", i), q.Block.Thickness.String(), ErrNoStock,
				fmt.Sprintf("a sum of at most %d of the stock thicknesses %s", rules.MostPlies, thicknessList(rules.Stock)))
		}
		v, err := q.Block.Volume()
		if err != nil {
			return nil, unit.InField(fmt.Sprintf("parts[%d].block", i), err)
		}
		if v, err = v.Times(q.Count); err != nil {
			return nil, err
		}
		if p.Used, err = p.Used.Plus(v); err != nil {
			return nil, err
		}
		for n := 1; n <= q.Count; n++ {
			for k, t := range plies {
				layers[t] = append(layers[t], face{part: i, turnable: !q.Fixed, Cut: Cut{
					Part: q.Name, Number: n, Ply: k + 1, Share: 1, Length: q.Block.Length, Width: q.Block.Width,
				}})
			}
			p.Glued += len(plies) - 1
		}
	}
	return layers, nil
}
