// Package rules holds the public packages to the rules that a machine can
// check: doc comments and names in them that exist, no bare floats, what may
// stand on what, how much it exports, runnable examples. Each check lists what
// breaks its rule; the tests demand an empty list. They also hold the documents
// of the repository to what is there: the programs and jobs these show run, and
// their links, packages and names lead somewhere.
package rules

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"

	"github.com/coverwright/coverwright/internal/dev/typed"
)

// Module is the path all packages of this module begin with.
const Module = "github.com/coverwright/coverwright"

// Package is one package as the go command lists it.
type Package struct {
	ImportPath   string
	Dir          string
	Name         string
	Standard     bool
	GoFiles      []string
	TestGoFiles  []string
	XTestGoFiles []string
	Imports      []string
	Deps         []string
}

// Path gives the import path below the module, such as cost/job.
func (p Package) Path() string {
	return strings.TrimPrefix(strings.TrimPrefix(p.ImportPath, Module), "/")
}

// Public tells whether users of the module may import p.
func (p Package) Public() bool {
	if p.ImportPath != Module && !strings.HasPrefix(p.ImportPath, Module+"/") || p.Name == "main" {
		return false
	}
	for _, part := range strings.Split(p.Path(), "/") {
		if part == "internal" || part == "examples" {
			return false
		}
	}
	return len(p.GoFiles) > 0
}

// Programs is the folder of the module of the programs.
const Programs = "examples"

// Load lists every package of the module and all they import, and those of the
// module of the programs without what they import. The go command is
// asked once; nobody writes to what it gives.
func Load() (map[string]Package, error) { return loaded() }

var loaded = sync.OnceValues(func() (map[string]Package, error) {
	root, err := typed.Root()
	if err != nil {
		return nil, err
	}
	all := map[string]Package{}
	if err := list(all, root, "-deps", "./..."); err != nil {
		return nil, err
	}
	return all, ListPrograms(all, filepath.Join(root, Programs))
})

// ListPrograms adds the packages of the module of the programs, in its folder. It
// needs none of the modules that they import: who tests the library need not have
// them.
func ListPrograms(all map[string]Package, dir string) error {
	bare, err := os.CreateTemp("", "*.mod")
	if err != nil {
		return err
	}
	defer os.Remove(bare.Name()) //nolint:errcheck // in the folder of the system for such
	if _, err = fmt.Fprintf(bare, "module %s/%s\n", Module, Programs); err != nil {
		return err
	}
	if err = bare.Close(); err != nil {
		return err
	}
	return list(all, dir, "-find", "-modfile", bare.Name(), "./...")
}

// list adds the packages that the go command lists in a folder.
func list(all map[string]Package, dir string, args ...string) error {
	cmd := exec.Command("go", append([]string{"list", "-json=ImportPath,Dir,Name,Standard,GoFiles,TestGoFiles,XTestGoFiles,Imports,Deps"}, args...)...) //nolint:gosec // words of this file
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "GOPROXY=off") // no module is fetched for a list of files
	out, err := cmd.Output()
	if err != nil {
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			return fmt.Errorf("go list: %w: %s", err, exit.Stderr)
		}
		return fmt.Errorf("go list: %w", err)
	}
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p Package
		switch err := dec.Decode(&p); {
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return err
		}
		all[p.ImportPath] = p
	}
}
