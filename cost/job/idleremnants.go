package job

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost/stock"
)

// idleRemnants says which remnants at hand take none of the pieces, so that nobody
// wonders where they went.
func idleRemnants(s Spec, p Purchase) string {
	at := slices.IndexFunc(s.Goods, func(g GoodsSpec) bool { return g.ID == p.Goods })
	if at < 0 {
		return ""
	}
	var idle []string
	for _, h := range s.Goods[at].AtHand {
		used := p.Stock != nil && slices.ContainsFunc(p.Stock.Remnants, func(x stock.Laid) bool { return x.On == h.Name })
		if h.Remnant && !used {
			idle = append(idle, h.Name)
		}
	}
	if len(idle) == 0 {
		return ""
	}
	return "Of " + p.Name + " at hand, nothing is cut from " + strings.Join(idle, ", ") + ": it is too small for a piece, or would not make the rest shorter."
}
