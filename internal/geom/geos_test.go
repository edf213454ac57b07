//go:build geos

package geom

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"

	"github.com/stretchr/testify/require"
)

// geosCase is one line for testdata/geos_offset.py.
type geosCase struct {
	Kind string           `json:"kind"`
	Ring [][2]float64     `json:"ring"`
	D    float64          `json:"d"`
	Join int              `json:"join"`
	Got  [][][][2]float64 `json:"got"`
}

func millimetres(r Ring) [][2]float64 {
	out := make([][2]float64, len(r))
	for i, p := range r {
		out[i] = [2]float64{float64(p.X) / mm, float64(p.Y) / mm}
	}
	return out
}

// geosOutline makes the k-th outline: convex, concave and curved in turn.
func geosOutline(rng *rand.Rand, k int) (string, Ring) {
	for {
		var r Ring
		var kind string
		switch k % 3 {
		case 0:
			kind = "convex"
			ps := make([]Point, 3+rng.IntN(20))
			for i := range ps {
				ps[i] = Point{rng.Int64N(800*mm) - 400*mm, rng.Int64N(800*mm) - 400*mm}
			}
			r = Hull(ps)
		case 1:
			kind = "concave"
			n := 5 + rng.IntN(20)
			for i := range n {
				a := 2 * math.Pi * (float64(i) + 0.8*rng.Float64()) / float64(n)
				d := (60 + 340*rng.Float64()) * mm
				r = append(r, Point{int64(d * math.Cos(a)), int64(d * math.Sin(a))})
			}
		case 2:
			// A closed chain of cubic curves, arcs and lines through a star.
			kind = "curved"
			n := 4 + rng.IntN(5)
			ps := make([]Point, n)
			for i := range ps {
				a := 2 * math.Pi * (float64(i) + 0.5*rng.Float64()) / float64(n)
				d := (150 + 250*rng.Float64()) * mm
				ps[i] = Point{int64(d * math.Cos(a)), int64(d * math.Sin(a))}
			}
			var p Path
			for i, a := range ps {
				b := ps[(i+1)%n]
				d := b.Sub(a)
				side := func() Point { // a point beside the chord
					f, g := 0.2+0.6*rng.Float64(), 0.5*(rng.Float64()-0.5)
					return Point{a.X + int64(f*float64(d.X)-g*float64(d.Y)), a.Y + int64(f*float64(d.Y)+g*float64(d.X))}
				}
				switch rng.IntN(4) {
				case 0:
					p.Segments = append(p.Segments, LineTo(a, b))
				case 1:
					p.Segments = append(p.Segments, ArcTo(a, b, 0.8*(rng.Float64()-0.3)))
				case 2:
					p.Segments = append(p.Segments, QuadraticTo(a, side(), b))
				case 3:
					p.Segments = append(p.Segments, CubicTo(a, side(), side(), b))
				}
			}
			r, _, _ = p.Flatten(FlattenOptions{Tolerance: 200_000, Reach: 12_700_000})
		}
		r = r.Clean()
		if _, bad, err := r.FindSelfIntersection(); bad || err != nil || len(r) < 3 || r.Orientation() < 0 || r.Area() < 100*mm*mm {
			continue
		}
		return kind, r
	}
}

// pythonWithShapely finds an interpreter that has shapely.
func pythonWithShapely(t *testing.T) string {
	for _, name := range []string{os.Getenv("GEOS_PYTHON"), "python3", "/usr/bin/python3"} {
		if name != "" && exec.Command(name, "-c", "import shapely.geometry").Run() == nil {
			return name
		}
	}
	t.Fatal("no python3 with shapely: install the package python3-shapely")
	return ""
}

// TestGEOSOffsets compares uniform offsets of 600 outlines with GEOS. Run it
// with: go test -tags geos -run GEOS -v ./internal/geom
func TestGEOSOffsets(t *testing.T) {
	python := pythonWithShapely(t)
	rng := rand.New(rand.NewPCG(3, 1))
	distances := []int64{1 * mm, 6_350_000, 12_700_000, 25_400_000, 80 * mm}
	joins := []struct {
		join Join
		geos int
	}{{Round, 1}, {Mitre, 2}, {Bevel, 3}}
	const outlines = 600
	var cases []geosCase
	for k := range outlines {
		kind, r := geosOutline(rng, k)
		for _, sign := range []int64{1, -1} {
			d := sign * distances[rng.IntN(len(distances))]
			j := joins[rng.IntN(len(joins))]
			out, err := OffsetBy(r, d, OffsetOptions{Join: j.join, MitreLimit: 1000, Tolerance: 200})
			require.NoError(t, err)
			c := geosCase{Kind: kind, Ring: millimetres(r), D: float64(d) / mm, Join: j.geos}
			for _, p := range out {
				rings := [][][2]float64{millimetres(p.Outer.Ring)}
				for _, h := range p.Holes {
					rings = append(rings, millimetres(h.Ring))
				}
				c.Got = append(c.Got, rings)
			}
			cases = append(cases, c)
		}
	}
	data, err := json.Marshal(cases)
	require.NoError(t, err)
	cmd := exec.Command(python, "testdata/geos_offset.py")
	cmd.Stdin = bytes.NewReader(data)
	cmd.Stderr = os.Stderr
	answer, err := cmd.Output()
	require.NoError(t, err)
	var report struct {
		Buffer, Parts, Empty, Split int
		WorstMM                     float64 `json:"worst_mm"`
		WorstAreaMM                 float64 `json:"worst_area_mm"`
		Failed                      []json.RawMessage
	}
	require.NoError(t, json.Unmarshal(answer, &report))
	t.Logf("GEOS: %d outlines, %d offsets (%d against buffer, %d against parts; %d empty, %d in pieces): "+
		"worst deviation %.6f mm, worst area %.6f mm along the border, %d disagreements",
		outlines, len(cases), report.Buffer, report.Parts, report.Empty, report.Split, report.WorstMM, report.WorstAreaMM, len(report.Failed))
	require.Equal(t, len(cases), report.Buffer+report.Parts)
	for _, f := range report.Failed {
		t.Errorf("disagreement over 0.01 mm: %s", f)
	}
}
