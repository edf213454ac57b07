package findings

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Quantity is what findings are measured in; an int counts pieces.
type Quantity interface {
	unit.Length | unit.Area | unit.Volume | unit.Mass | int
}

// Buying says how a finding is bought. The zero value adds nothing and rounds
// nothing.
type Buying[Q Quantity] struct {
	Waste unit.Ratio `json:"waste,omitzero"` // of net and ends, 0 to 100 %; see [WasteOf]
	Step  Q          `json:"step,omitzero"`  // it is sold by; zero when any amount is
	Pack  Q          `json:"pack,omitzero"`  // it comes in, at least a step; zero without
}

// Steps is the way of a finding from the piece to the order, each step shown.
// What it costs is Use at a price, rounded once.
type Steps[Q Quantity] struct {
	Net    Q         `json:"net"`             // what lies in the piece
	Ends   Q         `json:"ends,omitzero"`   // what ends and joins take
	Gross  Q         `json:"gross"`           // with waste, rounded up to a whole piece or the smallest part of a unit
	Use    Q         `json:"use"`             // Gross rounded up to the step
	Packs  int       `json:"packs,omitzero"`  // to order if none is on the shelf; zero without a pack
	Bought Buying[Q] `json:"bought,omitzero"` // what it was worked out by
}

// Steps gives the steps of a net amount with its ends and joins:
//
//	gross = (net + ends) × (1 + waste)
//	use   = ceil(gross / step) × step
//	packs = ceil(use / pack)
//
// Errors name the field and wrap unit.ErrRange, unit.ErrNotFinite,
// unit.ErrForgottenUnit or unit.ErrOverflow.
func (b Buying[Q]) Steps(net, ends Q) (Steps[Q], error) {
	for _, f := range []struct {
		name string
		q    Q
	}{{"net", net}, {"ends", ends}, {"step", b.Step}, {"pack", b.Pack}} {
		if err := check.HasUnit(f.name, f.q); err != nil {
			return Steps[Q]{}, err
		}
		if f.q < 0 {
			return Steps[Q]{}, check.Refuse(f.name, fmt.Sprint(f.q), unit.ErrRange, "zero or more")
		}
	}
	if b.Pack > 0 && b.Pack < b.Step {
		return Steps[Q]{}, check.Refuse("pack", fmt.Sprint(b.Pack), unit.ErrRange, fmt.Sprintf("at least a step, %v", b.Step))
	}
	if err := check.Ratio("waste", b.Waste, 0, 1); err != nil {
		return Steps[Q]{}, err
	}
	s := Steps[Q]{Net: net, Ends: ends, Bought: b}
	gross, use, err := b.rounded(unit.Length(net), unit.Length(ends)) // any whole numbers
	if s.Gross, s.Use = Q(gross), Q(use); err != nil || unit.Length(s.Use) != use {
		return Steps[Q]{}, check.Refuse("net", fmt.Sprint(net), unit.ErrOverflow, "an amount that can be counted")
	}
	if b.Pack > 0 {
		packs := (s.Use-1)/b.Pack + 1
		if s.Use == 0 {
			packs = 0
		}
		if s.Packs = int(packs); Q(s.Packs) != packs {
			return Steps[Q]{}, check.Refuse("pack", fmt.Sprint(b.Pack), unit.ErrOverflow, "packs that can be counted")
		}
	}
	return s, nil
}

func (b Buying[Q]) rounded(net, ends unit.Length) (gross, use unit.Length, err error) {
	if gross, err = net.Plus(ends); err != nil {
		return 0, 0, err
	}
	waste, err := gross.Scale(b.Waste, unit.Up)
	if err != nil {
		return 0, 0, err
	}
	if gross, err = gross.Plus(waste); err != nil || b.Step == 0 {
		return gross, gross, err
	}
	use, err = gross.RoundTo(unit.Length(b.Step), unit.Up)
	return gross, use, err
}
