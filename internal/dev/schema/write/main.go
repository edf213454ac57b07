// Command write puts the JSON Schemas of the job file and the work order into
// cost/job/schema; go generate calls it.
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/coverwright/coverwright/internal/dev/schema"
)

func main() {
	if err := write(); err != nil {
		fmt.Fprintln(os.Stderr, "schema:", err)
		os.Exit(1) //nolint:forbidigo // a program
	}
}

func write() error {
	root, err := schema.Root()
	if err != nil {
		return err
	}
	files, err := schema.Files()
	if err != nil {
		return err
	}
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(root, "cost", "job", "schema", name), text, 0o644); err != nil { //nolint:gosec // a public file
			return err
		}
	}
	return nil
}
