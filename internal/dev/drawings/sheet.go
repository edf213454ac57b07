package main

import (
	"fmt"
	"math"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// The page is as wide as a phone held upright, in user units; the text stays
// legible when the page is shown at three quarters of that.
const (
	pageWidth = 420.0
	margin    = 14.0
	textSize  = 13.0
	headSize  = 16.0
)

// Styles: black and greys only, lines told apart by dash and weight.
var (
	cutLine  = stroke("#000", 2, "")
	trimLine = stroke("#000", 1, "2 3")
	seamLine = stroke("#000", 1.2, "7 4")
	thin     = stroke("#000", 0.8, "")
	hair     = stroke("#777", 0.8, "")
	thick    = stroke("#000", 3, "")
	zipLine  = stroke("#000", 5, "3 2")
)

const (
	cloth = "#e4e4e4" // fill of cloth
	paper = "#fff"
)

func stroke(colour string, width float64, dash string) []svg.Attr {
	a := []svg.Attr{{Name: "stroke", Value: colour}, {Name: "stroke-width", Value: svg.Number(width)}, {Name: "stroke-linejoin", Value: "round"}}
	if dash != "" {
		a = append(a, svg.Attr{Name: "stroke-dasharray", Value: dash})
	}
	return a
}

// filled adds a fill to a line style; "none" leaves the shape open.
func filled(line []svg.Attr, fill string) []svg.Attr {
	return append(append([]svg.Attr{}, line...), svg.Attr{Name: "fill", Value: fill})
}

// box is the place a text takes up, estimated from its length.
type box struct {
	left, top, right, bottom float64
	text                     string
}

// sheet is one page.
type sheet struct {
	*svg.Drawing
	height float64
	boxes  []box // of the texts, so that a test can tell whether they collide
}

func newSheet(height float64, title string) *sheet {
	s := &sheet{Drawing: svg.New(pageWidth, height, title), height: height}
	s.Rect(svg.Point{}, pageWidth, height, svg.Attr{Name: "fill", Value: paper})
	s.write(margin, 26, title, "start", headSize, "bold")
	return s
}

// write puts one line of text. anchor is start, middle or end.
func (s *sheet) write(x, y float64, text, anchor string, size float64, weight string) {
	attrs := []svg.Attr{{Name: "font-family", Value: "sans-serif"}, {Name: "font-size", Value: svg.Number(size)}}
	em := 0.58
	if weight != "" {
		attrs = append(attrs, svg.Attr{Name: "font-weight", Value: weight})
		em = 0.66
	}
	if anchor != "start" {
		attrs = append(attrs, svg.Attr{Name: "text-anchor", Value: anchor})
	}
	w := em * size * float64(len([]rune(text)))
	left := x
	switch anchor {
	case "middle":
		left -= w / 2
	case "end":
		left -= w
	}
	s.boxes = append(s.boxes, box{left, y - 0.78*size, left + w, y + 0.22*size, text})
	s.Text(place(x, y), text, attrs...)
}

func (s *sheet) left(x, y float64, text string)   { s.write(x, y, text, "start", textSize, "") }
func (s *sheet) middle(x, y float64, text string) { s.write(x, y, text, "middle", textSize, "") }
func (s *sheet) right(x, y float64, text string)  { s.write(x, y, text, "end", textSize, "") }
func (s *sheet) bold(x, y float64, text string)   { s.write(x, y, text, "start", textSize, "bold") }

// lines writes lines of text downwards from y and gives the y after them.
func (s *sheet) lines(x, y float64, texts ...string) float64 {
	for _, t := range texts {
		s.left(x, y, t)
		y += 18
	}
	return y
}

// given writes the inputs under the title.
func (s *sheet) given(texts ...string) float64 { return s.lines(margin, 48, texts...) }

// key is one entry of the legend.
type key struct {
	line []svg.Attr
	text string
}

// legend explains line styles from left to right.
func (s *sheet) legend(y float64, keys ...key) {
	x := margin
	for _, k := range keys {
		s.Line(place(x, y-4), place(x+30, y-4), k.line...)
		s.left(x+36, y, k.text)
		x += 36 + 0.58*textSize*float64(len(k.text)) + 14
	}
}

// across measures from x1 to x2 at height y, with the text above the line.
func (s *sheet) across(x1, x2, y float64, text string) {
	s.measure(place(x1, y), place(x2, y))
	s.middle((x1+x2)/2, y-5, text)
}

// under measures from x1 to x2 at height y, with the text under the line.
func (s *sheet) under(x1, x2, y float64, text string) {
	s.measure(place(x1, y), place(x2, y))
	s.middle((x1+x2)/2, y+15, text)
}

// upright measures from y1 to y2 at x, with the text to the right of the line.
func (s *sheet) upright(x, y1, y2 float64, text string) {
	s.measure(place(x, y1), place(x, y2))
	s.left(x+6, (y1+y2)/2+5, text)
}

// measure draws a line with a short tick across each end.
func (s *sheet) measure(a, b svg.Point) {
	s.Line(a, b, thin...)
	d := geom.Hypot(b.X-a.X, b.Y-a.Y)
	if d == 0 {
		return
	}
	ux, uy := (b.X-a.X)/d*4, (b.Y-a.Y)/d*4
	for _, p := range [2]svg.Point{a, b} {
		s.Line(place(p.X-uy, p.Y+ux), place(p.X+uy, p.Y-ux), thin...)
	}
}

// pointer draws a thin line from a text to what it speaks of, with a dot.
func (s *sheet) pointer(from, to svg.Point) {
	s.Line(from, to, thin...)
	s.Circle(to, 2, svg.Attr{Name: "fill", Value: "#000"})
}

// arrow draws a line with a head at b.
func (s *sheet) arrow(a, b svg.Point) {
	s.Line(a, b, stroke("#000", 1.4, "")...)
	d := geom.Hypot(b.X-a.X, b.Y-a.Y)
	if d == 0 {
		return
	}
	ux, uy := (b.X-a.X)/d, (b.Y-a.Y)/d
	s.Polygon([]svg.Point{b, place(b.X-9*ux-4*uy, b.Y-9*uy+4*ux), place(b.X-9*ux+4*uy, b.Y-9*uy-4*ux)}, svg.Attr{Name: "fill", Value: "#000"})
}

// place is a point of the page. It is brought to a millionth, so that the two
// decimals written do not hang on the last bit of a machine's arithmetic.
func place(x, y float64) svg.Point {
	return svg.Point{X: math.Round(x*1e6) / 1e6, Y: math.Round(y*1e6) / 1e6}
}

// view maps places on the cloth (y upwards) to the page.
type view struct {
	x, y  float64 // where the origin of the cloth lies
	scale float64 // user units to the inch
}

func (v view) at(x, y unit.Length) svg.Point {
	return place(v.x+float64(v.scale*x.Inches()), v.y-float64(v.scale*y.Inches()))
}

func (v view) point(p shape.Point) svg.Point { return v.at(p.X, p.Y) }

func (v view) points(ps []shape.Point) []svg.Point {
	out := make([]svg.Point, len(ps))
	for i, p := range ps {
		out[i] = v.point(p)
	}
	return out
}

// length gives the size of a length on the page.
func (v view) length(l unit.Length) float64 { return float64(v.scale * l.Inches()) }

// inch writes a length to the nearest sixteenth of an inch.
func inch(l unit.Length) string { return l.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest) }

// hundredths writes a length to the nearest hundredth of an inch.
func hundredths(l unit.Length) string { return l.Decimal(unit.Inch, 2, unit.Nearest) }

func squareInches(a unit.Area) string { return a.Decimal(unit.SquareInch, 1, unit.Nearest) }

func times(r unit.Ratio) string { return fmt.Sprintf("%.3g times", float64(r)) }
