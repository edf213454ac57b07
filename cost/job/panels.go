package job

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Layers of goods the needle passes: two in a plain seam, and two more of
// welt cover where there is a welt.
const (
	seamLayers = 2
	weltLayers = 4
)

// part is a panel or a plate on its way to the cut list.
type part struct {
	piece string
	count int
	goods Goods
	panel allowance.Panel
	turn  layout.Turn
	free  bool // need not lie on the repeat
	pair  bool
	motif *shape.Point
	shade int
	join  *layout.Piecing
	asks  demand
}

// demand is what a part asks of leather.
type demand struct {
	grain   Grain
	grade   material.Grade
	marks   material.Severity
	stretch *layout.StretchWish
}

func (b *builder) panel(field, piece string, n int, q Panel) {
	before := len(b.errs)
	b.name(field+".name", q.Name)
	outline := b.outline(field, q.Outline, map[string]unit.Length{"width": q.Width, "length": q.Length}, "width", "length")
	count := n * b.count(field+".count", q.Count)
	g, ok := b.find(field+".goods", q.Goods)
	if !ok || len(b.errs) > before {
		return
	}
	b.fits(field, g, q)
	if len(b.errs) > before {
		return
	}
	p := part{piece: piece, count: count, goods: g, turn: railroad(q.MayRailroad), free: q.Unmatched, pair: q.Pair,
		asks: demand{q.Grain, q.Grade, q.Marks, q.Stretch}, motif: q.Motif}
	p.panel = allowance.Panel{Name: q.Name, Outline: outline, Corner: q.Corner, Across: g.stretch(), Along: g.stretch(), Edges: map[string]allowance.Edge{}}
	if q.Edges != nil {
		p.panel.AllEdges = q.Edges.Edge
	}
	for name, e := range q.ByEdge {
		p.panel.Edges[name] = e.Edge
	}
	for _, e := range []struct {
		name string
		edge *Edge
	}{{"top", q.Top}, {"right", q.Right}, {"bottom", q.Bottom}, {"left", q.Left}} {
		if e.edge == nil {
			continue
		}
		if _, twice := p.panel.Edges[e.name]; twice {
			b.fail(field+".by_edge."+e.name, check.Refuse("", e.name, ErrTwice, "the finish of an edge once"))
		}
		if err := check.OneOf("", e.name, outline.Edges()...); err != nil {
			b.fail(field+"."+e.name, err)
			continue
		}
		p.panel.Edges[e.name] = e.edge.Edge
	}
	for _, n := range q.Notches {
		p.panel.Notches = append(p.panel.Notches, allowance.Notch(n))
	}
	if q.Across != nil {
		p.panel.Across = *q.Across
	}
	if q.Along != nil {
		p.panel.Along = *q.Along
	}
	if q.Shade != "" {
		p.shade = 1 + slices.IndexFunc(g.Shades, func(s Shade) bool { return s.Name == q.Shade })
	}
	if j := q.Join; j != nil {
		seam, _ := allowance.PlainSeam.Default()
		if j.Allowance != nil {
			seam = *j.Allowance
		}
		p.join = &layout.Piecing{AlongWidth: j.AlongWidth, Allowance: seam, Least: j.Least, Most: j.Most}
	}
	if len(b.errs) == before {
		b.shaped(field, p)
	}
}

// fits refuses what means nothing on the goods of a panel.
func (b *builder) fits(field string, g Goods, q Panel) {
	refuse := func(name, want string) { b.fail(field+"."+name, check.Refuse("", "", ErrMisplaced, want)) }
	if q.MayRailroad && g.directed() {
		b.fail(field+".may_railroad", check.Refuse("", "true", ErrMisplaced, "goods without nap and repeat, which can be railroaded"))
	}
	if q.Motif != nil {
		switch {
		case g.Repeat == 0 && g.RepeatAcross == 0:
			refuse("motif", "goods with a repeat")
		case q.Unmatched:
			refuse("motif", "motif or unmatched, not both")
		}
	}
	if q.Shade != "" && !slices.ContainsFunc(g.Shades, func(s Shade) bool { return s.Name == q.Shade }) {
		names := make([]string, len(g.Shades))
		for i, s := range g.Shades {
			names[i] = s.Name
		}
		b.fail(field+".shade", check.OneOf("", q.Shade, names...))
	}
	if q.Join != nil {
		switch {
		case g.Kind != RollGoods:
			refuse("join", "goods from a roll")
		case q.Motif != nil || q.Shade != "":
			refuse("join", "a panel without motif and shade")
		case q.Outline != nil && q.Outline.Rectangle == nil:
			refuse("join", "a rectangle")
		}
		b.fail(field+".join.least", check.Length("", q.Join.Least, minSide, maxSide))
		b.fail(field+".join.most", check.Count("", q.Join.Most, 1, 64))
		if a := q.Join.Allowance; a != nil {
			b.fail(field+".join.allowance", check.Length("", *a, 0, unit.Foot))
		}
	}
	if g.Kind != Hides {
		for _, x := range []struct {
			name  string
			given bool
		}{{"grain", q.Grain != Grain{}}, {"grade", q.Grade != 0}, {"marks", q.Marks != 0}, {"stretch", q.Stretch != nil}} {
			if x.given {
				refuse(x.name, "goods that are hides")
			}
		}
		return
	}
	b.leather(field, demand{q.Grain, q.Grade, q.Marks, q.Stretch})
}

