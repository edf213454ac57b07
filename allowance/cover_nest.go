package allowance

import "slices"

// Nested gives a copy of the cover as a part of a larger one: every panel's name
// is put after the prefix and a dot, in the panels and wherever they are named.
// Rows, seams and zips get the prefix too.
func (c Cover) Nested(prefix string) Cover {
	put := func(name string) string {
		if name == "" {
			return ""
		}
		return prefix + "." + name
	}
	side := func(s Side) Side {
		s = slices.Clone(s)
		for i := range s {
			s[i].Panel = put(s[i].Panel)
		}
		return s
	}
	names := func(ns []string) []string {
		ns = slices.Clone(ns)
		for i := range ns {
			ns[i] = put(ns[i])
		}
		return ns
	}
	out := Cover{Panels: slices.Clone(c.Panels), Seams: slices.Clone(c.Seams), Fastenings: slices.Clone(c.Fastenings),
		Trims: slices.Clone(c.Trims), Meets: slices.Clone(c.Meets), Rows: slices.Clone(c.Rows)}
	for i := range out.Panels {
		out.Panels[i].Name = put(out.Panels[i].Name)
	}
	for i := range out.Seams {
		s := &out.Seams[i]
		s.Name, s.Tape, s.Open, s.Sides = put(s.Name), put(s.Tape), put(s.Open), slices.Clone(s.Sides)
		for k := range s.Sides {
			s.Sides[k] = side(s.Sides[k])
		}
	}
	for i := range out.Fastenings {
		f := &out.Fastenings[i]
		f.Name, f.Side, f.HiddenBy = put(f.Name), side(f.Side), names(f.HiddenBy)
	}
	for i := range out.Trims {
		t := &out.Trims[i]
		t.Name, t.HiddenBy, t.Covers = put(t.Name), names(t.HiddenBy), names(t.Covers)
	}
	for i := range out.Meets {
		m := &out.Meets[i]
		m.Sides = slices.Clone(m.Sides)
		for k := range m.Sides {
			m.Sides[k].Side = side(m.Sides[k].Side)
		}
	}
	for i := range out.Rows {
		out.Rows[i].Of = put(out.Rows[i].Of)
	}
	return out
}

// Joined gives the cover with all of another put after its own: panels, seams
// and the rest.
func (c Cover) Joined(d Cover) Cover {
	return Cover{Panels: slices.Concat(c.Panels, d.Panels), Seams: slices.Concat(c.Seams, d.Seams),
		Fastenings: slices.Concat(c.Fastenings, d.Fastenings), Trims: slices.Concat(c.Trims, d.Trims),
		Meets: slices.Concat(c.Meets, d.Meets), Rows: slices.Concat(c.Rows, d.Rows)}
}
