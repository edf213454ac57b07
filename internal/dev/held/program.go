package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
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
	slow            []string // its tests that take long
	limit           time.Duration
}

// timed matches what a test that held says of itself, with its time.
var timed = regexp.MustCompile(`(?m)^--- PASS: (\w+) \(([0-9.]+)s\)`)

// deaf are tests that no figure can fail: of what compiles, of the form of
// JSON, of memory.
const deaf = "Compile$|^TestNoSilentConversion$|^TestEveryTypeIsJSON$|Alloc"

// measure runs a program without a change, which must hold, and takes its time
// and that of its tests.
func (p *program) measure() error {
	cmd := exec.Command(p.file, p.args...) //nolint:gosec // built by this program
	if p.name == "tests" {
		cmd.Args = append(cmd.Args, "-test.v", "-test.skip="+deaf)
	}
	cmd.Dir = p.dir
	cmd.Env = append(os.Environ(), "GOMAXPROCS=1")
	start := time.Now()
	out, err := cmd.CombinedOutput()
	if err != nil {
		return fmt.Errorf("without any change %s fails: %w\n%s", p.file, err, out)
	}
	p.limit = 10*time.Since(start) + 5*time.Second
	for _, m := range timed.FindAllSubmatch(out, -1) {
		if seconds, err := strconv.ParseFloat(string(m[2]), 64); err == nil && seconds >= 0.1 {
			p.slow = append(p.slow, string(m[1]))
		}
	}
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