// leather checks what is asked of hides.
func (b *builder) leather(field string, d demand) {
	b.fail(field+".grain", d.grain.check())
	b.fail(field+".grade", check.OneOf("", d.grade.String(), names(material.PrimeGrade, material.RoughGrade)...))
	b.fail(field+".marks", check.OneOf("", d.marks.String(), names(material.NoMark, material.DeepMark)...))
	if w := d.stretch; w != nil {
		b.fail(field+".stretch.axis", check.Between("", w.Axis, -360*unit.Degree, 360*unit.Degree))
		b.fail(field+".stretch.tolerance", check.Between("", w.Tolerance, 0, 90*unit.Degree))
	}
}

// names lists the names of a run of constants.
func names[T interface {
	~uint8
	String() string
}](from, to T) []string {
	var out []string
	for v := from; v <= to; v++ {
		out = append(out, v.String())
	}
	return out
}

// outline makes the outline of a panel or plate: the shape that is given, or a
// rectangle of the two sides.
func (b *builder) outline(field string, s *shape.Form, sides map[string]unit.Length, across, along string) shape.Outline {
	if s == nil {
		before := len(b.errs)
		for _, name := range []string{across, along} {
			if sides[name] == 0 {
				b.fail(field+"."+name, check.Required("", "a length such as \"25 5/8 in\", or an outline"))
				continue
			}
			b.side(field+"."+name, sides[name])
		}
		if len(b.errs) > before {
			return shape.Outline{}
		}
		o, err := shape.Rectangle(sides[across], sides[along])
		b.fail(field, err)
		return o
	}
	for _, name := range []string{across, along} {
		if sides[name] != 0 {
			b.fail(field+"."+name, check.Refuse("", sides[name].String(), ErrMisplaced, "an outline or "+across+" and "+along+", not both"))
		}
	}
	o, err := s.Outline()
	if err != nil {
		b.fail(field+".outline", err)
		return o
	}
	w, h := o.Size()
	b.side(field+".outline", w)
	b.side(field+".outline", h)
	return o
}

func railroad(may bool) layout.Turn {
	if may {
		return layout.Railroad
	}
	return layout.KeepGrain
}

// shaped cuts a part, puts it on the list and counts its seams.
func (b *builder) shaped(field string, p part) {
	c, err := p.panel.Cut()
	if err != nil {
		b.fail(field, panelField(err))
		return
	}
	c.Name = ""
	w, h := p.panel.Outline.Size()
	line := Cut{Piece: p.piece, Part: p.panel.Name, Goods: p.goods.ID, Count: p.count, Made: p.count, Finished: Size{w, h},
		Cut: Size{c.Width, c.Height}, Grain: p.goods.grain(), Pair: p.pair, Panel: &c, Outline: p.panel.Outline, field: field, part: p}
	line.Trim = Size{c.TrimWidth, c.TrimHeight}
	switch {
	case p.goods.Kind == Hides:
		line.Grain = p.asks.grain.on()
		line.Grade, line.Marks = p.asks.grade, p.asks.marks
	case p.turn == layout.Railroad && !p.goods.directed():
		line.Grain = "either way"
	}
	line.Basis = edgeBasis(c)
	if line.Area, err = c.Area.Times(p.count); err != nil {
		b.fail(field, err)
		return
	}
	b.out.Cuts = append(b.out.Cuts, line)
	// Two panels meet in a seam, so each brings half of it; a hem is its own.
	var sewn unit.Length
	layers := seamLayers
	for _, e := range c.Edges {
		switch {
		case e.Finish.Seam():
			sewn += (e.Length + 1) / 2
			if e.Finish == allowance.WeltedSeam {
				layers = weltLayers
			}
		case e.Finish.Sewn():
			sewn += e.Length
		}
	}
	b.stitch(p.piece+": "+p.panel.Name, p.goods, sewn, p.count, layers)
}

func corners(c shape.Contour) (low, high shape.Point) {
	for i, p := range c.Outer {
		if i == 0 {
			low, high = p, p
		}
		low = shape.Point{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
		high = shape.Point{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
	}
	return low, high
}

// on words the grain for the bench.
func (g Grain) on() string {
	switch g.Way {
	case AnyWay:
		return "any way"
	case OneWay:
		return strings.Replace(g.String(), "one way", "along the backbone, top to the neck", 1)
	}
	return strings.Replace(g.String(), "either way", "along the backbone", 1)
}

// stitch notes rows of stitching: one of the given length for each of count.
func (b *builder) stitch(name string, g Goods, length unit.Length, count, layers int) {
	if length > 0 {
		b.seams = append(b.seams, seam{goods: g.ID, name: name, length: length, rows: count, layers: layers})
	}
}

// panelField renames the fields of package allowance to those of a spec.
func panelField(err error) error {
	return check.Renamed(err, map[string]string{"edges": "by_edge", "all_edges": "edges", "height": "length"})
}

// renameField calls a field by the name it has in a spec.
func renameField(err error, from, to string) error {
	return check.Renamed(err, map[string]string{from: to})
}

// trimField takes the name of an inner part off.
func trimField(part string, err error) error { return check.Renamed(err, map[string]string{part: ""}) }

func edgeBasis(c allowance.PanelCut) []cite.Basis {
	var out []cite.Basis
	seen := map[cite.Basis]bool{}
	for _, e := range c.Edges {
		if e.Basis.Status != 0 && !seen[e.Basis] {
			seen[e.Basis] = true
			out = append(out, e.Basis)
		}
	}
	return out
}
