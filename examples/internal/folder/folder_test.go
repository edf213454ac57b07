package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const kind = "patterns"

// first and second are what two runs write: a file of the same name, one that is gone,
// folders that stay, go and come.
func first() []File {
	return []File{{"book.pdf", []byte("old book")}, {"svg/001-seat.svg", []byte("old seat")}, {"dxf/deep/001-seat.dxf", []byte("old")}}
}

func second() []File {
	return []File{{"book.pdf", []byte("the new book")}, {"svg/001-seat.svg", []byte("new seat")}, {"plt/002-back.plt", []byte("new")}}
}

// tree reads a folder: content and mode of each file, mode of each folder. What this
// package keeps for itself is left out.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		name = filepath.ToSlash(name)
		if name == lockFile {
			return nil
		}
		if name == work {
			return fs.SkipDir
		}
		info, err := e.Info()
		if err != nil {
			return err
		}
		out[name] = info.Mode().String()
		if e.Type().IsRegular() {
			text, err := os.ReadFile(path)
			out[name] += " " + string(text)
			return err
		}
		return nil
	}))
	return out
}

func put(t *testing.T, text string, mode fs.FileMode, path ...string) {
	t.Helper()
	name := filepath.Join(path...)
	require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
	require.NoError(t, os.WriteFile(name, []byte(text), mode))
	require.NoError(t, os.Chmod(name, mode))
}

func names(t *testing.T, dir string) []string {
	t.Helper()
	there, err := os.ReadDir(dir)
	require.NoError(t, err)
	out := []string{}
	for _, e := range there {
		out = append(out, e.Name())
	}
	return out
}

func TestWrite(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "out")
	require.NoError(t, Ready(dir, kind, false))
	require.NoError(t, Write(dir, kind, first(), false))
	assert.Equal(t, []string{"book.pdf", "dxf", "svg", Manifest}, names(t, dir))
	assert.Equal(t, []string{"out"}, names(t, parent), "nothing beside it")

	before := tree(t, dir)
	require.ErrorIs(t, Ready(dir, kind, false), ErrExists)
	require.ErrorIs(t, Write(dir, kind, second(), false), ErrExists)
	assert.Equal(t, before, tree(t, dir))

	require.NoError(t, Ready(dir, kind, true))
	require.NoError(t, Write(dir, kind, second(), true))
	assert.Equal(t, []string{"book.pdf", "plt", "svg", Manifest}, names(t, dir), "no file of the old set stays, and no empty folder")
	got, err := os.ReadFile(filepath.Join(dir, "book.pdf"))
	require.NoError(t, err)
	assert.Equal(t, "the new book", string(got))

	require.NoError(t, Write(filepath.Join(dir, "plt", "empty"), kind, nil, false))
	require.NoError(t, os.Mkdir(filepath.Join(parent, "empty"), 0o755))
	require.NoError(t, Write(filepath.Join(parent, "empty"), kind, first(), false), "nothing to replace")
	require.Error(t, Write(filepath.Join(parent, "none", "out"), kind, first(), false), "no folder to make it in")
	put(t, "a file", 0o644, parent, "file")
	require.Error(t, Write(filepath.Join(parent, "file"), kind, first(), true), "not a folder")
}

// The manifest depends on the files alone.
func TestManifest(t *testing.T) {
	const want = `{
  "schema": "coverwright/written/1",
  "kind": "patterns",
  "files": [
    {
      "name": "a.txt",
      "size": 3,
      "sha256": "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    },
    {
      "name": "b.txt",
      "size": 0,
      "sha256": "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    }
  ]
}
` // sums of "abc" and of nothing: FIPS 180-2, examples of SHA-256
	for _, files := range [][]File{{{"a.txt", []byte("abc")}, {"b.txt", nil}}, {{"b.txt", nil}, {"a.txt", []byte("abc")}}} {
		dir := filepath.Join(t.TempDir(), "out")
		require.NoError(t, Write(dir, kind, files, false))
		got, err := os.ReadFile(filepath.Join(dir, Manifest))
		require.NoError(t, err)
		assert.Equal(t, want, string(got)) //nolint:testifylint // the bytes count, not only what they mean
	}
}

