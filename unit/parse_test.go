package unit_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

// want is one text and what it means.
type want[Q any] struct {
	text string
	q    Q
}

func testParse[Q comparable](t *testing.T, parse func(string) (Q, error), rows []want[Q]) {
	t.Helper()
	for _, r := range rows {
		for _, text := range []string{r.text, strings.ToUpper(r.text), "  " + r.text + "\t"} {
			got, err := parse(text)
			if assert.NoError(t, err, "%q", text) {
				assert.Equal(t, r.q, got, "%q", text)
			}
		}
	}
}

func TestParseLengthReadsWhatAShopWrites(t *testing.T) {
	const eighth = unit.Inch / 8
	testParse(t, unit.ParseLength, []want[unit.Length]{
		{"25 5/8 in", 205 * eighth},
		{"25-5/8 in", 205 * eighth},
		{`25 5/8"`, 205 * eighth},
		{`25-5/8"`, 205 * eighth},
		{`25 5/8 "`, 205 * eighth},
		{"25.625 in", 205 * eighth},
		{"25.625in.", 205 * eighth},
		{"25   5/8    inches", 205 * eighth},
		{"205/8 inch", 205 * eighth},
		{"25⅝ in", 205 * eighth},
		{"25 ⅝″", 205 * eighth},
		{"25 5⁄8 in", 205 * eighth},
		{"25\u00a05/8\u202fin", 205 * eighth},
		{"5/8 in", 5 * eighth},
		{"⅝ in", 5 * eighth},
		{".625 in", 5 * eighth},
		{"+5/8 in", 5 * eighth},
		{"-5/8 in", -5 * eighth},
		{"- 5/8 in", -5 * eighth},
		{"−5/8 in", -5 * eighth},
		{`2' 1 5/8"`, 205 * eighth},
		{`2'1-5/8"`, 205 * eighth},
		{`2'-1 5/8"`, 205 * eighth},
		{`2' 1⅝"`, 205 * eighth},
		{"2′ 1⅝″", 205 * eighth},
		{"2’ 1⅝”", 205 * eighth},
		{"2′ 1⅝′′", 205 * eighth},
		{"2' 1 5/8''", 205 * eighth},
		{"2 ft 1 5/8 in", 205 * eighth},
		{"2ft1.625in", 205 * eighth},
		{"2 feet 1 5/8 inches", 205 * eighth},
		{"2 ft. 1 5/8 in.", 205 * eighth},
		{"-2' 1 5/8\"", -205 * eighth},
		{"1 yd 2 ft 3 in", 63 * unit.Inch},
		{"1 1/2 yd", 54 * unit.Inch},
		{"1½ yards", 54 * unit.Inch},
		{"2 yds", 72 * unit.Inch},
		{"652 mm", 652 * unit.Millimetre},
		{"652.4 millimetres", 652_400 * unit.Micrometre},
		{"1 meter", unit.Metre},
		{"1 m 20 cm", 120 * unit.Centimetre},
		{"30 mil", 30 * unit.Mil},
		{"30 thou", 30 * unit.Mil},
		{"25 µm", 25 * unit.Micrometre},
		{"25 μm", 25 * unit.Micrometre},
		{"25 microns", 25 * unit.Micrometre},
		{"7 nm", 7},
		{"1e-3 m", unit.Millimetre},
		{"1.5e2 mm", 150 * unit.Millimetre},
		{"0", 0},
		{"0.0", 0},
		{"0 in", 0},
		{"¼ in", unit.Inch / 4}, {"½ in", unit.Inch / 2}, {"¾ in", 3 * unit.Inch / 4},
		{"⅛ in", eighth}, {"⅜ in", 3 * eighth}, {"⅞ in", 7 * eighth},
		// Thirds fall between two nanometres: 8 466 666.67 goes up.
		{"1/3 in", 8_466_667}, {"⅓ in", 8_466_667}, {"⅔ in", 16_933_333},
		{"⅙ in", 4_233_333}, {"⅚ in", 21_166_667},
		{"⅕ in", 5_080_000}, {"⅖ in", 10_160_000}, {"⅗ in", 15_240_000}, {"⅘ in", 20_320_000},
	})
}

