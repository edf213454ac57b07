// Command lengthbyarea prices a length by the square foot.
package main

import (
	"fmt"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

func main() {
	var perFoot cost.AreaPrice
	fmt.Println(cost.Item[unit.Length]{Quantity: 3 * unit.Yard, Price: perFoot}.Line())
}
