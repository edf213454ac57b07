package allowance_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// An inside back, ripped off and traced at the edge of the cloth: 1/2 in at its
// seams, staples 2 in outside the finished line below. It had stretched by half an inch
// across. The new one is cut with its new allowances.
func ExampleRipped() {
	in := unit.Inch
	traced, err := shape.Trapezoid(24*in, 20*in, 26*in, 2*in)
	if err != nil {
		fmt.Println(err)
		return
	}
	old, err := allowance.Ripped{
		OldEdge: allowance.OldEdge{Line: allowance.OldCut, Allowance: in / 2},
		Edges:   map[string]allowance.OldEdge{"bottom": {Line: allowance.OldStaples, Allowance: 2 * in}},
		Frame:   []allowance.FrameMeasure{{Panel: 20 * in, Frame: 39 * in / 2}},
		Halves:  &allowance.OldHalves{},
	}.Finished(traced)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range old.Words(func(l unit.Length) string { return l.Decimal(in, 2, unit.Nearest) }) {
		fmt.Println(s)
	}
	cut, err := allowance.Panel{Outline: old.Outline, Edges: map[string]allowance.Edge{"bottom": {Finish: allowance.PullOver}}}.Cut()
	fmt.Println(cut.Width.Decimal(in, 2, unit.Nearest), "x", cut.Height.Decimal(in, 2, unit.Nearest), err)
	// Output:
	// Finished 22.12 in x 23.50 in, within 0.15 in and 0.10 in either way, 19 times of 20.
	// The panel had stretched: brought to 97.50 % of its length at 0 deg from across, within 0.51 % either way, 19 times of 20.
	// The two halves are made their mean: each was off it by up to 0.00 in at top, 0.00 % of the width, and 0.00 in in the mean.
	// 23.27 in x 25.00 in <nil>
}
