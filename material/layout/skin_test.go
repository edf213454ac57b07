package layout

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

func TestNaturalShapeRefuses(t *testing.T) {
	_, err := material.NaturalShape(material.MeasuredSkin, 10*unit.SquareFoot)
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, err = material.NaturalShape(material.SkinKind(200), 10*unit.SquareFoot)
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, err = material.NaturalShape(material.Calf, 121*unit.SquareFoot)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = material.NaturalShape(material.Calf, 0)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = UsualHides(material.Calf, 10*unit.SquareFoot, 0)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = UsualHides(material.MeasuredSkin, 10*unit.SquareFoot, 1)
	require.ErrorIs(t, err, unit.ErrUnknown)
}

func TestSkinNames(t *testing.T) {
	for _, v := range []interface {
		MarshalText() ([]byte, error)
		String() string
	}{material.Belly, material.FairGrade, material.DeepMark, material.GrowthMark, Paired, material.LargePieces} {
		text, err := v.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, v.String(), string(text))
	}
	for _, v := range []interface {
		MarshalText() ([]byte, error)
		String() string
	}{material.SkinKind(99), material.Grade(99), material.Severity(99), material.DefectKind(99), Hand(99), material.PieceSize(99)} {
		_, err := v.MarshalText()
		require.ErrorIs(t, err, unit.ErrUnknown)
		assert.Contains(t, v.String(), "(99)")
	}
	var k material.SkinKind
	require.ErrorIs(t, k.UnmarshalText([]byte("cow")), unit.ErrUnknown)
	require.NoError(t, k.UnmarshalText([]byte("whole hide")))
	assert.Equal(t, material.WholeHide, k)
	for k := range material.OpenHole + 1 {
		assert.NotEqual(t, material.NoMark, k.UsualSeverity(), k)
	}
	assert.Equal(t, material.ThroughMark, material.DefectKind(99).UsualSeverity())
}

func TestStretchAcross(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := unit.Angle(rapid.Float64Range(-720, 720).Draw(t, "tightness"))
		s, err := material.StretchAcross(a)
		require.NoError(t, err)
		assert.InDelta(t, 90, halfTurnOff(float64(a), float64(s)), 1e-9)
		assert.GreaterOrEqual(t, s, unit.Angle(0))
		assert.Less(t, s, unit.Angle(180))
	})
	_, err := material.StretchAcross(unit.Angle(math.NaN()))
	require.ErrorIs(t, err, unit.ErrNotFinite)
}

func TestPieceSizeOf(t *testing.T) {
	of := func(w, h unit.Length, n int) Piece { return Piece{Outline: boxAt(t, 0, 0, w, h), Count: n} }
	assert.Equal(t, material.MixedPieces, PieceSizeOf(nil))
	assert.Equal(t, material.SmallPieces, PieceSizeOf([]Piece{of(10, 10, 3)}))
	assert.Equal(t, material.MixedPieces, PieceSizeOf([]Piece{of(10, 10, 3), of(20, 20, 6)}))
	assert.Equal(t, material.LargePieces, PieceSizeOf([]Piece{of(10, 10, 3), of(20, 20, 2), of(40, 30, 1)}))
	assert.Equal(t, material.SeamlessPieces, PieceSizeOf([]Piece{of(70, 30, 1)}))
}
