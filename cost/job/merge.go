package job

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/cost/job/kind"
)

// merger puts the parts and relations of a job in the place of those of a kind.
type merger struct {
	own     Furniture
	kind    kind.Kind
	foam    FoamList // that the kind would have, which is for the job to choose
	filled  bool     // the job says with what
	without []string
	// Of every list of the merged piece: for each entry its place among those of
	// the job, -1 for one of the kind, and its name.
	places map[string][]int
	names  map[string][]string
}

// named is a part of a piece of furniture by its name.
type named struct{ list, name string }

// named lists the parts by name.
func (p Furniture) named() []named {
	var out []named
	for _, x := range p.Panels {
		out = append(out, named{"panels", x.Name})
	}
	for _, x := range p.Cushions {
		out = append(out, named{"cushions", x.Name})
	}
	for _, x := range p.Boxings {
		out = append(out, named{"boxings", x.Name})
	}
	for _, x := range p.Welts {
		out = append(out, named{"welts", x.Name})
	}
	for _, x := range p.Skirts {
		out = append(out, named{"skirts", x.Name})
	}
	for _, x := range p.Tufted {
		out = append(out, named{"tufted", x.Name})
	}
	for _, x := range p.Channels {
		out = append(out, named{"channels", x.Name})
	}
	for _, x := range p.Trims {
		out = append(out, named{"trims", x.Name})
	}
	return out
}

// merge gives the piece of the job with what the kind brings.
func (m *merger) merge(k Furniture) Furniture {
	out := m.own
	out.Panels = mergeNamed(m, "panels", k.Panels, m.own.Panels, func(x PanelSpec) string { return x.Name })
	out.Cushions = mergeNamed(m, "cushions", k.Cushions, m.own.Cushions, func(x CushionSpec) string { return x.Name })
	out.Boxings = mergeNamed(m, "boxings", k.Boxings, m.own.Boxings, func(x BoxingSpec) string { return x.Name })
	out.Welts = mergeNamed(m, "welts", k.Welts, m.own.Welts, func(x WeltSpec) string { return x.Name })
	out.Skirts = mergeNamed(m, "skirts", k.Skirts, m.own.Skirts, func(x SkirtSpec) string { return x.Name })
	out.Tufted = mergeNamed(m, "tufted", k.Tufted, m.own.Tufted, func(x TuftedSpec) string { return x.Name })
	out.Channels = mergeNamed(m, "channels", k.Channels, m.own.Channels, func(x ChannelsSpec) string { return x.Name })
	out.Trims = mergeNamed(m, "trims", k.Trims, m.own.Trims, func(x TrimSpec) string { return x.Name })
	if k.Build != nil {
		built := *k.Build
		if out.Build != nil {
			built = out.Build.Over(built)
		}
		out.Build = &built
	}
	if m.filled {
		blocks := slices.DeleteFunc(slices.Clone(k.Foam), func(x FoamSpec) bool { return x.Thickness == 0 })
		out.Foam = mergeNamed(m, "foam", blocks, m.own.Foam, func(x FoamSpec) string { return x.Name })
	}
	m.relations(k, &out)
	return out
}

// mergeNamed puts a part of the job in the place of that of the kind with its
// name, leaves out what the job does without, and ends with what else the job has.
func mergeNamed[T any](m *merger, list string, brought, own []T, name func(T) string) []T {
	var out []T
	put := func(x T, place int) {
		out = append(out, x)
		m.places[list] = append(m.places[list], place)
		m.names[list] = append(m.names[list], name(x))
	}
	used := make([]bool, len(own))
	taken := m.own.named()
	for _, x := range brought {
		n := name(x)
		at := slices.IndexFunc(own, func(y T) bool { return name(y) == n })
		elsewhere := slices.ContainsFunc(taken, func(t named) bool { return t.name == n })
		switch {
		case at >= 0:
			used[at] = true
			put(own[at], at)
		case !elsewhere && !slices.Contains(m.without, n):
			put(x, -1)
		}
	}
	for i, x := range own {
		if !used[i] {
			put(x, i)
		}
	}
	return out
}

