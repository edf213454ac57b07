//go:build crossbuild

package addin

import (
	"archive/zip"
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The add-in for every platform, twice: the same bytes.
func TestAddInBuildsForEveryPlatform(t *testing.T) {
	first, err := Build(t.Context(), Platforms(), func(s string) { t.Log(s) })
	require.NoError(t, err)
	second, err := Build(t.Context(), Platforms(), func(string) {})
	require.NoError(t, err)
	assert.True(t, bytes.Equal(first, second))
	t.Logf("%d bytes", len(first))
	z, err := zip.NewReader(bytes.NewReader(first), int64(len(first)))
	require.NoError(t, err)
	magic := map[string]string{"linux": "\x7fELF", "windows": "MZ", "darwin": "\xcf\xfa\xed\xfe"}
	children := 0
	for _, f := range z.File {
		if name, ok := strings.CutPrefix(f.Name, "lib/child-"); ok {
			system, _, _ := strings.Cut(name, "-")
			assert.True(t, strings.HasPrefix(contents(t, f), magic[system]), f.Name)
			children++
		}
	}
	assert.Equal(t, len(Platforms()), children)
}
