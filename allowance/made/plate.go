package made

import (
	"math"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// plate is the outline of a plate as a ring: places run anticlockwise from the
// middle of its back edge.
type plate struct {
	outline shape.Outline
	edges   []plateEdge
	around  unit.Length
	back    int
}

// plateEdge is an edge of a plate on its ring.
type plateEdge struct {
	name   string
	from   unit.Length // from 0 to under the perimeter
	length unit.Length
	corner float64 // how the outline turns where it begins
	bend   float64 // how it turns on its way
}

// Turns of an outline: a sharp corner, and the bends that are round corners.
const (
	sharpCorner = math.Pi / 6
	mostCorner  = 2 * math.Pi / 3
)

// plateOf reads a ring from an outline. The back edge is the one named, or one
// called back or top, or the only one.
func plateOf(o shape.Outline, back string) (plate, error) {
	if o.IsZero() {
		return plate{}, check.Required("outline", "an outline, or width and depth")
	}
	p := plate{outline: o}
	names := o.Edges()
	if back != "" {
		if err := check.OneOf("back", back, names...); err != nil {
			return plate{}, err
		}
	}
	p.back = -1
	for _, name := range []string{back, "back", "top"} {
		if p.back < 0 {
			p.back = slices.Index(names, name)
		}
	}
	switch {
	case p.back >= 0:
	case len(names) == 1: // a rim, its back opposite its beginning
		p.back = 0
	default:
		return plate{}, check.Required("back", "the edge that is the back, one of "+strings.Join(names, ", "))
	}
	var start unit.Length
	starts := make([]unit.Length, len(names))
	for i, name := range names {
		l, err := o.EdgeLength(name)
		if err != nil {
			return plate{}, unit.InField("outline", err)
		}
		if l < 2*unit.Millimetre {
			return plate{}, check.Refuse("outline", l.String(), unit.ErrRange, "edges of at least 2 mm")
		}
		starts[i] = start
		start += l
		p.edges = append(p.edges, plateEdge{name: name, length: l})
	}
	p.around = start
	middle := starts[p.back] + p.edges[p.back].length/2
	for i := range p.edges {
		p.edges[i].from = (starts[i] - middle + p.around) % p.around
	}
	return p, p.turns()
}

// turns measures the corners and bends.
func (p *plate) turns() error {
	direction := func(e plateEdge, at unit.Length) (geom.Vec, error) {
		on, off, err := p.outline.Mark(e.name, at, unit.Metre)
		return geom.Vec{X: float64(off.X - on.X), Y: float64(off.Y - on.Y)}, err
	}
	turn := func(a, b geom.Vec) float64 {
		return geom.Atan2(float64(a.X*b.Y)-float64(a.Y*b.X), float64(a.X*b.X)+float64(a.Y*b.Y))
	}
	const steps = 16
	for i := range p.edges {
		e := &p.edges[i]
		before := p.edges[(i+len(p.edges)-1)%len(p.edges)]
		last, err := direction(before, before.length)
		if err != nil {
			return unit.InField("outline", err)
		}
		for k := range steps + 1 {
			at, err := e.length.MulDiv(k, steps, unit.Nearest)
			if err != nil {
				return err
			}
			d, err := direction(*e, min(at, e.length))
			if err != nil {
				return unit.InField("outline", err)
			}
			if k == 0 {
				e.corner = turn(last, d)
			} else {
				e.bend += turn(last, d)
			}
			last = d
		}
	}
	return nil
}

// corners lists the corners on the ring: sharp ones, and the middles of round
// ones.
func (p plate) corners() []RingCorner {
	var out []RingCorner
	n := len(p.edges)
	for i, e := range p.edges {
		before, after := p.edges[(i+n-1)%n].name, p.edges[(i+1)%n].name
		smooth := math.Abs(e.corner) < sharpCorner && math.Abs(p.edges[(i+1)%n].corner) < sharpCorner
		if math.Abs(e.corner) >= sharpCorner {
			out = append(out, RingCorner{before + " and " + e.name, e.from})
		}
		if n > 2 && smooth && i != p.back && e.bend >= sharpCorner && e.bend <= mostCorner {
			out = append(out, RingCorner{before + " and " + after, (e.from + e.length/2) % p.around})
		}
	}
	slices.SortFunc(out, func(a, b RingCorner) int { return int(min(max(a.At-b.At, -1), 1)) })
	return out
}

// front gives where the front is: the edge that is named, or one called front or
// bottom; zero where none is.
func (p plate) front(name string) ([2]unit.Length, error) {
	if name != "" {
		names := make([]string, len(p.edges))
		for i, e := range p.edges {
			names[i] = e.name
		}
		if err := check.OneOf("front", name, names...); err != nil {
			return [2]unit.Length{}, err
		}
	}
	for _, try := range []string{name, "front", "bottom"} {
		for i, e := range p.edges {
			if e.name == try && i != p.back && e.from+e.length <= p.around {
				return [2]unit.Length{e.from, e.from + e.length}, nil
			}
		}
	}
	return [2]unit.Length{}, nil
}

// attached gives where the edge is at which the cushion is sewn to the piece, which
// keeps off what opens; without one ok is false.
func (p plate) attached(name string, openFrom, openTo unit.Length) (from, to unit.Length, ok bool, err error) {
	if name == "" {
		return 0, 0, false, nil
	}
	var names []string
	for _, e := range p.edges {
		names = append(names, e.name)
		if e.name != name {
			continue
		}
		for _, turn := range []unit.Length{0, p.around} {
			if e.from+e.length > openFrom+turn+nearEnd && e.from < openTo+turn-nearEnd {
				return 0, 0, false, check.Refuse("attached", name, unit.ErrRange, "an edge that the cushion does not open at")
			}
		}
		return e.from, e.from + e.length, true, nil
	}
	return 0, 0, false, check.OneOf("attached", name, names...)
}

// nearEnd is how near to the end of an edge a place is its end: no part of an
// edge is shorter.
const nearEnd = unit.Millimetre

// side gives the whole ring as a side of a seam, from a place on it.
func (p plate) side(panel string, at unit.Length) allowance.Side {
	i, in := p.find(at)
	var out allowance.Side
	if in != 0 {
		out = append(out, allowance.EdgePart{Panel: panel, Edge: p.edges[i].name, From: in})
	} else {
		out = append(out, allowance.EdgePart{Panel: panel, Edge: p.edges[i].name})
	}
	for k := 1; k < len(p.edges); k++ {
		out = append(out, allowance.EdgePart{Panel: panel, Edge: p.edges[(i+k)%len(p.edges)].name})
	}
	if in != 0 {
		out = append(out, allowance.EdgePart{Panel: panel, Edge: p.edges[i].name, To: in})
	}
	return out
}

// run gives a part of the ring as a side of a seam, between two places.
func (p plate) run(panel string, from, to unit.Length) allowance.Side {
	i, in := p.find(from)
	last, end := p.find(to)
	var out allowance.Side
	for first := true; first || i != last; i = (i + 1) % len(p.edges) {
		e := allowance.EdgePart{Panel: panel, Edge: p.edges[i].name}
		if first {
			e.From = in
			if i == last && end > in {
				e.To = end
				return append(out, e)
			}
		}
		first = false
		out = append(out, e)
	}
	if end > 0 {
		out = append(out, allowance.EdgePart{Panel: panel, Edge: p.edges[last].name, To: end})
	}
	return out
}

// find gives the edge on which a place lies, and how far along it; near its ends
// the beginning of an edge.
func (p plate) find(at unit.Length) (edge int, in unit.Length) {
	at = (at%p.around + p.around) % p.around
	for i, e := range p.edges {
		d := (at - e.from + p.around) % p.around
		switch {
		case d < nearEnd || p.around-d < nearEnd:
			return i, 0
		case d < e.length:
			if e.length-d < nearEnd {
				return (i + 1) % len(p.edges), 0
			}
			return i, d
		}
	}
	return 0, 0 // edges fill the ring
}

// symmetric is how far a plate may differ from its mirror image and count as the
// same, as common practice has it.
const symmetric = unit.Inch / 16

// below gives the plate that lies under this one, face up: its mirror image, or
// the same outline where that is symmetric, so that one hand does for both.
func (p plate) below() (plate, error) {
	names := p.outline.Edges()
	low, high := p.outline.Bounds()
	mirror := p.outline.Mirrored()
	mlow, mhigh := mirror.Bounds()
	moved, err := mirror.Moved(shape.Point{X: (low.X + high.X - mlow.X - mhigh.X) / 2, Y: low.Y - mlow.Y})
	if err != nil {
		return plate{}, unit.InField("outline", err)
	}
	if p.alike(moved) {
		return p, nil
	}
	return plateOf(moved, names[p.back])
}

// alike tells whether an outline lies on that of the plate, within a sixteenth,
// and has its back in the same place.
func (p plate) alike(o shape.Outline) bool {
	const opt = unit.Millimetre / 10
	a, err := p.outline.Flatten(opt)
	if err != nil {
		return false
	}
	b, err := o.Flatten(opt)
	if err != nil {
		return false
	}
	d, err := shape.Contour{Outer: a}.Deviation(shape.Contour{Outer: b})
	if err != nil || d > symmetric {
		return false
	}
	e := p.edges[p.back]
	on, _, err := p.outline.Mark(e.name, e.length/2, 0)
	if err != nil {
		return false
	}
	mirrored, _, err := o.Mark(e.name, e.length/2, 0)
	if err != nil {
		return false
	}
	dx, dy := on.X-mirrored.X, on.Y-mirrored.Y
	return max(dx, -dx, dy, -dy) <= symmetric
}
