// Command drawings writes the drawings of the packages as SVG files.
//
//	go run ./internal/dev/drawings .
//
// Every number in a drawing is worked out by its package from the sizes the
// drawing states; the command only places it on the page. The same sources
// give the same bytes. A test fails when a committed drawing is stale.
package main

import (
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
)

// sheets lists the drawings that this command places on a page: those of the
// folder allowance/doc, in the order of the package documentation, and those of
// other packages with the folder they stand in.
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
	{"material/doc/order.svg", order},
	{"thread/doc/lockstitch.svg", lockstitch},
	{"cost/doc/quote.svg", quote},
}

// home is where drawings stand that name no folder.
const home = "allowance/doc"

// drawing is a file of the repository with what draws it.
type drawing struct {
	file string
	draw func() (string, error)
}

// drawings lists all files: the sheets, and those that packages draw themselves.
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
	out = append(out, drawing{"wingchair.svg", wingChair}, drawing{"boxedcushion.svg", boxedCushion}, drawing{"ring.svg", boxingStrip}, drawing{"front.svg", frontOfChair},
		drawing{"foam/doc/curves.svg", curves})
	for i, d := range out {
		if path.Dir(d.file) == "." {
			out[i].file = path.Join(home, d.file)
		}
	}
	return out
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

func writeAll(root string) error {
	for _, d := range drawings() {
		s, err := d.draw()
		if err != nil {
			return fmt.Errorf("%s: %w", d.file, err)
		}
		//nolint:gosec // a document for everyone to read
		if err := os.WriteFile(filepath.Join(root, d.file), []byte(s), 0o644); err != nil {
			return err
		}
	}
	return nil
}
