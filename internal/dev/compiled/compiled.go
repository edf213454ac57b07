// Package compiled gives packages as the compiler exports them, to tests of what
// packages declare.
package compiled

import (
	"fmt"
	"go/importer"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"strings"
)

// Importer gives an importer of the packages of these paths, from the build
// cache. It asks the go command once.
func Importer(fset *token.FileSet, paths ...string) (types.Importer, error) {
	if len(paths) == 0 {
		return nil, nil // nothing to import
	}
	list := exec.Command("go", //nolint:gosec // the paths come from test files of this repository
		append([]string{"list", "-export", "-deps", "-f", "{{.ImportPath}}={{.Export}}"}, paths...)...)
	out, err := list.Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w", err)
	}
	export := map[string]string{}
	for line := range strings.Lines(string(out)) {
		path, file, _ := strings.Cut(strings.TrimSpace(line), "=")
		export[path] = file
	}
	return importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) {
		file := export[path]
		if file == "" {
			return nil, fmt.Errorf("no export data of %s", path)
		}
		return os.Open(file)
	}), nil
}
