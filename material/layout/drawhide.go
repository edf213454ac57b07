package layout

import (
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// hide draws one hide of a plan: border, unusable rim as a line, holes,
// marks, zones, panels as they lie, and offcuts with their sizes. The neck is up.
func (s draughtsman) hide(plan Plan, hide int) (string, error) {
	k := plan.Hides[hide]
	name := k.ID
	if name == "" {
		name = fmt.Sprint(hide + 1)
	}
	title := fmt.Sprintf("Cutting layout of %s, hide %s", s.Title, name)
	whole, err := k.Shape()
	if err != nil {
		return "", err
	}
	const tolerance = unit.Millimetre
	border, err := whole.Flatten(tolerance)
	if err != nil {
		return "", err
	}
	low, high := boundsOf(border)
	// A hide is longer than wide: laid on its side it fills the page better.
	lie := high.Y-low.Y > high.X-low.X
	turn := func(p shape.Point) shape.Point {
		if lie { // the neck to the right
			return shape.Point{X: p.Y, Y: -p.X}
		}
		return p
	}
	each := func(l []shape.Point) []shape.Point {
		out := make([]shape.Point, len(l))
		for i, q := range l {
			out[i] = turn(q)
		}
		return out
	}
	low, high = boundsOf(each(border))
	const top, foot = 8.0, 22.0
	scale := min((s.wide-2)/float64(max(high.X-low.X, 1)), 375/float64(max(high.Y-low.Y, 1)))
	height := float64(high.Y-low.Y)*scale + top + foot
	d := svg.New(s.wide, height, title)
	v := view{low: low, high: high, left: (s.wide - float64(high.X-low.X)*scale) / 2, top: top, scale: scale}
	d.Polygon(v.line(each(border)), svg.Attrs("class", "hide", "fill", "#ececec", "stroke", "#000", "stroke-width", "1.6")...)
	outline := func(o shape.Outline, attrs ...svg.Attr) ([]shape.Point, error) {
		points, err := o.Flatten(tolerance)
		if err == nil {
			points = each(points)
			d.Polygon(v.line(points), attrs...)
		}
		return points, err
	}
	// Labels of zones and marks are written last, clear of those of the pieces.
	type zoneLabel struct {
		places []svg.Point // where it may begin, best first
		text   string
	}
	var labels []zoneLabel
	var taken []textBox
	for _, z := range k.Zones {
		points, err := outline(z.Outline, svg.Attrs("class", "zone", "fill", "none", "stroke", "#000", "stroke-width", "0.8", "stroke-dasharray", "2 2")...)
		if err != nil {
			return "", err
		}
		zl, zh := boundsOf(points)
		a, b := v.at(zl), v.at(zh)
		var places []svg.Point
		for x := a.X + 4; x < max(b.X-24, a.X+5); x += 16 {
			for _, y := range []float64{b.Y + 11, a.Y - 4, (a.Y + b.Y) / 2, a.Y + 11, b.Y - 4} {
				places = append(places, svg.Point{X: x, Y: y})
			}
		}
		labels = append(labels, zoneLabel{places, z.Grade.String()})
	}
	for _, h := range k.Holes {
		if _, err := outline(h, svg.Attrs("class", "hole", "fill", "#fff", "stroke", "#000", "stroke-width", "1")...); err != nil {
			return "", err
		}
	}
	for _, o := range plan.Offcuts {
		if o.Hide != hide {
			continue
		}
		points := each([]shape.Point{{X: o.X, Y: o.Y}, {X: o.X + o.Width, Y: o.Y}, {X: o.X + o.Width, Y: o.Y + o.Length}, {X: o.X, Y: o.Y + o.Length}})
		d.Polygon(v.line(points), svg.Attrs("class", "offcut", "fill", "#fafafa", "stroke", "#555", "stroke-width", "0.8", "stroke-dasharray", "3 3")...)
		ol, oh := boundsOf(points)
		a, b := v.at(ol), v.at(oh)
		taken = append(taken, lineIn(d, svg.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}, b.X-a.X, a.Y-b.Y, 9, false, "left over "+s.size(o.Width, o.Length, unit.Nearest), s.size(o.Width, o.Length, unit.Nearest)))
	}
	for _, p := range plan.On(hide) {
		points := each(p.Outline)
		d.Polygon(v.line(points), svg.Attrs("class", "piece", "fill", "#fff", "stroke", "#000", "stroke-width", "1.1")...)
	}
	for _, f := range k.Defects {
		b, err := f.Border()
		if err != nil {
			return "", err
		}
		points, err := outline(b, svg.Attrs("class", "defect", "fill", "#777", "fill-opacity", "0.7", "stroke", "#000", "stroke-width", "0.8")...)
		if err != nil {
			return "", err
		}
		fl, fh := boundsOf(points)
		a, c := v.at(fl), v.at(fh)
		wide, mid := svg.TextWidth(f.Kind.String(), 9), svg.Point{X: (a.X + c.X) / 2, Y: (a.Y + c.Y) / 2}
		labels = append(labels, zoneLabel{[]svg.Point{{X: c.X + 3, Y: mid.Y + 3}, {X: a.X - 3 - wide, Y: mid.Y + 3}, {X: mid.X - wide/2, Y: c.Y - 3}, {X: mid.X - wide/2, Y: a.Y + 10}}, f.Kind.String()})
	}
	for _, p := range plan.On(hide) {
		points := each(p.Outline)
		pl, ph := boundsOf(points)
		at, room := pattern.Pattern{Cut: shape.Contour{Outer: points}}.Room(pattern.Box{Low: pl, High: ph})
		w, h := plan.Job.Pieces[p.Piece].Outline.Size()
		l := s.label(plan, p.Piece)
		hand := ""
		if p.Mirrored {
			hand = " mirrored"
		}
		texts := []string{l.Name + hand, l.Name}
		if l.Number != "" {
			texts = []string{l.Number + hand + " " + l.Name, l.Number + hand, l.Number}
		}
		taken = append(taken, labelOn(d, v, points, at, float64(room)*scale, topOf(p.Turned, lie), w > h, texts...))
	}
	for _, l := range labels {
		at, wide := l.places[0], svg.TextWidth(l.text, 9)
		for _, q := range l.places {
			box := textBox{q.X, q.Y - 9, q.X + wide, q.Y + 2}
			if box.left >= 0 && box.right <= s.wide && !slices.ContainsFunc(taken, box.meets) {
				at = q
				break
			}
		}
		taken = append(taken, textBox{at.X, at.Y - 9, at.X + wide, at.Y + 2})
		d.Halo(at, 9, "start", l.text)
	}
	neck := "the neck is up"
	if lie {
		neck = "the neck is on the right"
	}
	d.Write(svg.Point{X: s.wide / 2, Y: height - 6}, 9, "middle", neck+"; arrows point to the top of each piece")
	return d.String(), nil
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
