package verify_test

import (
	"errors"
	"fmt"

	"github.com/coverwright/coverwright/internal/pack/verify"
)

func ExampleBoxes() {
	s := &verify.Strip{
		Width: 10, Length: 6, Claimed: 6,
		Demands: []verify.Demand{{W: 6, H: 3, Count: 2, Turns: []int{0}}},
		Laid: []verify.Laid{
			{Copy: 0, Segments: 1, Rect: verify.Rect{X: 0, Y: 0, W: 6, H: 3}},
			{Copy: 1, Segments: 1, Rect: verify.Rect{X: 4, Y: 3, W: 6, H: 3}},
		},
	}
	fmt.Println(verify.Boxes(s))
	s.Laid[1].Y = 2
	var f *verify.BoxFault
	fmt.Println(errors.As(verify.Boxes(s), &f), f.Kind)
	// Output:
	// <nil>
	// true overlap
}
