// Command sheet brings the calculators into spreadsheets.
//
//	sheet serve                                       function filter: JSON lines in, JSON lines out
//	sheet addin -out FILE.oxt                         add-in for LibreOffice Calc with live functions
//	sheet quote [-job FILE.json] -out FILE.xlsx       quoting workbook of a job; of the demo job without -job
//	sheet fill -in FILE.xlsx -job FILE.json -out FILE.xlsx
//	                                                  fills in a shop's own workbook by its defined names
//	sheet batch -fn NAME [-in FILE.csv] [-out FILE.csv]
//	                                                  one function over the rows of a CSV file
//	sheet functions                                   the function reference, in Markdown
//
// Files are written whole or not at all. The exit status is 0 when all went
// well, 1 when something could not be done or a row of a batch has an error,
// 2 when the command line or an input is wrong.
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
	"strings"

	"github.com/coverwright/coverwright/cost/job"
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
	commands := map[string]func(context.Context, []string, io.Reader, io.Writer, io.Writer) error{
		"serve": serveLines, "addin": writeAddIn, "quote": writeQuote, "fill": fillIn, "batch": runBatch, "functions": printFunctions,
	}
	if len(args) == 0 {
		fmt.Fprintln(stderr, "sheet: a command is wanted: serve, addin, quote, fill, batch or functions")
		return exitInput
	}
	command, ok := commands[args[0]]
	if !ok {
		fmt.Fprintf(stderr, "sheet: unknown command %q: serve, addin, quote, fill, batch or functions is wanted\n", args[0])
		return exitInput
	}
	err := command(ctx, args[1:], stdin, stdout, stderr)
	if err == nil || errors.Is(err, flag.ErrHelp) {
		return exitOK
	}
	fmt.Fprintln(stderr, "sheet "+args[0]+":", err)
	if errors.As(err, &usageError{}) {
		return exitInput
	}
	return exitFailed
}

// parse reads the flags of a command.
func parse(fs *flag.FlagSet, args []string, stderr io.Writer) error {
	fs.SetOutput(stderr)
	if err := fs.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return err
		}
		return usageError{err}
	}
	if fs.NArg() > 0 {
		return usage("unknown argument %q", fs.Arg(0))
	}
	return nil
}

func serveLines(_ context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) error {
	if err := parse(flag.NewFlagSet("serve", flag.ContinueOnError), args, stderr); err != nil {
		return err
	}
	return serve.Serve(stdin, stdout)
}

func printFunctions(_ context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) error {
	if err := parse(flag.NewFlagSet("functions", flag.ContinueOnError), args, stderr); err != nil {
		return err
	}
	_, err := io.WriteString(stdout, addin.Reference())
	return err
}

func writeAddIn(ctx context.Context, args []string, _ io.Reader, _, stderr io.Writer) error {
	fs := flag.NewFlagSet("addin", flag.ContinueOnError)
	out := fs.String("out", "", "add-in to write, ending in .oxt")
	list := fs.String("platforms", "", "platforms such as linux/amd64,windows/amd64; all when not given")
	if err := parse(fs, args, stderr); err != nil {
		return err
	}
	if !strings.HasSuffix(*out, ".oxt") {
		return usage("-out %q: a file that ends in .oxt is wanted", *out)
	}
	platforms := addin.Platforms()
	if *list != "" {
		var err error
		if platforms, err = addin.ParsePlatforms(*list); err != nil {
			return usageError{err}
		}
	}
	data, err := addin.Build(ctx, platforms, func(s string) { fmt.Fprintln(stderr, s) })
	if err != nil {
		return err
	}
	return writeFile(*out, data)
}

// demoFolder holds the demo job and its shop file, from the root of the module.
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
	return files, fs.String("units", "inch", "inch or metric"), fs.Float64("effort", 0, "work spent on each cutting layout; 1 is about a second, 0 takes a tenth")
}

func writeQuote(ctx context.Context, args []string, _ io.Reader, _, stderr io.Writer) error {
	fs := flag.NewFlagSet("quote", flag.ContinueOnError)
	files, units, effort := jobFlags(fs)
	out := fs.String("out", "", "workbook to write, ending in .xlsx")
	if err := parse(fs, args, stderr); err != nil {
		return err
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
	checks, err := workbook.Quote(&b, spec, order, workbook.Options{Metric: *units == "metric"})
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
	in := fs.String("in", "", "the shop's workbook, ending in .xlsx")
	out := fs.String("out", "", "workbook to write, ending in .xlsx")
	list := fs.Bool("names", false, "list the names a workbook may define, and end")
	if err := parse(fs, args, stderr); err != nil {
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
	data, err := os.ReadFile(*in)
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
	name := fs.String("fn", "", "name of the function; sheet functions lists them")
	in := fs.String("in", "", "CSV file to read; standard input when not given")
	out := fs.String("out", "", "CSV file to write; standard output when not given")
	if err := parse(fs, args, stderr); err != nil {
		return err
	}
	f, ok := table.Find(strings.TrimPrefix(strings.ToUpper(*name), table.Prefix+"."))
	if !ok {
		return usage("-fn %q: no such function", *name)
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

func writeFile(name string, data []byte) error {
	return replace(name, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

// replace writes a file beside the wanted one and puts it in its place when it
// is whole.
func replace(name string, write func(io.Writer) error) (err error) {
	f, err := os.CreateTemp(filepath.Dir(name), ".sheet-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	if err := errors.Join(write(f), f.Sync(), f.Chmod(0o644), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}
