// Command references prints the whole check table: what each source says,
// what this module computes, the deviation, how well the figure is founded and
// what the row protects. It exits with status 1 when any row is out of tolerance.
// REFERENCES.md beside it is what it prints as md.
package main

//go:generate go run . -format md -o REFERENCES.md

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"os"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/internal/dev/reference/evaluate"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	fs := flag.NewFlagSet("references", flag.ContinueOnError)
	fs.SetOutput(stderr)
	format := fs.String("format", "text", "text, md or json")
	file := fs.String("o", "", "write to this file")
	if err := fs.Parse(args); err != nil {
		return 2
	}
	suites, err := evaluate.Suites()
	if err != nil {
		fmt.Fprintln(stderr, "references:", err)
		return 1
	}
	rep := reference.Run(suites)
	prints := map[string]func(io.Writer) error{"text": rep.Text, "md": rep.Markdown, "json": rep.JSON}[*format]
	if prints == nil {
		fmt.Fprintf(stderr, "references: -format %q: want text, md or json\n", *format)
		return 2
	}
	var page bytes.Buffer
	err = prints(&page)
	switch {
	case err != nil:
	case *file != "":
		err = os.WriteFile(*file, page.Bytes(), 0o600)
	default:
		_, err = page.WriteTo(stdout)
	}
	if err != nil {
		fmt.Fprintln(stderr, "references:", err)
		return 1
	}
	faults := reference.Faults(suites)
	for _, f := range faults {
		fmt.Fprintln(stderr, "references:", f)
	}
	if rep.Summary.Failed > 0 || len(faults) > 0 {
		return 1
	}
	return 0
}
