package unit_test

import (
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/unit"
)

func TestMixed(t *testing.T) {
	const in, sixtyFourth = unit.Inch, unit.Inch / 64
	for _, r := range []struct {
		l     unit.Length
		u     unit.Length
		d     unit.Denominator
		r     unit.Rounding
		wants string
	}{
		{25*in + 5*in/8, in, unit.Eighths, unit.Nearest, "25 5/8 in"},
		{25*in + 5*in/8, in, unit.SixtyFourths, unit.Up, "25 5/8 in"},
		{25*in + 5*in/8, in, unit.Quarters, unit.Nearest, "25 3/4 in"}, // a tie goes away from zero
		{25*in + 5*in/8, in, unit.Quarters, unit.Up, "25 3/4 in"},
		{25*in + 5*in/8, in, unit.Quarters, unit.Down, "25 1/2 in"},
		{25*in + 5*in/8, in, unit.Halves, unit.Nearest, "25 1/2 in"},
		{25*in + 5*in/8, in, unit.Whole, unit.Nearest, "26 in"},
		{25*in + 5*in/8, in, unit.Whole, unit.Down, "25 in"},
		{-25*in - 5*in/8, in, unit.Quarters, unit.Nearest, "-25 3/4 in"},
		{-25*in - 5*in/8, in, unit.Quarters, unit.Up, "-25 1/2 in"},
		{-25*in - 5*in/8, in, unit.Quarters, unit.Down, "-25 3/4 in"},
		{5 * in / 8, in, unit.Eighths, unit.Nearest, "5/8 in"},
		{sixtyFourth, in, unit.SixtyFourths, unit.Nearest, "1/64 in"},
		{63 * sixtyFourth, in, unit.ThirtySeconds, unit.Nearest, "1 in"},
		{63 * sixtyFourth, in, unit.ThirtySeconds, unit.Down, "31/32 in"},
		{15 * in / 16, in, unit.Sixteenths, unit.Nearest, "15/16 in"},
		{1, in, unit.SixtyFourths, unit.Nearest, "0 in"},
		{1, in, unit.SixtyFourths, unit.Up, "1/64 in"},
		{-1, in, unit.SixtyFourths, unit.Nearest, "0 in"},
		{-1, in, unit.SixtyFourths, unit.Up, "0 in"},
		{-1, in, unit.SixtyFourths, unit.Down, "-1/64 in"},
		{0, in, unit.SixtyFourths, unit.Nearest, "0 in"},
		{270 * in, unit.Yard, unit.Eighths, unit.Up, "7 1/2 yd"},
		{271 * in, unit.Yard, unit.Eighths, unit.Up, "7 5/8 yd"},
		{30 * in, unit.Foot, unit.Quarters, unit.Nearest, "2 1/2 ft"},
		{math.MaxInt64, in, unit.SixtyFourths, unit.Down, "363124883340 47/64 in"},
		{math.MinInt64, in, unit.Whole, unit.Up, "-363124883340 in"},
		{3 * unit.Metre, unit.Metre, unit.Halves, unit.Nearest, "3 m"},
		{2*unit.Metre + 500*unit.Millimetre, unit.Metre, unit.Halves, unit.Nearest, "2 1/2 m"},
		{-7 * unit.LeatherOunce / 2, unit.LeatherOunce, unit.Halves, unit.Nearest, "-3 1/2 oz"},
		{math.MinInt64, unit.Nanometre, unit.SixtyFourths, unit.Nearest, "-9223372036854775808 nm"},
		// What is no unit or no denominator gives the length without loss.
		{in, unit.Inch + 1, unit.Halves, unit.Nearest, "1 in"},
		{in, 0, unit.Halves, unit.Nearest, "1 in"},
		{in, in, 7, unit.Nearest, "1 in"},
	} {
		assert.Equal(t, r.wants, r.l.Mixed(r.u, r.d, r.r), "%d nm in %d, %d, %v", r.l, r.u, r.d, r.r)
	}
}

