package allowance_test

import (
	"encoding/json"
	"errors"
	"testing"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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

func TestEdgeJSON(t *testing.T) {
	var e allowance.Edge
	require.NoError(t, json.Unmarshal([]byte(`{"finish":"pull-over","allowance":"0 in","handling":"1 in"}`), &e))
	assert.Equal(t, allowance.Edge{Finish: allowance.PullOver, Allowance: allowance.Exactly(0), Handling: unit.Inch}, e)

	for _, e := range []allowance.Edge{{}, e, {Finish: allowance.Fold}, {Allowance: allowance.Exactly(unit.Inch)}} {
		text, err := json.Marshal(e)
		require.NoError(t, err)
		var back allowance.Edge
		require.NoError(t, json.Unmarshal(text, &back))
		assert.Equal(t, e, back, string(text))
	}
	assert.Error(t, json.Unmarshal([]byte(`{"allowance":"3"}`), &e))
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
