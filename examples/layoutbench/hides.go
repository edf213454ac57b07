package main

import (
	"context"
	"encoding/csv"
	"flag"
	"fmt"
	"slices"
	"strconv"
	"time"

	"github.com/coverwright/coverwright/internal/pack/nest"
)

// hidesEffort is the default work budget of the hides command: a little
// under a minute on two cores.
const hidesEffort = 7500

type hideStock struct {
	Hides []stockHide `json:"hides"`
}

type stockHide struct {
	ID    any      `json:"id"` // text or number
	Outer points   `json:"outer"`
	Holes []points `json:"holes"`
	Zones []struct {
		Q   whole  `json:"q"`
		Pts points `json:"pts"`
	} `json:"zones"`
}

type hideTest struct {
	Name  string        `json:"name"`
	Hides []any         `json:"hides"` // texts or numbers
	Items []polygonItem `json:"items"`
}

// runHides packs polygons on measured hides, turning freely. The first
// file holds {"hides":[{"id":..,"outer":[[x,y],..],"holes":[[[x,y],..],..],
// "zones":[{"q":1,"pts":[[x,y],..]}]}]}, the second {"name":..,
// "hides":["H01",..],"items":[{"id":..,"qty":..,"min_quality":2,"pts":..}]}.
// A piece with min_quality m may lie on zones with q >= m, a piece without
// on none.
func runHides(ctx context.Context, args []string, std stdio) error {
	fs := flag.NewFlagSet("hides", flag.ContinueOnError)
	effort := fs.Int("effort", hidesEffort, "work budget")
	seed := fs.Uint64("seed", 1, "seed")
	asCSV := fs.Bool("csv", false, "write comma-separated lines")
	baseline := fs.Bool("baseline", false, "raster first-fit only, as a yardstick")
	verbose := fs.Bool("v", false, "report progress")
	stockFile, testFile, err := parseTwo(fs, args, std)
	if err != nil {
		return err
	}
	if *effort < 1 {
		return badInput("effort = %d: want 1 or more", *effort)
	}
	var stock hideStock
	if err := readJSON(stockFile, std, &stock); err != nil {
		return err
	}
	var test hideTest
	if err := readJSON(testFile, std, &test); err != nil {
		return err
	}
	if test.Name == "" {
		test.Name = "test"
	}
	job, err := hideJob(stock, test)
	if err != nil {
		return badInput("%s: %w", test.Name, err)
	}
	job.Seed, job.Effort, job.Baseline = *seed, *effort, *baseline
	start := time.Now()
	if *verbose {
		job.Progress = func(p nest.Progress) {
			fmt.Fprintf(std.err, "%6.1f s %3d %% %d hides, %d placed\n", time.Since(start).Seconds(), 100*p.Work/p.Budget, p.Hides, p.Placed)
		}
	}
	lay, err := nest.Hides(ctx, job)
	if err != nil {
		return asInput(test.Name, err)
	}
	secs := time.Since(start).Seconds()
	pieces := len(lay.Placements) + len(lay.Unplaced)
	if *asCSV {
		return csv.NewWriter(std.out).WriteAll([][]string{
			{"name", "hides", "least", "utilisation", "placed", "pieces", "seconds", "verified"},
			{test.Name, strconv.Itoa(len(lay.Used)), strconv.Itoa(lay.Least),
				strconv.FormatFloat(100*lay.Utilisation(), 'f', 2, 64), strconv.Itoa(len(lay.Placements)), strconv.Itoa(pieces),
				strconv.FormatFloat(secs, 'f', 1, 64), yes(true)},
		})
	}
	fmt.Fprintf(std.out, "%s: %d hides used, least possible %d (%s), utilisation %.2f %% of their net area, %d of %d pieces placed, %.1f s, verified %s\n",
		test.Name, len(lay.Used), lay.Least, lay.LeastWhy, 100*lay.Utilisation(), len(lay.Placements), pieces, secs, yes(true))
	for _, u := range lay.Used {
		fmt.Fprintf(std.out, "  hide %s\n", job.Hides[u].ID)
	}
	return nil
}

// parseTwo reads flags that may stand before, between or after two file
// names.
func parseTwo(fs *flag.FlagSet, args []string, std stdio) (first, second string, err error) {
	fs.SetOutput(std.err)
	var files []string
	for {
		if err := fs.Parse(args); err != nil {
			return "", "", inputError{err}
		}
		if fs.NArg() == 0 {
			break
		}
		files = append(files, fs.Arg(0))
		args = fs.Args()[1:]
	}
	if len(files) != 2 {
		return "", "", badInput("%d files given; usage: layoutbench hides HIDES TEST [flags]", len(files))
	}
	return files[0], files[1], nil
}

