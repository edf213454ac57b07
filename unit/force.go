package unit

// Force is a force in newtons. The zero value is no force.
type Force float64

// Units of force. A pound-force is a pound times standard gravity,
// 9.806 65 m/s² (NIST SP 811, B.8): exactly 4.448 221 615 260 5 N.
const (
	Newton        Force = 1
	Kilonewton    Force = 1000
	Centinewton   Force = 0.01
	PoundForce    Force = 4.4482216152605
	KilogramForce Force = 9.80665
)

var forceSymbols = map[Force]string{Newton: "N", Kilonewton: "kN", Centinewton: "cN", PoundForce: "lbf", KilogramForce: "kgf"}

var forceMeasure = newMeasure("force", `30 lbf`,
	units(1, 1, "N|newton|newtons"),
	units(44482216152605, 10_000_000_000_000, "lbf|lb-f|pound-force|pounds-force|pounds force|pound force"),
	units(44482216152605, 160_000_000_000_000, "ozf|oz-f|ounce-force"),
	units(980665, 100_000, "kgf|kilogram-force|kilograms-force"),
	units(980665, 100_000_000, "gf|gram-force"),
	units(1000, 1, "kN|kilonewton|kilonewtons"),
	units(1, 100, "cN|centinewton|centinewtons"),
)

// ParseForce reads a force, such as 30 lbf, to the nearest float64.
// Errors are *InputError values that wrap ErrSyntax, ErrMissingUnit,
// ErrUnknownUnit, ErrDecimalComma or ErrOverflow.
func ParseForce(s string) (Force, error) {
	x, err := forceMeasure.float(s)
	return Force(x), err
}

// ForceOf gives count times u. It wraps ErrNotFinite.
func ForceOf(count float64, u Force) (Force, error) {
	return checked(Force(count) * u)
}

// Check gives nil for a finite value, else an error that wraps ErrNotFinite.
func (f Force) Check() error { return finite(float64(f), "force") }

// Newtons gives f in that unit.
func (f Force) Newtons() float64 { return float64(f) }

// PoundsForce gives f in that unit.
func (f Force) PoundsForce() float64 { return float64(f / PoundForce) }

// KilogramsForce gives f in that unit.
func (f Force) KilogramsForce() float64 { return float64(f / KilogramForce) }

// Centinewtons gives f in that unit.
func (f Force) Centinewtons() float64 { return float64(f / Centinewton) }

// Decimal writes f in the given unit, one of the constants of this package,
// with places digits (0 to 15) after the point. Digits beyond the fifteenth
// significant one are noise of the float64 and do not count.
// What is no such unit or number of places gives the text of String.
func (f Force) Decimal(u Force, places int, r Rounding) string {
	sym, ok := forceSymbols[u]
	if ok {
		if text, ok := floatDecimal(float64(f), float64(u), 0, places, r, sym); ok {
			return text
		}
	}
	return f.String()
}

// forceUnits are those of String.
var forceUnits = []scaleUnit{{float64(Newton), "N"}, {float64(PoundForce), "lbf"}}

// String writes f for people: to five digits, in N or lbf, whichever it is a
// round number of. MarshalText loses nothing.
func (f Force) String() string {
	var buf [40]byte
	return string(appendMeasured(buf[:0], float64(f), "N", forceUnits))
}

// AppendText writes f to the end of b without loss, in N. It wraps
// ErrNotFinite.
func (f Force) AppendText(b []byte) ([]byte, error) {
	return appendExact(b, float64(f), "N", f.Check())
}

// MarshalText writes f without loss, in N. It wraps ErrNotFinite.
func (f Force) MarshalText() ([]byte, error) { return f.AppendText(make([]byte, 0, usual)) }

// UnmarshalText reads f as ParseForce does.
func (f *Force) UnmarshalText(text []byte) error {
	x, err := ParseForce(string(text))
	if err == nil {
		*f = x
	}
	return err
}
