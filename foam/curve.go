package foam

import (
	"errors"
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// What can be wrong with a load.
var (
	// ErrBeyondCurve says a load or depth lies beyond 65 %, where the two test
	// forces say nothing any more.
	ErrBeyondCurve = errors.New("beyond the load-deflection curve")
	// ErrFlatCurve says the forces at 25 and 65 % are equal, so that a force
	// belongs to many depths.
	ErrFlatCurve = errors.New("flat load-deflection curve")
)

// The depths of the two test forces, as shares of the thickness.
const (
	shallow = 0.25
	deep    = 0.65
)

// DeepestStrain is the depth up to which a [Curve] holds: 65 % of the
// thickness. Beyond it the foam is taken as bottomed out.
const DeepestStrain unit.Ratio = deep

// Curve is the load-deflection curve of one foam, drawn through the origin and
// the forces at 25 and 65 %. With ε the share of the thickness pressed in, S
// the support factor IFD65 / IFD25:
//
//	F(ε) = IFD25 · ε/0.25                 0 ≤ ε ≤ 0.25
//	F(ε) = IFD25 · S^((ε − 0.25)/0.40)    0.25 ≤ ε ≤ 0.65
//
// It is monotone for every S of at least 1 and passes exactly through the test
// points; between them it is an interpolation, no measurement. It knows nothing
// of speed, temperature, fatigue or plate size. Loads are taken as pressures on
// the 50 in² plate of the test.
//
// Drawing: foam/doc/curves.svg
type Curve struct {
	IFD25 IFD25 `json:"ifd25"`
	IFD65 IFD65 `json:"ifd65"`
}

// Check gives nil for a curve with both forces above zero and IFD65 not below
// IFD25. It wraps [unit.ErrRange], [unit.ErrNotFinite] or [ErrImpossibleIFD].
func (c Curve) Check() error {
	_, err := SupportFactor(c.IFD25, c.IFD65)
	return err
}

// factor is S of a checked curve.
func (c Curve) factor() float64 { return float64(c.IFD65) / float64(c.IFD25) }

// Force gives the force on the test plate at a depth of 0 to 65 %.
func (c Curve) Force(strain unit.Ratio) (unit.Force, error) {
	if err := c.Check(); err != nil {
		return 0, err
	}
	if err := checkStrain("strain", strain); err != nil {
		return 0, err
	}
	return unit.Force(c.force(float64(strain))), nil
}

func (c Curve) force(e float64) float64 {
	switch {
	case e <= shallow:
		return float64(c.IFD25) * e / shallow
	case e == deep:
		return float64(c.IFD65) // exactly, whatever the rounding of the power
	}
	return float64(c.IFD25) * math.Pow(c.factor(), (e-shallow)/(deep-shallow))
}

// Strain gives the depth under a force on the test plate, the inverse of Force:
//
//	ε(F) = 0.25 · F/IFD25                        F ≤ IFD25
//	ε(F) = 0.25 + 0.40 · ln(F/IFD25) / ln S      IFD25 ≤ F ≤ IFD65
//
// A force above IFD65 is refused with [ErrBeyondCurve], one of at least IFD25
// on a curve with S = 1 with [ErrFlatCurve].
func (c Curve) Strain(f unit.Force) (unit.Ratio, error) {
	if err := c.Check(); err != nil {
		return 0, err
	}
	if err := check.Between("force", f, 0, unit.Force(math.MaxFloat64)); err != nil {
		return 0, err
	}
	if f > c.IFD65.Force() {
		return 0, check.Refuse("force", f.String(), ErrBeyondCurve, "at most the force at 65 %, "+c.IFD65.String())
	}
	if f >= c.IFD25.Force() && c.factor() == 1 {
		return 0, check.Refuse("force", f.String(), ErrFlatCurve, "a support factor above 1")
	}
	return unit.Ratio(c.strain(float64(f))), nil
}

func (c Curve) strain(f float64) float64 {
	i := float64(c.IFD25)
	switch {
	case f <= i:
		return shallow * f / i
	case f >= float64(c.IFD65):
		return deep
	}
	return shallow + float64((deep-shallow)*math.Log(f/i))/math.Log(c.factor())
}

// Pressure gives the mean pressure under the test plate at a depth of 0 to
// 65 %.
func (c Curve) Pressure(strain unit.Ratio) (unit.Pressure, error) {
	f, err := c.Force(strain)
	if err != nil {
		return 0, err
	}
	return f.Over(Plate)
}

// Energy gives the work taken up by each unit of volume when the foam is
// pressed to a depth of 0 to 65 %, the area under the pressure curve. A pascal
// is a joule per cubic metre.
func (c Curve) Energy(strain unit.Ratio) (unit.Pressure, error) {
	if err := c.Check(); err != nil {
		return 0, err
	}
	if err := checkStrain("strain", strain); err != nil {
		return 0, err
	}
	p25, err := c.IFD25.Force().Over(Plate)
	if err != nil {
		return 0, err
	}
	e := float64(strain)
	if e <= shallow {
		return p25 * unit.Pressure(float64(e*e)/(2*shallow)), nil
	}
	area := (e - shallow) // of S^x when S is 1
	if s := c.factor(); s > 1 {
		ln := math.Log(s)
		area = (deep - shallow) / ln * math.Expm1(ln*(e-shallow)/(deep-shallow))
	}
	return p25 * unit.Pressure(shallow/2+area), nil
}

// checkStrain accepts 0 to 65 %.
func checkStrain(field string, e unit.Ratio) error {
	if err := check.Ratio(field, e, 0, 1); err != nil {
		return err
	}
	if e > deep {
		return check.Refuse(field, e.String(), ErrBeyondCurve, "at most 65 %")
	}
	return nil
}

// Curve gives the load-deflection curve of a grade. When IFD65 is not known,
// [CautiousSupport] is assumed and assumed is true.
func (g Grade) Curve() (c Curve, assumed bool, err error) {
	if err := g.Check(); err != nil {
		return Curve{}, false, err
	}
	return g.curve(), g.IFD65 == 0, nil
}
