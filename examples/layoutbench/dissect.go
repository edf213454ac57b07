package main

import (
	"bufio"
	"context"
	"errors"
	"flag"
	"fmt"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/dev/dissect"
)

// runDissect writes instances of known optimum: rectangles cut at random into pieces.
//
//	go -C examples run ./layoutbench dissect -size 60x60x49 -size 200x200x97 -seed 100 -seeds 2 > set.json
func runDissect(_ context.Context, args []string, std stdio) error {
	fs := flag.NewFlagSet("dissect", flag.ContinueOnError)
	fs.SetOutput(std.err)
	var sizes [][3]int64
	fs.Func("size", "width x height x pieces, such as 60x60x49; may be given several times", func(s string) error {
		parts := strings.Split(s, "x")
		if len(parts) != 3 {
			return fmt.Errorf("want WIDTHxHEIGHTxPIECES")
		}
		var size [3]int64
		for i, p := range parts {
			v, err := strconv.ParseInt(p, 10, 64)
			if err != nil || v < 1 || v > 1e9 {
				return fmt.Errorf("%q is not a whole number from 1 to 1000000000", p)
			}
			size[i] = v
		}
		sizes = append(sizes, size)
		return nil
	})
	seed := fs.Uint64("seed", 1, "first seed")
	seeds := fs.Int("seeds", 1, "number of seeds")
	if err := fs.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return err
		}
		return inputError{err}
	}
	if len(sizes) == 0 || fs.NArg() > 0 || *seeds < 1 {
		return badInput("dissect: want at least one -size, -seeds of at least 1, and nothing else")
	}
	w := bufio.NewWriter(std.out)
	fmt.Fprint(w, `{"instances":[`)
	sep := "\n"
	for k := range *seeds {
		for _, s := range sizes {
			for style := dissect.Guillotine; style <= dissect.Even; style++ {
				rs, err := dissect.Cut(s[0], s[1], int(s[2]), style, *seed+uint64(k))
				if err != nil {
					return inputError{err}
				}
				fmt.Fprintf(w, `%s {"name":"%s-%dx%d-%d-%d","strip_width":%d,"opt_fixed":%d,"items":[`,
					sep, style, s[0], s[1], s[2], *seed+uint64(k), s[0], s[1])
				sep = ",\n"
				for i, r := range rs {
					if i > 0 {
						fmt.Fprint(w, ",")
					}
					fmt.Fprintf(w, "[%d,%d,1]", r.W, r.H)
				}
				fmt.Fprint(w, "]}")
			}
		}
	}
	fmt.Fprintln(w, "\n]}")
	return w.Flush()
}
