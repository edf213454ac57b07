// Package exported checks what a public package promises of its exported types:
// that every struct goes through JSON and back, its zero value too, under
// snake_case names; and that the comment of an enumeration lists its values,
// which go doc would hide.
package exported

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// RoundTrips writes every value and the zero value of its type as JSON and
// reads them back. The values hold every exported struct of the package in dir
// at least once.
func RoundTrips(t *testing.T, dir string, values ...any) {
	t.Helper()
	seen := map[string]bool{}
	for _, v := range values {
		typ := reflect.TypeOf(v)
		seen[baseName(typ)] = true
		tags(t, typ)
		for _, x := range []reflect.Value{reflect.ValueOf(v), reflect.Zero(typ)} {
			text, err := json.Marshal(x.Interface())
			if !assert.NoError(t, err, "%v", typ) {
				continue
			}
			back := reflect.New(typ)
			if assert.NoError(t, json.Unmarshal(text, back.Interface()), "%v reads %s", typ, text) {
				assert.Equal(t, x.Interface(), back.Elem().Interface(), "%v through %s", typ, text)
			}
		}
	}
	for _, s := range structs(t, dir) {
		assert.True(t, seen[s], "no value of the struct %s", s)
	}
}

var snake = regexp.MustCompile(`^[a-z0-9]+(_[a-z0-9]+)*$`)

// tags asks for a name in JSON for every exported field, unless the type
// writes itself.
func tags(t *testing.T, typ reflect.Type) {
	t.Helper()
	if typ.Kind() != reflect.Struct || typ.Implements(reflect.TypeFor[json.Marshaler]()) {
		return
	}
	for f := range typ.Fields() {
		if !f.IsExported() || f.Anonymous {
			continue
		}
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		assert.True(t, name == "-" || snake.MatchString(name), "%v.%s has the name %q in JSON", typ, f.Name, name)
	}
}

// baseName is the name of a type without its parameters.
func baseName(t reflect.Type) string {
	name, _, _ := strings.Cut(t.Name(), "[")
	return name
}

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
	for typ, names := range consts {
		doc, ok := docs[typ]
		if !ok || !ast.IsExported(typ) {
			continue
		}
		words := strings.FieldsFunc(doc, func(r rune) bool { return !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9') })
		for _, n := range names {
			assert.True(t, slices.Contains(words, n), "the comment of %s does not name %s", typ, n)
		}
	}
}

// structs lists the exported structs declared in a folder.
func structs(t *testing.T, dir string) []string {
	t.Helper()
	var out []string
	for _, d := range decls(t, dir) {
		for _, s := range d.Specs {
			if s, ok := s.(*ast.TypeSpec); ok && s.Name.IsExported() {
				if _, ok := s.Type.(*ast.StructType); ok {
					out = append(out, s.Name.Name)
				}
			}
		}
	}
	require.NotEmpty(t, out)
	return out
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
