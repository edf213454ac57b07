package allowance

import (
	"maps"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Corner is how the cut line goes round an outward corner, between the
// allowances of two edges.
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
func (c Corner) String() string { return nameOf(c, "corner", cornerNames[:]) }

// MarshalText writes the name.
func (c Corner) MarshalText() ([]byte, error) { return marshalName(c, "corner", cornerNames[:]) }

// UnmarshalText reads a name as String writes it.
func (c *Corner) UnmarshalText(text []byte) error {
	v, err := parseName[Corner](string(text), "corner", cornerNames[:])
	if err == nil {
		*c = v
	}
	return err
}

// DefaultMitreLimit is how far out a mitred point may lie, in allowances, where
// no limit is given. It keeps the point of corners down to about 29 degrees.
const DefaultMitreLimit unit.Ratio = geom.DefaultMitreLimit

// Panel is a panel of any shape as it will be seen when finished. The zero
// value of AllEdges is a plain seam; a panel without an outline is refused.
type Panel struct {
	Name    string  `json:"name,omitempty"`
	Outline Outline `json:"outline,omitzero"`

	AllEdges Edge            `json:"all_edges,omitzero"` // of every edge that Edges does not name
	Edges    map[string]Edge `json:"edges,omitempty"`    // by the names of Outline.Edges

	Across Stretch `json:"across,omitzero"` // fit of the width
	Along  Stretch `json:"along,omitzero"`  // fit of the height

	Corner Corner `json:"corner,omitzero"`
	// MitreLimit is from 1 to 100; zero means DefaultMitreLimit.
	MitreLimit unit.Ratio `json:"mitre_limit,omitzero"`
	// Tolerance is the largest distance of cut, trim and seam line from the
	// true curves: from 10 micrometres to 10 mm; zero means
	// DefaultChordTolerance.
	Tolerance unit.Length `json:"tolerance,omitzero"`

	Notches []Notch `json:"notches,omitempty"`
}

// Notch is a mark at the edge of the cloth that meets its like on the panel to
// be joined.
type Notch struct {
	Edge string `json:"edge"`
	// At is measured along the seam line of the cut panel from the start of
	// the edge, anticlockwise. From 0 to the length of the edge.
	At unit.Length `json:"at"`
}

// options are the checked settings of one Cut.
type options struct {
	margins   []Margin // one for each edge of the outline
	limit     float64
	tolerance int64
}

func (p Panel) options() (options, error) {
	var o options
	if p.Outline.IsZero() {
		return o, check.Required("outline", "one of the outlines of this package")
	}
	all, allErr := p.AllEdges.Resolve()
	o.margins = make([]Margin, len(p.Outline.sides))
	named := 0
	for i, s := range p.Outline.sides {
		e, ok := p.Edges[s.name]
		if !ok {
			if allErr != nil {
				return o, unit.InField("all_edges", allErr)
			}
			o.margins[i] = all
			continue
		}
		named++
		m, err := e.Resolve()
		if err != nil {
			return o, unit.InField("edges."+s.name, err)
		}
		o.margins[i] = m
	}
	if named < len(p.Edges) {
		names := p.Outline.Edges()
		for _, name := range slices.Sorted(maps.Keys(p.Edges)) {
			if err := check.OneOf("edges", name, names...); err != nil {
				return o, err
			}
		}
	}
	if err := check.OneOf("corner", p.Corner.String(), cornerNames[:]...); err != nil {
		return o, err
	}
	o.limit = float64(p.MitreLimit)
	if p.MitreLimit == 0 {
		o.limit = float64(DefaultMitreLimit)
	} else if err := check.Ratio("mitre_limit", p.MitreLimit, 1, 100); err != nil {
		return o, err
	}
	o.tolerance = int64(p.Tolerance)
	if p.Tolerance == 0 {
		o.tolerance = int64(DefaultChordTolerance)
	} else if err := check.Length("tolerance", p.Tolerance, 10*unit.Micrometre, 10*unit.Millimetre); err != nil {
		return o, err
	}
	return o, nil
}
