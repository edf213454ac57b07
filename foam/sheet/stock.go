package sheet

import (
	"errors"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// ErrNoStock says a block cannot be made from the stock within the limits on
// plies and joins.
var ErrNoStock = errors.New("no stock sheet will do")

// Stock is a size of slab foam the merchant stocks, of one grade.
type Stock struct {
	Name      string      `json:"name"`
	Length    unit.Length `json:"length"`
	Width     unit.Length `json:"width"`
	Thickness unit.Length `json:"thickness"`
	Basis     cite.Basis  `json:"basis,omitzero"`
}

// Common gives the sheet sizes often stocked, each in the given thicknesses.
// The sizes are common practice.
func Common(thicknesses ...unit.Length) []Stock {
	const mm, in = unit.Millimetre, unit.Inch
	custom := cite.Basis{Status: cite.CommonPractice}
	noText := cite.Basis{Status: cite.CommonPractice, Note: "custom; no text was read for it"}
	faces := []Stock{
		{Name: "24 x 80 in", Length: 80 * in, Width: 24 * in, Basis: custom},
		{Name: "24 x 72 in", Length: 72 * in, Width: 24 * in, Basis: noText},
		{Name: "24 x 108 in", Length: 108 * in, Width: 24 * in, Basis: noText},
		{Name: "36 x 80 in", Length: 80 * in, Width: 36 * in, Basis: noText},
		{Name: "54 x 82 in", Length: 82 * in, Width: 54 * in, Basis: noText},
		{Name: "76 x 82 in", Length: 82 * in, Width: 76 * in, Basis: noText},
		{Name: "1000 x 2000 mm", Length: 2000 * mm, Width: 1000 * mm, Basis: noText},
		{Name: "1500 x 2000 mm", Length: 2000 * mm, Width: 1500 * mm, Basis: noText},
		{Name: "1600 x 2000 mm", Length: 2000 * mm, Width: 1600 * mm, Basis: noText},
	}
	out := make([]Stock, 0, len(faces)*len(thicknesses))
	for _, f := range faces {
		for _, t := range thicknesses {
			f.Thickness = t
			out = append(out, f)
		}
	}
	return out
}

// block is the sheet as a solid.
func (s Stock) block() foam.Block {
	return foam.Block{Length: s.Length, Width: s.Width, Thickness: s.Thickness}
}

// thicknesses lists those of the stock, the thickest first.
func thicknesses(stock []Stock) []unit.Length {
	out := make([]unit.Length, len(stock))
	for i, s := range stock {
		out[i] = s.Thickness
	}
	slices.Sort(out)
	out = slices.Compact(out)
	slices.Reverse(out)
	return out
}

func thicknessList(stock []Stock) string {
	var names []string
	for _, t := range thicknesses(stock) {
		names = append(names, t.String())
	}
	return strings.Join(names, ", ")
}
