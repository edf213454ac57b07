package nocompile

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

func pairing(perYard cost.LengthPrice, perFoot cost.AreaPrice, perHour cost.HourPrice, perBoardFoot cost.VolumePrice) {
	_ = cost.Item[unit.Length]{Quantity: 3 * unit.Yard, Price: perYard}
	_ = cost.Item[unit.Length]{Quantity: 3 * unit.Yard, Price: perFoot} // ERROR "cannot use perFoot .* as .*Price\[.*unit\.Length\]"
	_ = cost.Item[unit.Area]{Quantity: 3 * unit.Yard, Price: perFoot}   // ERROR "cannot use .*Yard.* as unit\.Area"
	_ = cost.Item[unit.Volume]{Quantity: 48 * unit.SquareFoot}          // ERROR "cannot use .*SquareFoot.* as unit\.Volume"
	_, _ = perYard.Of(48*unit.SquareFoot, cost.HalfUp)                  // ERROR "cannot use .*SquareFoot.* as unit\.Length"
	_, _ = perFoot.Of(7*unit.Yard, cost.HalfUp)                         // ERROR "cannot use .*Yard.* as unit\.Area"
	_, _ = perHour.Of(7*unit.Yard, cost.HalfUp)                         // ERROR "cannot use .*Yard.* as unit\.Duration"
	_, _ = perBoardFoot.Of(7*unit.Pound, cost.HalfUp)                   // ERROR "cannot use .*Pound.* as unit\.Volume"
}
