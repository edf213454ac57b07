package account_test

import (
	"fmt"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
)

// A chair at 1 200.00, a joint glued for 48.00 with 6.25 % of tax, half of it paid.
func ExampleSettle() {
	total, _ := cost.ParseMoney("1200.00 USD")
	glued, _ := cost.ParseMoney("48.00 USD")
	deposit, _ := cost.ParseMoney("600.00 USD")
	agreed, _ := cost.ParseDate("2027-03-09")
	s, err := account.Settle(account.Account{
		Changes:  []account.Change{{What: "joint glued", Amount: glued, Kind: cost.Labour, Agreed: agreed}},
		Received: []account.Receipt{{What: "deposit", Amount: deposit, On: agreed}},
	}, total, cost.Tax{Levies: []cost.Levy{{Name: "sales tax", Rate: 0.0625}}}, cost.HalfUp)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("sum    ", s.Sum)
	fmt.Println("balance", s.Balance)
	// Output:
	// sum     1251.00 USD
	// balance 651.00 USD
}
