package job

import (
	"slices"

	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/job/build"
)

// unfilledNote names pieces that take time to pad, and nothing to pad with.
func unfilledNote(s Spec, o WorkOrder) []string {
	var out []string
	for _, p := range s.Pieces {
		padded := slices.ContainsFunc(o.Labour, func(b Bench) bool { return b.Piece == p.Name && slices.Contains(b.Does, bench.Pad) })
		filled := slices.ContainsFunc(o.Foam, func(b FoamBlock) bool { return b.Piece == p.Name }) ||
			slices.ContainsFunc(o.Forms, func(f PillowForm) bool { return f.Piece == p.Name }) ||
			slices.ContainsFunc(o.Findings, func(l build.Line) bool {
				return (l.ID == "felt" || l.ID == "wrap") && slices.ContainsFunc(l.Pieces, func(x build.Share) bool { return x.Piece == p.Name })
			})
		if padded && !filled && p.Rough == nil {
			out = append(out, p.Name+" takes time to pad, and the order has no foam, felt or wrap for it: what is there stays, or the quote leaves it out.")
		}
	}
	return out
}