func TestEveryDocumentedUnitReads(t *testing.T) {
	testParse(t, unit.ParseArea, []want[unit.Area]{
		{"48 sq ft", 48 * unit.SquareFoot}, {"48 sq. ft.", 48 * unit.SquareFoot}, {"48 sqft", 48 * unit.SquareFoot},
		{"48 ft2", 48 * unit.SquareFoot}, {"48 ft²", 48 * unit.SquareFoot}, {"48 ft^2", 48 * unit.SquareFoot},
		{"48 square feet", 48 * unit.SquareFoot}, {"48 sf", 48 * unit.SquareFoot}, {"1 square foot", unit.SquareFoot},
		{"1 1/2 sq yd", 3 * unit.SquareYard / 2}, {"2 yd2", 2 * unit.SquareYard}, {"2 square yards", 2 * unit.SquareYard},
		{"100 sq in", 100 * unit.SquareInch}, {"100 in²", 100 * unit.SquareInch}, {"100 square inches", 100 * unit.SquareInch},
		{"4.52 m2", 452 * unit.SquareDecimetre}, {"4.52 sq m", 452 * unit.SquareDecimetre}, {"4.52 square metres", 452 * unit.SquareDecimetre},
		{"452 dm2", 452 * unit.SquareDecimetre}, {"7 cm2", 7 * unit.SquareCentimetre}, {"7 mm²", 7 * unit.SquareMillimetre},
		{"7 um2", 7}, {"0", 0}, {"2 ft2.", 2 * unit.SquareFoot}, {"2 yd2. 1 ft2", 19 * unit.SquareFoot},
	})
	testParse(t, unit.ParseVolume, []want[unit.Volume]{
		{"16 bd ft", 16 * unit.BoardFoot}, {"16 board feet", 16 * unit.BoardFoot}, {"16 bf", 16 * unit.BoardFoot},
		{"2 cu ft", 2 * unit.CubicFoot}, {"2 ft³", 2 * unit.CubicFoot}, {"2 cubic feet", 2 * unit.CubicFoot},
		{"9 cu in", 9 * unit.CubicInch}, {"9 in3", 9 * unit.CubicInch}, {"1 yd3", unit.CubicYard}, {"3 cu yd", 3 * unit.CubicYard},
		{"37.8 l", 378 * unit.Litre / 10}, {"37.8 litres", 378 * unit.Litre / 10}, {"37.8 liters", 378 * unit.Litre / 10},
		{"5 ml", 5 * unit.CubicCentimetre}, {"5 cc", 5 * unit.CubicCentimetre}, {"5 cm3", 5 * unit.CubicCentimetre},
		{"5 mm3", 5 * unit.CubicMillimetre}, {"2 m3", 2 * unit.CubicMetre}, {"1 gal", unit.USGallon}, {"1 us gal", unit.USGallon}, {"3 nl", 3},
	})
	testParse(t, unit.ParseMass, []want[unit.Mass]{
		{"2 lb 4 oz", 1_020_582_833}, {"2 lbs 4 oz", 1_020_582_833}, {"2.5 pounds", 5 * unit.Pound / 2},
		{"1 1/2 lb", 3 * unit.Pound / 2}, {"8 ounces", unit.Pound / 2}, {"3.2 kg", 3200 * unit.Gram}, {"250 g", 250 * unit.Gram},
		{"250 grams", 250 * unit.Gram}, {"5 mg", 5 * unit.Milligram}, {"1 t", unit.Tonne}, {"1 ug", 1}, {"1 µg", 1},
		{"1 oz", 28_349_523}, {"1 gr", 64_799}, {"7000 gr", unit.Pound},
	})
	testParse(t, unit.ParseDuration, []want[unit.Duration]{
		{"14.5 h", 14*unit.Hour + 30*unit.Minute}, {"14 h 30 min", 14*unit.Hour + 30*unit.Minute}, {"14 hours", 14 * unit.Hour},
		{"1 hr 5 mins 6 s", unit.Hour + 5*unit.Minute + 6*unit.Second}, {"90 min", 90 * unit.Minute}, {"2 1/4 hrs", 135 * unit.Minute},
		{"250 ms", 250}, {"1 s", unit.Second}, {"1/4 hour", 15 * unit.Minute},
	})
	testParse(t, unit.ParseThickness, []want[unit.Length]{
		{"3 oz", 3 * unit.LeatherOunce}, {"3.5 ounces", 1_389_063}, {"2 1/2 oz", 992_188},
		{"1.2 mm", 1200 * unit.Micrometre}, {"1/16 in", unit.Inch / 16}, {"5/64 in", 5 * unit.Inch / 64}, {"3/4 in", 3 * unit.Inch / 4},
		{"12 iron", unit.Inch / 4}, {"9 irons", 3 * unit.Inch / 16}, {"5/2 oz", 992_188}, {"1 0/1 oz", unit.LeatherOunce}, {"0.75 oz", 3 * unit.LeatherOunce / 4},
	})
	testParse(t, unit.ParseForce, []want[unit.Force]{
		{"30 N", 30}, {"1 lbf", unit.PoundForce}, {"2 kN", 2000}, {"16 ozf", unit.PoundForce}, {"1 kgf", 9.80665}, {"1000 gf", 9.80665},
		{"150 cN", 1.5}, {"1 pound-force", unit.PoundForce},
	})
	testParse(t, unit.ParsePressure, []want[unit.Pressure]{
		{"4.1 kPa", 4100}, {"41 Pa", 41}, {"1 MPa", 1e6}, {"1 N/mm2", 1e6}, {"1 psi", 4.4482216152605 / 0.00064516}, {"1 kgf/cm2", 98066.5},
		{"1 psf", 4.4482216152605 / 0.09290304}, {"1 lbf/ft2", 4.4482216152605 / 0.09290304},
	})
	testParse(t, unit.ParseDensity, []want[unit.Density]{
		{"45 kg/m3", 45}, {"45 kg/m³", 45}, {"1 g/cm3", 1000}, {"2.8 lb/ft3", 2.8 * 0.45359237 / 0.028316846592}, {"2.8 pcf", 2.8 * 0.45359237 / 0.028316846592},
		{"1728 lb/ft3", 1728 * 0.45359237 / 0.028316846592}, {"1 lb/in3", 1728 * 0.45359237 / 0.028316846592},
	})
	testParse(t, unit.ParseAreaDensity, []want[unit.AreaDensity]{
		{"400 g/m2", 0.4}, {"400 gsm", 0.4}, {"0.4 kg/m²", 0.4}, {"12 oz/yd2", 12 * 0.45359237 / 16 / 0.83612736}, {"12 osy", 12 * 0.45359237 / 16 / 0.83612736}, {"12 oz/sq yd", 12 * 0.45359237 / 16 / 0.83612736},
	})
	for i, r := range []want[unit.AreaDensity]{{"1 oz/ft2", unit.OuncePerSquareFoot}, {"1 oz/yd2", unit.OuncePerSquareYard}} {
		got, err := unit.ParseAreaDensity(r.text)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(r.q), float64(got), 1e-15, i)
	}
	testParse(t, unit.ParseLinearDensity, []want[unit.LinearDensity]{
		{"90 tex", 90}, {"tex 90", 90}, {"90 g/km", 90}, {"900 dtex", 90}, {"810 den", 90}, {"810 denier", 90}, {"90 mg/m", 90},
		{"Nm 40", 25}, {"40 Nm", 25}, {"nm40", 25}, {"Nm 40/2", 50}, {"80/2 Nm", 25}, {"Ne 10", 453.59237 / 840 / 0.9144 * 1000 / 10}, {"10 cotton count", 453.59237 / 840 / 0.9144 * 1000 / 10},
		{"840 yd/lb", 453.59237 / 840 / 0.9144 * 1000}, {"840 yards per pound", 453.59237 / 840 / 0.9144 * 1000},
	})
	testParse(t, unit.ParseAngle, []want[unit.Angle]{
		{"45 deg", 45}, {"45°", 45}, {"22 1/2 degrees", 22.5}, {"1/4 turn", 90}, {"1 rad", unit.Radian},
	})
	testParse(t, unit.ParseRatio, []want[unit.Ratio]{
		{"25 %", 0.25}, {"25%", 0.25}, {"0.25", 0.25}, {"1/4", 0.25}, {"2.5 percent", 0.025}, {"2 1/2 per cent", 0.025}, {"-5 pct", -0.05}, {"1", 1},
	})
}

