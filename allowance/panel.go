package allowance

import (
	"maps"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Panel is a panel of any shape as it will be seen when finished. The zero
// value of AllEdges is a plain seam; a panel without an outline is refused.
type Panel struct {
	Name    string        `json:"name,omitempty"`
	Outline shape.Outline `json:"outline,omitzero"`

	AllEdges Edge `json:"all_edges,omitzero"` // of every edge that Edges does not name
	// Edges are by the names of Outline.Edges. That of an edge of a half outline
	// (see shape.Half) is also that of its mirror image, unless it is named too.
	Edges map[string]Edge `json:"edges,omitempty"`

	Across Stretch `json:"across,omitzero"` // fit of the width
	Along  Stretch `json:"along,omitzero"`  // fit of the height

	Corner shape.Corner `json:"corner,omitzero"`
	// MitreLimit is from 1 to 100; zero means
	// shape.DefaultMitreLimit.
	MitreLimit unit.Ratio `json:"mitre_limit,omitzero"`
	// Tolerance is the largest distance of cut, trim and seam line from the
	// true curves: from 10 micrometres to 10 mm; zero means
	// shape.DefaultTolerance.
	Tolerance unit.Length `json:"tolerance,omitzero"`

	Notches []Notch `json:"notches,omitempty"`
}

// Notch is a mark at the edge of the cloth that meets its like on the panel to
// be joined.
type Notch struct {
	Edge string `json:"edge" required:"true" hint:"the name of an edge"`
	// At is measured along the seam line of the cut panel from the start of
	// the edge, anticlockwise. From 0 to the length of the edge.
	At unit.Length `json:"at" required:"true" hint:"how far along the edge"`
	// OneHalf keeps a notch of a half outline off its mirror image, which has it
	// otherwise, unless another notch is named there.
	OneHalf bool `json:"one_half,omitzero"`
}

// options checks the settings of one Cut: a margin for each edge of the outline,
// and how lines are drawn.
func (p Panel) options() ([]Margin, shape.OffsetOptions, error) {
	var o shape.OffsetOptions
	if p.Outline.IsZero() {
		return nil, o, check.Required("outline", "one of the outlines of package shape")
	}
	all, allErr := p.AllEdges.Resolve()
	names := p.Outline.Edges()
	margins := make([]Margin, len(names))
	for i, name := range names {
		e, key, ok := ownOf(p.Edges, name)
		if !ok {
			if allErr != nil {
				return nil, o, unit.InField("all_edges", allErr)
			}
			margins[i] = all
			continue
		}
		m, err := e.Resolve()
		if err != nil {
			return nil, o, unit.InField("edges."+key, err)
		}
		margins[i] = m
	}
	for _, name := range slices.Sorted(maps.Keys(p.Edges)) {
		if err := check.OneOf("edges", name, names...); err != nil {
			return nil, o, err
		}
	}
	o, err := shape.OffsetOptions{Corner: p.Corner, MitreLimit: p.MitreLimit, Tolerance: p.Tolerance}.Checked()
	return margins, o, err
}
