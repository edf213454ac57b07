// Package pages keeps the pages that explain a package true. A page is its own
// source: what stands between two marks is written from the code, the rest by
// hand.
//
//	<!-- doc NAME -->       the declaration of a name and its doc comment
//	<!-- example NAME -->   the example of that name, and what it prints
//	<!-- end -->
//
// A block of text outside the marks is worked by hand. Every sum in it must
// come out (see Work), and the last result of each block must be what the next
// example prints.
package pages

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/doc"
	"go/doc/comment"
	"go/format"
	"go/parser"
	"go/printer"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// Package is what a page can take from a package.
type Package struct {
	fset     *token.FileSet
	doc      *doc.Package
	decls    map[string]ast.Node
	comments map[string]string
	examples map[string]*doc.Example
}

// Read reads the package in a folder, with its tests.
func Read(dir, path string) (Package, error) {
	p := Package{fset: token.NewFileSet(), decls: map[string]ast.Node{}, comments: map[string]string{}, examples: map[string]*doc.Example{}}
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return p, err
	}
	var files, tests []*ast.File
	for _, name := range names {
		f, err := parser.ParseFile(p.fset, name, nil, parser.ParseComments)
		if err != nil {
			return p, err
		}
		if strings.HasSuffix(name, "_test.go") {
			tests = append(tests, f)
		} else {
			files = append(files, f)
		}
	}
	for _, e := range doc.Examples(tests...) {
		p.examples[e.Name] = e
	}
	if p.doc, err = doc.NewFromFiles(p.fset, files, path); err != nil {
		return p, err
	}
	add := func(name string, node ast.Node, comment string) {
		p.decls[name], p.comments[name] = node, comment
	}
	funcs := func(of string, list []*doc.Func) {
		for _, f := range list {
			add(of+f.Name, f.Decl, f.Doc)
		}
	}
	funcs("", p.doc.Funcs)
	for _, t := range p.doc.Types {
		comment := t.Doc
		for _, c := range t.Consts {
			comment += "\n" + c.Doc
		}
		add(t.Name, nil, comment)
		funcs("", t.Funcs)
		funcs(t.Name+".", t.Methods)
	}
	return p, nil
}

// Formulas lists the names whose doc comments write out a formula: a line that
// stands apart and has an equals sign.
func (p Package) Formulas() []string {
	apart := regexp.MustCompile(`(?m)^\t[^"{]*[^=≤<>:!] = `)
	var out []string
	for name, comment := range p.comments {
		if apart.MatchString(comment) {
			out = append(out, name)
		}
	}
	return out
}

// mark is a part of a page that is written from the code.
var mark = regexp.MustCompile(`(?s)<!-- (doc|example) ([A-Za-z0-9_.]+) -->\n.*?<!-- end -->`)

// Fill writes a page anew.
func (p Package) Fill(page string) (string, error) {
	var failed error
	filled := mark.ReplaceAllStringFunc(page, func(part string) string {
		m := mark.FindStringSubmatch(part)
		text, err := p.part(m[1], m[2])
		if err != nil && failed == nil {
			failed = err
		}
		return fmt.Sprintf("<!-- %s %s -->\n%s\n<!-- end -->", m[1], m[2], text)
	})
	return filled, failed
}

func (p Package) part(kind, name string) (string, error) {
	if kind == "doc" {
		return p.declared(name)
	}
	e := p.examples[strings.ReplaceAll(name, ".", "_")]
	if e == nil {
		return "", fmt.Errorf("no example %s", name)
	}
	if e.Output == "" {
		return "", fmt.Errorf("example %s prints nothing", name)
	}
	code, err := p.source(&printed{e.Code, e.Comments})
	if err != nil {
		return "", err
	}
	if _, block := e.Code.(*ast.BlockStmt); block {
		code = strings.ReplaceAll("\n"+strings.Trim(code, "{}\n"), "\n\t", "\n")
	}
	code, _, _ = strings.Cut(code, "\n// Output:")
	return "```go\n" + strings.TrimSpace(code) + "\n```\n\nprints\n\n```text\n" + strings.TrimSpace(e.Output) + "\n```", nil
}

// printed is code with the comments in it.
type printed struct {
	node     ast.Node
	comments []*ast.CommentGroup
}

func (p Package) source(c *printed) (string, error) {
	var b bytes.Buffer
	err := format.Node(&b, p.fset, &printer.CommentedNode{Node: c.node, Comments: c.comments})
	return b.String(), err
}

// declared writes what a name is: of a function its line, then the comment.
func (p Package) declared(name string) (string, error) {
	said, ok := p.comments[name]
	if !ok {
		return "", fmt.Errorf("no exported %s", name)
	}
	var out string
	if f, ok := p.decls[name].(*ast.FuncDecl); ok {
		bare := *f
		bare.Body, bare.Doc = nil, nil
		line, err := p.source(&printed{&bare, nil})
		if err != nil {
			return "", err
		}
		out = "```go\n" + line + "\n```\n\n"
	}
	pr := p.doc.Printer()
	pr.DocLinkURL = func(*comment.DocLink) string { return "" }
	return out + strings.TrimSpace(string(pr.Markdown(p.doc.Parser().Parse(said)))), nil
}

// PageOf gives the page of the package in a folder.
func PageOf(dir string) string { return filepath.Join(dir, "README.md") }

// Refresh writes the page of a folder anew.
func Refresh(dir, path string) error {
	p, err := Read(dir, path)
	if err != nil {
		return err
	}
	old, err := os.ReadFile(PageOf(dir))
	if err != nil {
		return err
	}
	text, err := p.Fill(string(old))
	if err != nil {
		return err
	}
	return os.WriteFile(PageOf(dir), []byte(text), 0o600)
}