func TestParseRefuses(t *testing.T) {
	long := strings.Repeat("9", 161)
	rows := []struct {
		text string
		err  error
	}{
		{"", unit.ErrSyntax}, {"   ", unit.ErrSyntax}, {"in", unit.ErrSyntax}, {"abc", unit.ErrSyntax}, {"-", unit.ErrSyntax},
		{"--5 in", unit.ErrSyntax}, {"+-5 in", unit.ErrSyntax}, {"5 in in", unit.ErrSyntax}, {"5 in -", unit.ErrSyntax},
		{"5. in", unit.ErrSyntax}, {"5..2 in", unit.ErrSyntax}, {"1.2.3 in", unit.ErrSyntax},
		{"5/ in", unit.ErrSyntax}, {"5/0 in", unit.ErrSyntax}, {"5/000 in", unit.ErrSyntax}, {"5//8 in", unit.ErrSyntax}, {"/8 in", unit.ErrSyntax},
		{"1/2/3 in", unit.ErrSyntax}, {"25 8/8 in", unit.ErrSyntax}, {"25 9/8 in", unit.ErrSyntax}, {"25.5 5/8 in", unit.ErrSyntax},
		{"25 - 5/8 in", unit.ErrSyntax}, {"3-4 in", unit.ErrSyntax}, {"3 to 4 in", unit.ErrUnknownUnit},
		{"1 250 mm", unit.ErrSyntax}, {"1'250 mm", unit.ErrSyntax}, {"22 x 24 in", unit.ErrUnknownUnit},
		{"1,250 mm", unit.ErrDecimalComma}, {"25,5 in", unit.ErrDecimalComma}, {"1,250.5 mm", unit.ErrDecimalComma},
		{"25", unit.ErrMissingUnit}, {"25 5/8", unit.ErrMissingUnit}, {"2' 1", unit.ErrMissingUnit}, {"-3", unit.ErrMissingUnit},
		{"2 furlongs", unit.ErrUnknownUnit}, {"2 kg", unit.ErrUnknownUnit}, {"2 sq ft", unit.ErrUnknownUnit}, {"2 inn", unit.ErrUnknownUnit},
		{"2 ft2", unit.ErrUnknownUnit}, {"2 ft^2", unit.ErrUnknownUnit}, {"2 ft²", unit.ErrUnknownUnit}, {"2 m/s", unit.ErrUnknownUnit}, {"2 iné", unit.ErrUnknownUnit},
		{"2 oz", unit.ErrUnknownUnit}, {"2 %", unit.ErrUnknownUnit},
		{`2' 12"`, unit.ErrSyntax}, {`2' 13 1/2"`, unit.ErrSyntax}, {`1/2' 3"`, unit.ErrSyntax}, {`2.5' 3"`, unit.ErrSyntax},
		{"3 in 2 ft", unit.ErrSyntax}, {"2 in 2 in", unit.ErrSyntax}, {"2 in 0 in", unit.ErrSyntax}, {"2 ft 30 mm", unit.ErrSyntax}, {"1 yd 3 ft", unit.ErrSyntax},
		{"2 ft -1 in", unit.ErrSyntax}, {"2 ft - 1 in", unit.ErrSyntax}, {"2 ft + 1 in", unit.ErrSyntax},
		{"1e400 in", unit.ErrOverflow}, {"1e1000 in", unit.ErrUnknownUnit}, {"10000000000 m", unit.ErrOverflow}, {"-10000000000 m", unit.ErrOverflow},
		{long, unit.ErrSyntax}, {"5 \xff in", unit.ErrSyntax}, {"NaN in", unit.ErrSyntax}, {"Inf in", unit.ErrSyntax}, {"0x10 in", unit.ErrUnknownUnit},
		{"5\x00in", unit.ErrUnknownUnit}, {"2 inz", unit.ErrUnknownUnit}, {"'5 in", unit.ErrSyntax}, {"1e20 nm", unit.ErrOverflow}, {"5 in\n", nil}, {"5\nin", unit.ErrUnknownUnit}, {"٥ in", unit.ErrSyntax},
		{strings.Repeat("1/", 80), unit.ErrSyntax}, {strings.Repeat("(", 100), unit.ErrSyntax}, {"25٫5 in", unit.ErrUnknownUnit},
	}
	for _, r := range rows {
		n, err := unit.ParseLength(r.text)
		if r.err == nil {
			assert.NoError(t, err, "%q", r.text)
			continue
		}
		assert.ErrorIs(t, err, r.err, "%q", r.text)
		assert.Zero(t, n, "%q", r.text)
		var in *unit.InputError
		if assert.ErrorAs(t, err, &in, "%q", r.text) {
			assert.Equal(t, r.text, in.Value)
			assert.NotEmpty(t, in.Want, "%q", r.text)
			assert.NotContains(t, err.Error(), "\n", "%q", r.text)
			assert.Less(t, len(err.Error()), 500, "%q", r.text)
		}
	}
}

