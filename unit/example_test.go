package unit_test

import (
	"encoding/json"
	"errors"
	"fmt"

	"github.com/coverwright/coverwright/unit"
)

func Example() {
	seat := 25*unit.Inch + 5*unit.Inch/8
	allowance := unit.Inch / 2
	cut := seat + 2*allowance
	fmt.Println(cut)
	fmt.Println(cut.Decimal(unit.Millimetre, 1, unit.Up))
	// Output:
	// 26 5/8 in
	// 676.3 mm
}

func ExampleParseLength() {
	for _, text := range []string{"25 5/8 in", `2' 1-5/8"`, "1½ yd", "652 mm"} {
		l, err := unit.ParseLength(text)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(l)
	}
	// Output:
	// 25 5/8 in
	// 25 5/8 in
	// 54 in
	// 652 mm
}

func ExampleParseLength_refused() {
	_, err := unit.ParseLength("1,250 mm")
	fmt.Println(errors.Is(err, unit.ErrDecimalComma))
	fmt.Println(err)
	_, err = unit.ParseLength("25 5/8")
	fmt.Println(err)
	// Output:
	// true
	// “1,250 mm”: comma in a number; want a decimal point and no thousands sign, such as 1250.5
	// “25 5/8”: unit missing; want one of: in, ft, yd, mm, cm, m, mil, um, nm
}

func ExampleParseThickness() {
	l, err := unit.ParseThickness("3 oz")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(l, "or", l.Decimal(unit.Millimetre, 2, unit.Nearest))
	// Output: 3/64 in or 1.19 mm
}

func ExampleParseArea() {
	hide, err := unit.ParseArea("48 sq ft")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(hide.Decimal(unit.SquareMetre, 2, unit.Nearest))
	// Output: 4.46 m2
}

func ExampleParseLinearDensity() {
	for _, text := range []string{"70 tex", "630 den", "Nm 40", "Nm 40/2", "210/3 den"} {
		t, err := unit.ParseLinearDensity(text)
		fmt.Println(t, err)
	}
	// Output:
	// 70 tex <nil>
	// 70 tex <nil>
	// 25 tex <nil>
	// 50 tex <nil>
	// 0 tex “210/3 den”: not a quantity; want the count of the whole thread: three plies of 210 den are 630 den
}

func ExampleLength_Mixed() {
	l := 652 * unit.Millimetre
	fmt.Println(l.Mixed(unit.Inch, unit.Eighths, unit.Nearest))
	fmt.Println(l.Mixed(unit.Inch, unit.Eighths, unit.Up))
	// Output:
	// 25 5/8 in
	// 25 3/4 in
}

func ExampleLength_FeetInches() {
	fmt.Println((25*unit.Inch + 5*unit.Inch/8).FeetInches(unit.Eighths, unit.Nearest))
	// Output: 2' 1 5/8"
}

func ExampleLength_RoundTo() {
	l := 25*unit.Inch + 9*unit.Inch/16
	up, err := l.RoundTo(unit.Inch/4, unit.Up)
	fmt.Println(up, err)
	// Output: 25 3/4 in <nil>
}

func ExampleLength_By() {
	a, err := (25*unit.Inch + unit.Inch/2).By(24 * unit.Inch)
	fmt.Println(a, err)
	// Output: 4.25 sq ft <nil>
}

func ExampleArea_Deep() {
	v, err := (4 * unit.SquareFoot).Deep(4 * unit.Inch)
	fmt.Println(v, err)
	// Output: 16 bd ft <nil>
}

func ExampleArea_Over() {
	l, err := (18 * unit.SquareFoot).Over(54*unit.Inch, unit.Up)
	fmt.Println(l.Mixed(unit.Yard, unit.Eighths, unit.Up), err)
	// Output: 1 3/8 yd <nil>
}

func ExampleLength_Fits() {
	n, rest, err := (54 * unit.Inch).Fits(12 * unit.Inch)
	fmt.Println(n, rest, err)
	// Output: 4 6 in <nil>
}

func ExampleLength_MulDiv() {
	third, err := (10 * unit.Inch).MulDiv(1, 3, unit.Down)
	fmt.Println(third.Decimal(unit.Inch, 3, unit.Down), err)
	// Output: 3.333 in <nil>
}

func ExampleLength_Scale() {
	withEase, err := (50 * unit.Inch).Scale(105*unit.Percent, unit.Up)
	fmt.Println(withEase, err)
	// Output: 52 1/2 in <nil>
}

func ExampleDensity_Mass() {
	v, err := (4 * unit.SquareFoot).Deep(4 * unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	m, err := (2.8 * unit.PoundPerCubicFoot).Mass(v)
	fmt.Println(m.Decimal(unit.Pound, 2, unit.Nearest), err)
	// Output: 3.73 lb <nil>
}

func ExampleLinearDensity_MetricCount() {
	n, err := (25 * unit.Tex).MetricCount()
	fmt.Println(n, err)
	// Output: 40 <nil>
}

func ExampleDuration() {
	d, err := unit.ParseDuration("14.5 h")
	fmt.Println(d, err)
	// Output: 14 h 30 min <nil>
}

func ExampleRatio() {
	r, err := unit.ParseRatio("2.5 %")
	fmt.Println(float64(r), r, err)
	// Output: 0.025 2.5 % <nil>
}

func ExampleInField() {
	_, err := unit.ParseLength("25")
	fmt.Println(unit.InField("pieces[2]", unit.InField("width", err)))
	// Output: pieces[2].width: “25”: unit missing; want one of: in, ft, yd, mm, cm, m, mil, um, nm
}

func ExampleLength_MarshalText() {
	out, err := json.Marshal(map[string]unit.Length{"width": 54 * unit.Inch})
	fmt.Println(string(out), err)
	// Output: {"width":"54 in"} <nil>
}

func ExampleLength_Yardage() {
	for _, l := range []unit.Length{333 * unit.Inch, 708 * unit.Inch, 325 * unit.Inch} {
		fmt.Println(l.Yardage(unit.Up))
	}
	// Output:
	// 9 1/4 yd
	// 19 2/3 yd
	// 9 1/8 yd
}
