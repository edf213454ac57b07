package unit

// Length is a distance in whole nanometres. The zero value is no length.
//
// Range: ±9.22e9 m. Exact: every 64th of an inch, every whole nanometre. Not
// exact: thirds of an inch and the iron; those are rounded to the nearest
// nanometre when they are read or computed.
type Length int64

// Units of length. The inch is 25.4 mm by definition (NIST SP 811, B.6).
const (
	Nanometre  Length = 1
	Micrometre        = 1000 * Nanometre
	Millimetre        = 1000 * Micrometre
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
	Mil               = 25_400 * Nanometre // a thousandth of an inch
	Inch              = 1000 * Mil
	Foot              = 12 * Inch
	Yard              = 3 * Foot

	// LeatherOunce is the trade unit of leather thickness, 1/64 in
	// (ASTM D1814).
	LeatherOunce = Inch / 64
)

// lengthSymbols gives the symbol a unit is written with.
var lengthSymbols = map[Length]string{
	Nanometre: "nm", Micrometre: "um", Millimetre: "mm", Centimetre: "cm", Metre: "m",
	Mil: "mil", Inch: "in", Foot: "ft", Yard: "yd", LeatherOunce: "oz",
}

var lengthRows = []unitRow{
	units(int64(Inch), 1, `in|inch|inches|"`),
	units(int64(Foot), 1, "ft|foot|feet|'"),
	units(int64(Yard), 1, "yd|yds|yard|yards"),
	units(int64(Millimetre), 1, "mm|millimetre|millimetres|millimeter|millimeters"),
	units(int64(Centimetre), 1, "cm|centimetre|centimetres|centimeter|centimeters"),
	units(int64(Metre), 1, "m|metre|metres|meter|meters"),
	units(int64(Mil), 1, "mil|mils|thou"),
	units(int64(Micrometre), 1, "um|micrometre|micrometres|micrometer|micrometers|micron|microns"),
	units(int64(Nanometre), 1, "nm|nanometre|nanometres|nanometer|nanometers"),
}

var lengthMeasure = newMeasure("length", `25 5/8 in`, lengthRows...)

// ParseLength reads a length as a shop writes it, such as 25 5/8 in.
// Fractions, mixed numbers and decimals are exact; what falls between two
// nanometres goes to the nearest. Errors are *InputError values that wrap
// ErrSyntax, ErrMissingUnit, ErrUnknownUnit, ErrDecimalComma or ErrOverflow.
func ParseLength(s string) (Length, error) {
	n, err := lengthMeasure.exact(s)
	return Length(n), err
}

// LengthOf gives count times u, to the nearest nanometre. It wraps ErrNotFinite
// or ErrOverflow.
func LengthOf(count float64, u Length) (Length, error) {
	n, err := ofFloat(count, int64(u), 1, "length")
	return Length(n), err
}

// Inches gives l in that unit, to float64 precision.
func (l Length) Inches() float64 { return float64(l) / float64(Inch) }

// Feet gives l in that unit, to float64 precision.
func (l Length) Feet() float64 { return float64(l) / float64(Foot) }

// Yards gives l in that unit, to float64 precision.
func (l Length) Yards() float64 { return float64(l) / float64(Yard) }

// Millimetres gives l in that unit, to float64 precision.
func (l Length) Millimetres() float64 { return float64(l) / float64(Millimetre) }

// Centimetres gives l in that unit, to float64 precision.
func (l Length) Centimetres() float64 { return float64(l) / float64(Centimetre) }

// Metres gives l in that unit, to float64 precision.
func (l Length) Metres() float64 { return float64(l) / float64(Metre) }

// Mils gives l in that unit, to float64 precision.
func (l Length) Mils() float64 { return float64(l) / float64(Mil) }

// LeatherOunces gives l in that unit, to float64 precision.
func (l Length) LeatherOunces() float64 { return float64(l) / float64(LeatherOunce) }

// Plus gives l + b, or an error that wraps ErrOverflow.
func (l Length) Plus(b Length) (Length, error) {
	n, err := addInt(int64(l), int64(b), "length + length")
	return Length(n), err
}

