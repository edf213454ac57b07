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

// stripEffort is the default work budget of the strip command: about a
// minute on two cores.
const stripEffort = 2500

type stripItem struct {
	ID  string       `json:"id"`
	Qty *int         `json:"qty"`
	Rot []float64    `json:"rot"`
	Pts [][2]float64 `json:"pts"`
}

type stripInstance struct {
	Name  string      `json:"name"`
	Width float64     `json:"strip_width"`
	Items []stripItem `json:"items"`
}

// runStrip packs the instances of a file on strips of fixed width.
func runStrip(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	fs := flag.NewFlagSet("strip", flag.ContinueOnError)
	fs.SetOutput(stderr)
	effort := fs.Int("effort", stripEffort, "work budget per instance and worker")
	seed := fs.Uint64("seed", 1, "seed")
	csv := fs.Bool("csv", false, "write comma-separated lines")
	quiet := fs.Bool("quiet", true, "no progress lines")
	files, err := parseMixed(fs, args)
	if err != nil {
		return err
	}
	if len(files) != 1 {
		return errors.New("strip: want one instance file")
	}
	list, err := readStrip(files[0])
	if err != nil {
		return err
	}
	if *csv {
		fmt.Fprintln(stdout, "name,pieces,length,density,seconds,verified")
	}
	for _, in := range list {
		job, unit, err := in.job()
		if err != nil {
			return fmt.Errorf("strip: %s: %w", in.Name, err)
		}
		job.Seed, job.Effort = *seed, *effort
		start := time.Now()
		if !*quiet {
			job.Progress = func(p nest.Progress) {
				fmt.Fprintf(stderr, "%6.1fs %3d%% length %.4f density %.3f\n", time.Since(start).Seconds(), 100*p.Work/p.Budget,
					float64(p.Length)/unit, 100*in.area()/in.Width/(float64(p.Length)/unit))
			}
		}
		out, err := nest.Strip(ctx, job)
		if err != nil {
			return fmt.Errorf("strip: %s: %w", in.Name, err)
		}
		length := float64(out.Length) / unit
		density := 100 * in.area() / (in.Width * length)
		secs := time.Since(start).Seconds()
		if *csv {
			fmt.Fprintf(stdout, "%s,%d,%.6g,%.3f,%.1f,true\n", csvField(in.Name), len(out.Placements), length, density, secs)
		} else {
			fmt.Fprintf(stdout, "%s: %d pieces, length %.6g, density %.3f %%, %.1f s, verified true\n",
				in.Name, len(out.Placements), length, density, secs)
		}
	}
	return nil
}

// parseMixed lets flags stand before or after the file names.
func parseMixed(fs *flag.FlagSet, args []string) ([]string, error) {
	var files []string
	for {
		if err := fs.Parse(args); err != nil {
			return nil, err
		}
		args = fs.Args()
		if len(args) == 0 {
			return files, nil
		}
		files = append(files, args[0])
		args = args[1:]
	}
}

func csvField(s string) string {
	for _, r := range s {
		if r == ',' || r == '"' || r == '\n' || r == '\r' {
			return fmt.Sprintf("%q", s)
		}
	}
	return s
}

func readStrip(name string) ([]stripInstance, error) {
	b, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	var file struct {
		stripInstance
		Instances []stripInstance `json:"instances"`
	}
	if err := json.Unmarshal(b, &file); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(file.Instances) > 0 {
		return file.Instances, nil
	}
	return []stripInstance{file.stripInstance}, nil
}

func (in stripInstance) area() float64 {
	sum := 0.0
	for _, it := range in.Items {
		n := 1
		if it.Qty != nil {
			n = *it.Qty
		}
		sum += float64(n) * ringArea(it.Pts)
	}
	return sum
}

func ringArea(p [][2]float64) float64 {
	s := 0.0
	for i, a := range p {
		b := p[(i+1)%len(p)]
		s += a[0]*b[1] - b[0]*a[1]
	}
	return math.Abs(s) / 2
}

// job scales the instance to whole units: a power of ten per unit of the
// file that keeps short decimals exact.
func (in stripInstance) job() (nest.StripJob, float64, error) {
	if !(in.Width > 0) || math.IsInf(in.Width, 0) {
		return nest.StripJob{}, 0, fmt.Errorf("strip_width = %v: want a positive number", in.Width)
	}
	span := in.Width
	for _, it := range in.Items {
		for _, p := range it.Pts {
			span = max(span, math.Abs(p[0]), math.Abs(p[1]))
		}
	}
	unit := 1.0
	for span*unit < 1e6 && unit < 1e12 {
		unit *= 10
	}
	for span*unit > 1e8 && unit > 1e-12 {
		unit /= 10
	}
	job := nest.StripJob{Width: int64(math.Floor(in.Width*unit + 1e-6))}
	for i, it := range in.Items {
		n := 1
		if it.Qty != nil {
			n = *it.Qty
		}
		if n == 0 {
			continue
		}
		ring, err := scaled(it.Pts, unit)
		if err != nil {
			return job, unit, fmt.Errorf("item %d (%s): %w", i, it.ID, err)
		}
		p := nest.Piece{ID: it.ID, Ring: ring, Count: n}
		var turns []nest.Angle
		for _, a := range it.Rot {
			if math.IsNaN(a) || math.Abs(a) > 1e6 {
				return job, unit, fmt.Errorf("item %d (%s): rot = %v: want degrees", i, it.ID, a)
			}
			turns = append(turns, nest.Angle(math.Round(a*float64(nest.Degree))))
		}
		p.Turn = nest.TurnSet(turns...)
		job.Pieces = append(job.Pieces, p)
	}
	return job, unit, nil
}

func scaled(pts [][2]float64, unit float64) (nest.Ring, error) {
	r := make(nest.Ring, len(pts))
	for i, p := range pts {
		x, y := math.Round(p[0]*unit), math.Round(p[1]*unit)
		if !(math.Abs(x) < nest.MaxCoord && math.Abs(y) < nest.MaxCoord) {
			return nil, fmt.Errorf("point %d = (%v, %v): out of range", i, p[0], p[1])
		}
		r[i] = nest.Point{X: int64(x), Y: int64(y)}
	}
	return r, nil
}
