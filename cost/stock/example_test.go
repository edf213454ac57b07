package stock_test

import (
	"fmt"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// A customer has 2 3/4 yd of a cloth of which 96 in are needed: room for the layout, but
// not for 2 in at each end.
func ExampleLength_Of() {
	cloth := material.Roll{Width: 54 * unit.Inch}
	own := stock.Length{Name: "hers", Length: 11 * unit.Yard / 4}
	s, err := own.Of(cloth).Suffices(96*unit.Inch, 0, material.UsualMargins().Usual)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(s.Supply, s.Left, "left,", s.ShortOfMargin, "short of the margin")
	// Output: tight 3 in left, 1 in short of the margin
}

// Half of the markup that the shop's own cloth would have brought.
func ExampleHandling_Line() {
	half := unit.Ratio(0.5)
	would, _ := cost.ParseMoney("115.00 USD")
	_, fee, err := stock.Handling{Share: &half}.Line(stock.Owned{Name: "tweed", Cost: would, Markup: 0.25}, cost.HalfUp)
	fmt.Println(fee, err)
	// Output: 14.38 USD <nil>
}
