// Command write puts the JSON Schemas of the job file and the work order into
// cost/job/schema, and the fields of the job file into cost/job/README.md; go
// generate calls it.
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/coverwright/coverwright/internal/dev/schema"
	"github.com/coverwright/coverwright/internal/dev/typed"
)

func main() {
	if err := write(); err != nil {
		fmt.Fprintln(os.Stderr, "schema:", err)
		os.Exit(1) //nolint:forbidigo // a program
	}
}

func write() error {
	root, err := typed.Root()
	if err != nil {
		return err
	}
	files, err := schema.Files()
	if err != nil {
		return err
	}
	written := map[string][]byte{}
	for name, text := range files {
		written[filepath.Join("cost", "job", "schema", name)] = text
	}
	if written[schema.ReadmePath], err = schema.Readme(); err != nil {
		return err
	}
	for path, text := range written {
		if err := os.WriteFile(filepath.Join(root, path), text, 0o644); err != nil { //nolint:gosec // public files
			return err
		}
	}
	return nil
}
