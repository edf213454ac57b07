package unit

import (
	"math/big"
)

// LinearDensity is the mass per length of a yarn or thread in tex: grams per
// 1000 metres. The zero value is none.
type LinearDensity float64

// Units that grow with the thread: tex is g/km, a denier g/9 km.
const (
	Tex     LinearDensity = 1
	Decitex LinearDensity = 0.1
	Denier  LinearDensity = 1.0 / 9
)

var linearDensitySymbols = map[LinearDensity]string{Tex: "tex", Decitex: "dtex", Denier: "den"}

var linearDensityMeasure = func() *measure {
	m := newMeasure("yarn count", `90 tex`,
		unitRow{size: big.NewRat(1, 1), names: "tex|g/km", prefix: true},
		units(1, 10, "dtex|decitex"),
		units(1, 9, "den|denier|deniers"),
		units(1_000_000, 1, "kg/m"),
		units(1, 1, "mg/m"),
		unitRow{size: big.NewRat(1000, 1), names: "Nm|metric count|m/g", inverse: true, prefix: true},
		unitRow{size: cottonTex, names: "Ne|NeC|cotton count|cotton", inverse: true, prefix: true},
		unitRow{size: yardsPerPoundTex, names: "yd/lb|yards per pound|yds/lb|ypp", inverse: true},
	)
	m.plies = true
	return m
}()

// ParseLinearDensity reads a yarn count, such as 90 tex or Nm 40, to the
// nearest float64. A stroke sets off plies: Nm 40/2, two plies of 40, is Nm
// 20; in tex and denier, where the plies add up, a stroke is refused. Errors
// are *InputError values that wrap ErrSyntax, ErrMissingUnit, ErrUnknownUnit,
// ErrDecimalComma or ErrOverflow, or ErrRange for a count of zero.
func ParseLinearDensity(s string) (LinearDensity, error) {
	x, err := linearDensityMeasure.float(s)
	return LinearDensity(x), err
}

// LinearDensityOf gives count times u. It wraps ErrNotFinite.
func LinearDensityOf(count float64, u LinearDensity) (LinearDensity, error) {
	return checked(LinearDensity(count) * u)
}

// Check gives nil for a finite value, else an error that wraps ErrNotFinite.
func (d LinearDensity) Check() error { return finite(float64(d), "yarn count") }

// Tex gives d in that unit.
func (d LinearDensity) Tex() float64 { return float64(d / Tex) }

// Decitex gives d in that unit.
func (d LinearDensity) Decitex() float64 { return float64(d / Decitex) }

// Denier gives d in that unit.
func (d LinearDensity) Denier() float64 { return float64(d / Denier) }

// Decimal writes d in the given unit, one of the constants of this package,
// with places digits (0 to 15) after the point. Digits beyond the fifteenth
// significant one are noise of the float64 and do not count.
func (d LinearDensity) Decimal(u LinearDensity, places int, r Rounding) string {
	sym, ok := linearDensitySymbols[u]
	if !ok || places < 0 || places > maxPlaces || d.Check() != nil {
		return badVerb("LinearDensity.Decimal")
	}
	return floatDecimal(float64(d), float64(u), places, r) + " " + sym
}

// String writes d without loss, in tex.
func (d LinearDensity) String() string { return floatText(float64(d)) + " tex" }

// MarshalText writes d without loss, as String does. It wraps ErrNotFinite.
func (d LinearDensity) MarshalText() ([]byte, error) { return marshalFloat(d.String(), d.Check()) }

// UnmarshalText reads d as ParseLinearDensity does.
func (d *LinearDensity) UnmarshalText(text []byte) error {
	x, err := ParseLinearDensity(string(text))
	if err == nil {
		*d = x
	}
	return err
}
