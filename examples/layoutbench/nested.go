package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/pack/nest"
)

// Between these lines of the README stands what runNested writes.
const (
	nestedFrom = "<!-- nested: written by layoutbench nested -->\n"
	nestedTo   = "<!-- nested: end -->\n"
)

// runNested measures strips and hides on instances of our own, which are made anew from
// fixed seeds, and writes the table of the README.
//
//	go -C examples run ./layoutbench nested -readme layoutbench/README.md
func runNested(ctx context.Context, args []string, std stdio) error {
	fs := flag.NewFlagSet("nested", flag.ContinueOnError)
	fs.SetOutput(std.err)
	efforts := []int{60, 600}
	fs.Func("effort", "work budgets, such as 60,600", func(s string) error {
		efforts = nil
		for _, f := range strings.Split(s, ",") {
			v, err := strconv.Atoi(f)
			if err != nil || v < 1 || v > 1<<30 {
				return fmt.Errorf("%q is not a whole number from 1 to 2^30", f)
			}
			efforts = append(efforts, v)
		}
		return nil
	})
	seeds := fs.Int("seeds", 3, "number of seeds")
	only := fs.String("only", "", "only the instances whose names begin so")
	readme := fs.String("readme", "", "file to write the table into")
	if err := fs.Parse(args); err != nil {
		if err == flag.ErrHelp { //nolint:errorlint // as flag documents it
			return err
		}
		return inputError{err}
	}
	if *seeds < 1 || *seeds > 1000 || fs.NArg() > 0 {
		return badInput("nested: want 1 to 1000 -seeds and no file")
	}
	var table bytes.Buffer
	if err := nestedTable(ctx, io.MultiWriter(&table, std.out), efforts, *seeds, *only); err != nil {
		return err
	}
	if err := ctx.Err(); *readme == "" || err != nil {
		return err
	}
	return between(*readme, nestedFrom, nestedTo, func([]byte) []byte { return table.Bytes() })
}

// between puts a table into a file in place of the old one, which stands between two lines.
func between(file, first, last string, table func(old []byte) []byte) error {
	data, err := os.ReadFile(file)
	if err != nil {
		return inputError{err}
	}
	from, to := bytes.Index(data, []byte(first)), bytes.Index(data, []byte(last))
	if from < 0 || to < from {
		return badInput("%s has no place for the table", file)
	}
	from += len(first)
	out := slices.Concat(data[:from], table(data[from:to]), data[to:])
	return os.WriteFile(file, out, 0o644) //nolint:gosec // a README is for all to read
}

// nestedTable writes a row for every instance: mean, least and most of the seeds.
func nestedTable(ctx context.Context, w io.Writer, efforts []int, seeds int, only string) error {
	fmt.Fprintln(w, "| strip | pieces | effort | density %, mean | least | most | processor seconds a run |")
	fmt.Fprintln(w, "| --- | --- | --- | --- | --- | --- | --- |")
	for _, in := range ownStrips() {
		if !strings.HasPrefix(in.name, only) {
			continue
		}
		for _, e := range efforts {
			got, secs := make([]float64, seeds), 0.0
			pieces := 0
			for k := range seeds {
				in.job.Seed, in.job.Effort = uint64(k+1), e
				start := processorSeconds()
				lay, err := nest.Strip(ctx, in.job)
				if err != nil {
					return fmt.Errorf("%s: %w", in.name, err)
				}
				secs += processorSeconds() - start
				got[k], pieces = 100*lay.Density(in.job.Width), len(lay.Placements)
			}
			fmt.Fprintf(w, "| %s | %d | %d | %.2f | %.2f | %.2f | %.1f |\n", in.name, pieces, e, mean(got), slices.Min(got), slices.Max(got), secs/float64(seeds))
		}
	}
	fmt.Fprintln(w, "\n| hides | panels | effort | hides in use, each seed | least possible | net area filled %, mean | processor seconds a run |")
	fmt.Fprintln(w, "| --- | --- | --- | --- | --- | --- | --- |")
	for _, in := range ownHideJobs() {
		if !strings.HasPrefix(in.name, only) {
			continue
		}
		for _, e := range efforts {
			got, secs := make([]float64, seeds), 0.0
			var used []string
			least, panels := 0, 0
			for k := range seeds {
				in.job.Seed, in.job.Effort = uint64(k+1), e
				start := processorSeconds()
				lay, err := nest.Hides(ctx, in.job)
				if err != nil {
					return fmt.Errorf("%s: %w", in.name, err)
				}
				secs += processorSeconds() - start
				got[k], least, panels = 100*lay.Utilisation(), lay.Least, len(lay.Placements)+len(lay.Unplaced)
				n := strconv.Itoa(len(lay.Used))
				if left := len(lay.Unplaced); left > 0 {
					n += fmt.Sprintf(" (%d left over)", left)
				}
				used = append(used, n)
			}
			fmt.Fprintf(w, "| %s | %d | %d | %s | %d | %.2f | %.1f |\n", in.name, panels, e, strings.Join(used, ", "), least, mean(got), secs/float64(seeds))
		}
	}
	return nil
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}
