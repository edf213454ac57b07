package unit_test

import (
	"fmt"
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/unit"
)

// The laws hold for every int64, so the generators mix small values, whole
// units and the edges of the type.

var int64s = rapid.OneOf(
	rapid.Int64(),
	rapid.Int64Range(-1000, 1000),
	rapid.Int64Range(math.MaxInt64-1000, math.MaxInt64),
	rapid.Int64Range(math.MinInt64, math.MinInt64+1000),
	rapid.Map(rapid.Int64Range(-1<<31, 1<<31), func(n int64) int64 { return n * 396_875 }), // 64ths of an inch
	rapid.Map(rapid.Int64Range(-1<<20, 1<<20), func(n int64) int64 { return n * 1_000_000 }),
)

// shopLengths are the lengths of a workroom: up to 100 m.
var shopLengths = rapid.Map(rapid.Int64Range(0, 100_000_000_000), func(n int64) unit.Length { return unit.Length(n) })

var floats = rapid.OneOf(rapid.Float64(), rapid.Float64Range(-1000, 1000), rapid.Float64Range(0, 1e-8)).
	Filter(func(x float64) bool { return !math.IsInf(x, 0) && !math.IsNaN(x) })

var roundings = rapid.SampledFrom([]unit.Rounding{unit.Nearest, unit.Up, unit.Down})

func TestTextRoundTripsExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := int64s.Draw(t, "n")
		roundTrip(t, unit.Length(n))
		roundTrip(t, unit.Area(n))
		roundTrip(t, unit.Volume(n))
		roundTrip(t, unit.Mass(n))
		roundTrip(t, unit.Duration(n))
		x := floats.Draw(t, "x")
		roundTrip(t, unit.Force(x))
		roundTrip(t, unit.Pressure(x))
		roundTrip(t, unit.Density(x))
		roundTrip(t, unit.AreaDensity(x))
		roundTrip(t, unit.LinearDensity(x))
		roundTrip(t, unit.Angle(x))
		roundTrip(t, unit.Ratio(x))
	})
}

// What lies on the grid of a tape measure reads back as it was written.
func TestParseAfterFormatIsIdentityOnTheGrid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := unit.Denominator(rapid.IntRange(0, 6).Draw(t, "d"))
		r := roundings.Draw(t, "rounding")
		k := rapid.Int64Range(-1<<30, 1<<30).Draw(t, "k")
		for _, u := range []unit.Length{unit.Inch, unit.Foot, unit.Yard} {
			l := unit.Length(k) * u / unit.Length(d.Parts())
			back, err := unit.ParseLength(l.Mixed(u, d, r))
			require.NoError(t, err)
			require.Equal(t, l, back)
		}
		l := unit.Length(k) * unit.Inch / unit.Length(d.Parts())
		back, err := unit.ParseLength(l.FeetInches(d, r))
		require.NoError(t, err, l.FeetInches(d, r))
		require.Equal(t, l, back)

		mm, err := unit.ParseLength((unit.Length(k) * unit.Millimetre / 100).Decimal(unit.Millimetre, 2, r))
		require.NoError(t, err)
		require.Equal(t, unit.Length(k)*unit.Millimetre/100, mm)
		sq, err := unit.ParseArea((unit.Area(k) * unit.SquareInch / 10).Decimal(unit.SquareInch, 1, r))
		require.NoError(t, err)
		require.Equal(t, unit.Area(k)*unit.SquareInch/10, sq)
		bf, err := unit.ParseVolume((unit.Volume(k) * unit.BoardFoot / 8).Decimal(unit.BoardFoot, 3, r))
		require.NoError(t, err)
		require.Equal(t, unit.Volume(k)*unit.BoardFoot/8, bf)
		g, err := unit.ParseMass((unit.Mass(k) * unit.Gram / 10).Decimal(unit.Gram, 1, r))
		require.NoError(t, err)
		require.Equal(t, unit.Mass(k)*unit.Gram/10, g)
		h, err := unit.ParseDuration((unit.Duration(k) * unit.Hour / 100).Decimal(unit.Hour, 2, r))
		require.NoError(t, err)
		require.Equal(t, unit.Duration(k)*unit.Hour/100, h)
	})
}

