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
	FoldLine
)

var kindNames = []string{"cut", "trim", "seam", "notch", "mark", "grain", "fold"}

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
	FoldLine:  {450 * unit.Micrometre, []unit.Length{8000 * unit.Micrometre, 1500 * unit.Micrometre, 1500 * unit.Micrometre, 1500 * unit.Micrometre}},
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

// Lines lists the lines of the pattern in the order of their kinds. Those of a half
// that end on the fold are open.
func (p Pattern) Lines() []Line {
	var out []Line
	for k, c := range []shape.Contour{CutLine: p.Cut, TrimLine: p.Trim, SeamLine: p.Seam} {
		for _, l := range rings(c) {
			out = append(out, Line{Kind(k), !p.folded(), l})
		}
	}
	for i, n := range p.Notches {
		double := i < len(p.Letters) && p.Letters[i].Double
		for _, l := range p.notch(n, double) {
			out = append(out, Line{NotchLine, false, l})
		}
	}
	const arm = 5 * unit.Millimetre
	for _, m := range p.Marks {
		out = append(out, Line{MarkLine, false, []shape.Point{{X: m.X - arm, Y: m.Y}, {X: m.X + arm, Y: m.Y}}},
			Line{MarkLine, false, []shape.Point{{X: m.X, Y: m.Y - arm}, {X: m.X, Y: m.Y + arm}}})
	}
	out = append(out, p.arrow()...)
	if p.folded() {
		out = append(out, Line{FoldLine, false, []shape.Point{p.Fold.From, p.Fold.To}})
	}
	return out
}

// doubleApart is the distance of the two lines of a double notch.
const doubleApart = unit.Inch / 4

// notch draws a notch; a double one as two lines with the place between them, so
// that it lies on its like whichever way the edges run. At the end of an edge both
// move inwards.
func (p Pattern) notch(n allowance.CutNotch, double bool) [][]shape.Point {
	if !double {
		return [][]shape.Point{{n.Cut, n.Seam}}
	}
	first := -doubleApart / 2
	for _, e := range p.Edges {
		if e.Name == n.Edge {
			first = min(max(first, -n.At), e.Length-n.At-doubleApart)
		}
	}
	out := direction(n.Seam, n.Cut)
	on := way{-out.y, out.x}
	var lines [][]shape.Point
	for _, by := range []float64{float64(first), float64(first + doubleApart)} {
		lines = append(lines, []shape.Point{moved(n.Cut, on, by), moved(n.Seam, on, by)})
	}
	return lines
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
