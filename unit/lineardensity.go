package unit

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
		unitRow{num: 1, den: 1, names: "tex|g/km", prefix: true},
		units(1, 10, "dtex|decitex"),
		units(1, 9, "den|denier|deniers"),
		units(1_000_000, 1, "kg/m"),
		units(1, 1, "mg/m"),
		unitRow{num: 1000, den: 1, names: "Nm|metric count|m/g", inverse: true, prefix: true},
		unitRow{num: poundTex, den: hank, names: "Ne|NeC|cotton count|cotton", inverse: true, prefix: true},
		unitRow{num: poundTex, den: yard, names: "yd/lb|yards per pound|yds/lb|ypp", inverse: true},
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
func (d LinearDensity) Tex() float64 { return float64(d) }

// Decitex gives d in that unit.
func (d LinearDensity) Decitex() float64 { return float64(d / Decitex) }

// Denier gives d in that unit.
func (d LinearDensity) Denier() float64 { return float64(d / Denier) }

// Decimal writes d in the given unit, one of the constants of this package,
// with places digits (0 to 15) after the point. Digits beyond the fifteenth
// significant one are noise of the float64 and do not count.
// What is no such unit or number of places gives the text of String.
func (d LinearDensity) Decimal(u LinearDensity, places int, r Rounding) string {
	sym, ok := linearDensitySymbols[u]
	if ok {
		if text, ok := floatDecimal(float64(d), float64(u), 0, places, r, sym); ok {
			return text
		}
	}
	return d.String()
}

// linearDensityUnits are those of String.
var linearDensityUnits = []scaleUnit{{float64(Tex), "tex"}, {float64(Denier), "den"}}

// String writes d for people: to five digits, in tex or den, whichever it is a
// round number of. MarshalText loses nothing.
func (d LinearDensity) String() string {
	var buf [40]byte
	return string(appendMeasured(buf[:0], float64(d), "tex", linearDensityUnits))
}

// AppendText writes d to the end of b without loss, in tex. It wraps
// ErrNotFinite.
func (d LinearDensity) AppendText(b []byte) ([]byte, error) {
	return appendExact(b, float64(d), "tex", d.Check())
}

// MarshalText writes d without loss, in tex. It wraps ErrNotFinite.
func (d LinearDensity) MarshalText() ([]byte, error) { return d.AppendText(make([]byte, 0, usual)) }

// UnmarshalText reads d as ParseLinearDensity does.
func (d *LinearDensity) UnmarshalText(text []byte) error {
	x, err := ParseLinearDensity(string(text))
	if err == nil {
		*d = x
	}
	return err
}
