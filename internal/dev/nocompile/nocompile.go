// Package nocompile checks programs that must not compile.
//
// Each line of a file that is wrong carries a comment `// ERROR "pattern"`. A
// check compiles the files of a folder as one package and demands exactly those
// errors: none missing, none besides.
package nocompile

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
)

var errorComment = regexp.MustCompile(`// ERROR ("(?:[^"\\]|\\.)*"|` + "`[^`]*`)")

// place is a line of a file.
type place struct {
	file string
	line int
}

// Check compiles the Go files of dir and lists what differs from their ERROR
// comments. It is an error when dir has no files, or a file no ERROR.
func Check(dir string) ([]string, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return nil, err
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("%s: no Go files", dir)
	}
	want := map[place]*regexp.Regexp{}
	for _, f := range files {
		if err := wanted(want, f); err != nil {
			return nil, fmt.Errorf("%s: %w", f, err)
		}
	}
	found, err := compile(files)
	if err != nil {
		return nil, err
	}
	var faults []string
	fault := func(at place, format string, args ...any) {
		faults = append(faults, fmt.Sprintf("%s:%d: %s", at.file, at.line, fmt.Sprintf(format, args...)))
	}
	met := map[place]bool{}
	for _, f := range found {
		pattern, ok := want[f.at]
		switch {
		case !ok:
			fault(f.at, "unexpected error: %s", f.text)
		case !pattern.MatchString(f.text):
			fault(f.at, "error %q does not match %q", f.text, pattern)
		}
		met[f.at] = true
	}
	for at, pattern := range want {
		if !met[at] {
			fault(at, "compiles, but should fail with %q", pattern)
		}
	}
	return faults, nil
}

// wanted adds the pattern of each line of a file that must fail.
func wanted(want map[place]*regexp.Regexp, name string) error {
	text, err := os.ReadFile(name) //nolint:gosec // a test file of this repository
	if err != nil {
		return err
	}
	before := len(want)
	for i, line := range strings.Split(string(text), "\n") {
		m := errorComment.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		re, err := regexp.Compile(m[1][1 : len(m[1])-1]) // patterns keep their backslashes
		if err != nil {
			return err
		}
		want[place{filepath.Base(name), i + 1}] = re
	}
	if len(want) == before {
		return errors.New("no ERROR comment")
	}
	return nil
}

// complaint is an error of the compiler.
type complaint struct {
	at   place
	text string
}

var position = regexp.MustCompile(`^(?:.*[/\\])?([^/\\]+\.go):(\d+)(?::\d+)?: (.*)`)

// compile gives every error of the compiler in a package of these files.
func compile(files []string) ([]complaint, error) {
	args := append([]string{"build", "-o", os.DevNull, "-gcflags=-e"}, files...)
	out, err := exec.Command("go", args...).CombinedOutput() //nolint:gosec // test files of this repository
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		return nil, err
	}
	var found []complaint
	for lines := bufio.NewScanner(bytes.NewReader(out)); lines.Scan(); {
		text := lines.Text()
		m := position.FindStringSubmatch(text)
		switch {
		case m != nil:
			line, err := strconv.Atoi(m[2])
			if err != nil {
				return nil, err
			}
			found = append(found, complaint{place{m[1], line}, m[3]})
		case strings.HasPrefix(text, "\t") && len(found) > 0: // it goes on
			found[len(found)-1].text += "\n" + text
		case !strings.HasPrefix(text, "#"):
			return nil, fmt.Errorf("go build: %s", out)
		}
	}
	if err != nil && len(found) == 0 {
		return nil, fmt.Errorf("go build: %w: %s", err, out)
	}
	return found, nil
}
