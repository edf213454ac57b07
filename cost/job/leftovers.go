package job

import (
	"errors"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// leave notes what the layouts of some goods leave.
func (p *Purchase) leave(g GoodsSpec) error {
	var err error
	if g.Kind == RollGoods {
		p.Leftovers, err = p.restOfRolls(g)
	} else if p.Plan != nil {
		p.LeftoverHides, err = restOfHides(*p.Plan, g.keep())
	}
	return err
}

// restOfRolls gives what is left of the lengths that the pieces are cut from.
func (p *Purchase) restOfRolls(g GoodsSpec) ([]stock.Length, error) {
	keep := g.keep()
	var out []stock.Length
	for _, l := range p.Layouts() {
		of, name := p.Length, g.Name
		margin := unit.Length(0)
		switch i := slices.IndexFunc(g.AtHand, func(s stock.Length) bool { return s.Name == l.On }); {
		case l.On != "":
			of, name = g.AtHand[i].Length, l.On
			if s := p.Stock.Sufficiency; s != nil && !g.AtHand[i].Remnant {
				margin = min(s.Wanted-s.Layout, of-s.Layout)
			}
		case p.Ordered != nil:
			margin = p.Ordered.Margin.Total
		default: // the customer brings it
			continue
		}
		rest, err := l.Plan.Leftovers(of-margin, keep.Width, keep.Length)
		if errors.Is(err, layout.ErrTooMany) { // too many places to look between
			continue
		}
		if err != nil {
			return nil, err
		}
		for _, r := range rest {
			out = append(out, stock.Remnant(fmt.Sprintf("rest %d of %s", len(out)+1, name), r, g.roll()))
		}
	}
	return out, nil
}

// restOfHides gives what is left of traced hides.
func restOfHides(p layout.Plan, keep stock.Keep) ([]HideSpec, error) {
	p.Offcuts = slices.DeleteFunc(slices.Clone(p.Offcuts), func(c layout.Offcut) bool {
		whole := c.Width >= keep.Width && c.Length >= keep.Length || c.Width >= keep.Length && c.Length >= keep.Width
		return !whole || p.Hides[c.Hide].Outline.IsZero()
	})
	rest, err := p.LeftoverSkins()
	var out []HideSpec
	for _, s := range rest {
		w, l := s.Outline.Size()
		h := HideSpec{Name: fmt.Sprintf("rest %d of %s", len(out)+1, s.ID), Grade: s.Grade, Outline: &shape.Form{Rectangle: &shape.RectangleForm{Width: w, Height: l}}}
		for _, x := range s.Stretch {
			h.Stretch = append(h.Stretch, StretchSpec{Direction: x.Direction})
		}
		out = append(out, h)
	}
	return out, err
}
