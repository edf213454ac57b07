package main

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// dxfWriter writes group codes and values, the two lines that make up every
// entry of a drawing exchange file.
type dxfWriter struct{ b strings.Builder }

func (d *dxfWriter) put(code int, value string) {
	fmt.Fprintf(&d.b, "%3d\r\n%s\r\n", code, value)
}

// mm writes a coordinate in millimetres, to the micrometre.
func (d *dxfWriter) mm(code int, l unit.Length) {
	d.put(code, strconv.FormatFloat(l.Millimetres(), 'f', 3, 64))
}

// text writes what a drawing file may hold: ASCII, anything else as the escape
// that later readers know.
func (d *dxfWriter) text(code int, s string) {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r < ' ' || r == 0x7f:
			b.WriteByte(' ')
		case r < 0x7f:
			b.WriteRune(r)
		case r <= 0xffff:
			fmt.Fprintf(&b, `\U+%04X`, r)
		default:
			b.WriteByte('?')
		}
	}
	d.put(code, b.String())
}

// patternDXF writes one piece as DXF R12 (AC1009) in millimetres: closed
// POLYLINE entities for the cut, trim and seam lines, open ones for notches and
// the grain, each kind on a layer with its name.
func (s *sheet) patternDXF(p pattern) string {
	var d dxfWriter
	low, high := p.bounds()
	d.put(999, "millimetres; x across the goods, y along the grain")
	d.put(0, "SECTION")
	d.put(2, "HEADER")
	d.put(9, "$ACADVER")
	d.put(1, "AC1009")
	d.corner("$EXTMIN", shape.Point{})
	d.corner("$EXTMAX", shape.Point{X: high.X - low.X, Y: high.Y - low.Y})
	d.put(0, "ENDSEC")

	d.put(0, "SECTION")
	d.put(2, "TABLES")
	d.put(0, "TABLE")
	d.put(2, "LTYPE")
	d.put(70, "3")
	d.lineType("CONTINUOUS", "whole line")
	d.lineType("DASHED", "seam", 3, -1.5)
	d.lineType("DASHDOT", "trim", 6, -1.5, 1, -1.5)
	d.put(0, "ENDTAB")
	d.put(0, "TABLE")
	d.put(2, "LAYER")
	layers := []struct {
		name, line string
		colour     int
	}{{"CUT", "CONTINUOUS", 7}, {"TRIM", "DASHDOT", 3}, {"SEAM", "DASHED", 5}, {"NOTCH", "CONTINUOUS", 1}, {"BUTTON", "CONTINUOUS", 6}, {"GRAIN", "CONTINUOUS", 2}, {"TEXT", "CONTINUOUS", 7}}
	d.put(70, strconv.Itoa(len(layers)))
	for _, l := range layers {
		d.put(0, "LAYER")
		d.put(2, l.name)
		d.put(70, "0")
		d.put(62, strconv.Itoa(l.colour))
		d.put(6, l.line)
	}
	d.put(0, "ENDTAB")
	d.put(0, "ENDSEC")

	d.put(0, "SECTION")
	d.put(2, "ENTITIES")
	for _, l := range p.lines() {
		layer := strings.ToUpper(l.kind.name)
		d.put(0, "POLYLINE")
		d.put(8, layer)
		d.put(66, "1")
		d.corner("", shape.Point{})
		closed := "0"
		if l.closed {
			closed = "1"
		}
		d.put(70, closed)
		for _, q := range l.points {
			d.put(0, "VERTEX")
			d.put(8, layer)
			d.corner("", shape.Point{X: q.X - low.X, Y: q.Y - low.Y})
		}
		d.put(0, "SEQEND")
		d.put(8, layer)
	}
	place, room := p.clear(low, high)
	texts := s.patternTexts(p)
	high8 := min(8*unit.Millimetre, room/2)
	for i, t := range texts {
		d.put(0, "TEXT")
		d.put(8, "TEXT")
		d.corner("", shape.Point{X: place.X - low.X - room/2, Y: place.Y - low.Y - unit.Length(i)*high8*3/2})
		d.mm(40, high8)
		d.text(1, t)
	}
	d.put(0, "ENDSEC")
	d.put(0, "EOF")
	return d.b.String()
}

// corner writes a point, after the name of the header variable it is for.
func (d *dxfWriter) corner(variable string, p shape.Point) {
	if variable != "" {
		d.put(9, variable)
	}
	d.mm(10, p.X)
	d.mm(20, p.Y)
	d.mm(30, 0)
}

func (d *dxfWriter) lineType(name, about string, dashes ...float64) {
	d.put(0, "LTYPE")
	d.put(2, name)
	d.put(70, "0")
	d.put(3, about)
	d.put(72, "65")
	d.put(73, strconv.Itoa(len(dashes)))
	var sum float64
	for _, x := range dashes {
		sum += max(x, -x)
	}
	d.put(40, strconv.FormatFloat(sum, 'f', 3, 64))
	for _, x := range dashes {
		d.put(49, strconv.FormatFloat(x, 'f', 3, 64))
	}
}
