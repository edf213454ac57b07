package main

import (
	"strings"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// ordered goes from what a layout needs to what is bought, each step with its words:
// every one is to the inch, and only the last is rounded, to the step of the seller.
func (s *sheet) ordered(o material.Ordered) string {
	parts := []string{s.exactLen(o.Need) + " by the layout"}
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
			parts = append(parts, s.exactLen(p.l)+" "+p.what)
		}
	}
	sum := o.Need + o.Spare + o.Margin.Total
	text := strings.Join(parts, " + ")
	if len(parts) > 1 {
		text += " = " + s.exactLen(sum)
	}
	if o.Gross > sum {
		text += ", with what shrinks " + s.exactLen(o.Gross)
	}
	return text + ", buy " + s.buyLen(o.Order)
}

// exactLen writes a length on the way to an order: to 1/16 in where it is one, else to
// the hundredth, or to the tenth of a millimetre.
func (s *sheet) exactLen(l unit.Length) string {
	switch {
	case s.metric:
		return l.Decimal(unit.Millimetre, 1, unit.Up)
	case l%(unit.Inch/16) == 0:
		return l.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest)
	}
	return l.Decimal(unit.Inch, 2, unit.Up)
}
