// Command doc draws the pictures of package allowance: the three lines of a
// panel, the corners, steps and inward curves. It writes one SVG file for
// each into the folder given, or into the current one:
//
//	go run ./allowance/doc allowance/doc
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

func main() {
	dir := "."
	if len(os.Args) > 1 {
		dir = os.Args[1]
	}
	pictures, err := draw()
	if err == nil {
		for _, p := range pictures {
			if err = os.WriteFile(filepath.Join(dir, p.file), []byte(p.drawing), 0o644); err != nil { //nolint:gosec // drawings are for everyone to read
				break
			}
		}
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1) //nolint:forbidigo // this is a program
	}
}

// picture is one finished drawing.
type picture struct{ file, drawing string }

// panel is one panel on a picture, with the words under it.
type panel struct {
	words string
	panel allowance.Panel
}

func at(x, y float64) allowance.Point {
	in := func(v float64) unit.Length { return unit.Length(v * float64(unit.Inch)) }
	return allowance.Point{X: in(x), Y: in(y)}
}

// draw makes every picture.
func draw() ([]picture, error) {
	kite, err := allowance.TraceFrom(at(0, 0)).
		Edge("bottom").Line(at(6, 0)).
		Edge("right").Line(at(3, 7)).
		Edge("left").Close()
	if err != nil {
		return nil, err
	}
	crown, err := allowance.CrownedOutline(8*unit.Inch, 6*unit.Inch, 2*unit.Inch)
	if err != nil {
		return nil, err
	}
	parts, err := allowance.TraceFrom(at(0, 0)).
		Edge("seam").Line(at(4, 0)).
		Edge("pull").Line(at(8, 0)).
		Edge("right").Line(at(8, 5)).
		Edge("top").Line(at(0, 5)).
		Edge("left").Close()
	if err != nil {
		return nil, err
	}
	scoop := func(r float64) (allowance.Outline, error) {
		return allowance.TraceFrom(at(0, 0)).
			Edge("bottom").Line(at(8, 0)).
			Edge("right").Line(at(8, 5)).
			Edge("top right").Line(at(4+r, 5)).
			Edge("scoop").Arc(at(4-r, 5), -unit.Length(r*float64(unit.Inch))).
			Edge("top left").Line(at(0, 5)).
			Edge("left").Close()
	}
	wide, err := scoop(1.75)
	if err != nil {
		return nil, err
	}
	narrow, err := scoop(0.4)
	if err != nil {
		return nil, err
	}
	wing, err := allowance.StationOutline([]allowance.Station{
		allowance.CentredStation(0, 4*unit.Inch),
		allowance.CentredStation(3*unit.Inch, 7*unit.Inch),
		allowance.CentredStation(5*unit.Inch, 6*unit.Inch),
		allowance.CentredStation(8*unit.Inch, 3*unit.Inch),
	}, true)
	if err != nil {
		return nil, err
	}
	seam := allowance.Edge{}
	pull := allowance.Edge{Finish: allowance.PullOver, Allowance: allowance.Exactly(3 * unit.Inch / 2)}
	raw := allowance.Edge{Finish: allowance.Raw}
	corner := func(c allowance.Corner) panel {
		return panel{c.String(), allowance.Panel{Outline: kite, Corner: c, AllEdges: allowance.Edge{Allowance: allowance.Exactly(unit.Inch)}}}
	}
	var out []picture
	for _, p := range []struct {
		file, title string
		panels      []panel
	}{
		{"lines.svg", "Seam line, trim line and cut line", []panel{{"seam line, trim line (dashed), cut line", allowance.Panel{
			Outline:  crown,
			AllEdges: allowance.Edge{Finish: allowance.PullOver, Handling: unit.Inch},
			Edges:    map[string]allowance.Edge{"bottom": {Finish: allowance.WeltedSeam}},
			Notches:  []allowance.Notch{{Edge: "bottom", At: 4 * unit.Inch}, {Edge: "right", At: 3 * unit.Inch}},
		}}}},
		{"corners.svg", "Four ways round a corner", []panel{
			corner(allowance.MitredCorner), corner(allowance.SquareCorner), corner(allowance.ClippedCorner), corner(allowance.RoundCorner),
		}},
		{"steps.svg", "Neighbouring edges with different allowances", []panel{
			{"a step in a straight run", allowance.Panel{Outline: parts, AllEdges: raw, Edges: map[string]allowance.Edge{"seam": seam, "pull": pull}}},
			{"at a corner the lines meet", allowance.Panel{Outline: parts, AllEdges: seam, Edges: map[string]allowance.Edge{"right": pull}}},
		}},
		{"inward.svg", "Curves bent inwards", []panel{
			{"wider than the seam", allowance.Panel{Outline: wide, AllEdges: seam}},
			{"tighter: the strip closes", allowance.Panel{Outline: narrow, AllEdges: seam}},
		}},
		{"stations.svg", "Widths measured at stations", []panel{{"a curve through the measured widths", allowance.Panel{Outline: wing, AllEdges: seam}}}},
	} {
		d, err := sheet(p.title, p.panels)
		if err != nil {
			return nil, err
		}
		out = append(out, picture{p.file, d})
	}
	return out, nil
}

