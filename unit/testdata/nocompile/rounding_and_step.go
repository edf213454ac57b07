package nocompile

import "github.com/coverwright/coverwright/unit"

func roundingAndStep(l unit.Length, n int) {
	_ = l.Mixed(unit.Inch, 8, n)               // ERROR "cannot use n .*int.* as unit\.Rounding"
	_ = l.Mixed(unit.Inch, n, unit.Up)         // ERROR "cannot use n .*int.* as unit\.Denominator"
	_ = l.Decimal(unit.SquareInch, 1, unit.Up) // ERROR "cannot use unit\.SquareInch .*unit\.Area.* as unit\.Length"
	_, _ = l.RoundTo(unit.Eighths, unit.Up)    // ERROR "cannot use unit\.Eighths .*unit\.Denominator.* as unit\.Length"
	_, _ = unit.LengthOf(2.5, unit.Kilogram)   // ERROR "cannot use unit\.Kilogram .*unit\.Mass.* as unit\.Length"
	_, _ = unit.SumLengths(l, unit.SquareInch) // ERROR "cannot use unit\.SquareInch .*unit\.Area.* as unit\.Length"
}