// rounds checks the three directions on one pair of a value and its rounding.
func rounds(t require.TestingT, was, is, step *big.Rat, r unit.Rounding) {
	diff := new(big.Rat).Sub(is, was)
	size := new(big.Rat).Abs(diff)
	switch r {
	case unit.Up:
		require.True(t, diff.Sign() >= 0, "up must not shorten: %v", diff)
		require.True(t, size.Cmp(step) < 0, "up by less than a step")
	case unit.Down:
		require.True(t, diff.Sign() <= 0, "down must not lengthen: %v", diff)
		require.True(t, size.Cmp(step) < 0, "down by less than a step")
	default:
		require.True(t, size.Cmp(new(big.Rat).Mul(step, big.NewRat(1, 2))) <= 0, "nearest within half a step")
	}
}

func rat(n int64) *big.Rat { return new(big.Rat).SetInt64(n) }

func TestRoundingKeepsItsDirection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := int64s.Draw(t, "n")
		r := roundings.Draw(t, "rounding")
		step := rapid.OneOf(rapid.Int64Range(1, 1<<40), rapid.Int64Range(1, math.MaxInt64)).Draw(t, "step")

		got, err := unit.Length(n).RoundTo(unit.Length(step), r)
		if err == nil {
			rounds(t, rat(n), rat(int64(got)), rat(step), r)
			require.Zero(t, int64(got)%step)
			again, err := got.RoundTo(unit.Length(step), r)
			require.NoError(t, err)
			require.Equal(t, got, again, "rounding twice changes nothing")
		} else {
			require.ErrorIs(t, err, unit.ErrOverflow)
			require.True(t, n > math.MaxInt64-step || n < math.MinInt64+step, "overflow only near the edge")
		}
		a, errA := unit.Area(n).RoundTo(unit.Area(step), r)
		v, errV := unit.Volume(n).RoundTo(unit.Volume(step), r)
		m, errM := unit.Mass(n).RoundTo(unit.Mass(step), r)
		d, errD := unit.Duration(n).RoundTo(unit.Duration(step), r)
		require.Equal(t, [4]int64{int64(got), int64(got), int64(got), int64(got)}, [4]int64{int64(a), int64(v), int64(m), int64(d)})
		for _, e := range []error{errA, errV, errM, errD} {
			require.Equal(t, err == nil, e == nil)
		}

		den := unit.Denominator(rapid.IntRange(0, 6).Draw(t, "d"))
		u := rapid.SampledFrom([]unit.Length{unit.Inch, unit.Foot, unit.Yard}).Draw(t, "u")
		parts := big.NewRat(int64(u), int64(den.Parts()))
		if back, err := unit.ParseLength(unit.Length(n).Mixed(u, den, r)); err == nil {
			rounds(t, rat(n), rat(int64(back)), parts, r)
		} else {
			require.ErrorIs(t, err, unit.ErrOverflow)
		}
		if back, err := unit.ParseLength(unit.Length(n).FeetInches(den, r)); err == nil {
			rounds(t, rat(n), rat(int64(back)), big.NewRat(int64(unit.Inch), int64(den.Parts())), r)
		} else {
			require.ErrorIs(t, err, unit.ErrOverflow)
		}
	})
}

func TestDecimalKeepsItsDirection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := unit.Length(int64s.Draw(t, "n"))
		u := rapid.SampledFrom([]unit.Length{unit.Millimetre, unit.Centimetre, unit.Inch, unit.Yard}).Draw(t, "u")
		places := rapid.IntRange(0, 15).Draw(t, "places")
		r := roundings.Draw(t, "rounding")
		var written string
		_, err := fmt.Sscan(l.Decimal(u, places, r), &written)
		require.NoError(t, err)
		x, ok := new(big.Rat).SetString(written)
		require.True(t, ok, written)
		step := new(big.Rat).SetFrac(big.NewInt(1), new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil))
		rounds(t, big.NewRat(int64(l), int64(u)), x, step, r)
	})
}

// agree checks a checked operation against the true result: the same value
// when it fits an int64, else a refusal as too large and no value.
func agree[Q ~int64](t require.TestingT, want *big.Int, got Q, err error) {
	if want.IsInt64() {
		require.NoError(t, err)
		require.Equal(t, want.Int64(), int64(got))
		return
	}
	require.ErrorIs(t, err, unit.ErrOverflow)
	require.Zero(t, got)
}

