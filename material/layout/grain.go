package layout

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// Grain says which way the top of a piece may point: anticlockwise from the
// neck end of the backbone, or from up the roll. The zero value keeps it as
// drawn.
type Grain struct {
	// Free lets the piece lie at any angle; then Angles and Tolerance are
	// empty.
	Free bool `json:"free,omitempty"`
	// Angles are the directions allowed; none means 0 alone. At most 72.
	Angles []unit.Angle `json:"angles,omitempty"`
	// Tolerance is how far the piece may be off them, either way; from 0 to
	// 90 degrees.
	Tolerance unit.Angle `json:"tolerance,omitzero"`
}

// FreeGrain lets a piece lie at any angle.
func FreeGrain() Grain { return Grain{Free: true} }

// EitherWay lets a piece lie along the backbone with its top to either end,
// off by a tolerance.
func EitherWay(tolerance unit.Angle) Grain {
	return Grain{Angles: []unit.Angle{0, 180}, Tolerance: tolerance}
}

func (g Grain) check() error {
	if g.Free && (len(g.Angles) > 0 || g.Tolerance != 0) {
		return check.Refuse("free", "true", unit.ErrRange, "no angles or tolerance beside it")
	}
	if err := check.Count("angles", len(g.Angles), 0, 72); err != nil {
		return err
	}
	for i, a := range g.Angles {
		if err := check.Angle(fmt.Sprintf("angles[%d]", i), a); err != nil {
			return err
		}
	}
	if err := g.Tolerance.Check(); err != nil {
		return unit.InField("tolerance", err)
	}
	return check.Between("tolerance", g.Tolerance, 0, 90)
}

// Hand says whether a piece may be turned over: [AsDrawn], [EitherHand] or
// [Paired]. The zero value keeps it as drawn.
type Hand uint8

const (
	// AsDrawn keeps the hand of the drawing.
	AsDrawn Hand = iota
	// EitherHand lets the piece be cut as drawn or mirrored.
	EitherHand
	// Paired cuts every second copy mirrored: copies 0, 2, 4 … as drawn,
	// 1, 3, 5 … mirrored.
	Paired
)

var handNames = []string{"as drawn", "either hand", "paired"}

// String gives the name.
func (h Hand) String() string { return enum.Name(h, "hand", handNames) }

// MarshalText writes the name; an unknown hand wraps unit.ErrUnknown.
func (h Hand) MarshalText() ([]byte, error) { return enum.Text(h, "hand", handNames) }

// UnmarshalText reads a name as String writes it.
func (h *Hand) UnmarshalText(text []byte) error { return enum.Read(h, text, "hand", handNames) }

// StretchWish asks that a direction of the piece lies along the stretch of the
// leather under it. A piece with a wish lies only where every angle that it may
// take meets the wish; ground whose stretch is not known counts as met.
type StretchWish struct {
	// Axis is the direction of the piece that shall stretch most,
	// anticlockwise from across the piece: 0 across, 90 degrees along.
	Axis      unit.Angle `json:"axis" required:"true" hint:"an angle from across the panel, such as \"90 deg\""`
	Tolerance unit.Angle `json:"tolerance" required:"true" hint:"an angle such as \"15 deg\""` // from 0 to 90 degrees
}
