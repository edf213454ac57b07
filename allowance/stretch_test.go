package allowance_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

func TestZeroStretchChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLength(unit.Millimetre, 100*unit.Metre).Draw(t, "finished")
		f, err := allowance.Stretch{}.Apply(l)
		require.NoError(t, err)
		require.Equal(t, allowance.Fitted{Finished: l, Seam: l}, f)
	})
}

// Twice the panel takes out twice as much, within the rounding of the two.
func TestStretchScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := allowance.Stretch{
			TakeOut:   unit.Ratio(rapid.Float64Range(0, 0.5).Draw(t, "take_out")),
			Shrinkage: unit.Ratio(rapid.Float64Range(0, 0.5).Draw(t, "shrinkage")),
		}
		l := drawLength(unit.Millimetre, 50*unit.Metre).Draw(t, "finished")
		k := rapid.IntRange(1, 9).Draw(t, "times")
		one, err := s.Apply(l)
		require.NoError(t, err)
		many, err := s.Apply(l * unit.Length(k))
		require.NoError(t, err)
		require.InDelta(t, float64(one.Seam)*float64(k), float64(many.Seam), 2*float64(k)+2)
	})
}

// The parts account for the whole to the nanometre.
func TestStretchAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLength(unit.Metre, 10*unit.Metre).Draw(t, "finished")
		s := allowance.Stretch{
			TakeOut:     unit.Ratio(rapid.Float64Range(0, 0.5).Draw(t, "take_out")),
			Below:       drawLength(unit.Metre, 10*unit.Metre).Draw(t, "below"),
			Compression: drawLength(unit.Millimetre, unit.Metre/2).Draw(t, "compression"),
			Ease:        drawLength(unit.Millimetre, unit.Metre/2).Draw(t, "ease"),
			Shrinkage:   unit.Ratio(rapid.Float64Range(0, 0.5).Draw(t, "shrinkage")),
		}
		f, err := s.Apply(l)
		require.NoError(t, err)
		require.Equal(t, l-f.Compressed+f.Eased-f.TakenOut+f.Added, f.Seam)
		if l < s.Below {
			require.Zero(t, f.TakenOut)
		}
		// what shrinks away is the share it was cut with
		require.InDelta(t, float64(f.Seam)*float64(s.Shrinkage), float64(f.Added), 1)
	})
}

// A strip cut to the rule and pulled like the sample comes to the finished length.
func TestMeasuredStretchComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		relaxed := drawLength(unit.Centimetre, unit.Metre).Draw(t, "relaxed")
		pulled := drawLength(relaxed, 2*relaxed).Draw(t, "pulled")
		s, err := allowance.MeasuredStretch(relaxed, pulled)
		require.NoError(t, err)
		l := drawLength(unit.Centimetre, 10*unit.Metre).Draw(t, "finished")
		f, err := s.Apply(l)
		require.NoError(t, err)
		got := float64(f.Seam) * float64(pulled) / float64(relaxed)
		require.InDelta(t, float64(l), got, 2)
	})
}

func TestStretchRefuses(t *testing.T) {
	const in = unit.Inch
	for field, refused := range map[string][]allowance.Stretch{
		"take_out":    {{TakeOut: 0.51}, {TakeOut: -0.01}},
		"shrinkage":   {{Shrinkage: -0.01}, {Shrinkage: 0.51}},
		"compression": {{Compression: 10 * in}, {Compression: -in}},
		"ease":        {{Ease: -in}},
		"below":       {{Below: 3}, {Below: -in}},
	} {
		for _, s := range refused {
			_, err := s.Apply(10 * in)
			var e *unit.InputError
			require.ErrorAs(t, err, &e, field)
			assert.Equal(t, field, string(e.Field))
		}
	}
	_, err := allowance.MeasuredStretch(10*in, 9*in)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = allowance.MeasuredStretch(0, 9*in)
	require.ErrorIs(t, err, unit.ErrRange)
}
