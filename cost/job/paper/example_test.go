package paper_test

import (
	"context"
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/paper"
)

// A foam seat and the time for it, as the customer gets to read of it.
func ExampleOf() {
	order, err := job.Read(context.Background(), strings.NewReader(`{
		"schema": "coverwright/job/1", "name": "Mill Lane", "currency": "USD", "goods": [],
		"pieces": [{"name": "bench", "count": 2,
			"foam": [{"name": "seat", "width": "48 in", "depth": "18 in", "thickness": "2 in",
				"filling": {"use": "bench", "duty": "normal", "base": "board", "price": "4.00 USD/bd ft"}}],
			"labour": [{"task": "strip, fill and close", "time": "2 h"}]}],
		"quote": {"labour_rate": "60.00 USD/h", "markup": "25 %", "class": 3}}`), job.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := paper.Of(order, 0, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(p.Kind, p.Total, "from", p.Range.Low, "to", p.Range.High)
	for _, x := range p.Items {
		fmt.Println(x.Count, x.What, "each", x.Each, "=", x.Amount)
	}
	fmt.Println(p.Pieces[0].Work, p.Pieces[0].New)
	// Output:
	// estimate 360.00 USD from 280.00 USD to 470.00 USD
	// 2 bench each 180.00 USD = 360.00 USD
	// [strip, fill and close] [foam: seat]
}
