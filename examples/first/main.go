// Command first is the first program of the README: how large to cut a
// drop-in seat of 18 1/2 by 16 in that is pulled over 3 in on every side.
package main

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

func main() {
	seat := allowance.RectPanel{Width: 18*unit.Inch + unit.Inch/2, Height: 16 * unit.Inch}
	cut, err := seat.AllEdges(allowance.Edge{Finish: allowance.PullOver, Allowance: allowance.Exactly(3 * unit.Inch)}).Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(cut.Width, "x", cut.Height) // 24 1/2 in x 22 in
}
