package pattern

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// Landing is where a motif falls on a piece.
type Landing struct {
	// At is from the lower left corner of the box round the cut line; it may lie off
	// the piece, up to 50 m.
	At shape.Point `json:"at"`
	// Way is how the pattern binds the piece: across alone it is a stripe, along alone
	// a level.
	Way allowance.PatternWay `json:"way"`
}

// Words says where the motif lies from the middle line and from the seam line below,
// to the nearest step: "motif on the middle line, 12 in above the lower seam line".
// A piece without a seam line is measured from its cut edge. No way gives no words.
func (l Landing) Words(p Pattern, u Units) string {
	x, y, edge := l.from(p)
	side := "on the middle line"
	switch {
	case x > slack:
		side = u.Length(x, unit.Nearest) + " right of the middle"
	case -x > slack:
		side = u.Length(-x, unit.Nearest) + " left of the middle"
	}
	height := "on the lower " + edge
	switch {
	case y > slack:
		height = u.Length(y, unit.Nearest) + " above the lower " + edge
	case -y > slack:
		height = u.Length(-y, unit.Nearest) + " below the lower " + edge
	}
	switch l.Way {
	case allowance.BothWays:
		return "motif " + side + ", " + height
	case allowance.AcrossOnly:
		return "stripe " + side
	case allowance.AlongOnly:
		return "motifs " + height
	}
	return ""
}

// slack is how far off a motif may lie without a word.
const slack = unit.Millimetre / 10

// from measures from the middle line and from the seam line below.
func (l Landing) from(p Pattern) (x, y unit.Length, edge string) {
	box, edge := boxOf(p.Seam.Outer), "seam line"
	if len(p.Seam.Outer) == 0 {
		box, edge = p.Bounds(), "cut edge"
	}
	at := l.on(p)
	return at.X - box.Low.X - (box.High.X-box.Low.X)/2, at.Y - box.Low.Y, edge
}

// on gives the motif in the axes of the pattern.
func (l Landing) on(p Pattern) shape.Point {
	low := p.Bounds().Low
	return shape.Point{X: low.X + l.At.X, Y: low.Y + l.At.Y}
}

// Sizes of the drawing of a landing, in user units.
const (
	landingWide, landingHigh = 160.0, 130.0
	landingBeside            = 40.0 // for the dimensions
	landingFoot              = 30.0
)

// Draw draws the piece small, with its middle line, the motif, and how far it lies
// from the middle and from the seam line below. A stripe is a bar up the piece, a level
// a bar across. Errors are those of [Pattern.Check], of units, and of At and Way.
func (l Landing) Draw(p Pattern, u Units) (string, error) {
	if err := p.ready(u); err != nil {
		return "", err
	}
	if err := check.OneOf("way", l.Way.String(), allowance.AcrossOnly.String(), allowance.AlongOnly.String(), allowance.BothWays.String()); err != nil {
		return "", err
	}
	if max(l.At.X, -l.At.X, l.At.Y, -l.At.Y) > 50*unit.Metre {
		return "", check.Refuse("at", l.At.String(), unit.ErrRange, "a point within 50 m")
	}
	b, at := p.Bounds(), l.on(p)
	all := Box{shape.Point{X: min(b.Low.X, at.X), Y: min(b.Low.Y, at.Y)}, shape.Point{X: max(b.High.X, at.X), Y: max(b.High.Y, at.Y)}}
	wide, high := float64(max(all.High.X-all.Low.X, 1)), float64(max(all.High.Y-all.Low.Y, 1))
	foot := 8.0
	if x, _, _ := l.from(p); max(x, -x) > slack && l.Way != allowance.AlongOnly {
		foot = landingFoot
	}
	scale := min((landingWide-2*landingBeside)/wide, (landingHigh-foot-12)/high)
	height := hundredth(float64(high*scale)) + foot + 12
	v := view{all, hundredth((landingWide - float64(wide*scale)) / 2), 12, scale}
	if _, y, _ := l.from(p); max(y, -y) > slack && l.Way != allowance.AcrossOnly { // its figure runs up the page
		middle := (v.at(at).Y + v.at(shape.Point{X: at.X, Y: at.Y - y}).Y) / 2
		half := svg.TextWidth(u.Length(max(y, -y), unit.Nearest), 11)/2 + 2
		more := max(half-middle, 0)
		v.top, height = hundredth(v.top+more), hundredth(max(height+more, middle+more+half))
	}
	d := svg.New(landingWide, height, fmt.Sprintf("%s: %s", p.title(), l.Words(p, u)))
	lines := byKind(p.Lines())
	drawLines(d, lines[CutLine], v.at, 2, "#fff")
	drawLines(d, lines[SeamLine], v.at, 2, "none")
	l.measured(d, p, v, u)
	c := v.at(at)
	low, top := v.at(b.Low), v.at(b.High)
	bar := svg.Attrs("class", "bar", "stroke", "#000", "stroke-width", "2")
	switch l.Way {
	case allowance.AcrossOnly:
		d.Line(svg.Point{X: c.X, Y: low.Y}, svg.Point{X: c.X, Y: top.Y}, bar...)
	case allowance.AlongOnly:
		d.Line(svg.Point{X: low.X, Y: c.Y}, svg.Point{X: top.X, Y: c.Y}, bar...)
	default:
		d.Polygon(bud(c, 9), svg.Attrs("class", "motif", "fill", "#000")...)
	}
	return d.String(), nil
}

// measured draws the middle line and the dimensions.
func (l Landing) measured(d *svg.Drawing, p Pattern, v view, u Units) {
	x, y, _ := l.from(p)
	at := l.on(p)
	c, low, high := v.at(at), v.at(v.box.Low), v.at(v.box.High)
	if l.Way != allowance.AlongOnly {
		m := v.at(shape.Point{X: at.X - x, Y: at.Y})
		d.Line(svg.Point{X: m.X, Y: low.Y + 3}, svg.Point{X: m.X, Y: high.Y - 3}, svg.Attrs("class", "middle", "stroke", "#777", "stroke-width", "0.7", "stroke-dasharray", "7 3 1 3")...)
		if max(x, -x) > slack {
			left, right := min(m.X, c.X), max(m.X, c.X)
			foot := low.Y + 14
			d.Dimension(svg.Point{X: left, Y: foot}, svg.Point{X: right, Y: foot}, u.Length(max(x, -x), unit.Nearest), svg.Point{X: left, Y: low.Y}, svg.Point{X: right, Y: low.Y})
		}
	}
	if l.Way != allowance.AcrossOnly && max(y, -y) > slack {
		s := v.at(shape.Point{X: at.X, Y: at.Y - y})
		bottom, top := max(s.Y, c.Y), min(s.Y, c.Y)
		side := high.X + 14
		d.Dimension(svg.Point{X: side, Y: bottom}, svg.Point{X: side, Y: top}, u.Length(max(y, -y), unit.Nearest), svg.Point{X: high.X, Y: bottom}, svg.Point{X: c.X, Y: top})
	}
}
