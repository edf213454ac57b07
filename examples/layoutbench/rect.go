package main

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"strconv"
	"text/tabwriter"
	"time"

	"github.com/coverwright/coverwright/internal/pack/rect"
	"github.com/coverwright/coverwright/internal/pack/verify"
)

// runRect lays rectangles on a strip. An effort of N is meant to take about N seconds an instance on two cores; it is
// counted in steps, so equal seeds and efforts give equal layouts on every machine.
func runRect(ctx context.Context, args []string, std stdio) error {
	fs := flag.NewFlagSet("rect", flag.ContinueOnError)
	effort := fs.Float64("effort", 1, "work per instance; 1 is about a second on two cores")
	seed := fs.Uint64("seed", 1, "seed of the random numbers")
	rotate := fs.Bool("rotate", false, "allow turns of 90 degrees")
	asCSV := fs.Bool("csv", false, "print comma-separated values only")
	file, err := parse(fs, args, std)
	if err != nil {
		return err
	}
	if math.IsNaN(*effort) || *effort < 0.0001 || *effort > 100000 {
		return badInput("-effort %v: want 0.0001 to 100000", *effort)
	}
	data, err := readFile(file, std)
	if err != nil {
		return err
	}
	instances, err := readRects(data, *rotate)
	if err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	var table rowWriter = newTextRows(std.out)
	if *asCSV {
		table = newCSVRows(std.out)
	}
	var bad error
	for i := range instances {
		in := &instances[i]
		if in.cut {
			fmt.Fprintf(std.err, "%s: more digits than can be held; sizes cut to %d decimals\n", in.name, in.decimals)
		}
		start := time.Now()
		plan, err := rect.Solve(ctx, &in.job, rect.Options{Effort: *effort, Seed: *seed})
		row := rectRow{name: in.name, n: in.count, seconds: time.Since(start).Seconds()}
		if err == nil {
			err = in.check(plan)
		}
		if err != nil {
			bad = fmt.Errorf("%s: %w", in.name, err)
			fmt.Fprintln(std.err, bad)
		} else {
			row.fill(in, plan)
			if in.optimum >= 0 && plan.Length < in.optimum && !*rotate {
				fmt.Fprintf(std.err, "%s: verified layout of %s is shorter than the optimum given, %s\n",
					in.name, row.height, in.decimal(in.optimum))
			}
		}
		if err := table.row(&row); err != nil {
			return err
		}
		if ctx.Err() != nil {
			break
		}
	}
	if err := table.end(); err != nil {
		return err
	}
	return bad
}

// rectInstance is one job; its sizes are whole numbers of 10^-decimals.
type rectInstance struct {
	name     string
	job      rect.Job
	count    int
	optimum  int64 // -1 if not given
	decimals int
	cut      bool // digits were lost
}

// rectDoc is one instance of a file.
type rectDoc struct {
	Name  string          `json:"name"`
	Width *json.Number    `json:"strip_width"`
	Opt   *json.Number    `json:"opt_fixed"`
	Items [][]json.Number `json:"items"`
}

// readRects reads a file of instances:
//
//	{"instances":[{"name":"a","strip_width":20,"opt_fixed":20,"items":[[2,12,1],[7,12,1]]}]}
//
// Other keys are ignored. A count that is left out is 1.
func readRects(data []byte, rotate bool) ([]rectInstance, error) {
	var doc struct {
		Instances []rectDoc `json:"instances"`
	}
	if err := json.Unmarshal(data, &doc); err != nil {
		return nil, inputError{err}
	}
	if len(doc.Instances) == 0 {
		return nil, badInput("no instances")
	}
	out := make([]rectInstance, len(doc.Instances))
	for i, d := range doc.Instances {
		in := rectInstance{name: d.Name, optimum: -1}
		if in.name == "" {
			in.name = fmt.Sprintf("instance %d", i+1)
		}
		if err := in.read(d, rotate); err != nil {
			return nil, badInput("%s: %w", in.name, err)
		}
		out[i] = in
	}
	return out, nil
}

