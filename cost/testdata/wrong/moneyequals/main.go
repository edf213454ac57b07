// Command moneyequals compares amounts with ==.
package main

import (
	"fmt"

	"github.com/coverwright/coverwright/cost"
)

func main() {
	var a, b cost.Money
	fmt.Println(a == b)
}
