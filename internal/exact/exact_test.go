package exact

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// fraction draws fractions of all sizes: small ones, and ones at both sides of
// what 64 and 128 bits hold.
func fraction() *rapid.Generator[*big.Rat] {
	return rapid.Custom(func(t *rapid.T) *big.Rat {
		part := func(name string) *big.Int {
			n := new(big.Int).Lsh(big.NewInt(int64(rapid.IntRange(0, 1<<20).Draw(t, name))), uint(rapid.SampledFrom([]int{0, 20, 43, 44, 45, 80, 107, 108, 109, 130}).Draw(t, name+" shift")))
			return n.Add(n, big.NewInt(int64(rapid.IntRange(-3, 3).Draw(t, name+" off"))))
		}
		d := part("den")
		if d.Sign() == 0 {
			d.SetInt64(1)
		}
		return new(big.Rat).SetFrac(part("num"), d)
	})
}

// TestAgainstBig holds every operation to math/big, whatever the size.
func TestAgainstBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := fraction().Draw(t, "a"), fraction().Draw(t, "b")
		x, y := Of(a), Of(b)
		same := func(want *big.Rat, got Rat) {
			t.Helper()
			require.Zero(t, want.Cmp(got.Big()), "want %v, got %v", want, got.Big())
			if got.big == nil {
				require.Equal(t, want.Num().String(), got.Big().Num().String())
				require.True(t, gcd(got.num, got.denom()).isOne() || got.num.isZero(), "lowest terms")
			} else {
				_, fitsNum := wideOf(want.Num())
				_, fitsDen := wideOf(want.Denom())
				require.False(t, fitsNum && fitsDen, "what fits 128 bits is held in them")
			}
		}
		same(new(big.Rat).Add(a, b), x.Add(y))
		same(new(big.Rat).Sub(a, b), x.Sub(y))
		same(new(big.Rat).Mul(a, b), x.Mul(y))
		same(new(big.Rat).Neg(a), x.Neg())
		same(new(big.Rat).Abs(a), x.Abs())
		if b.Sign() != 0 {
			same(new(big.Rat).Quo(a, b), x.Quo(y))
		}
		require.Equal(t, a.Cmp(b), x.Cmp(y))
		require.Equal(t, a.Sign(), x.Sign())
		require.Equal(t, a.IsInt(), x.IsInt())
		f, _ := a.Float64()
		require.Equal(t, math.Float64bits(f), math.Float64bits(x.Float64()))

		floor := new(big.Int).Div(a.Num(), a.Denom()) // Euclid's, so down
		same(new(big.Rat).SetInt(floor), x.Floor())
		ceil := new(big.Int).Neg(new(big.Int).Div(new(big.Int).Neg(a.Num()), a.Denom()))
		same(new(big.Rat).SetInt(ceil), x.Ceil())
		near, ok := new(big.Rat).SetString(a.FloatString(0)) // ties away from zero
		require.True(t, ok)
		same(near, x.Nearest())
		for _, places := range []int{0, 2, 12} {
			require.Equal(t, a.FloatString(places), x.FloatString(places))
		}
		whole, rest, odd := x.Trunc()
		require.Equal(t, whole.Big().Num().Bit(0) == 1, odd)
		cut := new(big.Rat).Sub(new(big.Rat).Abs(a), whole.Abs().Big())
		switch half := big.NewRat(1, 2); {
		case cut.Sign() == 0:
			require.Equal(t, None, rest)
		default:
			require.Equal(t, Half+Rest(cut.Cmp(half)), rest)
		}
	})
}

func TestSmall(t *testing.T) {
	var zero Rat
	assert.Equal(t, 0, zero.Sign())
	assert.True(t, zero.IsInt())
	assert.Equal(t, 0, zero.Cmp(Int(0)))
	assert.Equal(t, "5", zero.Add(Int(5)).FloatString(0))
	for _, n := range []int64{0, 1, -1, math.MaxInt64, math.MinInt64} {
		back, ok := Int(n).Int64()
		assert.True(t, ok, n)
		assert.Equal(t, n, back)
	}
	for _, x := range []Rat{New(1, 2), Int(math.MaxInt64).Add(Int(1)), Int(math.MinInt64).Sub(Int(1)), Int(math.MaxInt64).Mul(Int(math.MaxInt64))} {
		_, ok := x.Int64()
		assert.False(t, ok, x.FloatString(1))
	}
}

func TestOfFloat(t *testing.T) {
	for _, r := range []struct {
		f    float64
		want string
	}{
		{0.075, "3/40"}, {56.5 * 0.01, "113/200"}, {-0.075, "-3/40"}, {1e6, "1000000/1"}, {1e-13, "0/1"}, {1.0 / 3, "333333333333/1000000000000"},
	} {
		x, ok := OfFloat(r.f)
		require.True(t, ok)
		assert.Equal(t, r.want, x.Big().String())
	}
	for _, f := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1.1e6} {
		_, ok := OfFloat(f)
		assert.False(t, ok, f)
	}
}

func TestText(t *testing.T) {
	for _, r := range []struct {
		x    Rat
		want string
	}{{New(1, 4), "0.25"}, {New(1, 3), "0.333333…"}, {New(2, 3), "0.666666…"}, {New(-2, 3), "-0.666666…"}, {Int(100), "100"}, {Rat{}, "0"}} {
		assert.Equal(t, r.want, r.x.Text(6))
	}
	for in, want := range map[string]string{"10": "10", "10.50": "10.5", "10.00": "10", "0.0": "0"} {
		assert.Equal(t, want, TrimZeros(in))
	}
}

func BenchmarkMulAdd(b *testing.B) {
	b.ReportAllocs()
	price, part, rate := New(4200, 100), New(6_629_400_000, 914_400_000), New(125, 100)
	for b.Loop() {
		x := price.Mul(part).Mul(rate)
		if x.Add(rate).Sign() == 0 {
			b.Fatal("nothing")
		}
	}
}
