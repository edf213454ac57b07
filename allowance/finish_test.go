package allowance_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

func TestFinishTable(t *testing.T) {
	require.Len(t, allowance.Finishes(), 11)
	for _, f := range allowance.Finishes() {
		t.Run(f.String(), func(t *testing.T) {
			back, err := allowance.ParseFinish(f.String())
			require.NoError(t, err)
			assert.Equal(t, f, back)

			l, basis := f.Default()
			assert.GreaterOrEqual(t, l, unit.Length(0))
			assert.NotZero(t, basis.Status)
			if basis.Status == cite.Published || basis.Status == cite.Standard {
				_, known := cite.Lookup(basis.Source)
				assert.True(t, known, "source %q", basis.Source)
			}
			if f.Seam() {
				assert.True(t, f.Sewn(), "a seam is sewn")
			}
			if l == 0 {
				assert.False(t, f.Sewn(), "stitches need an allowance")
			}

			text, err := json.Marshal(f)
			require.NoError(t, err)
			var again allowance.Finish
			require.NoError(t, json.Unmarshal(text, &again))
			assert.Equal(t, f, again)
		})
	}
}

func TestFinishUnknown(t *testing.T) {
	_, err := allowance.ParseFinish("glued")
	require.ErrorIs(t, err, unit.ErrUnknown)
	assert.ErrorContains(t, err, "welted seam")

	bad := allowance.Finish(99)
	assert.Equal(t, "Finish(99)", bad.String())
	assert.False(t, bad.Sewn())
	assert.False(t, bad.Seam())
	l, basis := bad.Default()
	assert.Zero(t, l)
	assert.Zero(t, basis)
	_, err = bad.MarshalText()
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, err = allowance.Edge{Finish: bad}.Resolve()
	require.ErrorIs(t, err, unit.ErrUnknown)
}

func TestRulesAreFounded(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range allowance.Rules() {
		assert.False(t, seen[r.Name], "%s stands twice", r.Name)
		seen[r.Name] = true
		_, known := cite.Lookup(r.Basis.Source)
		assert.Equal(t, r.Basis.Status < cite.CommonPractice, known, r.Name)
		m, err := r.Edge().Resolve()
		require.NoError(t, err, r.Name)
		assert.Equal(t, r.Allowance, m.Allowance)
	}
	_, err := allowance.RuleNamed("no such rule")
	require.ErrorIs(t, err, unit.ErrUnknown)
}

func FuzzParseFinish(f *testing.F) {
	for _, x := range allowance.Finishes() {
		f.Add(x.String())
	}
	f.Add("Welted Seam")
	f.Fuzz(func(t *testing.T, s string) {
		x, err := allowance.ParseFinish(s)
		if err != nil {
			require.ErrorIs(t, err, unit.ErrUnknown)
			return
		}
		require.Equal(t, s, x.String())
	})
}