// A part of another system is refused as such, not as a part that is too large.
func TestParseTellsSystemsApart(t *testing.T) {
	for text, want := range map[string]string{"2 ft 30 mm": "parts of one system", "2 ft 12 in": "smaller than one ft", "2 in 1 ft": "the larger unit first"} {
		_, err := unit.ParseLength(text)
		assert.ErrorContains(t, err, want, "%q", text)
	}
}

// Each refusal says what is wanted at the place that is wrong, not what a later
// one would have said.
func TestParseSaysWhatIsWanted(t *testing.T) {
	const length, area, count = "want a length such as", "want an area in one of", "want a yarn count such as"
	for _, r := range []struct{ kind, text, want string }{
		{"Length", "5/ in", "a fraction such as 5/8"}, {"Length", "2 ft 5/ in", "a fraction such as 5/8"}, {"Length", "2 ft 3/0 in", "a fraction such as 5/8"},
		{"Length", "1 9/0 in", "a fraction such as 5/8"}, {"Length", "1 9/ in", "a fraction such as 5/8"}, {"Length", "1 8/8 in", "a fraction below one"},
		{"Length", "2 ft x", length}, {"Length", "3-", length}, {"Length", "3 -", length}, {"Length", "3-4", length}, {"Length", "3- in", length},
		{"Length", "2 ft 1e1 in", length}, {"Length", "2 ft25", "unknown unit"}, {"Length", "2ft0", "unknown unit"}, {"Length", "2 ft 2", "unit missing"},
		{"Length", "2 ft. 2", "unit missing"}, {"Length", "2 ft.2", "unit missing"}, {"Length", "2' 2", "unit missing"}, {"Length", "2'-2", "unit missing"}, {"Length", "2 ft 0", "unit missing"},
		{"Length", "1/2 ft 3 in", "only the last part of a compound"}, {"Length", "99999999999999999999 ft 99999999999999999999 in", "smaller than one ft"},
		{"Area", "2 ft22", area}, {"Area", "2 ft2.5", area}, {"Area", "2 ft25 in2", area}, {"Area", "2 yd2.1 ft2", area}, {"Area", "2 ft2 2", "unit missing"},
		{"Mass", "2 ozx", "unknown unit"}, {"Area", "2 sq", area}, {"Area", "2 sq ", area}, {"Area", "2 sqft2", area},
		{"LinearDensity", "Nm", count}, {"LinearDensity", "Nm x", count}, {"LinearDensity", "Nm 40 tex", count}, {"LinearDensity", "Nm 40/", "a fraction such as 5/8"},
		{"LinearDensity", "5 tex 3 Nm", count}, {"LinearDensity", "3 Nm 5 tex", count}, {"LinearDensity", "20 yd/lb 3 Nm", count}, {"LinearDensity", "Nm 0", "a count above zero"},
		{"LinearDensity", "0 2/3 Nm", "the count of the whole thread"}, {"LinearDensity", "1 2/3 tex", "the count of the whole thread"},
		{"Force", "4 ozf 1 lbf", "the larger unit first"}, {"Force", "1 lbf 2 lbf", "the larger unit first"}, {"Force", "1 lbf 16 ozf", "smaller than one lbf"},
	} {
		_, err := parsers[r.kind](r.text)
		assert.ErrorContains(t, err, r.want, "%q", r.text)
	}
}

