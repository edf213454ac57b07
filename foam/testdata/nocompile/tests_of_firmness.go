package nocompile

import (
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

var (
	force = 30 * unit.PoundForce
	i25   = foam.IFD25(force)
	i65   = foam.IFD65(2 * force)
	iso   = foam.HardnessA(force)
	flat  = foam.Block{Length: unit.Inch, Width: unit.Inch, Thickness: unit.Inch}
)

// A bare force is no firmness figure, and a figure of one test is none of
// another's.
var (
	a foam.IFD25     = force // ERROR "cannot use force .* as foam.IFD25"
	b foam.IFD25     = i65   // ERROR "cannot use i65 .* as foam.IFD25"
	c foam.IFD65     = i25   // ERROR "cannot use i25 .* as foam.IFD65"
	d foam.IFD25     = iso   // ERROR "cannot use iso .* as foam.IFD25"
	e foam.HardnessA = i25   // ERROR "cannot use i25 .* as foam.HardnessA"
)

func swapped() {
	foam.SupportFactor(i65, i65)           // ERROR "cannot use i65"
	foam.SupportFactor(i25, i65, i65)      // ERROR "too many arguments"
	foam.EstimateHardnessA(iso)            // ERROR "cannot use iso"
	foam.MassOf(flat, 2.5*unit.PoundForce) // ERROR "cannot use .* as unit.Density"
	_ = i25 + i65                          // ERROR "mismatched types"
}
