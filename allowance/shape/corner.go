package shape

import (
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Corner is how the cut line goes round an outward corner, between the
// allowances of two edges: [MitredCorner], [SquareCorner], [ClippedCorner] or
// [RoundCorner]. The zero value is mitred.
//
// Drawing: allowance/doc/corners.svg
type Corner uint8

const (
	// MitredCorner carries both lines on until they meet. A point further out
	// than MitreLimit allowances is cut off square.
	MitredCorner Corner = iota
	// SquareCorner cuts the point off square, one allowance from the corner.
	SquareCorner
	// ClippedCorner cuts straight from line to line, so that least is left in
	// a turned corner.
	ClippedCorner
	// RoundCorner goes round in an arc, one allowance from the corner.
	RoundCorner
)

var cornerNames = [...]string{"mitred", "square", "clipped", "round"}

// String gives the name, such as "mitred".
func (c Corner) String() string { return enum.Name(c, "corner", cornerNames[:]) }

// MarshalText writes the name.
func (c Corner) MarshalText() ([]byte, error) { return enum.Text(c, "corner", cornerNames[:]) }

// UnmarshalText reads a name as String writes it.
func (c *Corner) UnmarshalText(text []byte) error {
	return enum.Read(c, text, "corner", cornerNames[:])
}

// DefaultMitreLimit is how far out a mitred point may lie, in allowances, where
// no limit is given. It keeps the point of corners down to about 29 degrees.
const DefaultMitreLimit unit.Ratio = geom.DefaultMitreLimit
