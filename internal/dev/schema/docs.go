package schema

import (
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"reflect"
	"strings"
)

const module = "github.com/coverwright/coverwright"

// docs holds the comments of types and fields: "package path.Type" and "package
// path.Type.Field".
type docs map[string]string

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

// loadDocs reads the comments of the packages that a job is made of.
func loadDocs() (docs, error) {
	root, err := Root()
	if err != nil {
		return nil, err
	}
	out := docs{}
	for _, pkg := range []string{"unit", "unit/cite", "allowance", "allowance/shape", "allowance/made", "material", "material/layout", "thread", "foam", "foam/sheet", "foam/wrap", "cost", "cost/rate", "cost/job"} {
		files, err := filepath.Glob(filepath.Join(root, pkg, "*.go"))
		if err != nil {
			return nil, err
		}
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") {
				continue
			}
			f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ParseComments|parser.SkipObjectResolution)
			if err != nil {
				return nil, err
			}
			out.read(module+"/"+pkg, f)
		}
	}
	return out, nil
}

func (d docs) read(pkg string, f *ast.File) {
	for _, decl := range f.Decls {
		g, ok := decl.(*ast.GenDecl)
		if !ok || g.Tok != token.TYPE {
			continue
		}
		for _, s := range g.Specs {
			t, ok := s.(*ast.TypeSpec)
			if !ok {
				continue
			}
			doc := t.Doc
			if doc == nil {
				doc = g.Doc
			}
			d[pkg+"."+t.Name.Name] = words(doc)
			st, ok := t.Type.(*ast.StructType)
			if !ok {
				continue
			}
			for _, field := range st.Fields.List {
				text := words(field.Doc)
				if c := words(field.Comment); c != "" {
					text = strings.TrimSpace(text + " " + c)
				}
				for _, n := range field.Names {
					d[pkg+"."+t.Name.Name+"."+n.Name] = text
				}
			}
		}
	}
}

// words gives the first paragraph of a comment on one line.
func words(c *ast.CommentGroup) string {
	if c == nil {
		return ""
	}
	first, _, _ := strings.Cut(c.Text(), "\n\n")
	return strings.NewReplacer("[", "", "]", "").Replace(strings.Join(strings.Fields(first), " "))
}

func (d docs) of(t reflect.Type) string { return d[t.PkgPath()+"."+t.Name()] }

func (d docs) field(t reflect.Type, name string) string {
	return d[t.PkgPath()+"."+t.Name()+"."+name]
}
