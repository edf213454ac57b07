package nocompile

import "github.com/coverwright/coverwright/unit"

func seat(width unit.Length) {}

func areaForLength(a unit.Area) {
	seat(a)                  // ERROR "cannot use a .*unit\.Area.* as unit\.Length"
	seat(unit.SquareFoot)    // ERROR "cannot use unit\.SquareFoot .*unit\.Area.* as unit\.Length"
	seat(3 * unit.CubicInch) // ERROR "cannot use 3 \* unit\.CubicInch .*unit\.Volume.* as unit\.Length"
}
