package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// Cover gives the one panel of a tufted surface: the net cloth of Plan with the
// tack edge all round.
func (t Tufting) Cover(g Goods) (allowance.Cover, error) {
	plan, err := t.Plan()
	if err != nil {
		return allowance.Cover{}, err
	}
	def, _ := allowance.PullOver.Default()
	tack, err := given(t.Tack, "tack", def)
	if err != nil {
		return allowance.Cover{}, err
	}
	o, err := shape.Rectangle(plan.NetWidth, plan.NetHeight)
	if err != nil {
		return allowance.Cover{}, err
	}
	return allowance.Cover{Panels: []allowance.CoverPanel{{Goods: g.ID, Panel: allowance.Panel{Outline: o,
		AllEdges: allowance.Edge{Finish: allowance.PullOver, Allowance: allowance.Exactly(tack)}}}}}, nil
}

// Cover gives the pieces of the channels, sewn together, or the one piece that
// is stitched through. Every line between two channels is one row.
func (c Channels) Cover(g Goods, onePiece bool) (allowance.Cover, error) {
	cut, err := c.Cut()
	if err != nil {
		return allowance.Cover{}, err
	}
	pieces := cut.Pieces
	if onePiece {
		pieces = []Strip{{Use: "cover", Count: 1, Width: cut.OnePiece, Length: cut.Height}}
	}
	var out allowance.Cover
	for _, s := range pieces {
		p, err := upright(s.Use, g, s.Count, s.Width, s.Length)
		if err != nil {
			return allowance.Cover{}, err
		}
		out.Panels = append(out.Panels, p)
	}
	if lines := c.Count - 1; lines > 0 {
		out.Rows = []allowance.CoverRow{allowance.RowOn("", g.ID, unit.Length(lines)*cut.Height, allowance.SeamLayers)}
	}
	return out, nil
}
