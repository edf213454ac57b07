package folder

import (
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestMain is also the run that is killed: before its step number KILL_AT.
func TestMain(m *testing.M) {
	dir := os.Getenv("KILL_IN")
	if dir == "" {
		os.Exit(m.Run())
	}
	at, err := strconv.Atoi(os.Getenv("KILL_AT"))
	if err != nil {
		panic(err)
	}
	err = write(dir, kind, second(), true, func(string) error {
		if at--; at == 0 {
			self, err := os.FindProcess(os.Getpid())
			if err == nil {
				err = self.Kill()
			}
			if err != nil {
				panic(err)
			}
			select {}
		}
		return nil
	})
	if err != nil {
		panic(err)
	}
}

// scene is a folder to write into: of an earlier run, with foreign files and modes
// of its own, or none.
type scene struct {
	name       string
	start      func(t *testing.T) string
	old, after map[string]string
	steps      int
}

func scenes(t *testing.T) []scene {
	t.Helper()
	all := []scene{
		{name: "new", start: func(t *testing.T) string { return filepath.Join(t.TempDir(), "out") }, old: map[string]string{}},
		{name: "old", start: func(t *testing.T) string {
			dir := filepath.Join(t.TempDir(), "out")
			require.NoError(t, Write(dir, kind, first(), false))
			put(t, "mine", 0o600, dir, "svg/own.svg")
			put(t, "mine", 0o600, dir, "notes.txt")
			require.NoError(t, os.Chmod(filepath.Join(dir, "book.pdf"), 0o640))
			require.NoError(t, os.Chmod(filepath.Join(dir, "svg"), 0o750))
			return dir
		}},
	}
	for i := range all {
		dir := all[i].start(t)
		if all[i].old == nil {
			all[i].old = tree(t, dir)
		}
		require.NoError(t, write(dir, kind, second(), true, func(string) error { all[i].steps++; return nil }))
		all[i].after = tree(t, dir)
		require.Greater(t, all[i].steps, 10)
		require.NotEqual(t, all[i].old, all[i].after)
	}
	return all
}

// whole tells whether a folder has all of the old files or all of the new ones, and
// nothing of an exchange.
func (s scene) whole(t *testing.T, dir string) {
	t.Helper()
	got := tree(t, dir)
	if s.name == "new" && len(got) == 1 {
		delete(got, ".") // an empty folder
	}
	if got["book.pdf"] == s.after["book.pdf"] {
		assert.Equal(t, s.after, got)
	} else {
		assert.Equal(t, s.old, got)
	}
	assert.NoDirExists(t, filepath.Join(dir, work))
	assert.NoFileExists(t, filepath.Join(dir, lockFile))
}

// unmixed tells whether nothing is lost in the middle of an exchange: no old and new
// files beside each other, foreign ones in place, and all of the old files or all of
// the new ones somewhere in the folder.
func (s scene) unmixed(t *testing.T, dir string) {
	t.Helper()
	var old, fresh bool
	for name, text := range tree(t, dir) {
		was, is := s.old[name], s.after[name]
		switch {
		case text == was && text != is && text[0] == '-':
			old = true
		case text == is && text != was && text[0] == '-':
			fresh = true
		}
	}
	assert.False(t, old && fresh, "mixed")
	all := func(files []File, places ...string) bool {
		for _, f := range files {
			found := false
			for _, p := range places {
				text, err := os.ReadFile(filepath.Join(dir, p, f.Name))
				found = found || err == nil && string(text) == string(f.Data)
			}
			if !found {
				return false
			}
		}
		return true
	}
	if len(s.old) > 0 {
		assert.True(t, all(first(), ".", oldIn) || all(second(), ".", inIn), "both lost")
		for _, name := range []string{"svg/own.svg", "notes.txt"} {
			assert.Equal(t, s.old[name], tree(t, dir)[name])
		}
	}
}

// A run that is killed at any step leaves a folder that the next run makes whole,
// whatever it is asked for. TestKilledInFull and TestFaultInFull take every step.
func TestKilled(t *testing.T) { killed(t, 5) }

// killed kills a run at every so-manyth step.
func killed(t *testing.T, every int) {
	t.Helper()
	for _, s := range scenes(t) {
		for at := 1; at <= s.steps; at += every {
			dir := s.start(t)
			run := exec.Command(os.Args[0])
			run.Env = append(os.Environ(), "KILL_IN="+dir, "KILL_AT="+strconv.Itoa(at))
			var killed *exec.ExitError
			require.ErrorAs(t, run.Run(), &killed, "%s at %d", s.name, at)
			require.Equal(t, -1, killed.ExitCode(), "%s at %d: by a signal", s.name, at)
			s.unmixed(t, dir)
			if at%2 == 0 { // a run that only looks, and is refused without force
				if err := Ready(dir, kind, false); err != nil {
					require.ErrorIs(t, err, ErrExists)
				}
				s.whole(t, dir)
			}
			require.NoError(t, Write(dir, kind, second(), true), "%s at %d", s.name, at)
			assert.Equal(t, s.after, tree(t, dir), "%s at %d", s.name, at)
			if t.Failed() {
				t.Fatalf("%s, killed at step %d", s.name, at)
			}
		}
	}
}

var errDisk = errors.New("disk fault")

// mendSlowly mends a folder by runs that each end after two steps.
func (s scene) mendSlowly(t *testing.T, dir string) {
	t.Helper()
	for range s.steps {
		left := 2
		err := within(dir, func(string) error {
			if left--; left < 0 {
				return errDisk
			}
			return nil
		}, func(exchange) error { return nil })
		if err == nil {
			return
		}
		require.ErrorIs(t, err, errDisk)
		s.unmixed(t, dir)
	}
	require.Fail(t, "not mended")
}

// A step that fails puts the old files back, or says that the next run will bring the
// new ones in. When nothing more can be written the next run does the one or the other.
func TestFault(t *testing.T) { faults(t, 5) }

// faults has every so-manyth step fail.
func faults(t *testing.T, every int) {
	t.Helper()
	for _, s := range scenes(t) {
		for at := 1; at <= s.steps; at += every {
			for _, lasting := range []bool{false, true} {
				dir := s.start(t)
				i := 0
				err := write(dir, kind, second(), true, func(string) error {
					i++
					if i == at || i > at && lasting {
						return errDisk
					}
					return nil
				})
				require.ErrorIs(t, err, errDisk)
				if _, gone := os.Stat(dir); errors.Is(gone, fs.ErrNotExist) {
					require.Equal(t, "new", s.name)
					continue
				}
				s.unmixed(t, dir)
				if _, left := os.Stat(filepath.Join(dir, work)); left == nil {
					require.ErrorContains(t, err, "the next run finishes it")
					s.mendSlowly(t, dir)
				}
				s.whole(t, dir)
				if t.Failed() {
					t.Fatalf("%s, fault at step %d, lasting: %t", s.name, at, lasting)
				}
			}
		}
	}
}

// A file that has come up where one of an unfinished exchange is to go is not
// overwritten, but named, until it is out of the way.
func TestMendSparesWhatHasComeUp(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	require.NoError(t, Write(dir, kind, first(), false))
	err := write(dir, kind, second(), true, func(what string) error {
		if what == "move "+inIn+"/book.pdf to book.pdf" {
			put(t, "mine", 0o644, dir, "book.pdf")
			return errDisk
		}
		return nil
	})
	require.ErrorIs(t, err, errDisk)
	for _, force := range []bool{false, true} {
		require.ErrorContains(t, Ready(dir, kind, force), "book.pdf")
		assert.Equal(t, "-rw-r--r-- mine", tree(t, dir)["book.pdf"])
	}
	require.NoError(t, os.Remove(filepath.Join(dir, "book.pdf")))
	require.NoError(t, Ready(dir, kind, true))
	assert.Contains(t, tree(t, dir)["book.pdf"], "the new book")
}
