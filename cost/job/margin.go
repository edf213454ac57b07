package job

import (
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// MarginSpec is what is bought of a roll beyond what its layout needs. A field that is
// not given adds nothing; without any, the order is the layout to the inch.
type MarginSpec struct {
	Squaring unit.Length `json:"squaring,omitzero"` // cut off each end to have it square
	Test     unit.Length `json:"test,omitzero"`     // cut off to try stitch, glue and cleaning on
	// FlawEvery is the length in which one flaw is reckoned with, from 1 m; none when
	// not given. It costs FlawLength.
	FlawEvery  unit.Length `json:"flaw_every,omitzero"`
	FlawLength unit.Length `json:"flaw_length,omitzero"` // that a flaw costs
	Treatment  unit.Ratio  `json:"treatment,omitzero"`   // the share that a finisher loses
	// LeastTreatment is what a finisher loses at least.
	LeastTreatment unit.Length `json:"least_treatment,omitzero"`
}

// margin is that of goods on a roll: as they say, or the usual one.
func (g GoodsSpec) margin() material.WorkingMargin {
	if g.Margin == nil {
		return material.UsualMargins().Usual
	}
	return material.WorkingMargin(*g.Margin)
}

// ordered gives the length to buy for a layout.
func (g GoodsSpec) ordered(p layout.Plan) (material.Ordered, error) {
	return p.Job.Roll.OrderWith(p.Need, p.Spare, g.margin())
}
