// Command threads chooses thread, needle and stitch for a seam, says why, and how much
// thread a length of it takes.
//
//	go -C examples run ./threads -goods leather -layers 4 -where outdoors
//	go -C examples run ./threads -goods vinyl -length "12 yd" -thickness "1/8 in"
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// question is what the flags say.
type question struct {
	need      thread.Need
	length    unit.Length
	thickness unit.Length
	json      bool
}

func run(args []string, stdout, stderr io.Writer) int {
	fs := flag.NewFlagSet("threads", flag.ContinueOnError)
	fs.SetOutput(io.Discard) // a wrong word needs no list of all flags
	var q question
	n := &q.need
	fs.Func("goods", "what the seam goes through, a `KIND` of: "+names(thread.AllGoods()), text(&n.Goods))
	fs.IntVar(&n.Layers, "layers", 2, "layers the needle passes")
	fs.Func("where", "where the piece will live, a `PLACE` of: "+names(thread.Exposures()), text(&n.Exposure))
	fs.Func("purpose", "of the stitching, a `USE` of: \"seam\", or \"top-stitch\"", text(&n.Purpose))
	fs.Func("strength", "what the seam must carry, a `FORCE` by length such as \"40 lbf/in\" or \"7 N/mm\"", text(&n.Strength))
	fs.Func("fibre", "of the thread when it is given, a `KIND` of: "+names(thread.Fibres()), text(&n.Fibre))
	fs.Func("size", "of the thread when it is given, a `SIZE` in any naming such as 92 or T-90", text(&n.Size))
	fs.Func("needle", "in the machine when it is given, a `SIZE` such as 110/18", text(&n.Needle))
	fs.Func("length", "of the seam, a `LENGTH` such as \"12 yd\": how much thread that takes", text(&q.length))
	fs.Func("thickness", "of all layers under the foot, a `LENGTH` such as \"1/8 in\" or \"3 mm\"", text(&q.thickness))
	fs.BoolVar(&q.json, "json", false, "print the choices as JSON")
	switch err := fs.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		fs.SetOutput(stderr)
		fs.Usage()
		return 0
	case err != nil:
		fmt.Fprintln(stderr, "threads:", err, "(-h lists the flags)")
		return 2
	case fs.NArg() > 0:
		fmt.Fprintf(stderr, "threads: %q is no flag\n", fs.Arg(0))
		return 2
	}
	if err := q.answer(stdout); err != nil {
		fmt.Fprintln(stderr, "threads:", err)
		return 1
	}
	return 0
}

// text reads a flag as a file would have it.
func text(v interface{ UnmarshalText(text []byte) error }) func(string) error {
	return func(s string) error { return v.UnmarshalText([]byte(s)) }
}

func names[T fmt.Stringer](all []T) string {
	out := make([]string, len(all))
	for i, v := range all {
		out[i] = v.String()
	}
	return strings.Join(out, ", ")
}
