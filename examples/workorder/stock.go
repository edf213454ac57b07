package main

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// ordered goes from what a layout needs to what is bought, each step with its words:
// each is rounded up for print, and the order comes from the exact ones.
func (s *sheet) ordered(o material.Ordered) string {
	parts := []string{s.rollLen(o.Need, unit.Up) + " by the layout"}
	for _, p := range []struct {
		l    unit.Length
		what string
	}{
		{o.Spare, "for the start of the bolt"},
		{o.Margin.Squaring, "to square the ends"},
		{o.Margin.Test, "for a test piece"},
		{o.Margin.Flaws, "for flaws"},
		{o.Margin.Treatment, "lost at the finisher"},
	} {
		if p.l > 0 {
			parts = append(parts, s.rollLen(p.l, unit.Up)+" "+p.what)
		}
	}
	text := strings.Join(parts, " + ")
	if o.Gross > o.Need+o.Spare+o.Margin.Total {
		text += ", with what shrinks " + s.rollLen(o.Gross, unit.Up)
	}
	return text + ", buy " + s.buyLen(o.Order)
}

// rollLen writes a length along a roll that is not bought: in inches or centimetres
// under half a yard or metre, else as one that is.
func (s *sheet) rollLen(l unit.Length, r unit.Rounding) string {
	switch {
	case s.metric && l < unit.Metre/2:
		return l.Decimal(unit.Centimetre, 1, r)
	case !s.metric && l < unit.Yard/2:
		return l.Mixed(unit.Inch, unit.Eighths, r)
	}
	return s.goodsLen(l, r)
}

// atHand says what need not be bought, whether it suffices, and what to bring where a
// customer's own does not.
func (s *sheet) atHand(p job.Purchase) []string {
	own := p.Stock
	if own == nil {
		return nil
	}
	var out []string
	for _, r := range own.Remnants {
		out = append(out, fmt.Sprintf("%s, a remnant, takes %s; %s of its length left", r.On, plural(len(r.Plan.Places), "piece"), s.rollLen(r.Left, unit.Down)))
	}
	if x := own.Sufficiency; x != nil {
		text := own.Length + " is " + own.Supply.String() + ": "
		switch own.Supply {
		case material.Enough:
			text += fmt.Sprintf("%s by the layout, %s with the margin; %s left beyond the layout", s.rollLen(x.Layout, unit.Up), s.rollLen(x.Wanted, unit.Up), s.rollLen(x.Left, unit.Down))
		case material.Tight:
			text += fmt.Sprintf("room for the layout, %s, but %s short of the margin; %s left", s.rollLen(x.Layout, unit.Up), s.rollLen(x.ShortOfMargin, unit.Up), s.rollLen(x.Left, unit.Down))
		case material.Lacking:
			text += fmt.Sprintf("%s short of the %s of the layout", s.rollLen(x.Short, unit.Up), s.rollLen(x.Layout, unit.Up))
		}
		out = append(out, text)
	}
	if own.Bring != nil {
		out = append(out, "the customer is to bring: "+s.ordered(*own.Bring))
	}
	if own.BringHides > 0 {
		out = append(out, "the customer is to bring "+hides(own.BringHides)+" more, "+s.area(own.BringArea, unit.Up)+" together")
	}
	unused := len(own.Remnants) == 0 && p.AtHand == 0
	switch {
	case own.Whose == stock.Shops && own.Supply == material.Lacking && unused:
		out = append(out, "so all is bought, and none of it is cut: said to be a remnant, it takes whole pieces that it has room for")
	case own.Whose == stock.Customers || own.Supply == 0 && unused:
	case own.Charged == stock.AsIfBought:
		out = append(out, "charged as if bought")
	case own.Charged == stock.AtCost:
		out = append(out, "charged at cost")
	default:
		out = append(out, "not charged")
	}
	return out
}

// kept lists what of goods is worth keeping.
func (s *sheet) kept(p job.Purchase) string {
	var out []string
	for _, x := range p.Leftovers {
		out = append(out, s.size(job.Size{Width: x.Width, Length: x.Length}))
	}
	for _, x := range p.LeftoverHides {
		r := x.Outline.Rectangle
		out = append(out, s.size(job.Size{Width: r.Width, Length: r.Height}))
	}
	return strings.Join(out, "; ")
}

// used is the share of the goods cut that ends in the work: of what is bought, or of the
// length that the layout takes where nothing is.
func used(p job.Purchase) (unit.Ratio, error) {
	switch {
	case p.Plan == nil:
		return 0, nil
	case p.Plan.Job.Roll == nil:
		return p.Plan.Yield()
	}
	length := p.Length
	if length == 0 {
		length = p.Plan.Need
	}
	net, err := p.Plan.Net()
	if err != nil {
		return 0, err
	}
	all, err := length.By(p.Plan.Job.Roll.Width)
	if err != nil {
		return 0, err
	}
	return net.Per(all)
}
