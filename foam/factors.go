package foam

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Plate is the area of the indentor plate of ASTM D3574, test B1: 50 in²,
// 322.58 cm².
const Plate = 50 * unit.SquareInch

// SupportFactor gives s = IFD65 / IFD25, also called sag factor, comfort
// factor or compression modulus. A foam with a high factor is soft to the
// touch and still does not bottom out. Both forces must be above zero; it wraps
// [unit.ErrRange], or [ErrImpossibleIFD] when i65 is below i25.
func SupportFactor(i25 IFD25, i65 IFD65) (unit.Ratio, error) {
	if err := check.Above("ifd25", i25, IFD25(firmest)); err != nil {
		return 0, err
	}
	if err := check.Above("ifd65", i65, IFD65(firmest)); err != nil {
		return 0, err
	}
	if i65.Force() < i25.Force() {
		return 0, check.Refuse("ifd65", i65.String(), ErrImpossibleIFD, "at least the force at 25 %, "+i25.String())
	}
	return unit.Ratio(float64(i65) / float64(i25)), nil
}

// IFD65Of gives IFD65 = s × IFD25 for a support factor s of 1 to 10.
func IFD65Of(i25 IFD25, s unit.Ratio) (IFD65, error) {
	if err := check.Above("ifd25", i25, IFD25(firmest)); err != nil {
		return 0, err
	}
	if err := check.Ratio("support", s, 1, 10); err != nil {
		return 0, err
	}
	return IFD65(float64(i25) * float64(s)), nil
}

// GuideFactor gives IFD25 in lbf divided by density in lb/ft³: how firm a foam
// is for its weight. It is a bare number of the American trade.
func GuideFactor(i25 IFD25, d unit.Density) (unit.Ratio, error) {
	if err := check.Above("ifd25", i25, IFD25(firmest)); err != nil {
		return 0, err
	}
	if err := checkDensity("density", d); err != nil {
		return 0, err
	}
	return unit.Ratio(i25.PoundsForce() / d.PoundsPerCubicFoot()), nil
}

// densest is the highest density of flexible foam accepted, 250 kg/m³: the
// limit of ISO 3386-1.
const densest = 250 * unit.KilogramPerCubicMetre

func checkDensity(field string, d unit.Density) error { return check.Above(field, d, densest) }
