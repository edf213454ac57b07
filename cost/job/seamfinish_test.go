package job

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

func TestSeamFinishText(t *testing.T) {
	for text, want := range map[string]SeamFinish{
		"":                         {},
		"plain seam":               {},
		"plain seam 3/8 in":        {Allowance: allowance.Exactly(3 * unit.Inch / 8)},
		"welted seam":              {Kind: allowance.WeltedJoin},
		"welted seam 1/2 in + 1in": {Kind: allowance.WeltedJoin, Allowance: allowance.Exactly(unit.Inch / 2), Handling: unit.Inch},
		"plain seam+10 mm":         {Handling: unit.Centimetre},
		"plain seam 0 in":          {Allowance: allowance.Exactly(0)},
	} {
		var f SeamFinish
		require.NoError(t, f.UnmarshalText([]byte(text)), text)
		assert.Equal(t, want, f, text)
	}
	for text, want := range map[string]error{
		"glued": unit.ErrUnknown, "3/8 in": unit.ErrUnknown, "plain seam 3/8": unit.ErrMissingUnit, "plain seam 3 m": unit.ErrRange, "plain seam + 3 m": unit.ErrRange,
		"plain seam 1 lb": unit.ErrUnknownUnit, "plain seam + -1 in": unit.ErrRange, "pull-over 1 in": unit.ErrUnknown,
	} {
		f := SeamFinish{Handling: unit.Inch}
		require.ErrorIs(t, f.UnmarshalText([]byte(text)), want, text)
		assert.Equal(t, SeamFinish{Handling: unit.Inch}, f, "an error changes nothing")
	}
	_, err := SeamFinish{Kind: 99}.MarshalText()
	require.ErrorIs(t, err, unit.ErrUnknown)
}

// A finish that is written reads back.
func TestSeamFinishRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := SeamFinish{Kind: allowance.SeamKind(rapid.IntRange(0, 12).Draw(t, "kind")), Handling: unit.Length(rapid.Int64Range(-1e9, 3e9).Draw(t, "handling"))}
		if rapid.Bool().Draw(t, "by hand") {
			f.Allowance = allowance.Exactly(unit.Length(rapid.Int64Range(-1e9, 3e9).Draw(t, "allowance")))
		}
		text, err := f.MarshalText()
		if err != nil {
			return
		}
		var back SeamFinish
		require.NoError(t, back.UnmarshalText(text), string(text))
		require.Equal(t, f, back)
	})
}
