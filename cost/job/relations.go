package job

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// related tells whether edges of the piece of furniture are sewn or fastened.
func (p Furniture) related() bool {
	return len(p.Seams)+len(p.Fastenings)+len(p.Trims)+len(p.Meets) > 0
}

// names tells whether the relations of the piece of furniture name a made-up part
// or something in it.
func (p Furniture) names(part string) bool {
	of := func(name string) bool {
		rest, ok := strings.CutPrefix(name, part)
		if !ok {
			return false
		}
		if inner, ok := strings.CutPrefix(rest, " "); ok { // the number of one of several
			rest = strings.TrimLeft(inner, "0123456789")
		}
		return rest == "" || strings.HasPrefix(rest, ".") // itself by an open edge, such as skirt.top
	}
	side := func(s allowance.Side) bool {
		return slices.ContainsFunc(s, func(e allowance.EdgePart) bool { return of(e.Panel) })
	}
	return slices.ContainsFunc(p.Seams, func(s SeamSpec) bool { return side(s.Sew) || side(s.To) || side(s.And) }) ||
		slices.ContainsFunc(p.Fastenings, func(f FasteningSpec) bool {
			return slices.ContainsFunc(f.Fasten, side) || slices.ContainsFunc(f.HiddenBy, of)
		}) ||
		slices.ContainsFunc(p.Trims, func(t TrimSpec) bool { return slices.ContainsFunc(slices.Concat(t.HiddenBy, t.Covers), of) }) ||
		slices.ContainsFunc(p.Meets, func(m MeetSpec) bool { return side(m.Meet) || side(m.To) })
}

// relate adds the relations of the piece of furniture to its cover, and notes
// where each comes from.
func (p Furniture) relate(at unit.Path, w *whole, goods catalog) faults {
	var strips []stripped
	c := &w.cover
	own := len(c.Seams) // those of nested covers stand first
	for i, s := range p.Seams {
		seam := allowance.Seam{Name: s.Name, Kind: s.Finish.Kind, Allowance: s.Finish.Allowance, Handling: s.Finish.Handling,
			Cord: s.Cord, Welt: s.Welt, Bias: s.Bias, Row: s.Row, Backing: s.Backing, Tape: s.Zip, Fullness: s.Fullness,
			Stretched: s.Stretched, FlatEnds: s.FlatEnds, Pattern: w.crossing(s.CrossingSpec, s.Sew, s.To, goods.lenient(at.Dot("seams").At(i)))}
		for _, side := range []allowance.Side{s.Sew, s.To, s.And} {
			if len(side) > 0 {
				seam.Sides = append(seam.Sides, side)
			}
		}
		if seam.Kind == allowance.WeltedJoin && len(s.Sew) > 0 {
			seam.Welt = cmp.Or(s.Welt, w.goodsOf(s.Sew[0].Panel))
		}
		w.origin(unit.Path("seams").At(own+i), at.Dot("seams").At(i), false)
		c.Seams = append(c.Seams, seam)
	}
	for i, f := range p.Fastenings {
		here := at.Dot("fastenings").At(i)
		for k, side := range f.Fasten {
			hold := allowance.Fastening{Side: side, Kind: f.Finish, To: f.On, Rail: f.Rail, Handling: f.Handling, HiddenBy: f.HiddenBy}
			if f.Over != nil {
				hold.Over = allowance.Exactly(*f.Over)
			}
			if f.Staple != nil {
				hold.Hold = allowance.Exactly(*f.Staple)
			}
			n := unit.Path("fastenings").At(len(c.Fastenings))
			w.origin(n, here, false)
			w.origin(n.Dot("side"), here.Dot("fasten").At(k), false)
			first := len(c.Fastenings)
			c.Fastenings = append(c.Fastenings, hold)
			if twin := p.twin(side); twin != nil {
				hold.Side = twin
				n := unit.Path("fastenings").At(len(c.Fastenings))
				w.origin(n, here, false)
				w.origin(n.Dot("side"), here.Dot("fasten").At(k), false)
				c.Fastenings = append(c.Fastenings, hold)
			}
			for n := first; f.PullStrip != "" && n < len(c.Fastenings); n++ {
				strips = append(strips, stripped{at: here.Dot("pull_strip"), goods: f.PullStrip, fastening: n})
			}
		}
	}
	for i, t := range p.Trims {
		w.origin(unit.Path("trims").At(len(c.Trims)), at.Dot("trims").At(i), false)
		c.Trims = append(c.Trims, allowance.Trim(t))
	}
	for i, m := range p.Meets {
		w.origin(unit.Path("meets").At(len(c.Meets)), at.Dot("meets").At(i), false)
		c.Meets = append(c.Meets, allowance.Meet{Sides: []allowance.MeetSide{{Side: m.Meet, In: m.In}, {Side: m.To, In: m.ToIn}}, Pattern: w.crossing(m.CrossingSpec, m.Meet, m.To, goods.lenient(at.Dot("meets").At(i)))})
	}
	return w.sewStrips(strips)
}

