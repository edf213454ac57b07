// Command held changes the figures of public packages, one at a time, by 5 % and
// in their last digit, and names those that no row of the check table and no
// test of their package notices.
//
//	go run ./internal/dev/held -packages foam,thread
//	go run ./internal/dev/held -share today/90
//	go run ./internal/dev/held -code 60 -packages unit
//
// A figure is a number in a table of a package, a coefficient of a formula, a
// size or a constant. All changes are built into one program for each package,
// which makes the one that it is told; a constant that tests name too is changed
// in the text. Nothing in the tree is touched. The command fails for a change
// that nothing notices and that survivors.csv does not hold with its reason, and
// for one that stands there and is noticed.
//
// With -code it spoils places of the code instead, drawn by -seed, and names
// what the tests let through.
package main

import (
	"flag"
	"fmt"
	"os"
	"runtime"
	"slices"
	"strings"
)

// packages lists those whose figures are changed where no others are named.
const packages = "foam,foam/wrap,foam/sheet,thread,allowance,allowance/shape,allowance/made,material,material/findings," +
	"unit,unit/caution,cost,cost/rate,cost/bench,cost/account,cost/stock,cost/job,cost/job/build,cost/job/paper"

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "held:", err)
		os.Exit(1)
	}
}

func run(args []string) error {
	fs := flag.NewFlagSet("held", flag.ContinueOnError)
	of := fs.String("packages", packages, "the packages whose figures are changed")
	part := fs.String("share", "1/1", "which part of the changes is made: 3/50, or today/50")
	list := fs.String("survivors", "internal/dev/held/survivors.csv", "the changes that nothing need notice")
	code := fs.Int("code", 0, "instead of figures, so many places of the code of each package, drawn by -seed, are made different; it does not fail")
	seed := fs.Uint64("seed", 1, "what the places of the code are drawn by")
	only := fs.String("only", "", "only changes that begin so")
	listed := fs.Bool("listed", false, "only the changes that the list holds")
	all := fs.Bool("v", false, "say what notices each change")
	workers := fs.Int("workers", runtime.GOMAXPROCS(0), "how many programs run at once")
	if err := fs.Parse(args); err != nil {
		return err
	}
	known, err := survivors(*list)
	if err != nil {
		return err
	}
	root, err := os.Getwd()
	if err != nil {
		return err
	}
	sources, err := load(root, strings.Split(*of, ","))
	if err != nil {
		return err
	}
	var finders []*finder
	var changes []change
	for _, s := range sources {
		f := find(s)
		finders = append(finders, f)
		if *code > 0 {
			changes = append(changes, sampled(s, *code, *seed)...)
		} else {
			changes = append(changes, f.changes()...)
		}
	}
	if *of == packages && *code == 0 {
		if err := gone(known, changes); err != nil {
			return err
		}
	}
	changes = slices.DeleteFunc(changes, func(c change) bool { return free(known, c) })
	if changes, err = share(*part, changes); err != nil {
		return err
	}
	changes = slices.DeleteFunc(changes, func(c change) bool {
		return !strings.HasPrefix(c.key(), *only) || *listed && known[c.key()] == ""
	})
	b := bench{root: root, workers: *workers}
	if *all {
		b.each = func(r result) { fmt.Fprintf(os.Stderr, "%s <- %s\n", r.key(), r.by) }
	}
	results, err := makeAll(b, finders, changes)
	if err != nil {
		return err
	}
	return report(results, known)
}
