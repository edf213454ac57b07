// Command sheet brings the calculators into spreadsheets.
//
//	sheet -h            what it does, and the exit statuses
//	sheet COMMAND -h    a command with its flags
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
	"os/signal"
	"path/filepath"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/examples/internal/jobfile"
	"github.com/coverwright/coverwright/examples/sheet/internal/addin"
	"github.com/coverwright/coverwright/examples/sheet/internal/batch"
	"github.com/coverwright/coverwright/examples/sheet/internal/serve"
	"github.com/coverwright/coverwright/examples/sheet/internal/table"
	"github.com/coverwright/coverwright/examples/sheet/internal/workbook"
	"github.com/coverwright/coverwright/unit"
)

// Exit statuses.
const (
	exitOK     = 0
	exitFailed = 1
	exitInput  = 2
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// usageError is a fault of the command line or of an input.
type usageError struct{ error }

func usage(format string, args ...any) error { return usageError{fmt.Errorf(format, args...)} }

func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	if len(args) == 2 && args[0] == "help" {
		args = []string{args[1], "-h"}
	}
	var err error
	name := "sheet"
	switch {
	case len(args) == 0:
		err = usage("a command is wanted: %s; sheet -h tells what they do", commandNames())
	case slices.Contains([]string{"-h", "-help", "--help", "help"}, args[0]):
		_, err = io.WriteString(stdout, overview())
	default:
		var c command
		if c, err = find(args[0]); err != nil {
			break
		}
		name += " " + c.name
		err = c.run(ctx, args[1:], stdin, stdout, stderr)
		var asked helpWanted
		if errors.As(err, &asked) {
			_, err = io.WriteString(stdout, c.help(asked.flags))
		}
	}
	if err == nil {
		return exitOK
	}
	fmt.Fprintf(stderr, "%s: %v\n", name, err)
	if errors.As(err, &usageError{}) {
		return exitInput
	}
	return exitFailed
}

func serveLines(_ context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) error {
	if err := parse(flag.NewFlagSet("serve", flag.ContinueOnError), args); err != nil {
		return err
	}
	return serve.Serve(stdin, stdout)
}

func printFunctions(_ context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) error {
	if err := parse(flag.NewFlagSet("functions", flag.ContinueOnError), args); err != nil {
		return err
	}
	_, err := io.WriteString(stdout, addin.Reference())
	return err
}

// demoFolder holds the demo job and its shop file, from the top of the repository.
const demoFolder = "examples/workorder"

// demo finds the demo job from the folder the program is run in.
func demo() (folder string, err error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		folder := filepath.Join(dir, filepath.FromSlash(demoFolder))
		if _, err := os.Stat(filepath.Join(folder, "larkfield.json")); err == nil {
			return folder, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", usage("the demo job of %s is not here; give a job file with -job", demoFolder)
		}
		dir = up
	}
}

// readJob reads a job and works it out.
func readJob(ctx context.Context, files jobfile.Files, o job.Options) (spec job.Spec, order job.WorkOrder, err error) {
	if files.Job == "" {
		folder, err := demo()
		if err != nil {
			return spec, order, err
		}
		files.Job = filepath.Join(folder, "larkfield.json")
		if files.Shop == "" {
			files.Shop = filepath.Join(folder, "larkfield-shop.json")
		}
	}
	shop, err := files.ReadShop()
	if err != nil {
		return spec, order, usageError{err}
	}
	err = files.Open(func(r io.Reader) error {
		data, err := io.ReadAll(r)
		if err == nil {
			order, err = shop.Read(ctx, bytes.NewReader(data), o)
		}
		if err == nil {
			spec, err = shop.ReadSpec(bytes.NewReader(data))
		}
		return err
	})
	if err != nil {
		return spec, order, usageError{err}
	}
	return spec, order, nil
}

// jobFlags are the flags of the commands that work a job out.
func jobFlags(fs *flag.FlagSet) (files *jobfile.Files, units *string, effort *float64) {
	files = &jobfile.Files{}
	files.Flags(fs)
	return files, fs.String("units", "inch", "units of the workbook, `inch|metric`"), fs.Float64("effort", 0, "`WORK` spent on all cutting layouts together: 1, which 0 stands for, is about a second of two cores")
}

