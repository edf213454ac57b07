package verify_test

import (
	"errors"
	"fmt"

	"github.com/coverwright/coverwright/internal/pack/rect/verify"
)

func ExampleCheck() {
	s := &verify.Strip{
		Width: 10, Length: 6, Claimed: 6,
		Demands: []verify.Demand{{W: 6, H: 3, Count: 2, Turns: []int{0}}},
		Laid: []verify.Laid{
			{Copy: 0, Segments: 1, Rect: verify.Rect{X: 0, Y: 0, W: 6, H: 3}},
			{Copy: 1, Segments: 1, Rect: verify.Rect{X: 4, Y: 3, W: 6, H: 3}},
		},
	}
	fmt.Println(verify.Check(s))
	s.Laid[1].Y = 2
	var f *verify.Fault
	fmt.Println(errors.As(verify.Check(s), &f), f.Kind)
	// Output:
	// <nil>
	// true overlap
}
