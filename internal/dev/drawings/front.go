package main

import (
	"encoding/json"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// frontOfChair is the front of an armchair in goods with a half drop: down the
// middle it runs on, round the boxing of the cushion it is level.
func frontOfChair() (string, error) {
	var c allowance.Cover
	if err := json.Unmarshal([]byte(frontPanels), &c); err != nil {
		return "", err
	}
	limits, _ := allowance.FirmWoven.Limits()
	goods := map[string]allowance.SewnGoods{"cloth": {Ease: limits}}
	work, err := c.Work(goods)
	if err != nil {
		return "", err
	}
	flow, err := c.Flow(goods, []allowance.MotifWish{
		{Panel: "inside back", At: shape.Point{X: 25 * unit.Inch / 2, Y: 20 * unit.Inch}, Way: allowance.BothWays},
		{Panel: "boxing side right", At: shape.Point{X: 11 * unit.Inch}, Way: allowance.AcrossOnly},
	})
	if err != nil {
		return "", err
	}
	cloth := pattern.Cloth{Across: 9 * unit.Inch, Along: 12 * unit.Inch, Lower: 1, Columns: 2}
	return pattern.Front{Title: "Front of an armchair, 9 x 12 in, half drop", Cloths: map[string]pattern.Cloth{"cloth": cloth}}.Draw(work, flow)
}

const frontPanels = `{
	"panels": [
		{"name": "inside back", "goods": "cloth", "outline": {"rectangle": {"width": "25 in", "height": "31 in"}}, "all_edges": "raw"},
		{"name": "inside arm", "goods": "cloth", "pair": true, "outline": {"rectangle": {"width": "24 in", "height": "16 in"}}, "all_edges": "raw"},
		{"name": "cushion top", "goods": "cloth", "outline": {"rectangle": {"width": "24 in", "height": "24 in"}}, "all_edges": "raw"},
		{"name": "boxing front", "goods": "cloth", "outline": {"rectangle": {"width": "24 in", "height": "4 in"}}, "all_edges": "raw"},
		{"name": "boxing side", "goods": "cloth", "pair": true, "outline": {"rectangle": {"width": "22 in", "height": "4 in"}}, "all_edges": "raw"},
		{"name": "front border", "goods": "cloth", "outline": {"rectangle": {"width": "26 in", "height": "9 in"}}, "all_edges": "raw"}],
	"seams": [
		{"sides": ["cushion top.bottom", "boxing front.top"], "pattern": {"way": "both"}},
		{"sides": ["boxing front.right", "boxing side left.left"], "pattern": {"way": "both"}},
		{"sides": ["boxing side right.left", "boxing front.left"], "pattern": {"way": "along"}}],
	"meets": [
		{"sides": [{"side": "inside back.bottom", "in": "9 1/2 in"}, {"side": "cushion top.top", "in": "1/2 in"}], "pattern": {"way": "both"}},
		{"sides": [{"side": "inside arm left.left", "in": "2 in"}, {"side": "inside back.right from 11 in to 27 in"}], "pattern": {"way": "along"}},
		{"sides": [{"side": "inside back.left from 4 in to 20 in"}, {"side": "inside arm right.left", "in": "2 in"}], "pattern": {"way": "along"}},
		{"sides": [{"side": "boxing front.bottom"}, {"side": "front border.top", "in": "1/2 in"}], "pattern": {"way": "both"}}]}`
