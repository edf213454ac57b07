package nocompile

import "github.com/coverwright/coverwright/unit"

func cover(a unit.Area) {}

// A product written with * is still a length; the method By gives the area.
func productAsArea(w, d unit.Length) {
	cover(w * d)                    // ERROR "cannot use w \* d .*unit\.Length.* as unit\.Area"
	var a unit.Area = 2 * unit.Inch // ERROR "cannot use 2 \* unit\.Inch .*unit\.Length.* as unit\.Area"
	_ = a
}
