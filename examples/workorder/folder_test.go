package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func any1(name string) bool { return name == "a.txt" || name == "sub/" || name == "sub/b.txt" }

func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	out := []string{}
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func content(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(b)
}

func TestWriteFolder(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "out")
	files := []outFile{{"a.txt", []byte("one")}, {"sub/b.txt", []byte("two")}}
	require.NoError(t, writeFolder(dir, files, false, any1))
	assert.Equal(t, "one", content(t, filepath.Join(dir, "a.txt")))
	assert.Equal(t, "two", content(t, filepath.Join(dir, "sub", "b.txt")))
	assert.Equal(t, []string{"out"}, names(t, parent), "nothing beside it")
	info, err := os.Stat(dir)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o755), info.Mode().Perm())

	// Not again without force, and then nothing has changed.
	again := []outFile{{"a.txt", []byte("three")}}
	err = writeFolder(dir, again, false, any1)
	require.ErrorIs(t, err, errExists)
	assert.Equal(t, "one", content(t, filepath.Join(dir, "a.txt")))

	// With force the folder is replaced, so that no file of the old order stays.
	require.NoError(t, writeFolder(dir, again, true, any1))
	assert.Equal(t, []string{"a.txt"}, names(t, dir))
	assert.Equal(t, "three", content(t, filepath.Join(dir, "a.txt")))
	assert.Equal(t, []string{"out"}, names(t, parent))
}

// Force takes away only what this program writes.
func TestWriteFolderSparesOtherFiles(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "photos")
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "deep"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "deep", "chair.jpg"), []byte("x"), 0o600))
	err := writeFolder(dir, []outFile{{"a.txt", nil}}, true, any1)
	require.ErrorContains(t, err, "deep/")
	assert.Equal(t, "x", content(t, filepath.Join(dir, "deep", "chair.jpg")))

	// A file, and a link to a folder, are no folders.
	file := filepath.Join(parent, "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	link := filepath.Join(parent, "link")
	require.NoError(t, os.Symlink(dir, link))
	for _, path := range []string{file, link} {
		require.ErrorContains(t, writeFolder(path, nil, true, any1), "not a folder")
	}
	assert.Equal(t, []string{"file", "link", "photos"}, names(t, parent))
}

// A fault on the way leaves nothing behind, and an old folder as it was.
func TestWriteFolderFault(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "out")
	for name, bad := range map[string]string{"outside": "../escaped.txt", "a file in the way": "a.txt/b.txt", "absolute": "/tmp/x", "a file twice": "a.txt"} {
		err := writeFolder(dir, []outFile{{"a.txt", []byte("one")}, {bad, nil}}, false, any1)
		require.Error(t, err, name)
		assert.Empty(t, names(t, parent), name)
	}
	require.NoError(t, writeFolder(dir, []outFile{{"a.txt", []byte("one")}}, false, any1))
	require.Error(t, writeFolder(dir, []outFile{{"../x", nil}}, true, any1))
	assert.Equal(t, []string{"out"}, names(t, parent))
	assert.Equal(t, "one", content(t, filepath.Join(dir, "a.txt")))
	require.Error(t, writeFolder(filepath.Join(parent, "none", "out"), nil, false, any1), "no folder to write beside")
}

// The program as it is run: a folder, refused, then replaced.
func TestFolderFormats(t *testing.T) {
	for format, want := range map[string][]string{"html": {"index.html"}, "patterns": {"dxf", "patterns.pdf", "svg"}} {
		dir := filepath.Join(t.TempDir(), "order")
		try := func(args ...string) (int, string) {
			var out, errs bytes.Buffer
			code := run(context.Background(), append([]string{"-job", "testdata/stool.json", "-format", format, "-out", dir}, args...), &out, &errs)
			assert.Empty(t, out.String())
			return code, errs.String()
		}
		code, errs := try()
		require.Equal(t, exitOK, code, errs)
		assert.Equal(t, want, names(t, dir))
		code, errs = try()
		assert.Equal(t, exitWrite, code)
		assert.Contains(t, errs, "-force")
		code, errs = try("-force", "-units", "metric")
		assert.Equal(t, exitOK, code, errs)
		code, errs = try("-force", "-paper", "a3")
		assert.Equal(t, exitInput, code)
		assert.Contains(t, errs, "a4 or letter")
	}
}
