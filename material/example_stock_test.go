package material_test

import (
	"fmt"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// A layout of 96 in would be bought as 2 3/4 yd; with room to square the ends it is 3 yd.
func ExampleRoll_OrderWith() {
	cloth := material.Roll{Width: 54 * unit.Inch, Increment: unit.Yard / 4}
	o, err := cloth.OrderWith(96*unit.Inch, 0, material.UsualMargins().Usual)
	fmt.Println(o.Margin.Total, o.Gross, o.Order.Decimal(unit.Yard, 2, unit.Up), err)
	// Output:
	// 4 in 100 in 3.00 yd <nil>
}

// A customer brings 2 3/4 yd for the same layout.
func ExampleStock_Suffices() {
	own := material.Stock{Roll: material.Roll{Width: 54 * unit.Inch}, Length: 11 * unit.Yard / 4}
	s, err := own.Suffices(96*unit.Inch, 0, material.UsualMargins().Usual)
	fmt.Println(s.Supply, s.Left, "left,", s.ShortOfMargin, "short of the margin", err)
	// Output:
	// tight 3 in left, 1 in short of the margin <nil>
}

func ExampleWorkingMargin_Of() {
	p, err := material.UsualMargins().Usual.Of(800 * unit.Inch)
	fmt.Println(p.Squaring, p.Flaws, p.Total, err)
	// Output:
	// 4 in 4 1/2 in 8 1/2 in <nil>
}

// A half drop of 20 in, seen from 30 in up the roll: the next motif is in the second column.
func ExampleMotifs_After() {
	roll := material.Roll{Width: 54 * unit.Inch, Repeat: 20 * unit.Inch, Across: 12 * unit.Inch, Drop: material.Drop{Num: 1, Den: 2}}
	p := roll.Motifs().After(6*unit.Inch, 30*unit.Inch)
	fmt.Println(p.X, p.Y)
	// Output:
	// 6 in 0 in
}

// The end of a striped roll, as goods of its own: its stripe starts later.
func ExampleStock_Part() {
	whole := material.Stock{Roll: material.Roll{Width: 54 * unit.Inch, Across: 9 * unit.Inch}, Length: 120 * unit.Inch}
	end, err := whole.Part(20*unit.Inch, 96*unit.Inch, 34*unit.Inch, 24*unit.Inch)
	fmt.Println(end.Roll.Width, end.Length, end.Roll.First.X, err)
	// Output:
	// 34 in 24 in 7 in <nil>
}
