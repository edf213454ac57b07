package unit

// Volume is a capacity in whole nanolitres. The zero value is no volume.
//
// Range: ±9.22e6 m³. Exact: whole cubic inches and eighths of them, board
// feet, whole cubic millimetres.
type Volume int64

// Units of volume. A board foot is 144 in³: one square foot an inch thick.
const (
	Nanolitre       Volume = 1
	CubicMillimetre        = 1000 * Nanolitre
	CubicCentimetre        = 1000 * CubicMillimetre
	Litre                  = 1000 * CubicCentimetre
	CubicMetre             = 1000 * Litre
	CubicInch              = 16_387_064 * Nanolitre
	BoardFoot              = 144 * CubicInch
	CubicFoot              = 1728 * CubicInch
	CubicYard              = 27 * CubicFoot
	USGallon               = 231 * CubicInch
)

// volumeSymbols gives the symbol a unit is written with.
var volumeSymbols = map[Volume]string{
	Nanolitre: "nl", CubicMillimetre: "mm3", CubicCentimetre: "cm3", Litre: "l", CubicMetre: "m3",
	CubicInch: "cu in", BoardFoot: "bd ft", CubicFoot: "cu ft", CubicYard: "cu yd", USGallon: "gal",
}

var volumeMeasure = newMeasure("volume", `16 bd ft`,
	units(int64(BoardFoot), 1, "bd ft|bdft|board foot|board feet|bf"),
	units(int64(CubicInch), 1, "cu in|cuin|in3|in^3|cubic inch|cubic inches"),
	units(int64(CubicFoot), 1, "cu ft|cuft|ft3|ft^3|cubic foot|cubic feet"),
	units(int64(CubicYard), 1, "cu yd|cuyd|yd3|yd^3|cubic yard|cubic yards"),
	units(int64(Litre), 1, "l|litre|litres|liter|liters|dm3"),
	units(int64(CubicMetre), 1, "m3|m^3|cubic metre|cubic metres|cubic meter|cubic meters"),
	units(int64(CubicCentimetre), 1, "cm3|cm^3|cc|ml|millilitre|millilitres|milliliter|milliliters"),
	units(int64(CubicMillimetre), 1, "mm3|mm^3"),
	units(int64(USGallon), 1, "gal|us gal|gallon|gallons"),
	units(1, 1, "nl|nanolitre|nanolitres|nanoliter|nanoliters"),
)

// ParseVolume reads a volume as a shop writes it, such as 16 bd ft.
// Fractions, mixed numbers and decimals are exact; what falls between two
// nanolitres goes to the nearest. Errors are *InputError values that wrap
// ErrSyntax, ErrMissingUnit, ErrUnknownUnit, ErrDecimalComma or ErrOverflow.
func ParseVolume(s string) (Volume, error) {
	n, err := volumeMeasure.exact(s)
	return Volume(n), err
}

// VolumeOf gives count times u, to the nearest nanolitre. It wraps ErrNotFinite
// or ErrOverflow.
func VolumeOf(count float64, u Volume) (Volume, error) {
	n, err := ofFloat(count, int64(u), 1, "volume")
	return Volume(n), err
}

// CubicInches gives v in that unit, to float64 precision.
func (v Volume) CubicInches() float64 { return float64(v) / float64(CubicInch) }

// CubicFeet gives v in that unit, to float64 precision.
func (v Volume) CubicFeet() float64 { return float64(v) / float64(CubicFoot) }

// CubicYards gives v in that unit, to float64 precision.
func (v Volume) CubicYards() float64 { return float64(v) / float64(CubicYard) }

// BoardFeet gives v in that unit, to float64 precision.
func (v Volume) BoardFeet() float64 { return float64(v) / float64(BoardFoot) }

// Litres gives v in that unit, to float64 precision.
func (v Volume) Litres() float64 { return float64(v) / float64(Litre) }

// CubicCentimetres gives v in that unit, to float64 precision.
func (v Volume) CubicCentimetres() float64 { return float64(v) / float64(CubicCentimetre) }

// CubicMetres gives v in that unit, to float64 precision.
func (v Volume) CubicMetres() float64 { return float64(v) / float64(CubicMetre) }

