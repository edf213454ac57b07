// Command orders shows that a job gives the same order, to the byte, wherever it is
// worked out.
//
//	orders -draw 50 >jobs    draws jobs by number, one a line, each of which can be built
//	orders <jobs             prints a digest of the order of each line and of its drawings
//
// The jobs are drawn once, so that what is compared elsewhere is the library alone.
package main

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

func main() {
	if err := run(context.Background(), os.Args[1:], os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "orders:", err)
		os.Exit(1)
	}
}

func run(ctx context.Context, args []string, in io.Reader, out io.Writer) error {
	fs := flag.NewFlagSet("orders", flag.ContinueOnError)
	n := fs.Int("draw", 0, "draw so many jobs")
	root := fs.String("root", ".", "the folder of the repository, to draw from")
	steps := fs.Int("steps", 100, "tries to make a drawn job larger")
	workers := fs.Int("workers", 0, "searches at the same time")
	effort := fs.Float64("effort", 0.001, "work on the layouts of a job")
	if err := fs.Parse(args); err != nil {
		return err
	}
	if *n > 0 {
		d, err := fromFiles(*root, *steps)
		if err != nil {
			return err
		}
		return d.draw(ctx, *n, out)
	}
	return digests(ctx, in, out, job.Options{Effort: unit.Ratio(*effort), Workers: *workers})
}

func digests(ctx context.Context, in io.Reader, out io.Writer, o job.Options) error {
	lines := bufio.NewReader(in)
	for i := 1; ; i++ {
		line, err := lines.ReadBytes('\n')
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		sum, err := digest(ctx, line, o)
		if err != nil {
			return fmt.Errorf("job %d: %w", i, err)
		}
		if _, err := fmt.Fprintf(out, "%d %x\n", i, sum); err != nil {
			return err
		}
	}
}

// digest works a job out and draws each of its layouts.
func digest(ctx context.Context, text []byte, o job.Options) ([]byte, error) {
	order, err := job.Read(ctx, bytes.NewReader(text), o)
	if err != nil {
		return nil, err
	}
	h := sha256.New()
	if err := json.NewEncoder(h).Encode(order); err != nil {
		return nil, err
	}
	for _, p := range order.Purchases {
		if p.Plan == nil {
			continue
		}
		drawings, err := p.Plan.Draw(layout.Picture{})
		if err != nil {
			return nil, err
		}
		for _, d := range drawings {
			h.Write([]byte(d.SVG))
		}
	}
	return h.Sum(nil), nil
}
