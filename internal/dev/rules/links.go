package rules

import (
	"fmt"
	"go/ast"
	"go/doc/comment"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// Symbols are the names that the packages of the module declare at their top
// level, by import path: T, and T.M for a method or a field. Those of tests are
// among them.
type Symbols map[string]map[string]bool

// Source is a package as it is written, for its comments.
type Source struct {
	Package
	fset  *token.FileSet
	files []*ast.File
}

// Sources reads every package of the module, once; nobody writes to what it
// gives.
func Sources() ([]Source, Symbols, error) {
	w, err := written()
	return w.sources, w.symbols, err
}

type module struct {
	sources []Source
	symbols Symbols
	scopes  scopes
}

var written = sync.OnceValues(func() (module, error) {
	all, err := Load()
	if err != nil {
		return module{}, err
	}
	var out []Source
	symbols, top := Symbols{}, scopes{}
	for _, p := range all {
		if p.ImportPath != Module && !strings.HasPrefix(p.ImportPath, Module+"/") {
			continue
		}
		s := Source{Package: p, fset: token.NewFileSet()}
		names := map[string]bool{}
		for _, name := range slices.Concat(p.GoFiles, p.TestGoFiles, p.XTestGoFiles) {
			f, err := parser.ParseFile(s.fset, filepath.Join(p.Dir, name), nil, parser.ParseComments|parser.SkipObjectResolution)
			if err != nil {
				return module{}, err
			}
			s.files = append(s.files, f)
			declared(f, names)
		}
		symbols[p.ImportPath] = names
		top[p.ImportPath] = scopeOf(s.fset, s.files[:len(p.GoFiles)])
		out = append(out, s)
	}
	slices.SortFunc(out, func(a, b Source) int { return strings.Compare(a.ImportPath, b.ImportPath) })
	return module{out, symbols, top}, nil
})

// declared adds what a file declares.
func declared(f *ast.File, names map[string]bool) {
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			name := d.Name.Name
			if d.Recv != nil {
				name = receiver(d.Recv) + "." + name
			}
			names[name] = true
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				switch s := spec.(type) {
				case *ast.ValueSpec:
					for _, n := range s.Names {
						names[n.Name] = true
					}
				case *ast.TypeSpec:
					names[s.Name.Name] = true
					members(s, names)
				}
			}
		}
	}
}

// members adds the fields of a struct and the methods of an interface.
func members(s *ast.TypeSpec, names map[string]bool) {
	var list *ast.FieldList
	switch t := s.Type.(type) {
	case *ast.StructType:
		list = t.Fields
	case *ast.InterfaceType:
		list = t.Methods
	default:
		return
	}
	for _, field := range list.List {
		for _, n := range field.Names {
			names[s.Name.Name+"."+n.Name] = true
		}
	}
}

// receiver names the type of a method.
func receiver(recv *ast.FieldList) string {
	t := recv.List[0].Type
	for {
		switch x := t.(type) {
		case *ast.StarExpr:
			t = x.X
		case *ast.IndexExpr:
			t = x.X
		case *ast.IndexListExpr:
			t = x.X
		case *ast.Ident:
			return x.Name
		default:
			return ""
		}
	}
}

// Links lists the names in the comments of a package that lead to nothing: any in
// brackets, and in brackets or not, methods and fields with their type and names
// of public packages with their package.
func Links(all map[string]Package, symbols Symbols, s Source) []string {
	imports := map[string]string{}
	for _, f := range s.files {
		for _, i := range f.Imports {
			path, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				continue
			}
			name := path[strings.LastIndexByte(path, '/')+1:]
			if i.Name != nil {
				name = i.Name.Name
			}
			imports[name] = path
		}
	}
	words := PublicNames(all, symbols)
	var faults []string
	for _, f := range s.files {
		for _, group := range f.Comments {
			pos := s.fset.Position(group.Pos())
			text := group.Text()
			dead := slices.Concat(deadLinks(text, s.ImportPath, imports, symbols), deadMembers(text, symbols[s.ImportPath]), words.Dead(text))
			slices.Sort(dead)
			for _, bad := range slices.Compact(dead) {
				faults = append(faults, fmt.Sprintf("%s/%s:%d: %s leads to nothing", s.Path(), filepath.Base(pos.Filename), pos.Line, bad))
			}
		}
	}
	return faults
}

var member = regexp.MustCompile(`(?:^|[^\w./])([A-Z]\w*)\.([A-Z]\w*)`)

// deadMembers gives every Type.Name in a text whose type the package has, but
// without such a method or field.
func deadMembers(text string, names map[string]bool) []string {
	var dead []string
	for _, m := range member.FindAllStringSubmatch(text, -1) {
		if name := m[1] + "." + m[2]; names[m[1]] && !names[name] {
			dead = append(dead, name)
		}
	}
	return dead
}

// deadLinks gives the links of a comment that lead to nothing. Those into other
// modules are not looked at.
func deadLinks(text, self string, imports map[string]string, symbols Symbols) []string {
	var dead []string
	p := comment.Parser{
		LookupPackage: func(name string) (string, bool) {
			if path, ok := imports[name]; ok {
				return path, true
			}
			return comment.DefaultLookupPackage(name)
		},
		LookupSym: func(recv, name string) bool {
			if recv != "" {
				name = recv + "." + name
			}
			if name != "" && !symbols[self][name] {
				dead = append(dead, name)
			}
			return true
		},
	}
	for _, l := range links(p.Parse(text)) {
		own, ok := symbols[l.ImportPath]
		if name := strings.TrimPrefix(l.Recv+"."+l.Name, "."); ok && name != "" && !own[name] {
			dead = append(dead, l.ImportPath[strings.LastIndexByte(l.ImportPath, '/')+1:]+"."+name)
		}
	}
	return dead
}

// links collects the links of a comment.
func links(d *comment.Doc) []*comment.DocLink {
	var out []*comment.DocLink
	var in func(blocks []comment.Block)
	text := func(list []comment.Text) {
		for _, t := range list {
			if l, ok := t.(*comment.DocLink); ok {
				out = append(out, l)
			}
		}
	}
	in = func(blocks []comment.Block) {
		for _, b := range blocks {
			switch b := b.(type) {
			case *comment.Heading:
				text(b.Text)
			case *comment.Paragraph:
				text(b.Text)
			case *comment.List:
				for _, item := range b.Items {
					in(item.Content)
				}
			}
		}
	}
	in(d.Content)
	return out
}

// Words finds names of public packages written as pkg.Name.
type Words struct {
	symbols map[string]map[string]bool // by the last part of the import path
}

// PublicNames gives the names of the public packages.
func PublicNames(all map[string]Package, symbols Symbols) Words {
	w := Words{map[string]map[string]bool{}}
	for path, names := range symbols {
		if p := all[path]; p.Public() {
			w.symbols[p.Name] = names
		}
	}
	return w
}

var qualified = regexp.MustCompile(`(?:^|[^\w./])([a-z]+)\.([A-Z]\w*(?:\.[A-Z]\w*)?)`)

// Dead gives every pkg.Name in a text whose package is public and has no such
// name.
func (w Words) Dead(text string) []string {
	var dead []string
	for _, m := range qualified.FindAllStringSubmatch(text, -1) {
		names, ok := w.symbols[m[1]]
		if ok && !names[m[2]] {
			dead = append(dead, m[1]+"."+m[2])
		}
	}
	return dead
}
