package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/examples/internal/jobfile"
	"github.com/coverwright/coverwright/examples/sheet/internal/workbook"
	"github.com/coverwright/coverwright/unit"
)

// writeNew writes a workbook in which a job can be begun.
func writeNew(_ context.Context, args []string, _ io.Reader, _, _ io.Writer) error {
	fs := flag.NewFlagSet("new", flag.ContinueOnError)
	files := jobfile.Files{}
	fs.StringVar(&files.Shop, "shop", "", "shop `FILE.json`, whose goods, prices, rates and terms the workbook begins with")
	fs.StringVar(&files.Prices, "prices", "", "price list `FILE.csv`, in place of prices of the shop file with the same codes")
	from := fs.String("from", "", "`KIND` of furniture to begin with, such as \"wing chair\": its measures are asked for")
	units := fs.String("units", "inch", "units of the workbook, `inch|metric`")
	out := fs.String("out", "", "workbook to write, `FILE.xlsx`; one that is there stays")
	if err := parse(fs, args); err != nil {
		return err
	}
	if !strings.HasSuffix(*out, ".xlsx") {
		return usage("-out %q: a file that ends in .xlsx is wanted", *out)
	}
	if *units != "inch" && *units != "metric" {
		return usage("-units %q: inch or metric is wanted", *units)
	}
	if _, err := os.Lstat(*out); err == nil {
		return usage("%s is there already: give another name, or take it away first", *out)
	}
	var begins *kind.Kind
	if *from != "" {
		k, err := kind.Named(*from)
		if err != nil {
			return usage("-%v", err)
		}
		begins = &k
	}
	shop, err := files.ReadShop()
	if err != nil {
		return usageError{err}
	}
	var b bytes.Buffer
	if err := workbook.Blank(&b, shop, begins, workbook.Options{Metric: *units == "metric"}); err != nil {
		return err
	}
	return writeFile(*out, b.Bytes())
}

// updateFile brings a workbook up to date.
func updateFile(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) error {
	fs := flag.NewFlagSet("update", flag.ContinueOnError)
	effort := fs.Float64("effort", 0, "`WORK` spent on all cutting layouts together: 1, which 0 stands for, is about a second of two cores")
	out := fs.String("out", "", "workbook to write, `FILE.xlsx`, in place of the one that is read")
	asName := fs.String("as", "", "`PAPER` for the customer: estimate, quotation, work order or invoice; without it the one that says what is known")
	jobOut := fs.String("job", "", "`FILE.json` for the job of the workbook, as cost/job/README.md describes it")
	name, err := parseOne(fs, args)
	if err != nil {
		return err
	}
	var as paper.Kind
	if err := as.UnmarshalText([]byte(*asName)); err != nil {
		return usage("-as: %v", err)
	}
	if *out == "" {
		*out = name
	}
	if !strings.HasSuffix(*out, ".xlsx") && !strings.HasSuffix(*out, ".xlsm") {
		return usage("%q: a file that ends in .xlsx is wanted", *out)
	}
	if e := unit.Ratio(*effort); e < 0 || e.Check() != nil {
		return usage("-effort %v: 0 or more is wanted", *effort)
	}
	data, err := readBounded(name)
	if err != nil {
		return usageError{err}
	}
	done, err := workbook.Update(ctx, data, job.Options{Effort: unit.Ratio(*effort)}, workbook.Options{As: as})
	if wrong := (*unit.InputError)(nil); errors.As(err, &wrong) {
		return usageError{err} // no such paper of this job
	}
	if err != nil {
		return usageError{err}
	}
	if *jobOut != "" && len(done.Wrong) == 0 {
		var text bytes.Buffer
		if err := json.Indent(&text, done.Job, "", "\t"); err != nil {
			return err
		}
		if err := writeFile(*jobOut, append(text.Bytes(), '\n')); err != nil {
			return err
		}
	}
	if err := writeFile(*out, done.Data); err != nil {
		return err
	}
	for _, r := range done.Remarks {
		fmt.Fprintln(stderr, r)
	}
	if len(done.Wrong) > 0 {
		for _, x := range done.Wrong {
			fmt.Fprintf(stderr, "%s: %s\n", x.Spot, x.Says)
		}
		return usage("to be mended: %d; each cell has a note, and nothing else was changed", len(done.Wrong))
	}
	_, err = fmt.Fprintf(stdout, "%s: %s\n", *out, done.Order.Quote.Total.Grouped())
	return err
}

// parseOne reads the flags of a command that takes one file, before them or after.
func parseOne(fs *flag.FlagSet, args []string) (string, error) {
	name := ""
	if len(args) > 0 && !strings.HasPrefix(args[0], "-") {
		name, args = args[0], args[1:]
	}
	if name == "" && len(args) > 0 {
		if last := args[len(args)-1]; strings.HasSuffix(last, ".xlsx") || strings.HasSuffix(last, ".xlsm") {
			name, args = last, args[:len(args)-1]
		}
	}
	if err := parse(fs, args); err != nil {
		return "", err
	}
	if name == "" {
		return "", usage("a workbook is wanted: sheet update FILE.xlsx")
	}
	return name, nil
}

// readBounded reads a workbook, up to the size of one that can be read.
func readBounded(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close() //nolint:errcheck // only read
	return io.ReadAll(io.LimitReader(f, workbook.MostBytes+1))
}
