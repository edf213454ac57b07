package schema_test

import (
	"encoding/json"
	"fmt"

	"github.com/coverwright/coverwright/cost/job/schema"
)

// Each schema names itself.
func Example() {
	for _, text := range [][]byte{schema.Job(), schema.Shop(), schema.Order()} {
		var s struct {
			ID string `json:"$id"`
		}
		if err := json.Unmarshal(text, &s); err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(s.ID)
	}
	// Output:
	// urn:coverwright:job:1
	// urn:coverwright:shop:1
	// urn:coverwright:work-order:2
}
