package kind_test

import (
	"fmt"

	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/unit"
)

// What a tape must take for a drop-in seat, and what follows where it takes no
// more.
func ExampleKind_Sizes() {
	k, err := kind.Named("drop-in seat")
	if err != nil {
		fmt.Println(err)
		return
	}
	sizes, err := k.Sizes(map[string]unit.Length{"width": 19 * unit.Inch, "depth": 17 * unit.Inch})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range k.Measures {
		fmt.Println(m.Name, sizes[m.Name])
	}
	_, err = k.Sizes(map[string]unit.Length{"width": 19 * unit.Inch})
	fmt.Println(err)
	// Output:
	// width 19 in
	// depth 17 in
	// front width 19 in
	// back width 19 in
	// foam 2 in
	// frame 3/4 in
	// staple 1 in
	// measures.depth: required; want a length such as "17 in": from the front edge of the board or frame to its back edge
}