func TestFeetInches(t *testing.T) {
	const in = unit.Inch
	for _, r := range []struct {
		l     unit.Length
		d     unit.Denominator
		r     unit.Rounding
		wants string
	}{
		{25*in + 5*in/8, unit.Eighths, unit.Nearest, `2' 1 5/8"`},
		{-25*in - 5*in/8, unit.Eighths, unit.Nearest, `-2' 1 5/8"`},
		{24 * in, unit.Eighths, unit.Nearest, `2'`},
		{24*in + in/2, unit.Eighths, unit.Nearest, `2' 1/2"`},
		{23*in + 15*in/16, unit.Eighths, unit.Nearest, `2'`},
		{11 * in, unit.Eighths, unit.Nearest, `11"`},
		{-in / 2, unit.Eighths, unit.Nearest, `-1/2"`},
		{0, unit.Eighths, unit.Nearest, `0"`},
		{math.MinInt64, unit.Whole, unit.Down, `-30260406945' 1"`},
		{in / 64, unit.SixtyFourths, unit.Nearest, `1/64"`},
		{in, 7, unit.Nearest, "1 in"},
	} {
		assert.Equal(t, r.wants, r.l.FeetInches(r.d, r.r), "%d", r.l)
	}
}

func TestDenominatorParts(t *testing.T) {
	want := 1
	for d := unit.Whole; d <= unit.SixtyFourths; d++ {
		assert.Equal(t, want, d.Parts())
		want *= 2
	}
	assert.Equal(t, 64, unit.Denominator(255).Parts())
}

