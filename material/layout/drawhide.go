package layout

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// hide draws one hide of a plan: border, holes, marks, zones, pieces as they lie,
// and offcuts with their sizes. A hide that is longer than wide lies on its side,
// which fills the page better, with the neck to the right.
func (s draughtsman) hide(plan Plan, hide int) (string, error) {
	k := plan.Hides[hide]
	name := k.ID
	if name == "" {
		name = fmt.Sprint(hide + 1)
	}
	whole, err := k.Shape()
	if err != nil {
		return "", err
	}
	border, err := whole.Flatten(hideTolerance)
	if err != nil {
		return "", err
	}
	low, high := boundsOf(border)
	p := &hidePage{draughtsman: s, lie: high.Y-low.Y > high.X-low.X}
	border = p.turned(border)
	low, high = boundsOf(border)
	const top, foot = 8.0, 22.0
	scale := min((s.wide-2)/float64(max(high.X-low.X, 1)), 375/float64(max(high.Y-low.Y, 1)))
	height := float64(high.Y-low.Y)*scale + top + foot
	p.d = svg.New(s.wide, height, fmt.Sprintf("Cutting layout of %s, hide %s", s.Title, name))
	p.view = view{low: low, high: high, left: (s.wide - float64(high.X-low.X)*scale) / 2, top: top, scale: scale}
	p.d.Polygon(p.line(border), svg.Attrs("class", "hide", "fill", "#ececec", "stroke", "#000", "stroke-width", "1.6")...)
	if err := p.ground(k); err != nil {
		return "", err
	}
	for _, o := range plan.Offcuts {
		if o.Hide == hide {
			p.offcut(o)
		}
	}
	for _, q := range plan.On(hide) {
		p.d.Polygon(p.line(p.turned(q.Outline)), svg.Attrs("class", "piece", "fill", "#fff", "stroke", "#000", "stroke-width", "1.1")...)
	}
	if err := p.marks(k); err != nil {
		return "", err
	}
	for _, q := range plan.On(hide) {
		p.piece(plan, q)
	}
	p.writeNotes()
	neck := "the neck is up"
	if p.lie {
		neck = "the neck is on the right"
	}
	p.d.Write(svg.Point{X: s.wide / 2, Y: height - 6}, 9, "middle", neck+"; arrows point to the top of each piece")
	return p.d.String(), nil
}

// hideTolerance is that of curves in a drawing.
const hideTolerance = unit.Millimetre

// hidePage is the drawing of a hide in the making.
type hidePage struct {
	draughtsman
	view
	d   *svg.Drawing
	lie bool // the neck to the right
	// Notes on zones and marks are written last, clear of the labels.
	notes []note
	taken []textBox
}

// note is a text with the places where it may begin, best first.
type note struct {
	places []svg.Point
	text   string
}

// turned brings points of the hide to the page.
func (p *hidePage) turned(l []shape.Point) []shape.Point {
	out := slices.Clone(l)
	for i, q := range out {
		if p.lie {
			out[i] = shape.Point{X: q.Y, Y: -q.X}
		}
	}
	return out
}

// outline draws an outline and gives its lower left and upper right corner on the
// page.
func (p *hidePage) outline(o shape.Outline, attrs ...string) (a, b svg.Point, err error) {
	points, err := o.Flatten(hideTolerance)
	if err != nil {
		return a, b, err
	}
	points = p.turned(points)
	p.d.Polygon(p.line(points), svg.Attrs(attrs...)...)
	low, high := boundsOf(points)
	return p.at(low), p.at(high), nil
}

// ground draws zones and holes.
func (p *hidePage) ground(k material.Skin) error {
	for _, z := range k.Zones {
		a, b, err := p.outline(z.Outline, "class", "zone", "fill", "none", "stroke", "#000", "stroke-width", "0.8", "stroke-dasharray", "2 2")
		if err != nil {
			return err
		}
		var places []svg.Point
		for x := a.X + 4; x < max(b.X-24, a.X+5); x += 16 {
			for _, y := range []float64{b.Y + 11, a.Y - 4, (a.Y + b.Y) / 2, a.Y + 11, b.Y - 4} {
				places = append(places, svg.Point{X: x, Y: y})
			}
		}
		p.notes = append(p.notes, note{places, z.Grade.String()})
	}
	for _, h := range k.Holes {
		if _, _, err := p.outline(h, "class", "hole", "fill", "#fff", "stroke", "#000", "stroke-width", "1"); err != nil {
			return err
		}
	}
	return nil
}

