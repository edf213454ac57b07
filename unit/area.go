package unit

// Area is a surface in whole square micrometres. The zero value is no area.
//
// Range: ±9.22e6 m². Exact: whole square inches and hundredths of them,
// hundredths of a square foot, whole square millimetres.
type Area int64

// Units of area, exact by the definition of the inch.
const (
	SquareMicrometre Area = 1
	SquareMillimetre      = 1_000_000 * SquareMicrometre
	SquareCentimetre      = 100 * SquareMillimetre
	SquareDecimetre       = 100 * SquareCentimetre
	SquareMetre           = 100 * SquareDecimetre
	SquareInch            = 645_160_000 * SquareMicrometre
	SquareFoot            = 144 * SquareInch
	SquareYard            = 9 * SquareFoot
)

// areaSymbols gives the symbol a unit is written with.
var areaSymbols = map[Area]string{
	SquareMicrometre: "um2", SquareMillimetre: "mm2", SquareCentimetre: "cm2", SquareDecimetre: "dm2",
	SquareMetre: "m2", SquareInch: "sq in", SquareFoot: "sq ft", SquareYard: "sq yd",
}

var areaMeasure = newMeasure("area", `48 sq ft`,
	units(int64(SquareFoot), 1, "sq ft|sqft|ft2|ft^2|sf|square foot|square feet|sq foot|sq feet"),
	units(int64(SquareInch), 1, "sq in|sqin|in2|in^2|square inch|square inches|sq inch|sq inches"),
	units(int64(SquareYard), 1, "sq yd|sqyd|yd2|yd^2|square yard|square yards|sq yds"),
	units(int64(SquareMillimetre), 1, "mm2|mm^2|sq mm|square millimetre|square millimetres|square millimeter|square millimeters"),
	units(int64(SquareCentimetre), 1, "cm2|cm^2|sq cm|square centimetre|square centimetres|square centimeter|square centimeters"),
	units(int64(SquareDecimetre), 1, "dm2|dm^2|sq dm|square decimetre|square decimetres|square decimeter|square decimeters"),
	units(int64(SquareMetre), 1, "m2|m^2|sq m|sqm|square metre|square metres|square meter|square meters"),
	units(int64(SquareMicrometre), 1, "um2|um^2"),
)

// ParseArea reads an area as a shop writes it, such as 48 sq ft.
// Fractions, mixed numbers and decimals are exact; what falls between two
// square micrometres goes to the nearest. Errors are *InputError values that wrap
// ErrSyntax, ErrMissingUnit, ErrUnknownUnit, ErrDecimalComma or ErrOverflow.
func ParseArea(s string) (Area, error) {
	n, err := areaMeasure.exact(s)
	return Area(n), err
}

// AreaOf gives count times u, to the nearest square micrometre. It wraps ErrNotFinite
// or ErrOverflow.
func AreaOf(count float64, u Area) (Area, error) {
	n, err := ofFloat(count, int64(u), 1, "area")
	return Area(n), err
}

// SquareInches gives a in that unit, to float64 precision.
func (a Area) SquareInches() float64 { return float64(a) / float64(SquareInch) }

// SquareFeet gives a in that unit, to float64 precision.
func (a Area) SquareFeet() float64 { return float64(a) / float64(SquareFoot) }

// SquareYards gives a in that unit, to float64 precision.
func (a Area) SquareYards() float64 { return float64(a) / float64(SquareYard) }

// SquareMillimetres gives a in that unit, to float64 precision.
func (a Area) SquareMillimetres() float64 { return float64(a) / float64(SquareMillimetre) }

// SquareCentimetres gives a in that unit, to float64 precision.
func (a Area) SquareCentimetres() float64 { return float64(a) / float64(SquareCentimetre) }

// SquareDecimetres gives a in that unit, to float64 precision.
func (a Area) SquareDecimetres() float64 { return float64(a) / float64(SquareDecimetre) }

// SquareMetres gives a in that unit, to float64 precision.
func (a Area) SquareMetres() float64 { return float64(a) / float64(SquareMetre) }

// Plus gives a + b, or an error that wraps ErrOverflow.
func (a Area) Plus(b Area) (Area, error) {
	n, err := addInt(int64(a), int64(b), "area + area")
	return Area(n), err
}

