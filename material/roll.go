package material

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Roll is cloth or other goods sold by length. The zero value is refused.
//
// X runs across the usable width from its left edge, Y along the roll from
// the end that is cut first: the face is up, and that end is nearest to you.
type Roll struct {
	Name  string      `json:"name,omitempty"`
	Width unit.Length `json:"width"` // full width, from 10 in to 5 m
	// Selvage is the edge on each side that is not used, from zero up to a
	// quarter of the width.
	Selvage unit.Length `json:"selvage,omitzero"`
	// Repeat is the vertical repeat of the pattern as it is seen on the furniture:
	// along the roll, or across goods that run sideways. Zero for none, as of
	// stripes up the furniture. At most 3 m.
	Repeat unit.Length `json:"repeat,omitzero"`
	// Across is the horizontal repeat as it is seen on the furniture, from one
	// column of motifs to the next; zero for none. At most 3 m.
	Across unit.Length `json:"across,omitzero"`
	// AcrossLevel may be given in place of Across where the pattern drops: the
	// distance across to the next motif at the same height, twice Across at a half
	// drop. At most 192 m.
	AcrossLevel unit.Length `json:"across_level,omitzero"`
	// Drop is how far the next column of motifs to the right lies lower, as a
	// part of Repeat: half drop is 1/2. It needs both repeats.
	Drop Drop `json:"drop,omitzero"`
	// First is where a motif lies: X from the left edge of the usable width, Y
	// from the end that is cut first, from zero to 10 m each. Zero is a motif in
	// that corner, as on goods whose pattern starts at the selvage.
	First shape.Point `json:"first,omitzero"`
	// UnknownStart says that First.Y is not known before the goods are there: a
	// layout chooses it, and one repeat more is ordered, so that the bolt can be cut
	// back to it.
	UnknownStart bool `json:"unknown_start,omitempty"`
	// Up is where the top of the pattern, or of the nap, points on the roll.
	Up Up `json:"up,omitzero"`
	// Nap says that the pile has one direction: no piece may be turned.
	Nap bool `json:"nap,omitempty"`
	// OneWay says that the motifs have a top: no piece may be turned.
	OneWay bool `json:"one_way,omitempty"`
	// Even says that every motif is its own mirror image left for right, as an
	// even stripe or a balanced plaid is: the two hands of a pair are mirrored then.
	Even bool `json:"even,omitempty"`
	// Shrinkage is the share of its length the cloth loses before it is cut
	// or in use, 0 to 50 %; the order is made longer by it.
	Shrinkage unit.Ratio `json:"shrinkage,omitzero"`
	// Increment is the step the seller cuts to, such as an eighth of a yard;
	// zero for none.
	Increment unit.Length `json:"increment,omitzero"`
	// Flaws are places that no piece may touch.
	Flaws []Flaw `json:"flaws,omitempty"`
}

// Flaw is a place on the roll that no piece may touch. With a Width of zero
// it reaches right across.
type Flaw struct {
	X      unit.Length `json:"x,omitzero"` // of the lower left corner
	Y      unit.Length `json:"y,omitzero"`
	Width  unit.Length `json:"width,omitzero"`
	Length unit.Length `json:"length"` // along the roll
}

// Usable gives the width between the selvages.
func (r Roll) Usable() unit.Length { return r.Width - 2*r.Selvage }

// mostFlaws is the largest number of flaws on one roll.
const mostFlaws = 1000

// Check gives nil for a roll that layouts accept, else an error that names the
// field and wraps unit.ErrRange, unit.ErrNotFinite or unit.ErrForgottenUnit.
func (r Roll) Check() error {
	if err := check.Length("roll.width", r.Width, 10*unit.Inch, 5*unit.Metre); err != nil {
		return err
	}
	if err := check.Length("roll.selvage", r.Selvage, 0, r.Width/4); err != nil {
		return err
	}
	if err := check.Length("roll.repeat", r.Repeat, 0, 3*unit.Metre); err != nil {
		return err
	}
	if err := check.Length("roll.across", r.Across, 0, 3*unit.Metre); err != nil {
		return err
	}
	if err := r.checkPattern(); err != nil {
		return err
	}
	if err := check.Ratio("roll.shrinkage", r.Shrinkage, 0, 0.5); err != nil {
		return err
	}
	if err := check.Length("roll.increment", r.Increment, 0, 10*unit.Metre); err != nil {
		return err
	}
	if err := check.Count("roll.flaws", len(r.Flaws), 0, mostFlaws); err != nil {
		return err
	}
	for i, f := range r.Flaws {
		if err := f.check(fmt.Sprintf("roll.flaws[%d]", i), r.Usable()); err != nil {
			return err
		}
	}
	return nil
}

// Across gives the width of a flaw on a roll: a Width of zero reaches from X to
// the right edge of the usable width.
func (f Flaw) Across(r Roll) unit.Length {
	if f.Width == 0 {
		return r.Usable() - f.X
	}
	return f.Width
}

func (f Flaw) check(field string, usable unit.Length) error {
	if err := check.Length(field+".x", f.X, 0, usable); err != nil {
		return err
	}
	if err := check.Length(field+".width", f.Width, 0, usable-f.X); err != nil {
		return err
	}
	if err := check.NotNegative(field+".y", f.Y); err != nil {
		return err
	}
	return check.Length(field+".length", f.Length, unit.Millimetre, 100*unit.Metre)
}

// Order gives the length to buy: need, made longer by what the cloth shrinks,
// rounded up to the seller's increment. It wraps unit.ErrRange,
// unit.ErrForgottenUnit or unit.ErrOverflow.
func (r Roll) Order(need unit.Length) (unit.Length, error) {
	if err := check.Length("roll.increment", r.Increment, 0, 10*unit.Metre); err != nil {
		return 0, err
	}
	l, err := GrossLength(need, r.Shrinkage)
	if err != nil || r.Increment == 0 {
		return l, err
	}
	return l.RoundTo(r.Increment, unit.Up)
}
