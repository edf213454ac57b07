package allowance_test

import (
	"encoding/json"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

func TestEdgeResolve(t *testing.T) {
	const in = unit.Inch
	for _, c := range []struct {
		name  string
		edge  allowance.Edge
		total unit.Length
		hand  bool
	}{
		{"zero value is a plain seam", allowance.Edge{}, in / 2, false},
		{"override", allowance.Edge{Allowance: allowance.Exactly(3 * in / 8)}, 3 * in / 8, true},
		{"override of zero", allowance.Edge{Allowance: allowance.Exactly(0)}, 0, true},
		{"handling", allowance.Edge{Finish: allowance.PullOver, Handling: in}, 2 * in, false},
		{"raw tuck-in", allowance.Edge{Finish: allowance.Raw, Allowance: allowance.Exactly(6 * in)}, 6 * in, true},
		{"fold", allowance.Edge{Finish: allowance.Fold}, 0, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			m, err := c.edge.Resolve()
			require.NoError(t, err)
			assert.Equal(t, c.total, m.Total())
			assert.Equal(t, c.hand, m.ByHand)
			assert.Equal(t, c.hand, m.Basis == cite.Basis{}, "a default has a basis, an override has none")
			_, err = json.Marshal(m)
			require.NoError(t, err)
		})
	}
}

func TestEdgeRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		edge  allowance.Edge
		field string
		is    error
	}{
		"negative allowance": {allowance.Edge{Allowance: allowance.Exactly(-unit.Inch)}, "allowance", unit.ErrRange},
		"forgotten unit":     {allowance.Edge{Allowance: allowance.Exactly(1)}, "allowance", unit.ErrForgottenUnit},
		"huge handling":      {allowance.Edge{Handling: 3 * unit.Metre}, "handling", unit.ErrRange},
		"negative handling":  {allowance.Edge{Handling: -unit.Inch}, "handling", unit.ErrRange},
		"fold with a margin": {allowance.Edge{Finish: allowance.Fold, Handling: unit.Inch}, "handling", unit.ErrRange},
		"fold with a seam":   {allowance.Edge{Finish: allowance.Fold, Allowance: allowance.Exactly(unit.Inch)}, "allowance", unit.ErrRange},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := c.edge.Resolve()
			require.ErrorIs(t, err, c.is)
			var in *unit.InputError
			require.True(t, errors.As(err, &in))
			assert.Equal(t, c.field, string(in.Field))
		})
	}
}

func TestEdgeText(t *testing.T) {
	for text, want := range map[string]allowance.Edge{
		"plain seam":               {},
		"plain seam 3/8 in":        {Allowance: allowance.Exactly(3 * unit.Inch / 8)},
		"plain seam 1/2 in":        {Allowance: allowance.Exactly(unit.Inch / 2)},
		"pull-over 2 in + 1 in":    {Finish: allowance.PullOver, Allowance: allowance.Exactly(2 * unit.Inch), Handling: unit.Inch},
		"pull-over 0 in + 1 in":    {Finish: allowance.PullOver, Allowance: allowance.Exactly(0), Handling: unit.Inch},
		"turned under and stapled": {Finish: allowance.TurnedUnder},
		"single hem + 10 mm":       {Finish: allowance.SingleHem, Handling: unit.Centimetre},
		"raw 0 in":                 {Finish: allowance.Raw, Allowance: allowance.Exactly(0)},
		"fold":                     {Finish: allowance.Fold},
	} {
		var e allowance.Edge
		require.NoError(t, e.UnmarshalText([]byte(text)), text)
		assert.Equal(t, want, e, text)
		in, err := json.Marshal(map[string]allowance.Edge{"top": e})
		require.NoError(t, err)
		var back map[string]allowance.Edge
		require.NoError(t, json.Unmarshal(in, &back), string(in))
		assert.Equal(t, want, back["top"], string(in))
	}
	for text, field := range map[string]string{
		"":                      "finish",
		"seam":                  "finish",
		"pulled over 2 in":      "finish",
		"3/8 in":                "finish",
		"plain seam 3/8":        "allowance",
		"plain seam 1 ft 2 lb":  "allowance",
		"fold 1 in":             "allowance",
		"plain seam 3 m":        "allowance",
		"plain seam + ":         "handling",
		"plain seam + -1 in":    "handling",
		"fold + 1 in":           "handling",
		"plain seam + 1 in + 1": "handling",
	} {
		e := allowance.Edge{Finish: allowance.Raw}
		err := e.UnmarshalText([]byte(text))
		var in *unit.InputError
		require.ErrorAs(t, err, &in, text)
		assert.Equal(t, field, string(in.Field), text)
		assert.Equal(t, allowance.Edge{Finish: allowance.Raw}, e, "an error changes nothing")
	}
	for field, e := range map[string]allowance.Edge{
		"finish":    {Finish: 99},
		"allowance": {Allowance: allowance.Exactly(-unit.Inch)},
		"handling":  {Finish: allowance.Fold, Handling: unit.Inch},
	} {
		_, err := json.Marshal(e)
		require.ErrorContains(t, err, field)
	}
}

// An edge that has a margin reads back from its text.
func TestEdgeRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := allowance.Edge{Finish: rapid.SampledFrom(allowance.Finishes()).Draw(t, "finish"),
			Handling: unit.Length(rapid.Int64Range(0, int64(allowance.MostAllowance)).Draw(t, "handling"))}
		if rapid.Bool().Draw(t, "by hand") {
			e.Allowance = allowance.Exactly(unit.Length(rapid.Int64Range(0, int64(allowance.MostAllowance)).Draw(t, "allowance")))
		}
		_, refused := e.Resolve()
		text, err := e.MarshalText()
		require.Equal(t, refused, err)
		if err != nil {
			return
		}
		var back allowance.Edge
		require.NoError(t, back.UnmarshalText(text), string(text))
		require.Equal(t, e, back)
	})
}

func FuzzOverride(f *testing.F) {
	for _, s := range []string{"", "default", "0 in", "5/8 in", "12 mm", "3"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var o allowance.Override
		if o.UnmarshalText([]byte(s)) != nil {
			return
		}
		text, err := o.MarshalText()
		require.NoError(t, err)
		var back allowance.Override
		require.NoError(t, back.UnmarshalText(text))
		require.Equal(t, o, back)
	})
}

// Empty text and the word set nothing, a length does.
func TestOverrideText(t *testing.T) {
	for text, set := range map[string]bool{"": false, "default": false, "0 in": true, "1/2 in": true} {
		o := allowance.Exactly(unit.Inch)
		require.NoError(t, o.UnmarshalText([]byte(text)), text)
		_, got := o.Get()
		assert.Equal(t, set, got, text)
	}
}