func TestDecimal(t *testing.T) {
	for _, r := range []struct{ got, wants string }{
		{(652*unit.Millimetre + 400*unit.Micrometre).Decimal(unit.Centimetre, 1, unit.Nearest), "65.2 cm"},
		{(652*unit.Millimetre + 500*unit.Micrometre).Decimal(unit.Millimetre, 0, unit.Nearest), "653 mm"},
		{(652*unit.Millimetre + 500*unit.Micrometre).Decimal(unit.Millimetre, 0, unit.Down), "652 mm"},
		{(-652*unit.Millimetre - 500*unit.Micrometre).Decimal(unit.Millimetre, 0, unit.Nearest), "-653 mm"},
		{(-652*unit.Millimetre - 500*unit.Micrometre).Decimal(unit.Millimetre, 0, unit.Up), "-652 mm"},
		{unit.Length(-1).Decimal(unit.Millimetre, 2, unit.Nearest), "0.00 mm"},
		{unit.Length(math.MinInt64).Decimal(unit.Nanometre, 0, unit.Nearest), "-9223372036854775808 nm"},
		{(3 * unit.LeatherOunce).Decimal(unit.LeatherOunce, 1, unit.Nearest), "3.0 oz"},
		{(unit.SquareFoot / 3).Decimal(unit.SquareFoot, 15, unit.Nearest), "0.333333333333333 sq ft"},
		{(452 * unit.SquareDecimetre).Decimal(unit.SquareMetre, 1, unit.Up), "4.6 m2"},
		{(16 * unit.BoardFoot).Decimal(unit.Litre, 1, unit.Down), "37.7 l"},
		{(unit.Pound).Decimal(unit.Kilogram, 3, unit.Nearest), "0.454 kg"},
		{(14*unit.Hour + 29*unit.Minute).Decimal(unit.Hour, 2, unit.Nearest), "14.48 h"},
		{unit.PoundForce.Decimal(unit.Newton, 3, unit.Nearest), "4.448 N"},
		{(2.8 * unit.PoundPerCubicFoot).Decimal(unit.PoundPerCubicFoot, 1, unit.Up), "2.8 lb/ft3"},
		{unit.PoundPerSquareInch.Decimal(unit.Kilopascal, 2, unit.Nearest), "6.89 kPa"},
		{(12 * unit.OuncePerSquareYard).Decimal(unit.OuncePerSquareYard, 0, unit.Up), "12 oz/yd2"},
		{(90 * unit.Tex).Decimal(unit.Denier, 0, unit.Nearest), "810 den"},
		{unit.Radian.Decimal(unit.Degree, 4, unit.Nearest), "57.2958 deg"},
		{unit.Ratio(1.0/3).PercentText(1, unit.Nearest), "33.3 %"},
		{unit.Ratio(-0.125).PercentText(0, unit.Nearest), "-13 %"},
		{unit.Ratio(1.1).PercentText(0, unit.Up), "110 %"},
		{unit.Ratio(0.125).PercentText(13, unit.Nearest), "12.5000000000000 %"},
		// The first and the last number of places, and those beside them.
		{unit.Inch.Decimal(unit.Inch, 15, unit.Nearest), "1.000000000000000 in"},
		{unit.SquareInch.Decimal(unit.SquareInch, 15, unit.Nearest), "1.000000000000000 sq in"},
		{unit.SquareInch.Decimal(unit.SquareInch, 0, unit.Nearest), "1 sq in"},
		{(unit.SquareFoot / 2).Decimal(unit.SquareFoot, 0, unit.Up), "1 sq ft"},
		{unit.SquareInch.Decimal(unit.SquareInch, 16, unit.Nearest), "1 sq in"},
		{(unit.CubicFoot / 2).Decimal(unit.CubicFoot, 0, unit.Up), "1 cu ft"},
		{unit.CubicInch.Decimal(unit.CubicInch, 15, unit.Nearest), "1.000000000000000 cu in"},
		{unit.CubicInch.Decimal(unit.CubicInch, 16, unit.Nearest), "1 cu in"},
		{(unit.Pound / 2).Decimal(unit.Pound, 0, unit.Up), "1 lb"},
		{unit.Pound.Decimal(unit.Pound, 15, unit.Nearest), "1.000000000000000 lb"},
		{unit.Pound.Decimal(unit.Pound, 16, unit.Nearest), "1 lb"},
		{(unit.Hour / 2).Decimal(unit.Hour, 0, unit.Up), "1 h"},
		{unit.Hour.Decimal(unit.Hour, 15, unit.Nearest), "1.000000000000000 h"},
		{unit.Hour.Decimal(unit.Hour, 16, unit.Nearest), "1 h"},
		{unit.Force(1.5).Decimal(unit.Newton, 0, unit.Up), "2 N"},
		{unit.Force(1.5).Decimal(unit.Newton, 15, unit.Up), "1.500000000000000 N"},
		{unit.Force(1.5).Decimal(unit.Newton, 16, unit.Up), "1.5 N"},
		// A format that cannot be gives the value as String does.
		{unit.Inch.Decimal(unit.Inch+1, 1, unit.Nearest), "1 in"},
		{unit.Inch.Decimal(unit.Inch, 16, unit.Nearest), "1 in"},
		{unit.Inch.Decimal(unit.Inch, -1, unit.Nearest), "1 in"},
		{unit.SquareInch.Decimal(0, 1, unit.Nearest), "1 sq in"},
		{unit.CubicInch.Decimal(0, 1, unit.Nearest), "1 cu in"},
		{unit.Pound.Decimal(0, 1, unit.Nearest), "1 lb"},
		{unit.Hour.Decimal(0, 1, unit.Nearest), "1 h"},
		{unit.Force(math.NaN()).Decimal(unit.Newton, 1, unit.Nearest), "NaN N"},
		{unit.Force(1).Decimal(0, 1, unit.Nearest), "1 N"},
		{unit.Force(math.MaxFloat64).Decimal(unit.Centinewton, 1, unit.Nearest), "1.7977e+308 N"},
		{unit.Pressure(math.Inf(1)).Decimal(unit.Pascal, 1, unit.Nearest), "+Inf Pa"},
		{unit.Density(math.Inf(-1)).Decimal(unit.KilogramPerCubicMetre, 1, unit.Nearest), "-Inf kg/m3"},
		{unit.AreaDensity(1).Decimal(7, 1, unit.Nearest), "1000 g/m2"},
		{unit.LinearDensity(1).Decimal(7, 1, unit.Nearest), "1 tex"},
		{unit.Angle(1).Decimal(7, 1, unit.Nearest), "1 deg"},
		{unit.Ratio(1).PercentText(14, unit.Nearest), "100 %"},
		{unit.Ratio(math.NaN()).PercentText(1, unit.Nearest), "NaN"},
	} {
		assert.Equal(t, r.wants, r.got)
	}
}

// A float64 that lies a hair above a step is on the step: 1.1 up to tenths is
// 1.1, although the nearest float64 is larger.
func TestFloatNoiseDoesNotRoundUp(t *testing.T) {
	for i := 1; i < 2000; i++ {
		f, err := unit.ForceOf(float64(i)/10, unit.PoundForce)
		require.NoError(t, err)
		want := fmt.Sprintf("%d.%d lbf", i/10, i%10)
		for _, r := range []unit.Rounding{unit.Nearest, unit.Up, unit.Down} {
			require.Equal(t, want, f.Decimal(unit.PoundForce, 1, r), "%d %v", i, r)
		}
	}
}