// Numbers that do not fit the quick way of counting count all the same, or are
// refused.
func TestParseReadsManyDigits(t *testing.T) {
	for _, text := range []string{
		"99999999999999999999 nm", "99999999999999999999/5 in", "99999999999999999999 ft 11 in", "18446744073709551615 ft 11 in",
		"6148914691236517205 yd 2 ft", "6148914691236517205 yd 2 ft 1 in", "99999999999999999999 yd 2 ft 1 in",
	} {
		_, err := unit.ParseLength(text)
		assert.ErrorIs(t, err, unit.ErrOverflow, text)
	}
	for text, want := range map[string]unit.Length{
		"5/99999999999999999999 in": 0, "0.00000000000000000001 in": 0, "0.99999999999999999999 in": unit.Inch, "1844674407370955161.9 nm": 1844674407370955162,
		"1 184467440737095516/184467440737095517 nm": 2, "99999999999999999999e-19 in": 10 * unit.Inch,
		strings.Repeat(" ", 156) + "5 in": 5 * unit.Inch, "5''": 5 * unit.Inch, "5`": 5 * unit.Foot, "5\tin": 5 * unit.Inch,
	} {
		got, err := unit.ParseLength(text)
		assert.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for text, want := range map[string]unit.Force{
		"99999999999999999999 kN 999 N 99 cN": 99999999999999999999999.99, "-1 lbf 3 ozf": -4.4482216152605 * 19 / 16, "0.00000000000000000000001 N": 1e-23,
	} {
		got, err := unit.ParseForce(text)
		assert.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
}

// The refusals that do not depend on the kind hold for every parser.
func TestEveryParserRefuses(t *testing.T) {
	for name, parse := range parsers {
		for text, want := range map[string]error{
			"": unit.ErrSyntax, "1,5": unit.ErrDecimalComma, "1 parsec": unit.ErrUnknownUnit, "x": unit.ErrSyntax,
			strings.Repeat(" ", 200): unit.ErrSyntax, "\xff": unit.ErrSyntax,
		} {
			_, err := parse(text)
			assert.ErrorIs(t, err, want, "%s(%q)", name, text)
		}
		if name != "Ratio" {
			_, err := parse("1")
			assert.ErrorIs(t, err, unit.ErrMissingUnit, name)
		}
	}
	for text, parse := range map[string]string{
		"1e999 N": "Force", "1e400 kPa": "Pressure", "1e400 kg/m3": "Density", "1e400 g/m2": "AreaDensity", "1e400 tex": "LinearDensity",
		"1e400 deg": "Angle", "1e400": "Ratio", "-1e400 %": "Ratio", "1e-400 Nm": "LinearDensity",
		"1e30 h": "Duration", "1e30 kg": "Mass", "1e30 l": "Volume", "1e30 m2": "Area", "1e30 oz": "Thickness",
		"9223372036854775808 nm": "Length", "-9223372036854775809 nm": "Length", "9223372036854775807.5 nm": "Length",
	} {
		_, err := parsers[parse](text)
		assert.ErrorIs(t, err, unit.ErrOverflow, "%s(%q)", parse, text)
	}
	for _, text := range []string{"210/3 den", "40/2 tex", "tex 40/2", "5 1/2 tex", "Ne 2/30", "2/30 Ne"} {
		_, err := unit.ParseLinearDensity(text)
		assert.ErrorIs(t, err, unit.ErrSyntax, text)
	}
	for _, text := range []string{"0 Nm", "Ne 0", "0 yd/lb"} {
		_, err := unit.ParseLinearDensity(text)
		assert.ErrorIs(t, err, unit.ErrRange, text)
	}
	for _, text := range []string{"3/4 oz", "1/2 oz", " 7/8  OZ.", "3/4 ounces", "9/10oz"} {
		_, err := unit.ParseThickness(text)
		assert.ErrorIs(t, err, unit.ErrSyntax, text)
	}
}

func TestParseReadsTheExtremes(t *testing.T) {
	for text, want := range map[string]unit.Length{
		"9223372036854775807 nm": 1<<63 - 1, "-9223372036854775808 nm": -1 << 63,
		"9223372036854775807.49 nm": 1<<63 - 1, "-9223372036854775808.49 nm": -1 << 63,
		"0.5 nm": 1, "0.49 nm": 0, "-0.5 nm": -1, "-0.49 nm": 0, "1e-999 in": 0,
	} {
		got, err := unit.ParseLength(text)
		assert.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
}

// parsers holds every parser of the package, so that a law can run over all.
var parsers = map[string]func(string) (quantity, error){
	"Length": anyKind(unit.ParseLength), "Thickness": anyKind(unit.ParseThickness), "Area": anyKind(unit.ParseArea),
	"Volume": anyKind(unit.ParseVolume), "Mass": anyKind(unit.ParseMass), "Duration": anyKind(unit.ParseDuration),
	"Force": anyKind(unit.ParseForce), "Pressure": anyKind(unit.ParsePressure), "Density": anyKind(unit.ParseDensity),
	"AreaDensity": anyKind(unit.ParseAreaDensity), "LinearDensity": anyKind(unit.ParseLinearDensity),
	"Angle": anyKind(unit.ParseAngle), "Ratio": anyKind(unit.ParseRatio),
}

type quantity interface{ String() string }

func anyKind[Q quantity](parse func(string) (Q, error)) func(string) (quantity, error) {
	return func(s string) (quantity, error) { return parse(s) }
}

func TestErrorTextIsOneReadableLine(t *testing.T) {
	_, err := unit.ParseLength("25")
	assert.EqualError(t, err, "“25”: unit missing; want one of: in, ft, yd, mm, cm, m, mil, um, nm")
	err = unit.InField("panels[1]", unit.InField("width", err))
	assert.EqualError(t, err, "panels[1].width: “25”: unit missing; want one of: in, ft, yd, mm, cm, m, mil, um, nm")
	hostile := &unit.InputError{Field: unit.Path("a\nb" + strings.Repeat("c", 1000)), Value: "x\ny\u2028\u202e\x1b[31m" + strings.Repeat("z", 1000), Err: unit.ErrRange}
	assert.Less(t, len(hostile.Error()), 400)
	whole := strings.Repeat("x", 60)
	assert.EqualError(t, &unit.InputError{Value: whole}, "“"+whole+"”: invalid")
	assert.EqualError(t, &unit.InputError{Value: whole + "x"}, "“"+whole+"…”: invalid")
	for _, r := range hostile.Error() {
		assert.False(t, r < ' ' || r == '\u2028' || r == '\u202e', "%q", r)
	}
	assert.EqualError(t, &unit.InputError{}, "invalid")
}

func TestInField(t *testing.T) {
	require.NoError(t, unit.InField("x", nil))
	plain := errors.New("plain")
	err := unit.InField("x", plain)
	require.ErrorIs(t, err, plain)
	require.EqualError(t, err, "x: plain")

	in := &unit.InputError{Field: "[2]", Err: unit.ErrRange}
	require.EqualError(t, unit.InField("list", in), "list[2]: out of range")
	require.EqualError(t, unit.InField("", in), "[2]: out of range")
	require.Equal(t, "[2]", string(in.Field), "the given error must not change")

	both := unit.InField("x", errors.Join(in, plain, nil))
	require.ErrorIs(t, both, unit.ErrRange)
	require.ErrorIs(t, both, plain, "joined errors must not get lost")
	require.EqualError(t, both, "x[2]: out of range\nx: plain")
}
