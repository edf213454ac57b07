package nocompile

import "github.com/coverwright/coverwright/unit"

func hem(width unit.Length, stretch unit.Ratio, pull unit.Force) {}

func plainNumber(n int, x float64) {
	hem(n, 0.1, 1)          // ERROR "cannot use n .*int.* as unit\.Length"
	hem(unit.Inch, x, 1)    // ERROR "cannot use x .*float64.* as unit\.Ratio"
	hem(unit.Inch, 0.1, x)  // ERROR "cannot use x .*float64.* as unit\.Force"
	hem(2.5, 0.1, 1)        // ERROR "cannot use 2\.5 .*constant.* as unit\.Length value.*truncated"
	_ = n * unit.Inch       // ERROR "mismatched types int and unit\.Length"
	_ = x * unit.PoundForce // ERROR "mismatched types float64 and unit\.Force"
}
