package allowance

import "slices"

// closed gives the cover with its open seams put to their mates: a side that is
// the name of an open seam, such as skirt.top, stands for its edges. Those that
// found a mate are told.
func (c Cover) closed() (Cover, []bool) {
	taken := make([]bool, len(c.Seams))
	open := map[string]int{}
	for i, s := range c.Seams {
		if s.Open != "" && (len(s.Sides) == 1 || len(s.Sides) == 2) {
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
		own := s.Sides
		s.Sides = nil
		for k, side := range own {
			o, ok := mate(side)
			if !ok {
				s.Sides = append(s.Sides, side)
				continue
			}
			s.Sides = append(s.Sides, o.Sides[0])
			if len(o.Sides) == 2 { // it runs against the first of its own seam
				s.Sides = append(s.Sides, o.Sides[1].against(k > 0))
			}
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
		if o, ok := mate(c.Fastenings[i].Side); ok && len(o.Sides) == 1 {
			c.Fastenings[i].Side = o.Sides[0]
		}
	}
	return c, taken
}

// against gives a side, or the same run the other way: its panels lie with their
// backs where their faces are due.
func (s Side) against(turned bool) Side {
	if !turned {
		return s
	}
	out := slices.Clone(s)
	slices.Reverse(out)
	for i := range out {
		out[i].Reversed = !out[i].Reversed
	}
	return out
}
