package nocompile

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/unit"
)

func pairing(perYard cost.LengthPrice, perHour cost.HourPrice) {
	_ = rate.BreakEven[unit.Duration]{Price: perHour, Variable: perHour}
	_ = rate.BreakEven[unit.Duration]{Price: perHour, Variable: perYard} // ERROR "cannot use perYard .* as .*Price\[.*unit\.Duration\]"
	_ = rate.WorkYear{Paid: 2080 * unit.Yard}                            // ERROR "cannot use .*Yard.* as unit\.Duration"
}
