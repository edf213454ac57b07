package thread

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// ConeLength gives the thread on a cone of a net mass, 1 g to 10 kg:
//
//	length = mass / finished count
//
// The count on the label would promise 3 to 15 % too much. It wraps
// unit.ErrUnknown or unit.ErrRange.
func ConeLength(s Size, net unit.Mass) (unit.Length, error) {
	if err := s.check("size"); err != nil {
		return 0, err
	}
	if err := check.Between("net", net, unit.Gram, 10*unit.Kilogram); err != nil {
		return 0, err
	}
	return s.Finished().Length(net)
}

// Bobbin is a straight winding between two flanges.
type Bobbin struct {
	Outer unit.Length `json:"outer"` // diameter of the full winding, up to 1 m
	Core  unit.Length `json:"core"`  // diameter of the core, less than Outer
	Width unit.Length `json:"width"` // between the flanges, up to 1 m
	// Wound is the density of the winding, 100 to 1500 kg/m³; see
	// WoundDensities, or weigh one full bobbin.
	Wound unit.Density `json:"wound"`
}

// Volume gives the volume of the winding,
//
//	V = π / 4 (D² - d²) w
//
// to the nearest nanolitre. It wraps unit.ErrRange or unit.ErrForgottenUnit.
func (b Bobbin) Volume() (unit.Volume, error) {
	if err := check.Length("outer", b.Outer, unit.Millimetre, unit.Metre); err != nil {
		return 0, err
	}
	if err := check.Length("core", b.Core, 0, b.Outer-unit.Millimetre/10); err != nil {
		return 0, err
	}
	if err := check.Length("width", b.Width, unit.Millimetre, unit.Metre); err != nil {
		return 0, err
	}
	d, c := b.Outer.Millimetres(), b.Core.Millimetres()
	mm3 := math.Pi / 4 * (float64(d*d) - float64(c*c)) * b.Width.Millimetres()
	return unit.Volume(math.Round(mm3 * float64(unit.CubicMillimetre))), nil
}

// Holds gives the thread on a full bobbin,
//
//	L = ρ V / T
//
// with ρ the density of the winding and T the finished count. It wraps
// unit.ErrRange, unit.ErrNotFinite or unit.ErrUnknown.
func (b Bobbin) Holds(s Size) (unit.Length, error) {
	if err := s.check("size"); err != nil {
		return 0, err
	}
	v, err := b.Volume()
	if err != nil {
		return 0, err
	}
	if err := check.Between("wound", b.Wound, 100*unit.KilogramPerCubicMetre, 1500*unit.KilogramPerCubicMetre); err != nil {
		return 0, err
	}
	m, _ := b.Wound.Mass(v) //nolint:errcheck // within the limits, not much over a tonne
	return s.Finished().Length(m)
}

// WoundDensity is the density of a winding.
type WoundDensity struct {
	Winding string       `json:"winding"`
	From    unit.Density `json:"from"`
	To      unit.Density `json:"to"`
	Basis   cite.Basis   `json:"basis"`
}

var woundDensities = []WoundDensity{
	{"bobbin wound on the machine", 600 * unit.KilogramPerCubicMetre, 800 * unit.KilogramPerCubicMetre, memory("unverified: weigh a full bobbin")},
	{"soft package for dyeing", 330 * unit.KilogramPerCubicMetre, 460 * unit.KilogramPerCubicMetre, practice("")},
}

// WoundDensities lists densities of windings.
func WoundDensities() []WoundDensity { return slices.Clone(woundDensities) }
