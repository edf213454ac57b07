package job

import (
	"maps"
	"reflect"
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Limits of options: each is a job of its own, and its entries are compared with each
// other.
const (
	mostOptions  = 50
	mostReplaced = 500
)

// with gives the job with what an option says in the place of its own, but for
// fillings, and without further options. Places of faults are those of the option.
func (s Spec) with(o OptionSpec) (Spec, faults) {
	var f faults
	s.Options = nil
	if n := len(o.Replace); n == 0 {
		f.add("replace", check.Required("", "something to replace"))
		return s, f
	} else if err := check.Count("", n, 1, mostReplaced); err != nil {
		f.add("replace", err)
		return s, f
	}
	for i, r := range o.Replace {
		f = append(f, r.check(unit.Path("replace").At(i), s, o.Replace[:i])...)
	}
	if len(f) > 0 {
		return s, f
	}
	s, f = s.otherGoods(o)
	for i, r := range o.Replace {
		at := unit.Path("replace").At(i)
		switch {
		case r.Labour != "":
			var own faults
			s.Pieces, own = r.timed(at, s.Pieces)
			f = append(f, own...)
		case r.Finding != "":
			var err error
			s.Prices, err = r.priced(s)
			f.addAs(at.Dot("with"), err)
		}
	}
	return s, f
}

// replaced is what of the job an entry names, and the field that says what comes in
// its place.
type replaced struct{ name, by unit.Path }

// named lists what the entry names; a sound one names one.
func (r Replace) named() []replaced {
	var out []replaced
	for _, x := range []struct {
		given string
		replaced
	}{{r.Goods, replaced{"goods", "with"}}, {r.Filling, replaced{"filling", "foam"}}, {r.Finding, replaced{"finding", "with"}}, {r.Labour, replaced{"labour", "time"}}} {
		if x.given != "" {
			out = append(out, x.replaced)
		}
	}
	return out
}

// check gives what is wrong with an entry beside those before it.
func (r Replace) check(at unit.Path, s Spec, before []Replace) faults {
	var f faults
	named := r.named()
	switch len(named) {
	case 0:
		f.add(at.Dot("goods"), check.Required("", "goods, filling, finding or labour"))
		return f
	case 1:
	default:
		f.misplaced(at.Dot(named[1].name), "one of goods, filling, finding and labour")
		return f
	}
	is := named[0]
	for _, x := range []struct {
		name  unit.Path
		given bool
		want  string
	}{{"with", r.With != "", "the id of goods, or the code of a finding"}, {"foam", r.Foam != nil, "what fills a part instead"}, {"time", r.Time != 0, "a time such as \"14.5 h\""}} {
		switch {
		case x.name == is.by && !x.given:
			f.add(at.Dot(x.name), check.Required("", x.want))
		case x.name != is.by && x.given:
			f.misplaced(at.Dot(x.name), "none beside "+string(is.name))
		}
	}
	if r.Piece != "" {
		if is.by == "with" {
			f.misplaced(at.Dot("piece"), "none: "+string(is.name)+" are replaced wherever they are used")
		} else if !slices.ContainsFunc(s.Pieces, func(p Furniture) bool { return p.Name == r.Piece }) {
			f.add(at.Dot("piece"), check.OneOf("", r.Piece, pieceNames(s.Pieces)...))
		}
	}
	if r.With != "" && (r.With == r.Goods || r.With == r.Finding) {
		f.add(at.Dot("with"), check.Refuse("", r.With, ErrMisplaced, "another than what is replaced"))
	}
	for _, b := range before {
		if b.Goods == r.Goods && b.Filling == r.Filling && b.Finding == r.Finding && b.Labour == r.Labour && (b.Piece == r.Piece || b.Piece == "" || r.Piece == "") {
			f.add(at.Dot(is.name), check.Refuse("", r.Goods+r.Filling+r.Finding+r.Labour, ErrTwice, "each replaced once"))
			break
		}
	}
	return f
}

func pieceNames(list []Furniture) []string {
	var out []string
	for _, p := range list {
		out = append(out, p.Name)
	}
	return out
}

// priced gives the price list with the entry that replaces a finding under its code.
func (r Replace) priced(s Spec) (cost.PriceList, error) {
	e, err := s.Prices.Entry(r.With)
	if err != nil {
		return s.Prices, err
	}
	e.Code = r.Finding
	return s.Prices.With(e)
}

// timed gives the pieces with another time for a task.
func (r Replace) timed(at unit.Path, list []Furniture) ([]Furniture, faults) {
	var f faults
	var known []string
	found, other := false, false
	list = changed(list, func(p *Furniture) {
		p.Labour = changed(p.Labour, func(l *LabourSpec) {
			if r.Piece != "" && r.Piece != p.Name {
				return
			}
			known = append(known, l.Task)
			if l.Task == r.Labour {
				found, other = true, other || l.Time != r.Time
				l.Time = r.Time
			}
		})
	})
	switch {
	case !found:
		f.add(at.Dot("labour"), check.OneOf("", r.Labour, known...))
	case !other:
		f.add(at.Dot("time"), check.Refuse("", r.Time.String(), ErrMisplaced, "another time than the task has"))
	}
	return list, f
}

// refilled gives the job, with what kinds bring, with the fillings of an option.
func (s Spec) refilled(o OptionSpec) (Spec, faults) {
	var f faults
	for i, r := range o.Replace {
		if r.Filling == "" {
			continue
		}
		at := unit.Path("replace").At(i)
		var known []string
		found, other := false, false
		put := func(name string, is *FillingSpec) bool {
			known = append(known, name)
			if name != r.Filling {
				return false
			}
			found, other = true, other || is == nil || !reflect.DeepEqual(*is, *r.Foam)
			return true
		}
		s.Pieces = changed(s.Pieces, func(p *Furniture) {
			if r.Piece != "" && r.Piece != p.Name {
				return
			}
			p.Cushions = changed(p.Cushions, func(c *CushionSpec) {
				if put(c.Name, c.Foam) {
					c.Foam = r.Foam
				}
			})
			p.Foam = changed(p.Foam, func(x *FoamSpec) {
				if put(x.Name, &x.Filling) {
					x.Filling = *r.Foam
				}
			})
		})
		switch {
		case !found:
			f.add(at.Dot("filling"), check.OneOf("", r.Filling, known...))
		case !other:
			f.add(at.Dot("foam"), check.Refuse("", "", ErrMisplaced, "another filling than the part has"))
		}
	}
	return s, f
}

// otherGoods gives the job in the goods of an option. What a panel asks of goods of
// another kind is left out: grain, grade and marks on a roll; motif, shade group and
// joins where the other goods have none; railroading where they do not allow it.
func (s Spec) otherGoods(o OptionSpec) (Spec, faults) {
	var f faults
	swap, used := map[string]string{}, map[string]bool{}
	byID := map[string]GoodsSpec{}
	var ids []string
	for _, g := range s.Goods {
		ids = append(ids, g.ID)
		byID[g.ID] = g
	}
	for i, r := range o.Replace {
		if r.Goods == "" {
			continue
		}
		for _, x := range []struct{ field, id unit.Path }{{"goods", unit.Path(r.Goods)}, {"with", unit.Path(r.With)}} {
			if _, known := byID[string(x.id)]; !known {
				f.add(unit.Path("replace").At(i).Dot(x.field), check.OneOf("", string(x.id), ids...))
			}
		}
		swap[r.Goods] = r.With
	}
	if len(swap) == 0 || len(f) > 0 {
		return s, f
	}
	to := func(id *string) bool {
		w, ok := swap[*id]
		if ok {
			used[*id] = true
			*id = w
		}
		return ok
	}
	s.Pieces = changed(s.Pieces, func(p *Furniture) { p.inGoods(to, byID) })
	for i, r := range o.Replace {
		if r.Goods != "" && !used[r.Goods] {
			f.add(unit.Path("replace").At(i).Dot("goods"), check.Refuse("", r.Goods, ErrMisplaced, "goods that some piece is made of"))
		}
	}
	return s, f
}

// inGoods puts other goods wherever the piece is made of some; to does so with an id,
// and tells whether it did.
func (p *Furniture) inGoods(to func(id *string) bool, byID map[string]GoodsSpec) {
	to(&p.Goods)
	p.GoodsFor = maps.Clone(p.GoodsFor)
	for role, id := range p.GoodsFor {
		to(&id)
		p.GoodsFor[role] = id
	}
	p.Panels = changed(p.Panels, func(x *PanelSpec) {
		if to(&x.Goods) {
			x.suit(byID[x.Goods])
		}
	})
	p.Cushions = changed(p.Cushions, func(x *CushionSpec) {
		if to(&x.Top) && byID[x.Top].directed() {
			x.MayRailroad = false
		}
		if byID[x.Top].Kind == HideGoods {
			x.Join = nil
		}
		to(&x.Bottom)
		to(&x.Boxing)
		if x.Welt != nil {
			w := *x.Welt
			to(&w.Goods)
			x.Welt = &w
		}
	})
	p.Boxings = changed(p.Boxings, func(x *BoxingSpec) { to(&x.Goods) })
	p.Welts = changed(p.Welts, func(x *WeltSpec) { to(&x.Goods) })
	p.Skirts = changed(p.Skirts, func(x *SkirtSpec) { to(&x.Goods) })
	p.Tufted = changed(p.Tufted, func(x *TuftedSpec) { to(&x.Goods) })
	p.Channels = changed(p.Channels, func(x *ChannelsSpec) { to(&x.Goods); to(&x.Lining) })
	p.Seams = changed(p.Seams, func(x *SeamSpec) { to(&x.Welt); to(&x.Backing) })
	p.Trims = changed(p.Trims, func(x *TrimSpec) { to(&x.Welt) })
	p.Fastenings = changed(p.Fastenings, func(x *FasteningSpec) { to(&x.PullStrip) })
}

// suit leaves out what means nothing on other goods.
func (q *PanelSpec) suit(g GoodsSpec) {
	if g.Kind != HideGoods {
		q.Grain, q.Grade, q.Marks, q.Stretch = Grain{}, 0, 0, nil
	}
	if !g.roll().Patterned() {
		q.Unmatched = false
	}
	if !slices.ContainsFunc(g.Shades, func(s ShadeSpec) bool { return s.Name == q.Shade }) {
		q.Shade = ""
	}
	if g.Kind != RollGoods {
		q.Join = nil
	}
	if g.directed() {
		q.MayRailroad = false
	}
}

// changed gives a copy of the list with every entry changed.
func changed[T any](list []T, change func(*T)) []T {
	list = slices.Clone(list)
	for i := range list {
		change(&list[i])
	}
	return list
}
