package shape_test

import (
	"encoding/json"
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
)

// The inside back of a wing chair as a shop writes it down: one half, from the
// middle of the bottom edge to the middle of the crown.
func ExampleOutline_UnmarshalJSON() {
	var back shape.Outline
	err := json.Unmarshal([]byte(`{"half": {"from": "0 in, 0 in", "edges": [
		{"name": "bottom", "pieces": [{"to": "10 in, 0 in"}]},
		{"name": "side", "pieces": [{"to": "12 in, 26 in", "rise": "1/2 in"}]},
		{"name": "crown", "pieces": [{"to": "0 in, 28 1/2 in", "by": ["6 in, 28 1/2 in"]}]}
	]}}`), &back)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(back)
	// Output:
	// outline 24 in x 28 1/2 in: bottom, side, crown, side mirrored
}

// The exact form of a circle: it reads back to the last bit.
func ExampleOutline_MarshalJSON() {
	o, err := shape.Form{Circle: &shape.CircleForm{Diameter: 2 * in}}.Outline()
	if err != nil {
		fmt.Println(err)
		return
	}
	text, err := json.Marshal(o)
	fmt.Println(string(text), err)
	// Output:
	// {"trace":{"from":"1 in, 0 in","edges":[{"name":"rim","pieces":[{"to":"2 in, 1 in","bulge":"41.421356237309503 %"},{"to":"1 in, 2 in","bulge":"41.421356237309503 %"},{"to":"0 in, 1 in","bulge":"41.421356237309503 %"},{"to":"1 in, 0 in","bulge":"41.421356237309503 %"}]}]}} <nil>
}
