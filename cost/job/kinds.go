package job

import (
	"encoding/json"
	"errors"
	"maps"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// KindSpec starts a piece of furniture from a kind of package kind, which brings
// panels, seams, fastenings, trims, meets and cushions for its measures. A part of
// the job that has the name of one of the kind takes its place; a seam or
// fastening of the job takes the place of what the kind has at its edges, of both
// hands of a pair.
type KindSpec struct {
	From  string `json:"from,omitzero"`  // the kind, such as wing chair; none when not given
	Goods string `json:"goods,omitzero"` // the id of the goods of the cover
	// GoodsFor are the ids of goods by what they are for, such as lining, dust
	// cover or welt.
	GoodsFor map[string]string `json:"goods_for,omitempty"`
	// Measures are lengths by their names on the measuring card of the kind; those
	// below may stand here too.
	Measures   map[string]unit.Length `json:"measures,omitempty"`
	Width      *unit.Length           `json:"width,omitzero"`       // the measure width
	Depth      *unit.Length           `json:"depth,omitzero"`       // the measure depth
	Height     *unit.Length           `json:"height,omitzero"`      // the measure height
	Thickness  *unit.Length           `json:"thickness,omitzero"`   // the measure thickness
	FrontWidth *unit.Length           `json:"front_width,omitzero"` // the measure front width
	BackWidth  *unit.Length           `json:"back_width,omitzero"`  // the measure back width
	Frame      *unit.Length           `json:"frame,omitzero"`       // the measure frame
	Without    []string               `json:"without,omitempty"`    // parts of the kind that are left out
	// Filling is the foam of every cushion and block that the kind brings; none is
	// priced when not given.
	Filling *FillingSpec      `json:"filling,omitzero"`
	Grain   Grain             `json:"grain,omitzero"` // of leather, for all that the kind brings, as that of a panel
	Grade   material.Grade    `json:"grade,omitzero"` // of leather, for all that the kind brings, as that of a panel
	Marks   material.Severity `json:"marks,omitzero"` // on leather, for all that the kind brings, as that of a panel
}

// beside are the measures with a field of their own.
func (q KindSpec) beside() []besideField {
	return []besideField{{"width", q.Width}, {"depth", q.Depth}, {"height", q.Height}, {"thickness", q.Thickness},
		{"front_width", q.FrontWidth}, {"back_width", q.BackWidth}, {"frame", q.Frame}}
}

type besideField struct {
	name unit.Path
	l    *unit.Length
}

// measure gives the name that the measure has on the card.
func (b besideField) measure() string { return strings.ReplaceAll(string(b.name), "_", " ") }

// origins say where the parts of pieces come from: for each piece from a kind,
// and each of its lists, the place in the job file of every entry, -1 for one that
// the kind brought.
type origins struct {
	pieces map[int]map[string][]int
	names  map[int]map[string][]string // of the entries
	builds map[int]string              // how pieces are built, where their kinds have several ways
	failed map[int]bool                // what the kind would bring is missing
	// unpriced says what the kinds ask for that the job gives no time or price for.
	unpriced []string
}

// fromKinds gives the job with what kinds bring in the place of their names.
func (s Spec) fromKinds() (Spec, origins, faults) {
	var f faults
	from := origins{map[int]map[string][]int{}, map[int]map[string][]string{}, map[int]string{}, map[int]bool{}, nil}
	if len(s.Pieces) > maxCount {
		return s, from, nil // said where covers are made
	}
	out := s
	out.Pieces = slices.Clone(s.Pieces)
	for i, p := range s.Pieces {
		at := unit.Path("pieces").At(i)
		if p.Rough != nil {
			rough, own := p.telephoned(at)
			out.Pieces[i] = rough
			if f = append(f, own...); len(own) > 0 {
				from.failed[i] = true
			}
			continue
		}
		if p.From == "" {
			f = append(f, p.kindless(at)...)
			continue
		}
		whole, m, own := p.whole(at, s.Goods)
		if f = append(f, own...); len(own) > 0 {
			from.failed[i] = true
		}
		from.pieces[i], from.names[i] = m.places, m.names
		out.Pieces[i] = whole
		if from.builds[i] = way(p.Build); from.builds[i] == "" && len(m.kind.Builds) > 0 {
			from.builds[i] = m.kind.Builds[0].Name
		}
		if text := whole.unpriced(m.kind, m.foam); text != "" {
			from.unpriced = append(from.unpriced, text)
		}
	}
	return out, from, f
}

// way gives the way of a kind that a piece is built in, where it says one.
func way(b *build.Spec) string {
	if b == nil {
		return ""
	}
	return b.Way
}

// kindless gives what means nothing without a kind.
func (p Furniture) kindless(at unit.Path) faults {
	var f faults
	for _, x := range []struct {
		name  unit.Path
		given bool
	}{{"goods", p.Goods != ""}, {"goods_for", len(p.GoodsFor) > 0}, {"measures", len(p.Measures) > 0}, {"build", way(p.Build) != ""}, {"without", len(p.Without) > 0}, {"filling", p.Filling != nil},
		{"grain", p.Grain != Grain{}}, {"grade", p.Grade != 0}, {"marks", p.Marks != 0}} {
		if x.given {
			f.misplaced(at.Dot(x.name), "a piece that starts from a kind")
		}
	}
	for _, b := range p.beside() {
		if b.l != nil {
			f.misplaced(at.Dot(b.name), "a piece that starts from a kind")
		}
	}
	return f
}

// whole gives the piece with what its kind brings. Where that is not known, only
// the parts of its own are left, without relations.
func (p Furniture) whole(at unit.Path, goods []GoodsSpec) (Furniture, merger, faults) {
	own := p
	own.KindSpec = KindSpec{}
	if _, ok := p.Foam.alone(); ok {
		own.Foam = nil
	}
	k, brought, f := p.brought(at, goods)
	if len(f) > 0 {
		own.Seams, own.Fastenings, own.Trims, own.Meets = nil, nil, nil, nil
	}
	if p.Filling != nil && len(f) == 0 && len(brought.Foam)+len(brought.Cushions) == 0 {
		f.misplaced(at.Dot("filling"), "the blocks in foam, each with its filling: the kind "+k.Name+" has none of its own")
	}
	if u := p.Usual; u != nil && brought.Usual != nil {
		usual := u.Over(*brought.Usual)
		own.Usual = &usual
	}
	m := merger{own: own, kind: k, foam: brought.Foam, filled: p.Filling != nil, without: p.Without, places: map[string][]int{}, names: map[string][]string{}}
	return m.merge(brought), m, f
}

// unpriced says what of the tasks and fillings of a kind is not in the price; foam
// are the blocks that the kind would have.
func (p Furniture) unpriced(k kind.Kind, foam FoamList) string {
	var lacks []string
	if len(p.Labour) == 0 && p.Usual == nil && len(k.Tasks) > 0 {
		lacks = append(lacks, "time to "+strings.Join(k.Tasks, ", to "))
	}
	var fillings []string
	for _, x := range foam {
		if len(p.Foam) == 0 {
			fillings = append(fillings, x.Name+" "+x.sized())
		}
	}
	for _, c := range p.Cushions {
		if c.Foam == nil {
			fillings = append(fillings, c.Name)
		}
	}
	if len(fillings) > 0 {
		lacks = append(lacks, "filling: "+strings.Join(fillings, ", "))
	}
	if len(lacks) == 0 {
		return ""
	}
	return p.Name + ": " + strings.Join(lacks, "; ") + "."
}

// sized writes the size of a block.
func (x FoamSpec) sized() string {
	w, d := x.Width, x.Depth
	if x.Outline != nil {
		if o, err := x.Outline.Outline(); err == nil {
			w, d = o.Size()
		}
	}
	return sides(w, d, x.Thickness)
}

// sides writes lengths beside each other: in inches, or all in whole millimetres where
// one is not on a tape in inches.
func sides(ls ...unit.Length) string {
	write, in := unit.Length.String, " in"
	if slices.ContainsFunc(ls, func(l unit.Length) bool { return l%(unit.Inch/64) != 0 }) {
		write, in = func(l unit.Length) string { return l.Decimal(unit.Millimetre, 0, unit.Nearest) }, " mm"
	}
	out := make([]string, len(ls))
	for i, l := range ls {
		out[i] = strings.TrimSuffix(write(l), in)
	}
	return strings.Join(out, " x ") + in
}

// brought gives what the kind brings, before anything of the job takes its place.
func (p Furniture) brought(at unit.Path, goods []GoodsSpec) (kind.Kind, Furniture, faults) {
	var f faults
	k, err := kind.Named(p.From)
	if err != nil {
		f.add(at, err)
		return k, Furniture{}, f
	}
	given := kind.Given{Cover: p.Goods, Goods: p.GoodsFor, Build: way(p.Build), Without: p.Without, Measures: map[string]unit.Length{}}
	fields := map[string]unit.Path{"foam": "foam"} // of measures that have one
	for name, l := range p.Measures {
		given.Measures[name] = l
	}
	beside := p.beside()
	if l, ok := p.Foam.alone(); ok {
		beside = append(beside, besideField{"foam", &l})
	}
	for _, b := range beside {
		name := b.measure()
		_, twice := given.Measures[name]
		switch {
		case b.l != nil && twice:
			f.add(at.Dot(b.name), check.Refuse("", b.l.String(), ErrTwice, "here or in measures, not both"))
		case b.l != nil:
			given.Measures[name] = *b.l
		}
		if !twice {
			fields[name] = b.name
		}
	}
	f = append(f, p.bought(at, goods)...)
	text, err := k.Write(given)
	for _, err := range split(err) {
		f.add(at, moved(err, func(path unit.Path) unit.Path { return inPiece(path, fields) }))
	}
	var out Furniture
	if err == nil {
		if err := json.Unmarshal(text, &out); err != nil {
			f.addAs(at.Dot("from"), err)
		}
	}
	if len(f) > 0 {
		return k, Furniture{}, f
	}
	f = append(f, p.known(at, k, out)...)
	f = append(f, leather{grain: p.Grain, grade: p.Grade, marks: p.Marks}.check(at)...)
	out.suit(goods, p.KindSpec)
	return k, out, f
}

// bought gives every id that is none of the goods of the job.
func (p Furniture) bought(at unit.Path, goods []GoodsSpec) faults {
	var f faults
	ids := make([]string, len(goods))
	for i, g := range goods {
		ids[i] = g.ID
	}
	if p.Goods != "" {
		f.add(at.Dot("goods"), check.OneOf("", p.Goods, ids...))
	}
	for _, role := range slices.Sorted(maps.Keys(p.GoodsFor)) {
		f.add(at.Dot("goods_for").Dot(unit.Path(role)), check.OneOf("", p.GoodsFor[role], ids...))
	}
	return f
}

// inPiece gives the field of the job file for one of what a kind is given.
func inPiece(path unit.Path, fields map[string]unit.Path) unit.Path {
	list, _, _, rest := path.Head()
	switch list {
	case "from", "build":
		return path
	case "cover":
		return "goods"
	case "goods":
		return unit.Path("goods_for").Dot(rest)
	case "measures":
		if field, ok := fields[string(rest)]; ok {
			return field
		}
		return path
	}
	return "from"
}

// split gives the errors that one joins.
func split(err error) []error {
	if err == nil {
		return nil
	}
	var joined interface{ Unwrap() []error }
	if !errors.As(err, &joined) {
		return []error{err}
	}
	var out []error
	for _, e := range joined.Unwrap() {
		out = append(out, split(e)...)
	}
	return out
}

// known gives every name of without that the kind does not have.
func (p Furniture) known(at unit.Path, k kind.Kind, brought Furniture) faults {
	var f faults
	names := slices.Clone(k.Groups)
	for _, n := range brought.named() {
		names = append(names, n.name)
	}
	for i, name := range p.Without {
		if !slices.Contains(names, name) {
			f.add(at.Dot("without").At(i), check.OneOf("", name, names...))
		}
	}
	return f
}

// suit leaves out what means nothing on the goods of the job, asks of hides what the
// job asks, and fills cushions.
func (p *Furniture) suit(goods []GoodsSpec, q KindSpec) {
	find := func(id string) GoodsSpec {
		i := slices.IndexFunc(goods, func(g GoodsSpec) bool { return g.ID == id })
		if i < 0 {
			return GoodsSpec{}
		}
		return goods[i]
	}
	if !find(q.Goods).roll().Patterned() {
		p.Motifs = nil
	}
	for i := range p.Panels {
		x := &p.Panels[i]
		g := find(x.Goods)
		x.suit(g)
		if g.Kind == HideGoods {
			x.Grain, x.Grade, x.Marks = q.Grain, q.Grade, q.Marks
		}
	}
	for i := range p.Cushions {
		c := &p.Cushions[i]
		c.MayRailroad = c.MayRailroad && !find(c.Top).directed() && !find(c.Bottom).directed()
		if find(c.Top).Kind == HideGoods {
			c.Grain, c.Grade, c.Marks = q.Grain, q.Grade, q.Marks
		}
		if c.Kind != made.KnifeEdge {
			c.Foam = q.Filling
		}
	}
	for i := range p.Foam {
		if q.Filling != nil {
			p.Foam[i].Filling = *q.Filling
		}
	}
}

// placed puts the faults of what kinds brought at the kind, and those of the job's
// own parts where they stand.
func (o origins) placed(f faults) faults {
	var out faults
	for _, err := range f {
		var in *unit.InputError
		if !errors.As(err, &in) {
			out = append(out, err)
			continue
		}
		list, i, indexed, rest := in.Field.Head()
		switch {
		case list != "pieces":
			out = append(out, err)
		case errors.Is(err, ErrEmpty) && rest == "" && (o.failed[i] || !indexed && len(o.failed) > 0):
			// Only because the kind brought nothing.
		default:
			out = append(out, o.place(err, in, i, rest))
		}
	}
	return out
}

// place gives one fault of a piece its place in the job file.
func (o origins) place(err error, in *unit.InputError, piece int, rest unit.Path) error {
	list, k, indexed, inner := rest.Head()
	places, ok := o.pieces[piece][list]
	if !ok || !indexed || k >= len(places) {
		return err
	}
	at := unit.Path("pieces").At(piece)
	moved := *in
	if places[k] >= 0 {
		moved.Field = at.Dot(unit.Path(list)).At(places[k]).Dot(inner)
		return &moved
	}
	moved.Field = at.Dot("from")
	for _, f := range []struct{ list, field string }{{"cushions", "foam"}, {"foam", "filling"}} {
		if list == f.list && inner.Under(unit.Path(f.field)) {
			moved.Field = at.Dot("filling").Dot(after(inner, unit.Path(f.field)))
			return &moved
		}
	}
	what := o.names[piece][list][k]
	if inner == "" && strings.HasPrefix(in.Value, what+", ") { // a part, which says whose it is
		return &moved
	}
	if inner != "" {
		what += ", " + string(inner)
	}
	if in.Value != "" {
		what += ": " + in.Value
	}
	moved.Value = what
	return &moved
}
