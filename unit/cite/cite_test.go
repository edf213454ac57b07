package cite

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestStatusNames(t *testing.T) {
	require.Len(t, Statuses(), 5)
	for _, s := range Statuses() {
		back, err := ParseStatus(s.String())
		require.NoError(t, err)
		assert.Equal(t, s, back)
		data, err := json.Marshal(s)
		require.NoError(t, err)
		var read Status
		require.NoError(t, json.Unmarshal(data, &read))
		assert.Equal(t, s, read)
	}
	for _, name := range []string{"", "Published", "published ", "Status(0)", "none", "nonsense"} {
		_, err := ParseStatus(name)
		assert.Error(t, err, "%q", name)
		s := Standard
		if name == "" {
			continue
		}
		require.Error(t, s.UnmarshalText([]byte(name)), "%q", name)
		assert.Equal(t, Standard, s, "an error leaves the value")
	}
	for _, s := range []Status{6, 255} {
		_, err := s.MarshalText()
		assert.Error(t, err)
		assert.Contains(t, s.String(), "Status(")
	}
}

func TestKindNames(t *testing.T) {
	for _, k := range []Kind{Exact, RuleOfThumb, Bound, Layout, Estimate} {
		text, err := k.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, k.String(), string(text))
		var back Kind
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, k, back)
	}
	for _, k := range []Kind{6, 255} {
		_, err := k.MarshalText()
		assert.Error(t, err)
		assert.Contains(t, k.String(), "Kind(")
	}
	k := Bound
	require.Error(t, k.UnmarshalText([]byte("guess")))
	assert.Equal(t, Bound, k)
}

// A result that founds nothing can be written and read back.
func TestZeroBasisThroughJSON(t *testing.T) {
	type result struct {
		Kind  Kind  `json:"kind"`
		Basis Basis `json:"basis"`
	}
	text, err := json.Marshal(result{})
	require.NoError(t, err)
	assert.JSONEq(t, `{"kind":"","basis":{"status":""}}`, string(text))
	back := result{Kind: Bound, Basis: Basis{Status: Standard}}
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, result{}, back)
}

func TestSourcesAreWhole(t *testing.T) {
	key := regexp.MustCompile(`^[A-Z0-9][A-Z0-9.]*(-[A-Z0-9.]+)*$`)
	seen := map[string]bool{}
	require.NotEmpty(t, Sources())
	for _, s := range Sources() {
		assert.Regexp(t, key, s.Key)
		assert.False(t, seen[s.Key], "key %s stands twice", s.Key)
		seen[s.Key] = true
		assert.NotEmpty(t, s.Title, s.Key)
		assert.NotEmpty(t, s.Publisher, s.Key)
		assert.NotEmpty(t, s.Locator, s.Key)
		assert.True(t, strings.HasPrefix(s.Address, "http"), "%s: address %q", s.Key, s.Address)
		got, ok := Lookup(s.Key)
		assert.True(t, ok)
		assert.Equal(t, s, got)
	}
	_, ok := Lookup("")
	assert.False(t, ok)
	_, ok = Lookup("NO-SUCH")
	assert.False(t, ok)
}

func TestSourcesGivesACopy(t *testing.T) {
	Sources()[0].Title = "changed"
	assert.NotEqual(t, "changed", Sources()[0].Title)
}

func TestBasisText(t *testing.T) {
	for want, b := range map[string]Basis{
		"common practice":           {Status: CommonPractice},
		"from memory; shops differ": {Status: FromMemory, Note: "shops differ"},
		"published (NIST Special Publication 811, Guide for the Use of the International System of Units); inch": {Status: Published, Source: "NIST-SP811", Note: "inch"},
		"none": {},
	} {
		assert.Equal(t, want, b.String())
	}
}
