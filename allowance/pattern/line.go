package pattern

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Kind says what a line of a pattern stands for.
type Kind uint8

// The kinds of line.
const (
	CutLine Kind = iota
	TrimLine
	SeamLine
	NotchLine
	MarkLine
	GrainLine
)

var kindNames = []string{"cut", "trim", "seam", "notch", "mark", "grain"}

// String gives the name of a kind in small letters; layers have it in capitals.
func (k Kind) String() string { return enum.Name(k, "kind", kindNames) }

// MarshalText writes the name.
func (k Kind) MarshalText() ([]byte, error) { return enum.Text(k, "kind", kindNames) }

// UnmarshalText reads a name. The error is a *unit.InputError.
func (k *Kind) UnmarshalText(text []byte) error { return enum.Read(k, text, "kind", kindNames) }

// pens are the strokes of the kinds: width of the pen, then dash and gap in
// turn; none for a whole line.
var pens = [...]struct {
	width unit.Length
	dash  []unit.Length
}{
	CutLine:   {width: 600 * unit.Micrometre},
	TrimLine:  {300 * unit.Micrometre, []unit.Length{6000 * unit.Micrometre, 1500 * unit.Micrometre, 1000 * unit.Micrometre, 1500 * unit.Micrometre}},
	SeamLine:  {300 * unit.Micrometre, []unit.Length{3000 * unit.Micrometre, 1500 * unit.Micrometre}},
	NotchLine: {width: 450 * unit.Micrometre},
	MarkLine:  {width: 350 * unit.Micrometre},
	GrainLine: {width: 350 * unit.Micrometre},
}

// Pen gives the stroke of a kind: the width of the pen, and dash and gap in
// turn, none for a whole line.
func (k Kind) Pen() (width unit.Length, dash []unit.Length) {
	if int(k) >= len(pens) {
		return pens[CutLine].width, nil
	}
	return pens[k].width, slices.Clone(pens[k].dash)
}

// Line is a line through points; a closed one goes on from the last to the
// first, which is not repeated.
type Line struct {
	Kind   Kind          `json:"kind"`
	Closed bool          `json:"closed,omitzero"`
	Points []shape.Point `json:"points"`
}

// Lines lists the lines of the pattern in the order of their kinds.
func (p Pattern) Lines() []Line {
	var out []Line
	for k, c := range []shape.Contour{CutLine: p.Cut, TrimLine: p.Trim, SeamLine: p.Seam} {
		for _, l := range rings(c) {
			out = append(out, Line{Kind(k), true, l})
		}
	}
	for i, n := range p.Notches {
		out = append(out, Line{NotchLine, false, []shape.Point{n.Cut, n.Seam}})
		if i < len(p.Letters) && p.Letters[i].Double {
			out = append(out, p.double(n))
		}
	}
	const arm = 5 * unit.Millimetre
	for _, m := range p.Marks {
		out = append(out, Line{MarkLine, false, []shape.Point{{X: m.X - arm, Y: m.Y}, {X: m.X + arm, Y: m.Y}}},
			Line{MarkLine, false, []shape.Point{{X: m.X, Y: m.Y - arm}, {X: m.X, Y: m.Y + arm}}})
	}
	return append(out, p.arrow()...)
}

// double gives the second line of a double notch: on along the edge, or back
// where the edge ends.
func (p Pattern) double(n allowance.CutNotch) Line {
	out := direction(n.Seam, n.Cut)
	on := way{-out.y, out.x}
	for _, e := range p.Edges {
		if e.Name == n.Edge && n.At+doubleApart > e.Length {
			on = way{out.y, -out.x}
		}
	}
	by := float64(doubleApart)
	return Line{NotchLine, false, []shape.Point{moved(n.Cut, on, by), moved(n.Seam, on, by)}}
}

// arrow draws the grain: a shaft with a head at its upper end.
func (p Pattern) arrow() []Line {
	foot, head := p.Grain.Foot, p.Grain.Head
	dx, dy := float64(head.X-foot.X), float64(head.Y-foot.Y)
	long := geom.Hypot(dx, dy)
	if long == 0 {
		return nil
	}
	// The barbs are a tenth of the shaft long, within reason.
	barb := min(max(long/10, float64(2*unit.Millimetre)), float64(8*unit.Millimetre))
	ux, uy := float64(dx/long*barb), float64(dy/long*barb)
	back := func(side float64) shape.Point {
		return shape.Point{X: head.X + unit.Length(math.Round(-ux-float64(side*uy))), Y: head.Y + unit.Length(math.Round(-uy+float64(side*ux)))}
	}
	return []Line{
		{GrainLine, false, []shape.Point{foot, head}},
		{GrainLine, false, []shape.Point{back(0.5), head, back(-0.5)}},
	}
}
