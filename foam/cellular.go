package foam

import (
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Cellular is what the open-cell scaling model of cellular solids says of a
// foam: with R = density / density of the solid,
//
//	modulus       E  = Eₛ · R²
//	plateau       σ  = 0.05 · Eₛ · R²
//	densification εd = 1 − 1.4 · R
//
// The constants are from memory, and firmness at one density varies widely with
// chemistry: use the model for ratios between foams of one kind, never to tell
// IFD from density.
type Cellular struct {
	Modulus       unit.Pressure `json:"modulus"`
	Plateau       unit.Pressure `json:"plateau"`
	Densification unit.Ratio    `json:"densification"` // strain at which the cells are closed
	Kind          cite.Kind     `json:"kind"`
	Basis         cite.Basis    `json:"basis"`
}

// Solid flexible polyurethane, from memory.
const (
	SolidDensity = 1200 * unit.KilogramPerCubicMetre
	SolidModulus = 45 * unit.Megapascal
)

// CellularModel gives the model's figures for a foam of solid flexible
// polyurethane. The density must be 1 to 250 kg/m³.
func CellularModel(d unit.Density) (Cellular, error) {
	if err := checkDensity("density", d); err != nil {
		return Cellular{}, err
	}
	r := float64(d / SolidDensity)
	e := unit.Pressure(float64(SolidModulus) * r * r)
	return Cellular{
		Modulus: e, Plateau: e / 20, Densification: unit.Ratio(1 - float64(1.4*r)),
		Kind: cite.Estimate, Basis: memory,
	}, nil
}
