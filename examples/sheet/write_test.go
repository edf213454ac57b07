package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A result takes the place of a file as somebody set it up: its mode stays,
// and a link still leads to it. A new file is as other new files of the user.
func TestModesAndLinksAreKept(t *testing.T) {
	dir := t.TempDir()
	file, link := filepath.Join(dir, "shared.xlsx"), filepath.Join(dir, "link.xlsx")
	require.NoError(t, os.WriteFile(file, []byte("before"), 0o600))
	require.NoError(t, os.Symlink(file, link))
	modes := []os.FileMode{0o600, 0o640, 0o664, 0o755}
	if runtime.GOOS == "windows" {
		modes = []os.FileMode{0o666}
	}
	for _, mode := range modes {
		require.NoError(t, os.Chmod(file, mode))
		require.NoError(t, writeFile(link, []byte(mode.String())))
		info, err := os.Stat(file)
		require.NoError(t, err)
		assert.Equal(t, mode, info.Mode())
		got, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, mode.String(), string(got))
	}
	where, err := os.Readlink(link)
	require.NoError(t, err)
	assert.Equal(t, file, where)

	ours, other := filepath.Join(dir, "new.xlsx"), filepath.Join(dir, "other")
	require.NoError(t, writeFile(ours, nil))
	f, err := os.Create(other)
	require.NoError(t, err)
	require.NoError(t, f.Close())
	a, err := os.Stat(ours)
	require.NoError(t, err)
	b, err := os.Stat(other)
	require.NoError(t, err)
	assert.Equal(t, b.Mode(), a.Mode())
}

func TestNothingIsLeftOfAFailedFile(t *testing.T) {
	dir := t.TempDir()
	broken := errors.New("broken")
	err := replace(filepath.Join(dir, "new.xlsx"), func(w io.Writer) error {
		_, err := io.WriteString(w, "half")
		require.NoError(t, err)
		return broken
	})
	require.ErrorIs(t, err, broken)
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, entries)
	require.ErrorContains(t, writeFile(dir, nil), "no plain file")
	assert.Error(t, writeFile(filepath.Join(dir, "nowhere", "new.xlsx"), nil))
}
