// Package svg writes small drawings as SVG 1.1. The same calls give the same
// bytes: numbers have two decimals (six in drawings in millimetres), attributes
// keep their order, text is escaped.
package svg

import (
	"math"
	"slices"
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
	unit          string // of width and height; none for pixels
	places        int
	open          []string // elements not ended yet
}

// New starts a drawing of the given size. The title is read out by screen
// readers.
func New(width, height float64, title string) *Drawing {
	return &Drawing{width: width, height: height, title: title, places: 2}
}

// NewMillimetres starts a drawing in true size: width and height are in
// millimetres, and so is every coordinate, to the nanometre.
func NewMillimetres(width, height float64, title string) *Drawing {
	return &Drawing{width: width, height: height, title: title, unit: "mm", places: 6}
}

// Number writes a number with two decimals and without a negative zero. What is
// not finite, or beyond a million million, is written as 0.
func Number(x float64) string { return number(x, 2) }

func number(x float64, places int) string {
	const most = 1e12
	if math.IsNaN(x) || math.Abs(x) > most {
		x = 0
	}
	s := strconv.FormatFloat(x, 'f', places, 64)
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

// number writes a coordinate as exactly as the drawing asks for.
func (d *Drawing) number(x float64) string { return number(x, d.places) }

// Group begins a group whose elements share attributes; it lasts until End.
func (d *Drawing) Group(attrs ...Attr) { d.begin("g", attrs) }

// Clip begins a clipping path, which elements name as clip-path; what is drawn
// until End bounds what is seen of them.
func (d *Drawing) Clip(id string) { d.begin("clipPath", Attrs("id", id)) }

// Tile begins a tile of a given size that areas are filled with, the first one
// with its upper left corner at the origin. What is drawn until End is on it.
func (d *Drawing) Tile(id string, width, height float64) {
	d.begin("pattern", Attrs("id", id, "patternUnits", "userSpaceOnUse", "width", d.number(width), "height", d.number(height)))
}

func (d *Drawing) begin(name string, attrs []Attr) {
	d.body.WriteString("<" + name)
	for _, a := range attrs {
		d.body.WriteString(" " + Escape(a.Name) + `="` + Escape(a.Value) + `"`)
	}
	d.body.WriteString(">\n")
	d.open = append(d.open, name)
}

// End ends the last group, clipping path or tile begun; without one it does
// nothing.
func (d *Drawing) End() {
	if n := len(d.open); n > 0 {
		d.body.WriteString("</" + d.open[n-1] + ">\n")
		d.open = d.open[:n-1]
	}
}

// Image draws a picture, stretched to a size, from its upper left corner.
func (d *Drawing) Image(at Point, width, height float64, data string) {
	d.element("image", []Attr{{"x", d.number(at.X)}, {"y", d.number(at.Y)}, {"width", d.number(width)}, {"height", d.number(height)}, {"preserveAspectRatio", "none"}, {"href", data}}, nil, "")
}

// Area draws closed outlines as one shape, such as a contour and its holes,
// which must run the other way round. Outlines of fewer than three points are
// left out.
func (d *Drawing) Area(outlines [][]Point, attrs ...Attr) {
	var path strings.Builder
	for _, o := range outlines {
		for i, p := range o {
			switch {
			case len(o) < 3:
			case i == 0:
				path.WriteString("M" + d.number(p.X) + "," + d.number(p.Y))
			default:
				path.WriteString(" " + d.number(p.X) + "," + d.number(p.Y))
			}
		}
		if len(o) >= 3 {
			path.WriteString("Z")
		}
	}
	if path.Len() > 0 {
		d.element("path", []Attr{{"d", path.String()}}, attrs, "")
	}
}

// Line draws a straight line.
func (d *Drawing) Line(a, b Point, attrs ...Attr) {
	d.element("line", []Attr{{"x1", d.number(a.X)}, {"y1", d.number(a.Y)}, {"x2", d.number(b.X)}, {"y2", d.number(b.Y)}}, attrs, "")
}

// Polyline draws a line through points; with fewer than two it draws nothing.
func (d *Drawing) Polyline(points []Point, attrs ...Attr) {
	if len(points) < 2 {
		return
	}
	d.element("polyline", []Attr{{"points", d.list(points)}}, attrs, "")
}

// Polygon draws a closed outline; with fewer than three points it draws
// nothing.
func (d *Drawing) Polygon(points []Point, attrs ...Attr) {
	if len(points) < 3 {
		return
	}
	d.element("polygon", []Attr{{"points", d.list(points)}}, attrs, "")
}

// Rect draws a rectangle from its upper left corner.
func (d *Drawing) Rect(at Point, width, height float64, attrs ...Attr) {
	d.element("rect", []Attr{{"x", d.number(at.X)}, {"y", d.number(at.Y)}, {"width", d.number(width)}, {"height", d.number(height)}}, attrs, "")
}

// Circle draws a circle.
func (d *Drawing) Circle(at Point, radius float64, attrs ...Attr) {
	d.element("circle", []Attr{{"cx", d.number(at.X)}, {"cy", d.number(at.Y)}, {"r", d.number(radius)}}, attrs, "")
}

// Text writes one line of text; an empty text writes nothing.
func (d *Drawing) Text(at Point, text string, attrs ...Attr) {
	if text == "" {
		return
	}
	d.element("text", []Attr{{"x", d.number(at.X)}, {"y", d.number(at.Y)}}, attrs, text)
}

// Append draws what another drawing of the same kind holds, and ends what it left
// open.
func (d *Drawing) Append(other *Drawing) {
	for len(other.open) > 0 {
		other.End()
	}
	d.body.WriteString(other.body.String())
}

func (d *Drawing) list(points []Point) string {
	parts := make([]string, len(points))
	for i, p := range points {
		parts[i] = d.number(p.X) + "," + d.number(p.Y)
	}
	return strings.Join(parts, " ")
}

// String gives the whole document; what is still open is ended.
func (d *Drawing) String() string {
	w, h := d.number(d.width), d.number(d.height)
	s := `<svg xmlns="http://www.w3.org/2000/svg" width="` + w + d.unit + `" height="` + h + d.unit + `" viewBox="0 0 ` + w + " " + h + `" role="img">` + "\n"
	if d.title != "" {
		s += "<title>" + Escape(d.title) + "</title>\n"
	}
	s += d.body.String()
	for _, name := range slices.Backward(d.open) {
		s += "</" + name + ">\n"
	}
	return s + "</svg>\n"
}
