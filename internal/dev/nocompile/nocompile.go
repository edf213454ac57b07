// Package nocompile checks programs that must not compile.
//
// Each line of a file that is wrong carries a comment `// ERROR "pattern"`. A
// check type-checks every file on its own and demands exactly those errors:
// none missing, none besides.
package nocompile

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/internal/dev/compiled"
)

var errorComment = regexp.MustCompile(`// ERROR ("(?:[^"\\]|\\.)*"|` + "`[^`]*`)")

// Check type-checks every Go file of dir and lists what differs from its
// ERROR comments. It is an error when dir has no files, or a file no ERROR.
func Check(dir string) ([]string, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return nil, err
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("%s: no Go files", dir)
	}
	fset := token.NewFileSet()
	imp, err := imports(fset, files)
	if err != nil {
		return nil, err
	}
	var faults []string
	for _, f := range files {
		more, err := checkFile(fset, imp, f)
		if err != nil {
			return nil, err
		}
		faults = append(faults, more...)
	}
	return faults, nil
}

// imports gives an importer of what the files import.
func imports(fset *token.FileSet, files []string) (types.Importer, error) {
	paths := map[string]bool{}
	for _, name := range files {
		f, err := parser.ParseFile(fset, name, nil, parser.ImportsOnly)
		if err != nil {
			return nil, err
		}
		for _, spec := range f.Imports {
			path, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return nil, err
			}
			paths[path] = true
		}
	}
	return compiled.Importer(fset, slices.Sorted(maps.Keys(paths))...)
}

func checkFile(fset *token.FileSet, imp types.Importer, name string) ([]string, error) {
	file, err := parser.ParseFile(fset, name, nil, parser.ParseComments)
	if err != nil {
		return nil, err
	}
	want, err := wanted(fset, file)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(want) == 0 {
		return nil, fmt.Errorf("%s: no ERROR comment", name)
	}
	var faults []string
	fault := func(line int, format string, args ...any) {
		faults = append(faults, fmt.Sprintf("%s:%d: %s", filepath.Base(name), line, fmt.Sprintf(format, args...)))
	}
	met := map[int]bool{}
	conf := types.Config{Importer: imp, Error: func(err error) {
		var te types.Error
		if !errors.As(err, &te) {
			fault(0, "%v", err)
			return
		}
		line := fset.Position(te.Pos).Line
		pattern, ok := want[line]
		switch {
		case !ok:
			fault(line, "unexpected error: %s", te.Msg)
		case !pattern.MatchString(te.Msg):
			fault(line, "error %q does not match %q", te.Msg, pattern)
		}
		met[line] = true
	}}
	_, _ = conf.Check(file.Name.Name, fset, []*ast.File{file}, nil) //nolint:errcheck // errors went to the function above
	for line, pattern := range want {
		if !met[line] {
			fault(line, "compiles, but should fail with %q", pattern)
		}
	}
	return faults, nil
}

// wanted gives the pattern of each line that must fail.
func wanted(fset *token.FileSet, file *ast.File) (map[int]*regexp.Regexp, error) {
	want := map[int]*regexp.Regexp{}
	for _, group := range file.Comments {
		for _, c := range group.List {
			m := errorComment.FindStringSubmatch(c.Text)
			if m == nil {
				continue
			}
			text := m[1]
			if text[0] == '"' { // patterns keep their backslashes
				text = "`" + text[1:len(text)-1] + "`"
			}
			pattern, err := strconv.Unquote(text)
			if err != nil {
				return nil, err
			}
			re, err := regexp.Compile(pattern)
			if err != nil {
				return nil, err
			}
			want[fset.Position(c.Pos()).Line] = re
		}
	}
	return want, nil
}