func writeQuote(ctx context.Context, args []string, _ io.Reader, _, stderr io.Writer) error {
	fs := flag.NewFlagSet("quote", flag.ContinueOnError)
	files, units, effort := jobFlags(fs)
	out := fs.String("out", "", "workbook to write, `FILE.xlsx`")
	alone := fs.Bool("alone", false, "the paper for the customer alone, as figures without formulas: a file to send")
	asName := fs.String("as", "", "`PAPER` for the customer: estimate, quotation, work order or invoice; without it the one that says what is known")
	if err := parse(fs, args); err != nil {
		return err
	}
	var as paper.Kind
	if err := as.UnmarshalText([]byte(*asName)); err != nil {
		return usage("-as: %v", err)
	}
	if !strings.HasSuffix(*out, ".xlsx") {
		return usage("-out %q: a file that ends in .xlsx is wanted", *out)
	}
	if *units != "inch" && *units != "metric" {
		return usage("-units %q: inch or metric is wanted", *units)
	}
	spec, order, err := readJob(ctx, *files, job.Options{Effort: unit.Ratio(*effort)})
	if err != nil {
		return err
	}
	var b bytes.Buffer
	checks, err := workbook.Quote(&b, spec, order, workbook.Options{Metric: *units == "metric", As: as, Alone: *alone})
	if wrong := (*unit.InputError)(nil); errors.As(err, &wrong) {
		return usageError{err} // no such paper of this job
	}
	if err != nil {
		return err
	}
	fmt.Fprintf(stderr, "%s: %d formulas\n", *out, len(checks))
	return writeFile(*out, b.Bytes())
}

// wholeJob gives the text of a job, with what a shop brings where there is one.
func wholeJob(files jobfile.Files) ([]byte, error) {
	if files.Shop == "" && files.Prices == "" {
		return os.ReadFile(files.Job)
	}
	shop, err := files.ReadShop()
	if err != nil {
		return nil, err
	}
	var text []byte
	err = files.Open(func(r io.Reader) error {
		spec, err := shop.ReadSpec(r)
		if err == nil {
			text, err = json.Marshal(spec)
		}
		return err
	})
	return text, err
}

func fillIn(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) error {
	fs := flag.NewFlagSet("fill", flag.ContinueOnError)
	files, units, effort := jobFlags(fs)
	fs.Lookup("job").Usage = "job `FILE.json`, as cost/job/README.md describes it" // there is no other
	in := fs.String("in", "", "the shop's workbook, `FILE.xlsx`")
	out := fs.String("out", "", "workbook to write, `FILE.xlsx`")
	list := fs.Bool("names", false, "list the names a workbook may define, and end")
	if err := parse(fs, args); err != nil {
		return err
	}
	if *list {
		_, err := io.WriteString(stdout, workbook.NamesHelp())
		return err
	}
	if *in == "" || files.Job == "" || !strings.HasSuffix(*out, ".xlsx") {
		return usage("-in FILE.xlsx, -job FILE.json and -out FILE.xlsx are wanted")
	}
	if *units != "inch" && *units != "metric" {
		return usage("-units %q: inch or metric is wanted", *units)
	}
	data, err := readBounded(*in)
	if err != nil {
		return usageError{err}
	}
	text, err := wholeJob(*files)
	if err != nil {
		return usageError{err}
	}
	var b bytes.Buffer
	report, err := workbook.Fill(ctx, data, text, &b, job.Options{Effort: unit.Ratio(*effort)}, workbook.Options{Metric: *units == "metric"})
	if err != nil {
		return usageError{err}
	}
	for _, line := range report {
		fmt.Fprintln(stderr, line)
	}
	return writeFile(*out, b.Bytes())
}

func runBatch(_ context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) error {
	fs := flag.NewFlagSet("batch", flag.ContinueOnError)
	name := fs.String("fn", "", "`NAME` of the function; sheet functions lists them")
	in := fs.String("in", "", "`FILE.csv` to read; standard input when not given")
	out := fs.String("out", "", "`FILE.csv` to write; standard output when not given")
	if err := parse(fs, args); err != nil {
		return err
	}
	f, ok := table.Find(*name)
	if !ok {
		return usage("-fn %q: the name of a function is wanted; sheet functions lists them", *name)
	}
	r := stdin
	if *in != "" {
		file, err := os.Open(*in)
		if err != nil {
			return usageError{err}
		}
		defer file.Close() //nolint:errcheck // only read
		r = file
	}
	var sum batch.Summary
	work := func(w io.Writer) error {
		var err error
		if sum, err = batch.Run(f, r, w); err != nil {
			return usageError{err}
		}
		return nil
	}
	var err error
	if *out == "" {
		err = work(stdout)
	} else {
		err = replace(*out, work)
	}
	if err != nil {
		return err
	}
	fmt.Fprintf(stderr, "%d rows, %d with an error\n", sum.Rows, sum.Errors)
	if sum.Errors > 0 {
		return errors.New("some rows have an error; see the column " + batch.ErrorColumn)
	}
	return nil
}
