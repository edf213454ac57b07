package unit

// Density is a mass per volume in kilograms per cubic metre. The zero value is
// no density.
type Density float64

// Units of density. A pound per cubic foot is 16.018 463 373 96… kg/m³.
const (
	KilogramPerCubicMetre  Density = 1
	GramPerCubicCentimetre Density = 1000
	PoundPerCubicFoot      Density = 0.45359237 / 0.028316846592
)

var densitySymbols = map[Density]string{KilogramPerCubicMetre: "kg/m3", GramPerCubicCentimetre: "g/cm3", PoundPerCubicFoot: "lb/ft3"}

var densityMeasure = newMeasure("density", `2.8 lb/ft3`,
	units(1, 1, "kg/m3|kilograms per cubic metre|kilograms per cubic meter|g/l"),
	units(453_592_370_000, 28_316_846_592, "lb/ft3|lb/cu ft|lbs/ft3|pcf|pounds per cubic foot|pound per cubic foot"),
	units(1000, 1, "g/cm3|g/cc"),
	units(453_592_370_000, 16_387_064, "lb/in3"),
	units(453_592_370_000, 16*16_387_064, "oz/in3"),
	units(453_592_370_000, 764_554_857_984, "lb/yd3"),
)

// ParseDensity reads a density, such as 2.8 lb/ft3, to the nearest float64.
// Errors are *InputError values that wrap ErrSyntax, ErrMissingUnit,
// ErrUnknownUnit, ErrDecimalComma or ErrOverflow.
func ParseDensity(s string) (Density, error) {
	x, err := densityMeasure.float(s)
	return Density(x), err
}

// DensityOf gives count times u. It wraps ErrNotFinite.
func DensityOf(count float64, u Density) (Density, error) {
	return checked(Density(count) * u)
}

// Check gives nil for a finite value, else an error that wraps ErrNotFinite.
func (d Density) Check() error { return finite(float64(d), "density") }

// KilogramsPerCubicMetre gives d in that unit.
func (d Density) KilogramsPerCubicMetre() float64 { return float64(d) }

// PoundsPerCubicFoot gives d in that unit.
func (d Density) PoundsPerCubicFoot() float64 { return float64(d / PoundPerCubicFoot) }

// Decimal writes d in the given unit, one of the constants of this package,
// with places digits (0 to 15) after the point. Digits beyond the fifteenth
// significant one are noise of the float64 and do not count.
// What is no such unit or number of places gives the text of String.
func (d Density) Decimal(u Density, places int, r Rounding) string {
	sym, ok := densitySymbols[u]
	if ok {
		if text, ok := floatDecimal(float64(d), float64(u), 0, places, r, sym); ok {
			return text
		}
	}
	return d.String()
}

// densityUnits are those of String.
var densityUnits = []scaleUnit{{float64(KilogramPerCubicMetre), "kg/m3"}, {float64(PoundPerCubicFoot), "lb/ft3"}}

// String writes d for people: to five digits, in kg/m3 or lb/ft3, whichever it is a
// round number of. MarshalText loses nothing.
func (d Density) String() string {
	var buf [40]byte
	return string(appendMeasured(buf[:0], float64(d), "kg/m3", densityUnits))
}

// AppendText writes d to the end of b without loss, in kg/m3. It wraps
// ErrNotFinite.
func (d Density) AppendText(b []byte) ([]byte, error) {
	return appendExact(b, float64(d), "kg/m3", d.Check())
}

// MarshalText writes d without loss, in kg/m3. It wraps ErrNotFinite.
func (d Density) MarshalText() ([]byte, error) { return d.AppendText(make([]byte, 0, usual)) }

// UnmarshalText reads d as ParseDensity does.
func (d *Density) UnmarshalText(text []byte) error {
	x, err := ParseDensity(string(text))
	if err == nil {
		*d = x
	}
	return err
}
