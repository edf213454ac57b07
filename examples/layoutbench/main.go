// Layoutbench measures the layout engines on plain JSON instances.
//
//	go -C examples run ./layoutbench rect FILE.json [-effort N] [-seed N] [-rotate] [-csv]
//	go -C examples run ./layoutbench strip FILE.json [-effort N] [-seed N] [-csv]
//	go -C examples run ./layoutbench hides HIDES.json TEST.json [-effort N] [-seed N] [-baseline] [-csv]
//	go -C examples run ./layoutbench own [-efforts N,N] [-group NAME] [-pieces N] [-from N] [-seed N] [-workers N] [-each] [-readme FILE]
//
// The first three read one file ("-" is the standard input) and print one row per instance, the last lays a suite of our
// own; every layout is checked by an independent verifier. The exit status is 0 if all went well, 1 if a layout failed, and 2 for wrong arguments or
// input.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
)

// command is one benchmark.
type command struct {
	name  string
	about string
	run   func(ctx context.Context, args []string, std stdio) error
}

// stdio is what a command reads and writes.
type stdio struct {
	in       io.Reader
	out, err io.Writer
}

// commands lists the benchmarks; add one line for each further command.
var commands = []command{
	{"rect", "rectangles on a strip", runRect},
	{"strip", "polygons on a strip", runStrip},
	{"hides", "polygons on measured hides", runHides},
	{"own", "our own suite of rectangles, as the README has it", runOwn},
	{"nested", "strips and hides of our own making", runNested},
	{"dissect", "write rectangle instances of known optimum", runDissect},
}

// inputError is a mistake in the arguments or the input file: exit status 2.
type inputError struct{ error }

func (e inputError) Unwrap() error { return e.error }

func badInput(format string, args ...any) error { return inputError{fmt.Errorf(format, args...)} }

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := run(ctx, os.Args[1:], stdio{os.Stdin, os.Stdout, os.Stderr})
	stop()
	os.Exit(code)
}

// run dispatches to a command and returns the exit status.
func run(ctx context.Context, args []string, std stdio) int {
	err := dispatch(ctx, args, std)
	switch {
	case err == nil || errors.Is(err, flag.ErrHelp):
		return 0
	case errors.As(err, new(inputError)):
		fmt.Fprintln(std.err, "layoutbench:", err)
		return 2
	}
	fmt.Fprintln(std.err, "layoutbench:", err)
	return 1
}

func dispatch(ctx context.Context, args []string, std stdio) error {
	if len(args) > 0 {
		for _, c := range commands {
			if c.name == args[0] {
				return c.run(ctx, args[1:], std)
			}
		}
		if strings.TrimLeft(args[0], "-") == "help" || args[0] == "-h" {
			fmt.Fprint(std.out, usage())
			return nil
		}
		return badInput("unknown command %q\n%s", args[0], usage())
	}
	return badInput("no command\n%s", usage())
}

func usage() string {
	var b strings.Builder
	b.WriteString("usage: layoutbench COMMAND FILE [flags]\n")
	for _, c := range commands {
		fmt.Fprintf(&b, "  %-8s %s\n", c.name, c.about)
	}
	return b.String()
}

// parse reads flags that may stand before or after the file name, and returns the file name.
func parse(fs *flag.FlagSet, args []string, std stdio) (file string, err error) {
	fs.SetOutput(std.err)
	for {
		if err := fs.Parse(args); err != nil {
			if errors.Is(err, flag.ErrHelp) {
				return "", err
			}
			return "", inputError{err}
		}
		if fs.NArg() == 0 {
			break
		}
		if file != "" {
			return "", badInput("more than one file: %q and %q", file, fs.Arg(0))
		}
		file, args = fs.Arg(0), fs.Args()[1:]
	}
	if file == "" {
		return "", badInput("no file given; usage: layoutbench %s FILE [flags]", fs.Name())
	}
	return file, nil
}

// maxFile is the largest input read, in bytes.
const maxFile = 64 << 20

// readFile reads a file, or the standard input for "-".
func readFile(name string, std stdio) ([]byte, error) {
	r := std.in
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			return nil, inputError{err}
		}
		defer f.Close() //nolint:errcheck // it was only read
		r = f
	}
	data, err := io.ReadAll(io.LimitReader(r, maxFile+1))
	if err != nil {
		return nil, inputError{err}
	}
	if len(data) > maxFile {
		return nil, badInput("%s: more than %d MB", name, maxFile>>20)
	}
	return data, nil
}
