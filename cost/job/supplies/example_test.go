package supplies_test

import (
	"cmp"
	"context"
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/supplies"
)

func ExampleOf() {
	order, err := job.Read(context.Background(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "six seats", "currency": "USD",
		"goods": [{"id": "tweed", "kind": "roll", "name": "grey tweed", "supplier": "the mill", "material": "woven", "width": "54 in", "price": "40.00 USD/yd"}],
		"pieces": [{"name": "dining chair", "count": 6, "panels": [{"name": "seat", "goods": "tweed", "width": "19 in", "length": "17 in", "edges": "pull-over"}],
			"foam": [{"name": "pad", "width": "19 in", "depth": "17 in", "thickness": "2 in",
				"filling": {"use": "seat", "duty": "normal", "base": "board", "price": "3.40 USD/bd ft"}}]}],
		"quote": {"labour_rate": "60 USD/h"}}`), job.Options{})
	if err != nil {
		panic(err)
	}
	list, err := supplies.Of(order, supplies.Options{})
	if err != nil {
		panic(err)
	}
	for _, o := range list.Orders {
		fmt.Println(cmp.Or(o.Supplier, string(o.Kind)))
		for _, l := range o.Lines {
			fmt.Printf("  %s: %s\n", l.What, l.Text)
		}
	}
	// Output:
	// the mill
	//   grey tweed: 1 3/4 yd
	// foam cut to size
	//   foam of 50 lbf at 25 % (IFD25, ASTM D3574), 1.8 to 2.0 lb/ft3: 6 blocks, 27.0 bd ft
	// findings
	//   staple, 5/16 in: 479 pieces
}