// hideJob picks the hides the test names (all, if it names none) and
// scales everything to whole units.
func hideJob(stock hideStock, test hideTest) (job nest.HideJob, err error) {
	span, err := largest(stock, test)
	if err != nil {
		return job, err
	}
	unit, err := unitFor(span, 1e5)
	if err != nil {
		return job, err
	}
	picked, err := pick(stock, test.Hides)
	if err != nil {
		return job, err
	}
	levels := qualities(stock, picked)
	if len(levels) > nest.MostKinds {
		return job, badInput("the zones have %d qualities, want at most %d", len(levels), nest.MostKinds)
	}
	for _, k := range picked {
		h, err := stock.Hides[k].scaled(unit, levels)
		if err != nil {
			return job, badInput("hide %s: %w", h.ID, err)
		}
		job.Hides = append(job.Hides, h)
	}
	for i := range test.Items {
		p, err := test.Items[i].piece(unit, levels)
		if err != nil {
			return job, err
		}
		job.Pieces = append(job.Pieces, p)
	}
	return job, nil
}

// qualities are those of the zones of some hides, the best last. Each is a kind
// of ground.
func qualities(stock hideStock, picked []int) []int {
	var out []int
	for _, k := range picked {
		for _, z := range stock.Hides[k].Zones {
			out = append(out, int(z.Q))
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// largest is the largest coordinate of all outlines.
func largest(stock hideStock, test hideTest) (span float64, err error) {
	grow := func(p points) error {
		s, err := p.span()
		span = max(span, s)
		return err
	}
	for _, h := range stock.Hides {
		all := append([]points{h.Outer}, h.Holes...)
		for _, z := range h.Zones {
			all = append(all, z.Pts)
		}
		for _, p := range all {
			if err := grow(p); err != nil {
				return 0, badInput("hide %s: %w", clip(label(h.ID)), err)
			}
		}
	}
	for i := range test.Items {
		if err := grow(test.Items[i].Pts); err != nil {
			return 0, badInput("item %s: %w", test.Items[i].name(), err)
		}
	}
	return span, nil
}

// pick gives the places of the hides with these ids, of all if there are none.
func pick(stock hideStock, ids []any) (places []int, err error) {
	byID := make(map[string]int)
	for i, h := range stock.Hides {
		id := label(h.ID)
		if _, twice := byID[id]; twice {
			return nil, badInput("hide %q is in the file twice", clip(id))
		}
		byID[id] = i
		places = append(places, i)
	}
	if len(ids) == 0 {
		return places, nil
	}
	places = places[:0]
	for _, id := range ids {
		n := label(id)
		k, ok := byID[n]
		if !ok {
			return nil, badInput("hide %q is not in the file of hides", n)
		}
		if slices.Contains(places, k) {
			return nil, badInput("hide %q is named twice", n)
		}
		places = append(places, k)
	}
	return places, nil
}

// scaled is a hide in whole units, the quality of each zone by its place in levels.
func (s *stockHide) scaled(unit float64, levels []int) (h nest.Hide, err error) {
	h.ID = label(s.ID)
	if h.Outer, err = s.Outer.ring(unit); err != nil {
		return h, fmt.Errorf("outer: %w", err)
	}
	for i, r := range s.Holes {
		ring, err := r.ring(unit)
		if err != nil {
			return h, fmt.Errorf("hole %d: %w", i, err)
		}
		h.Holes = append(h.Holes, ring)
	}
	for i, z := range s.Zones {
		ring, err := z.Pts.ring(unit)
		if err != nil {
			return h, fmt.Errorf("zone %d: %w", i, err)
		}
		h.Zones = append(h.Zones, nest.Zone{Kind: slices.Index(levels, int(z.Q)), Ring: ring})
	}
	return h, nil
}

// piece is an item in whole units, free to turn.
func (it *polygonItem) piece(unit float64, levels []int) (p nest.Piece, err error) {
	n, err := it.count()
	if err != nil {
		return p, err
	}
	ring, err := it.Pts.ring(unit)
	if err != nil {
		return p, badInput("item %s: %w", it.name(), err)
	}
	p = nest.Piece{ID: it.name(), Ring: ring, Count: n, Turn: nest.TurnAny()}
	for kind, q := range levels {
		if it.MinQuality != nil && q >= int(*it.MinQuality) {
			p.Takes = p.Takes.With(kind)
		}
	}
	return p, nil
}
