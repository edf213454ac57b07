package schema

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/dev/typed"
)

const module = "github.com/coverwright/coverwright"

// docs holds the comments of types, fields and constants: "package path.Type",
// "package path.Type.Field", and "package path.Type=1" for the constant of a type
// that counts from zero or one.
type docs map[string]string

// loadDocs reads the comments of the packages that a job is made of.
func loadDocs() (docs, error) {
	root, err := typed.Root()
	if err != nil {
		return nil, err
	}
	out := docs{}
	for _, pkg := range []string{"unit", "unit/cite", "allowance", "allowance/shape", "allowance/made", "material", "material/findings", "material/layout", "thread", "unit/caution", "foam", "foam/sheet", "foam/wrap", "cost", "cost/rate", "cost/stock", "cost/bench", "cost/account", "cost/job", "cost/job/build"} {
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
		if !ok {
			continue
		}
		if g.Tok == token.CONST {
			d.readCounted(pkg, g)
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
				text := strings.TrimSpace(words(field.Doc) + " " + words(field.Comment))
				for _, n := range field.Names {
					d[pkg+"."+t.Name.Name+"."+n.Name] = text
				}
			}
		}
	}
}

// readCounted keeps the comments of a group of constants that iota counts.
func (d docs) readCounted(pkg string, g *ast.GenDecl) {
	typ, from := "", 0
	for i, s := range g.Specs {
		v, ok := s.(*ast.ValueSpec)
		if !ok {
			return
		}
		if i == 0 {
			id, ok := v.Type.(*ast.Ident)
			if !ok || len(v.Values) != 1 {
				return
			}
			switch x := v.Values[0].(type) {
			case *ast.Ident: // iota
			case *ast.BinaryExpr: // iota + 1
				if x.Op != token.ADD {
					return
				}
				from = 1
			default:
				return
			}
			typ = id.Name
		}
		if text := strings.TrimSpace(words(v.Doc) + " " + words(v.Comment)); text != "" {
			d[pkg+"."+typ+"="+strconv.Itoa(from+i)] = strings.TrimPrefix(text, v.Names[0].Name+" ")
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

func (d docs) constant(t reflect.Type, value int) string {
	return d[t.PkgPath()+"."+t.Name()+"="+strconv.Itoa(value)]
}

func (d docs) of(t reflect.Type) string { return d[t.PkgPath()+"."+t.Name()] }

func (d docs) field(t reflect.Type, name string) string {
	return d[t.PkgPath()+"."+t.Name()+"."+name]
}
