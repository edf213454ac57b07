package main

import (
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// order shows how the need of a layout becomes the length that is bought.
func order() (*sheet, error) {
	const need, spare = 96 * unit.Inch, 2 * unit.Inch
	goods := material.Roll{Width: 54 * unit.Inch, Shrinkage: 0.04, Increment: unit.Yard / 4}
	o, err := goods.OrderWith(need, spare, material.UsualMargins().Usual)
	if err != nil {
		return nil, err
	}
	s := newSheet(330, "From the need to the order")
	y := s.given("Goods that shrink by "+goods.Shrinkage.PercentText(0, unit.Nearest)+", sold by the quarter yard;", "spare for the start of the bolt R = "+inch(spare)+".")
	v := view{x: margin, scale: 3.5}
	row := func(name string, parts ...unit.Length) {
		s.bold(margin, y+8, name)
		x := margin
		for i, p := range parts {
			fill := paper
			if i == 0 {
				fill = cloth
			}
			s.Rect(place(x, y+14), v.length(p), 22, filled(cutLine, fill)...)
			x += v.length(p)
		}
		y += 58
	}
	row("need of the layout N = "+inch(need), need)
	row("with margin M = "+inch(o.Margin.Total)+" and R: "+inch(need+o.Margin.Total+spare), need, o.Margin.Total, spare)
	row("as it shrinks, divided by 1 - s: "+hundredths(o.Gross), o.Gross)
	row("order "+o.Order.Decimal(unit.Yard, 2, unit.Up)+" = "+inch(o.Order), o.Order)
	for at := goods.Increment; at < o.Order; at += goods.Increment {
		x := margin + v.length(at)
		s.Line(place(x, y-44), place(x, y-22), hair...)
	}
	return s, nil
}
