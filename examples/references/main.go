// Command references prints the whole check table: what each source says,
// what this module computes, and the deviation. It exits with status 1 when
// any row is out of tolerance.
package main

import (
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
	if err := fs.Parse(args); err != nil {
		return 2
	}
	suites, err := evaluate.Suites()
	if err != nil {
		fmt.Fprintln(stderr, "references:", err)
		return 1
	}
	rep := reference.Run(suites)
	switch *format {
	case "text":
		err = rep.Text(stdout)
	case "md":
		err = rep.Markdown(stdout)
	case "json":
		err = rep.JSON(stdout)
	default:
		fmt.Fprintf(stderr, "references: -format %q: want text, md or json\n", *format)
		return 2
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
