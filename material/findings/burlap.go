package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Burlap is a weight of burlap in use. The trade's ounces are those of a yard
// of 40 in cloth, see [BurlapWeight].
type Burlap struct {
	Yard  unit.Mass  `json:"yard"` // mass of a yard of 40 in cloth
	Use   string     `json:"use,omitempty"`
	Basis cite.Basis `json:"basis"`
}

// Burlaps lists the weights in use, lightest first.
func Burlaps() []Burlap {
	row := func(halfOunces unit.Mass, use string, basis cite.Basis) Burlap {
		return Burlap{(unit.Pound*halfOunces + 16) / 32, use, basis}
	}
	stuffing := cite.In("UPHOLSTERY-FOR-SCHOOLS", "")
	class := cite.In("CCC-C-467C", "1.2.1, a class")
	return []Burlap{
		row(12, "over stuffing", stuffing), row(15, "", class), row(16, "over stuffing", stuffing), row(16, "", class),
		row(20, "over springs", stuffing), row(20, "", class), row(24, "over springs", stuffing), row(24, "", class),
	}
}

// BurlapWeight gives the mass per area of burlap named by the mass of a running
// yard at a width:
//
//	mass per yard / (width × 36 in)
//
// A weight without a width is ambiguous: the trade's 10 oz, of a yard 40 in wide,
// is 9 oz/sq yd. Over coils burlap must be smooth and not pull them down; the
// twine carries the load. Yards from 10 g to 10 kg, widths from 10 mm to 10 m.
// Errors name the field and wrap unit.ErrRange or unit.ErrForgottenUnit.
func BurlapWeight(yard unit.Mass, width unit.Length) (unit.AreaDensity, error) {
	if err := check.Between("yard", yard, 10*unit.Gram, 10*unit.Kilogram); err != nil {
		return 0, err
	}
	if err := check.Length("width", width, unit.Centimetre, widest); err != nil {
		return 0, err
	}
	return unit.AreaDensity(yard.Kilograms() / (width.Metres() * unit.Yard.Metres())), nil
}