// Minus gives l - b, or an error that wraps ErrOverflow.
func (l Length) Minus(b Length) (Length, error) {
	n, err := subInt(int64(l), int64(b), "length - length")
	return Length(n), err
}

// Times gives n times l, or an error that wraps ErrOverflow.
func (l Length) Times(n int) (Length, error) {
	p, err := mulDiv(int64(l), int64(n), 1, Nearest, "length × count")
	return Length(p), err
}

// Scale gives r times l, rounded to a whole nanometre; the ratio counts
// as the decimal it prints as. It wraps ErrNotFinite or ErrOverflow.
func (l Length) Scale(r Ratio, round Rounding) (Length, error) {
	n, err := scale(int64(l), r, round, "length × ratio")
	return Length(n), err
}

// MulDiv gives l × num / den, rounded once to a whole nanometre: a third of a
// length is MulDiv(1, 3, Nearest). It wraps ErrDivideByZero or ErrOverflow.
func (l Length) MulDiv(num, den int, round Rounding) (Length, error) {
	n, err := mulDiv(int64(l), int64(num), int64(den), round, "length × ratio")
	return Length(n), err
}

// Per gives the ratio l / b. It wraps ErrDivideByZero when b is zero.
func (l Length) Per(b Length) (Ratio, error) {
	return quotient(int64(l), int64(b))
}

// Fits gives how many whole b go into l, and what is left over. Both must
// not be negative and b not zero; it wraps ErrRange, ErrDivideByZero
// or ErrOverflow.
func (l Length) Fits(b Length) (count int, rest Length, err error) {
	n, m, err := fits(int64(l), int64(b), "length")
	return n, Length(m), err
}

// RoundTo rounds l to a multiple of step: Up never gives less than l. The
// step must be above zero; it wraps ErrRange or ErrOverflow.
func (l Length) RoundTo(step Length, r Rounding) (Length, error) {
	if step <= 0 {
		return 0, &InputError{Field: "step", Value: step.String(), Err: ErrRange, Want: "a step above zero"}
	}
	n, err := roundStep(int64(l), int64(step), r, "rounded length")
	return Length(n), err
}

// Decimal writes l in the given unit, one of the constants of this package,
// with places digits (0 to 15) after the point, such as "65.1 cm".
// What is no such unit or number of places gives the text of String.
func (l Length) Decimal(u Length, places int, r Rounding) string {
	var buf [48]byte
	return string(l.AppendDecimal(buf[:0], u, places, r))
}

// AppendDecimal appends what Decimal writes to b, for callers who keep a buffer.
func (l Length) AppendDecimal(b []byte, u Length, places int, r Rounding) []byte {
	sym, ok := lengthSymbols[u]
	if !ok || places < 0 || places > maxPlaces {
		return l.append(b)
	}
	return append(append(appendQuotient(b, int64(l), int64(u), places, r), ' '), sym...)
}

// String writes l without loss: in inches when it is a whole 64th of an inch
// ("25 5/8 in"), else in millimetres ("652.4 mm").
func (l Length) String() string {
	var buf [32]byte
	return string(l.append(buf[:0]))
}

// lengthSteps hold what is no whole 64th of an inch.
var lengthSteps = []step{{int64(Millimetre), 1_000_000, 6, "mm"}}

func (l Length) append(b []byte) []byte {
	if l%(Inch/64) == 0 {
		return append(l.appendMixed(b, Inch, SixtyFourths, Nearest), " in"...)
	}
	return appendLossless(b, int64(l), "", lengthSteps)
}

// AppendText writes l to the end of b without loss, as String does.
func (l Length) AppendText(b []byte) ([]byte, error) { return l.append(b), nil }

// MarshalText writes l without loss, as String does.
func (l Length) MarshalText() ([]byte, error) { return l.append(make([]byte, 0, usual)), nil }

// UnmarshalText reads l as ParseLength does.
func (l *Length) UnmarshalText(text []byte) error {
	n, err := ParseLength(string(text))
	if err == nil {
		*l = n
	}
	return err
}