// Minus gives a - b, or an error that wraps ErrOverflow.
func (a Area) Minus(b Area) (Area, error) {
	n, err := subInt(int64(a), int64(b), "area - area")
	return Area(n), err
}

// Times gives n times a, or an error that wraps ErrOverflow.
func (a Area) Times(n int) (Area, error) {
	p, err := mulDiv(int64(a), int64(n), 1, Nearest, "area × count")
	return Area(p), err
}

// Scale gives r times a, rounded to a whole square micrometre; the ratio counts
// as the decimal it prints as. It wraps ErrNotFinite or ErrOverflow.
func (a Area) Scale(r Ratio, round Rounding) (Area, error) {
	n, err := scale(int64(a), r, round, "area × ratio")
	return Area(n), err
}

// MulDiv gives a × num / den, rounded once to a whole square micrometre: a third of an
// area is MulDiv(1, 3, Nearest). It wraps ErrDivideByZero or ErrOverflow.
func (a Area) MulDiv(num, den int, round Rounding) (Area, error) {
	n, err := mulDiv(int64(a), int64(num), int64(den), round, "area × ratio")
	return Area(n), err
}

// Per gives the ratio a / b. It wraps ErrDivideByZero when b is zero.
func (a Area) Per(b Area) (Ratio, error) {
	return quotient(int64(a), int64(b))
}

// Fits gives how many whole b go into a, and what is left over. Both must
// not be negative and b not zero; it wraps ErrRange, ErrDivideByZero
// or ErrOverflow.
func (a Area) Fits(b Area) (count int, rest Area, err error) {
	n, m, err := fits(int64(a), int64(b), "area")
	return n, Area(m), err
}

// RoundTo rounds a to a multiple of step: Up never gives less than a. The
// step must be above zero; it wraps ErrRange or ErrOverflow.
func (a Area) RoundTo(step Area, r Rounding) (Area, error) {
	if step <= 0 {
		return 0, &InputError{Field: "step", Value: step.String(), Err: ErrRange, Want: "a step above zero"}
	}
	n, err := roundStep(int64(a), int64(step), r, "rounded area")
	return Area(n), err
}

// Decimal writes a in the given unit, one of the constants of this package,
// with places digits (0 to 15) after the point, such as "4.52 m2".
// What is no such unit or number of places gives the text of String.
func (a Area) Decimal(u Area, places int, r Rounding) string {
	var buf [48]byte
	return string(a.AppendDecimal(buf[:0], u, places, r))
}

// AppendDecimal appends what Decimal writes to b, for callers who keep a buffer.
func (a Area) AppendDecimal(b []byte, u Area, places int, r Rounding) []byte {
	sym, ok := areaSymbols[u]
	if !ok || places < 0 || places > maxPlaces {
		return a.append(b)
	}
	return append(append(appendQuotient(b, int64(a), int64(u), places, r), ' '), sym...)
}

// String writes a without loss: in square feet or inches when it is a whole
// hundredth of one, else in square metres or millimetres.
func (a Area) String() string {
	var buf [32]byte
	return string(a.append(buf[:0]))
}

// areaSteps are the ways of String, the first that holds the value first.
var areaSteps = []step{
	{int64(SquareFoot), 100, 2, "sq ft"},
	{int64(SquareInch), 100, 2, "sq in"},
	{int64(SquareMetre), 10000, 4, "m2"},
	{int64(SquareMillimetre), 1000000, 6, "mm2"},
}

func (a Area) append(b []byte) []byte { return appendLossless(b, int64(a), "0 sq ft", areaSteps) }

// AppendText writes a to the end of b without loss, as String does.
func (a Area) AppendText(b []byte) ([]byte, error) { return a.append(b), nil }

// MarshalText writes a without loss, as String does.
func (a Area) MarshalText() ([]byte, error) { return a.append(make([]byte, 0, usual)), nil }

// UnmarshalText reads a as ParseArea does.
func (a *Area) UnmarshalText(text []byte) error {
	n, err := ParseArea(string(text))
	if err == nil {
		*a = n
	}
	return err
}
