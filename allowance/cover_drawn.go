package allowance

import (
	"math"
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// drawn is a panel with its edges divided where a relation begins or ends.
type drawn struct {
	ok       bool
	finished shape.Outline
	seam     shape.Outline
	parts    []drawnPart // the border anticlockwise, then the inner lines
	border   int         // how many of them are the border
	of       map[string][]int
}

// drawnPart is a part of the border between two divisions, or an inner line.
type drawnPart struct {
	name     string // in the divided outline
	edge     string // that it is part of
	from, to unit.Length
	length   unit.Length // of the seam line
	corner   float64     // how the border turns where it begins, in radians anticlockwise
	bend     float64     // how it turns on its way, positive when it bulges out
}

// onPanel checks an edge part against its panel.
func (g *graph) onPanel(p EdgePart, panel int) error {
	of := g.cover.Panels[panel]
	if of.Outline.IsZero() {
		return check.Required("", "a panel with an outline")
	}
	for _, l := range of.Lines {
		if l.Name == p.Edge {
			if p.From != 0 || p.To != 0 {
				return check.Refuse("", p.String(), unit.ErrRange, "the whole of an inner line")
			}
			return nil
		}
	}
	if !slices.Contains(of.Outline.Edges(), p.Edge) {
		return check.OneOf("", p.Edge, of.Outline.Edges()...)
	}
	l, err := of.Outline.EdgeLength(p.Edge)
	if err != nil {
		return err
	}
	to := p.To
	if to == 0 {
		to = l
	}
	if p.From < 0 || to > l || to-p.From < unit.Millimetre {
		return check.Refuse("", p.String(), unit.ErrRange, "a part at least 1 mm long of the edge, which is "+l.String())
	}
	return nil
}

// draw divides every panel where relations need it and fits it.
func (g *graph) draw(relations []relation) {
	places := make([]map[string][]unit.Length, len(g.cover.Panels))
	for _, r := range relations {
		for _, side := range r.sides {
			for _, p := range side {
				if p.From == 0 && p.To == 0 {
					continue
				}
				if places[p.panel] == nil {
					places[p.panel] = map[string][]unit.Length{}
				}
				places[p.panel][p.Edge] = append(places[p.panel][p.Edge], p.From, p.To)
			}
		}
	}
	g.drawn = make([]drawn, len(g.cover.Panels))
	for i, p := range g.cover.Panels {
		d, err := p.draw(places[i])
		g.faults.add(unit.Path("panels").At(i), err)
		g.drawn[i] = d
	}
}

// nearest divisions of an edge are one.
const sameDivision = unit.Millimetre / 10

// draw divides and fits one panel.
func (p CoverPanel) draw(places map[string][]unit.Length) (drawn, error) {
	d := drawn{of: map[string][]int{}}
	if _, _, err := p.options(); err != nil {
		return d, err
	}
	d.finished = p.Outline
	for _, edge := range p.Outline.Edges() {
		l, err := p.Outline.EdgeLength(edge)
		if err != nil {
			return d, err
		}
		at := slices.Clone(places[edge])
		slices.Sort(at)
		at = slices.CompactFunc(slices.DeleteFunc(at, func(x unit.Length) bool { return x < sameDivision || x > l-sameDivision }),
			func(a, b unit.Length) bool { return max(a-b, b-a) < sameDivision })
		names := []string{edge}
		if len(at) > 0 {
			names = nil
			for i := range len(at) + 1 {
				names = append(names, edge+" ("+strconv.Itoa(i+1)+")")
			}
			if d.finished, err = d.finished.Split(edge, at, names); err != nil {
				return d, err
			}
		}
		for i, name := range names {
			part := drawnPart{name: name, edge: edge, to: l}
			if i > 0 {
				part.from = at[i-1]
			}
			if i < len(at) {
				part.to = at[i]
			}
			d.of[edge] = append(d.of[edge], len(d.parts))
			d.parts = append(d.parts, part)
		}
	}
	whole := p.Panel
	whole.Outline = d.finished
	across, along, seam, err := whole.fitted()
	if err != nil {
		return d, err
	}
	d.seam, d.border = seam, len(d.parts)
	for i := range d.parts {
		if d.parts[i].length, err = seam.EdgeLength(d.parts[i].name); err != nil {
			return d, err
		}
	}
	if err := d.turns(); err != nil {
		return d, err
	}
	for i, l := range p.Lines {
		part, err := l.fitted(across, along)
		if err == nil && (len(d.of[l.Name]) > 0 || l.Name == "") {
			err = check.Refuse("name", l.Name, unit.ErrRange, "a name that no edge or other line has")
		}
		if err != nil {
			return d, unit.InField(check.At("lines", i), err)
		}
		d.of[l.Name] = append(d.of[l.Name], len(d.parts))
		d.parts = append(d.parts, part)
	}
	d.ok = true
	return d, nil
}

// fitted brings a line to the seam line as the outline is.
func (l InnerLine) fitted(across, along Fitted) (drawnPart, error) {
	x := float64(l.To.X-l.From.X) / float64(across.Finished) * float64(across.Seam)
	y := float64(l.To.Y-l.From.Y) / float64(along.Finished) * float64(along.Seam)
	length := unit.Length(math.Round(math.Sqrt(float64(x*x) + float64(y*y))))
	return drawnPart{name: l.Name, edge: l.Name, to: length, length: length}, check.Positive("to", length)
}

// span finds the divisions that an edge part is made of.
func (d drawn) span(p EdgePart) (span, error) {
	var out span
	for _, i := range d.of[p.Edge] {
		part := d.parts[i]
		if part.from >= p.From-sameDivision && (p.To == 0 || part.to <= p.To+sameDivision) {
			out.parts = append(out.parts, i)
		}
		out.line = i >= d.border
	}
	if len(out.parts) == 0 {
		return span{}, check.Refuse("", p.String(), unit.ErrRange, "a part of an edge")
	}
	return out, nil
}

// outward gives the direction square out from a part of the border, at a length
// along the seam line.
func (d drawn) outward(part int, at unit.Length) (x, y float64) {
	on, off, err := d.seam.Mark(d.parts[part].name, at, unit.Metre)
	if err != nil {
		return 0, 0 // no length of the edge itself
	}
	return float64(off.X - on.X), float64(off.Y - on.Y)
}

func turned(x0, y0, x1, y1 float64) float64 {
	return geom.Atan2(float64(x0*y1)-float64(y0*x1), float64(x0*x1)+float64(y0*y1))
}

// turns measures the corners and bends of the border.
func (d drawn) turns() error {
	for i := range d.border {
		before := (i + d.border - 1) % d.border
		x0, y0 := d.outward(before, d.parts[before].length)
		x1, y1 := d.outward(i, 0)
		d.parts[i].corner = turned(x0, y0, x1, y1)
		var err error
		if d.parts[i].bend, err = d.bend(i, x1, y1); err != nil {
			return err
		}
	}
	return nil
}

// bend gives how a part of the border turns from the direction it begins with.
func (d drawn) bend(part int, x0, y0 float64) (float64, error) {
	const steps = 16
	l := d.parts[part].length
	from, _, err := d.seam.Mark(d.parts[part].name, 0, 0)
	if err != nil {
		return 0, err
	}
	to, _, err := d.seam.Mark(d.parts[part].name, l, 0)
	if err != nil {
		return 0, err
	}
	if dx, dy := float64(to.X-from.X), float64(to.Y-from.Y); float64(l)-math.Sqrt(float64(dx*dx)+float64(dy*dy)) < 1 {
		return 0, nil // straight
	}
	sum := 0.0
	for i := 1; i <= steps; i++ {
		at, err := l.MulDiv(i, steps, unit.Nearest)
		if err != nil {
			return 0, err
		}
		x1, y1 := d.outward(part, at)
		sum += turned(x0, y0, x1, y1)
		x0, y0 = x1, y1
	}
	return sum, nil
}
