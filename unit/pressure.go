package unit

// Pressure is a force per area in pascals. The zero value is no pressure.
type Pressure float64

// Units of pressure. A psi is a pound-force on a square inch of
// 0.000 645 16 m²: 6894.757 293 168 36… Pa.
const (
	Pascal             Pressure = 1
	Kilopascal         Pressure = 1e3
	Megapascal         Pressure = 1e6
	PoundPerSquareInch Pressure = 4.4482216152605 / 0.00064516
	PoundPerSquareFoot Pressure = 4.4482216152605 / 0.09290304
)

var pressureSymbols = map[Pressure]string{Pascal: "Pa", Kilopascal: "kPa", Megapascal: "MPa", PoundPerSquareInch: "psi", PoundPerSquareFoot: "psf"}

var pressureMeasure = newMeasure("pressure", `4.1 kPa`,
	units(1, 1, "Pa|pascal|pascals"),
	units(1000, 1, "kPa|kilopascal|kilopascals"),
	units(1_000_000, 1, "MPa|megapascal|megapascals|N/mm2"),
	units(44482216152605, 6_451_600_000, "psi|lbf/in2|lb/in2|pounds per square inch"),
	units(44482216152605, 929_030_400_000, "psf|lbf/ft2|pounds per square foot"),
	units(980665, 10, "kgf/cm2"),
)

// ParsePressure reads a pressure, such as 4.1 kPa, to the nearest float64.
// Errors are *InputError values that wrap ErrSyntax, ErrMissingUnit,
// ErrUnknownUnit, ErrDecimalComma or ErrOverflow.
func ParsePressure(s string) (Pressure, error) {
	x, err := pressureMeasure.float(s)
	return Pressure(x), err
}

// PressureOf gives count times u. It wraps ErrNotFinite.
func PressureOf(count float64, u Pressure) (Pressure, error) {
	return checked(Pressure(count) * u)
}

// Check gives nil for a finite value, else an error that wraps ErrNotFinite.
func (p Pressure) Check() error { return finite(float64(p), "pressure") }

// Pascals gives p in that unit.
func (p Pressure) Pascals() float64 { return float64(p) }

// Kilopascals gives p in that unit.
func (p Pressure) Kilopascals() float64 { return float64(p / Kilopascal) }

// PoundsPerSquareInch gives p in that unit.
func (p Pressure) PoundsPerSquareInch() float64 { return float64(p / PoundPerSquareInch) }

// Decimal writes p in the given unit, one of the constants of this package,
// with places digits (0 to 15) after the point. Digits beyond the fifteenth
// significant one are noise of the float64 and do not count.
// What is no such unit or number of places gives the text of String.
func (p Pressure) Decimal(u Pressure, places int, r Rounding) string {
	sym, ok := pressureSymbols[u]
	if ok {
		if text, ok := floatDecimal(float64(p), float64(u), 0, places, r, sym); ok {
			return text
		}
	}
	return p.String()
}

// pressureUnits are those of String.
var pressureUnits = []scaleUnit{{float64(Kilopascal), "kPa"}, {float64(PoundPerSquareInch), "psi"}, {float64(Pascal), "Pa"}}

// String writes p for people: to five digits, in kPa, psi or Pa, whichever it is a
// round number of. MarshalText loses nothing.
func (p Pressure) String() string {
	var buf [40]byte
	return string(appendMeasured(buf[:0], float64(p), "Pa", pressureUnits))
}

// AppendText writes p to the end of b without loss, in Pa. It wraps
// ErrNotFinite.
func (p Pressure) AppendText(b []byte) ([]byte, error) {
	return appendExact(b, float64(p), "Pa", p.Check())
}

// MarshalText writes p without loss, in Pa. It wraps ErrNotFinite.
func (p Pressure) MarshalText() ([]byte, error) { return p.AppendText(make([]byte, 0, usual)) }

// UnmarshalText reads p as ParsePressure does.
func (p *Pressure) UnmarshalText(text []byte) error {
	x, err := ParsePressure(string(text))
	if err == nil {
		*p = x
	}
	return err
}
