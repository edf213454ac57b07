package material

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Roll is cloth or other goods sold by length. The zero value is refused.
type Roll struct {
	Name  string
	Width unit.Length // full width, from 10 in to 5 m
	// Selvage is the edge on each side that is not used, from zero up to a
	// quarter of the width.
	Selvage unit.Length
	// Repeat is the vertical repeat of the pattern, along the roll; zero for
	// plain goods. At most 3 m.
	Repeat unit.Length
	// Nap says that the goods have one direction: no piece may be turned.
	Nap bool
	// Increment is the step the seller cuts to, such as an eighth of a yard;
	// zero for none.
	Increment unit.Length
}

// Usable gives the width between the selvages.
func (r Roll) Usable() unit.Length { return r.Width - 2*r.Selvage }

// Check gives nil for a roll that layouts accept, else an error that names the
// field and wraps unit.ErrRange or unit.ErrForgottenUnit.
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
	return check.Length("roll.increment", r.Increment, 0, 10*unit.Metre)
}

// Order gives the length to buy: need rounded up to the seller's increment.
// It wraps unit.ErrRange, unit.ErrForgottenUnit or unit.ErrOverflow.
func (r Roll) Order(need unit.Length) (unit.Length, error) {
	if err := check.NotNegative("length", need); err != nil {
		return 0, err
	}
	if err := check.Length("roll.increment", r.Increment, 0, 10*unit.Metre); err != nil {
		return 0, err
	}
	if r.Increment == 0 {
		return need, nil
	}
	return need.RoundTo(r.Increment, unit.Up)
}

// Turn says how a piece may lie on the goods. The zero value keeps the grain.
type Turn uint8

const (
	// KeepGrain keeps the top of the piece along the roll. On goods without
	// nap or repeat it may lie upside down, which changes nothing for a box.
	KeepGrain Turn = iota
	// QuarterTurn lets the piece be railroaded too, where the goods have
	// neither nap nor repeat.
	QuarterTurn
)

// Piece is a rectangle to cut, or the box around a panel: Count pieces of
// Width across the roll by Length along it.
type Piece struct {
	Name   string
	Width  unit.Length
	Length unit.Length
	Count  int // at least 1
	Turn   Turn
	// Unmatched says that the piece need not lie on the repeat: welt strips,
	// hidden bands. It means nothing on plain goods.
	Unmatched bool
}