// relations puts the seams, fastenings and meets of the job with those of the
// kind, which first loses what the job says of its edges and what names parts that
// are left out.
func (m *merger) relations(k Furniture, out *Furniture) {
	parts := out.named()
	gone := func(name string) bool {
		return !slices.ContainsFunc(parts, func(p named) bool { return within(name, p.name) })
	}
	lost := func(said []allowance.Side, sides ...allowance.Side) bool {
		for _, e := range slices.Concat(sides...) {
			if gone(e.Panel) || slices.ContainsFunc(slices.Concat(said...), func(o allowance.EdgePart) bool {
				return o.Edge == e.Edge && (within(o.Panel, e.Panel) || within(e.Panel, o.Panel))
			}) {
				return true
			}
		}
		return false
	}
	var said, met []allowance.Side
	for _, s := range m.own.Seams {
		said = append(said, s.Sew, s.To, s.And)
	}
	for _, f := range m.own.Fastenings {
		said = append(said, f.Fasten...)
	}
	for _, x := range m.own.Meets {
		met = append(met, x.Meet, x.To)
	}
	seams := slices.DeleteFunc(slices.Clone(k.Seams), func(s SeamSpec) bool { return lost(said, s.Sew, s.To, s.And) })
	out.Seams = follow(m, "seams", seams, m.own.Seams, func(s SeamSpec) string { return s.Sew.String() })
	var held []FasteningSpec
	for _, f := range k.Fastenings {
		f.Fasten = slices.DeleteFunc(slices.Clone(f.Fasten), func(s allowance.Side) bool { return lost(said, s) })
		f.HiddenBy = slices.DeleteFunc(slices.Clone(f.HiddenBy), gone)
		if len(f.Fasten) > 0 {
			held = append(held, f)
		}
	}
	out.Fastenings = follow(m, "fastenings", held, m.own.Fastenings, func(f FasteningSpec) string {
		if len(f.Fasten) == 0 {
			return ""
		}
		return f.Fasten[0].String()
	})
	meets := slices.DeleteFunc(slices.Clone(k.Meets), func(x MeetSpec) bool { return lost(met, x.Meet, x.To) })
	wanted := slices.DeleteFunc(slices.Clone(k.Motifs), func(x MotifSpec) bool {
		return gone(x.On) || slices.ContainsFunc(m.own.Motifs, func(o MotifSpec) bool { return within(o.On, x.On) || within(x.On, o.On) })
	})
	out.Motifs = nil
	for i, x := range m.own.Motifs { // those of the job come first
		out.Motifs = append(out.Motifs, x)
		m.places["motifs"], m.names["motifs"] = append(m.places["motifs"], i), append(m.names["motifs"], x.On)
	}
	for _, x := range wanted {
		out.Motifs = append(out.Motifs, x)
		m.places["motifs"], m.names["motifs"] = append(m.places["motifs"], -1), append(m.names["motifs"], x.On)
	}
	out.Meets = follow(m, "meets", meets, m.own.Meets, func(x MeetSpec) string { return x.Meet.String() })
	for i, place := range m.places["trims"] {
		if place < 0 {
			t := &out.Trims[i]
			t.HiddenBy = slices.DeleteFunc(slices.Clone(t.HiddenBy), gone)
			t.Covers = slices.DeleteFunc(slices.Clone(t.Covers), gone)
		}
	}
}

// follow lists what a kind has, and then what the job has.
func follow[T any](m *merger, list string, brought, own []T, name func(T) string) []T {
	for i, x := range slices.Concat(brought, own) {
		place := i - len(brought)
		m.places[list] = append(m.places[list], max(place, -1))
		m.names[list] = append(m.names[list], name(x))
	}
	return slices.Concat(brought, own)
}

// within tells whether a name is that of a part, with a hand or number or the name
// of something in it after it.
func within(name, part string) bool {
	rest, ok := strings.CutPrefix(name, part)
	if !ok {
		return false
	}
	rest, _, _ = strings.Cut(rest, ".")
	for _, word := range strings.Fields(rest) {
		if word != "left" && word != "right" && strings.Trim(word, "0123456789") != "" {
			return false
		}
	}
	return rest == "" || rest[0] == ' '
}
