package job

import (
	"maps"
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// cover gives the panel as a cover of its own.
func (q PanelSpec) cover(at unit.Path, c catalog) (covered, faults) {
	g, ok, f := checked(at, q.Name, q.Count, q.Goods, c)
	o, own := outlineOf(at, q.Outline, side{"width", q.Width}, side{"length", q.Length})
	if f = append(f, own...); !ok || len(f) > 0 {
		return covered{}, f
	}
	if f = q.suits(at, g); len(f) > 0 {
		return covered{}, f
	}
	taped, f := tapedOf(at, q.Outline)
	if len(f) > 0 {
		return covered{}, f
	}
	p := allowance.Panel{Name: q.Name, Outline: o, Corner: q.Corner, AllEdges: q.Edges, Notches: q.Notches,
		Across: g.stretch(), Along: g.stretch()}
	if q.Across != nil {
		p.Across = *q.Across
	}
	if q.Along != nil {
		p.Along = *q.Along
	}
	if q.TakeOff != nil {
		f = q.TakeOff.check(at.Dot("take_off"))
	}
	var old *allowance.Recovered
	if q.Ripped != nil {
		var own faults
		if p, old, own = q.recovered(at, p); len(own) > 0 {
			return covered{}, append(f, own...)
		}
	}
	p.Edges, own = q.edges(at, p.Outline)
	f = append(f, own...)
	out := covered{
		old:   old,
		cover: allowance.Cover{Panels: []allowance.CoverPanel{{Panel: p, Goods: g.ID, Pair: q.Pair, Lines: q.Lines}}},
		wish: wish{railroad: q.MayRailroad, unmatched: q.Unmatched, leather: q.leather(),
			joinable: q.notJoined() == "",
			shade:    1 + slices.IndexFunc(g.Shades, func(s ShadeSpec) bool { return s.Name == q.Shade })},
	}
	out.bench.taped = taped
	if q.Shade == "" {
		out.wish.shade = 0
	}
	out.wish.join = q.Join.piecing()
	return out, f
}

func (q PanelSpec) leather() leather { return leather{q.Grain, q.Grade, q.Marks, q.Stretch} }

// edges gives the finish of single edges: those by name, and the four of a
// rectangle.
func (q PanelSpec) edges(at unit.Path, o shape.Outline) (map[string]allowance.Edge, faults) {
	var f faults
	out := maps.Clone(q.ByEdge)
	for _, e := range []struct {
		name string
		edge *allowance.Edge
	}{{"top", q.Top}, {"right", q.Right}, {"bottom", q.Bottom}, {"left", q.Left}} {
		if e.edge == nil {
			continue
		}
		if _, twice := out[e.name]; twice {
			f.add(at.Dot("by_edge").Dot(unit.Path(e.name)), check.Refuse("", e.name, ErrTwice, "the finish of an edge once"))
		}
		if err := check.OneOf("", e.name, o.Edges()...); err != nil {
			f.add(at.Dot(unit.Path(e.name)), err)
			continue
		}
		if out == nil {
			out = map[string]allowance.Edge{}
		}
		out[e.name] = *e.edge
	}
	return out, f
}

// suits gives what means nothing on the goods of a panel.
func (q PanelSpec) suits(at unit.Path, g GoodsSpec) faults {
	var f faults
	if q.MayRailroad && g.directed() {
		f.add(at.Dot("may_railroad"), check.Refuse("", "true", ErrMisplaced, "goods without nap and repeat, which can be railroaded"))
	}
	if q.Unmatched && !g.roll().Patterned() {
		f.misplaced(at.Dot("unmatched"), "goods with a repeat")
	}
	if q.Shade != "" && !slices.ContainsFunc(g.Shades, func(s ShadeSpec) bool { return s.Name == q.Shade }) {
		names := make([]string, len(g.Shades))
		for i, s := range g.Shades {
			names[i] = s.Name
		}
		f.add(at.Dot("shade"), check.OneOf("", q.Shade, names...))
	}
	if q.Join != nil {
		f = append(f, q.Join.check(at.Dot("join"), g)...)
		if want := q.notJoined(); want != "" {
			f.misplaced(at.Dot("join"), want)
		}
	}
	if g.Kind == HideGoods {
		return append(f, q.leather().check(at)...)
	}
	for _, x := range []struct {
		name  unit.Path
		given bool
	}{{"grain", q.Grain != Grain{}}, {"grade", q.Grade != 0}, {"marks", q.Marks != 0}, {"stretch", q.Stretch != nil}} {
		if x.given {
			f.misplaced(at.Dot(x.name), "goods that are hides")
		}
	}
	return f
}

// notJoined gives which panels may be joined where this one may not, empty where it may.
func (q PanelSpec) notJoined() string {
	switch {
	case q.Shade != "":
		return "a panel without shade"
	case q.Ripped != nil:
		return "a panel that was measured"
	case q.Outline != nil && q.Outline.Rectangle == nil:
		return "a rectangle"
	default:
		return ""
	}
}

// piecing gives the joining to a layout; nil is none.
func (j *Joining) piecing() *layout.Piecing {
	if j == nil {
		return nil
	}
	seam, _ := allowance.PlainSeam.Default()
	if j.Allowance != nil {
		seam = *j.Allowance
	}
	return &layout.Piecing{AlongWidth: j.AlongWidth, Allowance: seam, Least: j.Least, Most: j.Most}
}

// check gives what is wrong with how a panel may be joined.
func (j *Joining) check(at unit.Path, g GoodsSpec) faults {
	var f faults
	if g.Kind != RollGoods {
		f.misplaced(at, "goods from a roll")
	}
	f.add(at.Dot("least"), check.Length("", j.Least, minSide, maxSide))
	f.add(at.Dot("most"), check.Count("", j.Most, 1, 64))
	if a := j.Allowance; a != nil {
		f.add(at.Dot("allowance"), check.Length("", *a, 0, unit.Foot))
	}
	return f
}

// check gives what is wrong with what is asked of hides.
func (l leather) check(at unit.Path) faults {
	var f faults
	f.add(at.Dot("grain"), l.grain.check())
	f.add(at.Dot("grade"), check.OneOf("", l.grade.String(), names(material.PrimeGrade, material.RoughGrade)...))
	f.add(at.Dot("marks"), check.OneOf("", l.marks.String(), names(material.NoMark, material.DeepMark)...))
	if w := l.stretch; w != nil {
		f.add(at.Dot("stretch").Dot("axis"), check.Between("", w.Axis, -360*unit.Degree, 360*unit.Degree))
		f.add(at.Dot("stretch").Dot("tolerance"), check.Between("", w.Tolerance, 0, 90*unit.Degree))
	}
	return f
}

// side is a measured side and its field.
type side struct {
	name   unit.Path
	length unit.Length
}

// outlineOf makes the outline of a panel or plate: the one that is given, or a
// rectangle of the two sides.
func outlineOf(at unit.Path, form *shape.Form, across, along side) (shape.Outline, faults) {
	var f faults
	sides := [2]side{across, along}
	if form == nil {
		for _, s := range sides {
			if s.length == 0 {
				f.add(at.Dot(s.name), check.Required("", "a length such as \"25 5/8 in\", or an outline"))
				continue
			}
			f.add(at.Dot(s.name), checkSide(s.length))
		}
		if len(f) > 0 {
			return shape.Outline{}, f
		}
		o, err := shape.Rectangle(across.length, along.length)
		f.add(at, err)
		return o, f
	}
	for _, s := range sides {
		if s.length != 0 {
			f.add(at.Dot(s.name), check.Refuse("", s.length.String(), ErrMisplaced,
				"an outline or "+string(across.name)+" and "+string(along.name)+", not both"))
		}
	}
	o, err := form.Outline()
	if err != nil {
		f.add(at.Dot("outline"), err)
		return o, f
	}
	w, h := o.Size()
	f.add(at.Dot("outline"), checkSide(w))
	f.add(at.Dot("outline"), checkSide(h))
	return o, f
}
