package main

import (
	"fmt"
	"reflect"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// pattern is one line of the cut list as it is drawn: its lines on the cloth in
// the axes of the panel, x across the goods and y along the grain.
type pattern struct {
	number int // in the cut list, from 1
	cut    job.Cut

	cutLine      shape.Contour
	trimLine     shape.Contour // empty where it is the cut line
	seamLine     shape.Contour // empty for strips, whose seams the list describes
	finishedLine shape.Contour // empty where it is the seam line
	notches      []allowance.CutNotch
	buttons      []shape.Point // of a tufted panel, on the cloth
	grain        allowance.GrainArrow
	edges        []allowance.PanelEdge // anticlockwise, in the order of the seam line
	area         unit.Area             // inside the cut line, of one
	shaped       bool                  // anything but an upright rectangle
}

func (p pattern) name() string { return p.cut.Piece + ": " + p.cut.Part }

// strip tells whether the piece is a plain band, for which a rule will do.
func (p pattern) strip() bool { return len(p.edges) == 0 }

// bounds gives the lower left and upper right corner of the cut line.
func (p pattern) bounds() (low, high shape.Point) { return boundsOf(p.cutLine.Outer) }

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

// patternsOf draws up every line of the cut list.
func patternsOf(o job.WorkOrder) []pattern {
	out := make([]pattern, len(o.Cuts))
	for i, c := range o.Cuts {
		out[i] = patternOf(i+1, c)
	}
	return out
}

func patternOf(number int, c job.Cut) pattern {
	p := pattern{number: number, cut: c}
	if q := c.Panel; q != nil {
		p.cutLine, p.seamLine = q.CutLine, q.SeamLine
		for _, e := range q.Edges {
			if e.Handling > 0 {
				p.trimLine = q.TrimLine
			}
		}
		// Where the cover is stretched on, the panel in place is larger than
		// what lies between the seam lines.
		if q.FinishedArea != q.SeamArea {
			if points, err := c.Outline.Flatten(q.Tolerance); err == nil {
				p.finishedLine.Outer = points
			}
		}
		p.edges, p.notches, p.grain, p.area = q.Edges, q.Notches, q.Grain, q.Area
		p.shaped = !upright(q.CutLine)
		p.tufted(c.Tufting)
		return p
	}
	p.cutLine = rectangle(0, 0, c.Cut.Width, c.Cut.Length)
	low, high := p.bounds()
	mid := (low.X + high.X) / 2
	rise := (high.Y - low.Y) / 4
	p.grain = allowance.GrainArrow{Foot: shape.Point{X: mid, Y: low.Y + rise}, Head: shape.Point{X: mid, Y: high.Y - rise}}
	if a, err := c.Cut.Width.By(c.Cut.Length); err == nil {
		p.area = a
	}
	p.tufted(c.Tufting)
	return p
}

// tufted marks the buttons. Rows are measured from the top left corner of the
// net panel, inside the tack edge.
func (p *pattern) tufted(t *made.TuftPlan) {
	if t == nil {
		return
	}
	low, high := p.bounds()
	left, top := low.X+(high.X-low.X-t.NetWidth)/2, high.Y-(high.Y-low.Y-t.NetHeight)/2
	for _, r := range t.Rows {
		for _, x := range r.ClothX {
			p.buttons = append(p.buttons, shape.Point{X: left + x, Y: top - r.ClothY})
		}
	}
	p.shaped = true // the places of the buttons need a pattern
}

// upright tells whether a contour is a rectangle along the axes.
func upright(c shape.Contour) bool {
	low, high := boundsOf(c.Outer)
	for i, q := range c.Outer {
		r := c.Outer[(i+1)%len(c.Outer)]
		if q.X != low.X && q.X != high.X || q.Y != low.Y && q.Y != high.Y || q.X != r.X && q.Y != r.Y {
			return false
		}
	}
	return len(c.Holes) == 0
}

// count says how many to cut, and of which hand.
func (p pattern) count() string {
	c := p.cut
	if p.cut.Pair {
		return fmt.Sprintf("cut %d and %d mirrored of %s", c.Count-c.Count/2, c.Count/2, c.Goods)
	}
	return fmt.Sprintf("cut %d of %s", c.Count, c.Goods)
}

func rectangle(left, bottom, right, top unit.Length) shape.Contour {
	return shape.Contour{Outer: []shape.Point{{X: left, Y: bottom}, {X: right, Y: bottom}, {X: right, Y: top}, {X: left, Y: top}}}
}

func sizeOf(w, l unit.Length) job.Size { return job.Size{Width: w, Length: l} }

// partName gives the part of "piece: part".
func partName(name string) string {
	if _, part, found := strings.Cut(name, ": "); found {
		return part
	}
	return name
}

// sameShape tells whether one pattern serves for both pieces.
func (p pattern) sameShape(q pattern) bool {
	return reflect.DeepEqual([]any{p.cutLine, p.trimLine, p.seamLine, p.notches, p.buttons, p.grain, p.cut.Pair},
		[]any{q.cutLine, q.trimLine, q.seamLine, q.notches, q.buttons, q.grain, q.cut.Pair})
}

// contourLines gives the border of a contour and its holes, largest first.
func contourLines(c shape.Contour) [][]shape.Point {
	if len(c.Outer) == 0 {
		return nil
	}
	return append([][]shape.Point{c.Outer}, c.Holes...)
}

// A lineKind is a line of a pattern. Each has its own stroke, so that they can
// be told apart in black and white.
type lineKind struct {
	name  string    // plain, for layers and legends
	width float64   // mm
	dash  []float64 // mm; none for a whole line
}

var (
	cutKind    = lineKind{name: "cut", width: 0.6}
	trimKind   = lineKind{name: "trim", width: 0.3, dash: []float64{6, 1.5, 1, 1.5}}
	seamKind   = lineKind{name: "seam", width: 0.3, dash: []float64{3, 1.5}}
	notchKind  = lineKind{name: "notch", width: 0.45}
	buttonKind = lineKind{name: "button", width: 0.35}
	grainKind  = lineKind{name: "grain", width: 0.35}
)

// patternLine is a line with the kind it is drawn in.
type patternLine struct {
	kind   lineKind
	closed bool
	points []shape.Point
}

// lines lists every line of the pattern, the cut line last, over the others.
func (p pattern) lines() []patternLine {
	var out []patternLine
	for _, k := range []struct {
		kind    lineKind
		contour shape.Contour
	}{{seamKind, p.seamLine}, {trimKind, p.trimLine}, {cutKind, p.cutLine}} {
		for _, l := range contourLines(k.contour) {
			out = append(out, patternLine{k.kind, true, l})
		}
	}
	for _, n := range p.notches {
		out = append(out, patternLine{notchKind, false, []shape.Point{n.Cut, n.Seam}})
	}
	const arm = 5 * unit.Millimetre
	for _, b := range p.buttons {
		out = append(out, patternLine{buttonKind, false, []shape.Point{{X: b.X - arm, Y: b.Y}, {X: b.X + arm, Y: b.Y}}},
			patternLine{buttonKind, false, []shape.Point{{X: b.X, Y: b.Y - arm}, {X: b.X, Y: b.Y + arm}}})
	}
	return append(out, p.arrow()...)
}

// arrow draws the grain: a shaft with a head at its upper end.
func (p pattern) arrow() []patternLine {
	foot, head := p.grain.Foot, p.grain.Head
	dx, dy := head.X-foot.X, head.Y-foot.Y
	if dx == 0 && dy == 0 {
		return nil
	}
	// The barbs are a tenth of the shaft long, within reason.
	long := max(abs(dx), abs(dy))
	barb := min(max(long/10, 2*unit.Millimetre), 8*unit.Millimetre)
	back := func(side unit.Length) shape.Point {
		ux, uy := float64(dx)/float64(long), float64(dy)/float64(long)
		b, s := float64(barb), float64(side)
		return shape.Point{X: head.X - unit.Length(float64(ux*b)) - unit.Length(float64(uy*s)), Y: head.Y - unit.Length(float64(uy*b)) + unit.Length(float64(ux*s))}
	}
	return []patternLine{
		{grainKind, false, []shape.Point{foot, head}},
		{grainKind, false, []shape.Point{back(barb / 2), head, back(-barb / 2)}},
	}
}

func abs(l unit.Length) unit.Length { return max(l, -l) }

// slug makes a file name of a name that anyone may have written: small letters,
// digits and hyphens, never empty, never long, never a path. Names that differ
// may give one slug, so a number goes before it.
func slug(number int, name string) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(name) {
		if b.Len() >= 60 {
			break
		}
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			gap = false
			b.WriteRune(r)
		} else {
			gap = true
		}
	}
	if b.Len() == 0 {
		return fmt.Sprintf("%03d", number)
	}
	return fmt.Sprintf("%03d-%s", number, b.String())
}