// scale is user units to the inch.
const scale = 16

// sheet draws panels side by side.
func sheet(title string, panels []panel) (string, error) {
	const gap, foot = 20, 30
	var cuts []allowance.PanelCut
	width, height := float64(gap), 0.0
	for _, p := range panels {
		c, err := p.panel.Cut()
		if err != nil {
			return "", err
		}
		cuts = append(cuts, c)
		width += max(c.Width.Inches()*scale, 7*float64(len(p.words))) + gap
		height = max(height, c.Height.Inches()*scale)
	}
	d := svg.New(width, height+2*gap+foot, title)
	x := float64(gap)
	for i, c := range cuts {
		low := corner(c.CutLine.Outer)
		page := func(p allowance.Point) svg.Point {
			return svg.Point{X: x + (p.X-low.X).Inches()*scale, Y: gap + height - (p.Y-low.Y).Inches()*scale}
		}
		line := func(ps []allowance.Point, attrs ...svg.Attr) {
			var q []svg.Point
			for _, p := range ps {
				q = append(q, page(p))
			}
			d.Polygon(q, attrs...)
		}
		ink := func(name, value string) svg.Attr { return svg.Attr{Name: name, Value: value} }
		line(c.CutLine.Outer, ink("fill", "#f3eee6"), ink("stroke", "#222"), ink("stroke-width", "1.5"))
		line(c.TrimLine.Outer, ink("fill", "none"), ink("stroke", "#222"), ink("stroke-width", "0.75"), ink("stroke-dasharray", "6 3"))
		line(c.SeamLine.Outer, ink("fill", "none"), ink("stroke", "#a33"), ink("stroke-width", "1"))
		for _, n := range c.Notches {
			d.Line(page(n.Cut), page(n.Seam), ink("stroke", "#222"), ink("stroke-width", "1.5"))
		}
		foot, head := page(c.Grain.Foot), page(c.Grain.Head)
		d.Line(foot, head, ink("stroke", "#777"), ink("stroke-width", "1"))
		d.Polyline([]svg.Point{{X: head.X - 4, Y: head.Y + 8}, head, {X: head.X + 4, Y: head.Y + 8}}, ink("fill", "none"), ink("stroke", "#777"), ink("stroke-width", "1"))
		d.Text(svg.Point{X: x, Y: height + 2*gap + 10}, panels[i].words, ink("font-size", "13"), ink("font-family", "sans-serif"))
		x += max(c.Width.Inches()*scale, 7*float64(len(panels[i].words))) + gap
	}
	return d.String(), nil
}

// corner gives the lower left corner of the box around points.
func corner(ps []allowance.Point) allowance.Point {
	low := ps[0]
	for _, p := range ps {
		low.X, low.Y = min(low.X, p.X), min(low.Y, p.Y)
	}
	return low
}
