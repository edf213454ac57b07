package shape_test

import (
	"encoding/json"
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
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

// A panel photographed among four marks, whose places were taped, and clicked in a
// picture program: three straight edges and a crown.
func ExamplePhotoForm() {
	var form shape.Form
	err := json.Unmarshal([]byte(`{"photo": {"width": 4000, "height": 3000,
		"marks": [{"seen": "1000, 1000", "at": "0 in, 16 in"}, {"seen": "2200, 1010", "at": "24 in, 16 in"},
			{"seen": "2300, 1800", "at": "24 in, 0 in"}, {"seen": "950, 1800", "at": "0 in, 0 in"}],
		"edges": [{"name": "front", "points": ["1100, 1700"]}, {"name": "side", "points": ["2100, 1700"]},
			{"name": "crown", "points": ["2000, 1100", "1600, 1050"], "curve": true}, {"name": "other side", "points": ["1200, 1100"]}]}, "tolerance": "1/32 in"}`), &form)
	if err != nil {
		fmt.Println(err)
		return
	}
	o, err := form.Outline()
	fmt.Println(o.Edges(), err)
	w, h := o.Size()
	fmt.Println(w.Decimal(unit.Inch, 2, unit.Nearest), "x", h.Decimal(unit.Inch, 2, unit.Nearest))
	taken, err := form.Taped()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("within", taken.Tolerance.Photo.Outline.Decimal(unit.Inch, 2, unit.Nearest), "at 95 %")
	// Output:
	// [front side crown other side] <nil>
	// 18.02 in x 13.18 in
	// within 0.09 in at 95 %
}
