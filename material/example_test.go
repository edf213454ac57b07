package material_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

func ExampleHidesToBuy() {
	hide := material.Hide{Area: 50 * unit.SquareFoot}
	e, err := material.HidesToBuy(62*unit.SquareFoot, hide, material.WholeHideWaste())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(e.Gross.Decimal(unit.SquareFoot, 1, unit.Up), "in", e.Hides, "hides,", e.Kind)
	// Output:
	// 92.6 sq ft in 2 hides, rule of thumb
}

func ExampleGrossArea() {
	a, err := material.GrossArea(100*unit.SquareFoot, 0.5)
	fmt.Println(a, err)
	// Output:
	// 200 sq ft <nil>
}

func ExampleGrossLength() {
	l, err := material.GrossLength(10*unit.Yard, 0.06)
	fmt.Println(l.Decimal(unit.Yard, 2, unit.Up), err)
	// Output:
	// 10.64 yd <nil>
}

// Eleven yards of 54 in cloth are replaced by 198 sq ft of leather when three
// quarters of each hide end in the work.
func ExampleLeatherForCloth() {
	a, err := material.LeatherForCloth(11*unit.Yard, 54*unit.Inch, 0.75)
	fmt.Println(a, err)
	// Output:
	// 198 sq ft <nil>
}

func ExampleRunningYard() {
	a, err := material.RunningYard(54 * unit.Inch)
	fmt.Println(a, err)
	// Output:
	// 13.5 sq ft <nil>
}

func ExampleRepeatLength() {
	l, err := material.RepeatLength(96*unit.Inch, 27*unit.Inch)
	fmt.Println(l, err)
	// Output:
	// 108 in <nil>
}

// The same mark, two trades, two areas.
func ExampleParseFootage() {
	us, _ := material.ParseFootage("50.3", material.Tenths)
	other, _ := material.ParseFootage("50.3", material.PointQuarters)
	fmt.Println(us, "or", other)
	// Output:
	// 50.3 sq ft or 50.75 sq ft
}

func ExampleRoll_Order() {
	l, err := material.Roll{Increment: unit.Yard / 2}.Order(89 * unit.Inch)
	fmt.Println(l.Mixed(unit.Yard, unit.Halves, unit.Up), err)
	// Output:
	// 2 1/2 yd <nil>
}

// Two yards of 36 in goods are 1 1/4 yd at 60 in by the chart.
func ExampleConvertByChart() {
	c, err := material.ConvertByChart(2*unit.Yard, 36*unit.Inch, 60*unit.Inch)
	fmt.Println(c.Length.Mixed(unit.Yard, unit.Eighths, unit.Nearest), c.Kind, err)
	// Output:
	// 1 1/4 yd rule of thumb <nil>
}

func ExampleConvertByArea() {
	c, err := material.ConvertByArea(5*unit.Yard, 36*unit.Inch, 54*unit.Inch)
	fmt.Println(c.Length.Decimal(unit.Yard, 3, unit.Up), err)
	// Output:
	// 3.334 yd <nil>
}

// Eight yards plain, repeats of 10 and 17 in: a fifth more.
func ExamplePatternedLength() {
	c, err := material.PatternedLength(8*unit.Yard, 54*unit.Inch, 10*unit.Inch, 17*unit.Inch)
	fmt.Println(c.Length.Decimal(unit.Yard, 1, unit.Up), c.Kind, err)
	// Output:
	// 9.6 yd rule of thumb <nil>
}

func ExampleExtraForPattern() {
	x, err := material.ExtraForPattern(54*unit.Inch, 27*unit.Inch, 0)
	fmt.Println(x.Share, err)
	// Output:
	// 20 % <nil>
}

// Four chair backs, 48 in of plain goods: the rules disagree, and none knows where
// the motifs lie. A layout with the motif in the middle of each back takes 51 in.
func ExamplePatternRules() {
	damask := material.Roll{Width: 53 * unit.Inch, Repeat: 27 * unit.Inch, Across: 26*unit.Inch + unit.Inch/2}
	back := 22 * unit.Inch
	rules, err := material.PatternRules(48*unit.Inch, damask, []unit.Length{back, back, back, back})
	for _, r := range rules {
		fmt.Println(r.Length.Decimal(unit.Inch, 1, unit.Up), "by", r.Kind, "-", r.Text)
	}
	fmt.Println(err)
	// Output:
	// 69.6 in by rule of thumb - plain goods and 45 %, by the sum of both repeats
	// 102.0 in by rule of thumb - plain goods and a repeat for each of 2 rows of pieces side by side
	// <nil>
}

func ExamplePatternYardage() {
	for _, y := range material.PatternYardage() {
		if y.Piece == "sofa" {
			fmt.Println(y.From.Yards(), "to", y.To.Yards(), "yd more,", y.Basis.Status)
		}
	}
	// Output:
	// 2 to 3 yd more, common practice
}

func ExampleFurnitureYardage() {
	for _, y := range material.FurnitureYardage() {
		if y.Piece == "loose cover, wing chair" {
			fmt.Println(y.From.Yards(), "to", y.To.Yards(), "yd,", y.Basis.Status)
		}
	}
	// Output:
	// 7 to 9 yd, common practice
}

// Third-drop damask: each column of motifs to the right lies a third of a repeat
// lower, which is two thirds further along the roll.
func ExampleRoll_Motifs() {
	damask := material.Roll{Width: 54 * unit.Inch, Repeat: 27 * unit.Inch, AcrossLevel: 54 * unit.Inch, Drop: material.Drop{Num: 1, Den: 3},
		First: shape.Point{X: 9 * unit.Inch, Y: 4 * unit.Inch}}
	m := damask.Motifs()
	for column := range 4 {
		fmt.Println(m.First.X+unit.Length(column)*m.Across, m.First.Y+m.Rise(column))
	}
	// Output:
	// 9 in 4 in
	// 27 in 22 in
	// 45 in 13 in
	// 63 in 4 in
}

// A flaw without a width reaches right across.
func ExampleFlaw_Across() {
	roll := material.Roll{Width: 54 * unit.Inch, Selvage: unit.Inch / 2}
	fmt.Println(material.Flaw{X: 3 * unit.Inch, Length: unit.Inch}.Across(roll))
	fmt.Println(material.Flaw{X: 3 * unit.Inch, Width: 2 * unit.Inch, Length: unit.Inch}.Across(roll))
	// Output:
	// 50 in
	// 2 in
}