// read takes in the numbers of an instance: first all as decimals, so that the
// scale is known, then as whole numbers of that scale.
func (in *rectInstance) read(d rectDoc, rotate bool) error {
	if d.Width == nil {
		return errors.New("no strip_width")
	}
	if len(d.Items) == 0 {
		return errors.New("no items")
	}
	var sc scale
	width, err := sc.read(*d.Width)
	if err != nil {
		return fmt.Errorf("strip_width: %w", err)
	}
	var opt decimal
	if d.Opt != nil {
		if opt, err = sc.read(*d.Opt); err != nil {
			return fmt.Errorf("opt_fixed: %w", err)
		}
	}
	sizes := make([][2]decimal, len(d.Items))
	for k, it := range d.Items {
		if sizes[k], err = in.readItem(&sc, it, rotate); err != nil {
			return fmt.Errorf("items[%d]: %w", k, err)
		}
	}
	in.decimals, in.cut = sc.decimals()
	if in.job.Width, err = width.whole(in.decimals); err != nil {
		return fmt.Errorf("strip_width: %w", err)
	}
	for k := range sizes {
		p := &in.job.Pieces[k]
		if p.W, err = sizes[k][0].whole(in.decimals); err == nil {
			p.H, err = sizes[k][1].whole(in.decimals)
		}
		if err != nil {
			return fmt.Errorf("items[%d]: %w", k, err)
		}
	}
	if d.Opt != nil {
		if in.optimum, err = opt.whole(in.decimals); err != nil {
			return fmt.Errorf("opt_fixed: %w", err)
		}
	}
	return in.job.Validate()
}

// readItem adds a piece without its sizes and gives these as decimals.
func (in *rectInstance) readItem(sc *scale, it []json.Number, rotate bool) (size [2]decimal, err error) {
	if len(it) != 2 && len(it) != 3 {
		return size, fmt.Errorf("%d numbers, want width, height and count", len(it))
	}
	for s := range 2 {
		if size[s], err = sc.read(it[s]); err != nil {
			return size, err
		}
	}
	n := int64(1)
	if len(it) == 3 {
		if n, err = wholeNumber(it[2]); err != nil {
			return size, fmt.Errorf("count %w", err)
		}
	}
	if n < 1 || int64(in.count)+n > rect.MaxPieces {
		return size, fmt.Errorf("count is %d, want at least 1 and at most %d in all", n, rect.MaxPieces)
	}
	in.count += int(n)
	sc.total += n * 2
	p := rect.Piece{Count: int(n)}
	if rotate {
		p.Turns = rect.Upright | rect.QuarterTurn
	}
	in.job.Pieces = append(in.job.Pieces, p)
	return size, nil
}

// check verifies a layout against the instance.
func (in *rectInstance) check(p *rect.Plan) error {
	s := verify.Strip{Width: in.job.Width, Length: p.Length, Claimed: p.Length}
	for _, q := range in.job.Pieces {
		d := verify.Demand{W: q.W, H: q.H, Count: q.Count, Turns: []int{0}}
		if q.Turns&rect.QuarterTurn != 0 {
			d.Turns = append(d.Turns, 90)
		}
		s.Demands = append(s.Demands, d)
	}
	for _, q := range p.Placed {
		l := verify.Laid{Demand: q.Piece, Copy: q.Copy, Segment: q.Segment, Segments: q.Segments,
			Rect: verify.Rect{X: q.X, Y: q.Y, W: q.W, H: q.H}}
		if q.Turn == rect.QuarterTurn {
			l.Turn = 90
		}
		s.Laid = append(s.Laid, l)
	}
	return verify.Boxes(&s)
}

// decimal writes a whole number of 10^-decimals in the unit of the input.
func (in *rectInstance) decimal(v int64) string { return pointed(v, in.decimals) }

