// Command drawings writes the drawings of package allowance as SVG files.
//
//	go run ./internal/drawings allowance/doc
//
// Every number in a drawing is worked out by package allowance from the sizes
// the drawing states; the command only places it on the page. The same sources
// give the same bytes. A test fails when a committed drawing is stale.
package main

import (
	"flag"
	"fmt"
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

func main() {
	flag.Usage = func() {
		fmt.Fprintln(flag.CommandLine.Output(), "usage: drawings DIRECTORY\n\nWrites the drawings of package allowance as SVG files.")
	}
	flag.Parse()
	if flag.NArg() != 1 {
		flag.Usage()
		os.Exit(2)
	}
	if err := writeAll(flag.Arg(0)); err != nil {
		fmt.Fprintln(os.Stderr, "drawings:", err)
		os.Exit(1)
	}
}

func writeAll(dir string) error {
	for _, d := range drawings {
		s, err := d.draw()
		if err != nil {
			return fmt.Errorf("%s: %w", d.file, err)
		}
		if err := os.WriteFile(filepath.Join(dir, d.file), []byte(s.String()), 0o644); err != nil {
			return err
		}
	}
	return nil
}
