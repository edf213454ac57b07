package main

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// group is a code and its value, of which a DXF file is a list.
type group struct {
	code  int
	value string
}

func groupsOf(text []byte) ([]group, error) {
	if bytes.IndexByte(text, 0) >= 0 {
		return nil, refuseDrawing("it is a binary DXF; save it as text (ASCII)")
	}
	lines := strings.Split(strings.ReplaceAll(string(text), "\r\n", "\n"), "\n")
	var out []group
	for i := 0; i+1 < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		if err != nil {
			if strings.TrimSpace(strings.Join(lines[i:], "")) == "" {
				break
			}
			return nil, refuseDrawing("it is no DXF: line %d is no group code", i+1)
		}
		out = append(out, group{code, strings.TrimSpace(lines[i+1])})
	}
	return out, nil
}

// units of the header variable $INSUNITS.
var units = map[string]unit.Length{"1": unit.Inch, "2": unit.Foot, "4": unit.Millimetre, "5": unit.Centimetre, "6": unit.Metre}

// vertex is a corner of a polyline, and the bulge of the piece from it on: the
// tangent of a quarter of the angle of an arc that turns left.
type vertex struct{ x, y, bulge float64 }

// polyline is a line being read.
type polyline struct {
	layer  string
	light  bool // of the kind whose corners stand in it, each begun by its x
	closed bool
	at     []vertex
}

// dxf reads the closed polylines of a DXF drawing, of the old kind and the light.
func (d drawing) dxf(text []byte) (rings []ring, left int, err error) {
	groups, err := groupsOf(text)
	if err != nil {
		return nil, 0, err
	}
	user := d.unit
	for i, g := range groups {
		if user == 0 && g == (group{9, "$INSUNITS"}) && i+1 < len(groups) {
			user = units[groups[i+1].value]
		}
	}
	var now *polyline
	end := func() error {
		if now == nil {
			return nil
		}
		p := *now
		now = nil
		if d.layer != "" && p.layer != d.layer {
			return nil
		}
		r, ok, err := p.ring(user)
		switch {
		case err != nil:
			return err
		case !ok:
			left++
		default:
			rings = append(rings, r)
		}
		return nil
	}
	vertices, drawn := false, false // the groups are those of a vertex; of the drawing itself
	for i, g := range groups {
		if g.code == 2 && i > 0 && groups[i-1] == (group{0, "SECTION"}) {
			drawn = g.value == "ENTITIES"
		}
		if !drawn {
			continue
		}
		if g.code == 0 {
			vertices = false
			switch g.value {
			case "VERTEX":
				if now != nil {
					now.at = append(now.at, vertex{})
					vertices = true
				}
				continue
			case "POLYLINE", "LWPOLYLINE":
				if err := end(); err != nil {
					return nil, 0, err
				}
				now = &polyline{light: g.value == "LWPOLYLINE"}
				vertices = now.light
				continue
			case "INSERT":
				return nil, 0, refuseDrawing("it repeats blocks; have the drawing program break them up")
			case "LINE", "ARC", "SPLINE", "CIRCLE", "ELLIPSE":
				left++
			}
			if err := end(); err != nil {
				return nil, 0, err
			}
			continue
		}
		if now != nil {
			if err := now.take(g, vertices); err != nil {
				return nil, 0, err
			}
		}
	}
	if err := end(); err != nil {
		return nil, 0, err
	}
	if user == 0 && len(rings) > 0 {
		return nil, 0, errUnit
	}
	return rings, left, nil
}

var errUnit = refuseDrawing("it does not say its unit; give -unit, such as -unit 1mm")

// take reads a group of a polyline or, in vertices, of one of its corners.
func (p *polyline) take(g group, vertices bool) error {
	number := func() (float64, error) {
		v, err := strconv.ParseFloat(g.value, 64)
		if err != nil || math.IsNaN(v) || math.Abs(v) > 1e9 {
			return 0, refuseDrawing("%q is no number", g.value)
		}
		return v, nil
	}
	n := len(p.at)
	switch {
	case g.code == 8 && p.layer == "":
		p.layer = g.value
	case g.code == 70 && (p.light || !vertices):
		flags, err := strconv.Atoi(g.value)
		if err != nil {
			return refuseDrawing("%q are no flags of a line", g.value)
		}
		p.closed = flags&1 != 0
	case vertices && (g.code == 10 || g.code == 20 || g.code == 42):
		v, err := number()
		if err != nil {
			return err
		}
		if p.light && g.code == 10 {
			p.at = append(p.at, vertex{})
			n++
		}
		if n == 0 {
			return refuseDrawing("a line begins without an x")
		}
		switch g.code {
		case 10:
			p.at[n-1].x = v
		case 20:
			p.at[n-1].y = v
		default:
			p.at[n-1].bulge = v
		}
	}
	return nil
}

// ring makes the outline; not ok when the line is open.
func (p polyline) ring(user unit.Length) (r ring, ok bool, err error) {
	if n := len(p.at); n > 2 && math.Hypot(p.at[0].x-p.at[n-1].x, p.at[0].y-p.at[n-1].y) < 1e-6 {
		p.closed, p.at = true, p.at[:n-1]
	}
	if !p.closed || len(p.at) < 2 {
		return r, false, nil
	}
	if user == 0 {
		return r, false, errUnit
	}
	place := func(v vertex) shape.Point {
		most := float64(100 * unit.Metre)
		to := func(x float64) unit.Length { return unit.Length(math.Round(min(max(x*float64(user), -most), most))) }
		return shape.Point{X: to(v.x), Y: to(v.y)}
	}
	t := shape.TraceFrom(place(p.at[0]))
	for i, v := range p.at {
		next := p.at[(i+1)%len(p.at)]
		t.Edge(fmt.Sprintf("side %d", i+1))
		if v.bulge == 0 {
			t.Line(place(next))
			continue
		}
		// An arc rises by half the chord times its bulge, to the right where it turns
		// left.
		t.Arc(place(next), unit.Length(math.Round(v.bulge*math.Hypot(next.x-v.x, next.y-v.y)/2*float64(user))))
	}
	o, err := t.Close()
	if err != nil {
		return r, false, fmt.Errorf("%w: %w", errDrawing, err)
	}
	low, high := o.Bounds()
	return ring{o, float64(low.X), float64(low.Y), float64(high.X), float64(high.Y)}, true, nil
}