// marks draws the marks in the leather, over the pieces that may lie on them.
func (p *hidePage) marks(k material.Skin) error {
	for _, f := range k.Defects {
		o, err := f.Border()
		if err != nil {
			return err
		}
		a, b, err := p.outline(o, "class", "defect", "fill", "#777", "fill-opacity", "0.7", "stroke", "#000", "stroke-width", "0.8")
		if err != nil {
			return err
		}
		text := f.Kind.String()
		wide, mid := svg.TextWidth(text, 9), svg.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
		p.notes = append(p.notes, note{[]svg.Point{{X: b.X + 3, Y: mid.Y + 3}, {X: a.X - 3 - wide, Y: mid.Y + 3}, {X: mid.X - wide/2, Y: b.Y - 3}, {X: mid.X - wide/2, Y: a.Y + 10}}, text})
	}
	return nil
}

// offcut draws what is left over, with its size.
func (p *hidePage) offcut(o Offcut) {
	points := p.turned([]shape.Point{{X: o.X, Y: o.Y}, {X: o.X + o.Width, Y: o.Y}, {X: o.X + o.Width, Y: o.Y + o.Length}, {X: o.X, Y: o.Y + o.Length}})
	p.d.Polygon(p.line(points), svg.Attrs("class", "offcut", "fill", "#fafafa", "stroke", "#555", "stroke-width", "0.8", "stroke-dasharray", "3 3")...)
	low, high := boundsOf(points)
	a, b := p.at(low), p.at(high)
	size := p.size(o.Width, o.Length, unit.Nearest)
	p.taken = append(p.taken, lineIn(p.d, svg.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}, b.X-a.X, a.Y-b.Y, 9, false, "left over "+size, size))
}

// piece writes what a piece is on it.
func (p *hidePage) piece(plan Plan, q Place) {
	points := p.turned(q.Outline)
	low, high := boundsOf(points)
	at, room := pattern.Pattern{Cut: shape.Contour{Outer: points}}.Room(pattern.Box{Low: low, High: high})
	w, h := plan.Job.Pieces[q.Piece].Outline.Size()
	bare := p.label(plan, q.Piece)
	var texts []string
	for _, word := range []string{"mirrored", "mir."} {
		l := bare.handed(q.Mirrored, word)
		texts = append(texts, strings.TrimSpace(l.Number+" "+l.Name))
		if l.Number != "" {
			texts = append(texts, l.Number)
		}
	}
	texts = append(texts, cmp.Or(bare.Number, bare.Name)) // better than nothing
	p.taken = append(p.taken, labelOn(p.d, p.view, points, at, float64(room)*p.scale, topOf(q.Turned, p.lie), w > h, texts...))
}

// writeNotes writes the notes where they meet no label.
func (p *hidePage) writeNotes() {
	for _, l := range p.notes {
		at, wide := l.places[0], svg.TextWidth(l.text, 9)
		for _, q := range l.places {
			box := textBox{q.X, q.Y - 9, q.X + wide, q.Y + 2}
			if box.left >= 0 && box.right <= p.wide && !slices.ContainsFunc(p.taken, box.meets) {
				at = q
				break
			}
		}
		p.taken = append(p.taken, textBox{at.X, at.Y - 9, at.X + wide, at.Y + 2})
		p.d.Halo(at, 9, "start", l.text)
	}
}

// topOf gives the direction to the top of a piece on the page. An angle is
// anticlockwise from the neck, which is up, or on the right of a hide that is
// drawn lying.
func topOf(angle unit.Angle, lie bool) svg.Point {
	sin, cos := math.Sincos(angle.Radians())
	if lie {
		return svg.Point{X: cos, Y: -sin}
	}
	return svg.Point{X: -sin, Y: -cos}
}

// view maps the axes of a hide, y up, to a drawing, y down.
type view struct {
	low, high shape.Point
	left, top float64
	scale     float64 // user units for each nanometre
}

func (v view) at(p shape.Point) svg.Point {
	return svg.Point{X: v.left + float64(float64(p.X-v.low.X)*v.scale), Y: v.top + float64(float64(v.high.Y-p.Y)*v.scale)}
}

func (v view) line(l []shape.Point) []svg.Point {
	out := make([]svg.Point, len(l))
	for i, q := range l {
		out[i] = v.at(q)
	}
	return out
}

func boundsOf(points []shape.Point) (low, high shape.Point) {
	for i, q := range points {
		if i == 0 {
			low, high = q, q
		}
		low.X, low.Y = min(low.X, q.X), min(low.Y, q.Y)
		high.X, high.Y = max(high.X, q.X), max(high.Y, q.Y)
	}
	return low, high
}
