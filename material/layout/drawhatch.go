package layout

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/material"
)

// hatching is how a mark is drawn: lines at some angles, so far apart.
type hatching struct {
	apart  float64
	angles []float64 // degrees on the page
}

// hatchOf gives closer lines for worse marks, crossed from a deep one on.
func hatchOf(s material.Severity) hatching {
	switch s {
	case material.NoMark, material.FaintMark:
		return hatching{6, []float64{-45}}
	case material.PlainMark:
		return hatching{3, []float64{-45}}
	case material.DeepMark:
		return hatching{4, []float64{-45, 45}}
	}
	return hatching{2.2, []float64{-45, 45}}
}

// hatch gives the lines of a hatching inside a polygon, scale times as far apart.
func (h hatching) hatch(polygon []svg.Point, scale float64) [][2]svg.Point {
	var out [][2]svg.Point
	for _, degrees := range h.angles {
		sin, cos := geom.SinCos(degrees * math.Pi / 180)
		v := viewOf(polygon, svg.Point{X: cos, Y: sin})
		step := h.apart * scale
		const most = 2000 // lines
		step = max(step, (v.high.Y-v.low.Y)/most)
		for y := float64(math.Floor(v.low.Y/step)*step) + step/2; y < v.high.Y; y += step {
			var at []float64
			for i, a := range polygon {
				a, b := v.from.own(a), v.from.own(polygon[(i+1)%len(polygon)])
				if (a.Y > y) != (b.Y > y) {
					at = append(at, a.X+float64((b.X-a.X)*((y-a.Y)/(b.Y-a.Y))))
				}
			}
			slices.Sort(at)
			for i := 0; i+1 < len(at); i += 2 {
				out = append(out, [2]svg.Point{v.from.page(at[i], y), v.from.page(at[i+1], y)})
			}
		}
	}
	return out
}
