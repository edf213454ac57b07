package main

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
	"slices"
	"strings"
)

const module = "github.com/coverwright/coverwright/"

// source is a package with its types, ready to be rewritten.
type source struct {
	path  string // below the module, such as foam/wrap
	dir   string
	files []file
	info  *types.Info
	pkg   *types.Package
	fset  *token.FileSet

	inTests map[string]bool // names that tests of the same package use
	rapid   bool            // whether its tests draw cases
}

// file is one file of a package that is no test.
type file struct {
	name string
	text []byte
	tree *ast.File
}

type listed struct {
	ImportPath, Dir, Export                         string
	GoFiles, TestGoFiles, XTestGoFiles, TestImports []string
	XTestImports                                    []string
}

// load lists packages below the module and checks the types of their files.
func load(root string, paths []string) ([]*source, error) {
	args := []string{"list", "-export", "-deps", "-json=ImportPath,Dir,Export,GoFiles,TestGoFiles,XTestGoFiles,TestImports,XTestImports"}
	for _, p := range paths {
		args = append(args, "./"+p)
	}
	cmd := exec.Command("go", args...) //nolint:gosec // packages of this module
	cmd.Dir, cmd.Stderr = root, os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w", err)
	}
	all := map[string]listed{}
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var l listed
		if err := dec.Decode(&l); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return nil, err
		}
		all[l.ImportPath] = l
	}
	var sources []*source
	for _, p := range paths {
		s, err := check(all, p)
		if err != nil {
			return nil, err
		}
		sources = append(sources, s)
	}
	return sources, nil
}

func check(all map[string]listed, path string) (*source, error) {
	l := all[module+path]
	s := &source{path: path, dir: l.Dir, fset: token.NewFileSet(), inTests: map[string]bool{},
		info: &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}}}
	trees, err := s.parse(l.GoFiles)
	if err != nil {
		return nil, err
	}
	conf := types.Config{Importer: importer.ForCompiler(s.fset, "gc", func(p string) (io.ReadCloser, error) { return os.Open(all[p].Export) })}
	if s.pkg, err = conf.Check(module+path, s.fset, trees, s.info); err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	for _, name := range l.TestGoFiles {
		tree, err := parser.ParseFile(s.fset, filepath.Join(l.Dir, name), nil, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		ast.Inspect(tree, func(n ast.Node) bool {
			if id, ok := n.(*ast.Ident); ok {
				s.inTests[id.Name] = true
			}
			return true
		})
	}
	for _, p := range slices.Concat(l.TestImports, l.XTestImports) {
		s.rapid = s.rapid || p == "pgregory.net/rapid" || strings.HasSuffix(p, "/internal/dev/few")
	}
	return s, nil
}

func (s *source) parse(names []string) ([]*ast.File, error) {
	var trees []*ast.File
	for _, name := range names {
		text, err := os.ReadFile(filepath.Join(s.dir, name))
		if err != nil {
			return nil, err
		}
		tree, err := parser.ParseFile(s.fset, filepath.Join(s.dir, name), text, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		s.files, trees = append(s.files, file{name, text, tree}), append(trees, tree)
	}
	return trees, nil
}
