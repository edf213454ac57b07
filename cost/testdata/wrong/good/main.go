// Command good prices a length by the yard.
package main

import (
	"fmt"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

func main() {
	var perYard cost.LengthPrice
	fmt.Println(cost.Item[unit.Length]{Quantity: 3 * unit.Yard, Price: perYard}.Line())
}
