// Command floatmoney makes money of a float.
package main

import (
	"fmt"

	"github.com/coverwright/coverwright/cost"
)

func main() {
	amount := 12.5
	fmt.Println(cost.NewMoney(amount, cost.USD))
}
