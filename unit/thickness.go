package unit

import (
	"math/big"
	"slices"
)

// Leather is measured in ounces (1/64 in, exact: LeatherOunce) and sole
// leather in irons (1/48 in, not a whole nanometre).

var thicknessMeasure = newMeasure("thickness", "3 oz, 1.2 mm or 1/16 in",
	slices.Concat(lengthRows, []unitRow{
		units(int64(LeatherOunce), 1, "oz|ounce|ounces"),
		units(int64(Inch), 48, "iron|irons"),
	})...)

// ParseThickness reads a leather thickness: any length, ounces (1/64 in each,
// ASTM D1814) or irons (1/48 in each). "3 oz" is a length here, a mass
// elsewhere. Errors are those of [ParseLength].
func ParseThickness(s string) (Length, error) {
	n, err := thicknessMeasure.exact(s)
	return Length(n), err
}

// IronsOf gives a thickness of count irons (1/48 in each), to the nearest
// nanometre. It wraps ErrNotFinite or ErrOverflow.
func IronsOf(count float64) (Length, error) {
	n, err := ofFloat(count, big.NewRat(int64(Inch), 48), "thickness")
	return Length(n), err
}

// Irons gives l in irons of 1/48 in.
func (l Length) Irons() float64 { return l.Inches() * 48 }

// Forgotten tells whether l is so small that its unit was surely forgotten:
// not zero and under 10 micrometres either way.
func (l Length) Forgotten() bool { return l != 0 && l > -10*Micrometre && l < 10*Micrometre }