// twin gives the mirror image of an edge of a half outline, which is held as the
// edge is unless a relation of its own names it.
func (p Furniture) twin(side allowance.Side) allowance.Side {
	if len(side) != 1 || side[0].From != 0 || side[0].To != 0 {
		return nil // which part of the other half is for the job to say
	}
	twin := side[0]
	twin.Edge += shape.MirrorImage
	i := slices.IndexFunc(p.Panels, func(x PanelSpec) bool { return x.Name == twin.Panel })
	if i < 0 || p.Panels[i].Outline == nil {
		return nil
	}
	o, err := p.Panels[i].Outline.Outline()
	if err != nil || !slices.Contains(o.Edges(), twin.Edge) {
		return nil
	}
	named := func(s allowance.Side) bool {
		return slices.ContainsFunc(s, func(e allowance.EdgePart) bool { return e.Panel == twin.Panel && e.Edge == twin.Edge })
	}
	if slices.ContainsFunc(p.Seams, func(s SeamSpec) bool { return named(s.Sew) || named(s.To) || named(s.And) }) ||
		slices.ContainsFunc(p.Fastenings, func(f FasteningSpec) bool { return slices.ContainsFunc(f.Fasten, named) }) {
		return nil
	}
	return allowance.Side{twin}
}

// crossing says how the pattern runs from a side to another.
func (w *whole) crossing(c CrossingSpec, from, to allowance.Side, lenient bool) allowance.Crossing {
	if lenient && len(from) > 0 && len(to) > 0 && w.goodsOf(from[0].Panel) != w.goodsOf(to[0].Panel) {
		return allowance.Crossing{}
	}
	return allowance.Crossing{Way: c.Pattern, Point: c.Point, Gap: c.Gap, Hidden: c.Hidden}
}

// goodsOf gives the goods of the panel that a name stands for, the hand and
// number after it left off.
func (w whole) goodsOf(name string) string {
	best, id := -1, ""
	for _, p := range w.cover.Panels {
		if strings.HasPrefix(name, p.Name) && len(p.Name) > best {
			best, id = len(p.Name), p.Goods
		}
	}
	return id
}

// origin is where a part of the cover comes from in the job file. The fields of
// what a made-up part gives are not those of the file.
type origin struct {
	of, file unit.Path
	made     bool
}

func (w *whole) origin(of, file unit.Path, made bool) {
	w.origins = append(w.origins, origin{of, file, made})
}

// words of the job file for the fields of a cover's relations and panels.
var words = map[string]map[string]unit.Path{
	"panels": {"edges": "by_edge", "all_edges": "edges", "height": "length", "outline.height": "length"},
	"seams": {"sides[0]": "sew", "sides[1]": "to", "sides[2]": "and", "allowance": "finish", "handling": "finish", "sides": "to", "tape": "zip",
		"pattern.way": "pattern", "pattern.gap": "gap", "pattern.point": "point"},
	"fastenings": {"hold": "staple"},
	"meets":      {"sides[0].side": "meet", "sides[0].in": "in", "sides[1].side": "to", "sides[1].in": "to_in", "pattern.way": "pattern", "pattern.gap": "gap", "pattern.point": "point"},
}

// place gives the place in the job file of a field of the cover.
func (w whole) place(path unit.Path) unit.Path {
	best := origin{file: w.at}
	for _, o := range w.origins {
		if path.Under(o.of) && len(o.of) > len(best.of) {
			best = o
		}
	}
	if best.of == "" || best.made {
		return best.file
	}
	list, _, _, _ := best.of.Head()
	rest := after(path, best.of)
	if list == "panels" && rest.Under("edges") {
		if edge := after(rest, "edges"); slices.Contains([]unit.Path{"top", "right", "bottom", "left"}, edge) {
			return best.file.Dot(edge)
		}
	}
	long, word := unit.Path(""), unit.Path("")
	for from, to := range words[list] {
		if f := unit.Path(from); rest.Under(f) && len(f) > len(long) {
			long, word = f, to
		}
	}
	if long != "" {
		rest = word.Dot(after(rest, long))
	}
	return best.file.Dot(rest)
}

// after gives what of a path comes after a place that it is under.
func after(path, place unit.Path) unit.Path {
	return unit.Path(strings.TrimPrefix(string(path[len(place):]), "."))
}

// instances are the names that the copies of a made-up part go by.
func instances(name string, count int) []string {
	if count <= 1 {
		return []string{name}
	}
	out := make([]string, count)
	for i := range out {
		out[i] = name + " " + strconv.Itoa(i+1)
	}
	return out
}
