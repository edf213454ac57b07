package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// overlay lays changed files over those of the tree for the go command.
type overlay struct {
	dir   string
	files map[string]string
}

func (o *overlay) put(path string, text []byte) error {
	name := filepath.Join(o.dir, strconv.Itoa(len(o.files))+".go")
	o.files[path] = name
	return os.WriteFile(name, text, 0o600)
}

// build builds the tests of a package, or the check table, with the changes.
func (o *overlay) build(root, out string, args ...string) error {
	text, err := json.Marshal(map[string]any{"Replace": o.files})
	if err != nil {
		return err
	}
	list := filepath.Join(o.dir, "overlay.json")
	if err := os.WriteFile(list, text, 0o600); err != nil {
		return err
	}
	cmd := exec.Command("go", append(append(args[:1:1], "-overlay", list, "-o", out), args[1:]...)...) //nolint:gosec // packages of this module
	if args[0] == "test" {
		cmd.Args = append([]string{"go", "test", "-c", "-overlay", list, "-o", out}, args[1:]...)
	}
	cmd.Dir = root
	if text, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("%s: %w\n%s", strings.Join(args, " "), err, text)
	}
	return nil
}

// program is one built program with what it is run with.
type program struct {
	name, file, dir string
	args            []string
	limit           time.Duration
}

// unheard are tests that are not run: of what compiles, of the form of JSON and
// of memory, which no figure can fail, and the dear ones, so that a change takes
// a moment.
const unheard = "Compile$|^TestNoSilentConversion$|^TestEveryTypeIsJSON$|Alloc|" +
	"^TestRippedIsThePanel$|^TestRippedSeldomRefused$|^TestTapeErrorsHold$|^TestSelectAnswersEveryCase$|^TestEveryReasonIsGiven$"

// measure runs a program without a change, which must hold, and takes its time.
func (p *program) measure() error {
	start := time.Now()
	if by := p.fails(-1); by != "" {
		return fmt.Errorf("without any change %s fails: %s", p.file, by)
	}
	p.limit = 10*time.Since(start) + 5*time.Second
	return nil
}

// fails runs a program with a change made. It gives what noticed it, empty for
// nothing.
func (p program) fails(id int) string {
	ctx, cancel := context.WithTimeout(context.Background(), p.limit)
	defer cancel()
	cmd := exec.CommandContext(ctx, p.file, p.args...) //nolint:gosec // built by this program
	cmd.Dir = p.dir
	cmd.Env = append(os.Environ(), "GOMAXPROCS=1", chosen+"="+strconv.Itoa(id))
	out, err := cmd.CombinedOutput()
	switch {
	case err == nil:
		return ""
	case ctx.Err() != nil:
		return p.name + ": takes too long"
	}
	for line := range strings.Lines(string(out)) {
		if t := strings.TrimSpace(line); strings.HasPrefix(t, "--- FAIL: ") || strings.HasPrefix(t, "row ") || strings.HasPrefix(t, "panic: ") {
			return p.name + ": " + strings.TrimPrefix(t, "--- FAIL: ")
		}
	}
	return p.name + ": " + err.Error()
}
