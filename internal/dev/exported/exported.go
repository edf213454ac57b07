// Package exported checks that the comment of an enumeration lists its values,
// which go doc would hide.
package exported

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// EnumsListed asks that the comment of every exported type of constants names
// each of them.
func EnumsListed(t *testing.T, dir string) {
	t.Helper()
	docs := map[string]string{}
	consts := map[string][]string{}
	for _, d := range decls(t, dir) {
		last := "" // the type of an iota group goes on
		for _, s := range d.Specs {
			switch s := s.(type) {
			case *ast.TypeSpec:
				docs[s.Name.Name] = d.Doc.Text() + s.Doc.Text()
			case *ast.ValueSpec:
				if d.Tok != token.CONST {
					continue
				}
				if id, ok := s.Type.(*ast.Ident); ok {
					last = id.Name
				} else if len(s.Values) > 0 {
					last = ""
				}
				for _, n := range s.Names {
					if n.IsExported() && last != "" {
						consts[last] = append(consts[last], n.Name)
					}
				}
			}
		}
	}
	require.NotEmpty(t, consts)
	for typ, names := range consts {
		doc, ok := docs[typ]
		if !ok || !ast.IsExported(typ) {
			continue
		}
		words := strings.FieldsFunc(doc, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
		for _, n := range names {
			assert.True(t, slices.Contains(words, n), "the comment of %s does not name %s", typ, n)
		}
	}
}

// decls reads the declarations of the package in a folder, tests left out.
func decls(t *testing.T, dir string) []*ast.GenDecl {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	require.NoError(t, err)
	var out []*ast.GenDecl
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments|parser.SkipObjectResolution)
		require.NoError(t, err)
		for _, d := range f.Decls {
			if g, ok := d.(*ast.GenDecl); ok {
				out = append(out, g)
			}
		}
	}
	return out
}
