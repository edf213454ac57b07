package job

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost/stock"
)

// idleRemnants says which remnants at hand take none of the pieces, and which lengths
// could not take all of them, so that nobody wonders where they went.
func idleRemnants(s Spec, p Purchase) string {
	at := slices.IndexFunc(s.Goods, func(g GoodsSpec) bool { return g.ID == p.Goods })
	if at < 0 {
		return ""
	}
	var idle, narrow []string
	for _, h := range s.Goods[at].AtHand {
		used := p.Stock != nil && slices.ContainsFunc(p.Stock.Remnants, func(x stock.Laid) bool { return x.On == h.Name })
		if h.Remnant && !used {
			idle = append(idle, h.Name)
		}
		if !h.Remnant && p.Plan != nil && !p.Plan.Stopped && (p.Stock == nil || p.Stock.Length == "") {
			narrow = append(narrow, h.Name)
		}
	}
	var out []string
	nothing := "Of " + p.Name + " at hand, nothing is cut from "
	if len(idle) > 0 {
		out = append(out, nothing+strings.Join(idle, ", ")+": it is too small for a piece, or would not make the rest shorter.")
	}
	if len(narrow) > 0 {
		out = append(out, nothing+strings.Join(narrow, ", ")+": some piece has no room on it, and only a remnant takes less than all of them.")
	}
	return strings.Join(out, " ")
}
