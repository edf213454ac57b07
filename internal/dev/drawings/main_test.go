package main

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const dir = "../../../allowance/doc"

// A committed drawing is what the command draws now.
func TestCommittedDrawingsAreCurrent(t *testing.T) {
	for _, d := range drawings() {
		s, err := d.draw()
		require.NoError(t, err, d.file)
		committed, err := os.ReadFile(filepath.Join(dir, d.file))
		require.NoError(t, err)
		if string(committed) != s {
			t.Errorf("%s is stale: run go generate ./allowance", d.file)
		}
	}
}

// The folder holds no drawing that nothing draws, the list in it names every
// drawing, and so does a doc comment.
func TestDrawingsAreListed(t *testing.T) {
	list, err := os.ReadFile(filepath.Join(dir, "README.md"))
	require.NoError(t, err)
	var sources []string
	for _, pattern := range []string{"../../../allowance/*.go", "../../../allowance/*/*.go"} {
		found, err := filepath.Glob(pattern)
		require.NoError(t, err)
		sources = append(sources, found...)
	}
	var comments strings.Builder
	for _, f := range sources {
		b, err := os.ReadFile(f)
		require.NoError(t, err)
		for line := range strings.Lines(string(b)) {
			if strings.HasPrefix(line, "//") {
				comments.WriteString(line)
			}
		}
	}
	known := map[string]bool{}
	for _, d := range drawings() {
		known[d.file] = true
		assert.Contains(t, string(list), "("+d.file+")", "allowance/doc/README.md")
		assert.Contains(t, comments.String(), "Drawing: allowance/doc/"+d.file, "a doc comment of package allowance")
	}
	files, err := filepath.Glob(filepath.Join(dir, "*.svg"))
	require.NoError(t, err)
	for _, f := range files {
		assert.True(t, known[filepath.Base(f)], "%s is drawn by nothing", f)
	}
}

// The command writes what is committed, and nothing else.
func TestRun(t *testing.T) {
	to := t.TempDir()
	require.Zero(t, run([]string{to}, io.Discard))
	for _, d := range drawings() {
		written, err := os.ReadFile(filepath.Join(to, d.file))
		require.NoError(t, err)
		committed, err := os.ReadFile(filepath.Join(dir, d.file))
		require.NoError(t, err)
		assert.True(t, string(written) == string(committed), d.file)
	}
	files, err := os.ReadDir(to)
	require.NoError(t, err)
	assert.Len(t, files, len(drawings()))
	assert.Equal(t, 2, run(nil, io.Discard))
	assert.Equal(t, 1, run([]string{filepath.Join(to, "no such folder")}, io.Discard))
}

// No text runs off the page, into another or closer than the eye can part.
func TestTextsAreClear(t *testing.T) {
	const apart = 2
	for _, d := range sheets {
		s, err := d.draw()
		require.NoError(t, err, d.file)
		for i, a := range s.boxes {
			assert.True(t, a.left >= 0 && a.right <= pageWidth && a.top >= 0 && a.bottom <= s.height, "%s: %q is cut off", d.file, a.text)
			for _, b := range s.boxes[:i] {
				assert.False(t, a.left < b.right+apart && b.left < a.right+apart && a.top < b.bottom+apart && b.top < a.bottom+apart, "%s: %q runs into %q", d.file, a.text, b.text)
			}
		}
	}
}
