package stock

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Length is a length of goods at hand: of the shop's stock, or the customer's own. It is
// written as it is read, so that what a layout leaves can be pasted where goods at hand
// stand.
type Length struct {
	Name   string      `json:"name" required:"true" hint:"what it is called, such as \"rest of the Hale sofa\""`
	Length unit.Length `json:"length" required:"true" hint:"along the roll, as measured"`
	Width  unit.Length `json:"width,omitzero"` // with its selvages; that of the goods when not given
	// Selvage is the unused edge on each side; that of the goods when not given.
	Selvage *unit.Length `json:"selvage,omitempty"`
	// Remnant says that it takes whole pieces before any length does; it need not take
	// all of them. Others take all the pieces that are left, or none.
	Remnant bool `json:"remnant,omitempty"`
	// FirstMotif is where a motif lies on it, as of the goods, which say it when it is not
	// given.
	FirstMotif *shape.Point `json:"first_motif,omitempty"`
	Shrunk     bool         `json:"shrunk,omitempty"` // it has lost already what the goods shrink
	Flaws      []Flaw       `json:"flaws,omitempty"`  // places on it that nothing may lie on
}

// Flaw is a place on a length that no piece may touch, measured from the left edge of the
// usable width and from the end that is cut first. Without a width it reaches right
// across.
type Flaw struct {
	X      unit.Length `json:"x,omitzero"` // from the left; 0 when not given
	Y      unit.Length `json:"y" required:"true" hint:"how far along the roll"`
	Width  unit.Length `json:"width,omitzero"` // across the roll; all of it when not given
	Length unit.Length `json:"length" required:"true" hint:"its length along the roll"`
}

// Keep is the least rectangle that is worth keeping.
type Keep struct {
	Width  unit.Length `json:"width" required:"true" hint:"from 10 in"`
	Length unit.Length `json:"length" required:"true" hint:"from 10 in"`
}

// Usual is what is worth keeping where nobody says it: 12 x 18 in, which takes the
// smaller pieces of a chair.
func Usual() Keep { return Keep{Width: 12 * unit.Inch, Length: 18 * unit.Inch} }

// Check gives nil for sizes that leftovers have, else an error that names the field and
// wraps unit.ErrRange or unit.ErrForgottenUnit.
func (k Keep) Check() error {
	if err := check.Length("width", k.Width, 10*unit.Inch, check.Longest); err != nil {
		return err
	}
	return check.Length("length", k.Length, 10*unit.Inch, check.Longest)
}

// Of gives the length to a layout, as one of goods on a roll: with what it has of its
// own, without increment and without the flaws of others.
func (l Length) Of(goods material.Roll) material.Stock {
	r := goods
	r.Name, r.Increment, r.Flaws = l.Name, 0, nil
	if l.Width != 0 {
		r.Width = l.Width
	}
	if l.Selvage != nil {
		r.Selvage = *l.Selvage
	}
	if l.FirstMotif != nil {
		r.First, r.UnknownStart = *l.FirstMotif, false
	}
	if l.Shrunk {
		r.Shrinkage = 0
	}
	for _, f := range l.Flaws {
		r.Flaws = append(r.Flaws, material.Flaw(f))
	}
	return material.Stock{Roll: r, Length: l.Length}
}

// Check gives nil for a length that a layout of such goods accepts, else an error that
// names the field of the length and wraps unit.ErrRange, unit.ErrNotFinite or
// unit.ErrForgottenUnit.
func (l Length) Check(goods material.Roll) error {
	return check.Renamed(check.Inner(l.Of(goods).Check(), "roll"), map[string]string{"first": "first_motif"})
}

// Remnant writes goods at hand that a layout of some goods left, so that Of gives them
// again.
func Remnant(name string, s material.Stock, goods material.Roll) Length {
	out := Length{Name: name, Length: s.Length, Width: s.Roll.Width, Remnant: true, Shrunk: goods.Shrinkage != 0}
	if selvage := s.Roll.Selvage; selvage != goods.Selvage {
		out.Selvage = &selvage
	}
	if first := s.Roll.First; s.Roll.Patterned() {
		out.FirstMotif = &first
	}
	return out
}
