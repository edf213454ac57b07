package job

import (
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
)

// margin is that of goods on a roll: as they say, or the usual one.
func (g GoodsSpec) margin() material.WorkingMargin {
	if g.Margin == nil {
		return material.UsualMargins().Usual
	}
	return *g.Margin
}

// ordered gives the length to buy for a layout.
func (g GoodsSpec) ordered(p layout.Plan) (material.Ordered, error) {
	return p.Job.Roll.OrderWith(p.Need, p.Spare, g.margin())
}
