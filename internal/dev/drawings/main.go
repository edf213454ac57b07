// Command drawings writes the drawings of package allowance as SVG files.
//
//	go run ./internal/dev/drawings allowance/doc
//
// Every number in a drawing is worked out by package allowance from the sizes
// the drawing states; the command only places it on the page. The same sources
// give the same bytes. A test fails when a committed drawing is stale.
package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// drawings lists the files in the order of the package documentation.
var drawings = []struct {
	file string
	draw func() (*sheet, error)
}{
	{"corners.svg", corners},
	{"curvedpanel.svg", curvedPanel},
	{"stations.svg", stations},
	{"seammatch.svg", seamMatch},
	{"boxing.svg", boxing},
	{"welt.svg", welt},
	{"biastube.svg", biasTube},
	{"channels.svg", channels},
	{"tufting.svg", tufting},
	{"pleats.svg", pleats},
	{"dome.svg", dome},
	{"frustum.svg", frustum},
	{"tubband.svg", tubBand},
}

func main() { os.Exit(run(os.Args[1:], os.Stderr)) }

func run(args []string, stderr io.Writer) int {
	if len(args) != 1 {
		fmt.Fprintln(stderr, "usage: drawings DIRECTORY")
		return 2
	}
	if err := writeAll(args[0]); err != nil {
		fmt.Fprintln(stderr, "drawings:", err)
		return 1
	}
	return 0
}

func writeAll(dir string) error {
	for _, d := range drawings {
		s, err := d.draw()
		if err != nil {
			return fmt.Errorf("%s: %w", d.file, err)
		}
		//nolint:gosec // a document for everyone to read
		if err := os.WriteFile(filepath.Join(dir, d.file), []byte(s.String()), 0o644); err != nil {
			return err
		}
	}
	return nil
}
