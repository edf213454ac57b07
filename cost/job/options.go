package job

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Options steer how a job is worked out. The zero value is useful.
type Options struct {
	// Effort is the work spent on all cutting layouts of the job together, those
	// of its options included, counted in steps and not in time: 1 is about a
	// second of two cores. It is shared out among the layouts; none gets less
	// than it needs to start. Zero takes 1. From 0.0001 to 100 000.
	Effort unit.Ratio
	// NoMatching leaves out what it costs to match patterned goods, which takes as
	// much effort again as their layouts.
	NoMatching bool
	// Seed chooses the random numbers of the layout search.
	Seed uint64
	// Workers is how many searches may work at the same time, so that a server
	// can keep a job to fewer cores: 1 is one core. Zero is all, which are two.
	// The order does not depend on it. From 0 to 64.
	Workers int
	// Progress is called now and then while layouts are made, from one
	// goroutine at a time; nil is allowed.
	Progress func(Progress)
}

func (o Options) check(ctx context.Context) error {
	var f faults
	if ctx == nil {
		f.add("ctx", check.Required("", "a context such as context.Background()"))
	}
	if o.Effort != 0 {
		var in *unit.InputError
		if errors.As(check.Ratio("", o.Effort, 0.0001, 100_000), &in) { // told as the number it is, not as a share
			f.add("effort", check.Refuse("", strconv.FormatFloat(float64(o.Effort), 'g', -1, 64), in.Err, "from 0.0001 to 100000"))
		}
	}
	f.add("workers", check.Count("", o.Workers, 0, 64))
	return f.err()
}

// Progress is the state of the layouts of a job.
type Progress struct {
	Done   unit.Ratio // share of all layouts
	Layout string     // the goods being laid out
	State  string     // how far their layout has come, such as "9.25 yd" or "2 hides"; may be empty
}

// with gives the job with an option's goods in the place of its own, and
// without further options. What a panel asks of goods of another kind is left
// out: grain, grade and marks on a roll; motif, shade group and joins where
// the other goods have none; railroading where they do not allow it.
func (s Spec) with(o OptionSpec) (Spec, error) {
	swap := map[string]string{}
	byID := map[string]GoodsSpec{}
	var ids []string
	for _, g := range s.Goods {
		ids = append(ids, g.ID)
		byID[g.ID] = g
	}
	if len(o.Replace) == 0 {
		return Spec{}, check.Required("replace", "at least one pair of goods")
	}
	for i, r := range o.Replace {
		for _, f := range [][2]string{{"goods", r.Goods}, {"with", r.With}} {
			if _, known := byID[f[1]]; !known {
				return Spec{}, check.OneOf(fmt.Sprintf("replace[%d].%s", i, f[0]), f[1], ids...)
			}
		}
		at := unit.Path("replace").At(i)
		if _, twice := swap[r.Goods]; twice {
			return Spec{}, unit.InField(at.Dot("goods"), check.Refuse("", r.Goods, ErrTwice, "goods that are replaced once"))
		}
		if r.Goods == r.With {
			return Spec{}, unit.InField(at.Dot("with"), check.Refuse("", r.With, ErrMisplaced, "other goods"))
		}
		swap[r.Goods] = r.With
	}
	to := func(id *string) bool {
		w, ok := swap[*id]
		if ok {
			*id = w
		}
		return ok
	}
	out := s
	out.Options = nil
	out.Pieces = slices.Clone(s.Pieces)
	for i := range out.Pieces {
		p := &out.Pieces[i]
		to(&p.Goods)
		p.GoodsFor = maps.Clone(p.GoodsFor)
		for role, id := range p.GoodsFor {
			to(&id)
			p.GoodsFor[role] = id
		}
		p.Panels = slices.Clone(p.Panels)
		for k := range p.Panels {
			if q := &p.Panels[k]; to(&q.Goods) {
				q.suit(byID[q.Goods])
			}
		}
		p.Cushions = slices.Clone(p.Cushions)
		for k := range p.Cushions {
			c := &p.Cushions[k]
			bottom, boxing := c.Bottom, c.Boxing
			if to(&c.Top) && byID[c.Top].directed() {
				c.MayRailroad = false
			}
			if byID[c.Top].Kind == HideGoods {
				c.Join = nil
			}
			to(&bottom)
			to(&boxing)
			c.Bottom, c.Boxing = bottom, boxing
			if c.Welt != nil {
				w := *c.Welt
				to(&w.Goods)
				c.Welt = &w
			}
		}
		p.Boxings = changed(p.Boxings, func(x *BoxingSpec) { to(&x.Goods) })
		p.Welts = changed(p.Welts, func(x *WeltSpec) { to(&x.Goods) })
		p.Skirts = changed(p.Skirts, func(x *SkirtSpec) { to(&x.Goods) })
		p.Tufted = changed(p.Tufted, func(x *TuftedSpec) { to(&x.Goods) })
		p.Channels = changed(p.Channels, func(x *ChannelsSpec) { to(&x.Goods); to(&x.Lining) })
	}
	for i := range out.Pieces {
		p := &out.Pieces[i]
		p.Seams = changed(p.Seams, func(x *SeamSpec) { to(&x.Welt); to(&x.Backing) })
		p.Trims = changed(p.Trims, func(x *TrimSpec) { to(&x.Welt) })
		p.Fastenings = changed(p.Fastenings, func(x *FasteningSpec) { to(&x.PullStrip) })
	}
	return out, nil
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
