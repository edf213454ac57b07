// Command areabylength asks a price per yard for an area.
package main

import (
	"fmt"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

func main() {
	var perYard cost.LengthPrice
	fmt.Println(perYard.Of(48*unit.SquareFoot, cost.HalfUp))
}