// Files that this package did not write stay, also beside those that it takes away.
func TestForeignFilesSurvive(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	require.NoError(t, Write(dir, kind, first(), false))
	for _, name := range []string{"svg/own.svg", "dxf/own.dxf", "index.html", "deep/photos/chair.jpg"} {
		put(t, "mine", 0o640, dir, name)
	}
	require.NoError(t, os.Mkdir(filepath.Join(dir, "empty"), 0o700))
	require.NoError(t, Write(dir, kind, second(), true))
	after := tree(t, dir)
	for _, name := range []string{"svg/own.svg", "dxf/own.dxf", "index.html", "deep/photos/chair.jpg"} {
		assert.Equal(t, "-rw-r----- mine", after[name], name)
	}
	assert.Equal(t, "drwx------", after["empty"])
	assert.Contains(t, after["svg/001-seat.svg"], "new seat")
	assert.NotContains(t, after, "dxf/deep")
}

// What must not be replaced is named, and then nothing is touched.
func TestRefused(t *testing.T) {
	outside := t.TempDir()
	for name, c := range map[string]struct {
		change func(t *testing.T, dir string)
		want   []string
	}{
		"changed":          {func(t *testing.T, dir string) { put(t, "new notes", 0o644, dir, "svg/001-seat.svg") }, []string{"changed", "svg/001-seat.svg"}},
		"changed, as long": {func(t *testing.T, dir string) { put(t, "OLD seat", 0o644, dir, "svg/001-seat.svg") }, []string{"changed", "svg/001-seat.svg"}},
		"two changed": {func(t *testing.T, dir string) {
			put(t, "x", 0o644, dir, "svg/001-seat.svg")
			put(t, "x", 0o644, dir, "book.pdf")
		}, []string{"svg/001-seat.svg", "book.pdf"}},
		"a folder in its place": {func(t *testing.T, dir string) {
			require.NoError(t, os.Remove(filepath.Join(dir, "book.pdf")))
			require.NoError(t, os.Mkdir(filepath.Join(dir, "book.pdf"), 0o755))
		}, []string{"changed", "book.pdf"}},
		"foreign file in the way":  {func(t *testing.T, dir string) { put(t, "mine", 0o644, dir, "plt/002-back.plt") }, []string{"in the way", "plt/002-back.plt"}},
		"file where a folder goes": {func(t *testing.T, dir string) { put(t, "mine", 0o644, dir, "plt") }, []string{"in the way", "plt"}},
		"link where a folder goes": {func(t *testing.T, dir string) { require.NoError(t, os.Symlink(outside, filepath.Join(dir, "plt"))) }, []string{"in the way", "plt"}},
		"no manifest":              {func(t *testing.T, dir string) { require.NoError(t, os.Remove(filepath.Join(dir, Manifest))) }, []string{"in the way", "book.pdf", "svg/001-seat.svg"}},
		"another's manifest":       {func(t *testing.T, dir string) { put(t, `{"files": []}`, 0o644, dir, Manifest) }, []string{Manifest}},
		"manifest cut off":         {func(t *testing.T, dir string) { put(t, `{"schema": "coverwright/written/1"`, 0o644, dir, Manifest) }, []string{Manifest}},
		"manifest that reaches out": {func(t *testing.T, dir string) {
			put(t, `{"schema": "coverwright/written/1", "kind": "patterns", "files": [{"name": "../photo.jpg", "size": 0, "sha256": ""}]}`, 0o644, dir, Manifest)
		}, []string{"../photo.jpg"}},
		"another kind": {func(t *testing.T, dir string) {
			put(t, `{"schema": "coverwright/written/1", "kind": "html", "files": []}`, 0o644, dir, Manifest)
		}, []string{`"html"`}},
		"file named as our folder": {func(t *testing.T, dir string) { put(t, "mine", 0o644, dir, work) }, []string{"in the way", work}},
	} {
		t.Run(name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "out")
			require.NoError(t, Write(dir, kind, first(), false))
			c.change(t, dir)
			before := tree(t, dir)
			err := Write(dir, kind, second(), true)
			require.Error(t, err)
			for _, w := range c.want {
				require.ErrorContains(t, err, w)
			}
			assert.Equal(t, before, tree(t, dir))
			assert.NoFileExists(t, filepath.Join(dir, lockFile))
			assert.NoDirExists(t, filepath.Join(dir, work))
		})
	}
	assert.Empty(t, names(t, outside))
}

