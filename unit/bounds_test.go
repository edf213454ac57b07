package unit_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

// Where people are shown an exponent or a plain number in place of a percentage.
func TestWhereNumbersAreWrittenOtherwise(t *testing.T) {
	for r, want := range map[unit.Ratio]string{
		1e-9: "0.0000001 %", 0.99e-9: "9.9e-10", 9.99: "999 %", 10: "10", 10.3: "10.3", 15: "15",
	} {
		assert.Equal(t, want, r.String())
	}
	for f, want := range map[unit.Force]string{1e-9: "0.000000001 N", 0.99e-9: "9.9e-10 N"} {
		text, err := f.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, want, string(text))
	}
}

// Densities by the inch are the quotients of the definitions of pound and inch,
// to the last bit.
func TestDensitiesByTheInch(t *testing.T) {
	pound := big.NewRat(45_359_237, 100_000_000)
	inch := big.NewRat(254, 10_000)
	cubed := func(x *big.Rat) *big.Rat { return new(big.Rat).Mul(x, new(big.Rat).Mul(x, x)) }
	for text, want := range map[string]*big.Rat{
		"1 lb/in3": new(big.Rat).Quo(pound, cubed(inch)),
		"1 oz/in3": new(big.Rat).Quo(new(big.Rat).Quo(pound, big.NewRat(16, 1)), cubed(inch)),
		"1 lb/ft3": new(big.Rat).Quo(pound, cubed(new(big.Rat).Mul(inch, big.NewRat(12, 1)))),
		"1 lb/yd3": new(big.Rat).Quo(pound, cubed(new(big.Rat).Mul(inch, big.NewRat(36, 1)))),
	} {
		got, err := unit.ParseDensity(text)
		require.NoError(t, err)
		f, _ := want.Float64()
		assert.Equal(t, unit.Density(f), got, text)
	}
	m, err := unit.ParseMass("5 ug")
	require.NoError(t, err)
	assert.Equal(t, unit.Mass(5), m)
}

// Every fraction that a shop measures a yard by is written as itself.
func TestEveryShopFraction(t *testing.T) {
	for text, inches := range map[string]float64{"1/8": 4.5, "1/4": 9, "1/3": 12, "3/8": 13.5, "1/2": 18, "5/8": 22.5, "2/3": 24, "3/4": 27, "7/8": 31.5, "1": 36} {
		l := unit.Length(inches * float64(unit.Inch))
		for _, r := range []unit.Rounding{unit.Up, unit.Down, unit.Nearest} {
			assert.Equal(t, text+" yd", l.Yardage(r))
		}
	}
}

// Each way of writing a value without loss is taken down to its smallest part.
func TestSmallestPartOfEachUnit(t *testing.T) {
	for want, v := range map[string]interface{ String() string }{
		"0.01 sq ft": unit.SquareFoot / 100, "0.01 sq in": unit.SquareInch / 100, "0.0001 m2": unit.SquareMetre / 10_000,
		"0.01 h": unit.Hour / 100, "0.001 s": unit.Second / 1000,
		"0.5 lb": unit.Pound / 2, "0.000000001 kg": unit.Microgram,
		"0.125 bd ft": unit.BoardFoot / 8, "0.125 cu in": unit.CubicInch / 8, "0.001 m3": unit.CubicMetre / 1000, "0.000000001 l": unit.Nanolitre,
		"0.000001 mm": unit.Nanometre,
	} {
		assert.Equal(t, want, v.String())
	}
	ninth := unit.BoardFoot / 9
	text, err := ninth.MarshalText()
	require.NoError(t, err)
	var back unit.Volume
	require.NoError(t, back.UnmarshalText(text))
	assert.Equal(t, ninth, back)
}
