package made

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

const inch4 = unit.Inch / 4

// The chart of bias strip from one yard of goods, in yards of strip. It is
// common practice and lies at 75 to 88 % of the area rule.
var biasChart = struct {
	strips [5]unit.Length
	rows   [4]struct {
		goods unit.Length
		yards [5]unit.Length
	}
}{
	strips: [5]unit.Length{5 * inch4, 7 * inch4, 9 * inch4, 11 * inch4, 15 * inch4},
	rows: [4]struct {
		goods unit.Length
		yards [5]unit.Length
	}{
		{35 * unit.Inch, [5]unit.Length{23 * unit.Yard, 15 * unit.Yard, 12 * unit.Yard, 10 * unit.Yard, 8 * unit.Yard}},
		{45 * unit.Inch, [5]unit.Length{30 * unit.Yard, 43 * unit.Yard / 2, 16 * unit.Yard, 14 * unit.Yard, 10 * unit.Yard}},
		{54 * unit.Inch, [5]unit.Length{37 * unit.Yard, 26 * unit.Yard, 20 * unit.Yard, 33 * unit.Yard / 2, 12 * unit.Yard}},
		{60 * unit.Inch, [5]unit.Length{40 * unit.Yard, 29 * unit.Yard, 45 * unit.Yard / 2, 19 * unit.Yard, 14 * unit.Yard}},
	},
}

// BiasChartYield gives the customary length of strip from one yard of goods.
// Goods are 35, 45, 54 or 60 in wide, strips 1 1/4, 1 3/4, 2 1/4, 2 3/4 or
// 3 3/4 in; nothing between is guessed.
func BiasChartYield(goods, strip unit.Length) (unit.Length, cite.Basis, error) {
	column := -1
	for i, s := range biasChart.strips {
		if s == strip {
			column = i
		}
	}
	if column < 0 {
		return 0, cite.Basis{}, check.OneOf("strip", strip.String(), lengthNames(biasChart.strips[:])...)
	}
	var widths []unit.Length
	for _, row := range biasChart.rows {
		if row.goods == goods {
			return row.yards[column], cite.Practice("from one yard of goods"), nil
		}
		widths = append(widths, row.goods)
	}
	return 0, cite.Basis{}, check.OneOf("goods", goods.String(), lengthNames(widths)...)
}

// BiasFactor is the share of the area rule that strips on the bias reach.
type BiasFactor struct {
	Least unit.Ratio `json:"least"` // the one to order by
	Usual unit.Ratio `json:"usual"`
	Most  unit.Ratio `json:"most"`
	Basis cite.Basis `json:"basis"`
}

// BiasYieldFactor gives the share of the area rule that the chart reaches.
func BiasYieldFactor() BiasFactor {
	return BiasFactor{Least: 0.75, Usual: 0.83, Most: 0.88, Basis: cite.Practice("chart yields over area / strip width")}
}

func lengthNames(ls []unit.Length) []string {
	out := make([]string, len(ls))
	for i, l := range ls {
		out[i] = l.String()
	}
	return out
}
