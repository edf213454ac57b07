package unit

// Mass is a mass in whole micrograms. The zero value is no mass.
//
// Range: ±9.22e9 kg. Exact: whole pounds and halves of
// them, whole micrograms. An avoirdupois ounce is 28 349 523.125 µg, so it has
// no constant; use [OuncesOf], [ParseMass] and [Mass.Ounces].
type Mass int64

// Units of mass. The pound is 0.453 592 37 kg by definition (NIST SP 811, B.6).
const (
	Microgram Mass = 1
	Milligram      = 1000 * Microgram
	Gram           = 1000 * Milligram
	Kilogram       = 1000 * Gram
	Tonne          = 1000 * Kilogram
	Pound          = 453_592_370 * Microgram
)

// massSymbols gives the symbol a unit is written with.
var massSymbols = map[Mass]string{
	Microgram: "ug", Milligram: "mg", Gram: "g", Kilogram: "kg", Tonne: "t", Pound: "lb",
}

var massMeasure = newMeasure("mass", `2 lb 4 oz`,
	units(int64(Pound), 1, "lb|lbs|pound|pounds"),
	units(int64(Pound), 16, "oz|ounce|ounces"),
	units(int64(Kilogram), 1, "kg|kilogram|kilograms|kilo|kilos"),
	units(int64(Gram), 1, "g|gram|grams|gramme|grammes"),
	units(int64(Milligram), 1, "mg|milligram|milligrams"),
	units(int64(Tonne), 1, "t|tonne|tonnes"),
	units(int64(Pound), 7000, "gr|grain|grains"),
	units(1, 1, "ug|microgram|micrograms"),
)

// ParseMass reads a mass as a shop writes it, such as 2 lb 4 oz.
// Fractions, mixed numbers and decimals are exact; what falls between two
// micrograms goes to the nearest. Errors are *InputError values that wrap
// ErrSyntax, ErrMissingUnit, ErrUnknownUnit, ErrDecimalComma or ErrOverflow.
func ParseMass(s string) (Mass, error) {
	n, err := massMeasure.exact(s)
	return Mass(n), err
}

// MassOf gives count times u, to the nearest microgram. It wraps ErrNotFinite
// or ErrOverflow.
func MassOf(count float64, u Mass) (Mass, error) {
	n, err := ofFloat(count, int64(u), 1, "mass")
	return Mass(n), err
}

// Pounds gives m in that unit, to float64 precision.
func (m Mass) Pounds() float64 { return float64(m) / float64(Pound) }

// Kilograms gives m in that unit, to float64 precision.
func (m Mass) Kilograms() float64 { return float64(m) / float64(Kilogram) }

// Grams gives m in that unit, to float64 precision.
func (m Mass) Grams() float64 { return float64(m) / float64(Gram) }

// Milligrams gives m in that unit, to float64 precision.
func (m Mass) Milligrams() float64 { return float64(m) / float64(Milligram) }

// Plus gives m + b, or an error that wraps ErrOverflow.
func (m Mass) Plus(b Mass) (Mass, error) {
	n, err := addInt(int64(m), int64(b), "mass + mass")
	return Mass(n), err
}

// Minus gives m - b, or an error that wraps ErrOverflow.
func (m Mass) Minus(b Mass) (Mass, error) {
	n, err := subInt(int64(m), int64(b), "mass - mass")
	return Mass(n), err
}

// Times gives n times m, or an error that wraps ErrOverflow.
func (m Mass) Times(n int) (Mass, error) {
	p, err := mulDiv(int64(m), int64(n), 1, Nearest, "mass × count")
	return Mass(p), err
}

// Scale gives r times m, rounded to a whole microgram; the ratio counts
// as the decimal it prints as. It wraps ErrNotFinite or ErrOverflow.
func (m Mass) Scale(r Ratio, round Rounding) (Mass, error) {
	n, err := scale(int64(m), r, round, "mass × ratio")
	return Mass(n), err
}

// MulDiv gives m × num / den, rounded once to a whole microgram: a third of a
// mass is MulDiv(1, 3, Nearest). It wraps ErrDivideByZero or ErrOverflow.
func (m Mass) MulDiv(num, den int, round Rounding) (Mass, error) {
	n, err := mulDiv(int64(m), int64(num), int64(den), round, "mass × ratio")
	return Mass(n), err
}

// Per gives the ratio m / b. It wraps ErrDivideByZero when b is zero.
func (m Mass) Per(b Mass) (Ratio, error) {
	return quotient(int64(m), int64(b))
}

// Fits gives how many whole b go into m, and what is left over. Both must
// not be negative and b not zero; it wraps ErrRange, ErrDivideByZero
// or ErrOverflow.
func (m Mass) Fits(b Mass) (count int, rest Mass, err error) {
	n, left, err := fits(int64(m), int64(b), "mass")
	return n, Mass(left), err
}

// RoundTo rounds m to a multiple of step: Up never gives less than m. The
// step must be above zero; it wraps ErrRange or ErrOverflow.
func (m Mass) RoundTo(step Mass, r Rounding) (Mass, error) {
	if step <= 0 {
		return 0, &InputError{Field: "step", Value: step.String(), Err: ErrRange, Want: "a step above zero"}
	}
	n, err := roundStep(int64(m), int64(step), r, "rounded mass")
	return Mass(n), err
}

// Decimal writes m in the given unit, one of the constants of this package,
// with places digits (0 to 15) after the point, such as "1.25 kg".
// What is no such unit or number of places gives the text of String.
func (m Mass) Decimal(u Mass, places int, r Rounding) string {
	var buf [48]byte
	return string(m.AppendDecimal(buf[:0], u, places, r))
}

// AppendDecimal appends what Decimal writes to b, for callers who keep a buffer.
func (m Mass) AppendDecimal(b []byte, u Mass, places int, r Rounding) []byte {
	sym, ok := massSymbols[u]
	if !ok || places < 0 || places > maxPlaces {
		return m.append(b)
	}
	return append(append(appendQuotient(b, int64(m), int64(u), places, r), ' '), sym...)
}

// String writes m without loss: in pounds when it is a whole half pound, else
// in kilograms.
func (m Mass) String() string {
	var buf [32]byte
	return string(m.append(buf[:0]))
}

// massSteps are the ways of String, the first that holds the value first.
var massSteps = []step{
	{int64(Pound), 2, 1, "lb"},
	{int64(Kilogram), 1000000000, 9, "kg"},
}

func (m Mass) append(b []byte) []byte { return appendLossless(b, int64(m), "0 lb", massSteps) }

// AppendText writes m to the end of b without loss, as String does.
func (m Mass) AppendText(b []byte) ([]byte, error) { return m.append(b), nil }

// MarshalText writes m without loss, as String does.
func (m Mass) MarshalText() ([]byte, error) { return m.append(make([]byte, 0, usual)), nil }

// UnmarshalText reads m as ParseMass does.
func (m *Mass) UnmarshalText(text []byte) error {
	n, err := ParseMass(string(text))
	if err == nil {
		*m = n
	}
	return err
}
