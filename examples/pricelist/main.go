// Command pricelist brings a price list in CSV up to date: entries of another list
// take the place of those with their codes, some go, and prices of a kind rise or fall
// by a share. It prints what changes and writes the whole list or, where anything is
// wrong, nothing.
//
//	go -C examples run ./pricelist -changes new.csv -remove OLD-1,OLD-2 -raise "goods=4 %" prices.csv
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/coverwright/coverwright/cost"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	fs := flag.NewFlagSet("pricelist", flag.ContinueOnError)
	fs.SetOutput(stderr)
	fs.Usage = func() {
		fmt.Fprintln(stderr, "usage: pricelist [flags] PRICES.csv")
		fs.PrintDefaults()
	}
	var c changes
	file := fs.String("changes", "", "`FILE.csv` with new entries; those of codes that are there replace them")
	remove := fs.String("remove", "", "`CODES` of entries that go, with commas between")
	fs.Var(&c.raises, "raise", "a `KIND` of line and the share its prices rise by, such as \"goods=4 %\" or \"foam=-2.5 %\"; may be given again")
	fs.TextVar(&c.dated, "dated", cost.Date{}, "`DAY` that raised prices are of, such as 2026-12-01; without it they lose theirs")
	to := fs.String("to", "", "write to this `FILE.csv` in place of the list itself")
	dry := fs.Bool("dry", false, "print what would change, and write nothing")
	switch err := fs.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return 0
	case err != nil:
		return 2
	case fs.NArg() != 1:
		fs.Usage()
		return 2
	}
	if *remove != "" {
		c.remove = strings.Split(*remove, ",")
	}
	from := fs.Arg(0)
	if *to == "" {
		*to = from
	}
	if err := bringUp(from, *file, *to, c, *dry, stdout); err != nil {
		fmt.Fprintln(stderr, "pricelist:", err)
		return 1
	}
	return 0
}

// bringUp reads the lists, changes the one and writes it, unless it is only wanted to
// be told.
func bringUp(from, with, to string, c changes, dry bool, stdout io.Writer) error {
	old, err := read(from)
	if err != nil {
		return err
	}
	if with != "" {
		news, err := read(with)
		if err != nil {
			return err
		}
		c.entries = news.Entries()
	}
	list, err := c.apply(old)
	if err != nil {
		return err
	}
	for _, line := range told(old, list) {
		fmt.Fprintln(stdout, line)
	}
	if dry {
		return nil
	}
	return replace(to, list.WriteCSV)
}

func read(name string) (cost.PriceList, error) {
	f, err := os.Open(name)
	if err != nil {
		return cost.PriceList{}, err
	}
	defer f.Close() //nolint:errcheck // only read
	list, err := cost.ReadPriceListCSV(f)
	if err != nil {
		return cost.PriceList{}, fmt.Errorf("%s: %w", name, err)
	}
	return list, nil
}