// A file that is changed while the new ones are written is refused all the same.
func TestChangedMeanwhile(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	require.NoError(t, Write(dir, kind, first(), false))
	err := write(dir, kind, second(), true, func(what string) error {
		if strings.HasPrefix(what, "move svg/001-seat.svg ") {
			put(t, "notes", 0o644, dir, "svg/001-seat.svg")
		}
		return nil
	})
	require.ErrorContains(t, err, "svg/001-seat.svg")
	after := tree(t, dir)
	assert.Contains(t, after["svg/001-seat.svg"], "notes")
	assert.Contains(t, after["book.pdf"], "old book")
	assert.NotContains(t, after, "plt")
}

// One that somebody has deleted is nothing to lose.
func TestDeleted(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	require.NoError(t, Write(dir, kind, first(), false))
	require.NoError(t, os.RemoveAll(filepath.Join(dir, "svg")))
	require.NoError(t, Write(dir, kind, second(), true))
	assert.Contains(t, tree(t, dir)["svg/001-seat.svg"], "new seat")
}

func TestModes(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	require.NoError(t, Write(dir, kind, first(), false))
	modes := map[string]fs.FileMode{"book.pdf": 0o640, "svg/001-seat.svg": 0o444, Manifest: 0o600, "svg": 0o750, ".": 0o710}
	for name, m := range modes {
		require.NoError(t, os.Chmod(filepath.Join(dir, name), m))
	}
	require.NoError(t, Write(dir, kind, second(), true))
	for name, m := range modes {
		info, err := os.Stat(filepath.Join(dir, name))
		require.NoError(t, err)
		assert.Equal(t, m, info.Mode().Perm(), name)
	}
}

func TestNames(t *testing.T) {
	for _, bad := range []string{"../escaped.txt", "/tmp/x", "a.txt", "a.txt/b.txt", "", ".", "a//b", Manifest, lockFile, work, work + "/in/x"} {
		dir := filepath.Join(t.TempDir(), "out")
		require.Error(t, Write(dir, kind, []File{{"a.txt", nil}, {bad, nil}}, false), bad)
		assert.NoDirExists(t, dir, bad)
	}
}

// A second run at the same time is refused, and the first one goes on.
func TestBusy(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	require.NoError(t, Write(dir, kind, first(), false))
	tried := 0
	require.NoError(t, write(dir, kind, second(), true, func(string) error {
		tried++
		require.ErrorIs(t, Ready(dir, kind, true), ErrBusy)
		require.ErrorIs(t, Write(dir, kind, first(), true), ErrBusy)
		return nil
	}))
	assert.Positive(t, tried)
	assert.Contains(t, tree(t, dir)["book.pdf"], "the new book")
}

func TestManyRunsAtOnce(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	require.NoError(t, Write(dir, kind, first(), false))
	var wg sync.WaitGroup
	faults := make([]error, 4)
	for i := range faults {
		wg.Go(func() {
			for j := range 5 {
				text := fmt.Appendf(nil, "run %d, %d", i, j)
				err := Write(dir, kind, []File{{"book.pdf", text}, {fmt.Sprintf("svg/%d.svg", i), text}}, true)
				if err != nil && !errors.Is(err, ErrBusy) {
					faults[i] = err
				}
			}
		})
	}
	wg.Wait()
	require.NoError(t, errors.Join(faults...))
	require.NoError(t, Ready(dir, kind, true), "what lies there is what the manifest says")
	assert.Equal(t, []string{"book.pdf", "svg", Manifest}, names(t, dir))
	assert.Len(t, names(t, filepath.Join(dir, "svg")), 1, "of one run")
}
