package unit

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The 128-bit arithmetic and the quick reading of numbers against math/big.

var anyUint64 = rapid.OneOf(rapid.Uint64(), rapid.Uint64Range(0, 20), rapid.Uint64Range(math.MaxUint64-20, math.MaxUint64),
	rapid.Map(rapid.IntRange(0, 63), func(n int) uint64 { return 1 << n }),
	rapid.Map(rapid.IntRange(0, 19), func(n int) uint64 { return powersOfTen[n] }))

var anyRounding = rapid.SampledFrom([]Rounding{Nearest, Up, Down})

func bigOf(w wide) *big.Int {
	n := new(big.Int).SetUint64(w.hi)
	return n.Or(n.Lsh(n, 64), new(big.Int).SetUint64(w.lo))
}

// sized rounds |x| as over does for a number whose sign is neg.
func sized(x *big.Rat, neg bool, r Rounding) *big.Int {
	floor, rest := new(big.Int).QuoRem(x.Num(), x.Denom(), new(big.Int))
	away := rest.Sign() != 0 && (r == Up && !neg || r == Down && neg)
	if r == Nearest {
		away = rest.Lsh(rest, 1).Cmp(x.Denom()) >= 0
	}
	if away {
		floor.Add(floor, big.NewInt(1))
	}
	return floor
}

func agrees(t *rapid.T, want *big.Int, got uint64, ok bool) {
	require.Equal(t, want.IsUint64(), ok, "%v", want)
	if ok {
		require.Equal(t, want.Uint64(), got)
	}
}

func TestWideAgreesWithBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := wide{anyUint64.Draw(t, "hi"), anyUint64.Draw(t, "lo")}
		d := max(anyUint64.Draw(t, "d"), 1)
		e := max(anyUint64.Draw(t, "e")>>1, 1)
		neg, r := rapid.Bool().Draw(t, "neg"), anyRounding.Draw(t, "rounding")
		if rapid.Bool().Draw(t, "near a tie") { // w a hair from half of d·e
			w, _ = product(d, e).div(2)
			w.lo += uint64(rapid.IntRange(-1, 1).Draw(t, "hair"))
		}
		all := new(big.Int).Mul(new(big.Int).SetUint64(d), new(big.Int).SetUint64(e))
		if all.BitLen() < 128 {
			q, ok := w.over(d, e, neg, r)
			agrees(t, sized(new(big.Rat).SetFrac(bigOf(w), all), neg, r), q, ok)
		}
		want, _ := new(big.Rat).SetFrac(bigOf(w), new(big.Int).SetUint64(d)).Float64()
		require.InDelta(t, want, w.float(d), 0, "%v / %d", bigOf(w), d)

		small := wide{w.hi >> 4, w.lo}
		den := max(d>>10, 1)
		exp := rapid.IntRange(-1100, 1100).Draw(t, "exp")
		two := new(big.Rat).SetInt(new(big.Int).Lsh(big.NewInt(1), uint(max(exp, -exp))))
		x := new(big.Rat).SetFrac(bigOf(small), new(big.Int).SetUint64(den))
		if exp < 0 {
			x.Quo(x, two)
		} else {
			x.Mul(x, two)
		}
		q, ok := small.scaled(exp, den)
		agrees(t, sized(x, false, Nearest), q, ok)
	})
}

// Between two float64 a tie goes to the even one, and a hair above it upwards,
// wherever the hair is.
func TestTiesOfFloats(t *testing.T) {
	const tie = 1<<53 + 1
	for _, c := range []struct {
		w    wide
		d    uint64
		want float64
	}{
		{wide{0, tie}, 1, tie - 1}, {wide{0, tie + 2}, 1, tie + 3}, {wide{tie, 0}, 1, (tie - 1) * 0x1p64}, {wide{tie, 1}, 1, (tie + 1) * 0x1p64},
		{product(tie, 3), 3, tie - 1}, {wide{0, 3*tie + 1}, 3, tie + 1}, {wide{0, 3*tie - 1}, 3, tie - 1}, {wide{0, tie << 3}, 8, tie - 1}, {wide{0, tie<<3 + 1}, 8, tie + 1},
	} {
		require.InDelta(t, c.want, c.w.float(c.d), 0, "%v", c)
	}
}

