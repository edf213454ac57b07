// Command priceperratio makes a price for something that is no quantity.
package main

import (
	"fmt"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

func main() {
	var m cost.Money
	fmt.Println(cost.Per(m, 5*unit.Percent))
}
