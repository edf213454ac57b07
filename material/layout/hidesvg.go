package layout

import (
	"fmt"
	"strconv"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// hideRim is the paper round a hide that is drawn full size.
const hideRim = 40 * unit.Millimetre

// HideSVG draws a hide of the plan full size, by its index, to be projected on the leather
// or plotted: one user unit is a millimetre, and width and height are given in
// millimetres. The neck is up, the grain side faces the reader, and 40 mm of paper lie round
// the box of the hide. What is cut, the hide, its holes, marks and zones, the grid, the
// points of [Plan.HidePlaces] and what is written are groups of their own: CUT, HIDE, HOLE,
// MARK, ZONE, GRID, POINT and TEXT. Curves are within 0.01 mm. Of the picture the width is
// not used. Errors are those of [Plan.Draw], and wrap unit.ErrRange for an index that no
// hide has.
func (p Plan) HideSVG(hide int, o Picture) (string, error) {
	if err := p.checkHide(hide); err != nil {
		return "", err
	}
	s, err := p.draughtsman(o)
	if err != nil {
		return "", err
	}
	page, err := s.fullHide(p, hide)
	if err != nil {
		return "", err
	}
	page.write()
	wide := (page.boxHigh.X - page.boxLow.X + 2*hideRim).Millimetres()
	high := (page.boxHigh.Y - page.boxLow.Y + 2*hideRim).Millimetres()
	d := svg.NewMillimetres(wide, high, fmt.Sprintf("%s, hide %s, true size", o.Title, hideName(p, hide)))
	if err := page.full(d, high); err != nil {
		return "", err
	}
	return d.String(), nil
}

// fullHide is a page on which a millimetre is a unit.
func (s draughtsman) fullHide(plan Plan, hide int) (*hidePage, error) {
	p, err := s.newHidePage(plan, hide)
	if err != nil {
		return nil, err
	}
	rim := hideRim.Millimetres()
	p.lie = false
	p.view = view{low: p.boxLow, high: p.boxHigh, left: rim, top: rim, scale: 1 / float64(unit.Millimetre)}
	w, h := (p.boxHigh.X - p.boxLow.X).Millimetres(), (p.boxHigh.Y - p.boxLow.Y).Millimetres()
	p.letters = lettering{sizes: []float64{16, 9}, heads: []float64{35, 12}, sheet: quad{svg.Point{X: rim + w/2, Y: rim + h/2}, svg.Point{X: 1}, w / 2, h / 2}}
	p.noteSize = 12
	return p, p.lines()
}

// full draws the groups.
func (p *hidePage) full(d *svg.Drawing, high float64) error {
	k := p.plan.Hides[p.hide]
	group := func(name string, draw func() error) error {
		d.Group(svg.Attr{Name: "id", Value: name})
		defer d.End()
		return draw()
	}
	pen := func(class, width string, more ...string) []svg.Attr {
		return svg.Attrs(append([]string{"class", class, "fill", "none", "stroke", "#000", "stroke-width", width}, more...)...)
	}
	whole, err := k.Shape()
	if err != nil {
		return err
	}
	outline := func(o shape.Outline, attrs []svg.Attr) error {
		points, err := o.Flatten(hidePointTolerance)
		if err == nil {
			d.Polygon(p.line(points), attrs...)
		}
		return err
	}
	marks, err := markOutlines(k)
	if err != nil {
		return err
	}
	places, err := p.plan.HidePlaces(p.hide)
	if err != nil {
		return err
	}
	for _, g := range []struct {
		name string
		draw func() error
	}{
		{"GRID", func() error { return p.fullGrid(d, high) }},
		{"HIDE", func() error { return outline(whole, pen("hide", "0.8")) }},
		{"HOLE", func() error {
			return each(k.Holes, func(h shape.Outline) error { return outline(h, pen("hole", "0.6")) })
		}},
		{"MARK", func() error {
			return each(marks[:len(k.Defects)], func(o shape.Outline) error { return outline(o, pen("defect", "0.6")) })
		}},
		{"ZONE", func() error {
			return each(marks[len(k.Defects):], func(o shape.Outline) error { return outline(o, pen("zone", "0.6", "stroke-dasharray", "6 6")) })
		}},
		{"CUT", func() error {
			return each(p.plan.On(p.hide), func(q Place) error { return p.fullCut(d, q, pen("piece", "0.5")) })
		}},
		{"POINT", func() error {
			for _, q := range places {
				d.Circle(p.spot(q.Points[0].At), 3, svg.Attrs("class", "first", "fill", "#000")...)
				d.Circle(p.spot(q.Points[1].At), 3, pen("second", "0.6")...)
			}
			return nil
		}},
		{"TEXT", func() error {
			p.letters.draw(d)
			x, text := hideRim.Millimetres(), "hide "+hideName(p.plan, p.hide)+", true size, grain side up, neck end up; this line is 100 mm"
			if !p.datum.Traced {
				text += "; not traced, in the usual shape of a " + k.Kind.String()
			}
			d.Write(svg.Point{X: x, Y: 16}, 9, "start", listed(", ", p.Title, text))
			d.Line(svg.Point{X: x, Y: 22}, svg.Point{X: x + 100, Y: 22}, pen("scale", "0.8")...)
			return nil
		}},
	} {
		if err := group(g.name, g.draw); err != nil {
			return err
		}
	}
	return nil
}

func each[T any](of []T, f func(T) error) error {
	for _, x := range of {
		if err := f(x); err != nil {
			return err
		}
	}
	return nil
}

// fullCut draws the cut line of a piece where it lies: the true one, not the polygon round
// it that the layout keeps.
func (p *hidePage) fullCut(d *svg.Drawing, q Place, attrs []svg.Attr) error {
	points, err := p.plan.Job.Pieces[q.Piece].Outline.Flatten(hidePointTolerance)
	if err != nil {
		return err
	}
	line := make([]svg.Point, len(points))
	for i, z := range points {
		line[i] = p.at(q.laid(z))
	}
	d.Polygon(line, attrs...)
	return nil
}

// fullGrid draws the grid with its figures in the rim.
func (p *hidePage) fullGrid(d *svg.Drawing, high float64) error {
	r, rim := p.steps(0.1*p.scale), hideRim.Millimetres()
	light := svg.Attrs("class", "grid", "stroke", "#999", "stroke-width", "0.3")
	r.between(p.boxLow.X, p.boxHigh.X, p.datum.Line, r.large, func(n int, x unit.Length) {
		a := p.at(shape.Point{X: x, Y: p.boxLow.Y})
		d.Line(svg.Point{X: a.X, Y: rim}, a, light...)
		d.Write(svg.Point{X: a.X, Y: high - rim + 14}, 9, "middle", strconv.Itoa(max(n, -n)))
	})
	r.between(p.boxLow.Y, p.boxHigh.Y, p.datum.Tail, r.large, func(n int, y unit.Length) {
		a := p.at(shape.Point{X: p.boxLow.X, Y: y})
		d.Line(a, svg.Point{X: a.X + (p.boxHigh.X - p.boxLow.X).Millimetres(), Y: a.Y}, light...)
		d.Write(svg.Point{X: rim - 4, Y: a.Y + 3.2}, 9, "end", strconv.Itoa(n))
	})
	across := "from the left edge, " + r.name
	if p.datum.Backbone {
		across = "left and right of the backbone, " + r.name
		a := p.at(shape.Point{X: p.datum.Line, Y: p.boxLow.Y})
		d.Line(svg.Point{X: a.X, Y: rim}, a, svg.Attrs("class", "backbone", "stroke", "#000", "stroke-width", "0.6", "stroke-dasharray", "30 8 6 8")...)
	}
	d.Write(svg.Point{X: rim, Y: high - 8}, 9, "start", across+"; from the tail end, "+r.name)
	return nil
}