// rectRow is a line of the result. Fields of a failed layout stay empty.
type rectRow struct {
	name                   string
	n                      int
	height, bound, optimum string
	gap, optGap            float64 // percent, against the bound and against the optimum given
	hasOpt, verified       bool
	seconds                float64
}

func (r *rectRow) fill(in *rectInstance, p *rect.Plan) {
	r.verified = true
	r.height, r.bound = in.decimal(p.Length), in.decimal(p.Bound)
	r.gap = percent(p.Length, p.Bound)
	turned := false
	for i := range in.job.Pieces {
		turned = turned || in.job.Pieces[i].Turns&rect.QuarterTurn != 0
	}
	// the optimum given is for fixed pieces; with turning it is one only if nothing can be lower
	if in.optimum > 0 && (!turned || p.Bound == in.optimum) {
		r.optimum, r.hasOpt = in.decimal(in.optimum), true
		r.optGap = percent(p.Length, in.optimum)
	}
}

func percent(height, bound int64) float64 {
	return 100 * float64(height-bound) / float64(bound)
}

// rowWriter prints rows in one of two forms.
type rowWriter interface {
	row(*rectRow) error
	end() error
}

type csvRows struct{ w *csv.Writer }

func newCSVRows(w io.Writer) *csvRows {
	c := &csvRows{csv.NewWriter(w)}
	c.w.Write([]string{"name", "n", "height", "bound", "optimum", "gap", "seconds", "verified"}) //nolint:errcheck // errors surface in Flush
	return c
}

func (c *csvRows) row(r *rectRow) error {
	gap := ""
	if r.verified {
		gap = strconv.FormatFloat(r.gap, 'f', 4, 64)
	}
	//nolint:errcheck // errors surface in Flush
	c.w.Write([]string{r.name, strconv.Itoa(r.n), r.height, r.bound, r.optimum, gap,
		strconv.FormatFloat(r.seconds, 'f', 3, 64), yes(r.verified)})
	return c.end()
}

func (c *csvRows) end() error {
	c.w.Flush()
	return c.w.Error()
}

type textRows struct {
	w                    *tabwriter.Writer
	out                  io.Writer
	rows, opts, ok       int
	gap, optGap, seconds float64
}

func newTextRows(w io.Writer) *textRows {
	t := &textRows{w: tabwriter.NewWriter(w, 4, 0, 2, ' ', tabwriter.AlignRight), out: w}
	fmt.Fprintln(t.w, "name\tn\theight\tbound\toptimum\tgap %\tseconds\tverified\t")
	return t
}

func (t *textRows) row(r *rectRow) error {
	t.rows++
	t.seconds += r.seconds
	gap := "-"
	if r.verified {
		t.ok++
		t.gap += r.gap
		gap = strconv.FormatFloat(r.gap, 'f', 3, 64)
	}
	if r.hasOpt {
		t.opts++
		t.optGap += r.optGap
	}
	_, err := fmt.Fprintf(t.w, "%s\t%d\t%s\t%s\t%s\t%s\t%.2f\t%s\t\n",
		r.name, r.n, dash(r.height), dash(r.bound), dash(r.optimum), gap, r.seconds, yes(r.verified))
	return err
}

func (t *textRows) end() error {
	if err := t.w.Flush(); err != nil {
		return err
	}
	fmt.Fprintf(t.out, "\n%d instances, %d verified, %.2f s\n", t.rows, t.ok, t.seconds)
	if t.ok > 0 {
		fmt.Fprintf(t.out, "mean gap to the bound proved: %.3f %%\n", t.gap/float64(t.ok))
	}
	if t.opts > 0 {
		fmt.Fprintf(t.out, "mean gap to the optimum given (%d instances): %.3f %%\n", t.opts, t.optGap/float64(t.opts))
	}
	return nil
}

func dash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}
