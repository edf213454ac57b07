package main

import (
	"fmt"
	"math"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// foamDrawing shows how the foam that is asked for gives way: force on the test
// plate against depth, up to 65 %, with the two test points, and where the
// sitter comes to rest.
func (s *sheet) foamDrawing(f job.FoamBlock) (string, error) {
	target := f.Selection.Target
	curve := foam.Curve{IFD25: target, IFD65: foam.IFD65(float64(target) * float64(foam.CautiousSupport))}
	if err := curve.Check(); err != nil {
		return "", err
	}
	const left, right, top, bottom, wide, high = 40.0, 14.0, 22.0, 34.0, panelWide, 176.0
	force := func(n unit.Force) float64 {
		if s.metric {
			return float64(n)
		}
		return n.PoundsForce()
	}
	name := "lbf"
	if s.metric {
		name = "N"
	}
	highest := force(unit.Force(curve.IFD65))
	step := roundStep(highest / 5)
	most := step * math.Ceil(highest*1.02/step)
	d := svg.New(wide, high, fmt.Sprintf("Load and deflection of the foam for %s: %s", f.Piece, f.Name()))
	at := func(strain, load float64) svg.Point {
		return svg.Point{X: left + float64(strain/0.7*(wide-left-right)), Y: high - bottom - float64(load/most*(high-top-bottom))}
	}
	grid := svg.Attrs("stroke", "#bbb", "stroke-width", "0.6")
	for k := range 8 {
		e := float64(k) / 10
		d.Line(at(e, 0), at(e, most), grid...)
		d.Write(svg.Point{X: at(e, 0).X, Y: high - bottom + 13}, 10, "middle", fmt.Sprintf("%d %%", 10*k))
	}
	for k := 0; float64(k)*step <= most+step/2; k++ {
		p := at(0, float64(k)*step)
		d.Line(p, at(0.7, float64(k)*step), grid...)
		d.Write(svg.Point{X: p.X - 5, Y: p.Y + 3.5}, 10, "end", svg.Number(float64(k)*step))
	}
	d.Write(svg.Point{X: 4, Y: 12}, 10, "start", name+" on the 50 in² plate of the test")
	d.Write(svg.Point{X: (left + wide - right) / 2, Y: high - 6}, 10, "middle", "pressed in, share of the thickness")
	var points []svg.Point
	for k := range 66 {
		e := float64(k) / 100
		n, err := curve.Force(unit.Ratio(e))
		if err != nil {
			return "", err
		}
		points = append(points, at(e, force(n)))
	}
	d.Polyline(points, svg.Attrs("fill", "none", "stroke", "#000", "stroke-width", "1.8")...)
	for _, q := range []struct {
		e float64
		n unit.Force
	}{{0.25, unit.Force(curve.IFD25)}, {0.65, unit.Force(curve.IFD65)}} {
		p := at(q.e, force(q.n))
		d.Circle(p, 3.5, svg.Attrs("fill", "#000")...)
		d.Halo(svg.Point{X: p.X - 6, Y: p.Y - 6}, 10, "end", fmt.Sprintf("%.0f", force(q.n)))
	}
	if t := f.Sitting(); f.Stack == nil && t != nil && !t.Pressed.Bottomed {
		e := float64(t.Pressed.Strain)
		if n, err := curve.Force(unit.Ratio(e)); err == nil {
			p := at(e, force(n))
			d.Line(p, at(e, 0), svg.Attrs("stroke", "#000", "stroke-width", "1", "stroke-dasharray", "3 2")...)
			d.Circle(p, 4, svg.Attrs("fill", "#fff", "stroke", "#000", "stroke-width", "1.5")...)
			d.Halo(svg.Point{X: p.X + 7, Y: p.Y + 13}, 10, "start", fmt.Sprintf("sitter, %.0f %%", 100*e))
		}
	}
	return d.String(), nil
}

// roundStep gives 1, 2 or 5 times a power of ten, not under x.
func roundStep(x float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []float64{1, 2, 5} {
		if m*p >= x {
			return m * p
		}
	}
	return 10 * p
}
