package main

import (
	"io"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const root = "../../.."

// A committed drawing is what the command draws now.
func TestCommittedDrawingsAreCurrent(t *testing.T) {
	for _, d := range drawings() {
		s, err := d.draw()
		require.NoError(t, err, d.file)
		committed, err := os.ReadFile(filepath.Join(root, d.file))
		require.NoError(t, err)
		if string(committed) != s {
			t.Errorf("%s is stale: run go generate ./allowance", d.file)
		}
	}
}

// The folders hold no drawing that nothing draws; the page beside a drawing, or of
// its package, shows it, and a doc comment names it.
func TestDrawingsAreListed(t *testing.T) {
	known, comments := map[string]bool{}, map[string]string{}
	for _, d := range drawings() {
		known[d.file] = true
		folder := path.Dir(d.file)
		pkg := path.Dir(folder)
		if _, read := comments[pkg]; !read {
			comments[pkg] = commentsIn(t, pkg)
		}
		assert.Contains(t, comments[pkg], "Drawing: "+d.file, "a doc comment of package %s", pkg)
		page, link := filepath.Join(root, pkg, "README.md"), "doc/"+path.Base(d.file)
		if folder == home {
			page, link = filepath.Join(root, folder, "README.md"), path.Base(d.file)
		}
		list, err := os.ReadFile(page)
		require.NoError(t, err)
		assert.Contains(t, string(list), "("+link+")", page)
	}
	for d := range known {
		files, err := filepath.Glob(filepath.Join(root, path.Dir(d), "*.svg"))
		require.NoError(t, err)
		for _, f := range files {
			assert.True(t, known[path.Join(path.Dir(d), filepath.Base(f))], "%s is drawn by nothing", f)
		}
	}
}

// commentsIn gives the lines of comments in a package and those below it.
func commentsIn(t *testing.T, pkg string) string {
	t.Helper()
	var comments strings.Builder
	for _, pattern := range []string{"*.go", "*/*.go"} {
		found, err := filepath.Glob(filepath.Join(root, pkg, pattern))
		require.NoError(t, err)
		for _, f := range found {
			b, err := os.ReadFile(f)
			require.NoError(t, err)
			for line := range strings.Lines(string(b)) {
				if strings.HasPrefix(line, "//") {
					comments.WriteString(line)
				}
			}
		}
	}
	return comments.String()
}

// The command writes what is committed, and nothing else.
func TestRun(t *testing.T) {
	to := t.TempDir()
	for _, d := range drawings() {
		require.NoError(t, os.MkdirAll(filepath.Join(to, path.Dir(d.file)), 0o700))
	}
	require.Zero(t, run([]string{to}, io.Discard))
	for _, d := range drawings() {
		written, err := os.ReadFile(filepath.Join(to, d.file))
		require.NoError(t, err)
		committed, err := os.ReadFile(filepath.Join(root, d.file))
		require.NoError(t, err)
		assert.True(t, string(written) == string(committed), d.file)
	}
	files, err := filepath.Glob(filepath.Join(to, "*", "doc", "*"))
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
