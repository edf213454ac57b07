package allowance

import "slices"

// closed gives the cover with its open seams put to their mates: a side that is
// the name of an open seam, such as skirt.top, stands for its edges. Those that
// found a mate are told.
func (c Cover) closed() (Cover, []bool) {
	taken := make([]bool, len(c.Seams))
	open := map[string]int{}
	for i, s := range c.Seams {
		if s.Open != "" && len(s.Sides) == 1 {
			open[s.Open] = i
		}
	}
	if len(open) == 0 {
		return c, taken
	}
	mate := func(side Side) (Seam, bool) {
		if len(side) != 1 {
			return Seam{}, false
		}
		i, ok := open[side[0].String()]
		if !ok {
			return Seam{}, false
		}
		taken[i] = true
		return c.Seams[i], true
	}
	c.Seams, c.Fastenings = slices.Clone(c.Seams), slices.Clone(c.Fastenings)
	for i := range c.Seams {
		s := &c.Seams[i]
		if s.Open != "" {
			continue
		}
		s.Sides = slices.Clone(s.Sides)
		for k, side := range s.Sides {
			o, ok := mate(side)
			if !ok {
				continue
			}
			s.Sides[k] = o.Sides[0]
			if s.Fullness == 0 && (s.Kind == PlainJoin || s.Kind == WeltedJoin) {
				s.Fullness = o.Fullness
			}
			if s.Kind == PlainJoin {
				s.Kind = o.Kind
			}
			if s.Allowance.IsZero() && s.Handling == 0 {
				s.Allowance, s.Handling = o.Allowance, o.Handling
			}
		}
	}
	for i := range c.Fastenings {
		if o, ok := mate(c.Fastenings[i].Side); ok {
			c.Fastenings[i].Side = o.Sides[0]
		}
	}
	return c, taken
}
