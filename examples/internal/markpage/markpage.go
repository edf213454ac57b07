// Package markpage is the geometry of the page of marks: printed by one program,
// laid beside a panel, photographed, and read by another.
//
// A mark is a black ring with a dot in a white field. A page carries eight, two
// beside each other and four up the page, at the same places on every paper, so
// that no reader can take one paper for the other. One mark has no dot: it says
// which way the page is turned. Places run from that mark, X to the right and Y up
// the page as printed.
package markpage

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// Sizes of a mark as parts of its radius.
const (
	Inner  = 0.66 // of the white field in the ring
	Dot    = 0.33 // of the dot
	Margin = 1.4  // of the white field round the ring
)

// Sizes of the page.
const (
	Radius = 15 * unit.Millimetre  // of the ring, to its outside
	Across = 160 * unit.Millimetre // from one column of marks to the other
	Up     = 75 * unit.Millimetre  // from one row of marks to the next

	Columns, Rows = 2, 4
)

// The paper the marks stand in the middle of is at most this large.
const (
	PaperAcross = 216 * unit.Millimetre
	PaperUp     = 297 * unit.Millimetre
)

// Mark is one mark of the page.
type Mark struct {
	At  shape.Point // its centre
	Odd bool        // it has no dot
}

// Marks are the marks of a page, the odd one first, then along the rows and up
// the page.
func Marks() []Mark {
	var out []Mark
	for r := range Rows {
		for c := range Columns {
			out = append(out, Mark{At: shape.Point{X: unit.Length(c) * Across, Y: unit.Length(r) * Up}, Odd: r == 0 && c == 0})
		}
	}
	return out
}

// Paper gives the lower left and the upper right corner of the largest paper.
func Paper() (low, high shape.Point) {
	mid := shape.Point{X: (Columns - 1) * Across / 2, Y: (Rows - 1) * Up / 2}
	return shape.Point{X: mid.X - PaperAcross/2, Y: mid.Y - PaperUp/2}, shape.Point{X: mid.X + PaperAcross/2, Y: mid.Y + PaperUp/2}
}

// Lines are the two lines on a page that are measured to see how the printer
// scaled it.
type Lines struct{ Across, Up unit.Length }

// Measured are the lines by paper, A4 and Letter: round sizes on the rule that goes
// with it. Their proportions differ by a tenth, more than any printer scales one
// way and not the other, so two measured lengths tell the paper.
func Measured() (a4, letter Lines) {
	return Lines{150 * unit.Millimetre, 250 * unit.Millimetre}, Lines{6 * unit.Inch, 9 * unit.Inch}
}
