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

// sheets lists the drawings that this command places on a page, in the order of
// the package documentation.
var sheets = []struct {
	file string
	draw func() (*sheet, error)
}{
	{"corners.svg", corners},
	{"curvedpanel.svg", curvedPanel},
	{"ripped.svg", ripped},
	{"halves.svg", averaged},
	{"stations.svg", stations},
	{"foursides.svg", fourSides},
	{"baseline.svg", baseline},
	{"offsets.svg", offsets},
	{"threepoints.svg", threePoints},
	{"photo.svg", photoOfPanel},
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

// drawing is a file with what draws it.
type drawing struct {
	file string
	draw func() (string, error)
}

// drawings lists all files: the sheets, and the maps that package pattern draws.
func drawings() []drawing {
	var out []drawing
	for _, d := range sheets {
		out = append(out, drawing{d.file, func() (string, error) {
			s, err := d.draw()
			if err != nil {
				return "", err
			}
			return s.String(), nil
		}})
	}
	return append(out, drawing{"wingchair.svg", wingChair}, drawing{"boxedcushion.svg", boxedCushion}, drawing{"ring.svg", boxingStrip}, drawing{"front.svg", frontOfChair})
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
	for _, d := range drawings() {
		s, err := d.draw()
		if err != nil {
			return fmt.Errorf("%s: %w", d.file, err)
		}
		//nolint:gosec // a document for everyone to read
		if err := os.WriteFile(filepath.Join(dir, d.file), []byte(s), 0o644); err != nil {
			return err
		}
	}
	return nil
}