// Every float64 counts: what it is times a whole number, and what its shortest
// decimal is times a whole number, as math/big has them.
func TestFloatFactorsAgreeWithBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.OneOf(rapid.Map(rapid.Uint64(), math.Float64frombits), rapid.Float64Range(-1e-6, 1e6),
			rapid.Map(rapid.IntRange(-1000, 1000), func(n int) float64 { return float64(n) / 1000 })).
			Filter(func(x float64) bool { return finite(x, "") == nil }).Draw(t, "x")
		n := int64(anyUint64.Draw(t, "n"))
		r := anyRounding.Draw(t, "rounding")
		check := func(want *big.Rat, r Rounding, got int64, err error) {
			exact := sized(new(big.Rat).Abs(want), want.Sign() < 0, r)
			if want.Sign() < 0 {
				exact.Neg(exact)
			}
			require.Equal(t, exact.IsInt64(), err == nil, "%v: %v", exact, err)
			if err == nil {
				require.Equal(t, exact.Int64(), got)
			}
		}
		bigN := new(big.Rat).SetInt64(n)
		binary := new(big.Rat).SetFloat64(x)

		decimal, ok := new(big.Rat).SetString(floatText(x))
		require.True(t, ok)
		got, err := scale(n, Ratio(x), r, "")
		check(decimal.Mul(decimal, bigN), r, got, err)

		for _, den := range []int64{1, 16, 48} {
			got, err = ofFloat(x, int64(Inch), den, "")
			check(new(big.Rat).Mul(binary, big.NewRat(int64(Inch), den)), Nearest, got, err)
		}
		m, err := Density(x).Mass(Volume(n))
		check(new(big.Rat).Mul(binary, new(big.Rat).Quo(bigN, big.NewRat(1000, 1))), Nearest, int64(m), err)
		m, err = LinearDensity(x).Mass(Length(n))
		check(new(big.Rat).Mul(binary, new(big.Rat).Quo(bigN, big.NewRat(1_000_000, 1))), Nearest, int64(m), err)
		if x > 0 {
			l, err := LinearDensity(x).Length(Mass(n))
			check(new(big.Rat).Quo(new(big.Rat).Mul(bigN, big.NewRat(1_000_000, 1)), binary), Nearest, int64(l), err)
		}
		if k := int64(anyUint64.Draw(t, "k")); k != 0 {
			q, _ := big.NewRat(n, k).Float64()
			per, err := Length(n).Per(Length(k))
			require.NoError(t, err)
			require.InDelta(t, q, float64(per), 0)
			q, _ = new(big.Rat).Mul(big.NewRat(n, k), big.NewRat(1000, 1)).Float64()
			rho, err := Mass(n).Over(Volume(k))
			require.NoError(t, err)
			require.InDelta(t, q, float64(rho), 0)
		}
	})
}

var measures = []*measure{lengthMeasure, thicknessMeasure, areaMeasure, volumeMeasure, massMeasure, durationMeasure, forceMeasure,
	pressureMeasure, densityMeasure, areaDensityMeasure, linearDensityMeasure, angleMeasure, ratioMeasure}

// quickIsExact holds the quick ways of a reading to the slow one.
func quickIsExact(t require.TestingT, m *measure, text string) {
	x, err := m.parse(text)
	if err != nil {
		return
	}
	exact := x.rat()
	n, ok := x.quanta()
	want := nearest(exact)
	require.Equal(t, want.IsInt64(), ok, text)
	if ok {
		require.Equal(t, want.Int64(), n, text)
	}
	f, _ := exact.Float64()
	if got := x.float(); got != f {
		t.Errorf("%s: %v, exactly %v", text, got, f)
		t.FailNow()
	}
}

func TestQuickReadingIsExact(t *testing.T) {
	digits := rapid.OneOf(rapid.StringMatching(`[0-9]{1,4}`), rapid.StringMatching(`[0-9]{17,22}`), rapid.StringMatching(`0{0,3}[1-9]0{0,25}`))
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.SampledFrom(measures).Draw(t, "kind")
		number := func() string {
			n := digits.Draw(t, "whole")
			switch rapid.IntRange(0, 3).Draw(t, "form") {
			case 1:
				n += "." + digits.Draw(t, "decimals")
			case 2:
				n += " " + digits.Draw(t, "num") + "/" + digits.Draw(t, "den")
			case 3:
				n += rapid.StringMatching(`e-?[0-9]{1,2}`).Draw(t, "exponent")
			}
			return n
		}
		text := ""
		for range rapid.IntRange(1, 2).Draw(t, "parts") {
			text += number() + " " + rapid.SampledFrom(m.units).Draw(t, "unit").name + " "
		}
		quickIsExact(t, m, rapid.SampledFrom([]string{"", "-"}).Draw(t, "sign")+text)
	})
	for text, m := range map[string]*measure{
		"18446744073709551615 ft 11 in": lengthMeasure, "99999999999999999999 turn 1/2 deg": angleMeasure,
		"-1 turn 359.99999999999999999 deg": angleMeasure, "1 m 1 cm 1 mm 1 um 0.5 nm": lengthMeasure,
		"18446744073709551615 turn 359 deg": angleMeasure, "-0 N": forceMeasure, "0": ratioMeasure,
	} {
		_, err := m.parse(text)
		require.NoError(t, err, text)
		quickIsExact(t, m, text)
	}
}

func FuzzQuickReading(f *testing.F) {
	f.Add("25 5/8 in")
	f.Add("1 lb 4.5 oz")
	f.Add("Nm 40/2")
	f.Fuzz(func(t *testing.T, text string) {
		for _, m := range measures {
			quickIsExact(t, m, text)
		}
	})
}