// Plus gives v + b, or an error that wraps ErrOverflow.
func (v Volume) Plus(b Volume) (Volume, error) {
	n, err := addInt(int64(v), int64(b), "volume + volume")
	return Volume(n), err
}

// Minus gives v - b, or an error that wraps ErrOverflow.
func (v Volume) Minus(b Volume) (Volume, error) {
	n, err := subInt(int64(v), int64(b), "volume - volume")
	return Volume(n), err
}

// Times gives n times v, or an error that wraps ErrOverflow.
func (v Volume) Times(n int) (Volume, error) {
	p, err := mulDiv(int64(v), int64(n), 1, Nearest, "volume × count")
	return Volume(p), err
}

// Scale gives r times v, rounded to a whole nanolitre; the ratio counts
// as the decimal it prints as. It wraps ErrNotFinite or ErrOverflow.
func (v Volume) Scale(r Ratio, round Rounding) (Volume, error) {
	n, err := scale(int64(v), r, round, "volume × ratio")
	return Volume(n), err
}

// MulDiv gives v × num / den, rounded once to a whole nanolitre: a third of a
// volume is MulDiv(1, 3, Nearest). It wraps ErrDivideByZero or ErrOverflow.
func (v Volume) MulDiv(num, den int, round Rounding) (Volume, error) {
	n, err := mulDiv(int64(v), int64(num), int64(den), round, "volume × ratio")
	return Volume(n), err
}

// Per gives the ratio v / b. It wraps ErrDivideByZero when b is zero.
func (v Volume) Per(b Volume) (Ratio, error) {
	return quotient(int64(v), int64(b))
}

// Fits gives how many whole b go into v, and what is left over. Both must
// not be negative and b not zero; it wraps ErrRange, ErrDivideByZero
// or ErrOverflow.
func (v Volume) Fits(b Volume) (count int, rest Volume, err error) {
	n, m, err := fits(int64(v), int64(b), "volume")
	return n, Volume(m), err
}

// RoundTo rounds v to a multiple of step: Up never gives less than v. The
// step must be above zero; it wraps ErrRange or ErrOverflow.
func (v Volume) RoundTo(step Volume, r Rounding) (Volume, error) {
	if step <= 0 {
		return 0, &InputError{Field: "step", Value: step.String(), Err: ErrRange, Want: "a step above zero"}
	}
	n, err := roundStep(int64(v), int64(step), r, "rounded volume")
	return Volume(n), err
}

// Decimal writes v in the given unit, one of the constants of this package,
// with places digits (0 to 15) after the point, such as "37.8 l".
// What is no such unit or number of places gives the text of String.
func (v Volume) Decimal(u Volume, places int, r Rounding) string {
	var buf [48]byte
	return string(v.AppendDecimal(buf[:0], u, places, r))
}

// AppendDecimal appends what Decimal writes to b, for callers who keep a buffer.
func (v Volume) AppendDecimal(b []byte, u Volume, places int, r Rounding) []byte {
	sym, ok := volumeSymbols[u]
	if !ok || places < 0 || places > maxPlaces {
		return v.append(b)
	}
	return append(append(appendQuotient(b, int64(v), int64(u), places, r), ' '), sym...)
}

// String writes v without loss: in board feet or cubic inches when it is a
// whole eighth of one, else in litres.
func (v Volume) String() string {
	var buf [32]byte
	return string(v.append(buf[:0]))
}

// volumeSteps are the ways of String, the first that holds the value first.
var volumeSteps = []step{
	{int64(BoardFoot), 8, 3, "bd ft"},
	{int64(CubicInch), 8, 3, "cu in"},
	{int64(CubicMetre), 1000, 3, "m3"},
	{int64(Litre), 1000000000, 9, "l"},
}

func (v Volume) append(b []byte) []byte { return appendLossless(b, int64(v), "0 cu in", volumeSteps) }

// AppendText writes v to the end of b without loss, as String does.
func (v Volume) AppendText(b []byte) ([]byte, error) { return v.append(b), nil }

// MarshalText writes v without loss, as String does.
func (v Volume) MarshalText() ([]byte, error) { return v.append(make([]byte, 0, usual)), nil }

// UnmarshalText reads v as ParseVolume does.
func (v *Volume) UnmarshalText(text []byte) error {
	n, err := ParseVolume(string(text))
	if err == nil {
		*v = n
	}
	return err
}
