// Package rules holds the public packages to the rules that a machine can
// check: doc comments and names in them that exist, no bare floats, what may
// stand on what, how much it exports, runnable examples. Each check lists what
// breaks its rule; the tests demand an empty list. They also hold the documents
// of the repository to what is there: the programs and jobs these show run, and
// their links, packages and names lead somewhere.
package rules

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"strings"
	"sync"
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

// Load lists every package of the module and all they import. It asks the go
// command once; nobody writes to what it gives.
func Load() (map[string]Package, error) { return loaded() }

var loaded = sync.OnceValues(func() (map[string]Package, error) {
	cmd := exec.Command("go", "list", "-deps", "-json=ImportPath,Dir,Name,Standard,GoFiles,TestGoFiles,XTestGoFiles,Imports,Deps", Module+"/...")
	out, err := cmd.Output()
	if err != nil {
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			return nil, fmt.Errorf("go list: %w: %s", err, exit.Stderr)
		}
		return nil, fmt.Errorf("go list: %w", err)
	}
	all := map[string]Package{}
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p Package
		switch err := dec.Decode(&p); {
		case errors.Is(err, io.EOF):
			return all, nil
		case err != nil:
			return nil, err
		}
		all[p.ImportPath] = p
	}
})
