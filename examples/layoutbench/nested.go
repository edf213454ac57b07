package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"reflect"
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

// nestedTable writes a row for every instance: mean, least and most of the seeds. The
// first seed is laid twice, with its searches side by side and one after the other.
func nestedTable(ctx context.Context, w io.Writer, efforts []int, seeds int, only string) error {
	fmt.Fprintln(w, "| strip | pieces | effort | density %, mean | least | most | processor seconds a run | one search at a time |")
	fmt.Fprintln(w, "| --- | --- | --- | --- | --- | --- | --- | --- |")
	for _, in := range ownStrips() {
		if !strings.HasPrefix(in.name, only) {
			continue
		}
		for _, e := range efforts {
			runs := make([]nest.StripLayout, seeds+1)
			m, err := measure(seeds, func(k int, o nest.Options) (err error) {
				o.Effort = e
				in.job.Options = o
				runs[k], err = nest.Strip(ctx, in.job)
				return err
			})
			if err != nil {
				return fmt.Errorf("%s: %w", in.name, err)
			}
			got := make([]float64, seeds)
			for k := range got {
				got[k] = 100 * runs[k].Density(in.job.Width)
			}
			fmt.Fprintf(w, "| %s | %d | %d | %.2f | %.2f | %.2f | %.1f | %s |\n", in.name, len(runs[0].Placements), e, mean(got), slices.Min(got), slices.Max(got),
				m.mean(), m.again(reflect.DeepEqual(runs[0], runs[seeds])))
		}
	}
	fmt.Fprintln(w, "\n| hides | panels | effort | hides in use, each seed | least possible | net area filled %, mean | processor seconds a run | one search at a time |")
	fmt.Fprintln(w, "| --- | --- | --- | --- | --- | --- | --- | --- |")
	for _, in := range ownHideJobs() {
		if !strings.HasPrefix(in.name, only) {
			continue
		}
		for _, e := range efforts {
			runs := make([]nest.HideLayout, seeds+1)
			m, err := measure(seeds, func(k int, o nest.Options) (err error) {
				o.Effort = e
				in.job.Options = o
				runs[k], err = nest.Hides(ctx, in.job)
				return err
			})
			if err != nil {
				return fmt.Errorf("%s: %w", in.name, err)
			}
			got := make([]float64, seeds)
			used := make([]string, seeds)
			for k := range got {
				got[k], used[k] = 100*runs[k].Utilisation(), strconv.Itoa(len(runs[k].Used))
				if left := len(runs[k].Unplaced); left > 0 {
					used[k] += fmt.Sprintf(" (%d left over)", left)
				}
			}
			fmt.Fprintf(w, "| %s | %d | %d | %s | %d | %.2f | %.1f | %s |\n", in.name, len(runs[0].Placements)+len(runs[0].Unplaced), e, strings.Join(used, ", "), runs[0].Least, mean(got),
				m.mean(), m.again(reflect.DeepEqual(runs[0], runs[seeds])))
		}
	}
	return nil
}

// measured are the processor seconds of some runs; the last is the first once more,
// with one search at a time.
type measured []float64

// measure makes a run for every seed, and that of the first seed once more.
func measure(seeds int, run func(k int, o nest.Options) error) (measured, error) {
	var m measured
	for k := range seeds + 1 {
		o := nest.Options{Seed: uint64(k + 1), AtOnce: 2}
		if k == seeds {
			o = nest.Options{Seed: 1, AtOnce: 1}
		}
		start := processorSeconds()
		if err := run(k, o); err != nil {
			return nil, err
		}
		m = append(m, processorSeconds()-start)
	}
	return m, nil
}

// mean is that of the runs with the searches side by side.
func (m measured) mean() float64 { return mean(m[:len(m)-1]) }

// again tells of the last run.
func (m measured) again(same bool) string {
	if !same {
		return "another layout"
	}
	return fmt.Sprintf("the same layout, %.1f s", m[len(m)-1])
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}