// round is the definition of rounding: floor, ceiling, or the nearer of both
// with ties away from zero.
func round(x *big.Rat, r unit.Rounding) *big.Int {
	floor := new(big.Int).Div(x.Num(), x.Denom()) // Euclidean: the floor for a positive divisor
	ceil := new(big.Int).Neg(new(big.Int).Div(new(big.Int).Neg(x.Num()), x.Denom()))
	switch r {
	case unit.Down:
		return floor
	case unit.Up:
		return ceil
	}
	below := new(big.Rat).Sub(x, new(big.Rat).SetInt(floor))
	above := new(big.Rat).Sub(new(big.Rat).SetInt(ceil), x)
	if c := below.Cmp(above); c < 0 || c == 0 && x.Sign() < 0 {
		return floor
	}
	return ceil
}

func TestSumsAndDifferencesAgreeWithBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := int64s.Draw(t, "x"), int64s.Draw(t, "y")
		bx, by := big.NewInt(x), big.NewInt(y)
		plus, minus := new(big.Int).Add(bx, by), new(big.Int).Sub(bx, by)
		l, err := unit.Length(x).Plus(unit.Length(y))
		agree(t, plus, l, err)
		l, err = unit.Length(x).Minus(unit.Length(y))
		agree(t, minus, l, err)
		a, err := unit.Area(x).Plus(unit.Area(y))
		agree(t, plus, a, err)
		a, err = unit.Area(x).Minus(unit.Area(y))
		agree(t, minus, a, err)
		v, err := unit.Volume(x).Plus(unit.Volume(y))
		agree(t, plus, v, err)
		v, err = unit.Volume(x).Minus(unit.Volume(y))
		agree(t, minus, v, err)
		m, err := unit.Mass(x).Plus(unit.Mass(y))
		agree(t, plus, m, err)
		m, err = unit.Mass(x).Minus(unit.Mass(y))
		agree(t, minus, m, err)
		d, err := unit.Duration(x).Plus(unit.Duration(y))
		agree(t, plus, d, err)
	})
}

func TestMultiplesAgreeWithBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := int64s.Draw(t, "x")
		n := int(rapid.OneOf(rapid.Int64Range(-1000, 1000), int64s).Draw(t, "n"))
		den := int(rapid.OneOf(rapid.Int64Range(-1000, 1000), int64s).Draw(t, "den"))
		r := roundings.Draw(t, "rounding")
		times := new(big.Int).Mul(big.NewInt(x), big.NewInt(int64(n)))
		l, err := unit.Length(x).Times(n)
		agree(t, times, l, err)
		a, err := unit.Area(x).Times(n)
		agree(t, times, a, err)
		v, err := unit.Volume(x).Times(n)
		agree(t, times, v, err)
		m, err := unit.Mass(x).Times(n)
		agree(t, times, m, err)
		d, err := unit.Duration(x).Times(n)
		agree(t, times, d, err)

		l, err = unit.Length(x).MulDiv(n, den, r)
		if den == 0 {
			require.ErrorIs(t, err, unit.ErrDivideByZero)
			return
		}
		want := round(new(big.Rat).SetFrac(times, big.NewInt(int64(den))), r)
		agree(t, want, l, err)
		a, err = unit.Area(x).MulDiv(n, den, r)
		agree(t, want, a, err)
		v, err = unit.Volume(x).MulDiv(n, den, r)
		agree(t, want, v, err)
		m, err = unit.Mass(x).MulDiv(n, den, r)
		agree(t, want, m, err)
	})
}

// A ratio counts as the decimal it prints as.
func TestScaleAgreesWithBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := int64s.Draw(t, "x")
		permille := rapid.Int64Range(-5000, 5000).Draw(t, "permille")
		r := roundings.Draw(t, "rounding")
		want := round(new(big.Rat).Mul(rat(x), big.NewRat(permille, 1000)), r)
		ratio := unit.Ratio(float64(permille) / 1000)
		l, err := unit.Length(x).Scale(ratio, r)
		agree(t, want, l, err)
		a, err := unit.Area(x).Scale(ratio, r)
		agree(t, want, a, err)
		v, err := unit.Volume(x).Scale(ratio, r)
		agree(t, want, v, err)
		m, err := unit.Mass(x).Scale(ratio, r)
		agree(t, want, m, err)
		d, err := unit.Duration(x).Scale(ratio, r)
		agree(t, want, d, err)
	})
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := unit.Inch.Scale(unit.Ratio(x), unit.Nearest)
		require.ErrorIs(t, err, unit.ErrNotFinite)
	}
	_, err := unit.Inch.Scale(1e300, unit.Nearest)
	require.ErrorIs(t, err, unit.ErrOverflow)
}

func TestProductsAgreeWithBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := int64s.Draw(t, "x"), int64s.Draw(t, "y")
		r := roundings.Draw(t, "rounding")
		product := new(big.Rat).Mul(rat(x), rat(y))

		a, err := unit.Length(x).By(unit.Length(y)) // nm × nm in µm²
		agree(t, round(new(big.Rat).Quo(product, rat(1e6)), unit.Nearest), a, err)
		v, err := unit.Area(x).Deep(unit.Length(y)) // µm² × nm in nl
		agree(t, round(new(big.Rat).Quo(product, rat(1e9)), unit.Nearest), v, err)
		l, err := unit.Area(x).Over(unit.Length(y), r) // µm² / nm in nm
		if y == 0 {
			require.ErrorIs(t, err, unit.ErrDivideByZero)
			return
		}
		quotient := new(big.Rat).Quo(rat(x), rat(y))
		agree(t, round(new(big.Rat).Mul(quotient, rat(1e6)), r), l, err)

		per, err := unit.Length(x).Per(unit.Length(y))
		require.NoError(t, err)
		f, _ := quotient.Float64()
		require.Equal(t, unit.Ratio(f), per) // the nearest float64, to the bit
	})
}

// A product a hair under 2^64 quanta once wrapped to zero when it was rounded.
func TestProductJustUnderTwoTo64(t *testing.T) {
	limit := new(big.Int).Mul(new(big.Int).Lsh(big.NewInt(1), 64), big.NewInt(1_000_000))
	found := 0
	for w := int64(2_000_003); found < 20; w++ {
		l := new(big.Int).Div(new(big.Int).Sub(limit, big.NewInt(1)), big.NewInt(w))
		rest := new(big.Int).Sub(limit, new(big.Int).Mul(l, big.NewInt(w)))
		if rest.Int64() > 500_000 || !l.IsInt64() {
			continue
		}
		found++
		for _, sign := range []int64{1, -1} {
			a, err := unit.Length(l.Int64()).By(unit.Length(sign * w))
			require.ErrorIs(t, err, unit.ErrOverflow)
			require.Zero(t, a)
		}
	}
}

func TestAdditionIsAssociativeAndCommutative(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		small := rapid.Int64Range(math.MinInt64/3, math.MaxInt64/3)
		a, b, c := unit.Length(small.Draw(t, "a")), unit.Length(small.Draw(t, "b")), unit.Length(small.Draw(t, "c"))
		must := func(l unit.Length, err error) unit.Length {
			require.NoError(t, err)
			return l
		}
		require.Equal(t, must(must(a.Plus(b)).Plus(c)), must(a.Plus(must(b.Plus(c)))))
		require.Equal(t, must(a.Plus(b)), must(b.Plus(a)))
		require.Equal(t, a, must(must(a.Plus(b)).Minus(b)))
		require.Equal(t, must(unit.SumLengths(a, b, c)), must(unit.SumLengths(c, a, b)))
	})
}

