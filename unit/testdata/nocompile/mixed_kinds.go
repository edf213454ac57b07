package nocompile

import "github.com/coverwright/coverwright/unit"

func mixedKinds(l unit.Length, a unit.Area, v unit.Volume, m unit.Mass, d unit.Duration) {
	_ = l + a                        // ERROR "mismatched types unit\.Length and unit\.Area"
	_ = l < a                        // ERROR "mismatched types unit\.Length and unit\.Area"
	_ = v == m                       // ERROR "mismatched types unit\.Volume and unit\.Mass"
	_ = m + d                        // ERROR "mismatched types unit\.Mass and unit\.Duration"
	_ = unit.Inch + unit.Pound       // ERROR "mismatched types unit\.Length and unit\.Mass"
	_, _ = l.Plus(a)                 // ERROR "cannot use a .*unit\.Area.* as unit\.Length"
	_, _ = a.Deep(a)                 // ERROR "cannot use a .*unit\.Area.* as unit\.Length"
	_, _ = l.By(2 * unit.SquareFoot) // ERROR "cannot use 2 \* unit\.SquareFoot .*unit\.Area.* as unit\.Length"
	l = m                            // ERROR "cannot use m .*unit\.Mass.* as unit\.Length"
}
