// Package svg writes small drawings as SVG 1.1. The same calls give the same
// bytes: numbers have two decimals, attributes keep their order, text is
// escaped.
package svg

import (
	"math"
	"strconv"
	"strings"
)

// Point is a place on the page, x to the right and y down, in user units.
type Point struct{ X, Y float64 }

// Attr is one attribute of an element, such as {"stroke", "#000"}.
type Attr struct{ Name, Value string }

// Drawing collects elements. Start one with New.
type Drawing struct {
	body          strings.Builder
	width, height float64
	title         string
}

// New starts a drawing of the given size. The title is read out by screen
// readers.
func New(width, height float64, title string) *Drawing {
	return &Drawing{width: width, height: height, title: title}
}

// Number writes a number with two decimals and without a negative zero. What is
// not finite, or beyond a million million, is written as 0.
func Number(x float64) string {
	const most = 1e12
	if math.IsNaN(x) || math.Abs(x) > most {
		x = 0
	}
	s := strconv.FormatFloat(x, 'f', 2, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" || s == "" {
		return "0"
	}
	return s
}

// Escape makes text safe inside elements and attributes; what XML cannot hold
// is replaced.
func Escape(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '"':
			b.WriteString("&quot;")
		case r == '\'':
			b.WriteString("&#39;")
		case r < ' ' && r != '\t' && r != '\n', r == 0x7f, r == 0xfffe, r == 0xffff:
			b.WriteRune('\ufffd')
		default:
			b.WriteRune(r) // invalid bytes come out of the range as U+FFFD
		}
	}
	return b.String()
}

func (d *Drawing) element(name string, attrs []Attr, more []Attr, text string) {
	d.body.WriteString("<" + name)
	for _, a := range append(append([]Attr{}, attrs...), more...) {
		d.body.WriteString(" " + Escape(a.Name) + `="` + Escape(a.Value) + `"`)
	}
	if text == "" {
		d.body.WriteString("/>\n")
		return
	}
	d.body.WriteString(">" + Escape(text) + "</" + name + ">\n")
}

// Line draws a straight line.
func (d *Drawing) Line(a, b Point, attrs ...Attr) {
	d.element("line", []Attr{{"x1", Number(a.X)}, {"y1", Number(a.Y)}, {"x2", Number(b.X)}, {"y2", Number(b.Y)}}, attrs, "")
}

// Polyline draws a line through points; with fewer than two it draws nothing.
func (d *Drawing) Polyline(points []Point, attrs ...Attr) {
	if len(points) < 2 {
		return
	}
	d.element("polyline", []Attr{{"points", list(points)}}, attrs, "")
}

// Polygon draws a closed outline; with fewer than three points it draws
// nothing.
func (d *Drawing) Polygon(points []Point, attrs ...Attr) {
	if len(points) < 3 {
		return
	}
	d.element("polygon", []Attr{{"points", list(points)}}, attrs, "")
}

// Rect draws a rectangle from its upper left corner.
func (d *Drawing) Rect(at Point, width, height float64, attrs ...Attr) {
	d.element("rect", []Attr{{"x", Number(at.X)}, {"y", Number(at.Y)}, {"width", Number(width)}, {"height", Number(height)}}, attrs, "")
}

// Circle draws a circle.
func (d *Drawing) Circle(at Point, radius float64, attrs ...Attr) {
	d.element("circle", []Attr{{"cx", Number(at.X)}, {"cy", Number(at.Y)}, {"r", Number(radius)}}, attrs, "")
}

// Text writes one line of text; an empty text writes nothing.
func (d *Drawing) Text(at Point, text string, attrs ...Attr) {
	if text == "" {
		return
	}
	d.element("text", []Attr{{"x", Number(at.X)}, {"y", Number(at.Y)}}, attrs, text)
}

func list(points []Point) string {
	parts := make([]string, len(points))
	for i, p := range points {
		parts[i] = Number(p.X) + "," + Number(p.Y)
	}
	return strings.Join(parts, " ")
}

// String gives the whole document.
func (d *Drawing) String() string {
	w, h := Number(d.width), Number(d.height)
	s := `<svg xmlns="http://www.w3.org/2000/svg" width="` + w + `" height="` + h + `" viewBox="0 0 ` + w + " " + h + `" role="img">` + "\n"
	if d.title != "" {
		s += "<title>" + Escape(d.title) + "</title>\n"
	}
	return s + d.body.String() + "</svg>\n"
}
