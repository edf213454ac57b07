// Package roundtrip holds the types of a package to one way of being JSON:
// what is written reads back as the same value, and every field has a name of
// its own in small letters.
package roundtrip

import (
	"encoding"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"reflect"
	"regexp"
	"slices"
	"strings"
)

// Structs lists the exported struct types that the package in dir declares,
// errors left out, in order of name.
func Structs(dir fs.FS) ([]string, error) {
	names, err := fs.Glob(dir, "*.go")
	if err != nil {
		return nil, err
	}
	var out []string
	failing := map[string]bool{} // types with an Error method
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := fs.ReadFile(dir, name)
		if err != nil {
			return nil, err
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, text, 0)
		if err != nil {
			return nil, err
		}
		for _, d := range f.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if d.Recv != nil && d.Name.Name == "Error" {
					failing[receiver(d.Recv.List[0].Type)] = true
				}
			case *ast.GenDecl:
				for _, s := range d.Specs {
					if t, ok := s.(*ast.TypeSpec); ok && t.Name.IsExported() {
						if _, ok := t.Type.(*ast.StructType); ok {
							out = append(out, t.Name.Name)
						}
					}
				}
			}
		}
	}
	out = slices.DeleteFunc(out, func(name string) bool { return failing[name] })
	slices.Sort(out)
	return out, nil
}

func receiver(t ast.Expr) string {
	switch t := t.(type) {
	case *ast.StarExpr:
		return receiver(t.X)
	case *ast.IndexExpr:
		return receiver(t.X)
	case *ast.Ident:
		return t.Name
	}
	return ""
}

// Name gives the name of the type of v without what it is instantiated with.
func Name(v any) string {
	name, _, _ := strings.Cut(reflect.TypeOf(v).Name(), "[")
	return name
}

// Fault gives what is wrong with v as JSON: a field without a name, or a value
// that does not come back; nil when all is well.
func Fault(v any) error {
	t := reflect.TypeOf(v)
	if err := tags(t); err != nil {
		return err
	}
	text, err := json.Marshal(v)
	if err != nil {
		return fmt.Errorf("%s: %w", t, err)
	}
	back := reflect.New(t)
	if err := json.Unmarshal(text, back.Interface()); err != nil {
		return fmt.Errorf("%s: %s: %w", t, text, err)
	}
	if got := back.Elem().Interface(); !reflect.DeepEqual(v, got) {
		return fmt.Errorf("%s: %s comes back as %+v, was %+v", t, text, got, v)
	}
	return nil
}

var snake = regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)

var (
	textual = reflect.TypeFor[encoding.TextMarshaler]()
	written = reflect.TypeFor[json.Marshaler]()
)

// tags holds the fields of a struct that is written field by field to names in
// snake case.
func tags(t reflect.Type) error {
	if t.Kind() != reflect.Struct || t.Implements(textual) || t.Implements(written) {
		return nil
	}
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Anonymous && f.Tag.Get("json") == "" { // its fields count as those of t
			if err := tags(f.Type); err != nil {
				return err
			}
			continue
		}
		if !f.IsExported() {
			return fmt.Errorf("%s.%s is lost in JSON", t, f.Name)
		}
		if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); !snake.MatchString(name) {
			return fmt.Errorf("%s.%s: %q is no name in snake case", t, f.Name, name)
		}
	}
	return nil
}

// Faults lists what is wrong with the exported struct types of the package in
// dir: a type that no value of typical has, a value that is empty, and what
// Fault finds in each value and in the zero value of its type. Types named by
// except are left out.
func Faults(dir fs.FS, typical []any, except ...string) ([]string, error) {
	names, err := Structs(dir)
	if err != nil {
		return nil, err
	}
	var out []string
	seen := map[string]bool{}
	for _, v := range typical {
		seen[Name(v)] = true
		if reflect.ValueOf(v).IsZero() {
			out = append(out, fmt.Sprintf("%T is empty", v))
		}
		for _, v := range []any{v, reflect.Zero(reflect.TypeOf(v)).Interface()} {
			if err := Fault(v); err != nil {
				out = append(out, err.Error())
			}
		}
	}
	for _, name := range names {
		if !seen[name] && !slices.Contains(except, name) {
			out = append(out, name+" is not tried")
		}
	}
	for _, name := range except {
		if !slices.Contains(names, name) || seen[name] {
			out = append(out, name+" is no exception")
		}
	}
	return out, nil
}
