package main

import (
	"fmt"
	"maps"
	"slices"

	"github.com/coverwright/coverwright/cost/job"
)

// optionWords says what an option has in the place of what.
func (s *sheet) optionWords(o job.WorkOrder, p job.OptionPrice) []string {
	as, with := s.amounts(o.Purchases), s.amounts(p.Purchases)
	var out []string
	for _, g := range p.Goods {
		out = append(out, fmt.Sprintf("%s%s: %s; %s%s: %s (before markup and tax, %s)", as[g.Goods], goodsName(o.Purchases, g.Goods), g.Cost.Grouped(), with[g.With], goodsName(p.Purchases, g.With), g.WithCost.Grouped(), g.Kind))
	}
	for _, w := range s.foamWords(p.Foam) {
		out = append(out, w.Title+": "+w.Ask+"; "+w.Cut)
	}
	for _, code := range slices.Sorted(maps.Keys(p.Findings)) {
		out = append(out, p.Findings[code]+" in place of "+code)
	}
	for _, l := range p.Labour {
		out = append(out, fmt.Sprintf("%s: %s %s", l.Piece, l.Task, l.Time))
	}
	return out
}

// amounts gives how much is bought of goods, before their names.
func (s *sheet) amounts(list []job.Purchase) map[string]string {
	out := map[string]string{}
	for _, p := range list {
		out[p.Goods] = s.bought(p)
	}
	return out
}

// goodsName gives the name of goods by their id.
func goodsName(list []job.Purchase, id string) string {
	i := slices.IndexFunc(list, func(p job.Purchase) bool { return p.Goods == id })
	if i < 0 || list[i].Name == "" {
		return id
	}
	return list[i].Name
}

// bought writes how much is bought, before the name of the goods.
func (s *sheet) bought(p job.Purchase) string {
	if p.Hides > 0 {
		return hides(p.Hides) + " of "
	}
	if p.Length == 0 {
		return "none of "
	}
	return s.buyLen(p.Length) + " of "
}
