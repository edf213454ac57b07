package foam

import (
	"slices"

	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Grade is a foam as a merchant lists it.
type Grade struct {
	Name    string       `json:"name"`
	Density unit.Density `json:"density"`
	IFD25   IFD25        `json:"ifd25"`
	IFD65   IFD65        `json:"ifd65,omitzero"` // zero when not known
	// Drains says that it is closed-cell or reticulated: foam for places that get
	// wet.
	Drains bool       `json:"drains,omitempty"`
	Basis  cite.Basis `json:"basis,omitzero"`
}

// Check gives nil for a density of 1 to 250 kg/m³ and an IFD25 in range,
// and an IFD65 that is zero or not below it. It wraps [unit.ErrRange] or
// [ErrImpossibleIFD].
func (g Grade) Check() error {
	if err := checkDensity("density", g.Density); err != nil {
		return err
	}
	if err := checkForce("ifd25", g.IFD25); err != nil {
		return err
	}
	if g.IFD65 != 0 {
		if _, err := SupportFactor(g.IFD25, g.IFD65); err != nil {
			return err
		}
	}
	return nil
}

// CautiousSupport is the support factor assumed for a grade whose IFD65 is not
// known: the low end of the usual 1.8 to 3.5, so that sitting depth is not
// made to look better than it is.
const CautiousSupport unit.Ratio = 1.8

// support gives the grade's support factor, assumed when IFD65 is not known.
func (g *Grade) support() (s unit.Ratio, assumed bool) {
	if g.IFD65 == 0 {
		return CautiousSupport, true
	}
	return unit.Ratio(float64(g.IFD65) / float64(g.IFD25)), false
}

// curve is the load-deflection curve of a checked grade.
func (g *Grade) curve() Curve {
	if s, assumed := g.support(); assumed {
		return Curve{IFD25: g.IFD25, IFD65: IFD65(float64(g.IFD25) * float64(s))}
	}
	return Curve{IFD25: g.IFD25, IFD65: g.IFD65}
}

// ExampleGrades gives nominal grades of the kind foam merchants stock, named by
// density and firmness. They are examples, from memory: give Select the list of
// your own supplier.
func ExampleGrades() []Grade { return slices.Clone(exampleGrades[:]) }

var exampleGrades = [...]Grade{
	example("1.2 lb 15", 1.2, 15), example("1.5 lb 18", 1.5, 18), example("1.5 lb 30", 1.5, 30),
	example("1.8 lb 28", 1.8, 28), example("1.8 lb 33", 1.8, 33), example("1.8 lb 40", 1.8, 40),
	example("1.8 lb 50", 1.8, 50), example("1.8 lb 60", 1.8, 60),
	example("2.2 lb 28", 2.2, 28), example("2.2 lb 33", 2.2, 33), example("2.2 lb 40", 2.2, 40),
	example("2.2 lb 50", 2.2, 50), example("2.2 lb 60", 2.2, 60),
	example("2.5 lb 35", 2.5, 35), example("2.8 lb 41", 2.8, 41), example("2.8 lb 50", 2.8, 50), example("2.8 lb 60", 2.8, 60),
}

// example is a grade in lb/ft³ and lbf.
func example(name string, density, ifd float64) Grade {
	return Grade{Name: name, Density: poundsPerCubicFoot(density, density).Low, IFD25: poundsForce(ifd, ifd).Low, Basis: memory}
}
