package allowance_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// A drop-in seat of the Larkfield Reading Room: leather pulled over all four
// rails, an inch left to work with, and the leather's stretch taken out.
func ExampleRectPanel_Cut() {
	leather, _ := allowance.LeatherStretch()
	seat := allowance.RectPanel{
		Name:   "drop-in seat",
		Width:  20 * unit.Inch,
		Height: 18 * unit.Inch,
		Across: leather,
		Along:  leather,
	}.AllEdges(allowance.Edge{Finish: allowance.PullOver, Handling: unit.Inch})

	cut, err := seat.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("cut ", cut.Width.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest), "x", cut.Height.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest))
	fmt.Println("trim", cut.TrimWidth.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest), "x", cut.TrimHeight.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest))
	fmt.Println("leather", cut.Area.Decimal(unit.SquareFoot, 2, unit.Nearest))
	// Output:
	// cut  23 1/2 in x 21 9/16 in
	// trim 21 1/2 in x 19 9/16 in
	// leather 3.52 sq ft
}

// An override of zero is not the same as no override.
func ExampleEdge_Resolve() {
	for _, e := range []allowance.Edge{
		{Finish: allowance.WeltedSeam},
		{Finish: allowance.WeltedSeam, Allowance: allowance.Exactly(5 * unit.Inch / 8)},
		{Finish: allowance.WeltedSeam, Allowance: allowance.Exactly(0)},
	} {
		m, err := e.Resolve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(m.Finish, m.Allowance, "by hand:", m.ByHand)
	}
	// Output:
	// welted seam 1/2 in by hand: false
	// welted seam 5/8 in by hand: true
	// welted seam 0 in by hand: true
}

// The defaults stand in one table, each with its basis.
func ExampleFinish_Default() {
	for _, f := range []allowance.Finish{allowance.PlainSeam, allowance.PullOver, allowance.DoubleHem, allowance.Fold} {
		l, basis := f.Default()
		fmt.Println(f, "|", l, "|", basis.Status)
	}
	// Output:
	// plain seam | 1/2 in | standard
	// pull-over | 1 in | common practice
	// double hem | 1 1/2 in | derived
	// fold | 0 in | derived
}

// Leather gives: 1/4 in comes out of every 10 in, none of a small piece.
func ExampleStretch_Apply() {
	s, basis := allowance.LeatherStretch()
	for _, l := range []unit.Length{40 * unit.Inch, 20 * unit.Inch, 9 * unit.Inch} {
		f, err := s.Apply(l)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(f.Finished, "->", f.Seam)
	}
	fmt.Println(basis.Status)
	// Output:
	// 40 in -> 39 in
	// 20 in -> 19 1/2 in
	// 9 in -> 9 in
	// common practice
}

// Twenty inches of a sample reach 20 5/8 in under the pull of fitting.
func ExampleMeasuredStretch() {
	s, err := allowance.MeasuredStretch(20*unit.Inch, 20*unit.Inch+5*unit.Inch/8)
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := s.Apply(33 * unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(s.TakeOut.PercentText(2, unit.Nearest), f.Seam)
	// Output:
	// 3.03 % 32 in
}

func ExampleRuleNamed() {
	r, err := allowance.RuleNamed("loose cover tuck-in")
	fmt.Println(r.Allowance, r.Basis.Status, err)
	// Output:
	// 6 in published <nil>
}

// A cover cut to the size of an 18 in block ends 1 in smaller and sits tight.
func ExampleFinishedFromCut() {
	l, err := allowance.FinishedFromCut(18*unit.Inch, unit.Inch/2, unit.Inch/2)
	fmt.Println(l, err)
	// Output:
	// 17 in <nil>
}

// The texts of the doc comment, read and written.
func ExampleEdge_UnmarshalText() {
	for _, text := range []string{"plain seam", "plain seam 3/8 in", "pull-over 2 in + 1 in", "single hem + 10 mm"} {
		var e allowance.Edge
		if err := e.UnmarshalText([]byte(text)); err != nil {
			fmt.Println(err)
			return
		}
		margin, err := e.Resolve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(e, "adds", margin.Total())
	}
	// Output:
	// plain seam adds 1/2 in
	// plain seam 3/8 in adds 3/8 in
	// pull-over 2 in + 1 in adds 3 in
	// single hem + 10 mm adds 35.4 mm
}
