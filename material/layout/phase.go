package layout

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Phase says how a piece lies on the pattern of a roll: one of its points falls
// on a motif. Motifs lie at whole sums of two steps from the lower left corner
// of the usable width. On goods without a pattern, and on hides, it means
// nothing. The zero value puts the origin of the outline's axes on a motif.
type Phase struct {
	// Axes are the directions in which the pattern binds the piece.
	Axes Axes `json:"axes,omitzero"`
	// Spots are the points that may lie on a motif, one of them does; none
	// means the origin.
	Spots []Spot `json:"spots,omitempty"`
	// Steps are the two steps from motif to motif; zero takes those of the goods:
	// one repeat up the roll, and one repeat across with its fall.
	Steps Steps `json:"steps,omitzero"`
	// Common numbers pieces that lie on the pattern as one, wherever that is,
	// from 1; zero lies on the motif itself.
	Common int `json:"common,omitzero"`
}

// Steps are the two steps that lead from motif to motif.
type Steps struct {
	Up     shape.Point `json:"up"`
	Across shape.Point `json:"across"`
}

// Spot is a point of a piece that may lie on a motif, in the axes of its
// outline. Of a mirrored copy it is the mirrored point.
type Spot struct {
	Point shape.Point `json:"point"`
	// Degrees are the turns at which the point holds; none means every turn
	// that the piece may take.
	Degrees []int `json:"degrees,omitempty"`
}

// OnMotif gives the phase of a piece that has one point on a motif.
func OnMotif(p shape.Point) Phase { return Phase{Spots: []Spot{{Point: p}}} }

// Axes are the directions in which a pattern binds a piece.
type Axes uint8

const (
	// BothAxes binds across and along the roll, where the goods repeat.
	BothAxes Axes = iota
	// AcrossOnly binds across the roll, as on stripes.
	AcrossOnly
	// AlongOnly binds along the roll.
	AlongOnly
	// Unbound pieces lie anywhere: welt strips, hidden bands.
	Unbound
)

var axesNames = []string{"both axes", "across only", "along only", "unbound"}

// String gives the name.
func (a Axes) String() string { return enum.Name(a, "axes", axesNames) }

// MarshalText writes the name; unknown axes wrap unit.ErrUnknown.
func (a Axes) MarshalText() ([]byte, error) { return enum.Text(a, "axes", axesNames) }

// UnmarshalText reads a name as String writes it.
func (a *Axes) UnmarshalText(text []byte) error { return enum.Read(a, text, "axes", axesNames) }

// across and along tell which repeats of the goods bind the piece.
func (p Phase) across(r material.Roll) bool {
	return r.Across != 0 && (p.Axes == BothAxes || p.Axes == AcrossOnly)
}

func (p Phase) along(r material.Roll) bool {
	return r.Repeat != 0 && (p.Axes == BothAxes || p.Axes == AlongOnly)
}

// point is the point that lies on a motif.
func (p Phase) point() shape.Point {
	if len(p.Spots) == 0 {
		return shape.Point{}
	}
	return p.Spots[0].Point
}

func (p Phase) check() error {
	if err := enum.Check(p.Axes, "axes", axesNames); err != nil {
		return err
	}
	for i, s := range p.Spots {
		at := check.At("spots", i)
		for _, c := range []struct {
			field string
			v     unit.Length
		}{{at + ".point.x", s.Point.X}, {at + ".point.y", s.Point.Y}} {
			if err := check.Between(c.field, c.v, -50*unit.Metre, 50*unit.Metre); err != nil {
				return err
			}
		}
	}
	return nil
}

// laid refuses what no engine lays yet; the error wraps ErrNotLaid.
func (p Phase) laid(r material.Roll) error {
	switch {
	case len(p.Spots) > 1:
		return check.Refuse("spots", fmt.Sprint(len(p.Spots)), ErrNotLaid, "one point")
	case len(p.Spots) == 1 && len(p.Spots[0].Degrees) > 0:
		return check.Refuse("spots[0].degrees", fmt.Sprint(p.Spots[0].Degrees), ErrNotLaid, "one point for all turns")
	case p.Common != 0:
		return check.Refuse("common", fmt.Sprint(p.Common), ErrNotLaid, "a place on the motif itself")
	case p.Steps != Steps{} && p.Steps != Steps{Up: shape.Point{Y: r.Repeat}, Across: shape.Point{X: r.Across, Y: r.Fall(1)}}:
		return check.Refuse("steps", fmt.Sprintf("%v and %v", p.Steps.Up, p.Steps.Across), ErrNotLaid, "the steps of the goods")
	case r.Drop != (material.Drop{}) && p.Axes != BothAxes:
		return check.Refuse("axes", p.Axes.String(), ErrNotLaid, "both axes, or unbound, on goods with a drop")
	}
	return nil
}
