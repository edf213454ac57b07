package cite_test

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit/cite"
)

func TestStatusNames(t *testing.T) {
	require.Len(t, cite.Statuses(), 5)
	for _, s := range cite.Statuses() {
		back, err := cite.ParseStatus(s.String())
		require.NoError(t, err)
		assert.Equal(t, s, back)
		data, err := json.Marshal(s)
		require.NoError(t, err)
		var read cite.Status
		require.NoError(t, json.Unmarshal(data, &read))
		assert.Equal(t, s, read)
	}
	for _, name := range []string{"", "Published", "published ", "Status(0)", "none", "nonsense"} {
		_, err := cite.ParseStatus(name)
		assert.Error(t, err, "%q", name)
		s := cite.Standard
		if name == "" {
			continue
		}
		require.Error(t, s.UnmarshalText([]byte(name)), "%q", name)
		assert.Equal(t, cite.Standard, s, "an error leaves the value")
	}
	for _, s := range []cite.Status{6, 255} {
		_, err := s.MarshalText()
		assert.Error(t, err)
		assert.Contains(t, s.String(), "Status(")
	}
}

func TestKindNames(t *testing.T) {
	for _, k := range []cite.Kind{cite.Exact, cite.RuleOfThumb, cite.Bound, cite.Layout, cite.Estimate} {
		text, err := k.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, k.String(), string(text))
		var back cite.Kind
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, k, back)
	}
	for _, k := range []cite.Kind{6, 255} {
		_, err := k.MarshalText()
		assert.Error(t, err)
		assert.Contains(t, k.String(), "Kind(")
	}
	k := cite.Bound
	require.Error(t, k.UnmarshalText([]byte("guess")))
	assert.Equal(t, cite.Bound, k)
}

// A result that founds nothing can be written and read back.
func TestZeroBasisThroughJSON(t *testing.T) {
	type result struct {
		Kind  cite.Kind  `json:"kind"`
		Basis cite.Basis `json:"basis"`
	}
	text, err := json.Marshal(result{})
	require.NoError(t, err)
	assert.JSONEq(t, `{"kind":"","basis":{"status":""}}`, string(text))
	back := result{Kind: cite.Bound, Basis: cite.Basis{Status: cite.Standard}}
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, result{}, back)
}

func TestSourcesAreWhole(t *testing.T) {
	key := regexp.MustCompile(`^[A-Z0-9][A-Z0-9.]*(-[A-Z0-9.]+)*$`)
	seen := map[string]bool{}
	require.NotEmpty(t, cite.Sources())
	for _, s := range cite.Sources() {
		assert.Regexp(t, key, s.Key)
		assert.False(t, seen[s.Key], "key %s stands twice", s.Key)
		seen[s.Key] = true
		assert.NotEmpty(t, s.Title, s.Key)
		assert.NotEmpty(t, s.Publisher, s.Key)
		assert.NotEmpty(t, s.Locator, s.Key)
		assert.True(t, strings.HasPrefix(s.Address, "http"), "%s: address %q", s.Key, s.Address)
		got, ok := cite.Lookup(s.Key)
		assert.True(t, ok)
		assert.Equal(t, s, got)
	}
	_, ok := cite.Lookup("")
	assert.False(t, ok)
	_, ok = cite.Lookup("NO-SUCH")
	assert.False(t, ok)
}

func TestSourcesGivesACopy(t *testing.T) {
	cite.Sources()[0].Title = "changed"
	assert.NotEqual(t, "changed", cite.Sources()[0].Title)
}

func TestBasisText(t *testing.T) {
	for want, b := range map[string]cite.Basis{
		"common practice":           {Status: cite.CommonPractice},
		"from memory; shops differ": {Status: cite.FromMemory, Note: "shops differ"},
		"published (NIST Special Publication 811, Guide for the Use of the International System of Units); inch": {Status: cite.Published, Source: "NIST-SP811", Note: "inch"},
		"none": {},
	} {
		assert.Equal(t, want, b.String())
	}
}
