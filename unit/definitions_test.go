package unit_test

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/coverwright/coverwright/unit"
)

// Every unit is what it is defined as, down to the last digit: the inch 25.4 mm,
// the pound 453.59237 g, standard gravity 9.80665 m/s2, the gallon 231 cubic inches.
func TestUnitsByDefinition(t *testing.T) {
	for want, got := range map[int64]unit.Length{
		1: unit.Nanometre, 1_000: unit.Micrometre, 1_000_000: unit.Millimetre, 10_000_000: unit.Centimetre, 1_000_000_000: unit.Metre,
		25_400: unit.Mil, 25_400_000: unit.Inch, 304_800_000: unit.Foot, 914_400_000: unit.Yard, 396_875: unit.LeatherOunce,
	} {
		assert.Equal(t, unit.Length(want), got)
	}
	for want, got := range map[int64]unit.Area{
		1: unit.SquareMicrometre, 1_000_000: unit.SquareMillimetre, 100_000_000: unit.SquareCentimetre, 10_000_000_000: unit.SquareDecimetre,
		1_000_000_000_000: unit.SquareMetre, 645_160_000: unit.SquareInch, 92_903_040_000: unit.SquareFoot, 836_127_360_000: unit.SquareYard,
	} {
		assert.Equal(t, unit.Area(want), got)
	}
	for want, got := range map[int64]unit.Volume{
		1: unit.Nanolitre, 1_000: unit.CubicMillimetre, 1_000_000: unit.CubicCentimetre, 1_000_000_000: unit.Litre, 1_000_000_000_000: unit.CubicMetre,
		16_387_064: unit.CubicInch, 2_359_737_216: unit.BoardFoot, 28_316_846_592: unit.CubicFoot, 764_554_857_984: unit.CubicYard, 3_785_411_784: unit.USGallon,
	} {
		assert.Equal(t, unit.Volume(want), got)
	}
	for want, got := range map[int64]unit.Mass{
		1: unit.Microgram, 1_000: unit.Milligram, 1_000_000: unit.Gram, 1_000_000_000: unit.Kilogram, 1_000_000_000_000: unit.Tonne, 453_592_370: unit.Pound,
	} {
		assert.Equal(t, unit.Mass(want), got)
	}
	for want, got := range map[int64]unit.Duration{1: unit.Millisecond, 1_000: unit.Second, 60_000: unit.Minute, 3_600_000: unit.Hour} {
		assert.Equal(t, unit.Duration(want), got)
	}

	pound, inch, gravity := big.NewRat(45_359_237, 100_000_000), big.NewRat(254, 10_000), big.NewRat(980_665, 100_000)
	mul := func(x, y *big.Rat) *big.Rat { return new(big.Rat).Mul(x, y) }
	over := func(x, y *big.Rat) *big.Rat { return new(big.Rat).Quo(x, y) }
	whole := func(n int64) *big.Rat { return big.NewRat(n, 1) }
	square := func(n int64) *big.Rat { return mul(mul(inch, whole(n)), mul(inch, whole(n))) }
	for _, c := range []struct {
		what string
		want *big.Rat
		got  float64
	}{
		{"N", whole(1), float64(unit.Newton)},
		{"kN", whole(1000), float64(unit.Kilonewton)},
		{"cN", big.NewRat(1, 100), float64(unit.Centinewton)},
		{"lbf", mul(pound, gravity), float64(unit.PoundForce)},
		{"kgf", gravity, float64(unit.KilogramForce)},
		{"g", gravity, unit.StandardGravity},
		{"Pa", whole(1), float64(unit.Pascal)},
		{"kPa", whole(1000), float64(unit.Kilopascal)},
		{"MPa", whole(1_000_000), float64(unit.Megapascal)},
		{"psi", over(mul(pound, gravity), square(1)), float64(unit.PoundPerSquareInch)},
		{"psf", over(mul(pound, gravity), square(12)), float64(unit.PoundPerSquareFoot)},
		{"kg/m3", whole(1), float64(unit.KilogramPerCubicMetre)},
		{"g/cm3", whole(1000), float64(unit.GramPerCubicCentimetre)},
		{"lb/ft3", over(pound, mul(square(12), mul(inch, whole(12)))), float64(unit.PoundPerCubicFoot)},
		{"kg/m2", whole(1), float64(unit.KilogramPerSquareMetre)},
		{"g/m2", big.NewRat(1, 1000), float64(unit.GramPerSquareMetre)},
		{"oz/yd2", over(over(pound, whole(16)), square(36)), float64(unit.OuncePerSquareYard)},
		{"oz/ft2", over(over(pound, whole(16)), square(12)), float64(unit.OuncePerSquareFoot)},
		{"tex", whole(1), float64(unit.Tex)},
		{"dtex", big.NewRat(1, 10), float64(unit.Decitex)},
		{"den", big.NewRat(1, 9), float64(unit.Denier)},
		{"%", big.NewRat(1, 100), float64(unit.Percent)},
		{"degree", whole(1), float64(unit.Degree)},
		{"turn", whole(360), float64(unit.Turn)},
	} {
		want, _ := c.want.Float64()
		assert.Equal(t, want, c.got, c.what)
	}
	assert.Equal(t, 180/math.Pi, float64(unit.Radian))
}

// A yarn of number n has 840 n yards to the pound in the count of cotton, and n in
// yards per pound.
func TestYarnByTheYard(t *testing.T) {
	gramsPerMetre := func(yards int64) float64 {
		f, _ := new(big.Rat).Quo(big.NewRat(453_592_370, 1_000), new(big.Rat).Mul(big.NewRat(yards, 1), big.NewRat(9_144, 10_000))).Float64()
		return f
	}
	cotton, err := unit.CottonCountOf(30)
	assert.NoError(t, err)
	assert.InEpsilon(t, gramsPerMetre(30*840), float64(cotton), 1e-15)
	run, err := unit.YardsPerPoundOf(1200)
	assert.NoError(t, err)
	assert.InEpsilon(t, gramsPerMetre(1200), float64(run), 1e-15)
}
