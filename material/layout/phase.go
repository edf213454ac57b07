package layout

import (
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Phase says how a piece lies on the pattern of a roll: one of its points falls
// on a motif. On goods without a pattern, and on hides, it means nothing. The
// zero value puts the origin of the outline's axes on a motif.
type Phase struct {
	// Axes are the directions in which the pattern binds the piece.
	Axes Axes `json:"axes,omitzero"`
	// Spots are the points that may lie on a motif, one of them does; none
	// means the origin. At most 64.
	Spots []Spot `json:"spots,omitempty"`
	// Common numbers pieces that lie on the pattern alike, wherever that is, from
	// 1 to 64: as if the motifs were moved for all of them together, by as much as
	// serves the layout best. Zero lies on the motifs where they are.
	Common int `json:"common,omitzero"`
}

// Spot is a point of a piece that may lie on a motif, in the axes of its
// outline; it may lie outside the piece. Of a mirrored copy it is the mirrored
// point.
type Spot struct {
	Point shape.Point `json:"point"`
	// Degrees are the turns at which the point holds, 0 for upright on the
	// pattern, 90, 180 or 270 anticlockwise; none means every turn that the piece
	// may take.
	Degrees []int `json:"degrees,omitempty"`
}

const (
	mostSpots  = 64
	mostCommon = 64
)

// OnMotif gives the phase of a piece that has one point on a motif.
func OnMotif(p shape.Point) Phase { return Phase{Spots: []Spot{{Point: p}}} }

// Axes are the directions in which a pattern binds a piece, as the pattern is
// seen upright.
type Axes uint8

const (
	// BothAxes binds both ways, where the goods repeat.
	BothAxes Axes = iota
	// AcrossOnly binds to the columns of the pattern, at any height, as on
	// stripes.
	AcrossOnly
	// AlongOnly binds to the height of the motifs, in any column.
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

// across and along tell which repeats bind the piece on goods that run up the
// roll.
func (p Phase) across(r material.Roll) bool {
	return r.Across != 0 && (p.Axes == BothAxes || p.Axes == AcrossOnly)
}

func (p Phase) along(r material.Roll) bool {
	return r.Repeat != 0 && (p.Axes == BothAxes || p.Axes == AlongOnly)
}

// spots are the points that may lie on a motif, at least one.
func (p Phase) spots() []Spot {
	if len(p.Spots) == 0 {
		return []Spot{{}}
	}
	return p.Spots
}

// holds tells whether the spot counts at a turn.
func (s Spot) holds(degrees int) bool {
	return len(s.Degrees) == 0 || slices.Contains(s.Degrees, degrees)
}

// turned gives the phase for the outline turned anticlockwise by quarters.
func (p Phase) turned(quarters int) Phase {
	p.Spots = slices.Clone(p.Spots)
	for i, s := range p.Spots {
		p.Spots[i].Point = turnedPoint(s.Point, quarters)
	}
	return p
}

// aside gives the axes of a pattern that is turned by a quarter.
func (a Axes) aside() Axes {
	switch a {
	case AcrossOnly:
		return AlongOnly
	case AlongOnly:
		return AcrossOnly
	}
	return a
}

func (p Phase) check() error {
	if err := enum.Check(p.Axes, "axes", axesNames); err != nil {
		return err
	}
	if err := check.Count("spots", len(p.Spots), 0, mostSpots); err != nil {
		return err
	}
	if err := check.Count("common", p.Common, 0, mostCommon); err != nil {
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
		for k, d := range s.Degrees {
			if d != 0 && d != 90 && d != 180 && d != 270 {
				return check.Refuse(check.At(at+".degrees", k), fmt.Sprint(d), unit.ErrRange, "0, 90, 180 or 270")
			}
		}
	}
	return nil
}

// held tells whether some point counts at a turn that the piece may take.
func (p Phase) held(angles []int64) bool {
	for _, s := range p.spots() {
		for _, a := range angles {
			if s.holds(int(a / 1_000_000)) {
				return true
			}
		}
	}
	return false
}
