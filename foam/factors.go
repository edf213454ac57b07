package foam

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Plate is the area of the indentor plate of ASTM D3574, test B1: 50 in²,
// 322.58 cm².
const Plate = 50 * unit.SquareInch

// PlateDiameter gives the plate's diameter, √(4·50 in²/π): 202.66 mm. A true
// 8 in disc has 0.5 % more area, a 200 mm disc 2.6 % less.
func PlateDiameter() unit.Length {
	l, _ := metres(math.Sqrt(4 * Plate.SquareMetres() / math.Pi)) //nolint:errcheck // a constant in range
	return l
}

// SupportFactor gives s = IFD65 / IFD25, also called sag factor, comfort
// factor or compression modulus. A foam with a high factor is soft to the
// touch and still does not bottom out. Both forces must be 0.1 N to 10 kN; it wraps
// [unit.ErrRange], or [ErrImpossibleIFD] when i65 is below i25.
func SupportFactor(i25 IFD25, i65 IFD65) (unit.Ratio, error) {
	if err := checkForce("ifd25", i25); err != nil {
		return 0, err
	}
	if err := checkForce("ifd65", i65); err != nil {
		return 0, err
	}
	if i65.Force() < i25.Force() {
		return 0, check.Refuse("ifd65", i65.String(), ErrImpossibleIFD, "at least the force at 25 %, "+i25.String())
	}
	return unit.Ratio(float64(i65) / float64(i25)), nil
}

// IFD65Of gives IFD65 = s × IFD25 for a support factor s of 1 to 10.
func IFD65Of(i25 IFD25, s unit.Ratio) (IFD65, error) {
	if err := checkForce("ifd25", i25); err != nil {
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
	if err := checkForce("ifd25", i25); err != nil {
		return 0, err
	}
	if err := checkDensity("density", d); err != nil {
		return 0, err
	}
	return unit.Ratio(i25.PoundsForce() / d.PoundsPerCubicFoot()), nil
}

// Densest is the highest density accepted, 250 kg/m³: the limit of the
// compression test of ISO 3386-1 for low-density foam. The lowest is 1 kg/m³.
const Densest = 250 * unit.KilogramPerCubicMetre

func checkDensity(field string, d unit.Density) error {
	return check.Between(field, d, unit.KilogramPerCubicMetre, Densest)
}

// FoamDensities gives what has been said of the densities that flexible
// polyurethane foam is made in.
func FoamDensities() []Figure[unit.Density] {
	return []Figure[unit.Density]{
		{About: "polyurethane foam, typical", Range: Range[unit.Density]{Low: 15, High: 100},
			Basis: cite.Basis{Status: cite.Published, Source: "NZ-TOUCHSTONE"}},
		{About: "flexible polyurethane foam", Range: poundsPerCubicFoot(0.5, 6), Basis: custom},
		{About: "polyether foam", Range: poundsPerCubicFoot(1, 4), Basis: custom},
	}
}
