package main

import (
	"context"
	"encoding/csv"
	"flag"
	"fmt"
	"math"
	"strconv"
	"time"

	"github.com/coverwright/coverwright/internal/pack/nest"
)

// stripEffort is the default work budget of the strip command: 35 to 60
// seconds on two cores.
const stripEffort = 4000

type stripInstance struct {
	Name  string        `json:"name"`
	Width float64       `json:"strip_width"`
	Items []polygonItem `json:"items"`
}

// runStrip packs polygons on strips: {"name":..,"strip_width":..,
// "items":[{"id":..,"qty":..,"rot":[0,180],"pts":[[x,y],..]}]} or
// {"instances":[..]}. The width runs along y, the length along x.
func runStrip(ctx context.Context, args []string, std stdio) error {
	fs := flag.NewFlagSet("strip", flag.ContinueOnError)
	effort := fs.Int("effort", stripEffort, "work budget per instance")
	seed := fs.Uint64("seed", 1, "seed")
	asCSV := fs.Bool("csv", false, "write comma-separated lines")
	verbose := fs.Bool("v", false, "report progress")
	file, err := parse(fs, args, std)
	if err != nil {
		return err
	}
	if *effort < 1 {
		return badInput("effort = %d: want 1 or more", *effort)
	}
	list, err := readStrips(file, std)
	if err != nil {
		return err
	}
	jobs := make([]nest.StripJob, len(list))
	units := make([]float64, len(list))
	for i := range list {
		if jobs[i], units[i], err = list[i].job(); err != nil {
			return badInput("%s: %w", list[i].Name, err)
		}
	}
	out := csv.NewWriter(std.out)
	if *asCSV {
		if err := out.Write([]string{"name", "pieces", "length", "density", "seconds", "verified"}); err != nil {
			return err
		}
	}
	for i, in := range list {
		job, unit := jobs[i], units[i]
		job.Seed, job.Effort = *seed, *effort
		start := time.Now()
		if *verbose {
			job.Progress = func(p nest.Progress) {
				fmt.Fprintf(std.err, "%6.1f s %3d %% length %.6g\n", time.Since(start).Seconds(), 100*p.Work/p.Budget, float64(p.Length)/unit)
			}
		}
		lay, err := nest.Strip(ctx, job)
		if err != nil {
			return asInput(in.Name, err)
		}
		length := float64(lay.Length) / unit
		density := 100 * in.area() / (in.Width * length)
		secs := time.Since(start).Seconds()
		if *asCSV {
			if err := out.Write([]string{in.Name, strconv.Itoa(len(lay.Placements)), strconv.FormatFloat(length, 'g', 8, 64),
				strconv.FormatFloat(density, 'f', 3, 64), strconv.FormatFloat(secs, 'f', 1, 64), yes(true)}); err != nil {
				return err
			}
			out.Flush()
			continue
		}
		fmt.Fprintf(std.out, "%s: %d pieces, length %.8g (not under %.6g), density %.3f %%, %.1f s, verified %s\n",
			in.Name, len(lay.Placements), length, float64(lay.LowerBound)/unit, density, secs, yes(true))
	}
	out.Flush()
	return out.Error()
}

func readStrips(name string, std stdio) ([]stripInstance, error) {
	var file struct {
		stripInstance
		Instances []stripInstance `json:"instances"`
	}
	if err := readJSON(name, std, &file); err != nil {
		return nil, err
	}
	list := file.Instances
	if len(list) == 0 {
		if len(file.Items) == 0 {
			return nil, badInput("%s: no items and no instances", name)
		}
		list = []stripInstance{file.stripInstance}
	}
	for i := range list {
		if list[i].Name == "" {
			list[i].Name = fmt.Sprintf("instance %d", i+1)
		}
	}
	return list, nil
}

func (in stripInstance) area() float64 {
	sum := 0.0
	for i := range in.Items {
		n, err := in.Items[i].count()
		if err != nil {
			continue // job refuses the instance
		}
		sum += float64(n) * in.Items[i].Pts.area()
	}
	return sum
}

// job scales the instance to whole units.
func (in stripInstance) job() (nest.StripJob, float64, error) {
	if !(in.Width > 0) || math.IsInf(in.Width, 0) {
		return nest.StripJob{}, 0, badInput("strip_width = %v: want a positive number", in.Width)
	}
	span := in.Width
	for i := range in.Items {
		s, err := in.Items[i].Pts.span()
		if err != nil {
			return nest.StripJob{}, 0, badInput("item %s: %w", in.Items[i].name(), err)
		}
		span = max(span, s)
	}
	unit, err := unitFor(span, 1e6)
	if err != nil {
		return nest.StripJob{}, 0, err
	}
	job := nest.StripJob{Width: int64(math.Floor(in.Width*unit + 1e-6))}
	for i := range in.Items {
		it := &in.Items[i]
		n, err := it.count()
		if err != nil {
			return job, unit, err
		}
		ring, err := it.Pts.ring(unit)
		if err != nil {
			return job, unit, badInput("item %s: %w", it.name(), err)
		}
		var turns []nest.Angle
		for _, a := range it.Rot {
			if !(math.Abs(a) <= 1e6) {
				return job, unit, badInput("item %s: rot = %v: want degrees", it.name(), a)
			}
			turns = append(turns, nest.Angle(math.Round(a*float64(nest.Degree))))
		}
		job.Pieces = append(job.Pieces, nest.Piece{ID: it.name(), Ring: ring, Count: n, Turn: nest.TurnSet(turns...)})
	}
	return job, unit, nil
}
