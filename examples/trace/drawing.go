package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// drawing says how outlines are read from drawings, where those do not say it.
type drawing struct {
	layer string      // of DXF, the only one that is read; all when empty
	unit  unit.Length // of one unit; 0 for what the drawing says
}

// drawn is what a drawing holds.
type drawn struct {
	outlines []shape.Outline
	notes    []string
}

// errDrawing says that a drawing cannot be used.
var errDrawing = errors.New("the drawing cannot be used")

func refuseDrawing(format string, args ...any) error {
	return fmt.Errorf("%w: %s", errDrawing, fmt.Sprintf(format, args...))
}

const mostDrawing = 16 << 20 // bytes

// read gives the closed lines of a drawing, each the outline of a panel.
func (d drawing) read(r io.Reader, dxf bool) (drawn, error) {
	text, err := io.ReadAll(io.LimitReader(r, mostDrawing+1))
	if err != nil {
		return drawn{}, err
	}
	if len(text) > mostDrawing {
		return drawn{}, refuseDrawing("it is larger than 16 MB; keep only the outlines")
	}
	var rings []ring
	var left int
	if dxf {
		rings, left, err = d.dxf(text)
	} else {
		rings, left, err = d.svg(text)
	}
	if err != nil {
		return drawn{}, err
	}
	if len(rings) == 0 {
		return drawn{}, refuseDrawing("no closed line is in it; an outline must end where it began")
	}
	var out drawn
	for i, q := range rings {
		for _, o := range rings[:i] {
			if o.within(q) || q.within(o) {
				return drawn{}, refuseDrawing("a closed line lies inside another, and which is the panel is not said; keep one line for each panel (of DXF, -layer NAME)")
			}
		}
		o, err := bySides(q.outline)
		if err != nil {
			return drawn{}, fmt.Errorf("outline %d: %w", i+1, err)
		}
		out.outlines = append(out.outlines, o)
	}
	if left > 0 {
		out.notes = append(out.notes, plural(left, "line that is not closed was", "lines that are not closed were")+" left out")
	}
	return out, nil
}

// ring is a closed line, and the box it was drawn in.
type ring struct {
	outline        shape.Outline
	x0, y0, x1, y1 float64
}

func (r ring) within(q ring) bool {
	return r.x0 >= q.x0 && r.y0 >= q.y0 && r.x1 <= q.x1 && r.y1 <= q.y1
}

// corner is the turn from which two pieces of a line are two sides.
const corner = 30 * unit.Degree

// bySides joins the pieces of an outline that run on smoothly into sides, and names
// these in order. Its lower left corner is put at the origin.
func bySides(o shape.Outline) (shape.Outline, error) {
	low, _ := o.Bounds()
	o, err := o.Moved(shape.Point{X: -low.X, Y: -low.Y})
	if err != nil {
		return o, err
	}
	f := o.Shape()
	var pieces []shape.EdgeForm // of one piece each
	for _, e := range f.Trace.Edges {
		for _, p := range e.Pieces {
			pieces = append(pieces, shape.EdgeForm{Name: strconv.Itoa(len(pieces)), Pieces: []shape.PieceForm{p}})
		}
	}
	f.Trace.Edges = pieces
	single, err := f.Outline()
	if err != nil {
		return o, err
	}
	names := single.Edges()
	n := len(names)
	begins := make([]bool, n) // a side begins with this piece
	first := -1
	for i := range names {
		in, err := direction(single, names[(i+n-1)%n], true)
		if err != nil {
			return o, err
		}
		out, err := direction(single, names[i], false)
		if err != nil {
			return o, err
		}
		begins[i] = math.Abs(math.Remainder(out-in, 2*math.Pi)) > corner.Radians()
		if begins[i] && first < 0 {
			first = i
		}
	}
	first = max(first, 0)
	from := f.Trace.From
	if first > 0 {
		from = pieces[first-1].Pieces[0].To
	}
	t := &shape.TraceForm{From: from}
	for k := range n {
		i := (first + k) % n
		if k == 0 || begins[i] {
			t.Edges = append(t.Edges, shape.EdgeForm{Name: fmt.Sprintf("side %d", len(t.Edges)+1)})
		}
		last := &t.Edges[len(t.Edges)-1]
		last.Pieces = append(last.Pieces, pieces[i].Pieces...)
	}
	return shape.Form{Trace: t}.Outline()
}

// direction is the angle in which an outline runs at an end of an edge.
func direction(o shape.Outline, edge string, end bool) (float64, error) {
	var at unit.Length
	if end {
		var err error
		if at, err = o.EdgeLength(edge); err != nil {
			return 0, err
		}
	}
	on, out, err := o.Mark(edge, at, unit.Metre)
	// Outwards is a quarter to the right of the way.
	return math.Atan2(float64(out.X-on.X), -float64(out.Y-on.Y)), err
}
