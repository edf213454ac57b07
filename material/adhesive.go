package material

import (
	"math/big"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// AdhesiveCaution goes on every order that has adhesive on it.
const AdhesiveCaution = "Read the safety data sheet. Work in moving air, away from flames, pilot lights and sparks, " +
	"let solvents go before the cover is closed, and follow the rules for solvents where you are."

// Adhesive is spray or contact adhesive for a job. The zero value is refused.
type Adhesive struct {
	Area unit.Area `json:"area"` // to be glued
	// Faces that are coated: 1 or 2; zero takes 2, as contact adhesive needs.
	Faces int `json:"faces,omitzero"`
	// Coverage is the area one container covers once, as its maker states.
	Coverage unit.Area `json:"coverage"`
}

// AdhesiveOrder is the adhesive to buy.
type AdhesiveOrder struct {
	Coated     unit.Area `json:"coated"` // area × faces
	Containers int       `json:"containers"`
	Caution    string    `json:"caution"` // always AdhesiveCaution
}

// Order gives containers = ceil(area × faces / coverage). Errors name the
// field and wrap unit.ErrRange.
func (a Adhesive) Order() (AdhesiveOrder, error) {
	if a.Faces == 0 {
		a.Faces = 2
	}
	if err := check.Count("faces", a.Faces, 1, 2); err != nil {
		return AdhesiveOrder{}, err
	}
	if err := check.Between("area", a.Area, unit.SquareMillimetre, 10_000*unit.SquareMetre); err != nil {
		return AdhesiveOrder{}, err
	}
	if err := check.Between("coverage", a.Coverage, unit.SquareDecimetre, 10_000*unit.SquareMetre); err != nil {
		return AdhesiveOrder{}, err
	}
	o := AdhesiveOrder{Coated: a.Area * unit.Area(a.Faces), Caution: AdhesiveCaution}
	n := new(big.Int).Add(big.NewInt(int64(o.Coated)), big.NewInt(int64(a.Coverage)-1))
	o.Containers = int(n.Div(n, big.NewInt(int64(a.Coverage))).Int64())
	return o, nil
}
