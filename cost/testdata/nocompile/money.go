package nocompile

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

func money(a, b cost.Money, x float64, n int) {
	_ = a == b                                   // ERROR "cannot be compared|cannot compare"
	_ = a + b                                    // ERROR "operator \+ not defined"
	_ = x * a                                    // ERROR "mismatched types|cannot convert"
	_, _ = cost.NewMoney(x, cost.USD)            // ERROR "cannot use x .*float64.* as string"
	_, _ = cost.MinorUnits(x, cost.USD)          // ERROR "cannot use x .*float64.* as int64"
	_, _ = cost.MinorUnits(12.5, cost.USD)       // ERROR "cannot use 12\.5 .*truncated"
	_, _ = a.Scale(n, cost.HalfUp)               // ERROR "cannot use n .*int.* as unit\.Ratio"
	_, _ = a.Round(unit.Nearest)                 // ERROR "cannot use unit\.Nearest .* as cost\.Rounding"
	_, _ = cost.Per(a, 5*unit.Percent)           // ERROR "Ratio\) does not satisfy|Ratio does not satisfy"
	_, _ = cost.Allocate(a, []float64{0.5, 0.5}) // ERROR "float64\)? does not satisfy"
	_ = cost.Money{amount: 3}                    // ERROR "unknown field|unexported field|cannot refer"
}
