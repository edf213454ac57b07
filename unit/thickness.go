package unit

import (
	"slices"
	"strconv"
	"strings"
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
// elsewhere. "3/4 oz" is refused, since the trade writes a range of 3 to 4 oz
// that way. Errors are those of [ParseLength].
func ParseThickness(s string) (Length, error) {
	n, err := thicknessMeasure.exact(s)
	if err == nil && isOunceRange(s) {
		return 0, &InputError{Value: s, Err: ErrSyntax, Want: "one thickness: 3.5 oz for leather of 3 to 4 oz, or 0.75 oz"}
	}
	return Length(n), err
}

// isOunceRange tells whether s looks like 3/4 oz: two numbers that follow each
// other, and ounces.
func isOunceRange(s string) bool {
	lo, rest, ok := strings.Cut(normalised(s), "/")
	if !ok || !strings.Contains(rest, "o") {
		return false
	}
	hi := strings.TrimRight(rest, " .abcdefghijklmnopqrstuvwxyz")
	a, errA := strconv.Atoi(lo)
	b, errB := strconv.Atoi(hi)
	return errA == nil && errB == nil && b == a+1 && strings.HasPrefix(strings.TrimLeft(rest[len(hi):], " "), "o")
}

// IronsOf gives a thickness of count irons (1/48 in each), to the nearest
// nanometre. It wraps ErrNotFinite or ErrOverflow.
func IronsOf(count float64) (Length, error) {
	n, err := ofFloat(count, int64(Inch), 48, "thickness")
	return Length(n), err
}

// Irons gives l in irons of 1/48 in.
func (l Length) Irons() float64 { return l.Inches() * 48 }
