package foam

import (
	"fmt"
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// NamedCurve is a curve with the name it is drawn under.
type NamedCurve struct {
	Name  string `json:"name"`
	Curve Curve  `json:"curve"`
}

// curveInks are the line colours and dashes of the curves, in order; the dashes
// tell them apart in print.
var curveInks = []struct{ colour, dash string }{
	{"#1b4f72", ""}, {"#943126", "6 3"}, {"#1e8449", "2 3"}, {"#7d6608", "8 3 2 3"}, {"#4a235a", "1 4"}, {"#424949", "10 4"},
}

// The page of a curve drawing in user units: a frame with room for axis labels
// on the left and below and a legend on the right.
const (
	pageWidth, pageHeight = 640.0, 400.0
	plotLeft, plotTop     = 70.0, 30.0
	plotWidth, plotHeight = 380.0, 310.0
)

// DrawCurves draws one to six load-deflection curves as SVG: force on the test
// plate in lbf against depth in per cent, with the two test points of each
// curve marked. The curves end at 65 %, where they stop holding. The same
// curves give the same bytes.
func DrawCurves(curves ...NamedCurve) (string, error) {
	if len(curves) == 0 {
		return "", check.Required("curves", "at least one curve")
	}
	if err := check.Count("curves", len(curves), 1, len(curveInks)); err != nil {
		return "", err
	}
	var highest float64
	for i, c := range curves {
		if err := c.Curve.Check(); err != nil {
			return "", unit.InField(fmt.Sprintf("curves[%d]", i), err)
		}
		highest = max(highest, c.Curve.IFD65.PoundsForce())
	}
	step := axisStep(highest)
	top := step * math.Ceil(highest/step)
	d := svg.New(pageWidth, pageHeight, "Load-deflection curves")
	at := func(strain, lbf float64) svg.Point {
		// Products are rounded before they are added, for the same bytes on
		// machines that would fuse the two.
		return svg.Point{X: plotLeft + float64(strain/0.7*plotWidth), Y: plotTop + plotHeight - float64(lbf/top*plotHeight)}
	}
	font := svg.Attr{Name: "font-family", Value: "sans-serif"}
	size := svg.Attr{Name: "font-size", Value: "12"}
	grid := []svg.Attr{{Name: "stroke", Value: "#ccc"}, {Name: "stroke-width", Value: "0.5"}}
	d.Rect(svg.Point{}, pageWidth, pageHeight, svg.Attr{Name: "fill", Value: "#fff"})
	for k := range 8 {
		e := float64(k) / 10
		d.Line(at(e, 0), at(e, top), grid...)
		p := at(e, 0)
		d.Text(svg.Point{X: p.X, Y: p.Y + 16}, fmt.Sprintf("%d", 10*k), font, size, svg.Attr{Name: "text-anchor", Value: "middle"})
	}
	for k := 0; float64(k)*step <= top; k++ {
		f := float64(k) * step
		d.Line(at(0, f), at(0.7, f), grid...)
		p := at(0, f)
		d.Text(svg.Point{X: p.X - 6, Y: p.Y + 4}, svg.Number(f), font, size, svg.Attr{Name: "text-anchor", Value: "end"})
	}
	d.Text(svg.Point{X: plotLeft + plotWidth/2, Y: pageHeight - 22}, "pressed in, % of thickness; the curves hold to 65 %", font, size,
		svg.Attr{Name: "text-anchor", Value: "middle"})
	d.Text(svg.Point{X: plotLeft - 50, Y: plotTop - 12}, "lbf on 50 in²", font, size)
	for i, c := range curves {
		ink := []svg.Attr{{Name: "fill", Value: "none"}, {Name: "stroke", Value: curveInks[i].colour}, {Name: "stroke-width", Value: "1.5"}}
		if curveInks[i].dash != "" {
			ink = append(ink, svg.Attr{Name: "stroke-dasharray", Value: curveInks[i].dash})
		}
		var points []svg.Point
		for k := range 66 {
			e := float64(k) / 100
			points = append(points, at(e, c.Curve.force(e)/float64(unit.PoundForce)))
		}
		d.Polyline(points, ink...)
		dot := svg.Attr{Name: "fill", Value: curveInks[i].colour}
		d.Circle(at(shallow, c.Curve.IFD25.PoundsForce()), 3, dot)
		d.Circle(at(deep, c.Curve.IFD65.PoundsForce()), 3, dot)
		y := plotTop + 10 + float64(20*i)
		x := plotLeft + plotWidth + 14
		d.Polyline([]svg.Point{{X: x, Y: y}, {X: x + 24, Y: y}}, ink...)
		d.Text(svg.Point{X: x + 30, Y: y + 4}, c.Name, font, size)
	}
	return d.String(), nil
}

// axisStep gives a round step that makes four to ten divisions.
func axisStep(highest float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(highest/4)))
	for _, m := range []float64{1, 2, 5} {
		if highest/(m*p) <= 10 {
			return m * p
		}
	}
	return 10 * p
}