func TestString(t *testing.T) {
	for _, r := range []struct {
		q     fmt.Stringer
		wants string
	}{
		{unit.AreaDensity(2e-12), "0.000000002 g/m2"}, {unit.Force(2.3456789e-9), "0.0000000023457 N"},
		{25*unit.Inch + 5*unit.Inch/8, "25 5/8 in"}, {-unit.Inch / 64, "-1/64 in"}, {unit.Length(0), "0 in"},
		{652 * unit.Millimetre, "652 mm"}, {unit.Length(1), "0.000001 mm"}, {unit.Length(math.MinInt64), "-9223372036854.775808 mm"},
		{unit.Length(math.MaxInt64), "9223372036854.775807 mm"}, {254 * unit.Millimetre, "10 in"},
		{48 * unit.SquareFoot, "48 sq ft"}, {unit.SquareFoot / 100, "0.01 sq ft"}, {unit.SquareInch / 100, "0.01 sq in"},
		{452 * unit.SquareDecimetre, "4.52 m2"}, {unit.Area(1), "0.000001 mm2"}, {unit.Area(0), "0 sq ft"}, {-unit.SquareInch, "-1 sq in"},
		{unit.Area(math.MinInt64), "-9223372036854.775808 mm2"},
		{16 * unit.BoardFoot, "16 bd ft"}, {unit.CubicInch / 8, "0.125 cu in"}, {unit.Litre, "0.001 m3"}, {unit.Volume(1), "0.000000001 l"}, {unit.Volume(0), "0 cu in"},
		{3 * unit.Pound / 2, "1.5 lb"}, {250 * unit.Gram, "0.25 kg"}, {unit.Mass(0), "0 lb"}, {unit.Mass(math.MinInt64), "-9223372036.854775808 kg"},
		{14*unit.Hour + 30*unit.Minute, "14 h 30 min"}, {14 * unit.Hour, "14 h"}, {45 * unit.Minute, "45 min"}, {unit.Duration(0), "0 h"},
		{unit.Duration(12_500), "12.5 s"}, {36 * unit.Second, "0.01 h"}, {-90 * unit.Minute, "-1.5 h"}, {unit.Duration(math.MinInt64), "-9223372036854775.808 s"},
		{unit.PoundForce, "1 lbf"}, {33 * unit.PoundForce, "33 lbf"}, {unit.Force(146.7913), "146.79 N"}, {unit.Force(123_456.7), "123457 N"},
		{unit.Force(-0.0123456), "-0.012346 N"}, {unit.Force(99999.96), "100000 N"}, {unit.Force(1e-12), "1e-12 N"}, {unit.Force(0), "0 N"}, {unit.Force(math.Copysign(0, -1)), "0 N"}, {unit.Force(1e300), "1e+300 N"}, {unit.Force(1e15), "1e+15 N"},
		{unit.Kilopascal, "1 kPa"}, {unit.Pressure(6.4 * unit.PoundPerSquareInch), "6.4 psi"}, {unit.Pressure(1234.5678), "1.2346 kPa"}, {unit.Density(44.85), "44.85 kg/m3"}, {2.8 * unit.PoundPerCubicFoot, "2.8 lb/ft3"},
		{unit.GramPerSquareMetre, "1 g/m2"}, {12 * unit.OuncePerSquareYard, "12 oz/yd2"}, {unit.AreaDensity(1.0 / 3), "333.33 g/m2"},
		{90 * unit.Tex, "90 tex"}, {70 * unit.Denier, "70 den"}, {unit.LinearDensity(11.0 / 7), "1.5714 tex"}, {45 * unit.Degree, "45 deg"}, {unit.Radian, "57.296 deg"},
		{25 * unit.Percent, "25 %"}, {unit.Ratio(0.025), "2.5 %"}, {unit.Ratio(1.1), "110 %"}, {unit.Ratio(1.0 / 3), "33.333 %"}, {unit.Ratio(0.1) + 0.2, "30 %"}, {unit.Ratio(123_456.789), "123457"}, {unit.Ratio(9.999999), "1000 %"}, {unit.Ratio(0.0887525), "8.8753 %"}, {unit.Ratio(12.5), "12.5"}, {unit.Ratio(1e-10), "1e-10"}, {unit.Ratio(0), "0 %"}, {unit.Ratio(-0.005), "-0.5 %"},
		{unit.Ratio(math.NaN()), "NaN"}, {unit.Force(math.Inf(1)), "+Inf N"},
		{unit.Nearest, "nearest"}, {unit.Up, "up"}, {unit.Down, "down"}, {unit.Rounding(9), "unknown rounding"},
	} {
		assert.Equal(t, r.wants, r.q.String())
	}
}

