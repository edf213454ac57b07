// Command workorder reads a job file and prints a work order: the cut list,
// what to buy, thread and needle, foam, the quote and the cautions. Without
// -job it prints the order of a demo job, the Larkfield Reading Room.
//
// Usage:
//
//	workorder [-job FILE.json] [-units inch|metric] [-format text|json]
//
// A job file with faults is refused with every fault named, one a line, and
// exit status 2; nothing is printed on standard output then.
package main

import (
	"bytes"
	"context"
	_ "embed"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"

	"github.com/coverwright/coverwright/cost/job"
)

//go:embed larkfield.json
var demo []byte

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// Exit statuses.
const (
	exitOK    = 0
	exitWrite = 1 // the order could not be written
	exitInput = 2 // the command line or the job file is wrong
)

func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	fs := flag.NewFlagSet("workorder", flag.ContinueOnError)
	fs.SetOutput(stderr)
	file := fs.String("job", "", "job file in JSON; the demo job when not given")
	units := fs.String("units", "inch", "inch or metric")
	format := fs.String("format", "text", "text or json")
	if err := fs.Parse(args); err != nil {
		return exitInput
	}
	if fs.NArg() > 0 {
		return refuse(stderr, fmt.Errorf("unknown argument %q; give the file with -job", fs.Arg(0)))
	}
	if *units != "inch" && *units != "metric" {
		return refuse(stderr, fmt.Errorf("-units %q: want inch or metric", *units))
	}
	if *format != "text" && *format != "json" {
		return refuse(stderr, fmt.Errorf("-format %q: want text or json", *format))
	}
	order, err := build(ctx, *file)
	if err != nil {
		return refuse(stderr, err)
	}
	// The whole order is made before any of it is written.
	var out bytes.Buffer
	if *format == "json" {
		enc := json.NewEncoder(&out)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		err = enc.Encode(order)
	} else {
		err = printText(&out, order, *units == "metric")
	}
	if err == nil {
		_, err = stdout.Write(out.Bytes())
	}
	if err != nil {
		fmt.Fprintln(stderr, "workorder:", err)
		return exitWrite
	}
	return exitOK
}

func refuse(stderr io.Writer, err error) int {
	fmt.Fprintln(stderr, "workorder:", err)
	return exitInput
}

func build(ctx context.Context, file string) (job.WorkOrder, error) {
	if file == "" {
		return job.Read(ctx, bytes.NewReader(demo))
	}
	f, err := os.Open(file)
	if err != nil {
		return job.WorkOrder{}, err
	}
	defer f.Close() //nolint:errcheck // only read
	order, err := job.Read(ctx, f)
	if err != nil {
		return job.WorkOrder{}, fmt.Errorf("%s:\n%w", file, err)
	}
	return order, nil
}
