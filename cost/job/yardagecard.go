package job

import (
	"context"
	"errors"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// CardLength is one cell of a yardage card: the length to buy of goods of a width,
// plain or with a pattern.
type CardLength struct {
	Goods  string      `json:"goods"` // id
	Name   string      `json:"name"`
	Width  unit.Length `json:"width"`
	Repeat unit.Length `json:"repeat,omitzero"` // along the roll; plain goods without
	// Need is the layout with a repeat more where there is one, as a bolt may start
	// anywhere in it; Length is what to buy, with the working margin, in the steps of
	// the seller.
	Need   unit.Length `json:"need,omitzero"`
	Length unit.Length `json:"length,omitzero"`
	// TooNarrow says which piece does not fit across the goods; there is no length
	// then.
	TooNarrow string    `json:"too_narrow,omitempty"`
	Proved    bool      `json:"proved,omitempty"`  // no layout can need less
	Stopped   bool      `json:"stopped,omitempty"` // the context ended: more effort might have found less
	Kind      cite.Kind `json:"kind"`              // always cite.Layout
}

// cardWidth is the width of goods that a card begins with, and narrowWidth the other
// one where the goods of the job have that width.
const (
	cardWidth   = 54 * unit.Inch
	narrowWidth = 48 * unit.Inch
)

// cardRepeats are those that a card has, plain goods first.
var cardRepeats = [...]unit.Length{0, 14 * unit.Inch, 20 * unit.Inch, 27 * unit.Inch}

// YardageCard gives the lengths to buy before the cloth is chosen: for all roll goods
// that something is cut from, 54 in wide and as wide as the goods of the job, or 48 in
// where these are 54 in; plain, and with repeats along the roll of 14, 20 and 27 in.
// All else of the goods is as in the job. Pieces that nobody has measured are not in it.
//
// Each length is a layout, and the effort of o is shared out among them; the card is the
// same for any number of workers. Errors are those of Build, and so is what a context
// does that ends.
func YardageCard(ctx context.Context, s Spec, o Options) ([]CardLength, error) {
	if err := o.check(ctx); err != nil {
		return nil, err
	}
	o.NoMatching = true
	d, err := prepare(ctx, s)
	if err != nil {
		return nil, err
	}
	var out []CardLength
	var wants [][]want // one of each cell, none where a piece does not fit
	for _, w := range d.wants {
		if w.goods.Kind != RollGoods {
			continue
		}
		other := w.goods.Width
		if other == cardWidth {
			other = narrowWidth
		}
		for _, width := range []unit.Length{cardWidth, other} {
			for _, repeat := range cardRepeats {
				cell := CardLength{Goods: w.goods.ID, Name: w.goods.Name, Width: width, Repeat: repeat, Kind: cite.Layout}
				want, err := cell.want(ctx, s)
				if err != nil {
					return nil, err
				}
				out, wants = append(out, cell), append(wants, want)
			}
		}
	}
	tasks, numbers := tasksOf(wants...)
	results := lay(ctx, tasks, o)
	for i := range out {
		if len(wants[i]) == 0 {
			continue
		}
		w, r := wants[i][0], results[numbers[i][0]]
		if r.err != nil {
			return nil, faults{w.place(r.err)}.err()
		}
		out[i].Stopped, out[i].Proved = r.stopped(), r.plan.Proved
		bought, err := w.goods.ordered(*r.plan)
		if err != nil {
			return nil, err
		}
		out[i].Need, out[i].Length = bought.Need+bought.Spare, bought.Order
	}
	return out, nil
}

// want works out what is cut where the goods of the cell are as it says.
func (c *CardLength) want(ctx context.Context, s Spec) ([]want, error) {
	s = c.in(s)
	d, err := prepareIn(ctx, s, &OptionSpec{})
	var found Faults
	if errors.As(err, &found) {
		for _, f := range found {
			var in *unit.InputError
			if errors.Is(f, layout.ErrTooWide) && errors.As(f, &in) {
				c.TooNarrow = in.Value
				return nil, nil
			}
		}
	}
	if err != nil {
		return nil, err
	}
	i := slices.IndexFunc(d.wants, func(w want) bool { return w.goods.ID == c.Goods })
	if i < 0 {
		return nil, nil
	}
	return d.wants[i : i+1], nil
}

// in gives the job with the goods of the cell, and without what means nothing on them.
func (c *CardLength) in(s Spec) Spec {
	s.Options = nil
	var goods GoodsSpec
	s.Goods = changed(s.Goods, func(g *GoodsSpec) {
		if g.ID == c.Goods {
			*g = g.unchosen(c.Width, c.Repeat)
			goods = *g
		}
	})
	s.Pieces = changed(s.Pieces, func(p *Furniture) {
		p.Panels = changed(p.Panels, func(q *PanelSpec) {
			if q.Goods != c.Goods {
				return
			}
			if q.suit(goods); !goods.roll().Patterned() {
				q.Motif = nil
			}
		})
		p.Cushions = changed(p.Cushions, func(x *CushionSpec) {
			if x.Top == c.Goods || x.Bottom == c.Goods {
				x.MayRailroad = x.MayRailroad && !goods.directed()
			}
		})
	})
	return s
}

// unchosen gives the goods in another width and with another pattern, as a new bolt
// has them.
func (g GoodsSpec) unchosen(width, repeat unit.Length) GoodsSpec {
	g.Width, g.Repeat, g.UnknownStart = width, repeat, repeat > 0
	g.RepeatAcross, g.RepeatLevel, g.Drop, g.FirstMotif = 0, 0, Drop{}, shape.Point{}
	g.Flaws, g.AtHand = nil, nil
	return g
}
