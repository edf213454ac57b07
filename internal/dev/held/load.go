package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"path/filepath"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/dev/typed"
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

// load lists packages below the module and checks the types of their files.
func load(root string, paths []string) ([]*source, error) {
	var patterns []string
	for _, p := range paths {
		patterns = append(patterns, "./"+p)
	}
	all, err := typed.List(root, patterns...)
	if err != nil {
		return nil, err
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

func check(all typed.Packages, path string) (*source, error) {
	l, err := all.Source(module + path)
	if err != nil {
		return nil, err
	}
	s := &source{path: path, dir: l.Dir, fset: all.Fset, inTests: map[string]bool{}, info: l.Info, pkg: l.Pkg}
	for i, name := range l.GoFiles {
		s.files = append(s.files, file{name, l.Texts[i], l.Trees[i]})
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
