package wrap_test

import (
	"errors"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/foam/wrap"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
)

func genLength(t *rapid.T, name string) unit.Length {
	return unit.Length(rapid.IntRange(1, 2000).Draw(t, name)) * unit.Millimetre
}

func TestWrapLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := foam.Block{Length: genLength(t, "l"), Width: genLength(t, "w"), Thickness: genLength(t, "t")}
		w := wrap.Rule{Batting: wrap.Battings()[2], Layers: rapid.IntRange(1, 4).Draw(t, "layers"),
			Overlap: unit.Length(rapid.IntRange(0, 150).Draw(t, "overlap")) * unit.Millimetre,
			Back:    rapid.Bool().Draw(t, "back"), Sides: rapid.Bool().Draw(t, "sides")}
		got, err := wrap.CutFor(b, w)
		require.NoError(t, err)
		faces, err := b.Face()
		require.NoError(t, err)
		assert.Greater(t, int64(got.Area), 2*int64(w.Layers)*int64(faces), "more than both faces in every layer")
		w.Back = true
		with, err := wrap.CutFor(b, w)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, with.Area, got.Area)
	})
}

func TestRefusals(t *testing.T) {
	pad := foam.Block{Length: 24 * unit.Inch, Width: 20 * unit.Inch, Thickness: 4 * unit.Inch}
	_1 := func(_ any, err error) error { return err }
	for name, c := range map[string]struct {
		err   error
		field unit.Path
		want  error
	}{
		"no layers":            {_1(wrap.CutFor(pad, wrap.Rule{Batting: wrap.Battings()[0]})), "layers", unit.ErrRange},
		"batting without loft": {_1(wrap.CutFor(pad, wrap.Rule{Layers: 1})), "batting.loft", unit.ErrRange},
		"no block":             {_1(wrap.CutFor(foam.Block{}, wrap.Rule{})), "block.length", unit.ErrRange},
		"crown of no block":    {_1(wrap.CrownPiece(foam.Block{})), "block.length", unit.ErrRange},
	} {
		t.Run(name, func(t *testing.T) {
			require.ErrorIs(t, c.err, c.want)
			var in *unit.InputError
			require.True(t, errors.As(c.err, &in))
			assert.Equal(t, c.field, in.Field)
		})
	}
}

// Every exported struct goes through JSON and back, its zero value too.
func TestThroughJSON(t *testing.T) {
	rule := wrap.Rule{Batting: wrap.Battings()[1], Sides: true, Layers: 2, Overlap: unit.Inch}
	cut, err := wrap.CutFor(foam.Block{Length: unit.Foot, Width: unit.Foot, Thickness: unit.Inch}, rule)
	require.NoError(t, err)
	faults, err := roundtrip.Faults(os.DirFS("."), []any{rule, rule.Batting, cut})
	require.NoError(t, err)
	require.Empty(t, faults)
}

// The girth of the example is 18.85 in by hand: 3.14159 x 6.
func TestBolsterIsWrappedRound(t *testing.T) {
	bolster := foam.Cylinder{Length: 20 * unit.Inch, Diameter: 6 * unit.Inch}
	loft := wrap.Batting{Loft: unit.Inch}
	cut, err := wrap.CutRound(bolster, wrap.Rule{Batting: loft, Layers: 1, Overlap: unit.Inch})
	require.NoError(t, err)
	assert.Equal(t, 27*unit.Inch, cut.Length)
	assert.InDelta(t, 19.8496, cut.Around.Inches(), 1e-4)
	assert.InDelta(t, 27*19.8496, cut.Area.SquareInches(), 0.01)
	assert.Equal(t, unit.Inch/2, cut.Crown)
	cut, err = wrap.CutRound(bolster, wrap.Rule{Batting: loft, Layers: 2, Sides: true})
	require.NoError(t, err)
	assert.Equal(t, 20*unit.Inch, cut.Length)
	assert.Equal(t, foam.Block{Length: 6 * unit.Inch, Width: 6 * unit.Inch, Thickness: unit.Inch}, cut.Side)
	assert.InDelta(t, 2*(20*18.8496+2*36), cut.Area.SquareInches(), 0.01)
	for field, r := range map[string]wrap.Rule{"layers": {Batting: loft}, "batting.loft": {Layers: 1}, "back": {Batting: loft, Layers: 1, Back: true}} {
		_, err := wrap.CutRound(bolster, r)
		var in *unit.InputError
		require.ErrorAs(t, err, &in)
		assert.Equal(t, unit.Path(field), in.Field)
	}
	_, err = wrap.CutRound(foam.Cylinder{}, wrap.Rule{Batting: loft, Layers: 1})
	require.ErrorIs(t, err, unit.ErrRange)
}