// textual is what every kind offers to JSON and other text formats.
type textual[Q any] interface {
	*Q
	encoding.TextUnmarshaler
}

func roundTrip[Q interface {
	comparable
	encoding.TextMarshaler
	fmt.Stringer
}, P textual[Q]](t require.TestingT, q Q) {
	text, err := q.MarshalText()
	require.NoError(t, err)
	if _, measured := any(q).(interface{ Check() error }); !measured {
		require.Equal(t, q.String(), string(text))
	}
	var back Q
	require.NoError(t, P(&back).UnmarshalText(text), "%s", text)
	require.Equal(t, q, back, "%s", text)

	data, err := json.Marshal(map[string]Q{"q": q})
	require.NoError(t, err)
	var m map[string]Q
	require.NoError(t, json.Unmarshal(data, &m), "%s", data)
	require.Equal(t, q, m["q"], "%s", data)
}

func TestTextKeepsExtremes(t *testing.T) {
	for _, n := range []int64{0, 1, -1, math.MaxInt64, math.MinInt64, math.MaxInt64 - 1, math.MinInt64 + 1} {
		roundTrip(t, unit.Length(n))
		roundTrip(t, unit.Area(n))
		roundTrip(t, unit.Volume(n))
		roundTrip(t, unit.Mass(n))
		roundTrip(t, unit.Duration(n))
	}
	for _, x := range []float64{0, 1, -1, math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64, -math.SmallestNonzeroFloat64,
		0.1, 1.0 / 3, 1e15, 1e15 - 0.125, 1e-9, 9.99999e-10, 10, 9.999999999999998, math.Pi} {
		roundTrip(t, unit.Force(x))
		roundTrip(t, unit.Pressure(x))
		roundTrip(t, unit.Density(x))
		roundTrip(t, unit.AreaDensity(x))
		roundTrip(t, unit.LinearDensity(x))
		roundTrip(t, unit.Angle(x))
		roundTrip(t, unit.Ratio(x))
	}
}

func TestUnmarshalLeavesTheValueOnError(t *testing.T) {
	refuse := func(u encoding.TextUnmarshaler) { assert.Error(t, u.UnmarshalText([]byte("nonsense"))) }
	l, a, v, m, d := unit.Inch, unit.SquareInch, unit.CubicInch, unit.Pound, unit.Hour
	f, p, rho, ad, ld, an, r := unit.Newton, unit.Pascal, unit.KilogramPerCubicMetre, unit.KilogramPerSquareMetre, unit.Tex, unit.Degree, unit.Percent
	for _, u := range []encoding.TextUnmarshaler{&l, &a, &v, &m, &d, &f, &p, &rho, &ad, &ld, &an, &r} {
		refuse(u)
	}
	assert.Equal(t, []any{unit.Inch, unit.SquareInch, unit.CubicInch, unit.Pound, unit.Hour}, []any{l, a, v, m, d})
	assert.Equal(t, []any{unit.Newton, unit.Pascal, unit.KilogramPerCubicMetre, unit.KilogramPerSquareMetre, unit.Tex, unit.Degree, unit.Percent},
		[]any{f, p, rho, ad, ld, an, r})
}

func TestJSONNamesTheFault(t *testing.T) {
	var in struct{ Width unit.Length }
	err := json.Unmarshal([]byte(`{"Width":"25,5 in"}`), &in)
	require.ErrorIs(t, err, unit.ErrDecimalComma)
	require.Error(t, json.Unmarshal([]byte(`{"Width":25}`), &in), "a bare number is no length")
	require.NotContains(t, err.Error(), "\n")
}

