package evaluate

import (
	"fmt"

	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit/cite"
)

// benchTotal gives both ends of the time of a piece.
func benchTotal(in *reference.Inputs, _ string) (reference.Value, error) {
	name := in.Text("piece")
	for _, p := range bench.Usual().Pieces {
		if p.Name == name {
			all, err := p.Total()
			return reference.Numbers(all.From.Hours(), all.To.Hours()).On(p.Basis), err
		}
	}
	return reference.Value{}, fmt.Errorf("no such piece: %s", name)
}

// benchTime gives the usual time of a piece in leather with spaced nails.
func benchTime(in *reference.Inputs, _ string) (reference.Value, error) {
	factor, share := in.Ratio("factor"), in.Ratio("share")
	b := bench.Build{Piece: in.Text("piece"), Goods: "leather", Share: &share}
	if nails := in.Length("nails"); nails > 0 {
		b.Extras = []bench.Work{{Extra: "spaced nails", Length: nails}}
	}
	own, err := bench.Usual().With(bench.Table{Goods: []bench.Goods{{Name: "leather", Factor: bench.Factor{From: factor, To: factor}}}})
	if err != nil {
		return reference.Value{}, err
	}
	e, err := own.Estimate(b)
	var bases []cite.Basis
	for _, l := range e.Lines {
		bases = append(bases, l.Basis)
	}
	return reference.Numbers(e.Usual.Hours()).On(bases...), err
}
