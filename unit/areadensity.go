package unit

// AreaDensity is the weight of a cloth or batting: mass per area in kilograms
// per square metre. The zero value is none.
type AreaDensity float64

// Units of mass per area. An ounce per square yard is 33.905 747… g/m².
const (
	KilogramPerSquareMetre AreaDensity = 1
	GramPerSquareMetre     AreaDensity = 0.001
	OuncePerSquareYard     AreaDensity = 0.45359237 / 16 / 0.83612736
	OuncePerSquareFoot     AreaDensity = 0.45359237 / 16 / 0.09290304
)

var areaDensitySymbols = map[AreaDensity]string{KilogramPerSquareMetre: "kg/m2", GramPerSquareMetre: "g/m2", OuncePerSquareYard: "oz/yd2", OuncePerSquareFoot: "oz/ft2"}

var areaDensityMeasure = newMeasure("mass per area", `12 oz/yd2`,
	units(1, 1, "kg/m2"),
	units(1, 1000, "g/m2|gsm|grams per square metre|grams per square meter"),
	units(45_359_237, 16*83_612_736, "oz/yd2|oz/sq yd|osy|ounces per square yard"),
	units(45_359_237, 16*9_290_304, "oz/ft2|oz/sq ft|ounces per square foot"),
)

// ParseAreaDensity reads a mass per area, such as 12 oz/yd2, to the nearest float64.
// Errors are *InputError values that wrap ErrSyntax, ErrMissingUnit,
// ErrUnknownUnit, ErrDecimalComma or ErrOverflow.
func ParseAreaDensity(s string) (AreaDensity, error) {
	x, err := areaDensityMeasure.float(s)
	return AreaDensity(x), err
}

// AreaDensityOf gives count times u. It wraps ErrNotFinite.
func AreaDensityOf(count float64, u AreaDensity) (AreaDensity, error) {
	return checked(AreaDensity(count) * u)
}

// Check gives nil for a finite value, else an error that wraps ErrNotFinite.
func (d AreaDensity) Check() error { return finite(float64(d), "mass per area") }

// GramsPerSquareMetre gives d in that unit.
func (d AreaDensity) GramsPerSquareMetre() float64 { return float64(d / GramPerSquareMetre) }

// OuncesPerSquareYard gives d in that unit.
func (d AreaDensity) OuncesPerSquareYard() float64 { return float64(d / OuncePerSquareYard) }

// Decimal writes d in the given unit, one of the constants of this package,
// with places digits (0 to 15) after the point. Digits beyond the fifteenth
// significant one are noise of the float64 and do not count.
// What is no such unit or number of places gives the text of String.
func (d AreaDensity) Decimal(u AreaDensity, places int, r Rounding) string {
	sym, ok := areaDensitySymbols[u]
	if ok {
		if text, ok := floatDecimal(float64(d), float64(u), 0, places, r, sym); ok {
			return text
		}
	}
	return d.String()
}

// areaDensityUnits are those of String.
var areaDensityUnits = []scaleUnit{{float64(GramPerSquareMetre), "g/m2"}, {float64(OuncePerSquareYard), "oz/yd2"}}

// String writes d for people: to five digits, in g/m2 or oz/yd2, whichever it is a
// round number of. MarshalText loses nothing.
func (d AreaDensity) String() string {
	var buf [40]byte
	return string(appendMeasured(buf[:0], float64(d), "kg/m2", areaDensityUnits))
}

// AppendText writes d to the end of b without loss, in kg/m2. It wraps
// ErrNotFinite.
func (d AreaDensity) AppendText(b []byte) ([]byte, error) {
	return appendExact(b, float64(d), "kg/m2", d.Check())
}

// MarshalText writes d without loss, in kg/m2. It wraps ErrNotFinite.
func (d AreaDensity) MarshalText() ([]byte, error) { return d.AppendText(make([]byte, 0, usual)) }

// UnmarshalText reads d as ParseAreaDensity does.
func (d *AreaDensity) UnmarshalText(text []byte) error {
	x, err := ParseAreaDensity(string(text))
	if err == nil {
		*d = x
	}
	return err
}
