package job

import (
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
)

// with gives the job with an option's goods in the place of its own, and
// without further options.
func (s Spec) with(o Option) (Spec, error) {
	swap := map[string]string{}
	known := func(id string) bool { return slices.ContainsFunc(s.Goods, func(g Goods) bool { return g.ID == id }) }
	var ids []string
	for _, g := range s.Goods {
		ids = append(ids, g.ID)
	}
	if len(o.Replace) == 0 {
		return Spec{}, check.Required("replace", "at least one pair of goods")
	}
	for i, r := range o.Replace {
		for _, f := range [][2]string{{"goods", r.Goods}, {"with", r.With}} {
			if !known(f[1]) {
				return Spec{}, check.OneOf(fmt.Sprintf("replace[%d].%s", i, f[0]), f[1], ids...)
			}
		}
		swap[r.Goods] = r.With
	}
	to := func(id string) string {
		if w, ok := swap[id]; ok {
			return w
		}
		return id
	}
	out := s
	out.Options = nil
	out.Pieces = slices.Clone(s.Pieces)
	for i := range out.Pieces {
		p := &out.Pieces[i]
		p.Panels = slices.Clone(p.Panels)
		for k := range p.Panels {
			p.Panels[k].Goods = to(p.Panels[k].Goods)
		}
		p.Cushions = slices.Clone(p.Cushions)
		for k := range p.Cushions {
			c := &p.Cushions[k]
			c.Top, c.Bottom, c.Boxing = to(c.Top), to(c.Bottom), to(c.Boxing)
			if c.Welt != nil {
				w := *c.Welt
				w.Goods = to(w.Goods)
				c.Welt = &w
			}
		}
	}
	return out, nil
}