// There and back again: a value in any unit, as float64, and back to quanta.
func TestConversionThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// A float64 holds 53 bits, so half a quantum needs values under 2^52.
		n := rapid.Int64Range(-1<<50, 1<<50).Draw(t, "n")
		same := func(got int64, err error) {
			require.NoError(t, err)
			require.Equal(t, n, got)
		}
		l := unit.Length(n)
		for u, v := range map[unit.Length]float64{unit.Inch: l.Inches(), unit.Foot: l.Feet(), unit.Yard: l.Yards(), unit.Millimetre: l.Millimetres(),
			unit.Centimetre: l.Centimetres(), unit.Metre: l.Metres(), unit.Mil: l.Mils(), unit.LeatherOunce: l.LeatherOunces()} {
			back, err := unit.LengthOf(v, u)
			same(int64(back), err)
		}
		back, err := unit.IronsOf(l.Irons())
		same(int64(back), err)
		a := unit.Area(n)
		for u, v := range map[unit.Area]float64{unit.SquareInch: a.SquareInches(), unit.SquareFoot: a.SquareFeet(), unit.SquareYard: a.SquareYards(),
			unit.SquareMillimetre: a.SquareMillimetres(), unit.SquareCentimetre: a.SquareCentimetres(), unit.SquareDecimetre: a.SquareDecimetres(), unit.SquareMetre: a.SquareMetres()} {
			back, err := unit.AreaOf(v, u)
			same(int64(back), err)
		}
		vol := unit.Volume(n)
		for u, v := range map[unit.Volume]float64{unit.CubicInch: vol.CubicInches(), unit.CubicFoot: vol.CubicFeet(), unit.CubicYard: vol.CubicYards(),
			unit.BoardFoot: vol.BoardFeet(), unit.Litre: vol.Litres(), unit.CubicCentimetre: vol.CubicCentimetres(), unit.CubicMetre: vol.CubicMetres()} {
			back, err := unit.VolumeOf(v, u)
			same(int64(back), err)
		}
		m := unit.Mass(n)
		for u, v := range map[unit.Mass]float64{unit.Pound: m.Pounds(), unit.Kilogram: m.Kilograms(), unit.Gram: m.Grams(), unit.Milligram: m.Milligrams()} {
			back, err := unit.MassOf(v, u)
			same(int64(back), err)
		}
		ounces, err := unit.OuncesOf(m.Ounces())
		same(int64(ounces), err)
		d := unit.Duration(n)
		for u, v := range map[unit.Duration]float64{unit.Hour: d.Hours(), unit.Minute: d.Minutes()} {
			back, err := unit.DurationOf(v, u)
			same(int64(back), err)
		}
	})
}

func TestFloatConversionThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(1e-6, 1e6).Draw(t, "x")
		near := func(got float64, err error) {
			require.NoError(t, err)
			require.InEpsilon(t, x, got, 1e-15)
		}
		f := unit.Force(x)
		for u, v := range map[unit.Force]float64{unit.Newton: f.Newtons(), unit.PoundForce: f.PoundsForce(), unit.KilogramForce: f.KilogramsForce(), unit.Centinewton: f.Centinewtons()} {
			back, err := unit.ForceOf(v, u)
			near(float64(back), err)
		}
		p := unit.Pressure(x)
		for u, v := range map[unit.Pressure]float64{unit.Pascal: p.Pascals(), unit.Kilopascal: p.Kilopascals(), unit.PoundPerSquareInch: p.PoundsPerSquareInch()} {
			back, err := unit.PressureOf(v, u)
			near(float64(back), err)
		}
		rho := unit.Density(x)
		for u, v := range map[unit.Density]float64{unit.KilogramPerCubicMetre: rho.KilogramsPerCubicMetre(), unit.PoundPerCubicFoot: rho.PoundsPerCubicFoot()} {
			back, err := unit.DensityOf(v, u)
			near(float64(back), err)
		}
		ad := unit.AreaDensity(x)
		for u, v := range map[unit.AreaDensity]float64{unit.GramPerSquareMetre: ad.GramsPerSquareMetre(), unit.OuncePerSquareYard: ad.OuncesPerSquareYard()} {
			back, err := unit.AreaDensityOf(v, u)
			near(float64(back), err)
		}
		ld := unit.LinearDensity(x)
		for u, v := range map[unit.LinearDensity]float64{unit.Tex: ld.Tex(), unit.Decitex: ld.Decitex(), unit.Denier: ld.Denier()} {
			back, err := unit.LinearDensityOf(v, u)
			near(float64(back), err)
		}
		for _, way := range []struct {
			there func() (float64, error)
			back  func(float64) (unit.LinearDensity, error)
		}{{ld.MetricCount, unit.MetricCountOf}, {ld.CottonCount, unit.CottonCountOf}, {ld.YardsPerPound, unit.YardsPerPoundOf}} {
			count, err := way.there()
			require.NoError(t, err)
			back, err := way.back(count)
			near(float64(back), err)
		}
		an := unit.Angle(x)
		for u, v := range map[unit.Angle]float64{unit.Degree: an.Degrees(), unit.Radian: an.Radians()} {
			back, err := unit.AngleOf(v, u)
			near(float64(back), err)
		}
		require.InEpsilon(t, x, unit.Ratio(x).Percent()/100, 1e-15)
	})
}

func TestFitsLeavesLessThanOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := int64s.Draw(t, "a"), int64s.Draw(t, "b")
		n, rest, err := unit.Length(a).Fits(unit.Length(b))
		n2, rest2, err2 := unit.Area(a).Fits(unit.Area(b))
		n3, rest3, err3 := unit.Volume(a).Fits(unit.Volume(b))
		n4, rest4, err4 := unit.Mass(a).Fits(unit.Mass(b))
		require.Equal(t, []any{n, n, n}, []any{n2, n3, n4})
		require.Equal(t, []any{int64(rest), int64(rest), int64(rest)}, []any{int64(rest2), int64(rest3), int64(rest4)})
		for _, e := range []error{err, err2, err3, err4} {
			switch {
			case b == 0:
				require.ErrorIs(t, e, unit.ErrDivideByZero)
			case a < 0 || b < 0:
				require.ErrorIs(t, e, unit.ErrRange)
			case a/b > math.MaxInt: // where int has 32 bits
				require.ErrorIs(t, e, unit.ErrOverflow)
			default:
				require.NoError(t, e)
			}
		}
		if err == nil {
			require.Equal(t, a, int64(n)*b+int64(rest))
			require.True(t, rest >= 0 && int64(rest) < b)
		}
	})
}

// The mass of a block found from its density gives that density back.
func TestMassAndDensityAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rho := unit.Density(rapid.Float64Range(5, 200).Draw(t, "rho"))
		v := unit.Volume(rapid.Int64Range(int64(unit.Litre), int64(10*unit.CubicMetre)).Draw(t, "v"))
		m, err := rho.Mass(v)
		require.NoError(t, err)
		back, err := m.Over(v)
		require.NoError(t, err)
		// half a microgram in a litre of 5 kg/m³ is 1e-7 of it
		require.InEpsilon(t, float64(rho), float64(back), 1.01e-7)
		require.InEpsilon(t, float64(rho)*v.CubicMetres(), m.Kilograms(), 1.01e-7)

		tex := unit.LinearDensity(rapid.Float64Range(5, 1000).Draw(t, "tex"))
		l := shopLengths.Draw(t, "l")
		tm, err := tex.Mass(l)
		require.NoError(t, err)
		backL, err := tex.Length(tm)
		require.NoError(t, err)
		// half a microgram of thread is 5e5/tex nanometres
		require.InDelta(t, float64(l), float64(backL), 5e5/float64(tex)+1)
	})
}

func TestPressureIsForceOverArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := unit.Force(rapid.Float64Range(0.001, 1e5).Draw(t, "f"))
		a := unit.Area(rapid.Int64Range(int64(unit.SquareMillimetre), int64(10*unit.SquareMetre)).Draw(t, "a"))
		p, err := f.Over(a)
		require.NoError(t, err)
		back, err := p.On(a)
		require.NoError(t, err)
		require.InEpsilon(t, float64(f), float64(back), 1e-15)
	})
}

func TestProductsOfKnownPieces(t *testing.T) {
	a, err := (25*unit.Inch + unit.Inch/2).By(24 * unit.Inch)
	require.NoError(t, err)
	assert.Equal(t, 612*unit.SquareInch, a)
	v, err := a.Deep(4 * unit.Inch)
	require.NoError(t, err)
	assert.Equal(t, 17*unit.BoardFoot, v)
	l, err := a.Over(54*unit.Inch, unit.Up)
	require.NoError(t, err)
	assert.Equal(t, "11 11/32 in", l.Mixed(unit.Inch, unit.ThirtySeconds, unit.Up)) // 11.333 in
	m, err := (2 * unit.PoundPerCubicFoot).Mass(unit.CubicFoot)
	require.NoError(t, err)
	assert.Equal(t, 2*unit.Pound, m)
	cloth, err := unit.AreaDensity(0.4).Mass(10 * unit.SquareMetre)
	require.NoError(t, err)
	assert.Equal(t, 4*unit.Kilogram, cloth)
	thread, err := (90 * unit.Tex).Mass(1000 * unit.Metre)
	require.NoError(t, err)
	assert.Equal(t, 90*unit.Gram, thread)
	cone, err := (90 * unit.Tex).Length(450 * unit.Gram)
	require.NoError(t, err)
	assert.Equal(t, 5000*unit.Metre, cone)
	assert.InEpsilon(t, float64(unit.PoundForce), float64(unit.Pound.Weight()), 1e-15)
	p, err := unit.PoundForce.Over(unit.SquareInch)
	require.NoError(t, err)
	assert.InEpsilon(t, float64(unit.PoundPerSquareInch), float64(p), 1e-15)
}
