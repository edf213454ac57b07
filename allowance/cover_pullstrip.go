package allowance

import (
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// stripEnd is what a pull strip stands out beyond each end of the edge it is sewn
// to, as common practice has it.
const stripEnd = unit.Inch / 2

// WithPullStrip gives the cover with a strip of other goods, by their id, sewn on in
// place of what a fastening pulls over or pushes through: the edge ends in a plain
// seam, and the strip is fastened. With over and hold those of the fastening, s the
// seam allowance and l the edge the strip is cut
//
//	(l + 1 in) × (s + over + rail + hold)
//
// It is the last panel, named after the edge, and its seam the last seam. Where the
// fastening has faults, Check tells them and the cover is as it was. Errors are in
// fastenings[i]: finish, side.
func (c Cover) WithPullStrip(fastening int, goods string) (Cover, error) {
	at := unit.Path("fastenings").At(fastening)
	if fastening < 0 || fastening >= len(c.Fastenings) {
		return c, check.Count("fastenings", fastening, 0, len(c.Fastenings)-1)
	}
	f := c.Fastenings[fastening]
	if f.Kind != PulledOver && f.Kind != PushedThrough {
		return c, check.Refuse(at.Dot("finish"), f.Kind.String(), unit.ErrRange, "pulled over or pushed through, of an edge that ends in a strip")
	}
	g := newGraph(c, nil)
	i := slices.IndexFunc(g.holds, func(h held) bool { return h.fastening == fastening })
	if i < 0 {
		return c, nil
	}
	h := g.holds[i]
	for _, e := range f.Side {
		if e.Panel != f.Side[0].Panel {
			return c, check.Refuse(at.Dot("side"), f.Side.String(), unit.ErrRange, "edges of one panel, where they end in a strip")
		}
	}
	over := fasteningKinds[f.Kind].over
	if l, set := f.Over.Get(); set {
		over = l
	}
	long, high := g.run(h.side), over+f.Rail
	if err := check.Length(at.Dot("over"), high, unit.Inch/2, 2*MostAllowance); err != nil {
		return c, err
	}
	o, err := shape.Rectangle(long, high)
	if err != nil {
		return c, unit.InField(at.Dot("side"), err)
	}
	name := f.Side[0].Panel + " " + f.Side[0].Edge + " pull strip"
	of := g.refs[f.Side[0].Panel]
	end := Edge{Finish: Raw, Allowance: Exactly(stripEnd)}
	strip := CoverPanel{Goods: goods, Free: true, Pair: g.cover.Panels[of.panel].Pair && of.hand == Either,
		Panel: Panel{Name: name, Outline: o, Edges: map[string]Edge{"left": end, "right": end}}}
	if of.number == 0 {
		strip.Count = g.cover.Panels[of.panel].Count
	}
	c.Panels, c.Fastenings = append(slices.Clone(c.Panels), strip), slices.Clone(c.Fastenings)
	c.Seams = append(slices.Clone(c.Seams), Seam{Sides: []Side{f.Side, {{Panel: name, Edge: "top"}}}})
	f.Side, f.Over, f.Rail = Side{{Panel: name, Edge: "bottom"}}, Exactly(0), 0
	c.Fastenings[fastening] = f
	return c, nil
}
