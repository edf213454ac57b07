package pattern

import (
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// svgMargin is the white round a pattern.
const svgMargin = 5 * unit.Millimetre

// SVG draws the piece full size: one user unit is a millimetre, and width and
// height are given in millimetres. Each kind of line is a group with the name of
// its layer as id, and its elements have the kind as class. Errors are those of
// Check, and units that are none.
func (p Pattern) SVG(u Units) (string, error) {
	if err := p.ready(u); err != nil {
		return "", err
	}
	b := p.Bounds()
	d := svg.NewMillimetres((b.High.X - b.Low.X + 2*svgMargin).Millimetres(), (b.High.Y - b.Low.Y + 2*svgMargin).Millimetres(), p.title())
	at := func(q shape.Point) svg.Point {
		return svg.Point{X: (svgMargin + q.X - b.Low.X).Millimetres(), Y: (svgMargin + b.High.Y - q.Y).Millimetres()}
	}
	for k, group := range byKind(p.Lines()) {
		if len(group) == 0 {
			continue
		}
		d.Group(svg.Attr{Name: "id", Value: layer(Kind(k))})
		drawLines(d, group, at, 1, "none")
		d.End()
	}
	lettering := p.Lettering()
	if len(lettering) > 0 {
		d.Group(svg.Attr{Name: "id", Value: labelLayer})
		for _, l := range lettering {
			c, size := at(l.At), l.Size.Millimetres()
			turn := "rotate(" + svg.Number(-float64(l.Turn)) + " " + svg.Number(c.X) + " " + svg.Number(c.Y) + ")"
			d.Write(svg.Point{X: c.X, Y: c.Y + float64(0.35*size)}, size, "middle", l.Text, svg.Attr{Name: "transform", Value: turn})
		}
		d.End()
	}
	d.Group(svg.Attr{Name: "id", Value: textLayer})
	place, room := p.Room(b, lettering...)
	c, texts := at(place), p.Texts(u)
	size := typeSize(texts, room)
	for i, t := range texts {
		d.Write(svg.Point{X: c.X, Y: c.Y + float64(size*(float64(leading*(float64(i)-float64(len(texts)-1)/2))+0.35))}, size, "middle", t)
	}
	d.End()
	return d.String(), nil
}

// title names the piece for screen readers.
func (p Pattern) title() string {
	title := "Pattern"
	if p.Name != "" {
		title = p.Name
	}
	if p.Mirrored {
		title += ", mirrored"
	}
	return title
}

// The layers of what is written: on the piece, and along its edges.
const (
	textLayer  = "TEXT"
	labelLayer = "LABEL"
)

func layer(k Kind) string { return strings.ToUpper(k.String()) }

// byKind sorts lines into their layers.
func byKind(lines []Line) [][]Line {
	out := make([][]Line, len(kindNames))
	for _, l := range lines {
		out[l.Kind] = append(out[l.Kind], l)
	}
	return out
}

// drawLines draws lines of one kind with its pen; scale is user units for each
// millimetre of the pen. Closed lines are one shape, so that holes are holes.
func drawLines(d *svg.Drawing, lines []Line, at func(shape.Point) svg.Point, scale float64, fill string) {
	if len(lines) == 0 {
		return
	}
	pen := append(stroke(lines[0].Kind, scale), svg.Attr{Name: "fill", Value: fill})
	var areas [][]svg.Point
	for _, l := range lines {
		points := make([]svg.Point, len(l.Points))
		for i, q := range l.Points {
			points[i] = at(q)
		}
		if l.Closed {
			areas = append(areas, points)
			continue
		}
		d.Polyline(points, pen...)
	}
	d.Area(areas, pen...)
}

// stroke gives the attributes of a line, its pen scaled.
func stroke(k Kind, scale float64) []svg.Attr {
	width, dash := k.Pen()
	out := svg.Attrs("class", k.String(), "stroke", "#000", "stroke-width", svg.Number(width.Millimetres()*scale))
	if len(dash) > 0 {
		var parts []string
		for _, x := range dash {
			parts = append(parts, svg.Number(x.Millimetres()*scale))
		}
		out = append(out, svg.Attr{Name: "stroke-dasharray", Value: strings.Join(parts, " ")})
	}
	return out
}