func TestMarshalRefusesNotFinite(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for _, m := range []encoding.TextMarshaler{unit.Force(x), unit.Pressure(x), unit.Density(x), unit.AreaDensity(x), unit.LinearDensity(x), unit.Angle(x), unit.Ratio(x)} {
			_, err := m.MarshalText()
			assert.ErrorIs(t, err, unit.ErrNotFinite, "%T %v", m, x)
		}
	}
}

// What people read lies within half a step of the fifth digit of what is
// meant, and what was said in a round number is written so.
func TestStringIsTheValueToFiveDigits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := floats.Filter(func(x float64) bool { return math.Abs(x) < 1e308 }).Draw(t, "x") // rounding could go beyond
		near := func(got float64, err error) {
			require.NoError(t, err)
			require.InDelta(t, x, got, 0.6e-4*math.Abs(x))
		}
		f, err := unit.ParseForce(unit.Force(x).String())
		near(float64(f), err)
		p, err := unit.ParsePressure(unit.Pressure(x).String())
		near(float64(p), err)
		rho, err := unit.ParseDensity(unit.Density(x).String())
		near(float64(rho), err)
		ad, err := unit.ParseAreaDensity(unit.AreaDensity(x).String())
		near(float64(ad), err)
		ld, err := unit.ParseLinearDensity(unit.LinearDensity(x).String())
		near(float64(ld), err)
		an, err := unit.ParseAngle(unit.Angle(x).String())
		near(float64(an), err)
		r, err := unit.ParseRatio(unit.Ratio(x).String())
		near(float64(r), err)

		tenths := rapid.IntRange(1, 9999).Draw(t, "tenths")
		said := strings.TrimSuffix(fmt.Sprintf("%d.%d", tenths/10, tenths%10), ".0")
		f, err = unit.ParseForce(said + " lbf")
		require.NoError(t, err)
		require.Equal(t, said+" lbf", f.String())
		rho, err = unit.ParseDensity(said + " lb/ft3")
		require.NoError(t, err)
		require.Equal(t, said+" lb/ft3", rho.String())
	})
}

// No format, however wrong, gives a text that stands for nothing.
func FuzzFormats(f *testing.F) {
	f.Add(int64(3*unit.Metre), int64(unit.Metre), uint8(1), uint8(0), 2, 146.7913133035965)
	f.Add(int64(math.MinInt64), int64(unit.Nanometre), uint8(6), uint8(2), 15, math.Inf(-1))
	f.Add(int64(1), int64(0), uint8(200), uint8(9), -1, math.NaN())
	f.Fuzz(func(t *testing.T, n, u int64, den, rounding uint8, places int, x float64) {
		l, d, r := unit.Length(n), unit.Denominator(den), unit.Rounding(rounding)
		texts := []string{l.FeetInches(d, r), unit.Ratio(x).PercentText(places, r)}
		for _, u := range []unit.Length{unit.Length(u), unit.Nanometre, unit.Micrometre, unit.Millimetre, unit.Centimetre, unit.Metre,
			unit.Mil, unit.Inch, unit.Foot, unit.Yard} {
			texts = append(texts, l.Mixed(u, d, r), l.Decimal(u, places, r))
		}
		for _, text := range texts[2:] {
			_, err := unit.ParseLength(text)
			if err != nil && !errors.Is(err, unit.ErrOverflow) && u != int64(unit.LeatherOunce) {
				t.Errorf("%q is no length: %v", text, err)
			}
		}
		texts = append(texts, unit.Area(n).Decimal(unit.Area(u), places, r), unit.Volume(n).Decimal(unit.Volume(u), places, r),
			unit.Mass(n).Decimal(unit.Mass(u), places, r), unit.Duration(n).Decimal(unit.Duration(u), places, r),
			unit.Force(x).Decimal(unit.Force(u), places, r), unit.Pressure(x).Decimal(unit.Pascal, places, r),
			unit.Density(x).Decimal(unit.PoundPerCubicFoot, places, r), unit.AreaDensity(x).Decimal(unit.OuncePerSquareYard, places, r),
			unit.LinearDensity(x).Decimal(unit.Denier, places, r), unit.Angle(x).Decimal(unit.Radian, places, r))
		for _, text := range texts {
			if text == "" || strings.Contains(text, "%!") {
				t.Errorf("%q", text)
			}
		}
	})
}
