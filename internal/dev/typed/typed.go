// Package typed reads packages with the types of what stands in them.
package typed

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
)

// Listed is a package as the go command lists it, with the file of its compiled form.
type Listed struct {
	ImportPath, Dir, Export                         string
	GoFiles, TestGoFiles, XTestGoFiles, TestImports []string
	XTestImports                                    []string
}

// Packages are packages with all they stand on, by import path.
type Packages struct {
	Listed map[string]Listed
	Fset   *token.FileSet
	types.Importer
}

// Root finds the folder of the module.
func Root() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", errors.New("no go.mod above the working folder")
		}
		dir = up
	}
}

// List asks the go command in a folder for packages and has them compiled.
func List(dir string, patterns ...string) (Packages, error) {
	args := append([]string{"list", "-export", "-deps", "-json=ImportPath,Dir,Export,GoFiles,TestGoFiles,XTestGoFiles,TestImports,XTestImports"}, patterns...)
	cmd := exec.Command("go", args...) //nolint:gosec // packages of this module
	cmd.Dir, cmd.Stderr = dir, os.Stderr
	cmd.Env = append(os.Environ(), "GOPROXY=off") // no module is fetched for it
	out, err := cmd.Output()
	if err != nil {
		return Packages{}, fmt.Errorf("go list -export: %w", err)
	}
	p := Packages{Listed: map[string]Listed{}, Fset: token.NewFileSet()}
	p.Importer = importer.ForCompiler(p.Fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(p.Listed[path].Export) })
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var l Listed
		if err := dec.Decode(&l); errors.Is(err, io.EOF) {
			return p, nil
		} else if err != nil {
			return Packages{}, err
		}
		p.Listed[l.ImportPath] = l
	}
}

// Source is the files of a package that are no tests, with their types.
type Source struct {
	Listed
	Pkg   *types.Package
	Info  *types.Info
	Texts [][]byte
	Trees []*ast.File
}

// Source parses a package and checks its types.
func (p Packages) Source(path string) (Source, error) {
	s := Source{Listed: p.Listed[path],
		Info: &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}}}
	for _, name := range s.GoFiles {
		text, err := os.ReadFile(filepath.Join(s.Dir, name))
		if err != nil {
			return Source{}, err
		}
		tree, err := parser.ParseFile(p.Fset, filepath.Join(s.Dir, name), text, parser.SkipObjectResolution)
		if err != nil {
			return Source{}, err
		}
		s.Texts, s.Trees = append(s.Texts, text), append(s.Trees, tree)
	}
	var err error
	s.Pkg, err = (&types.Config{Importer: p}).Check(path, p.Fset, s.Trees, s.Info)
	if err != nil {
		return Source{}, fmt.Errorf("%s: %w", path, err)
	}
	return s, nil
}
