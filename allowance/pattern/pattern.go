package pattern

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// Pattern is a piece as it is drawn. Its lines share the axes of the panel; the
// zero value has no cut line and is refused.
type Pattern struct {
	Name  string   `json:"name,omitempty"`
	Notes []string `json:"notes,omitempty"` // lines written under the name
	Goods string   `json:"goods,omitempty"` // what it is cut of
	Count int      `json:"count,omitzero"`  // how many to cut, up to a million; zero means one
	// Pair says that every second copy is cut mirrored.
	Pair bool `json:"pair,omitzero"`
	// Mirrored says that this is the other hand of the piece; see Mirror.
	Mirrored bool `json:"mirrored,omitzero"`
	// Width and Length are the size of the true cut line, which chords may
	// fall short of; zero means that of Cut.
	Width  unit.Length `json:"width,omitzero"`
	Length unit.Length `json:"length,omitzero"`

	Cut      shape.Contour         `json:"cut"`
	Trim     shape.Contour         `json:"trim,omitzero"`     // where it is not the cut line
	Seam     shape.Contour         `json:"seam,omitzero"`     // sewn or folded
	Finished shape.Contour         `json:"finished,omitzero"` // in place, for Picture alone
	Edges    []allowance.PanelEdge `json:"edges,omitempty"`   // anticlockwise from the first point of Seam
	Notches  []allowance.CutNotch  `json:"notches,omitempty"`
	Marks    []shape.Point         `json:"marks,omitempty"` // places to mark on the goods, such as buttons
	Grain    allowance.GrainArrow  `json:"grain,omitzero"`

	// Of a piece of a cover: which of a pair it is, what becomes of its edges,
	// and the letters of its first notches, in their order.
	Hand    allowance.Hand        `json:"hand,omitzero"`
	Uses    []allowance.EdgeUse   `json:"uses,omitempty"`
	Letters []allowance.PieceMark `json:"letters,omitempty"`

	// Fold says that this is half of a piece; see Half. Width and Length then are
	// those of the whole.
	Fold Fold `json:"fold,omitzero"`
}

// Of draws up a cut panel: its seam, trim and cut line, notches, grain arrow
// and size. The trim line is left out where no edge has a handling margin.
func Of(c allowance.PanelCut) Pattern {
	p := Pattern{Name: c.Name, Width: c.Width, Length: c.Height, Cut: c.CutLine, Seam: c.SeamLine, Edges: c.Edges, Notches: c.Notches, Grain: c.Grain}
	for _, e := range c.Edges {
		if e.Handling > 0 {
			p.Trim = c.TrimLine
		}
	}
	return p
}

// Strip draws up a plain rectangle, width across the goods and length along the
// grain, with an arrow in its middle half. Both from 10 micrometres to 1 km.
func Strip(width, length unit.Length) (Pattern, error) {
	if err := check.Positives([]string{"width", "length"}, width, length); err != nil {
		return Pattern{}, err
	}
	p := Pattern{Width: width, Length: length, Cut: Box{High: shape.Point{X: width, Y: length}}.contour()}
	p.Grain = allowance.GrainArrow{Foot: shape.Point{X: width / 2, Y: length / 4}, Head: shape.Point{X: width / 2, Y: length - length/4}}
	return p, nil
}

// Check finds what cannot be drawn: a cut line missing, a line of fewer than
// three points, a point further than 1 km from the origin, a count below zero, a fold
// off the ends of the lines.
func (p Pattern) Check() error {
	if len(p.Cut.Outer) == 0 {
		return check.Required("cut", "the cut line")
	}
	for _, k := range []struct {
		field   string
		contour shape.Contour
	}{{"cut", p.Cut}, {"trim", p.Trim}, {"seam", p.Seam}, {"finished", p.Finished}} {
		for i, l := range rings(k.contour) {
			field := k.field + ".outer"
			if i > 0 {
				field = check.At(k.field+".holes", i-1)
			}
			if len(l) < 3 {
				return check.Count(field, len(l), 3, 1<<31-1)
			}
			if err := inRange(field, l...); err != nil {
				return err
			}
		}
	}
	for i, n := range p.Notches {
		if err := inRange(check.At("notches", i), n.Seam, n.Cut); err != nil {
			return err
		}
	}
	if err := check.Count("letters", len(p.Letters), 0, len(p.Notches)); err != nil {
		return err
	}
	if err := p.checkFold(); err != nil {
		return err
	}
	if err := inRange("marks", p.Marks...); err != nil {
		return err
	}
	if err := inRange("grain", p.Grain.Foot, p.Grain.Head); err != nil {
		return err
	}
	for _, l := range []struct {
		field string
		size  unit.Length
	}{{"width", p.Width}, {"length", p.Length}} {
		if err := check.NotNegative(l.field, l.size); err != nil {
			return err
		}
	}
	return check.Count("count", p.Count, 0, 1_000_000)
}

func inRange(field string, points ...shape.Point) error {
	for i, q := range points {
		if err := check.Between(fmt.Sprintf("%s[%d].x", field, i), q.X, -check.Longest, check.Longest); err != nil {
			return err
		}
		if err := check.Between(fmt.Sprintf("%s[%d].y", field, i), q.Y, -check.Longest, check.Longest); err != nil {
			return err
		}
	}
	return nil
}

// ready checks a pattern and the units it is to be drawn in.
func (p Pattern) ready(u Units) error {
	if err := enum.Check(u, "units", unitNames); err != nil {
		return err
	}
	return p.Check()
}

// Bounds gives the box round the cut line as it is drawn.
func (p Pattern) Bounds() Box { return boxOf(p.Cut.Outer) }

// size gives the size of the true cut line.
func (p Pattern) size() (width, length unit.Length) {
	b := p.Bounds()
	width, length = p.Width, p.Length
	if width == 0 {
		width = b.High.X - b.Low.X
	}
	if length == 0 {
		length = b.High.Y - b.Low.Y
	}
	return width, length
}

// Straight tells whether a rule will do: the cut line is a rectangle along the
// axes and nothing is marked inside it.
func (p Pattern) Straight() bool {
	if len(p.Cut.Outer) == 0 || len(p.Cut.Holes) > 0 || len(p.Marks) > 0 {
		return false
	}
	b := p.Bounds()
	for i, q := range p.Cut.Outer {
		r := p.Cut.Outer[(i+1)%len(p.Cut.Outer)]
		if q.X != b.Low.X && q.X != b.High.X && q.Y != b.Low.Y && q.Y != b.High.Y || q.X != r.X && q.Y != r.Y {
			return false
		}
	}
	return true
}

// Box is an upright rectangle by its lower left and upper right corner.
type Box struct {
	Low  shape.Point `json:"low"`
	High shape.Point `json:"high"`
}

func (b Box) contour() shape.Contour {
	return shape.Contour{Outer: []shape.Point{b.Low, {X: b.High.X, Y: b.Low.Y}, b.High, {X: b.Low.X, Y: b.High.Y}}}
}

func boxOf(points []shape.Point) Box {
	var b Box
	for i, q := range points {
		if i == 0 {
			b = Box{q, q}
		}
		b.Low.X, b.Low.Y = min(b.Low.X, q.X), min(b.Low.Y, q.Y)
		b.High.X, b.High.Y = max(b.High.X, q.X), max(b.High.Y, q.Y)
	}
	return b
}

// rings gives the border of a contour and its holes.
func rings(c shape.Contour) [][]shape.Point {
	if len(c.Outer) == 0 {
		return nil
	}
	return append([][]shape.Point{c.Outer}, c.Holes...)
}
