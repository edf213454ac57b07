package unit

import "math"

// Angle is a plane angle in degrees. The zero value is no angle.
type Angle float64

// Units of angle.
const (
	Degree Angle = 1
	Radian Angle = 180 / math.Pi
	Turn   Angle = 360
)

var angleSymbols = map[Angle]string{Degree: "deg", Radian: "rad", Turn: "turn"}

// radian is Radian in 2^-47 degrees, which is exact.
const radian = int64(float64(Radian) * (1 << 47))

var angleMeasure = newMeasure("angle", `45 deg`,
	units(1, 1, "deg|degree|degrees"),
	units(radian, 1<<47, "rad|radian|radians"),
	units(360, 1, "turn|turns"),
)

// ParseAngle reads an angle, such as 45 deg, to the nearest float64.
// Errors are *InputError values that wrap ErrSyntax, ErrMissingUnit,
// ErrUnknownUnit, ErrDecimalComma or ErrOverflow.
func ParseAngle(s string) (Angle, error) {
	x, err := angleMeasure.float(s)
	return Angle(x), err
}

// AngleOf gives count times u. It wraps ErrNotFinite.
func AngleOf(count float64, u Angle) (Angle, error) {
	return checked(Angle(count) * u)
}

// Check gives nil for a finite value, else an error that wraps ErrNotFinite.
func (a Angle) Check() error { return finite(float64(a), "angle") }

// Degrees gives a in that unit.
func (a Angle) Degrees() float64 { return float64(a) }

// Radians gives a in that unit.
func (a Angle) Radians() float64 { return float64(a / Radian) }

// Decimal writes a in the given unit, one of the constants of this package,
// with places digits (0 to 15) after the point. Digits beyond the fifteenth
// significant one are noise of the float64 and do not count.
// What is no such unit or number of places gives the text of String.
func (a Angle) Decimal(u Angle, places int, r Rounding) string {
	sym, ok := angleSymbols[u]
	if ok {
		if text, ok := floatDecimal(float64(a), float64(u), 0, places, r, sym); ok {
			return text
		}
	}
	return a.String()
}

// angleUnits are those of String.
var angleUnits = []scaleUnit{{float64(Degree), "deg"}}

// String writes a for people: to five digits, in deg. MarshalText loses nothing.
func (a Angle) String() string {
	var buf [40]byte
	return string(appendMeasured(buf[:0], float64(a), "deg", angleUnits))
}

// AppendText writes a to the end of b without loss, in deg. It wraps
// ErrNotFinite.
func (a Angle) AppendText(b []byte) ([]byte, error) {
	return appendExact(b, float64(a), "deg", a.Check())
}

// MarshalText writes a without loss, in deg. It wraps ErrNotFinite.
func (a Angle) MarshalText() ([]byte, error) { return a.AppendText(make([]byte, 0, usual)) }

// UnmarshalText reads a as ParseAngle does.
func (a *Angle) UnmarshalText(text []byte) error {
	x, err := ParseAngle(string(text))
	if err == nil {
		*a = x
	}
	return err
}
