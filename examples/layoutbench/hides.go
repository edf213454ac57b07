package main

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"time"

	"github.com/coverwright/coverwright/internal/pack/nest"
)

// hidesEffort is the default work budget of the hides command: about a
// minute on two cores.
const hidesEffort = 3200

type hideFile struct {
	Hides []struct {
		ID    string         `json:"id"`
		Outer [][2]float64   `json:"outer"`
		Holes [][][2]float64 `json:"holes"`
		Zones []struct {
			Q   int          `json:"q"`
			Pts [][2]float64 `json:"pts"`
		} `json:"zones"`
	} `json:"hides"`
}

type hideTest struct {
	Name  string   `json:"name"`
	Hides []string `json:"hides"`
	Items []struct {
		ID         string       `json:"id"`
		Qty        *int         `json:"qty"`
		MinQuality *int         `json:"min_quality"`
		Pts        [][2]float64 `json:"pts"`
	} `json:"items"`
}

// runHides packs the items of a test on measured hides, turning freely.
func runHides(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	fs := flag.NewFlagSet("hides", flag.ContinueOnError)
	fs.SetOutput(stderr)
	effort := fs.Int("effort", hidesEffort, "work budget per worker")
	seed := fs.Uint64("seed", 1, "seed")
	csv := fs.Bool("csv", false, "write comma-separated lines")
	baseline := fs.Bool("baseline", false, "raster first-fit only")
	quiet := fs.Bool("quiet", true, "no progress lines")
	files, err := parseMixed(fs, args)
	if err != nil {
		return err
	}
	if len(files) != 2 {
		return errors.New("hides: want a file of hides and a file with the test")
	}
	var stock hideFile
	if err := readJSON(files[0], &stock); err != nil {
		return err
	}
	var test hideTest
	if err := readJSON(files[1], &test); err != nil {
		return err
	}
	job, err := hideJob(stock, test)
	if err != nil {
		return fmt.Errorf("hides: %s: %w", test.Name, err)
	}
	job.Seed, job.Effort, job.Baseline = *seed, *effort, *baseline
	start := time.Now()
	if !*quiet {
		job.Progress = func(p nest.Progress) {
			fmt.Fprintf(stderr, "%6.1fs %3d%% %d hides, %d placed\n", time.Since(start).Seconds(), 100*p.Work/p.Budget, p.Hides, p.Placed)
		}
	}
	out, err := nest.Hides(ctx, job)
	if err != nil {
		return fmt.Errorf("hides: %s: %w", test.Name, err)
	}
	secs := time.Since(start).Seconds()
	pieces := len(out.Placements) + len(out.Unplaced)
	if *csv {
		fmt.Fprintln(stdout, "name,hides,least,utilisation,placed,pieces,seconds,verified")
		fmt.Fprintf(stdout, "%s,%d,%d,%.2f,%d,%d,%.1f,true\n", csvField(test.Name), len(out.Used), out.Least,
			100*out.Utilisation(), len(out.Placements), pieces, secs)
		return nil
	}
	fmt.Fprintf(stdout, "%s: %d hides used (least possible %d, by %s), utilisation %.2f %% of their net area, %d of %d pieces placed, %.1f s, verified true\n",
		test.Name, len(out.Used), out.Least, out.LeastWhy, 100*out.Utilisation(), len(out.Placements), pieces, secs)
	for _, u := range out.Used {
		fmt.Fprintf(stdout, "  hide %s\n", job.Hides[u].ID)
	}
	return nil
}

func readJSON(name string, v any) error {
	b, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(b, v); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

// hideJob picks the hides the test names (all, if it names none) and
// scales everything to whole units.
func hideJob(stock hideFile, test hideTest) (nest.HideJob, error) {
	byID := make(map[string]int)
	var names []string
	for i, h := range stock.Hides {
		if _, twice := byID[h.ID]; twice {
			return nest.HideJob{}, fmt.Errorf("hide %q is in the file twice", h.ID)
		}
		byID[h.ID] = i
		names = append(names, h.ID)
	}
	if len(test.Hides) > 0 {
		names = test.Hides
	}
	span := 0.0
	grow := func(pts [][2]float64) {
		for _, p := range pts {
			span = max(span, math.Abs(p[0]), math.Abs(p[1]))
		}
	}
	for _, h := range stock.Hides {
		grow(h.Outer)
	}
	for _, it := range test.Items {
		grow(it.Pts)
	}
	if !(span > 0) || math.IsInf(span, 0) {
		return nest.HideJob{}, errors.New("no outlines")
	}
	unit := 1.0
	for span*unit < 1e5 && unit < 1e12 {
		unit *= 10
	}
	for span*unit > 1e8 && unit > 1e-12 {
		unit /= 10
	}
	var job nest.HideJob
	used := make(map[string]bool)
	for _, n := range names {
		k, ok := byID[n]
		if !ok {
			return job, fmt.Errorf("hide %q is not in the file of hides", n)
		}
		if used[n] {
			return job, fmt.Errorf("hide %q is named twice", n)
		}
		used[n] = true
		src := stock.Hides[k]
		h := nest.Hide{ID: n}
		var err error
		if h.Outer, err = scaled(src.Outer, unit); err != nil {
			return job, fmt.Errorf("hide %s: outer: %w", n, err)
		}
		for i, r := range src.Holes {
			ring, err := scaled(r, unit)
			if err != nil {
				return job, fmt.Errorf("hide %s: hole %d: %w", n, i, err)
			}
			h.Holes = append(h.Holes, ring)
		}
		for i, z := range src.Zones {
			ring, err := scaled(z.Pts, unit)
			if err != nil {
				return job, fmt.Errorf("hide %s: zone %d: %w", n, i, err)
			}
			h.Zones = append(h.Zones, nest.Zone{Quality: z.Q, Ring: ring})
		}
		job.Hides = append(job.Hides, h)
	}
	for i, it := range test.Items {
		n := 1
		if it.Qty != nil {
			n = *it.Qty
		}
		if n == 0 {
			continue
		}
		ring, err := scaled(it.Pts, unit)
		if err != nil {
			return job, fmt.Errorf("item %d (%s): %w", i, it.ID, err)
		}
		p := nest.Piece{ID: it.ID, Ring: ring, Count: n, Turn: nest.TurnAny()}
		if it.MinQuality != nil {
			p.Demand = nest.AtLeast(*it.MinQuality)
		}
		job.Pieces = append(job.Pieces, p)
	}
	return job, nil
}
