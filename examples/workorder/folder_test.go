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

// The program as it is run: a folder, refused, then replaced. What is somebody's own
// stays, and a file that somebody has changed is not replaced.
func TestFolderFormats(t *testing.T) {
	for format, want := range map[string][]string{
		"html":     {"bench.html", "customer.html", "index.html", "office.html", "supplies.html", "written.json"},
		"patterns": {"dxf", "fonts.txt", "patterns.pdf", "svg", "written.json"},
		"marks":    {"fonts.txt", "marks.pdf", "written.json"},
	} {
		dir := filepath.Join(t.TempDir(), "order")
		job := []string{"-job", "testdata/stool.json"}
		if format == "marks" {
			job = nil
		}
		try := func(args ...string) (int, string) {
			var out, errs bytes.Buffer
			code := run(context.Background(), append(append([]string{"-format", format, "-out", dir}, job...), args...), &out, &errs)
			assert.Empty(t, out.String())
			return code, errs.String()
		}
		code, errs := try()
		require.Equal(t, exitOK, code, errs)
		assert.Equal(t, want, names(t, dir))
		code, errs = try()
		assert.Equal(t, exitWrite, code)
		assert.Contains(t, errs, "-force")

		own := []string{"svg/own.svg", "dxf/own.dxf", "notes.txt"}
		if format != "html" {
			own = append(own, "index.html")
		}
		for _, name := range own {
			file := filepath.Join(dir, name)
			require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
			require.NoError(t, os.WriteFile(file, []byte("mine"), 0o600))
		}
		code, errs = try("-force", "-units", "metric")
		assert.Equal(t, exitOK, code, errs)
		for _, name := range own {
			got, err := os.ReadFile(filepath.Join(dir, name))
			require.NoError(t, err)
			assert.Equal(t, "mine", string(got), name)
		}
		code, errs = try("-force", "-paper", "a3")
		assert.Equal(t, exitInput, code)
		assert.Contains(t, errs, "a4 or letter")

		written := map[string]string{"html": "index.html", "patterns": "patterns.pdf", "marks": "marks.pdf"}[format]
		require.NoError(t, os.WriteFile(filepath.Join(dir, written), []byte("notes"), 0o600))
		code, errs = try("-force")
		assert.Equal(t, exitWrite, code)
		assert.Contains(t, errs, written)
	}
}

// A page of one's own, in a folder where nothing was written, is no page of an order.
func TestOwnPageIsSpared(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "index.html")
	require.NoError(t, os.WriteFile(file, []byte("mine"), 0o600))
	var out, errs bytes.Buffer
	code := run(context.Background(), []string{"-job", "testdata/stool.json", "-format", "html", "-out", dir, "-force"}, &out, &errs)
	assert.Equal(t, exitWrite, code)
	assert.Contains(t, errs.String(), "index.html")
	assert.Equal(t, []string{"index.html"}, names(t, dir))
	got, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, "mine", string(got))
}

// The fonts in a PDF ask that their terms go with them.
func TestFontNotice(t *testing.T) {
	notice, err := fontNotice("patterns.pdf")
	require.NoError(t, err)
	for _, want := range []string{"Fonts in patterns.pdf: Go Regular, Go Bold.", "Copyright (c) 2016 Bigelow & Holmes", "Redistributions in binary form must reproduce", "Neither the name", "POSSIBILITY OF SUCH DAMAGE."} {
		assert.Equal(t, 1, bytes.Count(notice.Data, []byte(want)), want)
	}
}
