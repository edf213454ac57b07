package main

import (
	"fmt"
	"math"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// foamPlan draws what is cut from the box of foam, the box dashed: from above with
// the front below, or from the side with the front on the left. A box needs no
// drawing.
func (s *sheet) foamPlan(f job.FoamBlock) (string, error) {
	w, h := f.Cut.Length, f.Cut.Width
	var ring []svg.Point
	view := "from above, front below"
	at := func(x, y float64) { ring = append(ring, svg.Point{X: x, Y: y}) }
	switch f.Form {
	case job.FoamOutline:
		low, _ := f.Outline.Bounds()
		points, err := f.Outline.Flatten(unit.Millimetre / 2)
		if err != nil {
			return "", err
		}
		for _, p := range points {
			at(float64(p.X-low.X), float64(p.Y-low.Y))
		}
	case job.FoamWedge:
		view, w, h = "from the side, front on the left", f.Cut.Width, f.Cut.Thickness
		at(0, 0)
		at(float64(w), 0)
		at(float64(w), float64(f.Back))
		at(0, float64(f.Finished.Thickness))
	case job.FoamRoundFront:
		view, w, h = "from the side, front on the left", f.Cut.Width, f.Cut.Thickness
		arc(&ring, float64(h)/2, float64(h)/2, float64(h)/2, math.Pi/2, 3*math.Pi/2)
		at(float64(w), 0)
		at(float64(w), float64(h))
	case job.FoamCylinder:
		view, w, h = "from the end", f.Cut.Thickness, f.Cut.Thickness
		arc(&ring, float64(h)/2, float64(h)/2, float64(h)/2, 0, 2*math.Pi)
	case job.FoamRolled:
		view = "rolled, from the end"
		w = f.Finished.Thickness + f.TakeUp
		h = w
		roll(&ring, float64(h)/2, float64(f.Cut.Thickness))
	case job.FoamCrown:
		view = "from above, bevelled"
		ring = []svg.Point{{X: 0, Y: 0}, {X: float64(w), Y: 0}, {X: float64(w), Y: float64(h)}, {X: 0, Y: float64(h)}}
	default:
		return "", nil
	}
	const left, top, side = 46.0, 22.0, 8.0
	scale := min((panelWide-left-side)/float64(w), 150/float64(h))
	wide, high := float64(w)*scale, float64(h)*scale
	d := svg.New(panelWide, high+top+30, fmt.Sprintf("Foam for %s: %s, %s", f.Piece, f.Name(), view))
	for i, p := range ring {
		ring[i] = svg.Point{X: left + float64(p.X*scale), Y: top + high - float64(p.Y*scale)}
	}
	d.Write(svg.Point{X: 4, Y: 12}, 10, "start", view)
	d.Rect(svg.Point{X: left, Y: top}, wide, high, svg.Attrs("fill", "none", "stroke", "#000", "stroke-width", "0.8", "stroke-dasharray", "4 3")...)
	shade, line := svg.Attrs("fill", "#eee", "stroke", "#000", "stroke-width", "1.6"), svg.Attrs("stroke", "#000", "stroke-width", "0.8")
	if f.Form == job.FoamRolled {
		d.Polyline(ring, svg.Attrs("fill", "none", "stroke", "#000", "stroke-width", "1.2")...)
	} else {
		d.Polygon(ring, shade...)
	}
	if f.Form == job.FoamCrown {
		d.Line(ring[0], ring[2], line...)
		d.Line(ring[1], ring[3], line...)
	}
	y := top + high + 14
	d.Dimension(svg.Point{X: left, Y: y}, svg.Point{X: left + wide, Y: y}, s.len(w))
	d.Dimension(svg.Point{X: left - 14, Y: top}, svg.Point{X: left - 14, Y: top + high}, s.len(h))
	return d.String(), nil
}

// arc adds the points of an arc anticlockwise.
func arc(ring *[]svg.Point, x, y, r, from, to float64) {
	const steps = 48
	for i := range steps + 1 {
		a := from + float64(float64(i)/steps*(to-from))
		*ring = append(*ring, svg.Point{X: x + float64(r*math.Cos(a)), Y: y + float64(r*math.Sin(a))})
	}
}

// roll adds the points of a sheet of a thickness rolled up to a radius; one of very
// many turns is drawn with fewer.
func roll(ring *[]svg.Point, radius, thickness float64) {
	const most = 30
	turns := min(radius/thickness, most)
	steps := int(math.Ceil(turns * 36))
	for i := range steps + 1 {
		part := float64(i) / float64(steps)
		a, r := 2*math.Pi*turns*part, radius*part
		*ring = append(*ring, svg.Point{X: radius + float64(r*math.Cos(a)), Y: radius + float64(r*math.Sin(a))})
	}
}
