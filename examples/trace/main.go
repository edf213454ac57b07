// Command trace reads the outlines of panels from photographs and writes them for
// a job file. The panels lie flat on a plain ground between printed pages of marks:
//
//	workorder -format marks -out marks
//
// Usage:
//
//	trace [-across LENGTH -up LENGTH] [-taped LENGTH] [-thickness LENGTH] [-tolerance LENGTH]
//	      [-level] [-overlay FILE.svg] [-out FILE.json] PHOTO
//	trace -hides [-across LENGTH -up LENGTH] [-taped LENGTH] [-overlay FILE.svg] [-out FILE.json] PHOTO
//	trace -job DIR [-goods ID] [-layer NAME] [-unit LENGTH] [-overlay DIR] [-out FILE.json] ...
//	trace -demo FILE.jpg
//
// The first form prints the panels of a photo, a JPEG or PNG, as the field "panels"
// of a piece of the job file, and on standard error how large each is and how far it
// may be off. -overlay draws what was read over the photo: look at it.
//
// -across and -up are the lengths of the two lines on the page of marks, as a steel
// rule shows them; -taped is the distance between the marks without a dot of two
// pages: of three and more with their numbers, such as -taped 1-4:912mm, which the
// overlay shows. Without any of them the print may be half a
// percent off, and so may every length. -thickness is that of the panels over the
// pages. The arrow of the leftmost page says where up is; -level turns panels that lie
// a little aslant.
//
// -hides prints hides for the field "hides" of goods, with the arrow of the leftmost
// page towards the neck.
//
// -job makes a whole job file of a folder: of its photos, and of outlines in SVG and
// DXF, one piece of furniture with a panel for each outline. Goods, prices and seams
// are to be filled in. It can be cut as it is, every edge with a plain seam.
//
// -demo writes a photo to try the program on.
//
// A photo that does not tell the panels with certainty is refused, with what to do,
// and exit status 2.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// Exit statuses.
const (
	exitOK    = 0
	exitWrite = 1 // the outlines could not be written
	exitInput = 2 // the command line or a photo is wrong
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// command is the command line.
type command struct {
	settings
	overlay, out, job, demo string
	drawings                drawing
	goods                   string
	hides                   bool
	args                    []string
}

// length is a length on the command line, from least.
func length(fs *flag.FlagSet, to *unit.Length, name, usage string) {
	fs.Func(name, usage, func(s string) error { return parseLength(s, to) })
}

func parseLength(s string, to *unit.Length) error {
	l, err := unit.ParseLength(s)
	if err != nil {
		return err
	}
	if l <= 0 || l > 10*unit.Metre {
		return errors.New("want a length above nothing, up to 10 m")
	}
	*to = l
	return nil
}

func parse(args []string, stderr io.Writer) (c command, err error) {
	fs := flag.NewFlagSet("trace", flag.ContinueOnError)
	fs.SetOutput(stderr)
	length(fs, &c.across, "across", "`length` of the line across the page of marks, as a rule shows it")
	length(fs, &c.up, "up", "`length` of the line up the page of marks, as a rule shows it")
	fs.Func("taped", "`length` between the marks without a dot of two pages; where there are more, with their numbers, as 1-4:912mm", func(s string) error {
		pages, taped, numbered := strings.Cut(s, ":")
		if !numbered {
			taped = s
		} else if _, err := fmt.Sscanf(pages+"\n", "%d-%d\n", &c.between[0], &c.between[1]); err != nil || min(c.between[0], c.between[1]) < 1 || c.between[0] == c.between[1] {
			return errors.New("want two numbers of pages and a length, such as 1-4:912mm")
		}
		return parseLength(taped, &c.taped)
	})
	length(fs, &c.thickness, "thickness", "`length` by which the face of the panels lies above the pages")
	length(fs, &c.tolerance, "tolerance", "`length` by which lines and curves may leave the border that was seen; a quarter of a millimetre or a little more when not given")
	fs.BoolVar(&c.level, "level", false, "turn every panel so that its lowest straight side lies level, when it slants by up to 5 degrees")
	fs.StringVar(&c.overlay, "overlay", "", "`file` for a drawing (SVG) of the outlines over the photo; with -job a folder for them")
	fs.StringVar(&c.out, "out", "", "`file` to write; standard output when not given")
	fs.StringVar(&c.job, "job", "", "`folder` of photos and drawings to make a job file of")
	fs.StringVar(&c.demo, "demo", "", "`file` (JPEG) to write a photo to try the program on")
	fs.BoolVar(&c.hides, "hides", false, "what is photographed are hides: print them as the field hides of goods")
	fs.StringVar(&c.goods, "goods", "cloth", "the `id` of the goods the panels are cut from")
	fs.StringVar(&c.drawings.layer, "layer", "", "of DXF drawings, the `name` of the only layer to read")
	length(fs, &c.drawings.unit, "unit", "`length` of one unit of drawings that do not say their size")
	if err := fs.Parse(args); err != nil {
		return c, errUsage
	}
	c.args = fs.Args()
	switch {
	case (c.across == 0) != (c.up == 0):
		return c, errors.New("-across and -up go together")
	case c.demo != "" && (c.job != "" || len(c.args) > 0):
		return c, errors.New("-demo FILE.jpg stands alone")
	case c.job != "" && len(c.args) > 0:
		return c, fmt.Errorf("unknown argument %q; -job takes the folder", c.args[0])
	case c.hides && (c.job != "" || c.level):
		return c, errors.New("-hides goes with one photo, and not with -level")
	case c.job == "" && c.demo == "" && len(c.args) != 1:
		return c, errors.New("want one photo; -job DIR takes several")
	}
	return c, nil
}

// errUsage says that the flags are wrong, which the flag package has told.
var errUsage = errors.New("usage")

func run(args []string, stdout, stderr io.Writer) int {
	c, err := parse(args, stderr)
	if err != nil {
		if !errors.Is(err, errUsage) {
			fmt.Fprintln(stderr, "trace:", err)
		}
		return exitInput
	}
	var text []byte
	switch {
	case c.demo != "":
		c.out = c.demo
		text, err = demo()
	case c.job != "":
		text, err = c.jobFile(stderr)
	default:
		text, err = c.photo(c.args[0], stderr)
	}
	if err != nil {
		fmt.Fprintln(stderr, "trace:", err)
		return exitInput
	}
	if c.out != "" {
		err = os.WriteFile(c.out, text, 0o600)
	} else {
		_, err = stdout.Write(text)
	}
	if err != nil {
		fmt.Fprintln(stderr, "trace:", err)
		return exitWrite
	}
	return exitOK
}

// photo reads one photo, tells of it, and gives its panels.
func (c command) photo(name string, stderr io.Writer) ([]byte, error) {
	r, err := c.read(name, c.overlay)
	if err != nil {
		return nil, err
	}
	r.tell(stderr)
	if c.hides {
		r.tellAreas(stderr)
		return hidesOf(r)
	}
	panels, err := panelsOf(r, "", c.goods)
	if err != nil {
		return nil, err
	}
	return encoded(piece{Panels: panels})
}

// read reads a photo and draws the overlay.
func (c command) read(name, draw string) (reading, error) {
	f, err := os.Open(name)
	if err != nil {
		return reading{}, err
	}
	defer f.Close() //nolint:errcheck // only read
	r, p, err := read(f, c.settings)
	if err != nil {
		return r, fmt.Errorf("%s: %w", name, err)
	}
	if draw == "" {
		return r, nil
	}
	svg, err := overlay(p, r)
	if err != nil {
		return r, err
	}
	return r, os.WriteFile(draw, []byte(svg), 0o600)
}
